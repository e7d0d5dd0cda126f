package views

import (
	"strings"
	"testing"

	"meniscus/model"
)

// TestMixingAsksWhatIsLeft: what is left is asked of the product of the chosen
// pour, a shortage is a finding that leads back there, and a rescue goes by it.
func TestMixingAsksWhatIsLeft(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "amount")
	l := p.chosen()
	path := "sheets/" + l.Sheet + "/leftA"
	if !cureSays(p.bottles.root, "take off the weight of an empty one") || !cureSays(p.bottles.root, "The pours to come need") {
		t.Fatalf("%q", p.bottles.need.Text())
	}
	typeInto(t, b, mixingKey, path, "40")
	b.settle()
	if !strings.Contains(p.bottles.need.Text(), " short") {
		t.Errorf("%q", p.bottles.need.Text())
	}
	moldLegible(t, "bottles", p.bottles.root)
	found := false
	for _, f := range b.Snapshot().Plan.Findings {
		found = found || f.Kind == "stock.short" && f.Field == path && f.Subject == model.OfMixing
	}
	p.tabs.turn("weigh")
	if !found || !p.focus(path) || p.tabs.choice.Chosen() != "amount" {
		t.Errorf("found %v, at %q", found, p.tabs.choice.Chosen())
	}
	p.tabs.turn("weigh")
	for _, step := range []struct{ reading, label string }{{"689.9", "Keep it: A is in"}, {"1021.5", "Keep it: B is in"}} {
		b.reads(step.reading)
		tapOn(t, p.weigh.root, step.label)
		b.rested()
	}
	if !strings.Contains(p.weigh.mend.stock.Text(), "7.0 g more of A than is left") {
		t.Errorf("%q", p.weigh.mend.stock.Text())
	}
	if !strings.Contains(p.weigh.mend.goes.Text(), "in a tray of") && !strings.Contains(p.weigh.mend.goes.Text(), "still has to fill") {
		t.Errorf("%q", p.weigh.mend.goes.Text())
	}
}

// TestMixingAsksForTheBottles: the day goes by the bottles once they are read.
func TestMixingAsksForTheBottles(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "day")
	typeInto(t, b, mixingKey, "shop/bottles", "12")
	b.settle()
	if !cureSays(p.day.root, "the bottles stand at 12") || !shows(p.day.root, "Warm the bottle") {
		t.Error("a cold bottle is not noticed")
	}
	moldLegible(t, "the day", p.day.root)
}
