package model

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestThreeAtOnce: of three casts in one go the set-up is shared and the room
// is warmed once.
//
//	resin 71.0204, seal 3.9184, tint 8.2650, wood 54.00, washers 14.70, discs
//	7.65, mold 7.20, heat 6.78, cartridges 4.20:                        177.74
//	work 18.00 + 3 · 48.00 + 3 · 36.00:                                 270.00
//	overhead 44.77, failures 492.51/11 = 44.7736:                        89.54
//	537.28, or 179.0933 each; at a margin of 30 %: 537.28/3/0.7 = 255.8476
//
// One alone: 198.93/0.7 = 284.1857; with a markup of 30 % 198.93 · 1.3 = 258.609.
func TestThreeAtOnce(t *testing.T) {
	p, facts := costed()
	pl := Make(p)
	list, err := Offers(&p, &pl, facts)
	if err != nil || len(list) != 3 {
		t.Fatal(list, err)
	}
	one, three := list[0], list[1]
	if three.Cost.Casts != 3 || three.Cost.Total != eur(53728) || three.Cost.Each != eur(17909) || three.Price != eur(25585) {
		t.Errorf("three cost %s, each %s, price %s", three.Cost.Total, three.Cost.Each, three.Price)
	}
	for i, want := range []string{"2175 g", "120 g", "43.50 g", "3", "42", "3 × 3", "3 of 25 casts", "21.6 kWh", "0.15", "45 min", "6 h", "4 h 30 min", "10 % of 447.74 EUR", "one in 12 fails"} {
		if got := three.Cost.Lines[i].Quantity; got != want {
			t.Errorf("line %d: %q, want %q", i, got, want)
		}
	}
	if one.Price != eur(28419) || list[2].Cost.Each.Minor >= three.Cost.Each.Minor {
		t.Errorf("one is offered at %s; each of ten costs %s", one.Price, list[2].Cost.Each)
	}
	p.Money.By = GainMarkup
	if list, _ = Offers(&p, &pl, facts); list[0].Price != eur(25861) {
		t.Errorf("with a markup %s", list[0].Price)
	}
	within(t, "markup", float64(list[0].Markup), 0.3, 1e-4)
	// Up to the next that ends in 4.90 or 9.90.
	p.Money.Step, p.Money.Less = eur(500), eur(10)
	if list, _ = Offers(&p, &pl, facts); list[0].Price != eur(25990) {
		t.Errorf("with its ending %s", list[0].Price)
	}
}

// TestDemoHours: what an hour earned by the notes of the three invented jobs.
//
//	poppy stand   (148.00 - 41.00)/(312/60)      = 107/5.2      = 20.5769
//	boards        (5 · 68.00 - 96.40)/(402/60)   = 243.60/6.7   = 36.3582
//	hall shelf    (420.00 - 214.00)/(640/60)     = 206/10.66667 = 19.3125
//
// The notes say 20.6, 36 and 19: all three stand.
func TestDemoHours(t *testing.T) {
	for _, job := range []struct {
		name                   string
		materials, price, want int64
		pieces                 int
		minutes                unit.Span
		level                  Level
	}{{"poppy-stand", 4100, 14800, 2058, 1, 312, Check}, {"breakfast-boards", 9640, 6800, 3636, 5, 402, ""}, {"hall-shelf", 21400, 42000, 1931, 1, 640, Check}} {
		p := demo(t, job.name)
		p.Money = Costing{
			Currency: "EUR", Pieces: job.pieces, Rate: eur(2400), Asked: eur(job.price),
			Lines: []Extra{{ID: "x1", What: "materials", Each: eur(job.materials)}},
			Tasks: []Task{{ID: "t1", Logged: given(job.minutes * unit.Minute)}},
		}
		pl := Make(p)
		list, err := Offers(&p, &pl, CostFacts{})
		if err != nil {
			t.Fatal(err)
		}
		if got := list[0].AtAsked; got != eur(job.want) {
			t.Errorf("%s: an hour earned %s, want %s", job.name, got, eur(job.want))
		}
		f := finding(pl, "price.hour")
		if f.Level != job.level {
			t.Errorf("%s: %+v", job.name, f)
		}
	}
}

