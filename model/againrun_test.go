package model

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"meniscus/model/unit"
)

// shift writes the journal of a run, in minutes since it began.
type shift struct {
	t  *testing.T
	p  *Project
	at time.Time
	n  int
}

func (s *shift) log(minutes float64, e Entry) {
	s.t.Helper()
	s.n++
	e.ID, e.At = fmt.Sprintf("e%d", s.n), s.at.Add(time.Duration(minutes*float64(time.Minute)))
	if err := s.p.Log(e, s.at.Add(1000*time.Hour)); err != nil {
		s.t.Fatal(err)
	}
}

// cup weighs a cup of 40 g in full.
func (s *shift) cup(minutes float64, layer string, a, b float64) {
	g := func(x float64) unit.Taken[unit.Mass] { return given(unit.Mass(x) * unit.Gram) }
	s.log(minutes, Entry{Kind: EntryWeighedA, Layer: layer, Cup: g(40), Gross: g(40 + a)})
	s.log(minutes+1, Entry{Kind: EntryWeighedB, Layer: layer, Gross: g(40 + a + b)})
}

// The invented hexagon, run as the shop's notes have it: poured at 18:40,
// 455.3 g of A and 204.9 of B; like tape after 23.5 h; the second pour mixed
// with too much B and mended.
func poppyRun(t *testing.T) Project {
	p := demo(t, "poppy-stand")
	s := &shift{t: t, p: &p, at: time.Date(2026, 3, 6, 18, 30, 0, 0, time.UTC)}
	s.cup(0, "l3", 455.3, 204.9)
	s.log(10, Entry{Kind: EntryPourStarted, Layer: "l3"})
	s.log(25, Entry{Kind: EntryPourDone, Layer: "l3"})
	e, err := p.Emptied("l3", "51 g", "")
	if err != nil {
		t.Fatal(err)
	}
	s.log(26, e)
	s.log(60*19.5, Entry{Kind: EntryTack, Layer: "l3", Feel: FeelStrings})
	s.log(10+60*23.5, Entry{Kind: EntryTack, Layer: "l3", Feel: FeelTape})
	s.log(60*24, Entry{Kind: EntryProbe, Layer: "l3", Part: given(unit.Celsius(24.5))})
	s.cup(60*25, "l4", 689.9, 331.6)
	s.log(60*25+3, Entry{Kind: EntryWeighedA, Layer: "l4", Gross: given(unit.Mass(40+689.9+331.6+47) * unit.Gram)})
	s.log(60*25.5, Entry{Kind: EntryPourStarted, Layer: "l4"})
	if e, err = p.LeftOver("l4", "68.5 g", "two spare tiles"); err != nil {
		t.Fatal(err)
	}
	s.log(60*26, e)
	s.log(60*24*6, Entry{Kind: EntryDemolded, Feel: FeelStiff})
	for _, thick := range []string{"25.1 mm", "25.3 mm"} {
		if e, err = p.Measured(thick, "a corner"); err != nil {
			t.Fatal(err)
		}
		s.log(60*24*8, e)
	}
	return p
}

// What was planned beside what was, with the masses added up by hand.
func TestPlannedAgainstActual(t *testing.T) {
	p := poppyRun(t)
	pl := Make(p)
	r := p.Ran(&pl, nil, []TaskMinutes{{"k1", "sanding", 90 * unit.Minute, 100 * unit.Minute}})
	grams := func(got unit.Mass, want float64, what string) {
		t.Helper()
		if !close(got.Grams(), want, 1e-9) {
			t.Errorf("%s is %.3f g, want %.3f", what, got.Grams(), want)
		}
	}
	one, two := &r.Layers[0], &r.Layers[1]
	grams(one.Used(), 660.2, "the first mix")
	grams(one.Stayed, 11, "what stayed in its cup")
	grams(two.A, 736.9, "A of the second")
	grams(two.Used(), 1068.5, "the second mix, mended")
	grams(two.Over, 68.5, "what was left over")
	if in, ok := two.InMold(); !ok || !close(in.Grams(), 1000, 1e-9) {
		t.Errorf("%v g went into the mold", in.Grams())
	}
	rows := map[string]RanRow{}
	for _, x := range r.Rows {
		rows[x.Key] = x
	}
	for key, want := range map[string]string{
		"l3/mix": "660.2 g", "l3/a": "455.3 g", "l3/cups": "1", "l3/stayed": "11.0 g", "l3/done": "15 min", "l3/set": "23.5 h", "l3/next": "25.3 h",
		"l3/peak": "24.5 °C", "l3/start": "Fri 6 Mar 2026, 18:40", "l4/over": "68.5 g", "l4/out": "4.9 d", "thickness": "25.2 mm, from 25.1 mm to 25.3 mm", "minutes/k1": "1 h 40 min",
	} {
		if rows[key].Actual != want {
			t.Errorf("%s reads %q, want %q", key, rows[key].Actual, want)
		}
	}
	if x := rows["minutes/k1"]; x.Planned != "1 h 30 min" || !close(x.Ratio, 10.0/9, 1e-12) {
		t.Errorf("the sanding reads %+v", x)
	}
	if x := rows["l3/mix"]; x.Planned == "" || !close(x.Ratio, 660.2/pl.Layers[0].Mix.Total.Grams(), 1e-9) {
		t.Errorf("the first mix reads %+v", x)
	}
}

