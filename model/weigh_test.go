package model

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// mixOf plans a mix of so many grams on a scale, as a layer's plan does.
func mixOf(total, parts, step float64, stirred ...float64) *MixPlan {
	m := &MixPlan{Ready: true, Parts: parts, Step: unit.Gram.Times(step)}
	a := unit.Gram.Times(total * 100 / (100 + parts))
	sum, rounded := unit.RoundParts(unit.Gram.Times(total), []unit.Mass{a, unit.Gram.Times(total) - a}, m.Step)
	m.Total, m.A, m.B = sum, rounded[0], rounded[1]
	for _, share := range stirred {
		m.Additives = append(m.Additives, AdditivePlan{"tint", share, m.Total.Times(share)})
	}
	return m
}

// The masses of the trade's example: 660 g at 100:45 is 455.2 and 204.8 g.
func TestLadder(t *testing.T) {
	m := mixOf(660, 45, 0.1, 0.015)
	var got []string
	s := unit.Style{}
	for _, r := range m.Ladder(64.3 * unit.Gram) {
		got = append(got, r.What+" +"+r.Adds(s, m.Step)+" = "+s.MassTo(r.Gross, m.Step))
	}
	want := "cup +64.3 g = 64.3 g; A +455.2 g = 519.5 g; B +204.8 g = 724.3 g; tint +9.90 g = 734.2 g"
	if text := strings.Join(got, "; "); text != want {
		t.Errorf("the ladder is\n%s, want\n%s", text, want)
	}
}

// steps counts a mass in last digits.
func steps(m, step unit.Mass) float64 { return math.Round(m.Per(step)) }

// A and B are the total, at every rounding of the scale each reading of the
// ladder with A and with B is the one before and what goes in, and each with what
// is stirred in is all that went in, within half a last digit.
func TestWhatIsWeighedAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]float64{0.01, 0.05, 0.1, 0.5, 1, 2, 5, 28.349523125 / 20, 28.349523125 / 100}).Draw(t, "last digit")
		m := mixOf(rapid.Float64Range(5, 5000).Draw(t, "grams"), rapid.Float64Range(5, 120).Draw(t, "parts"), step,
			rapid.SliceOfN(rapid.Float64Range(0, 0.05), 0, 3).Draw(t, "stirred in")...)
		cup := unit.Gram.Times(rapid.Float64Range(0, 600).Draw(t, "cup"))
		if steps(m.A, m.Step)+steps(m.B, m.Step) != steps(m.Total, m.Step) {
			t.Fatalf("%v and %v are not %v", m.A, m.B, m.Total)
		}
		ladder := m.Ladder(cup)
		var sum unit.Mass
		for i, r := range ladder {
			sum += r.Add
			off := math.Abs(float64(sum - r.Gross))
			if whole := math.Abs(r.Gross.Per(m.Step)-steps(r.Gross, m.Step)) < 1e-6; !whole || r.Fine != (i > 2) || !r.Fine && off > 1e-9 || off > float64(m.Step)*0.501 {
				t.Fatalf("rung %d of %+v", i, ladder)
			}
		}
		if steps(ladder[1].Add, m.Step) != steps(m.A, m.Step) || steps(ladder[2].Add, m.Step) != steps(m.B, m.Step) {
			t.Fatalf("the ladder %+v is not of %v and %v", ladder, m.A, m.B)
		}
		for i, a := range m.Additives {
			if ladder[3+i].Add != a.Mass {
				t.Fatalf("%v goes in of %+v", ladder[3+i].Add, a)
			}
		}
	})
}

