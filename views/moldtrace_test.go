package views

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/views/drawing"
)

// The invented photo: a mold of 400 by 300 mm whose corners are at these
// pixels, and in it an ellipse of wood with a hole.
const (
	shotWide, shotHigh = 1000, 800
	woodX, woodY       = 500, 400
	woodLong, woodHigh = 300, 200 // half axes in pixels
	holeX, holeY       = 580, 420
	holeRadius         = 40
)

var shotCorners = [4]shape.Point{{X: 100, Y: 100}, {X: 900, Y: 100}, {X: 900, Y: 700}, {X: 100, Y: 700}}

// shotFile writes the photo and gives where.
func shotFile(t testing.TB) fyne.URI {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, shotWide, shotHigh))
	for y := range shotHigh {
		for x := range shotWide {
			c := color.RGBA{196, 197, 200, 255}
			u, v := (float64(x)+0.5-woodX)/woodLong, (float64(y)+0.5-woodY)/woodHigh
			switch {
			case math.Hypot(float64(x)+0.5-holeX, float64(y)+0.5-holeY) < holeRadius:
				c = color.RGBA{222, 222, 226, 255}
			case u*u+v*v < 1:
				grain := uint8(8 + 8*math.Sin(float64(y)/5+float64(x)/90))
				c = color.RGBA{150 + grain, 104 + grain/2, 62, 255}
			case x >= 100 && x < 900 && y >= 100 && y < 700:
				c = color.RGBA{222, 222, 226, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	path := filepath.Join(t.TempDir(), "slab.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, m); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return storage.NewFileURI(path)
}

// traceOn opens the mold window over a measured mold with a photo dropped on it.
func traceOn(t *testing.T) (*bench, *moldPage, *traceView) {
	t.Helper()
	b, p := moldOn(t, "")
	for path, text := range map[string]string{"mold/length": "400 mm", "mold/width": "300 mm", "mold/depth": "50 mm"} {
		b.Enter(path, text)
	}
	b.settle()
	v := p.slab.trace
	v.dropped(fyne.NewPos(10, 10), []fyne.URI{shotFile(t)})
	b.until("the photo is shown", func() bool {
		shot := b.Snapshot()
		face := v.tracing(&shot.Project)
		return face != nil && face.Photo != "" && v.photo == face.Photo && v.surface.Visible()
	})
	b.settle()
	return b, p, v
}

// at gives where a pixel is shown.
func (t *traceView) at(x, y float64) fyne.Position {
	k, o := t.surface.View()
	return fyne.NewPos(float32(o.X+k*x), float32(o.Y+k*y))
}

// press puts a finger on a pixel.
func (t *traceView) press(x, y float64) {
	t.surface.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: t.at(x, y)}, Button: desktop.MouseButtonPrimary})
}

// tapAt touches a pixel, and waits for what comes of it.
func (b *bench) tapAt(v *traceView, x, y float64) {
	b.t.Helper()
	at := v.at(x, y)
	v.press(x, y)
	v.surface.MouseUp(&desktop.MouseEvent{})
	v.surface.Tapped(&fyne.PointEvent{Position: at})
	b.settle()
}

// dragAt draws a finger from one pixel by so many dp, in steps.
func (b *bench) dragAt(v *traceView, x, y float64, dx, dy float32) {
	b.t.Helper()
	at := v.at(x, y)
	v.press(x, y)
	const steps = 20
	for i := range steps {
		k := float32(i+1) / steps
		v.surface.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(k*dx, k*dy)}, Dragged: fyne.NewDelta(dx/steps, dy/steps)})
	}
	v.surface.MouseUp(&desktop.MouseEvent{})
	v.surface.DragEnd()
	b.settle()
}

func (t *traceView) key(name fyne.KeyName) { t.surface.TypedKey(&fyne.KeyEvent{Name: name}) }

// corners touches the four corners of the mold.
func (b *bench) corners(v *traceView) {
	b.t.Helper()
	for _, c := range shotCorners {
		b.tapAt(v, c.X, c.Y)
	}
}

// face gives the tracing of the upper face.
func (b *bench) face() *model.Tracing {
	shot := b.Snapshot()
	return &shot.Project.Slabs[0].Upper
}

func TestTraceGuidesToAPhoto(t *testing.T) {
	_, p := moldOn(t, "")
	p.pane.show(moldSlabs)
	if !shows(p.slab.root, "straight above") || !shows(p.slab.root, "Choose a photo") {
		t.Errorf("it says %q", texts(p.slab.root))
	}
	if p.slab.trace.surface.Visible() {
		t.Error("there is a surface without a photo")
	}
}

