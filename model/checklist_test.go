package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// lines gives the IDs of a checklist.
func lines(list []CheckLine) string {
	var ids []string
	for _, c := range list {
		ids = append(ids, c.ID)
	}
	return strings.Join(ids, " ")
}

// TestChecklistHoldsWhatApplies: a line is there where this pour of this project
// needs it, and only there.
func TestChecklistHoldsWhatApplies(t *testing.T) {
	wood := func(p *Project) *Piece {
		p.Pieces = append(p.Pieces, Piece{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(20)})
		return &p.Pieces[0]
	}
	second := func(p *Project) {
		p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(10), Sheet: "s1"})
	}
	coin := func(p *Project) *Insert {
		p.Inserts = append(p.Inserts, Insert{ID: "i1", Name: "coin", Count: 2, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor})
		return &p.Inserts[0]
	}
	for _, c := range []struct {
		name, layer string
		make        func(p *Project)
		want        string
	}{
		{"only resin", "l1", func(p *Project) {}, "day level release leaks tray cup gloves air"},
		{"a mold that lets go", "l1", func(p *Project) { p.Mold.Floor = FloorSilicone }, "day level leaks tray cup gloves air"},
		{"bare wood of unknown weight", "l1", func(p *Project) { wood(p) }, "day level release leaks tray bark sealed fitted held cup gloves air"},
		{"sealed wood that floats", "l1", func(p *Project) { w := wood(p); w.Sealed, w.Density = true, given(unit.Density(500)) }, "day level release leaks tray bark fitted held cup gloves air"},
		{"sealed wood that sinks", "l1", func(p *Project) { w := wood(p); w.Sealed, w.Density = true, given(unit.Density(1250)) }, "day level release leaks tray bark fitted cup gloves air"},
		{"inserts", "l1", func(p *Project) { coin(p) }, "day level release leaks tray fitted fixed cup gloves air"},
		{"an insert that is not there", "l1", func(p *Project) { coin(p).Count = 0 }, "day level release leaks tray cup gloves air"},
		{"a later pour over the wood", "l2", func(p *Project) { wood(p); second(p) }, "day window clean level cup gloves air"},
		{"an insert on the layer below", "l2", func(p *Project) { second(p); s := coin(p); s.On, s.Layer = OnLayer, "l1" }, "day fitted fixed window clean level cup gloves air"},
		{"no such layer", "l9", func(p *Project) {}, ""},
	} {
		p := tray(300, 200, 30, 10)
		c.make(&p)
		pl := Make(p)
		list := p.Checklist(&pl, c.layer)
		if got := lines(list); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		for _, x := range list {
			if x.Words == "" || x.Why == "" || x.Done {
				t.Errorf("%s: %+v", c.name, x)
			}
			if x.ID == checkFixed && !strings.Contains(x.Words, "coin") {
				t.Errorf("the inserts are not named: %+v", x)
			}
		}
	}
}

// TestChecklistIsTicked: a tick has its time, is of one layer, and is taken back
// by a further entry, as evidence both.
func TestChecklistIsTicked(t *testing.T) {
	d := newMixDay(t)
	line := func(layer, id string) CheckLine {
		pl := Make(d.p)
		for _, c := range d.p.Checklist(&pl, layer) {
			if c.ID == id {
				return c
			}
		}
		t.Fatalf("%s has no %s", layer, id)
		return CheckLine{}
	}
	d.p.Layers = append(d.p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(10), Sheet: "s1"})
	first := d.log(5, Entry{Kind: EntryChecked, Check: checkGloves})
	if c := line("l1", checkGloves); !c.Done || !c.At.Equal(pastNoon(5)) || c.Entry != first || !c.Safety {
		t.Errorf("%+v", c)
	}
	if line("l2", checkGloves).Done || line("l1", checkAir).Done {
		t.Error("it ticks another")
	}
	d.log(9, Entry{Kind: EntryWithdrawn, Of: first})
	if line("l1", checkGloves).Done || len(d.p.Journal) != 2 {
		t.Errorf("taken back: %+v", d.p.Journal)
	}
	again := d.log(20, Entry{Kind: EntryChecked, Check: checkGloves})
	if c := line("l1", checkGloves); !c.Done || !c.At.Equal(pastNoon(20)) || c.Entry != again {
		t.Errorf("again: %+v", c)
	}
}

// TestOpenSafetyLinesAreTold: only to a maker who ticks, and only once resin is
// in the cup and until the pour is started.
func TestOpenSafetyLinesAreTold(t *testing.T) {
	d := newMixDay(t)
	told := func() string { return finding(Make(d.p), "check.open").What }
	d.weigh(0, EntryWeighedA, 400, true)
	if told() != "" {
		t.Error("told to one who ticks nothing")
	}
	d.log(10, Entry{Kind: EntryChecked, Check: checkGloves})
	if what := told(); !strings.Contains(what, "air moving") || strings.Contains(what, "gloves") {
		t.Errorf("%q", what)
	}
	air := d.log(20, Entry{Kind: EntryChecked, Check: checkAir})
	if told() != "" {
		t.Error("told with both ticked")
	}
	d.log(25, Entry{Kind: EntryWithdrawn, Of: air})
	d.log(30, Entry{Kind: EntryPourStarted})
	if told() != "" {
		t.Error("told when nothing can be done about it")
	}
}

func TestChecklistOfTheDemos(t *testing.T) {
	p := demo(t, "breakfast-boards")
	pl := Make(p)
	all := lines(p.Checklist(&pl, p.Layers[0].ID))
	for _, id := range []string{checkLevel, checkLeaks, checkBark, checkFitted, checkHeld} {
		if !strings.Contains(all, id) {
			t.Errorf("the boards: no %s in %q", id, all)
		}
	}
	p = demo(t, "poppy-stand")
	pl = Make(p)
	found := false
	for i := range p.Layers {
		for _, c := range p.Checklist(&pl, p.Layers[i].ID) {
			found = found || c.ID == checkFixed && len(c.Words) > 20
		}
	}
	if !found {
		t.Error("the stand has inserts, and none is to be fixed")
	}
}