func TestAimTellsWhatIsToGo(t *testing.T) {
	m := mixOf(660, 45, 0.1, 0.015)
	s, g := unit.Style{}, unit.Gram
	inA := InCup{Begun: true, Cup: 64.3 * g, A: 455.2 * g, Gross: 519.5 * g}
	inB := InCup{Begun: true, Cup: 64.3 * g, A: 455.2 * g, B: 204.8 * g, HasB: true, Gross: 724.3 * g}
	for _, c := range []struct {
		name    string
		in      InCup
		reading unit.Mass
		what    string
		state   AimState
		shown   string
	}{
		{"an empty cup", InCup{Cup: 64.3 * g}, 64.3 * g, "A", AimFar, "455 g"},
		{"A half in: whole grams, never more than there are", InCup{Cup: 64.3 * g}, 300.6 * g, "A", AimFar, "218 g"},
		{"A nearly in: under 5 % of 455.2 g is 22.8 g", InCup{Cup: 64.3 * g}, 497 * g, "A", AimNear, "22.5 g"},
		{"just before that", InCup{Cup: 64.3 * g}, 496 * g, "A", AimFar, "23 g"},
		{"A in", InCup{Cup: 64.3 * g}, 519.5 * g, "A", AimThere, "0.0 g"},
		{"A over", InCup{Cup: 64.3 * g}, 531.5 * g, "A", AimOver, "12.0 g"},
		{"B half in", inA, 663.1 * g, "B", AimFar, "61 g"},
		{"B nearly in", inA, 723.3 * g, "B", AimNear, "1.0 g"},
		{"tint", inB, 724.3 * g, "tint", AimFar, "9 g"},
		{"all in", inB, 734.2 * g, "tint", AimThere, "0.0 g"},
	} {
		a := m.Aim(c.in, c.reading, s)
		if a.What != c.what || a.State != c.state || a.Shown(s) != c.shown {
			t.Errorf("%s: %s of %s, %q; want %s of %s, %q", c.name, a.Shown(s), a.What, a.State, c.shown, c.what, c.state)
		}
	}
	// 12 g of A over: B follows, 467.2 x 0.45 = 210.24 g.
	if a := m.Aim(InCup{Cup: 64.3 * g}, 531.5*g, s); !strings.Contains(a.Why, "B becomes 210.2 g instead of 204.8 g") {
		t.Errorf("A over: %q", a.Why)
	}
	over := InCup{Begun: true, Cup: 64.3 * g, A: 467.2 * g, Gross: 531.5 * g}
	if a := m.Aim(over, 531.5*g, s); steps(a.Until, m.Step) != 7417 || !strings.Contains(a.Why, "because A is 467.2 g instead of 455.2 g") {
		t.Errorf("B re-aimed: until %v, %q", a.Until, a.Why)
	}
	short := InCup{Begun: true, Cup: 64.3 * g, A: 440 * g, Gross: 504.3 * g}
	if a := m.Aim(short, 504.3*g, s); !strings.Contains(a.Why, "B is 198.0 g") || !strings.Contains(a.Why, "22.0 g short") || !strings.Contains(a.Why, "15.2 g more of A") {
		t.Errorf("A short: %q", a.Why)
	}
	if a := mixOf(660, 45, 0.1).Aim(inB, 724.3*g, s); a.What != "" || a.State != AimThere {
		t.Errorf("all is in: %+v", a)
	}
}

// Wherever A ends, pouring B to its aim is on ratio within the scale's last
// digit, and the grams to go and the reading are the aim.
func TestBFollowsA(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mixOf(rapid.Float64Range(50, 3000).Draw(t, "grams"), rapid.Float64Range(10, 120).Draw(t, "parts"), rapid.SampledFrom([]float64{0.01, 0.1, 1}).Draw(t, "last digit"))
		cup := m.Step.Times(float64(rapid.IntRange(0, 500).Draw(t, "cup")))
		a := m.Step.Times(math.Round(m.A.Per(m.Step) * rapid.Float64Range(0.8, 1.3).Draw(t, "poured")))
		reading := cup + a + m.Step.Times(float64(rapid.IntRange(0, 2000).Draw(t, "so far")))
		aim := m.Aim(InCup{Begun: true, Cup: cup, A: a, Gross: cup + a}, reading, unit.Style{})
		b := aim.Until - cup - a
		if off := float64(b - a.Times(m.Parts/100)); math.Abs(off) > float64(m.Step)*1.001 {
			t.Fatalf("%v of A and %v of B are %v off", a, b, off)
		}
		if math.Abs(float64(reading+aim.ToGo-aim.Until)) > 1e-9 {
			t.Fatalf("%v and %v to go are not %v", reading, aim.ToGo, aim.Until)
		}
		if aim.State == AimFar && aim.Grain.Times(math.Floor(aim.ToGo.Per(aim.Grain))) > aim.ToGo+1e-12 {
			t.Fatalf("more is shown than there is: %+v", aim)
		}
	})
}

