package model

import (
	"context"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestTooHotSaysWhatMatters: what must never be done, and what must be, by the
// place; shop notes D13 and D14.
func TestTooHotSaysWhatMatters(t *testing.T) {
	for place, wants := range map[HotPlace][]string{
		HotCup:  {"Pour no more", "No water", "no lid, no bin", "does not smoke", "bare ground or stone", "Never carry a smoking cup"},
		HotMold: {"Pour no more", "no water", "Leave the mold", "tilted mold spills", "not at the resin", "Heater off"},
	} {
		all := ""
		for _, s := range TooHot(place) {
			if s.Do == "" {
				t.Errorf("%s: an empty step", place)
			}
			all += s.Do + ". " + s.Care + " "
		}
		for _, want := range append(wants, "leave", "people and pets", "does not stop these fumes", "fire brigade", "cold") {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no %q in %q", place, want, all)
			}
		}
		if strings.Index(all, "Pour no more") != 0 || strings.Index(all, "leave the room") > 160 || strings.Index(all, "fire brigade") > strings.Index(all, "when it is cold") {
			t.Errorf("%s: out of order: %q", place, all)
		}
	}
	if !strings.Contains(HotSource, "emergency") || !strings.Contains(HotSource, "safety data sheet") {
		t.Error(HotSource)
	}
}

// TestTooHotIsFound: a pour that was stopped is a stop until the entry is taken
// back; a cup that was, until another is begun.
func TestTooHotIsFound(t *testing.T) {
	d := newMixDay(t)
	level := func(kind string) Level { return finding(Make(d.p), kind).Level }
	d.log(0, Entry{Kind: EntryMixing})
	if at := d.p.HotPlaceOf("l1"); at != HotCup {
		t.Errorf("while it is mixed: %s", at)
	}
	d.log(60, TooHotEntry("l1", HotCup))
	if level("mixing.too-hot") != Stop || level("cure.too-hot") != "" {
		t.Error("a cup that got too hot")
	}
	d.log(600, Entry{Kind: EntryMixing})
	if level("mixing.too-hot") != "" {
		t.Error("another is mixed, and it is still told of the first")
	}
	d.log(800, Entry{Kind: EntryPourStarted})
	if at := d.p.HotPlaceOf("l1"); at != HotMold {
		t.Errorf("once it is poured: %s", at)
	}
	id := d.log(9000, TooHotEntry("l1", HotMold))
	if f := finding(Make(d.p), "cure.too-hot"); f.Level != Stop || f.Subject != OfCure || !strings.Contains(f.What, "pour was stopped because it got too hot") {
		t.Errorf("%+v", f)
	}
	d.log(9100, Entry{Kind: EntryWithdrawn, Of: id})
	if level("cure.too-hot") != "" {
		t.Error("taken back, and it is told")
	}
}

// TestTooHotAgainstTheSimulation: the simulation's own figure is said beside it.
func TestTooHotAgainstTheSimulation(t *testing.T) {
	d := newMixDay(t)
	d.p = demo(t, "poppy-stand")
	layer := d.p.Layers[0].ID
	d.log(0, Entry{Kind: EntryPourStarted, Layer: layer, Room: given(unit.Celsius(21))})
	d.log(3600, TooHotEntry(layer, HotMold))
	pl := Make(d.p)
	c, err := Simulate(context.Background(), &d.p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range c.Findings {
		if f.Kind == "heat.stopped" {
			if !strings.Contains(f.Why, "simulated at most") || f.Do == "" {
				t.Errorf("%+v", f)
			}
			return
		}
	}
	t.Errorf("no word of it in %+v", c.Findings)
}
