package views

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// TestTooHotFromCure: one touch keeps it and shows what to do over the window;
// the plan says so, until it is taken back.
func TestTooHotFromCure(t *testing.T) {
	b, p := cureOn(t, "poppy-stand")
	beat(b, 0)
	layer := b.Snapshot().Plan.Layers[0].ID
	if p.bench.hot.Visible() {
		t.Error("nothing has been poured, and it can get too hot")
	}
	if err := b.StartPour(layer); err != nil {
		t.Fatal(err)
	}
	rested(b)
	beat(b, 0)
	tapOn(t, p.bench.root, "Stop: too hot")
	b.rested()
	found := func(kind string) bool {
		shot := b.Snapshot()
		for _, f := range shot.Findings() {
			if f.Kind == kind && f.Level == model.Stop {
				return true
			}
		}
		return false
	}
	if !p.hot.root.Visible() || p.hot.under.Visible() || !found("cure.too-hot") {
		t.Fatalf("the card: %v, the finding: %v", p.hot.root.Visible(), found("cure.too-hot"))
	}
	for _, want := range []string{"Stop: too hot, in the mold", "smoke-grey base", "Pour no more onto it", "Leave the mold where it is", "fire brigade", "safety data sheet"} {
		if !shows(p.hot.root, want) {
			t.Errorf("no %q", want)
		}
	}
	moldLegible(t, "too hot", p.hot.root)
	tapOn(t, p.hot.root, "It is in the cup")
	b.rested()
	if !shows(p.hot.root, "Never carry a smoking cup") || found("cure.too-hot") {
		t.Error("it is in the cup, and the card or the plan does not say so")
	}
	tapOn(t, p.hot.root, "It was nothing")
	b.rested()
	shot := b.Snapshot()
	if _, stands := shot.Project.LastTooHot(layer, time.Time{}); stands || p.hot.root.Visible() || !p.hot.under.Visible() {
		t.Error("taken back, and it stands")
	}
}

// TestTooHotIsKeptWhereTheNotebookCannotBeWritten: what to do is shown whatever
// becomes of the entry.
func TestTooHotShowsWithoutAPour(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "stir")
	rested(b)
	if err := p.hot.stop("no such layer"); err != nil {
		t.Logf("said: %v", err)
	}
	if !p.hot.root.Visible() || !shows(p.hot.root, "Pour no more") {
		t.Error("nothing is shown")
	}
	p.hot.back.Tapped(&fyne.PointEvent{})
	if p.hot.root.Visible() {
		t.Error("Back does not close it")
	}
	b.settle()
}
