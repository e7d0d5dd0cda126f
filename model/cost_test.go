package model

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

func eur(minor int64) unit.Money { return unit.Money{Minor: minor, Currency: "EUR"} }

// costed is an invented piece whose cost is worked by hand in TestCostByHand.
func costed() (Project, CostFacts) {
	p := tray(300, 200, 30, 10)
	p.Layers[0].Tint = Tint{Name: "smoke", Share: given(unit.Share(0.02)), Kind: ColorantMica}
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(20), Bedded: true, Sealed: true}}
	p.Inserts = []Insert{{ID: "i1", Name: "washers", Count: 14, Kind: InsertStanding, Diameter: mm(10), Tall: mm(2), On: OnFloor}}
	at := time.Date(2026, 3, 1, 10, 0, 0, 0, time.UTC)
	p.Journal = []Entry{
		{ID: "e1", At: at, Kind: EntryWeighedA, Layer: "l1", Gross: given(600 * unit.Gram), Cup: given(100 * unit.Gram)},
		{ID: "e2", At: at.Add(time.Minute), Kind: EntryWeighedB, Layer: "l1", Gross: given(825 * unit.Gram)},
		{ID: "e3", At: at.Add(9 * time.Minute), Kind: EntryPourStarted, Layer: "l1"},
	}
	p.Money = Costing{
		Currency: "EUR",
		Prices: []Paid{
			{ID: "m1", Kind: PaidResin, Of: "s1", Price: eur(4800), For: given(1.5 * unit.Kilogram)},
			{ID: "m2", Kind: PaidTint, Of: "smoke", Price: eur(950), For: given(50 * unit.Gram)},
			{ID: "m3", Kind: PaidWood, Of: "p1", Price: eur(1800)},
			{ID: "m4", Kind: PaidInsert, Of: "i1", Price: eur(35)},
		},
		Seal:   given(40 * unit.Gram),
		Lines:  []Extra{{ID: "x1", What: "mask cartridge", Each: eur(2800), Count: given(unit.Number(0.05))}},
		Tasks:  []Task{{ID: "t1", Name: "set up", Per: PerBatch, Planned: given(45 * unit.Minute)}, {ID: "t2", Name: "pour", Planned: given(100 * unit.Minute), Logged: given(120 * unit.Minute)}, {ID: "t3", Name: "sand", Per: PerPiece, Planned: given(90 * unit.Minute)}},
		Rate:   eur(2400),
		Mold:   eur(6000),
		Lasts:  25,
		Heater: given(unit.Number(1500)), Warm: given(36 * unit.Hour), On: given(unit.Share(0.4)), Energy: eur(3140), Heats: PerBatch,
		Overhead: given(unit.Share(0.1)), Fails: given(unit.Share(1. / 12)),
		By: GainMargin, Gain: given(unit.Share(0.3)),
	}
	return p, CostFacts{Used: []CostLine{{What: "discs P120", Quantity: "3", Each: eur(85), Count: 3}}}
}

// TestCostByHand: 500 g of A and 225 g of B were weighed, of kits of 1,500 g of
// which 2 % stay in the bottles.
//
//	resin     725/(1500 · 0.98) · 48.00 = 23.6735     23.67
//	seal coat  40/(1500 · 0.98) · 48.00 =  1.3061      1.31
//	tint      725 · 0.02/50 · 9.50      =  2.7550      2.76
//	wood                                              18.00
//	washers   14 · 0.35                                4.90
//	discs      3 · 0.85                                2.55
//	mold      60.00/25                                 2.40
//	heat      1.5 kW · 36 h · 0.4 = 21.6 kWh at
//	          31.40 a hundred           =  6.7824      6.78
//	cartridge 28.00/20                                 1.40
//	                                     materials    63.77
//	work      (45 + 120 + 90) min at 24.00 an hour:
//	          18.00 + 48.00 + 36.00                  102.00
//	overhead  0.1 · 165.77              = 16.5770     16.58
//	failures  182.35 · (1/12)/(11/12)   = 16.5773     16.58
//	                                     total       198.93
func TestCostByHand(t *testing.T) {
	p, facts := costed()
	pl := Make(p)
	c, err := CostOf(&p, &pl, facts, 1)
	if err != nil {
		t.Fatal(err)
	}
	want := []struct {
		kind  CostKind
		minor int64
	}{{CostResin, 2367}, {CostResin, 131}, {CostTint, 276}, {CostWood, 1800}, {CostInsert, 490}, {CostUsed, 255}, {CostMold, 240}, {CostHeat, 678}, {CostOther, 140}, {CostWork, 1800}, {CostWork, 4800}, {CostWork, 3600}, {CostOverhead, 1658}, {CostFails, 1658}}
	if len(c.Lines) != len(want) {
		t.Fatalf("%d lines, want %d: %+v", len(c.Lines), len(want), c.Lines)
	}
	for i, w := range want {
		if c.Lines[i].Kind != w.kind || c.Lines[i].Money != eur(w.minor) {
			t.Errorf("line %d: %s %s %s, want %s %s", i, c.Lines[i].Kind, c.Lines[i].What, c.Lines[i].Money, w.kind, eur(w.minor))
		}
	}
	if c.Materials != eur(6377) || c.Work != eur(10200) || c.Total != eur(19893) || len(c.Missing) > 0 {
		t.Errorf("materials %s, work %s, total %s, missing %v", c.Materials, c.Work, c.Total, c.Missing)
	}
	within(t, "hours", c.Hours.Hours(), 4.25, 1e-12)
	// Sold at 220.00, eleven of twelve succeed: (220 · 11/12 - 63.77 - 16.58)/4.25 = 28.5451.
	if h, _ := c.Hourly(eur(22000)); h != eur(2855) {
		t.Errorf("an hour earns %s", h)
	}
}