func TestTraceSaysWhyAPictureIsNotTaken(t *testing.T) {
	b, p := moldOn(t, "")
	v := p.slab.trace
	path := filepath.Join(t.TempDir(), "notes.txt")
	if err := os.WriteFile(path, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	v.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	if p.pane.section != moldSlabs {
		t.Error("the section of the slab is not turned to")
	}
	b.until("it says why", func() bool { return strings.Contains(v.why[1].Text(), "“notes.txt” was not kept: ") })
	if len(b.Snapshot().Project.Slabs) != 0 {
		t.Error("a slab was added for no picture")
	}
	v.dropped(fyne.Position{}, []fyne.URI{shotFile(t)})
	b.until("the photo is there", func() bool { return v.surface.Visible() })
	if shows(p.slab.root, "was not kept") {
		t.Error("the next attempt does not clear the message")
	}
}

func TestTraceMarksOneByOne(t *testing.T) {
	b, p, v := traceOn(t)
	if !strings.Contains(v.next.Text(), "far left corner of the mold") {
		t.Errorf("first it says %q", v.next.Text())
	}
	b.corners(v)
	face := b.face()
	if len(face.Marks) != 4 {
		t.Fatalf("%d marks", len(face.Marks))
	}
	k, _ := v.surface.View()
	for i, m := range face.Marks {
		if math.Hypot(m.X-shotCorners[i].X, m.Y-shotCorners[i].Y) > 0.6/k {
			t.Errorf("mark %d is at %v, %v", i+1, m.X, m.Y)
		}
	}
	b.tapAt(v, 400, 400)
	if len(b.face().Marks) != 4 {
		t.Error("a fifth corner is taken")
	}
	if !strings.Contains(v.next.Text(), "All four corners are set") {
		t.Errorf("then it says %q", v.next.Text())
	}
	for want := 3; want >= 0; want-- {
		if label := b.Snapshot().Undo; label != "Mark "+count(want+1) {
			t.Errorf("undo would take back %q", label)
		}
		b.Undo()
		b.until("the mark is gone", func() bool { return len(b.face().Marks) == want })
	}
	_ = p
}

// TestTraceMovesAMark: by the finger's movement from beside it, as one step, the
// loupe shown meanwhile; then by keys.
func TestTraceMovesAMark(t *testing.T) {
	b, _, v := traceOn(t)
	b.corners(v)
	k, _ := v.surface.View()
	before := b.face().Marks[1]
	v.press(before.X-10/k, before.Y+8/k)
	if at, shown := v.surface.Loupe(); !shown || at.X != before.X || at.Y != before.Y {
		t.Errorf("the loupe shows %v, %v", at, shown)
	}
	v.surface.MouseUp(&desktop.MouseEvent{})
	v.surface.Tapped(&fyne.PointEvent{Position: v.at(before.X-10/k, before.Y+8/k)})
	if _, shown := v.surface.Loupe(); shown {
		t.Error("the loupe stays")
	}
	b.dragAt(v, before.X-10/k, before.Y+8/k, -30, 0)
	after := b.face().Marks[1]
	if moved := (after.X - before.X) * k; math.Abs(moved+26) > 0.5 || math.Abs(after.Y-before.Y) > 0.02 {
		t.Errorf("30 dp of the finger, 4 of them slop, moved it by %v dp", moved)
	}
	if label := b.Snapshot().Undo; label != "Move mark 2" {
		t.Errorf("undo would take back %q", label)
	}
	for range 3 {
		v.key(fyne.KeyRight)
	}
	b.settle()
	if now := b.face().Marks[1]; now.X != after.X+3 || now.Y != after.Y {
		t.Errorf("three steps right led from %v to %v", after, now)
	}
	b.Undo()
	b.until("the steps by key are one", func() bool { return b.face().Marks[1] == after })
	b.Undo()
	b.until("the drag is one step", func() bool { return b.face().Marks[1] == before })
	v.key(fyne.KeyDelete)
	b.settle()
	if len(b.face().Marks) != 3 || b.Snapshot().Undo != "Remove mark 2" {
		t.Errorf("%d marks, undo %q", len(b.face().Marks), b.Snapshot().Undo)
	}
}

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

func TestTraceIsLedTo(t *testing.T) {
	b, p, v := traceOn(t)
	b.corners(v)
	slab := b.Snapshot().Project.Slabs[0].ID
	p.pane.show(moldSizes)
	v.turn(traceFind)
	if !p.focus("slabs/" + slab + "/upper/marks") {
		t.Fatal("it does not lead anywhere")
	}
	if p.pane.section != moldSlabs || v.work != traceCorners || p.slab.mode != slabPhoto {
		t.Errorf("it leads to %q, %q, %q", p.pane.section, v.work, p.slab.mode)
	}
	second := b.face().Marks[1].ID
	p.focus("slabs/" + slab + "/upper/marks/" + second)
	if v.spot != (drawing.Spot{Mark: second}) {
		t.Errorf("it chooses %v", v.spot)
	}
	p.focus("slabs/" + slab + "/under")
	if v.face != model.FaceUnder || v.surface.Visible() {
		t.Error("the under face is not turned to")
	}
}

// TestTraceByMeasuredPoints: more than four points with places of their own are
// taken, and how far they miss them is shown, one by one and together.
func TestTraceByMeasuredPoints(t *testing.T) {
	b, p, v := traceOn(t)
	at := "slabs/" + b.Snapshot().Project.Slabs[0].ID + "/upper"
	b.Enter(at+"/by", string(model.ByPoints))
	b.settle()
	if !v.works[1].Visible() || v.works[0].Visible() {
		t.Error("the marks are still called corners")
	}
	b.corners(v)
	b.tapAt(v, 500, 400)
	marks := b.face().Marks
	if len(marks) != 5 {
		t.Fatalf("%d marks", len(marks))
	}
	for i, place := range [5][2]string{{"0", "300 mm"}, {"400 mm", "300 mm"}, {"400 mm", "0"}, {"0", "0"}, {"205 mm", "150 mm"}} {
		for k, name := range [2]string{"at", "up"} {
			path := at + "/marks/" + marks[i].ID + "/" + name
			f := p.in.form.Field(path)
			if f == nil {
				t.Fatalf("there is no input for %s", path)
			}
			f.Restore(place[k])
			f.Commit()
			b.settle()
		}
	}
	if !shows(p.pane.root, "The marks miss their places by") || !shows(p.pane.root, "Mark 5, off by ") {
		t.Errorf("it says %q", texts(p.pane.root))
	}
}

// TestTraceAsksForTheSides: once the corners of a card are set, its sides are
// asked for, and no sooner; the way there leads to the input.
func TestTraceAsksForTheSides(t *testing.T) {
	b, p, v := traceOn(t)
	at := "slabs/" + b.Snapshot().Project.Slabs[0].ID + "/upper"
	b.Enter(at+"/by", string(model.ByCard))
	b.settle()
	of := func() model.Problem {
		shot := b.Snapshot()
		return shot.Plan.Slabs[0].Upper.Wrong[0]
	}
	if w := of(); w.Field != at+"/marks" || v.give.Visible() {
		t.Errorf("before a corner is touched it asks for %+v", w)
	}
	high := v.foot.MinSize().Height
	b.corners(v)
	if w := of(); w.Field != at+"/long" || !strings.Contains(v.next.Text(), "two sides") || !v.give.Visible() {
		t.Errorf("then it asks for %+v: %q", w, v.next.Text())
	}
	if got := v.foot.MinSize().Height; got != high {
		t.Errorf("the foot grew from %v to %v", high, got)
	}
	held := ""
	p.in.form.OnFocus = func(path string) { held = path }
	v.give.OnTapped()
	b.until("the input has the focus", func() bool { return held == at+"/long" })
	b.Enter(at+"/long", "400 mm")
	b.settle()
	if !strings.Contains(v.next.Text(), "second side") {
		t.Errorf("with one side it says %q", v.next.Text())
	}
	b.Enter(at+"/broad", "300 mm")
	b.settle()
	if v.give.Visible() || !strings.Contains(v.next.Text(), "All four corners are set") {
		t.Errorf("with both it says %q", v.next.Text())
	}
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

// TestTraceMarkKeepsTheFocus: a new measured point is nudged by the arrow keys
// at once, though it brings inputs.
func TestTraceMarkKeepsTheFocus(t *testing.T) {
	b, p, v := traceOn(t)
	at := "slabs/" + b.Snapshot().Project.Slabs[0].ID + "/upper"
	b.Enter(at+"/by", string(model.ByPoints))
	b.settle()
	b.corners(v)
	for range 5 {
		b.settle()
	}
	last := b.face().Marks[3]
	if !v.surface.HasFocus() || p.in.form.Field(at+"/marks/"+last.ID+"/at") == nil {
		t.Fatal("the focus is not on the photo")
	}
	v.key(fyne.KeyRight)
	b.settle()
	if now := b.face().Marks[3]; now.X != last.X+1 {
		t.Errorf("a step right led from %v to %v", last, now)
	}
	held := ""
	p.in.form.OnFocus = func(path string) { held = path }
	v.give.OnTapped()
	b.until("the input has the focus", func() bool { return strings.HasSuffix(held, "/at") })
}

// TestSlabAnswers: the head tells of the slab, in as many lines as elsewhere.
func TestSlabAnswers(t *testing.T) {
	b, p, v := traceOn(t)
	b.corners(v)
	if got := p.frame.answer.Text(); !strings.Contains(got, "has no size yet\n") {
		t.Errorf("it says %q", got)
	}
	v.turn(traceFind)
	b.tapAt(v, 350, 400)
	b.until("the outline is found", func() bool { return len(b.face().Rings) > 0 && !v.seek.busy })
	b.settle()
	if got := p.frame.answer.Text(); !strings.Contains(got, "cm²\nbetween ") {
		t.Errorf("it says %q", got)
	}
	p.pane.show(moldSizes)
	if got := p.frame.answer.Text(); !strings.Contains(got, "No wood is measured yet") || p.frame.question.Text() != moldQuestion {
		t.Errorf("elsewhere it says %q", got)
	}
}

// TestNoticeMovesNothing: what can be touched stays where it is while a notice
// comes and goes.
func TestNoticeMovesNothing(t *testing.T) {
	b, p, v := traceOn(t)
	where := func() fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(v.surface)
	}
	before := where()
	b.desk.sayBriefly("The cutting sheet is saved in some place", "Print it at 100 %, not fit to page.")
	b.settle()
	if !shows(p.frame.banner.over, "Print it") || where() != before {
		t.Errorf("the photo moves from %v to %v", before, where())
	}
	over, acts := p.frame.banner.over, p.frame.acts
	end := fyne.CurrentApp().Driver().AbsolutePositionForObject(over).X + over.Size().Width
	if over.Size().Height < 20 || end > fyne.CurrentApp().Driver().AbsolutePositionForObject(acts).X {
		t.Errorf("the notice is %v wide and high and ends at %v, over undo", over.Size(), end)
	}
	b.desk.hush()
	if where() != before || len(over.Objects) != 0 {
		t.Error("the notice does not go")
	}
}

// TestTraceKeepsDrafts: what cannot be taken stays as it was typed, and is said
// by its field.
func TestTraceKeepsDrafts(t *testing.T) {
	b, p, _ := traceOn(t)
	path := "slabs/" + b.Snapshot().Project.Slabs[0].ID + "/thickness"
	f := p.in.form.Field(path)
	if f == nil {
		t.Fatal("there is no input for the thickness")
	}
	f.Restore("thick")
	f.Commit()
	b.settle()
	if text, _, bad := func() (string, string, bool) { s := b.Snapshot(); return s.Problem(path) }(); !bad || text != "thick" {
		t.Errorf("the draft is %q", text)
	}
	if f.Text() != "thick" {
		t.Errorf("the field shows %q", f.Text())
	}
}

// BenchmarkTracePush pushes an outline of 20,000 points: one movement of the
// finger, from the touch to the scene that is drawn.
func BenchmarkTracePush(b *testing.B) {
	bench := newBench(b, newFakeStore())
	bench.Create("New piece")
	bench.until("it is open", func() bool { return bench.Snapshot().Open })
	w := bench.desk.Show(moldKey)
	w.Resize(fyne.NewSize(1240, 700))
	p := bench.desk.pages[moldKey].(*moldPage)
	v := p.slab.trace
	v.dropped(fyne.Position{}, []fyne.URI{shotFile(b)})
	bench.until("the photo is shown", func() bool { return v.surface.Visible() })
	ring := make(shape.Ring, 20000)
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

// TestTraceOffersTheRise: until it is said how high the wood's face lies its area
// is not sure; where it most often lies is offered as one touch, which is one
// step of undo.
func TestTraceOffersTheRise(t *testing.T) {
	b, p, v := traceOn(t)
	b.Enter("slabs/"+v.slab.slab+"/thickness", "35 mm")
	for _, k := range shotCorners {
		b.tapAt(v, k.X, k.Y)
	}
	if err := b.Edit("Trace", "", func(q *model.Project) error {
		q.Slabs[0].Upper.Rings = []model.TracedRing{{ID: "r1", Kind: model.RingWood, Points: shape.Ring{{X: 300, Y: 300}, {X: 700, Y: 300}, {X: 700, Y: 500}, {X: 300, Y: 500}}}}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	for _, words := range []string{"Wood's face above (+) or below (−) the corners", "It lies on the mold's floor: −15 mm", "It lies on the rim: +35 mm", "Not sure, by ±"} {
		if !shows(p.pane.root, words) {
			t.Errorf("it does not show %q: %q", words, texts(p.pane.root))
		}
	}
	tapOn(t, p.pane.root, "It lies on the mold's floor")
	b.settle()
	if r := b.Snapshot().Project.Slabs[0].Upper.Rise; math.Abs(r.Value.Millimetres()+15) > 1e-9 {
		t.Errorf("the rise is %+v", r)
	}
	if shows(p.pane.root, "Not sure, by ±") {
		t.Errorf("said, it still shows %q", texts(p.pane.root))
	}
	b.Undo()
	b.settle()
	if b.Snapshot().Project.Slabs[0].Upper.Rise.Given() || !shows(p.pane.root, "Not sure, by ±") {
		t.Error("it cannot be undone")
	}
}
