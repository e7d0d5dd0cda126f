package views

import (
	"fmt"
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"meniscus/model"
	"meniscus/model/shape"
)

func TestTracePointByPoint(t *testing.T) {
	b, _, v := traceOn(t)
	v.turn(tracePoints)
	square := []shape.Point{{X: 300, Y: 300}, {X: 700, Y: 300}, {X: 700, Y: 500}, {X: 300, Y: 500}}
	for _, q := range square {
		b.tapAt(v, q.X, q.Y)
	}
	if r := b.face().Rings; len(r) != 1 || len(r[0].Points) != 4 || v.open != r[0].ID {
		t.Fatalf("%+v, open %q", r, v.open)
	}
	b.tapAt(v, square[0].X, square[0].Y)
	if v.open != "" {
		t.Error("a touch of the first point does not close the outline")
	}
	b.tapAt(v, 300, 400) // on its last side
	if r := b.face().Rings[0]; len(r.Points) != 5 || math.Abs(r.Points[4].Y-400) > 2 {
		t.Errorf("a touch on the line gives %v", r.Points)
	}
	v.key(fyne.KeyDelete)
	b.settle()
	b.around(v, model.RingHole)
	b.tapAt(v, 500, 400) // beside the outline, which lets go of it
	if v.spot.Ring != "" || len(b.face().Rings) != 1 {
		t.Errorf("a touch beside the outline leaves %v chosen, and %d outlines", v.spot, len(b.face().Rings))
	}
	b.tapAt(v, 500, 400)
	if r := b.face().Rings; len(r) != 2 || r[1].Kind != model.RingHole {
		t.Errorf("a touch elsewhere does not begin a hole: %+v", r)
	}
	if got := b.Snapshot().Undo; got != "Point 1 of a hole" {
		t.Errorf("undo would take back %q", got)
	}
	for want := 4; want >= 1; want-- {
		b.until("undone", func() bool {
			r := b.face().Rings
			if len(r) == 1 && len(r[0].Points) == want {
				return true
			}
			b.Undo()
			b.settle()
			return false
		})
	}
}

func (b *bench) around(v *traceView, kind model.RingKind) {
	v.around(string(kind))
	b.settle()
}

// TestTraceFindsAndPushes: the wood's outline and its hole are found from one
// touch, lie where they were drawn, and are pushed as one step each.
func TestTraceFindsAndPushes(t *testing.T) {
	b, p, v := traceOn(t)
	b.corners(v)
	v.turn(traceFind)
	if v.reach.Visible() || !v.room.Visible() {
		t.Error("there is a reach before anything was found")
	}
	b.tapAt(v, 350, 400)
	b.until("the outline is found", func() bool { return len(b.face().Rings) > 0 })
	b.settle()
	face := b.face()
	if len(face.Rings) != 2 || face.Rings[0].Kind != model.RingWood || face.Rings[1].Kind != model.RingHole {
		t.Fatalf("found %d outlines", len(face.Rings))
	}
	worst := 0.0
	for _, q := range face.Rings[0].Points {
		u, w := (q.X-woodX)/woodLong, (q.Y-woodY)/woodHigh
		worst = max(worst, math.Abs(math.Hypot(u, w)-1)*woodHigh)
	}
	if worst > 2 {
		t.Errorf("the outline is up to %.1f px off the ellipse", worst)
	}
	if !v.reach.Visible() {
		t.Error("there is no reach after it was found")
	}
	found := b.Snapshot().Undo
	b.tapAt(v, 420, 330)
	b.until("it is found anew", func() bool { return b.face().Rings[0].ID != face.Rings[0].ID && !v.seek.busy })
	b.settle()
	if face = b.face(); len(face.Rings) != 2 || b.Snapshot().Undo != found {
		t.Errorf("found anew there are %d outlines, and undo takes back %q", len(face.Rings), b.Snapshot().Undo)
	}
	b.reachMore(v)
	if face = b.face(); len(face.Rings) != 2 {
		t.Errorf("with another reach there are %d outlines", len(face.Rings))
	}
	v.turn(tracePush)
	before := face.Rings[0].Points
	b.dragAt(v, woodX, woodY-woodHigh, 0, -20)
	after := b.face().Rings[0].Points
	k, _ := v.surface.View()
	_, hi := before.Bounds()
	lo0, _ := before.Bounds()
	lo1, hi1 := after.Bounds()
	if pushed := (lo0.Y - lo1.Y) * k; pushed < 8 || pushed > 21 || hi1 != hi {
		t.Errorf("a push of 20 dp moved the top by %v dp", pushed)
	}
	if b.Snapshot().Undo != "Push the outline" {
		t.Errorf("undo would take back %q", b.Snapshot().Undo)
	}
	b.Undo()
	b.until("the push is taken back", func() bool {
		return len(b.face().Rings[0].Points) == len(before) && b.face().Rings[0].Points[0] == before[0]
	})
	b.settle()
	if r := v.surface.Scene().Rings[0]; len(r.Points) != len(before) {
		t.Error("the surface still shows the push")
	}
	_ = p
}

