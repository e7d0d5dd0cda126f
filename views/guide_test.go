package views

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// guideRow finds the row of the guidance with a step.
func (b *bench) guideRow(t *testing.T, i int) *touch.Row {
	t.Helper()
	for _, o := range test.LaidOutObjects(b.notebook().piece.guide.root) {
		if r, ok := o.(*touch.Row); ok && shows(r, guideSteps[i].words) {
			return r
		}
	}
	t.Fatalf("no row for %q", guideSteps[i].words)
	return nil
}

// guideStands lists what is ticked off in the notebook.
func (b *bench) guideStands() (list []model.Try) {
	for i, tick := range b.notebook().piece.guide.ticks {
		if tick.on {
			list = append(list, guideSteps[i].try)
		}
	}
	return list
}

// TestGuideTeachesByTouch: with a demo open, each step leads to its place by one
// touch, is shown there, and is ticked off once it has been done, not before.
func TestGuideTeachesByTouch(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.desk.windows.Window(notebookKey).Resize(fyne.NewSize(1180, 700))
	b.demo("poppy-stand")
	d := b.desk
	if !b.notebook().piece.guide.root.Visible() || len(b.guideStands()) != 0 {
		t.Fatalf("the guidance stands at %v", b.guideStands())
	}
	layer := b.Snapshot().Project.Layers
	top := "layers/" + layer[len(layer)-1].ID + "/to"
	var want []model.Try
	for i, c := range []struct {
		key string
		do  func()
	}{
		{moldKey, func() {
			p := d.pages[moldKey].(*moldPage)
			p.draw.plan.OnMovePiece(p.piece, 5*unit.Millimetre, 0, true)
		}},
		{layersKey, func() {
			f := d.pages[layersKey].(*layersPage).in.form.Field(top)
			if f == nil {
				t.Fatal("the step leads to no input of the pour's top")
			}
			f.OnCommit("13 mm")
		}},
		{mixingKey, func() { d.pages[mixingKey].(*mixingPage).numbers.total.OnOpen(false) }},
		{cureKey, func() {
			f := d.pages[cureKey].(*curePage).in.form.Field("shop/room")
			if f == nil {
				t.Fatal("the step leads to no input of the room")
			}
			f.OnCommit("15 °C")
		}},
		{cureKey, func() { d.pages[cureKey].(*curePage).frame.undo.OnTapped() }},
	} {
		b.guideRow(t, i).Tapped(nil)
		b.settle()
		strip := d.covers[c.key].guide
		if d.pages[c.key] == nil || !strip.root.Visible() || !shows(strip.root, guideSteps[i].words) || strip.tick.on {
			t.Fatalf("step %d does not stand in %s", i+1, c.key)
		}
		for key, other := range d.covers {
			if key != c.key && other.guide.root.Visible() {
				t.Errorf("step %d also stands in %s", i+1, key)
			}
		}
		if got := b.guideStands(); !slices.Equal(got, want) {
			t.Fatalf("before step %d is done: %v", i+1, got)
		}
		c.do()
		b.settle()
		want = append(want, guideSteps[i].try)
		if got := b.guideStands(); !slices.Equal(got, want) || !strip.tick.on {
			t.Errorf("after step %d: %v, and in its window %v", i+1, got, strip.tick.on)
		}
	}
	d.covers[cureKey].guide.next.OnTapped() // the last begins a piece of the maker's own
	b.until("a new piece is open", func() bool { return !b.Snapshot().Project.Demo })
	b.settle()
	if b.notebook().piece.guide.root.Visible() {
		t.Error("the guidance stands in a piece of the maker's own")
	}
	for key, c := range d.covers {
		if c.guide.root.Visible() {
			t.Errorf("a step stands in %s of a piece of the maker's own", key)
		}
	}
}

// TestGuideNextGoesOn: beside the step that was led to there is one touch to the next
// that is still to be tried, from the first again, and none once all have been.
func TestGuideNextGoesOn(t *testing.T) {
	g := &guide{at: 1, kept: guided{Done: []model.Try{model.TryWorking}}}
	if i, ok := g.next(); !ok || guideSteps[i].try != model.TryRoom {
		t.Errorf("next is %d, %v", i, ok)
	}
	g.at = len(guideSteps) - 1
	if i, ok := g.next(); !ok || i != 0 {
		t.Errorf("after the last, next is %d, %v", i, ok)
	}
	for _, s := range guideSteps {
		g.kept.Done = append(g.kept.Done, s.try)
	}
	if i, ok := g.next(); ok {
		t.Errorf("with all tried, next is %d", i)
	}
}

// TestGuideIsPutAway: one touch puts it away for good, over the end of the program
// too; what was tried is kept as well; and Help brings it back, on a demo job.
func TestGuideIsPutAway(t *testing.T) {
	store := newFakeStore()
	b := newBench(t, store)
	b.demo("hall-shelf")
	b.Enter("shop/room", "17 °C")
	b.settle()
	next := again(t, b)
	if got := next.guideStands(); !slices.Equal(got, []model.Try{model.TryRoom}) || !next.notebook().piece.guide.root.Visible() {
		t.Fatalf("after a new start the guidance stands at %v", got)
	}
	next.guideRow(t, 0).Tapped(nil)
	next.settle()
	for _, o := range test.LaidOutObjects(next.desk.covers[moldKey].guide.root) {
		if button, ok := o.(*touch.Button); ok && button.Label == putAwayLabel {
			button.OnTapped()
		}
	}
	if next.notebook().piece.guide.root.Visible() || next.desk.covers[moldKey].guide.root.Visible() {
		t.Error("put away, it still stands there")
	}
	next.settle()
	third := again(t, next)
	if third.notebook().piece.guide.root.Visible() {
		t.Error("put away, it is back after a new start")
	}
	third.desk.newProject()
	third.until("a new piece is open", func() bool { return !third.Snapshot().Project.Demo })
	third.settle()
	third.entries(notebookKey)["Help/Try it on a demo"].Action()
	third.until("a demo is open", func() bool { return third.Snapshot().Project.Demo })
	third.settle()
	if !third.notebook().piece.guide.root.Visible() || len(third.guideStands()) != 0 {
		t.Errorf("from Help it is back at %v", third.guideStands())
	}
}

// TestGuideBringsADemo: from Help, in a notebook without a demo job, one is brought in.
func TestGuideBringsADemo(t *testing.T) {
	b := newBench(t, newFakeStore())
	if !b.desk.follows("do/guide") {
		t.Fatal("the help has no such link")
	}
	b.until("a demo is open", func() bool { return b.Snapshot().Open && b.Snapshot().Project.Demo })
	b.settle()
	if !b.notebook().piece.guide.root.Visible() {
		t.Error("it came without the guidance")
	}
}

// TestGuideFits: on each screen the list and each step stand whole beside what the
// window shows.
func TestGuideFits(t *testing.T) {
	onlyDrawn(t)
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	stops(b)
	for _, size := range screens {
		b.resize(size)
		b.checkSpots(t, "the list", b.spots(notebookKey, size))
		for i, step := range guideSteps {
			if step.try == model.TryOwn {
				continue
			}
			b.desk.guide.lead(i)
			b.settle()
			key := b.desk.guide.in
			if !b.desk.covers[key].guide.root.Visible() {
				t.Errorf("step %d is not shown", i+1)
			}
			b.checkSpots(t, step.words, b.spots(key, size))
		}
	}
}
