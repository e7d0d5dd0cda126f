package model

import (
	"testing"

	"meniscus/model/unit"
)

// TestPricesOfTheShelf: a kit of 1,000 + 450 g at 48.00 makes the resin of a
// project cost what it costs when the project names that price itself; prices
// in another currency do not count.
func TestPricesOfTheShelf(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Money = Costing{Currency: "EUR"}
	p.Sheets[0].Product = "r1"
	s := Shelf{Currency: "EUR", Products: []Product{{ID: "r1", Sheet: p.Sheets[0], Kits: []ShelfKit{
		{ID: "k1", Kit: Kit{Name: "bottle", A: unit.Kilogram, Price: eur(100)}},
		{ID: "k2", Kit: Kit{Name: "kit", A: unit.Kilogram, B: 450 * unit.Gram, Price: eur(4800)}},
	}}}}
	pl := Make(p)
	byShelf, err := CostOf(&p, &pl, s.CostFacts(&p, &pl), 1)
	if err != nil {
		t.Fatal(err)
	}
	own := p.Clone()
	id := own.AddPaid(PaidResin, own.Sheets[0].ID)
	own.Money.Prices[0].Price, own.Money.Prices[0].For = eur(4800), given(1450*unit.Gram)
	byHand, err := CostOf(&own, &pl, CostFacts{}, 1)
	if err != nil || byShelf.Total.Minor <= 0 || byShelf.Total != byHand.Total {
		t.Errorf("by the shelf %v, by hand %v, %v", byShelf.Total, byHand.Total, err)
	}
	list := own.Priceables(&pl, s.CostFacts(&own, &pl))
	if len(list) == 0 || list[0].Kind != PaidResin || list[0].Paid != id || list[0].Shelf.Price != eur(4800) {
		t.Errorf("%+v", list)
	}
	if s.OtherMoney(&p) != "" {
		t.Error("one currency is taken for two")
	}
	p.Money.Currency = "CHF"
	if f := s.CostFacts(&p, &pl); len(f.Prices) != 0 || s.OtherMoney(&p) != "EUR" {
		t.Errorf("%+v %q", f, s.OtherMoney(&p))
	}
}

// TestSmallThingsOfTheShelf: tints, inserts and abrasive have their prices by
// name and by grit.
func TestSmallThingsOfTheShelf(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Finish.Sand = Sand{Want: SurfaceClear}
	p.Money.Own = false
	pl := Make(p)
	s := Shelf{Currency: "EUR"}
	for _, x := range p.Inserts {
		s.Inserts = append(s.Inserts, ShelfInsert{ID: x.ID, Insert: Insert{Name: "  " + x.Name + " "}, Price: eur(30)})
	}
	for i := range pl.Layers {
		for _, a := range pl.Layers[i].Mix.Additives {
			s.Tints = append(s.Tints, ShelfTint{ID: itoa(i), Name: a.Name, Left: given(10 * unit.Gram), Price: eur(500)})
		}
	}
	discs := 0
	for _, step := range pl.Finish.Sand.Steps {
		if step.Mark.is(120) {
			discs += step.Discs
		}
	}
	s.Consumables = []Consumable{{ID: "c", Name: "disc", Grit: 120, Price: eur(90)}}
	f := s.CostFacts(&p, &pl)
	inserts, tints := 0, 0
	for _, m := range f.Prices {
		switch m.Kind {
		case PaidInsert:
			inserts++
		case PaidTint:
			tints++
		}
	}
	if inserts != len(p.Inserts) || inserts == 0 || tints == 0 {
		t.Errorf("%d inserts, %d tints: %+v", inserts, tints, f.Prices)
	}
	counted := 0.0
	for _, l := range f.Used {
		counted += l.Count
	}
	if discs == 0 || counted != float64(discs) {
		t.Errorf("%v discs of %d are counted", counted, discs)
	}
	if !GritMark("P120").is(120) || GritMark("P1200").is(120) || !GritMark("120").is(120) {
		t.Error("a grit is not told from another")
	}
}