// weigh keeps readings of one layer in the journal, "A 519.5 g" and so on; an
// entry that begins with "new" is of another cup.
func weigh(t *testing.T, p *Project, readings ...string) []error {
	t.Helper()
	var errs []error
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	for _, r := range readings {
		r, afresh := strings.CutPrefix(r, "new ")
		kind := EntryWeighedA
		if strings.HasPrefix(r, "B") {
			kind = EntryWeighedB
		}
		e, err := p.WeighedEntry("l1", kind, r[2:], afresh)
		errs = append(errs, err)
		if err != nil {
			continue
		}
		e.ID, e.At = "e"+itoa(len(p.Journal)), at.Add(time.Duration(len(p.Journal))*time.Minute)
		if err := p.Log(e, at.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	return errs
}

func TestReadingsAreKept(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Mixing.Cup = given(64.3 * unit.Gram)
	errs := weigh(t, &p, "B 100 g", "A 50 g", "A 519.5 g", "B 519.5 g", "B 740 g", "A 751.5")
	for i, want := range []string{"A goes in first", "less than the empty cup", "", "nothing has gone in", "", ""} {
		if got := errs[i]; (got == nil) != (want == "") || got != nil && !strings.Contains(got.Error(), want) {
			t.Errorf("reading %d: %v, want %q", i, got, want)
		}
	}
	c := p.InCup("l1")
	within(t, "A", c.A.Grams(), 455.2+11.5, 1e-9)
	within(t, "B", c.B.Grams(), 220.5, 1e-9)
	within(t, "cup and all", float64(c.Cup+c.A+c.B), float64(c.Gross), 1e-12)
	// A reading is taken back by a further entry; what it told is gone.
	if err := p.Log(Entry{ID: "w", At: p.Journal[2].At.Add(time.Second), Kind: EntryWithdrawn, Of: c.Last}, p.Journal[2].At.Add(time.Minute)); err != nil {
		t.Fatal(err)
	}
	within(t, "A again", p.InCup("l1").A.Grams(), 455.2, 1e-9)
	if len(p.Journal) != 4 {
		t.Errorf("the journal holds %d entries", len(p.Journal))
	}
	weigh(t, &p, "new A 164.3 g")
	if c := p.InCup("l1"); c.HasB || math.Abs(c.A.Grams()-100) > 1e-9 {
		t.Errorf("another cup begins with %+v", c)
	}
	if at := p.CupAtScale("l1", false); at != 0 {
		t.Errorf("cup %d is at the scale, and the one before was left off its ratio", at)
	}
	if list := p.Validate(); len(list) > 0 {
		t.Errorf("%v", list)
	}
}

// One cup of a mix has its share of what is stirred in.
func TestForCup(t *testing.T) {
	m := mixOf(660, 45, 0.1, 0.015)
	m.Tint = m.Additives[0].Mass
	c := m.ForCup(&Batch{Mass: 220 * unit.Gram, A: 151.7 * unit.Gram, B: 68.3 * unit.Gram})
	within(t, "tint", c.Tint.Grams(), 3.3, 1e-9)
	within(t, "stirred in", c.Additives[0].Mass.Grams(), 3.3, 1e-9)
	within(t, "the mix's own", m.Additives[0].Mass.Grams(), 9.9, 1e-9)
	if ladder := c.Ladder(0); steps(ladder[2].Gross, m.Step) != 2200 || steps(ladder[3].Gross, m.Step) != 2233 {
		t.Errorf("%+v", ladder)
	}
}

// Where the cup was not weighed the scale was set to nothing with it on.
func TestReadingsWithoutACup(t *testing.T) {
	p := tray(300, 200, 30, 10)
	weigh(t, &p, "A 455.2 g", "B 660 g")
	c := p.InCup("l1")
	if !c.Begun || c.Cup != 0 || math.Abs(c.B.Grams()-204.8) > 1e-9 {
		t.Errorf("%+v", c)
	}
	p.Journal = p.Journal[1:]
	if c := p.InCup("l1"); c.Begun {
		t.Errorf("B alone is %+v", c)
	}
	p.Journal[0].Gross = unit.Taken[unit.Mass]{}
	if list := p.Validate(); len(list) != 1 || !strings.Contains(list[0].Message, "what the scale read") {
		t.Errorf("a reading without its weight: %v", list)
	}
}

// Any text at the scale gives an entry or a reason, and never less in the cup.
func FuzzScaleReading(f *testing.F) {
	for _, text := range []string{"519.5", "1 lb 3 oz", "-3", "NaN", "1e9 kg", "", "519,5 g", "∞"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		p := tray(300, 200, 30, 10)
		p.Mixing.Cup = given(64.3 * unit.Gram)
		e, err := p.WeighedEntry("l1", EntryWeighedA, text, false)
		if err != nil {
			if _, ok := err.(*Problem); !ok {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		e.ID, e.At = "e1", time.Unix(1e9, 0)
		p.Journal = append(p.Journal, e)
		if c := p.InCup("l1"); !(c.A > 0) || math.IsInf(float64(c.A), 0) {
			t.Fatalf("%q puts %v in the cup", text, c.A)
		}
		if list := p.Validate(); len(list) > 0 {
			t.Fatalf("%q: %v", text, list)
		}
	})
}
