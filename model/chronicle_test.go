package model

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// friday is 18:40 on the evening of a pour, in a shop in UTC.
var friday = time.Date(2026, 11, 27, 18, 40, 0, 0, time.UTC)

// bookDay is a piece of two pours whose plan is written out by hand, so that
// what its journal is held against hangs on nothing else.
type bookDay struct {
	t  *testing.T
	p  Project
	pl Plan
	c  Curing
}

func newBookDay(t *testing.T) *bookDay {
	d := &bookDay{t: t, p: tray(300, 200, 40, 10)}
	d.p.Layers[0].Name = "base"
	d.p.Layers = append(d.p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(10), Sheet: "s1"})
	d.p.Shop.Zone, d.p.Shop.Planned = "UTC", friday
	hours := func(h float64) Known[unit.Span] {
		v := unit.Hour.Times(h)
		return Known[unit.Span]{Value: v, Low: v, High: v}
	}
	times := LayerTimes{Working: hours(2), RecoatFrom: hours(24), RecoatTo: hours(40), Demold: hours(100), FullCure: Known[unit.Span]{Absent: true}}
	mix := MixPlan{Ready: true, A: 455.2 * unit.Gram, B: 204.8 * unit.Gram, Total: 660 * unit.Gram, Step: 0.1 * unit.Gram, Parts: 45}
	d.pl.Layers = []LayerPlan{{ID: "l1", Name: "base", Times: times, Mix: mix, Status: Planned}, {ID: "l2", Name: "top", Times: times, Mix: mix, Status: Planned}}
	return d
}

// log writes an entry so many hours after the planned start.
func (d *bookDay) log(hours float64, e Entry) {
	d.t.Helper()
	e.ID, e.At = fmt.Sprintf("e%d", len(d.p.Journal)+1), friday.Add(unit.Hour.Times(hours).Duration())
	if err := d.p.Log(e, friday.Add(1000*time.Hour)); err != nil {
		d.t.Fatal(err)
	}
	if e.Kind != EntryPourStarted {
		return
	}
	for i := range d.pl.Layers {
		if l := &d.pl.Layers[i]; l.ID == e.Layer {
			l.Status = Poured
		}
	}
}

// rows gives the chronicle so many hours after the planned start, the steps
// being those that follow from the starts in the journal.
func (d *bookDay) rows(hours float64) []ChronicleRow {
	d.pl.Steps = d.p.steps(d.pl.Layers)
	return Chronicle(&d.p, &d.pl, &d.c, friday.Add(unit.Hour.Times(hours).Duration()))
}

// one gives the row whose event or plan has some words.
func (d *bookDay) one(rows []ChronicleRow, words string) ChronicleRow {
	d.t.Helper()
	for _, r := range rows {
		if strings.Contains(r.Happened, words) || r.Happened == "" && strings.Contains(r.Planned, words) {
			return r
		}
	}
	d.t.Errorf("no row of %q in %+v", words, rows)
	return ChronicleRow{}
}

// TestChronicleHoldsTimesAgainstThePlan: by hand, a pour planned for 18:40 and
// begun 18:52; its working time of two hours, its window of 24 to 40 hours.
func TestChronicleHoldsTimesAgainstThePlan(t *testing.T) {
	d := newBookDay(t)
	d.log(0.2, Entry{Kind: EntryPourStarted, Layer: "l1"})
	d.log(2, Entry{Kind: EntryPourDone, Layer: "l1"})
	d.log(20, Entry{Kind: EntryTack, Layer: "l1", Feel: FeelTape})
	d.log(25, Entry{Kind: EntryTack, Layer: "l1", Feel: FeelStrings})
	d.log(26, Entry{Kind: EntryTack, Layer: "l1", Feel: FeelTape})
	d.log(43.2, Entry{Kind: EntryPourStarted, Layer: "l2"})
	d.log(46, Entry{Kind: EntryPourDone, Layer: "l2"})
	d.log(138.2, Entry{Kind: EntryDemolded, Feel: FeelStiff})
	rows := d.rows(300)
	for _, c := range []struct {
		words, planned, off string
		level               Level
	}{
		{"Pour of base started", "Pour base, 18:40", "12 min late", Note},
		{"Pour of base done", "All in the mold by 20:52", "12 min to spare", Note},
		{"Touched base: sticky", "Sticky like tape from 18:52 to Sun 29 Nov, 10:52", "faster than planned", Check},
		{"Touched base: it strings", "Sticky like tape from 18:52 to Sun 29 Nov, 10:52", "slower than planned", Check},
		{"Pour of top started", "Pour top in the window on base, Sat 28 Nov, 18:52 to 10:52", "3 h after it closed", Check},
		{"Pour of top done", "All in the mold by 15:52", "48 min past it", Check},
		{"Out of the mold", "Ready to demold 17:52", "5 h sooner", Check},
	} {
		r := d.one(rows, c.words)
		if !strings.HasPrefix(r.Planned, c.planned) || r.Off != c.off || r.Level != c.level || r.ToCome {
			t.Errorf("%s: planned %q, off %q, %q", c.words, r.Planned, r.Off, r.Level)
		}
	}
	for _, r := range rows {
		if r.Happened == "" {
			t.Errorf("a step that was answered stands alone: %+v", r)
		}
	}
}