// TestLogMinutes: touches add up and never go below nothing.
func TestLogMinutes(t *testing.T) {
	c := Costing{Tasks: []Task{{ID: "t1", Planned: given(40 * unit.Minute)}}}
	for _, n := range []int{5, 15, 15} {
		if !c.LogMinutes("t1", n) {
			t.Fatal("not logged")
		}
	}
	if got := c.Tasks[0]; got.Logged.Value != 35*unit.Minute || got.Logged.Written != "35 min" || got.Takes() != 35*unit.Minute {
		t.Errorf("%+v", got)
	}
	if c.LogMinutes("t1", -100); c.Tasks[0].Logged.Value != 0 {
		t.Errorf("%+v", c.Tasks[0])
	}
	if c.LogMinutes("t9", 5) {
		t.Error("logged for no task")
	}
	c.LogMinutes("t1", 1<<30)
	p := tray(300, 200, 30, 10)
	p.Money = c
	if bad := p.Validate(); len(bad) > 0 {
		t.Errorf("%v", bad)
	}
}

// TestDemoCostings: the costings of the demo jobs are invented; what an hour
// earns in each is arithmetic: (price·pieces - materials)/hours.
func TestDemoCostings(t *testing.T) {
	for _, x := range []struct {
		name    string
		minutes float64
		want    float64 // worked by hand from price, materials and minutes
	}{
		{"poppy-stand", 312, (148 - 41) / (312 / 60.)},
		{"hall-shelf", 640, (420 - 214) / (640 / 60.)},
		{"breakfast-boards", 35 + 20 + 72 + 58 + 12 + 25 + 5*(28+8), (5*68 - 96.40) / ((222 + 180) / 60.)},
	} {
		p := demo(t, x.name)
		pl := Make(p)
		list, err := Offers(&p, &pl, CostFacts{})
		if err != nil {
			t.Fatal(err)
		}
		within(t, x.name+", minutes", list[0].Cost.Hours.Per(unit.Minute), x.minutes, 1e-6)
		within(t, x.name+", an hour", float64(list[0].AtAsked.Minor)/100, x.want, 0.0051)
	}
}

// TestMoldWearFromTheShelf: a mold of 60.00 that is good for 20 casts costs 3.00
// a cast once it is taken from the shelf, by the division alone. A price in
// another currency stays on the shelf, one line for all materials is left as it
// is, and a mold without a price takes none of the mold before.
func TestMoldWearFromTheShelf(t *testing.T) {
	wear := func(p Project) unit.Money {
		t.Helper()
		pl := Make(p)
		c, err := CostOf(&p, &pl, CostFacts{}, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range c.Lines {
			if l.Kind == CostMold {
				return l.Money
			}
		}
		return unit.Money{}
	}
	mold := ShelfMold{ID: "m1", Mold: tray(300, 200, 30, 10).Mold, Price: eur(6000), Lasts: 20}
	p := tray(400, 200, 30, 10)
	p.SetDraft("costing/mold", "sixty", "no amount")
	TakeMold(&p, mold)
	if got := wear(p); got != eur(300) || len(p.Drafts) != 0 {
		t.Errorf("a cast pays %v, want 3.00; %v", got, p.Drafts)
	}
	s := Shelf{Currency: "EUR"}
	s.KeepMold(&p)
	if m := s.Molds[0]; m.Price != eur(6000) || m.Lasts != 20 {
		t.Errorf("kept at %v for %d casts", m.Price, m.Lasts)
	}
	TakeMold(&p, ShelfMold{ID: "m2", Mold: mold.Mold})
	if got := wear(p); got.Given() {
		t.Errorf("a mold without a price costs %v a cast", got)
	}
	other := tray(400, 200, 30, 10)
	other.Money = Costing{Currency: "CHF"}
	TakeMold(&other, mold)
	one := tray(400, 200, 30, 10)
	one.Money = Costing{Own: true, Mold: eur(500), Lasts: 5}
	TakeMold(&one, mold)
	if got := wear(one); other.Money.Mold.Given() || got != eur(100) {
		t.Errorf("%+v; %v a cast", other.Money.Mold, got)
	}
}
