package model

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestStockOfTheShelf: a project that pours from the shelf, held against it.
func TestStockOfTheShelf(t *testing.T) {
	s := stocked()
	p := tray(300, 200, 30, 10)
	p.Sheets, p.Layers = nil, p.Layers[:1]
	p.Layers[0].Sheet = TakeProduct(&p, *s.Product("r1"))
	if again := TakeProduct(&p, *s.Product("r1")); again != p.Layers[0].Sheet || len(p.Sheets) != 1 {
		t.Error("it was taken twice")
	}
	pl := Make(p)
	needs := pl.Layers[0].Mix.A
	plan := PlanShelf(&s, shelfDay)
	stock := plan.Stock(&p, &pl, p.Layers[0].Sheet)
	within(t, "needs", stock[0].Needs.Grams(), needs.Grams(), 1e-9)
	within(t, "left", stock[0].Left.Value.Grams(), 1000, 1e-9)
	if got := plan.Against(&p, &pl); len(got) != 0 || len(plan.Noticed(pl.Findings, &p, &pl)) != len(pl.Findings) {
		t.Errorf("it suffices: %+v", got)
	}

	// What is in the cup has come off the bottle, and is needed no more.
	weighIn(t, &p, 300, 0)
	s.SetUses(UsesOf(&p))
	for i := range s.Uses[0].List { // the helper weighs in spring
		s.Uses[0].List[i].At = shelfMorning(0).Add(time.Hour)
	}
	plan = PlanShelf(&s, shelfDay)
	stock = plan.Stock(&p, &pl, p.Layers[0].Sheet)
	within(t, "needs beyond 300 g", stock[0].Needs.Grams(), needs.Grams()-300, 1e-9)
	within(t, "left of 1,000", stock[0].Left.Value.Grams(), 700, 1e-9)
	p.Journal, s.Uses = nil, nil

	against := func(kind string, level Level) {
		t.Helper()
		plan := PlanShelf(&s, shelfDay)
		list := plan.Against(&p, &pl)
		if len(list) == 0 || list[0].Kind != kind || list[0].Level != level || list[0].Subject != OfMixing {
			t.Errorf("want %s: %+v", kind, list)
		}
	}
	bottle := &s.Products[0].Bottles[0]
	bottle.Weighings[0].Gross = grams(50 + needs.Grams() - 12)
	against("stock.short", Check)

	// So much again in another lot: enough, but not of one.
	other := s.Product("r1").Bottle(s.AddBottle("r1", PartA, shelfDay))
	other.Lot, other.Holds = "L2", grams(200)
	against("stock.lots", Check)
	p.Layers[0].Lot = "L1"
	against("stock.lot", Check)
	s.Products[0].Bottles[0].Weighings[0].Gross = grams(1050)
	if plan := PlanShelf(&s, shelfDay); len(plan.Against(&p, &pl)) != 0 {
		t.Error("one lot suffices now")
	}

	plan = PlanShelf(&s, shelfDay)
	if lots := plan.Products[0].LotList(); len(lots) != 3 || lots[0] != (Lot{PartA, "L1", plan.Products[0].Lots[0].A}) || lots[2].Number != "L2" {
		t.Errorf("%+v", lots)
	}
	s.AddKit("r1")
	if kits := s.Products[0].Kits; len(kits) != 1 || kits[0].Kit.B != kits[0].Kit.A.Times(0.45) {
		t.Errorf("%+v", kits)
	}

	// What a rescue needs is asked of the bottles as they are.
	r := Rescue{Part: "A", Add: 30 * unit.Gram}
	plan = PlanShelf(&s, shelfDay)
	if v, words := r.StockOn(&plan, &p, &pl.Layers[0], unit.Gram); v != Fine || !strings.Contains(words, "1170 g left of 1200 g") {
		t.Errorf("%s, %q", v, words)
	}
	r.Add = 1300 * unit.Gram
	if v, _ := r.StockOn(&plan, &p, &pl.Layers[0], unit.Gram); v != Beyond {
		t.Error(v)
	}
	// The sheet's own figure counts only where the shelf has none.
	p.Sheets[0].LeftA = grams(1)
	plan = PlanShelf(&s, shelfDay)
	if f := finding(Make(p), "stock.short"); f.Kind != "" || len(plan.Against(&p, &pl)) != 0 {
		t.Errorf("it counts beside the shelf: %+v", f)
	}
	s.Products = nil
	against("stock.short", Check)
	p.Sheets[0].LeftA = grams(9000)
	against("stock.unlinked", Note)
}

