package model

import (
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// weighIn keeps what went into a cup of 60 g of the first layer.
func weighIn(t *testing.T, p *Project, a, b float64) {
	t.Helper()
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	for _, e := range []Entry{
		{ID: "e1", At: at, Kind: EntryWeighedA, Layer: "l1", Gross: given(unit.Gram.Times(60 + a)), Cup: given(60 * unit.Gram)},
		{ID: "e2", At: at.Add(time.Minute), Kind: EntryWeighedB, Layer: "l1", Gross: given(unit.Gram.Times(60 + a + b))},
	} {
		if b == 0 && e.Kind == EntryWeighedB {
			continue
		}
		if err := p.Log(e, at.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
}

// TestStock: what is left is held against all pours to come of the product, and
// what is short is their sum less what is left.
func TestStock(t *testing.T) {
	p := tray(300, 200, 30, 10)
	second := p.Layers[0]
	second.ID, second.Name, second.To = "l2", "second", mm(20)
	second.By = ToLevel
	p.Layers = append(p.Layers, second)
	pl := Make(p)
	a := pl.Layers[0].Mix.A + pl.Layers[1].Mix.A
	stock := pl.Stock(&p, "s1")
	within(t, "A for both", stock[0].Needs.Grams(), a.Grams(), 1e-9)
	if stock[0].Short() != 0 || finding(pl, "stock.short").Kind != "" {
		t.Error("short of what was not entered")
	}
	p.Sheets[0].LeftA, p.Sheets[0].LeftB = given(a-12*unit.Gram), given(5*unit.Kilogram)
	pl = Make(p)
	f := finding(pl, "stock.short")
	if f.Level != Check || f.Subject != OfMixing || f.Field != "sheets/s1/leftA" || !strings.Contains(f.Why, ": 12 g short") {
		t.Errorf("%+v", f)
	}
	if s := pl.Stock(&p, "s1")[1]; s.Short() != 0 {
		t.Errorf("B: %+v", s)
	}
	// A that is all in the cup is needed no more; half of it counts whole.
	half := p.Clone()
	weighIn(t, &half, pl.Layers[0].Mix.A.Grams()/2, 0)
	within(t, "half is in", Make(half).stockNeeds(&half), a.Grams(), 1e-9)
	weighIn(t, &p, pl.Layers[0].Mix.A.Grams(), 0)
	within(t, "all is in", Make(p).stockNeeds(&p), pl.Layers[1].Mix.A.Grams(), 1e-9)
}

// stockNeeds is A for the pours to come, in grams.
func (pl Plan) stockNeeds(p *Project) float64 { return pl.Stock(p, "s1")[0].Needs.Grams() }

// TestRescueHasItsStock goes through a cup with 500 g of A and 200 g of B at
// 100:45, which wants 25 g of B more, so 225 g in all out of its bottle.
func TestRescueHasItsStock(t *testing.T) {
	m := mixOf(725, 45, 0.1)
	for _, c := range []struct {
		left    float64
		verdict Verdict
		words   string
	}{
		{0, NotKnown, "is not known"},
		{13, Beyond, "12.0 g more of B than is left in the bottle"},
		{164, Fine, "139.0 g left of 164.0 g"}, // less than is in the cup: weighed since
		{200, NotKnown, "only if the 200.0 g"},
		{224, NotKnown, "after this cup"},
		{364, Fine, "at least 139.0 g left of 364.0 g"},
	} {
		p := tray(300, 200, 30, 10)
		if c.left > 0 {
			p.Sheets[0].LeftB = given(unit.Gram.Times(c.left))
		}
		weighIn(t, &p, 500, 200)
		pl := Make(p)
		r, off := m.Rescue(p.InCup("l1"))
		if !off || r.Part != "B" {
			t.Fatalf("%+v", r)
		}
		if verdict, words := r.Stock(&p, &pl.Layers[0], m.Step); verdict != c.verdict || !strings.Contains(words, c.words) {
			t.Errorf("%v g left: %s, %q", c.left, verdict, words)
		}
	}
}
