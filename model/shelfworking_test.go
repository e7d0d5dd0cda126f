package model

import (
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// TestBottleWorking: a bottle of 1,620 g on the scale, 120 g empty, of which 400 g were
// weighed out since, holds 1,100 g (by hand); one that was never weighed holds what is
// printed on it; of one that nothing is known of nothing is said.
func TestBottleWorking(t *testing.T) {
	gram := func(g float64) unit.Taken[unit.Mass] {
		return unit.Taken[unit.Mass]{Value: unit.Mass(g) * unit.Gram, Written: "x"}
	}
	at := time.Date(2026, 3, 2, 10, 0, 0, 0, time.UTC)
	s := Shelf{Products: []Product{{ID: "r", Bottles: []Bottle{
		{ID: "weighed", Part: PartA, Lot: "7", Tare: gram(120), Weighings: []Weighing{{ID: "w2", At: at, Gross: gram(1620)}, {ID: "w1", At: at.AddDate(0, -1, 0), Gross: gram(1900)}}},
		{ID: "new", Part: PartB, Holds: gram(500)},
		{ID: "unknown", Part: PartB, Lot: "9"},
	}}}}
	pl := PlanShelf(&s, "2026-03-10")
	pl.Product("r").Bottle("weighed").Net, pl.Product("r").Bottle("weighed").Since = 1100*unit.Gram, 400*unit.Gram
	w, ok := pl.BottleWorking(&s, "r", "weighed")
	if !ok || w.Source == "" || w.Band == "" || w.Formula == "" {
		t.Fatalf("%v %+v", ok, w)
	}
	for i, want := range []string{"1620 g", "120 g", "400 g", "1100 g"} {
		if got := strings.ReplaceAll(w.Inputs[i].Value, ",", ""); got != want {
			t.Errorf("%s: %s, want %s", w.Inputs[i].Label, got, want)
		}
	}
	if w, ok := pl.BottleWorking(&s, "r", "new"); !ok || w.Inputs[0].Value != "500 g" || !strings.Contains(w.Formula, "printed") {
		t.Errorf("%v %+v", ok, w)
	}
	for _, of := range [][2]string{{"r", "unknown"}, {"r", "none"}, {"none", "new"}} {
		if w, ok := pl.BottleWorking(&s, of[0], of[1]); ok {
			t.Errorf("%v: %+v", of, w)
		}
	}
}

// TestPriceWorking: whichever price leads, its working has it, what an hour earns
// at it, formula, source and band; what has no price is named.
func TestPriceWorking(t *testing.T) {
	for name, c := range map[string]struct {
		change  func(*Costing)
		formula string
	}{
		"fair": {func(m *Costing) { m.Asked, m.Gain = unit.Money{}, unit.Taken[unit.Share]{} }, "least that pays your rate"},
		"margin": {func(m *Costing) {
			m.Asked, m.By, m.Gain = unit.Money{}, GainMargin, unit.Taken[unit.Share]{Value: 0.3, Written: "30 %"}
		}, "1 less the margin"},
		"markup": {func(m *Costing) {
			m.Asked, m.By, m.Gain = unit.Money{}, GainMarkup, unit.Taken[unit.Share]{Value: 0.3, Written: "30 %"}
		}, "1 and the markup"},
		"asked": {func(m *Costing) { m.Asked = unit.Money{Minor: 42000, Currency: m.Rate.Currency} }, "that you ask"},
	} {
		p := demo(t, "poppy-stand")
		p.Money.Rate = unit.Money{Minor: 3000, Currency: p.money()}
		c.change(&p.Money)
		pl := Make(p)
		offers, err := Offers(&p, &pl, CostFacts{})
		if err != nil {
			t.Fatal(name, err)
		}
		price, hour, _ := offers[0].Leading(&p.Money)
		w := offers[0].Working(&p)
		if !strings.Contains(w.Formula, c.formula) || w.Source == "" || w.Band == "" {
			t.Errorf("%s: %+v", name, w)
		}
		has := map[string]string{}
		missing := 0
		for _, in := range w.Inputs {
			if in.Label == "Not counted" {
				missing++
			}
			has[in.Label] = in.Value
		}
		if has["For one"] != price.String() || hour.Given() && has["An hour earns"] != hour.String() {
			t.Errorf("%s: %v, want %s and %s", name, has, price, hour)
		}
		if missing != len(offers[0].Cost.Missing) {
			t.Errorf("%s: %d not counted, want %d", name, missing, len(offers[0].Cost.Missing))
		}
	}
}