// TestYen: a currency without decimals is rounded to whole ones.
func TestYen(t *testing.T) {
	p, _ := costed()
	p.Money.SetCurrency("JPY") // the figures stay: 48.00 EUR is 48 JPY
	if p.Money.Prices[0].Price != (unit.Money{Minor: 48, Currency: "JPY"}) || p.Money.Prices[1].Price.Minor != 10 {
		t.Errorf("prices %+v", p.Money.Prices)
	}
	p.Money.Prices[0].Price.Minor, p.Money.Rate.Minor = 7800, 2500
	pl := Make(p)
	c, err := CostOf(&p, &pl, CostFacts{}, 1)
	if err != nil {
		t.Fatal(err)
	}
	// 725/1470 · 7800 = 3846.94; 45 min at 2500 an hour are 1875.
	if c.Lines[0].Money.String() != "3847 JPY" || c.Lines[8].Money.String() != "1875 JPY" {
		t.Errorf("%+v", c.Lines)
	}
}

// TestGains: a margin m makes the price that a markup of m/(1 - m) on the cost
// does, a third that of a half, and what either is can be read off the price.
func TestGains(t *testing.T) {
	at := func(cost unit.Money, by GainKind, gain unit.Share) (unit.Money, error) {
		return priceAt(float64(cost.Minor), cost.Currency, by, gain)
	}
	rapid.Check(t, func(t *rapid.T) {
		m := unit.Share(rapid.Float64Range(0, 0.98).Draw(t, "margin"))
		cost := eur(rapid.Int64Range(1, 1e8).Draw(t, "cost"))
		a, errA := at(cost, GainMargin, m)
		b, errB := at(cost, GainMarkup, m/(1-m))
		if errA != nil || errB != nil || a.Minor-b.Minor > 1 || b.Minor-a.Minor > 1 {
			t.Fatalf("%s at a margin of %v: %s, %s", cost, m, a, b)
		}
		each := float64(cost.Minor)
		got := marginOf(each, a)
		if math.Abs(float64(got-m)) > 1/each {
			t.Fatalf("%s at %s: margin %v, want %v", cost, a, got, m)
		}
		if u := markupOf(each, a); math.Abs(float64(u/(1+u)-got)) > 1e-9 {
			t.Fatalf("markup %v and margin %v differ", u, got)
		}
	})
	for _, bad := range []struct {
		cost unit.Money
		by   GainKind
		gain unit.Share
	}{{eur(100), GainMargin, 1}, {eur(100), GainMargin, 1.5}, {eur(100), GainMargin, 0.995}, {eur(100), GainMarkup, -0.1}, {eur(-1), GainMargin, 0.2}, {eur(1e15), GainMarkup, 5}} {
		if p, err := at(bad.cost, bad.by, bad.gain); err == nil {
			t.Errorf("%+v gave %s", bad, p)
		}
	}
	for _, c := range []struct {
		by   GainKind
		gain unit.Share
		want int64
	}{{GainMarkup, 1.5, 250}, {GainMarkup, 0.5, 150}, {GainMargin, 1. / 3, 150}} {
		if p, err := at(eur(100), c.by, c.gain); err != nil || p != eur(c.want) {
			t.Errorf("1 EUR by %s of %v gave %s, %v", c.by, c.gain, p, err)
		}
	}
}

