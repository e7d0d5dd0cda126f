package views

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model"
	"meniscus/model/shape"
)

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
