package model

import (
	"math"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// smallStock is a shelf of 50 g of a tint, 20 washers and 8 discs, counted at
// noon, and a project that takes all of them: its layer is tinted by 2 %.
func smallStock(t *testing.T) (Shelf, Project, time.Time) {
	t.Helper()
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	s := stocked()
	before := s.Clone()
	tint := s.AddTint()
	s.Tints[0].Name, s.Tints[0].Left = "smoke", grams(50)
	s.Tints[0].Price = eur(1000)
	s.Currency = "EUR"
	s.KeepInsert(Insert{Name: "washers", Kind: InsertRing, Count: 20})
	s.AddConsumable()
	s.Consumables[0].Number = 8
	s.Recount(&before, noon)
	p := tray(300, 200, 30, 10)
	p.Sheets[0].Product = "r1"
	TakeTint(&p, p.Layers[0].ID, s.Tints[0])
	p.Layers[0].Tint.Share = unit.Taken[unit.Share]{Value: 0.02, Written: "2 %"}
	TakeInsert(&p, s.Inserts[0])
	p.Inserts[0].Count = 7
	if p.Layers[0].Tint.Stock != tint || p.Inserts[0].Stock != s.Inserts[0].ID {
		t.Fatal("they are not linked")
	}
	return s, p, noon
}

// left is what the shelf has left of a thing after what a project took.
func left(s Shelf, p *Project, id string) ThingPlan {
	s.SetUses(UsesOf(p))
	pl := PlanShelf(&s, shelfDay)
	return *pl.Thing(id)
}

// TestTintsComeOffTheShelf: a cup of 101.23 g of A and 45.55 g of B with 2 % of a
// tint takes 2.94 g of it, 146.78 g · 0.02 = 2.9356 g to a hundredth of a gram,
// once it is being mixed. By hand.
func TestTintsComeOffTheShelf(t *testing.T) {
	s, p, noon := smallStock(t)
	id := s.Tints[0].ID
	layer := p.Layers[0].ID
	log := func(min int, e Entry) {
		t.Helper()
		e.ID, e.At, e.Layer = "e"+itoa(len(p.Journal)+1), noon.Add(time.Duration(min)*time.Minute), layer
		if err := p.Log(e, noon.Add(1000*time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	want := func(what string, g float64) {
		t.Helper()
		if got := left(s, &p, id); math.Abs(got.Left.Grams()-g) > 1e-9 {
			t.Errorf("%s: %.4f g left, want %.4f g", what, got.Left.Grams(), g)
		}
	}
	log(1, Entry{Kind: EntryWeighedA, Cup: grams(10), Gross: grams(111.23)})
	log(2, Entry{Kind: EntryWeighedB, Gross: grams(156.78)})
	want("weighed, not mixed", 50)
	log(3, Entry{Kind: EntryMixing})
	want("being mixed", 47.06)
	log(4, Entry{Kind: EntryPourStarted})
	want("poured: it counts once", 47.06)
	// A second cup of which nobody noted the mixing: it is in the mold.
	log(5, Entry{Kind: EntryWeighedA, Cup: grams(10), Gross: grams(110)})
	log(6, Entry{Kind: EntryWeighedB, Gross: grams(155)})
	want("145 g more", 44.16)
	// By mass it is the layer's: 6 g for both cups.
	p.Layers[0].Tint.Share, p.Layers[0].Tint.Mass = unit.Taken[unit.Share]{}, grams(6)
	want("6 g in two cups", 44)
	p.Layers[0].Tint.Share = unit.Taken[unit.Share]{Value: 0.02}
	// Taken back, it is back on the shelf.
	log(7, Entry{Kind: EntryWithdrawn, Of: "e1"})
	if got := left(s, &p, id); got.Left <= 44.16*unit.Gram {
		t.Errorf("a cup that was taken back took %v", got.Mass)
	}
	// Under another name it is another tint.
	if err := Enter(&p, "layers/"+layer+"/tint/name", "moss"); err != nil {
		t.Fatal(err)
	}
	want("another tint", 50)
}

// TestInsertsComeOffTheShelf: inserts are taken when they are set, or with the
// pour about their foot, by their number and once.
func TestInsertsComeOffTheShelf(t *testing.T) {
	s, p, noon := smallStock(t)
	id := s.Inserts[0].ID
	for _, c := range []struct {
		what  string
		entry Entry
		want  int
	}{
		{"a note", Entry{Kind: EntryNote}, 20},
		{"the pour", Entry{Kind: EntryPourStarted, Layer: p.Layers[0].ID}, 13},
		{"set and poured", Entry{Kind: EntryPlaced, Insert: p.Inserts[0].ID}, 13},
		{"the pour taken back", Entry{Kind: EntryWithdrawn, Of: "e2"}, 13},
		{"the setting taken back", Entry{Kind: EntryWithdrawn, Of: "e3"}, 20},
		{"out of the mold", Entry{Kind: EntryDemolded}, 13},
	} {
		c.entry.ID, c.entry.At = "e"+itoa(len(p.Journal)+1), noon.Add(time.Duration(len(p.Journal)+1)*time.Minute)
		if err := p.Log(c.entry, noon.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
		if got := left(s, &p, id); got.Count != c.want {
			t.Errorf("%s: %d left, want %d", c.what, got.Count, c.want)
		}
	}
	// What stands on a layer goes in with the next pour.
	second := p.Layers[0]
	second.ID, second.Tint.Stock = "l9", ""
	p.Layers = append(p.Layers, second)
	p.Inserts[0].On, p.Inserts[0].Layer, p.Journal = OnLayer, p.Layers[0].ID, nil
	for i, want := range []int{20, 13} {
		if err := p.Log(Entry{ID: "p" + itoa(i), At: noon.Add(time.Duration(i+1) * time.Minute), Kind: EntryPourStarted, Layer: p.Layers[i].ID}, noon.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
		if got := left(s, &p, id); got.Count != want {
			t.Errorf("pour %d: %d left, want %d", i+1, got.Count, want)
		}
	}
}

// TestSealCoatComesOffTheBottles: 22 g of A and 9.9 g of B for the seal coat come
// off the bottles, and are what the seal coat costs.
func TestSealCoatComesOffTheBottles(t *testing.T) {
	s, p, noon := smallStock(t)
	e, err := p.SealMixed(p.Sheets[0].ID, "22 g", "9.9 g", "")
	if err != nil {
		t.Fatal(err)
	}
	e.ID, e.At = "e1", noon
	if err := p.Log(e, noon); err != nil {
		t.Fatal(err)
	}
	plan := PlanShelf(&s, shelfDay)
	was := *plan.Product("r1")
	s.SetUses(UsesOf(&p))
	plan = PlanShelf(&s, shelfDay)
	now := *plan.Product("r1")
	within(t, "A that was taken", (was.A - now.A).Grams(), 22, 1e-9)
	within(t, "B that was taken", (was.B - now.B).Grams(), 9.9, 1e-9)
	if told := p.Told(e); !strings.Contains(told, "22 g of A") {
		t.Error(told)
	}
	pl := Make(p)
	c := coster{p: &p, pl: &pl, facts: &CostFacts{}, money: &p.Money}
	if sheet, mass := c.sealCoat(); sheet != p.Sheets[0].ID || math.Abs(mass.Value.Grams()-31.9) > 1e-9 {
		t.Errorf("it costs %v of %s", mass.Value, sheet)
	}
	for _, c := range [][3]string{{"s99", "1", "1"}, {p.Sheets[0].ID, "", "9"}, {p.Sheets[0].ID, "9", "much"}, {p.Sheets[0].ID, "9", "0"}} {
		if _, err := p.SealMixed(c[0], c[1], c[2], ""); err == nil {
			t.Errorf("%q was taken", c)
		}
	}
}

// TestUsedComesOffTheShelf: what wears away, and a tint beside the mix, is taken
// off by an entry of the journal.
func TestUsedComesOffTheShelf(t *testing.T) {
	s, p, noon := smallStock(t)
	for i, x := range []struct{ id, amount string }{{s.Consumables[0].ID, "3"}, {s.Tints[0].ID, "1.5 g"}, {s.Inserts[0].ID, "2"}} {
		e, err := p.Used(&s, x.id, x.amount)
		if err != nil {
			t.Fatal(err)
		}
		e.ID, e.At = "e"+itoa(i), noon.Add(time.Minute)
		if err := p.Log(e, noon.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	if bad := p.Validate(); len(bad) > 0 {
		t.Error(bad)
	}
	discs, tint, washers := left(s, &p, s.Consumables[0].ID), left(s, &p, s.Tints[0].ID), left(s, &p, s.Inserts[0].ID)
	if discs.Count != 5 || washers.Count != 18 || math.Abs(tint.Left.Grams()-48.5) > 1e-9 {
		t.Errorf("%+v, %+v, %+v", discs, tint, washers)
	}
	for _, x := range []struct{ id, amount string }{{s.Consumables[0].ID, "none"}, {s.Consumables[0].ID, "1.5"}, {s.Consumables[0].ID, "0"}, {s.Tints[0].ID, ""}, {"w99", "1"}} {
		if _, err := p.Used(&s, x.id, x.amount); err == nil {
			t.Errorf("%s of %s was taken", x.amount, x.id)
		}
	}
}

// TestCountedAgain: what was taken before a thing was counted does not count once
// more, and what was taken beyond the count is told.
func TestCountedAgain(t *testing.T) {
	s, p, noon := smallStock(t)
	disc := s.Consumables[0].ID
	use := func(id string, n int, at time.Time) {
		p.Journal = append(p.Journal, Entry{ID: id, At: at, Kind: EntryUsed, Stock: disc, Count: n})
	}
	use("e1", 3, noon.Add(time.Hour))
	before := s.Clone()
	s.SetUses(UsesOf(&p))
	pl := PlanShelf(&s, shelfDay)
	if !s.TakeCount(*pl.Thing(disc)) || s.Consumables[0].Number != 5 {
		t.Fatalf("%+v", s.Consumables[0])
	}
	s.Recount(&before, noon.Add(2*time.Hour))
	if got := left(s, &p, disc); got.Count != 5 || got.Since() {
		t.Errorf("counted again: %+v", got)
	}
	if !s.Tints[0].Counted.Equal(noon) {
		t.Error("what was not counted has another time")
	}
	use("e2", 6, noon.Add(3*time.Hour))
	s.SetUses(UsesOf(&p))
	pl = PlanShelf(&s, shelfDay)
	if got := *pl.Thing(disc); got.Count != 0 || got.Taken != 6 {
		t.Errorf("%+v", got)
	}
	var found Finding
	for _, f := range pl.Findings {
		if f.Kind == "shelf.short" {
			found = f
		}
	}
	if !strings.HasPrefix(found.Why, "1 more, ") {
		t.Errorf("%+v", found)
	}
	// A copy of the project tells of the same and takes nothing more.
	twin := p.Clone()
	twin.ID = "twin"
	s.SetUses(UsesOf(&twin))
	if pl = PlanShelf(&s, shelfDay); pl.Thing(disc).Taken != 6 {
		t.Errorf("a copy took it once more: %+v", pl.Thing(disc))
	}
	// A tint's price is of what is left: 10.00 for 50 g are 8.00 for 40 g.
	if s.TakeCount(ThingPlan{ID: s.Tints[0].ID, Tint: true, Left: 40 * unit.Gram, Mass: 10 * unit.Gram}); s.Tints[0].Price != eur(800) || s.Tints[0].Left.Written != "40.00 g" {
		t.Errorf("%+v", s.Tints[0])
	}
}