// reachMore draws the reach on, and waits for what it finds.
func (b *bench) reachMore(v *traceView) {
	b.t.Helper()
	old := b.face().Rings[0].ID
	v.seekAgain(0.2)
	b.until("it is found with more reach", func() bool { return !v.seek.busy && (b.face().Rings[0].ID != old || v.why[0].Text() != "") })
	b.settle()
}

// TestTraceUndoneFindIsForgotten: the reach goes with the outline that it is of.
func TestTraceUndoneFindIsForgotten(t *testing.T) {
	b, _, v := traceOn(t)
	b.corners(v)
	v.turn(traceFind)
	b.tapAt(v, 350, 400)
	b.until("the outline is found", func() bool { return len(b.face().Rings) > 0 && !v.seek.busy })
	b.settle()
	b.reachMore(v)
	if !v.reach.Visible() {
		t.Fatal("there is no reach after it was found")
	}
	b.until("it is undone", func() bool {
		if len(b.face().Rings) == 0 {
			return true
		}
		b.Undo()
		b.settle()
		return false
	})
	if v.reach.Visible() {
		t.Error("the reach stays")
	}
	v.seekAgain(0.2)
	b.settle()
	if v.seek.busy || len(b.face().Rings) != 0 {
		t.Error("the outline is looked for again")
	}
}

// BenchmarkTracePush pushes an outline: one movement of the finger, from the touch
// to the scene that is drawn.
func BenchmarkTracePush(b *testing.B) {
	for _, points := range []int{500, 5000, 20_000} {
		b.Run(fmt.Sprintf("points=%d", points), func(b *testing.B) { pushTraced(b, points) })
	}
}

func pushTraced(b *testing.B, points int) {
	bench := newBench(b, newFakeStore())
	bench.Create("New piece")
	bench.until("it is open", func() bool { return bench.Snapshot().Open })
	w := bench.desk.Show(moldKey)
	w.Resize(fyne.NewSize(1240, 700))
	p := bench.desk.pages[moldKey].(*moldPage)
	v := p.slab.trace
	v.dropped(fyne.Position{}, []fyne.URI{shotFile(b)})
	bench.until("the photo is shown", func() bool { return v.surface.Visible() })
	ring := make(shape.Ring, points)
	for i := range ring {
		a := 2 * math.Pi * float64(i) / float64(len(ring))
		ring[i] = shape.Point{X: woodX + woodLong*math.Cos(a), Y: woodY + woodHigh*math.Sin(a)}
	}
	id := ""
	if err := bench.Edit("outline", "", func(p *model.Project) (err error) {
		id, err = p.AddRing(p.Slabs[0].ID, model.FaceUpper, model.RingWood, ring)
		return err
	}); err != nil {
		b.Fatal(err)
	}
	bench.settle()
	at := shape.Point{X: woodX, Y: woodY - woodHigh}
	for b.Loop() {
		v.pushOn(id, at, shape.Point{X: at.X + 2, Y: at.Y - 1}, 40)
	}
}