// TestStockToTheGram holds the shelf against a ledger in whole grams over random
// histories of weighings and uses of one lot in up to three bottles.
func TestStockToTheGram(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Shelf
		id := s.AddProduct()
		n := rapid.IntRange(1, 3).Draw(t, "bottles")
		net, tare := make([]int, n), make([]int, n)
		for i := range n {
			b := s.Product(id).Bottle(s.AddBottle(id, PartA, ""))
			tare[i] = rapid.IntRange(20, 90).Draw(t, "tare")
			b.Lot, b.Opened, b.Tare = "L", shelfDay.AddDays(i-20), grams(float64(tare[i]))
		}
		at := shelfMorning(0)
		weigh := func(i, grossNet int) {
			at = at.Add(time.Minute)
			b := &s.Product(id).Bottles[i]
			b.Weighings = append(b.Weighings, Weighing{ID: fmt.Sprint("g", i, len(b.Weighings)), At: at, Gross: grams(float64(tare[i] + grossNet))})
			net[i] = grossNet
		}
		for i := range n {
			weigh(i, rapid.IntRange(0, 1500).Draw(t, "first"))
		}
		short := 0 // since no bottle was weighed
		var uses []StockUse
		for range rapid.IntRange(0, 30).Draw(t, "acts") {
			if rapid.IntRange(0, 3).Draw(t, "act") == 0 {
				weigh(rapid.IntRange(0, n-1).Draw(t, "bottle"), rapid.IntRange(0, 1500).Draw(t, "weighs"))
				short = 0
				continue
			}
			at = at.Add(time.Minute)
			take := rapid.IntRange(1, 400).Draw(t, "take")
			uses = append(uses, StockUse{Entry: fmt.Sprint("e", len(uses)), At: at, Product: id, Part: PartA, Lot: "L", Mass: unit.Gram.Times(float64(take))})
			for i := range n {
				out := min(take, net[i])
				net[i], take = net[i]-out, take-out
			}
			short += take
		}
		s.SetUses(ProjectUses{Project: "p", List: uses})
		pl := PlanShelf(&s, shelfDay)
		sum := 0
		for i, b := range pl.Products[0].Bottles {
			if math.Abs(b.Net.Grams()-float64(net[i])) > 1e-6 || b.Net < 0 {
				t.Fatalf("bottle %d: %v g, want %d g", i, b.Net.Grams(), net[i])
			}
			sum += net[i]
		}
		if math.Abs(pl.Products[0].A.Grams()-float64(sum)) > 1e-6 {
			t.Fatalf("in all %v g, want %d g", pl.Products[0].A.Grams(), sum)
		}
		if told := strings.Contains(shelfKinds(pl), "shelf.missing"); told != (short > 0) {
			t.Fatalf("%d g short; told: %t", short, told)
		}
		if again := PlanShelf(&s, shelfDay); !reflect.DeepEqual(pl, again) {
			t.Fatal("another plan of the same shelf")
		}
	})
}

// TestWeighing goes through readings that cannot be taken.
func TestWeighing(t *testing.T) {
	for gross, want := range map[string]string{"49 g": "less than the empty bottle, 50 g", "nine": "", "3 t": "", "700 g": "would be 650 g in a bottle that holds 500 g"} {
		s := stocked()
		s.Products[0].Bottles[0].Holds = grams(500)
		err := s.Weigh("r1", "b2", gross, shelfMorning(1))
		if err == nil || !strings.Contains(err.Error(), want) || len(s.Products[0].Bottles[0].Weighings) != 1 {
			t.Errorf("%s: %v", gross, err)
		}
	}
	s := stocked()
	if err := s.Weigh("r1", "b2", "0.84 kg", shelfMorning(-1)); err == nil || !strings.Contains(err.Error(), "clock") {
		t.Errorf("before the last one: %v", err)
	}
	if err := s.Weigh("r1", "b2", "0.84 kg", shelfMorning(1)); err != nil {
		t.Fatal(err)
	}
	within(t, "net", PlanShelf(&s, shelfDay).Products[0].A.Grams(), 790, 1e-9)
	s.Products[0].Bottles[0].Tare = unit.Taken[unit.Mass]{}
	if err := s.Weigh("r1", "b2", "0.8 kg", shelfMorning(2)); err == nil || !strings.Contains(err.Error(), "empty bottle") {
		t.Errorf("without a tare: %v", err)
	}
	if err := s.Weigh("r1", "b9", "1 kg", shelfMorning(2)); err == nil {
		t.Error("a bottle that is not there was weighed")
	}
}