// TestChronicleHoldsWeightsAgainstTheLadder: cup 42.6, then 497.8 and 702.6 (the
// bench notes, section 4); B at 829.4 is 126.8 too much.
func TestChronicleHoldsWeightsAgainstTheLadder(t *testing.T) {
	d := newBookDay(t)
	weighed := func(at float64, kind EntryKind, gross float64, cup float64) {
		e := Entry{Kind: kind, Layer: "l1", Gross: given(unit.Gram.Times(gross))}
		if cup > 0 {
			e.Cup = given(unit.Gram.Times(cup))
		}
		d.log(at, e)
	}
	weighed(-1, EntryWeighedA, 300, 42.6)
	weighed(-0.9, EntryWeighedA, 497.8, 0)
	weighed(-0.8, EntryWeighedB, 829.4, 0)
	weighed(-0.7, EntryWeighedA, 1111.2, 0)
	d.log(-0.5, Entry{Kind: EntryMixing, Layer: "l1"})
	d.log(-0.45, Entry{Kind: EntryMixed, Layer: "l1"}) // 3 of 5 minutes
	var got []string
	for _, r := range d.rows(0) {
		if r.Entry.Kind != "" {
			got = append(got, r.Planned+" | "+r.Off)
		}
	}
	want := []string{
		" | ", // the next reading of A stands for both
		"A for base until the scale reads 497.8 g | as planned",
		"B for base until the scale reads 702.6 g | 126.8 g more than planned",
		" | ", // A that mends the ratio
		" | ",
		"Mix it for 5 min | 2 min too short",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	// In a second cup nothing says how much was to go into each.
	weighed(-0.4, EntryWeighedA, 200, 42.6)
	for _, r := range d.rows(0) {
		if r.Entry.weighed() && r.Planned != "" {
			t.Errorf("%+v", r)
		}
	}
}

// TestChronicleTellsOfHeat holds a probe against the simulated peak.
func TestChronicleTellsOfHeat(t *testing.T) {
	d := newBookDay(t)
	d.c.Layers = []LayerCuring{{ID: "l1", Ready: true, Peak: Known[unit.Temperature]{Value: unit.Celsius(31), Low: unit.Celsius(28), High: unit.Celsius(35)}}}
	d.log(0, Entry{Kind: EntryPourStarted, Layer: "l1"})
	d.log(20, Entry{Kind: EntryProbe, Layer: "l1", Part: given(unit.Celsius(38))})
	if r := d.one(d.rows(21), "A probe"); r.Planned != "31 °C at most, between 28 °C and 35 °C" || r.Off != "7 °C warmer" || r.Level != Check {
		t.Errorf("%+v", r)
	}
	d.c.Project = "another"
	if r := d.one(d.rows(21), "A probe"); r.Planned != "" {
		t.Errorf("held against another project: %+v", r)
	}
}

// TestChronicleTellsWhatIsToCome: a planned start with its steps while it lies
// ahead, and that it was not kept once it has passed.
func TestChronicleTellsWhatIsToCome(t *testing.T) {
	d := newBookDay(t)
	rows := d.rows(-3)
	if r := d.one(rows, "Working time of base ends (if poured as planned)"); !r.ToCome || !r.At.Equal(friday.Add(2*time.Hour)) {
		t.Errorf("%+v", r)
	}
	if r := d.one(rows, "Pour base"); !r.ToCome || !r.At.Equal(friday) {
		t.Errorf("%+v", r)
	}
	if r := d.one(d.rows(3), "Pour base"); r.ToCome || r.Off != "not started" || r.Level != Check {
		t.Errorf("%+v", r)
	}
	d.log(1, Entry{Kind: EntryPourStarted, Layer: "l1"})
	rows = d.rows(4)
	if r := d.one(rows, "Working time of base ends"); r.ToCome || r.Happened != "" {
		t.Errorf("%+v", r)
	}
	if r := d.one(rows, "Recoat window of base opens"); !r.ToCome {
		t.Errorf("%+v", r)
	}
}

// TestChronicleFoldsTheTicks: the checklist is one row with the ticks inside,
// named as the list names them.
func TestChronicleFoldsTheTicks(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Journal = nil
	pl := Make(p)
	layer := p.Layers[0].ID
	list := p.Checklist(&pl, layer)
	now := friday
	for i, line := range list[:len(list)-1] {
		if err := p.Log(Entry{ID: "t" + itoa(i), At: now.Add(time.Duration(i) * time.Minute), Kind: EntryChecked, Layer: layer, Check: line.ID}, now.Add(time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	pl = Make(p)
	rows := Chronicle(&p, &pl, &Curing{}, now.Add(time.Hour))
	want := fmt.Sprintf("%d of %d checked for %s", len(list)-1, len(list), p.Layers[0].Name)
	i := slices.IndexFunc(rows, func(r ChronicleRow) bool { return r.Happened == want })
	if i < 0 || len(rows[i].Inside) != len(list)-1 || rows[i].Inside[0].Happened != "Checked: "+list[0].Words {
		t.Errorf("%q in %+v", want, rows)
	}
	p.Layers = nil
	pl = Make(p)
	rows = Chronicle(&p, &pl, &Curing{}, now.Add(time.Hour))
	want = fmt.Sprintf("%d checked for a layer that is gone", len(list)-1)
	if !slices.ContainsFunc(rows, func(r ChronicleRow) bool { return r.Happened == want }) {
		t.Errorf("%q in %+v", want, rows)
	}
}

// TestChronicleLosesNothing holds for any journal that every entry is told of
// once, what was taken back too, in time order, and that what is to come is
// what lies ahead.
func TestChronicleLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 40, 10)
		p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(10), Sheet: "s1"})
		now := friday.Add(200 * time.Hour)
		kinds := []EntryKind{EntryPourStarted, EntryPourDone, EntryDemolded, EntryNote, EntryTack, EntryWeighedA, EntryWeighedB, EntryMixing, EntryMixed, EntryChecked, EntryPhoto, EntryTooHot, EntryProbe, EntryReading, EntryWithdrawn}
		for i := range rapid.IntRange(0, 25).Draw(t, "entries") {
			e := Entry{ID: "e" + itoa(i), Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Layer: rapid.SampledFrom([]string{"l1", "l2"}).Draw(t, "layer")}
			e.At = friday.Add(time.Duration(rapid.IntRange(0, 190*60).Draw(t, "minute")) * time.Minute)
			switch e.Kind {
			case EntryTack:
				e.Feel = rapid.SampledFrom([]Feel{FeelStrings, FeelTape, FeelHard}).Draw(t, "feel")
			case EntryWeighedA, EntryWeighedB:
				e.Gross = given(unit.Gram.Times(rapid.Float64Range(1, 900).Draw(t, "gross")))
				if rapid.Bool().Draw(t, "afresh") {
					e.Cup = given(unit.Gram.Times(40))
				}
			case EntryProbe, EntryReading:
				e.Part = given(unit.Celsius(rapid.Float64Range(5, 90).Draw(t, "part")))
			case EntryWithdrawn:
				e.Of = "e" + itoa(rapid.IntRange(0, 25).Draw(t, "of"))
			case EntryChecked:
				e.Check = rapid.SampledFrom([]string{checkLevel, checkGloves, "gone"}).Draw(t, "check")
			case EntryPhoto:
				e.Photo = "x"
			}
			_ = p.Log(e, now)
		}
		pl := Make(p)
		rows := Chronicle(&p, &pl, &Curing{}, now)
		if !slices.IsSortedFunc(rows, func(a, b ChronicleRow) int { return a.At.Compare(b.At) }) {
			t.Fatal("not in time order")
		}
		told := map[string]int{}
		for _, r := range rows {
			if r.ToCome != (r.At.After(now) && r.Entry.Kind == "" && len(r.Inside) == 0) {
				t.Fatalf("%+v", r)
			}
			for _, in := range append(r.Inside, r) {
				if in.Entry.Kind != "" {
					told[in.Entry.ID]++
				}
			}
		}
		for _, e := range p.Journal {
			if told[e.ID] != 1 {
				t.Fatalf("%+v is told of %d times", e, told[e.ID])
			}
		}
		if len(told) != len(p.Journal) {
			t.Fatalf("%d told of %d", len(told), len(p.Journal))
		}
	})
}