// TestMixedIsWeighed: what went into the cups by the notes: 455.3 + 204.9 and
// 689.9 + 331.6 + 47.0 g, with a seal coat of 46 g 1,774.7 g.
func TestMixedIsWeighed(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Journal = nil
	at := p.Created
	gross := unit.Mass(0)
	weigh := func(layer string, kind EntryKind, grams unit.Mass, cup bool) {
		at = at.Add(time.Minute)
		e := Entry{ID: p.NewID("e"), At: at, Kind: kind, Layer: layer}
		if cup {
			gross = 42 * unit.Gram
			e.Cup = given(gross)
		}
		gross += grams * unit.Gram
		e.Gross = given(gross)
		p.Journal = append(p.Journal, e)
	}
	one, two := p.Layers[0].ID, p.Layers[1].ID
	weigh(one, EntryWeighedA, 455.3, true)
	weigh(one, EntryWeighedB, 204.9, false)
	p.Journal = append(p.Journal, Entry{ID: "p1", At: at.Add(time.Minute), Kind: EntryPourStarted, Layer: one})
	at = at.Add(24 * time.Hour)
	weigh(two, EntryWeighedA, 689.9, true)
	weigh(two, EntryWeighedB, 331.6, false)
	weigh(two, EntryWeighedA, 47.0, false)
	p.Journal = append(p.Journal, Entry{ID: "p2", At: at.Add(time.Minute), Kind: EntryPourStarted, Layer: two})
	p.Money = Costing{Currency: "EUR", Seal: given(46 * unit.Gram), Prices: []Paid{{ID: "m1", Kind: PaidResin, Of: p.Layers[0].Sheet, Price: eur(100), For: given(unit.Gram)}}}
	pl := Make(p)
	// At 1.00 a gram with nothing left in the bottles the lines are the grams.
	c, err := CostOf(&p, &pl, CostFacts{Residue: unit.Taken[unit.Share]{Written: "0 %"}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	sum := int64(0)
	for _, l := range c.Lines {
		if l.Kind == CostResin {
			sum += l.Money.Minor
		}
	}
	if sum != 177470 {
		t.Errorf("the resin comes to %d hundredths of a gram", sum)
	}
}

func TestCostRefuses(t *testing.T) {
	for _, bad := range []struct {
		field string
		slip  func(*Project, *CostFacts)
	}{
		{"costing/rate", func(p *Project, _ *CostFacts) { p.Money.Rate.Minor = -1 }},
		{"costing/mold", func(p *Project, _ *CostFacts) { p.Money.Mold.Currency = "USD" }},
		{"costing/currency", func(p *Project, _ *CostFacts) { p.Money.Currency = "euro" }},
		{"costing/fails", func(p *Project, _ *CostFacts) { p.Money.Fails.Value = 1 }},
		{"costing/fails", func(p *Project, _ *CostFacts) { p.Money.Fails.Value = unit.Share(math.NaN()) }},
		{"costing/gain", func(p *Project, _ *CostFacts) { p.Money.Gain.Value = 1 }},
		{"costing/gain", func(p *Project, _ *CostFacts) { p.Money.Gain.Value = -0.1 }},
		{"", func(_ *Project, f *CostFacts) { f.Used[0].Each.Currency = "USD" }},
		{"", func(_ *Project, f *CostFacts) { f.Used[0].Each.Minor = -5 }},
		{"", func(_ *Project, f *CostFacts) { f.Used[0].Count = -1 }},
		{"costing/prices/m1/price", func(p *Project, _ *CostFacts) { p.Money.Prices[0].Price.Minor = mostPrice + 1 }},
	} {
		p, facts := costed()
		pl := Make(p)
		bad.slip(&p, &facts)
		_, err := Offers(&p, &pl, facts)
		if problem := (*Problem)(nil); !errors.As(err, &problem) || problem.Field != bad.field || problem.Message == "" {
			t.Errorf("%s: %v", bad.field, err)
		}
	}
}

// TestCostLaws: sums are sums of the lines to the cent; more in one go never
// costs more each; an hour at the fair price earns the rate.
func TestCostLaws(t *testing.T) {
	base, baseFacts := costed()
	pl := Make(base)
	rapid.Check(t, func(t *rapid.T) {
		p, facts := base.Clone(), baseFacts
		m := &p.Money
		money := func(name string, most int64) unit.Money { return eur(rapid.Int64Range(0, most).Draw(t, name)) }
		for i := range m.Prices {
			m.Prices[i].Price = money("price", 50000)
		}
		m.Rate, m.Mold, m.Energy = money("rate", 9000), money("mold", 50000), money("energy", 9000)
		m.Pieces = rapid.IntRange(0, 6).Draw(t, "pieces")
		for i := range m.Tasks {
			m.Tasks[i].Logged = given(unit.Span(rapid.IntRange(1, 300).Draw(t, "minutes")) * unit.Minute)
		}
		m.Overhead, m.Fails = given(unit.Share(rapid.Float64Range(0, 1).Draw(t, "overhead"))), given(unit.Share(rapid.Float64Range(0, 0.9).Draw(t, "fails")))
		m.Gain = given(unit.Share(rapid.Float64Range(0, 0.9).Draw(t, "gain")))
		m.By = rapid.SampledFrom([]GainKind{GainMargin, GainMarkup, ""}).Draw(t, "by")
		facts.Used = []CostLine{{What: "discs", Each: money("disc", 500), Count: rapid.Float64Range(0, 20).Draw(t, "discs")}}
		m.Batches = []int{1, rapid.IntRange(2, 40).Draw(t, "batch")}
		list, err := Offers(&p, &pl, facts)
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range list {
			c := &o.Cost
			sum := int64(0)
			for _, l := range c.Lines {
				sum += l.Money.Minor
				if exact := float64(l.Each.Minor) * l.Count; math.Abs(float64(l.Money.Minor)-exact) > 0.5+1e-6 {
					t.Fatalf("%s: %v of %s is %s", l.What, l.Count, l.Each, l.Money)
				}
			}
			if parts := c.Materials.Minor + c.Work.Minor + c.Overhead.Minor + c.Failures.Minor; sum != c.Total.Minor || parts != c.Total.Minor {
				t.Fatalf("lines %d, parts %d, total %d", sum, parts, c.Total.Minor)
			}
			each := float64(c.Total.Minor) / float64(c.Pieces)
			if float64(o.Price.Minor) < each-0.5 || float64(o.Fair.Minor) < each-1e-6 {
				t.Fatalf("each costs %v and is offered at %s, fair %s", each, o.Price, o.Fair)
			}
			// The price gives back the gain it was made by, within its rounding.
			if g := float64(m.Gain.Value); o.Price.Minor > 0 && c.Total.Minor > 0 {
				off := float64(o.Margin) - g
				if m.By == GainMarkup {
					off = float64(o.Markup) - g
				}
				if math.Abs(off) > 1/math.Min(each, float64(o.Price.Minor)) {
					t.Fatalf("gain %v gives %s of %v: margin %v, markup %v", g, o.Price, each, o.Margin, o.Markup)
				}
			}
			// At the fair price an hour earns the rate: what is rounded is half a unit
			// a line, and less than one a piece.
			least := float64(m.Rate.Minor) - (float64(len(c.Lines))/2+1)/c.Hours.Hours() - 1
			most := float64(m.Rate.Minor) + (float64(len(c.Lines))/2+1+float64(c.Pieces))/c.Hours.Hours() + 1
			if h, ok := c.Hourly(o.Fair); !ok || float64(h.Minor) < least || float64(h.Minor) > most {
				t.Fatalf("at %s an hour earns %s of %s", o.Fair, h, m.Rate)
			}
		}
		if a, b := list[0].Cost, list[1].Cost; float64(b.Total.Minor)/float64(b.Casts) > float64(a.Total.Minor)+float64(len(a.Lines))/(1-float64(a.Fails))*2 {
			t.Fatalf("one costs %s and %d cost %s", a.Total, b.Casts, b.Total)
		}
	})
}

// TestDiscLines: three discs of one grit at 0.85 and two of the next at 0.90,
// twice over: 6 · 0.85 + 4 · 0.90 = 8.70.
func TestDiscLines(t *testing.T) {
	sand := SandPlan{Steps: []SandStep{{Mark: "P120", Discs: 3}, {Mark: "P180", Discs: 2}, {Mark: "P240", Discs: 1}, {Mark: "P320"}}}
	lines, unpriced := sand.DiscLines(func(m GritMark) (unit.Money, bool) {
		each, ok := map[GritMark]unit.Money{"P120": eur(85), "P180": eur(90)}[m]
		return each, ok
	})
	if len(lines) != 2 || len(unpriced) != 1 || unpriced[0] != "P240" {
		t.Fatalf("%+v, %v", lines, unpriced)
	}
	p, _ := costed()
	p.Money.Prices, p.Money.Lines, p.Money.Mold, p.Money.Energy = nil, nil, unit.Money{}, unit.Money{}
	pl := Make(p)
	c, err := CostOf(&p, &pl, CostFacts{Used: lines}, 2)
	if err != nil || c.Materials != eur(870) {
		t.Errorf("%s %v", c.Materials, err)
	}
	// What has no price is named: resin, seal coat, tint, wood, inserts, the
	// cartridges have none left, the heat.
	if len(c.Missing) != 6 {
		t.Errorf("missing %v", c.Missing)
	}
	// Whatever it is called, by one name or by one of many things, no verb has to
	// agree with it.
	for _, m := range c.Missing {
		for _, verb := range []string{" has ", " have ", " is ", " are ", " was ", " were "} {
			if strings.Contains(m.Message, verb) {
				t.Errorf("%q reads well of one or of many only", m.Message)
			}
		}
	}
}

// TestOwnLineCoversMaterials: where the project's own prices are all and a line
// of its own has an amount, no material lacks a price; without such a line, or
// where the shelf's prices count as well, each is named.
func TestOwnLineCoversMaterials(t *testing.T) {
	lacks := func(own bool, each unit.Money) (n int) {
		p, _ := costed()
		p.Money.Prices, p.Money.Own, p.Money.Lines = nil, own, []Extra{{ID: "x", What: "materials", Each: each}}
		pl := Make(p)
		c, err := CostOf(&p, &pl, CostFacts{}, 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range c.Missing {
			if !strings.HasPrefix(m.Field, "costing/lines") {
				n++
			}
		}
		return n
	}
	if n := lacks(true, eur(4100)); n != 0 {
		t.Errorf("%d are missed beside a line that covers them", n)
	}
	if lacks(true, unit.Money{}) == 0 || lacks(false, eur(4100)) == 0 {
		t.Error("materials without a price are not named")
	}
}

func TestFailWords(t *testing.T) {
	for share, want := range map[unit.Share]string{OneIn(12).Value: "one in 12 fails", 0.25: "one in 4 fails", 0.3: "30 % of them fail", 0.0833: "one in 12 fails"} {
		if got := FailWords(share, unit.Style{}); got != want {
			t.Errorf("%v: %q, want %q", share, got, want)
		}
	}
	if OneIn(1).Given() || OneIn(12).Written != "8.333 %" {
		t.Errorf("%+v %+v", OneIn(1), OneIn(12))
	}
}

// TestCostTakesAnything: no costing that can be read breaks a plan or a price.
func TestCostTakesAnything(t *testing.T) {
	base, facts := costed()
	rapid.Check(t, func(t *rapid.T) {
		p := base.Clone()
		fill(t, reflect.ValueOf(&p.Money).Elem(), 0)
		p.Validate()
		pl := Make(p)
		list, err := Offers(&p, &pl, facts)
		if problem := (*Problem)(nil); err != nil && (!errors.As(err, &problem) || problem.Message == "") {
			t.Fatal(err)
		}
		if _, err := json.Marshal(list); err != nil {
			t.Fatal(err)
		}
	})
}

// TestCostingIsCloned: a change to a copy never shows in the original.
func TestCostingIsCloned(t *testing.T) {
	p, _ := costed()
	p.Money.Batches = []int{1, 3}
	was, _ := json.Marshal(p)
	q := p.Clone()
	scramble(reflect.ValueOf(&q.Money).Elem())
	q.Money.SetCurrency("JPY")
	if now, _ := json.Marshal(p); string(now) != string(was) {
		t.Error("a change to the copy shows in the original")
	}
}