// TestPriceFindings makes slips in what is asked and looks for the finding.
func TestPriceFindings(t *testing.T) {
	for _, slip := range []struct {
		kind  string
		level Level
		make  func(*Costing)
	}{
		{"price.hour", Check, func(c *Costing) { c.Asked = eur(15000) }},
		{"price.no-time", Note, func(c *Costing) { c.Asked, c.Tasks = eur(15000), nil }},
		{"price.no-gain", Note, func(c *Costing) { c.Gain = unit.Taken[unit.Share]{Written: "0 %"} }},
		{"price.wrong", Check, func(c *Costing) { c.Gain = given(unit.Share(1)) }},
		{"price.idle", Check, func(c *Costing) { c.Tasks[1].Logged = given(36 * unit.Hour) }},
	} {
		p, _ := costed()
		slip.make(&p.Money)
		f := finding(Make(p), slip.kind)
		if f.Level != slip.level || f.Subject != OfPrice || f.Field == "" || f.What == "" || f.Do == "" {
			t.Errorf("%s: %+v", slip.kind, f)
		}
	}
	p, _ := costed()
	p.Money.Asked = eur(40000)
	for _, f := range Make(p).Findings {
		if f.Subject == OfPrice {
			t.Errorf("a good price gave %+v", f)
		}
	}
}

// TestMoneyByHand enters amounts and the currency as they are typed.
func TestMoneyByHand(t *testing.T) {
	p, _ := costed()
	if err := Enter(&p, "costing/asked", "1,234.50"); err != nil || p.Money.Asked != eur(123450) {
		t.Errorf("%v %v", p.Money.Asked, err)
	}
	if text, _ := Show(&p, "costing/asked"); text != "1234.50 EUR" {
		t.Errorf("shown as %q", text)
	}
	for path, text := range map[string]string{"costing/rate": "-3", "costing/mold": "12 USD", "costing/currency": "euro", "costing/fails": "100 %", "costing/batches/0": "0.5"} {
		p.Money.Batches = []int{1}
		if err := Enter(&p, path, text); err == nil {
			t.Errorf("%s took %q", path, text)
		}
	}
	for text, want := range map[string]unit.Span{"45": 45 * unit.Minute, "1:30": 90 * unit.Minute, "2 h 15": 135 * unit.Minute, "50 min": 50 * unit.Minute} {
		if err := Enter(&p, "costing/tasks/t1/logged", text); err != nil || p.Money.Tasks[0].Logged.Value != want {
			t.Errorf("%q is %v, %v", text, p.Money.Tasks[0].Logged, err)
		}
	}
	if err := Enter(&p, "costing/currency", "chf"); err != nil || p.Money.Asked != (unit.Money{Minor: 123450, Currency: "CHF"}) {
		t.Errorf("%v %v", p.Money.Asked, err)
	}
	if bad := p.Validate(); len(bad) > 0 {
		t.Errorf("%v", bad)
	}
	p.Money.Mold.Currency = "EUR"
	if bad := p.Validate(); len(bad) != 1 || bad[0].Field != "costing/mold" {
		t.Errorf("two currencies: %v", bad)
	}
	if err := p.Remove("costing/tasks/t1"); err != nil || len(p.Money.Tasks) != 2 {
		t.Error(fmt.Sprint(err, p.Money.Tasks))
	}
}

func TestHalvesGoUp(t *testing.T) {
	for _, c := range []struct {
		each int64
		k    float64
		want int64
	}{{2890, 0.35, 1012}, {950, 0.29, 276}, {1, 0.5, 1}, {1, 0.49, 0}, {3, 0.5, 2}, {100, 1.005, 101}, {100, 1.00499, 100}, {33, 1. / 3, 11}} {
		if got, err := eur(c.each).Times(c.k); err != nil || got.Minor != c.want {
			t.Errorf("%d · %v = %v, want %d", c.each, c.k, got, c.want)
		}
	}
	if _, err := eur(1).Times(math.Inf(1)); err == nil {
		t.Error("endless money")
	}
	if _, err := eur(1).Plus(unit.Money{Minor: 1, Currency: "USD"}); err == nil {
		t.Error("two currencies were added")
	}
}
