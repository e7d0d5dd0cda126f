package model

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// The trade's examples, worked by hand: 331.6 g of B at 100:45 want 736.89 g of
// A, which is 46.99 g more than 689.9; 500 g of A want 225 g of B.
func TestRescue(t *testing.T) {
	for _, c := range []struct {
		a, b       float64
		part       string
		add, total float64
	}{
		{689.9, 331.6, "A", 47.0, 1068.5},
		{500, 200, "B", 25.0, 725},
	} {
		m := mixOf(1000, 45, 0.1)
		r, off := m.Rescue(InCup{A: unit.Gram.Times(c.a), B: unit.Gram.Times(c.b), HasB: true})
		if !off || r.Part != c.part {
			t.Errorf("%v/%v: %+v", c.a, c.b, r)
		}
		within(t, "add", r.Add.Grams(), c.add, 1e-9)
		within(t, "in all", r.Total.Grams(), c.total, 1e-9)
		within(t, "surplus", r.Surplus.Grams(), c.total-1000, 1e-9)
	}
	m := mixOf(1000, 45, 0.1)
	r, _ := m.Rescue(InCup{A: 689.9 * unit.Gram, B: 331.6 * unit.Gram, HasB: true})
	words := r.Words(m, 1093, unit.Style{})
	for _, want := range []string{"+6.8 % hardener", "add 47.0 g of A", "in all 1068.5 g", "68.5 g too much (63 ml)"} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %q", want, words)
		}
	}
	if _, off := m.Rescue(InCup{A: m.A, B: m.B + m.Step, HasB: true}); off {
		t.Error("one last digit is mended")
	}
	if _, off := m.Rescue(InCup{A: m.A}); off {
		t.Error("a mix without B is mended")
	}
}

// A rescue always lands on ratio: within half of the scale's last digit of the
// part that is added, and it only ever adds.
func TestRescueLandsOnRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := mixOf(rapid.Float64Range(20, 3000).Draw(t, "grams"), rapid.Float64Range(10, 120).Draw(t, "parts"), rapid.SampledFrom([]float64{0.01, 0.1, 1}).Draw(t, "last digit"))
		c := InCup{Begun: true, HasB: true, A: m.A.Times(rapid.Float64Range(0.3, 3).Draw(t, "A")), B: m.B.Times(rapid.Float64Range(0.3, 3).Draw(t, "B"))}
		c.Gross = c.A + c.B
		r, off := m.Rescue(c)
		if r.Add < 0 {
			t.Fatalf("it takes out: %+v", r)
		}
		a, b, slack := c.A, c.B, float64(m.Step)/2
		if r.Part == "A" {
			a, slack = a+r.Add, slack*m.Parts/100
		} else {
			b += r.Add
		}
		if apart := math.Abs(float64(a.Times(m.Parts/100) - b)); apart > slack*(1+1e-6) {
			t.Fatalf("%v and %v are %v off after %+v", a, b, apart, r)
		}
		if math.Abs(float64(r.Total-a-b)) > 1e-9 {
			t.Fatalf("%v and %v are not %v", a, b, r.Total)
		}
		if off && m.Aim(c, c.Gross, unit.Style{}).ToGo != (c.Gross+r.Add)-c.Gross {
			t.Fatalf("the scale is not told of %+v", r)
		}
	})
}

func TestRescueHasItsTime(t *testing.T) {
	r := Rescue{}
	working := Known[unit.Span]{Value: 45 * unit.Minute, Low: 45 * unit.Minute, High: 45 * unit.Minute}
	for _, c := range []struct {
		working Known[unit.Span]
		since   float64
		met     bool
		verdict Verdict
		words   string
	}{
		{working, 5, true, Fine, "10 min of the 15 min are left"},
		{working, 15, true, Fine, "0 min of"},
		{working, 16, true, Beyond, "Bin it"},
		{working, 0, false, NotKnown, "within 15 min"},
		{Known[unit.Span]{Absent: true}, 5, true, NotKnown, "copy the working time"},
	} {
		verdict, words := r.Time(c.working, unit.Minute.Times(c.since), c.met)
		if verdict != c.verdict || !strings.Contains(words, c.words) {
			t.Errorf("after %v min: %s, %q", c.since, verdict, words)
		}
	}
	for _, want := range []string{"thin", "outdoors", "cannot burn", "never in a deep cup"} {
		if !strings.Contains(BinSafely, want) {
			t.Errorf("the bin is told of without %q", want)
		}
	}
	if !strings.HasPrefix(NoMoreHardener, "No.") {
		t.Error("more hardener is not refused")
	}
}

// TestMetAt: the parts met at the first reading of B in the cup begun last, and
// a reading that was taken back tells nothing.
func TestMetAt(t *testing.T) {
	at := func(min int) time.Time { return time.Date(2026, 3, 1, 9, min, 0, 0, time.UTC) }
	p := tray(300, 200, 30, 10)
	weighed := func(id string, min int, kind EntryKind, gross float64, cup float64) {
		e := Entry{ID: id, At: at(min), Kind: kind, Layer: "l1", Gross: given(unit.Gram.Times(gross))}
		if cup > 0 {
			e.Cup = given(unit.Gram.Times(cup))
		}
		if err := p.Log(e, at(59)); err != nil {
			t.Fatal(err)
		}
	}
	want := func(when string, min int) {
		t.Helper()
		if got, told := p.MetAt("l1"); told != (min >= 0) || told && !got.Equal(at(min)) {
			t.Errorf("%s: %v, %v", when, got, told)
		}
	}
	want("nothing is in", -1)
	weighed("e1", 1, EntryWeighedA, 500, 60)
	want("only A", -1)
	weighed("e2", 4, EntryWeighedB, 650, 0)
	weighed("e3", 6, EntryWeighedB, 720, 0)
	want("B in two readings", 4)
	if err := p.Log(Entry{ID: "e4", At: at(7), Kind: EntryWithdrawn, Of: "e2"}, at(59)); err != nil {
		t.Fatal(err)
	}
	want("the first was taken back", 6)
	weighed("e5", 10, EntryWeighedA, 500, 60)
	want("another cup", -1)
}
