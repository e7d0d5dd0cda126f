package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/views/touch"
)

// TestMoldFiguresOpenHowTheyCameAbout: what the mold holds, the tightest gap, what
// it is held down with and how far the floor sinks all open in the window.
func TestMoldFiguresOpenHowTheyCameAbout(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	opened := func(where fyne.CanvasObject, title string) {
		t.Helper()
		for _, x := range test.LaidOutObjects(where) {
			if o, ok := x.(*touch.Opens); ok && o.Visible() {
				o.Tapped(&fyne.PointEvent{})
				if p.working.root.Visible() && shows(p.working.root, title) {
					p.working.hide()
					return
				}
				p.working.hide()
			}
		}
		t.Errorf("nothing opens %q: %q", title, texts(where))
	}
	opened(p.draw.how, "What the mold holds")
	opened(p.draw.how, "The tightest gap")
	p.pane.show(moldFloat)
	opened(p.pane.root, "What to hold down in ")
	p.pane.show(moldTight)
	opened(p.pane.root, "How far the floor sinks")
	tapOn(t, p.pane.root, "Add a seam")
	b.settle()
	b.Enter("mold/hold/seams/"+p.pane.seam+"/gap", "0.1 mm")
	b.settle()
	opened(p.pane.root, " loses by the seams")
	p.draw.how.Objects[0].(*touch.Opens).Tapped(&fyne.PointEvent{})
	p.pane.show(moldWood)
	if p.working.root.Visible() {
		t.Error("a working covers the section that was turned to")
	}
}

// TestHeadKeepsItsHeight: an answer that grows from one line to two moves nothing,
// in any window.
func TestHeadKeepsItsHeight(t *testing.T) {
	b := newBench(t, newFakeStore())
	b.demo("poppy-stand")
	frames := map[string]func() *frame{
		moldKey:   func() *frame { return b.desk.pages[moldKey].(*moldPage).frame },
		layersKey: func() *frame { return b.desk.pages[layersKey].(*layersPage).frame },
		mixingKey: func() *frame { return b.desk.pages[mixingKey].(*mixingPage).frame },
		cureKey:   func() *frame { return b.desk.pages[cureKey].(*curePage).frame },
		finishKey: func() *frame { return b.desk.pages[finishKey].(*finishPage).frame },
	}
	for key, of := range frames {
		b.desk.Show(key).Resize(fyne.NewSize(1240, 700))
		f := of()
		f.setAnswer("It fits")
		one := f.answer.MinSize().Height
		f.setAnswer("It fits\nHolds 3547 ml to the rim")
		if two := f.answer.MinSize().Height; two != one || two <= 0 {
			t.Errorf("%s: the answer takes %v with one line, %v with two", key, one, two)
		}
	}
}

// TestLayersShowsWhereTheMoldIsMeasured: an unmeasured mold shows the measuring
// drawing in place of an empty section, and a way to where it is measured.
func TestLayersShowsWhereTheMoldIsMeasured(t *testing.T) {
	b, p := layersOn(t, "")
	if p.canvas.Visible() || !p.unseen.root.Visible() || !shows(p.unseen.root, "Measure the mold first") {
		t.Errorf("the section is shown: %v, the drawing: %v", p.canvas.Visible(), p.unseen.root.Visible())
	}
	tapOn(t, p.unseen.root, "Measure the mold")
	b.settle()
	if b.desk.front != moldKey {
		t.Errorf("it leads to %q", b.desk.front)
	}
	for path, text := range map[string]string{"mold/length": "300 mm", "mold/width": "200 mm", "mold/depth": "40 mm"} {
		b.Enter(path, text)
	}
	b.settle()
	b.desk.Show(layersKey)
	b.settle()
	if !p.canvas.Visible() || p.unseen.root.Visible() {
		t.Error("a measured mold still shows where to measure")
	}
}