// A thickness stands in the journal beside what was to be left: 28 mm less 0.3
// sunk, 1.7 and 0.5 taken off is 25.5.
func TestChronicleHoldsTheThickness(t *testing.T) {
	p := poppyRun(t)
	pl := Make(p)
	found := 0
	for _, row := range Chronicle(&p, &pl, &Curing{}, p.Journal[len(p.Journal)-1].At) {
		if row.Entry.Kind != EntryMeasured {
			continue
		}
		if found++; row.Planned != "25.5 mm left in the end" || row.Off != map[string]string{"25.1 mm": "0.4 mm thinner", "25.3 mm": "0.2 mm thinner"}[row.Entry.Thick.Written] {
			t.Errorf("%s reads %q, %q", row.Happened, row.Planned, row.Off)
		}
	}
	if found != 2 {
		t.Errorf("%d of 2 thicknesses are told", found)
	}
}

// Two runs of one recipe beside each other: only what went otherwise.
func TestTwoRunsApart(t *testing.T) {
	a, b := poppyRun(t), poppyRun(t)
	b.Journal[0].Gross = given(unit.Mass(500.3) * unit.Gram) // 5 g more A, 5 g less B
	plan := Make(a)
	ra, rb := a.Ran(&plan, nil, nil), b.Ran(ptr(Make(b)), nil, nil)
	if d := Compare(&a, &a, &ra, &ra); len(d) > 0 {
		t.Errorf("a run differs from itself in %+v", d)
	}
	got := map[string]string{}
	for _, d := range Compare(&a, &b, &ra, &rb) {
		got[d.Path] = d.Label + ": " + d.A + " → " + d.B
	}
	want := map[string]string{
		"run/l3/a": "smoke-grey base: of it A: 455.3 g → 460.3 g",
		"run/l3/b": "smoke-grey base: of it B: 204.9 g → 199.9 g",
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("they differ in %v, want %v", got, want)
	}
	bare := demo(t, "poppy-stand")
	rc := bare.Ran(ptr(Make(bare)), nil, nil)
	if d := Compare(&a, &bare, &ra, &rc); len(d) != len(ra.Rows) || d[0].B != "" {
		t.Errorf("%d of %d things that happened are missing in the other: %+v", len(d), len(ra.Rows), d)
	}
}

// What cannot be so is refused as it is typed.
func TestEntriesOfARunRefused(t *testing.T) {
	p := poppyRun(t)
	for what, try := range map[string]func() error{
		"less than the cup":       func() error { _, err := p.Emptied("l3", "39 g", ""); return err },
		"more than went in":       func() error { _, err := p.Emptied("l3", "2 kg", ""); return err },
		"no number":               func() error { _, err := p.Emptied("l3", "wet", ""); return err },
		"nothing left over":       func() error { _, err := p.LeftOver("l3", "0 g", ""); return err },
		"no thickness":            func() error { _, err := p.Measured("0 mm", ""); return err },
		"a cup that is not known": func() error { q := demo(t, "poppy-stand"); _, err := q.Emptied("l3", "50 g", ""); return err },
	} {
		if _, ok := try().(*Problem); !ok {
			t.Errorf("%s is taken: %v", what, try())
		}
	}
	for _, e := range []Entry{{Kind: EntryEmptied, Layer: "l3"}, {Kind: EntryLeftOver, Gross: given(unit.Mass(1))}, {Kind: EntryMeasured}} {
		if _, message := e.fault(); message == "" {
			t.Errorf("%+v counts as whole", e)
		}
	}
}

// What is a limit is told as one, and without a ratio: within the working time,
// and not before the piece is ready.
func TestRunAgainstLimits(t *testing.T) {
	p := poppyRun(t)
	pl := Make(p)
	r := p.Ran(&pl, nil, nil)
	for key, want := range map[string]string{"l3/done": "within " + p.Style.Span(pl.Layers[0].Times.Working.Value), "l4/out": "not before " + p.Style.Span(pl.Layers[1].Times.Demold.Value)} {
		i := slices.IndexFunc(r.Rows, func(x RanRow) bool { return x.Key == key })
		if i < 0 || r.Rows[i].Planned != want || r.Rows[i].Ratio != 0 || r.Rows[i].Actual == "" {
			t.Errorf("%s reads %+v", key, r.Rows)
		}
	}
}
