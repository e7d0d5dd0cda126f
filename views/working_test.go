package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// aWorking is a figure's working with an input that the maker can change and a
// typical one.
func aWorking() model.Working {
	return model.Working{
		Title:   "Peak heat of smoke-grey base",
		Formula: "Heat made less heat lost, in slices of the pour, every few minutes: ρ c dT/dt = k d²T/dz² + ρ H dα/dt",
		Inputs: []model.WorkingInput{
			{Label: "Room", Value: "21 °C", Source: "yours", Field: "shop/room"},
			{Label: "Heat of reaction", Value: "350 J/g (300 to 400)", Source: "typical value, no source", Typical: true},
		},
		Source: "simulated through the thickness",
		Band:   "31 to 52 °C: 80 of 100 such products lie in it",
	}
}

// tapRow taps the row that shows some words.
func tapRow(t *testing.T, o fyne.CanvasObject, words string) {
	t.Helper()
	for _, x := range test.LaidOutObjects(o) {
		if row, ok := x.(*touch.Row); ok && shows(row, words) {
			row.Tapped(&fyne.PointEvent{})
			return
		}
	}
	t.Fatalf("no row shows %q", words)
}

func TestWorkingShowsAllThatItRestsOn(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := b.Snapshot()
	w := p.working
	w.show(aWorking(), &shot)
	if w.under.Visible() || !w.root.Visible() {
		t.Fatal("the panel is not in place of the inputs")
	}
	for _, words := range []string{"Peak heat of", "ρ c dT/dt", "Room", "21 °C", "350 J/g (300 to 400)", "a typical value, not yours", "80 of 100", "through the thickness"} {
		if !shows(w.root, words) {
			t.Errorf("%q is not in %q", words, texts(w.root))
		}
	}
	moldLegible(t, "working", w.root)
	tapOn(t, w.root, "Close")
	if !w.under.Visible() || w.root.Visible() {
		t.Error("the inputs are not back")
	}
}

func TestWorkingLeadsToAnInput(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := b.Snapshot()
	focus := watchFocus(p.in)
	p.working.show(aWorking(), &shot)
	tapRow(t, p.working.root, "Room")
	b.settle()
	if *focus != "shop/room" || p.working.root.Visible() {
		t.Errorf("focus on %q, the panel is open: %v", *focus, p.working.root.Visible())
	}
}

func TestWorkingFollowsItsFigure(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	shot := b.Snapshot()
	now, there := aWorking(), true
	of := func(*app.Snapshot) (model.Working, bool) { return now, there }
	o := p.working.opens("38 °C", touch.Strong, of)
	o.Tapped(&fyne.PointEvent{})
	now.Inputs[0].Value = "24 °C"
	p.working.see(&shot)
	if !shows(p.working.root, "24 °C") || shows(p.working.root, "21 °C") {
		t.Errorf("%q", texts(p.working.root))
	}
	there = false
	p.working.see(&shot)
	if p.working.root.Visible() {
		t.Error("a working that is no more stays open")
	}
	if _, plain := newOpens(p.working, &shot, "38 °C", touch.Strong, of).(*touch.Text); !plain {
		t.Error("a figure without a working looks as if it could be opened")
	}
}
