package model

import (
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Nothing that is computed, read or learned loosens what a data sheet allows.

var pourStart = time.Date(2026, 11, 20, 10, 0, 0, 0, time.UTC)

// pouredOnce is a pour of which the first layer was poured, with the journal that
// tells of it, and another of the same lot to come.
func pouredOnce(room float64, first, second string, journal ...Entry) Project {
	p := plainPour(room, first)
	id := p.AddLayer()
	for path, text := range map[string]string{"sheet": p.Sheets[0].ID, "to": second} {
		if err := Enter(&p, "layers/"+id+"/"+path, text); err != nil {
			panic(err)
		}
	}
	p.Journal = []Entry{{ID: "j0", At: pourStart, Kind: EntryPourStarted, Layer: p.Layers[0].ID, Room: p.Shop.Room}}
	for i, e := range journal {
		if e.ID = "j" + string(rune('1'+i)); e.Layer == "first" {
			e.Layer = p.Layers[0].ID
		}
		p.Journal = append(p.Journal, e)
	}
	return p
}

func kelvin(celsius float64) unit.Taken[unit.Temperature] {
	return unit.Taken[unit.Temperature]{Value: unit.Celsius(celsius), Written: "x"}
}

func TestTheRoomsLimitKeepsToTheSheet(t *testing.T) {
	p := plainPour(20, "20 mm")
	free := simulateOf(t, p).Layers[0].Room
	p.Sheets[0].Warmest.Taken = kelvin(22.5)
	for what, c := range map[string]Curing{"likely": simulateOf(t, p), "with bands": widenOf(t, p)} {
		a := c.Layers[0].Room
		if free.Value <= unit.Celsius(22.5) || a.Value > unit.Celsius(22.5) || !a.Bound || !strings.Contains(a.Reason, "data sheet") {
			t.Errorf("%s: the room may be %v °C, the sheet says 22.5; freely %v: %+v", what, a.Value.Celsius(), free.Value.Celsius(), a)
		}
	}
	// Too hot in the coldest room that the sheet allows: then in none.
	deep := plainPour(20, "30 mm")
	deep.Sheets[0].Coldest.Taken = kelvin(25)
	l := simulateOf(t, deep).Layers[0]
	if l.Room.Text != noRoom || !strings.Contains(l.Room.Reason, "coldest that the data sheet allows") {
		t.Errorf("no colder than 25 °C: %+v", l.Room)
	}
}

func TestTheRoomsLimitIsOfTheRoomItself(t *testing.T) {
	// Typed as 20 °C and last read at 26: what may be is the same as were it
	// typed as 26.
	read := pouredOnce(20, "12 mm", "18 mm", Entry{At: pourStart.Add(2 * time.Hour), Kind: EntryReading, Room: kelvin(26)}, Entry{At: pourStart.Add(time.Minute), Kind: EntryReading, Room: kelvin(26)})
	typed := pouredOnce(26, "12 mm", "18 mm")
	a, b := simulateOf(t, read).Layers[1].Room, simulateOf(t, typed).Layers[1].Room
	if a.Bound || math.Abs(float64(a.Value-b.Value)) > 0.6 {
		t.Errorf("the room read at 26 °C may be %v °C (%+v), typed as that %v", a.Value.Celsius(), a, b.Value.Celsius())
	}
}

func TestASlowLotLoosensNoAnswer(t *testing.T) {
	plain := pouredOnce(20, "12 mm", "18 mm")
	sheet := simulateOf(t, plain)
	opens := sheet.Layers[0].RecoatFrom.Value.Duration()
	slow := pouredOnce(20, "12 mm", "18 mm", Entry{At: pourStart.Add(opens * 13 / 10), Kind: EntryTack, Layer: "first", Feel: FeelStrings})
	if l := simulateOf(t, slow).Layers[1]; l.Learned == "" {
		t.Fatal("nothing was learned")
	}
	for what, by := range map[string]func(testing.TB, Project) Curing{"likely": simulateOf, "with bands": widenOf} {
		a, b := by(t, slow).Layers[1], by(t, plain).Layers[1]
		if a.Room.Value > b.Room.Value || a.Deepest.Value > b.Deepest.Value {
			t.Errorf("%s: a slow lot may be in a room of %v °C and %v deep, by its sheet %v and %v", what, a.Room.Value.Celsius(), a.Deepest.Value, b.Room.Value.Celsius(), b.Deepest.Value)
		}
		if a.Peak.High < b.Peak.High-0.05 {
			t.Errorf("%s: the peak may come to %v °C, by the sheet %v", what, a.Peak.High.Celsius(), b.Peak.High.Celsius())
		}
	}
	ask := func(p Project) WhatIfAnswer {
		pl := Make(p)
		a, err := Ask(context.Background(), &p, &pl, p.Layers[1].ID, WhatIf{Room: 3})
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	if a, b := ask(slow).Peak, ask(plain).Peak; a < b-0.05 {
		t.Errorf("what if: a slow lot comes to %v °C, by its sheet to %v", a.Celsius(), b.Celsius())
	}
}

func TestTheSaferAnswerStands(t *testing.T) {
	likely := Answer[unit.Length]{Value: 0.03, Known: true, Text: "30 mm"}
	for value, want := range map[unit.Length]unit.Length{0.04: 0.03, 0.02: 0.02} {
		a := Answer[unit.Length]{Value: value, Known: true, Text: "other"}
		if a.cautious(likely); a.Value != want {
			t.Errorf("hot %v beside likely %v: %v", value, likely.Value, a.Value)
		}
	}
}

func TestAPourAMonthLaterIsThen(t *testing.T) {
	p := pouredOnce(20, "12 mm", "12 mm")
	at := pourStart.Add(30 * 24 * time.Hour)
	p.Journal = append(p.Journal, Entry{ID: "k", At: at, Kind: EntryPourStarted, Layer: p.Layers[1].ID, Room: p.Shop.Room})
	if l := simulateOf(t, p).Layers[1]; !l.Ready || !l.Start.Equal(at) {
		t.Errorf("poured on %v, simulated on %v", at, l.Start)
	}
}

func TestReadingsHideNoLateWindow(t *testing.T) {
	// In the cold the window closes after more days than a part is followed for.
	p := plainPour(7, "8 mm")
	p.Sheets[0].Gel.Value = 60 * unit.Hour
	p.Journal = []Entry{{ID: "a", At: pourStart, Kind: EntryPourStarted, Layer: p.Layers[0].ID, Room: p.Shop.Room}}
	before := simulateOf(t, p).Layers[0]
	if before.RecoatTo.Absent || before.RecoatTo.Value <= partFollowed {
		t.Fatalf("the window closes at %v h", before.RecoatTo.Value.Hours())
	}
	p.Journal = append(p.Journal, Entry{ID: "b", At: pourStart.Add(time.Hour), Kind: EntryReading, Layer: p.Layers[0].ID, Part: kelvin(7)})
	if after := simulateOf(t, p).Layers[0].RecoatTo; after.Absent || after.Value < partFollowed {
		t.Errorf("once the part was read it closes at %v h (%s), without at %v h", after.Value.Hours(), after.Source, before.RecoatTo.Value.Hours())
	}
}

func TestNoStartForWhatNeverHardens(t *testing.T) {
	p := plainPour(24, "8 mm")
	p.Sheets[0].Softening.Taken = kelvin(30)
	if l := simulateOf(t, p).Layers[0]; !l.Demold.Absent {
		t.Fatalf("at 24 °C it comes out after %v h", l.Demold.Value.Hours())
	}
	pl := Make(p)
	a, err := Starts(context.Background(), &p, &pl, pourStart)
	if err != nil || len(a.Choices) != 0 || !strings.Contains(a.None, "hard enough") {
		t.Errorf("%+v, %v", a, err)
	}
}

// TestTheHandsTimeIsNotSimulated: each figure of a pour's windows says whence it
// is, and only what the simulation tells is the simulation's.
func TestTheHandsTimeIsNotSimulated(t *testing.T) {
	p := plainPour(24, "8 mm")
	pl := Make(p)
	list, err := pourWindows(context.Background(), &p, &pl)
	if err != nil || len(list) != 1 {
		t.Fatalf("%v, %v", list, err)
	}
	w := &list[0]
	if !w.PourTakes.Typical || !strings.Contains(w.PourTakes.Source, "hands") {
		t.Errorf("it takes the hands %v s, from %q", w.PourTakes.Value, w.PourTakes.Source)
	}
	if w.Demold.Source != simulated {
		t.Errorf("it comes out after %v h, from %q", w.Demold.Value.Hours(), w.Demold.Source)
	}
}

func TestAStallIsWarmedWithinTheSheet(t *testing.T) {
	p := plainPour(4, "8 mm")
	free := simulateOf(t, p).Layers[0].Stall
	p.Sheets[0].Warmest.Taken = kelvin(free.WarmTo.Celsius() - 1)
	if s := simulateOf(t, p).Layers[0].Stall; s == nil || s.WarmTo != 0 || !strings.Contains(s.Text, "data sheet") {
		t.Errorf("freely to %v °C, within the sheet: %+v", free.WarmTo.Celsius(), s)
	}
}

func TestWhatComesOutByNightKeepsItsShapeByDay(t *testing.T) {
	p := plainPour(24, "12 mm")
	p.Shop.Night = kelvin(12)
	pl := Make(p)
	h, err := heatOf(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	stages, err := h.run(context.Background(), bestPass())
	if err != nil {
		t.Fatal(err)
	}
	s := &stages[0]
	o := h.outcome(bestPass(), stages, 0)
	if !o.demold.comes || !o.sand.comes || o.sand.after < o.demold.after {
		t.Fatalf("demold %+v, sand %+v", o.demold, o.sand)
	}
	f := s.course.At(o.demold.after)
	from, to := s.course.Cells(s.stratum)
	for c := from; c < to; c++ {
		if g := h.layers[0].cal.Kinetics.Glass.At(f.A[c]); g < unit.Celsius(24)+unit.Temperature(cure.DemoldMargin)-0.01 {
			t.Fatalf("out at %v h with a softening temperature of %v °C, by day the shop is at 24", o.demold.after.Hours(), g.Celsius())
		}
	}
}

func TestAFindingNamesARoomThatThereIs(t *testing.T) {
	p := plainPour(28, "36 mm")
	p.Sheets[0].Coldest.Taken = kelvin(27)
	c := simulateOf(t, p)
	if l := c.Layers[0]; l.PeakCheck != Beyond || l.Room.Text != noRoom || l.Deepest.Bound {
		t.Fatalf("peak %v, room %+v, deepest %+v", l.PeakCheck, l.Room, l.Deepest)
	}
	for _, f := range c.Findings {
		if strings.Contains(f.Do, noRoom) {
			t.Errorf("%q", f.Do)
		}
	}
}

func TestAPourIsHotterOnOneThatIsStillAtWork(t *testing.T) {
	p := plainPour(24, "12 mm")
	pl := Make(p)
	h, err := heatOf(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	deepest := func(on unit.Length) unit.Length {
		d, err := h.deepestOn(context.Background(), on, 0.1, p.Sheets[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	// On resin that has cured it would be more than on the mold's cold floor.
	if floor, resin := deepest(0), deepest(18*unit.Millimetre); !(resin > 0) || resin >= floor {
		t.Errorf("%v deep on the floor, %v on a pour whose window has just opened", floor, resin)
	}
}

func TestProposedLevelsStayCool(t *testing.T) {
	for _, room := range []float64{22, 26, 30} {
		p := plainPour(room, "40 mm")
		pl := Make(p)
		s, err := Propose(context.Background(), &p, &pl)
		if err != nil || !s.Possible {
			t.Fatalf("at %v °C: %+v, %v", room, s, err)
		}
		if err := ApplyStages(&p, s); err != nil {
			t.Fatal(err)
		}
		for _, l := range simulateOf(t, p).Layers {
			if l.PeakCheck == Beyond {
				t.Errorf("at %v °C, %d pours: %s comes to %v °C of %v", room, s.Pours, l.Name, l.Peak.Value.Celsius(), l.PeakLimit.Value.Celsius())
			}
		}
	}
}

func TestAGapInTheReadingsIsSaid(t *testing.T) {
	gap := func(after time.Duration) bool {
		p := pouredOnce(20, "12 mm", "12 mm", Entry{At: pourStart.Add(after), Kind: EntryReading, Room: kelvin(19)})
		for _, f := range simulateOf(t, p).Findings {
			if f.Kind == "heat.gap" {
				return true
			}
		}
		return false
	}
	if gap(20*time.Hour) || !gap(30*time.Hour) {
		t.Errorf("20 h: %v, 30 h: %v", gap(20*time.Hour), gap(30*time.Hour))
	}
}

func TestWhatIsReadOutOfTheMoldIsNotCounted(t *testing.T) {
	p := plainPour(20, "12 mm")
	layer := p.Layers[0].ID
	p.Journal = []Entry{
		{ID: "a", At: pourStart, Kind: EntryPourStarted, Layer: layer, Room: p.Shop.Room},
		{ID: "b", At: pourStart.Add(8 * time.Hour), Kind: EntryDemolded},
	}
	times := func() (unit.Span, unit.Span) {
		pl := Make(p)
		return simulateOf(t, p).Layers[0].RecoatFrom.Value, pl.Layers[0].Times.Demold.Value
	}
	window, demold := times()
	p.Journal = append(p.Journal, Entry{ID: "c", At: pourStart.Add(9 * time.Hour), Kind: EntryReading, Layer: layer, Part: kelvin(35)})
	if w, d := times(); w != window || d != demold {
		t.Errorf("warmed after it came out the window opens at %v h and it comes out at %v, before at %v and %v", w.Hours(), d.Hours(), window.Hours(), demold.Hours())
	}
	p.Journal[2].At = pourStart.Add(7 * time.Hour)
	if w, d := times(); w == window || d == demold {
		t.Error("nor is what was read before")
	}
}

// hoursPour is a pour of a resin whose sheet gives the hours of its window and
// of taking it out.
func hoursPour(room float64, depth string) Project {
	p := plainPour(room, depth)
	s := &p.Sheets[0]
	s.Gel, s.MaxLayer = Figure[unit.Span]{}, Figure[unit.Length]{Taken: unit.Taken[unit.Length]{Value: 12 * unit.Millimetre, Written: "12 mm"}}
	at := func(hours float64) Figure[unit.Span] {
		return Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: unit.Hour.Times(hours), Written: "x"}, At: kelvin(20)}
	}
	s.RecoatFrom, s.RecoatTo, s.Demold = at(4), at(7), at(30)
	return p
}

func TestTheSheetsHoursAreKept(t *testing.T) {
	// In the sheet's own room its own hours hold, whatever a thin pour or a deep
	// one would do by itself.
	for _, depth := range []string{"3 mm", "6 mm", "12 mm"} {
		p := hoursPour(20, depth)
		for what, l := range map[string]LayerCuring{"likely": simulateOf(t, p).Layers[0], "with bands": widenOf(t, p).Layers[0]} {
			if l.RecoatFrom.Low < 4*unit.Hour-1 || l.RecoatTo.Value > 7*unit.Hour+1 || l.Demold.Low < 30*unit.Hour-1 {
				t.Errorf("%s, %s: window %v (%v) to %v (%v) h, out at %v (%v) h; the sheet says 4 to 7 and 30", depth, what,
					l.RecoatFrom.Value.Hours(), l.RecoatFrom.Low.Hours(), l.RecoatTo.Value.Hours(), l.RecoatTo.High.Hours(), l.Demold.Value.Hours(), l.Demold.Low.Hours())
			}
		}
	}
	// In a warmer room they shorten as equivalent age has it, and no further.
	warm := simulateOf(t, hoursPour(26, "12 mm")).Layers[0]
	if least := 30 * cure.Lengthening(cure.TypicalActivation, unit.Celsius(26), unit.Celsius(20)); warm.Demold.Value.Hours() < least-0.01 {
		t.Errorf("at 26 °C it comes out at %v h, by the sheet and equivalent age at %v", warm.Demold.Value.Hours(), least)
	}
	// A lot that is slow does not move the end of the window past the sheet's.
	slow := hoursPour(20, "6 mm")
	slow.Journal = []Entry{{ID: "a", At: pourStart, Kind: EntryPourStarted, Layer: slow.Layers[0].ID, Room: slow.Shop.Room},
		{ID: "b", At: pourStart.Add(6 * time.Hour), Kind: EntryTack, Layer: slow.Layers[0].ID, Feel: FeelStrings}}
	if l := simulateOf(t, slow).Layers[0]; l.Learned == "" || l.RecoatTo.Value > 7*unit.Hour+1 && l.RecoatTo.Value > l.RecoatFrom.Value {
		t.Errorf("a slow lot's window closes at %v h (opens %v); learned: %q", l.RecoatTo.Value.Hours(), l.RecoatFrom.Value.Hours(), l.Learned)
	}
}

func TestNothingIsPouredOnWhatHasNotSet(t *testing.T) {
	p := plainPour(22, "10 mm")
	p.Sheets[0].RecoatFrom = Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: 2 * unit.Hour, Written: "2 h"}, At: kelvin(22)}
	if l := simulateOf(t, p).Layers[0]; l.RecoatFrom.Value < l.GelFirst.Value {
		t.Errorf("the window opens at %v h, the first place sets at %v", l.RecoatFrom.Value.Hours(), l.GelFirst.Value.Hours())
	}
}

func TestTheDeepestIsReadableAndNoMore(t *testing.T) {
	// 12 mm is 0.472 in: a rule in sixteenths shows 7/16, not 1/2.
	p := hoursPour(10, "6 mm")
	p.Style.Lengths = unit.InInches
	if l := simulateOf(t, p).Layers[0]; l.Deepest.Text != "7/16 in" || l.Deepest.Value > 12*unit.Millimetre {
		t.Errorf("%+v", l.Deepest)
	}
	p.Sheets[0].MaxLayer = Figure[unit.Length]{}
	if l := simulateOf(t, p).Layers[0]; l.Deepest.Known || l.Deepest.Text != "not known" || !strings.Contains(l.Deepest.Reason, "ask the supplier") {
		t.Errorf("of a silent sheet: %+v", l.Deepest)
	}
}

func TestASilentSheetIsNotFine(t *testing.T) {
	p := plainPour(24, "24 mm")
	p.Sheets[0].PeakLimit = Figure[unit.Temperature]{}
	l := simulateOf(t, p).Layers[0]
	if l.Peak.Value <= l.PeakLimit.Low || l.Peak.Value > l.PeakLimit.Value || l.PeakCheck != NotKnown {
		t.Errorf("peak %v °C against a limit of %v to %v: %v", l.Peak.Value.Celsius(), l.PeakLimit.Low.Celsius(), l.PeakLimit.High.Celsius(), l.PeakCheck)
	}
}

func TestWhatLiesOnTheUnknownIsNotKnown(t *testing.T) {
	p := plainPour(20, "10 mm")
	for range 2 {
		id := p.AddLayer()
		for path, text := range map[string]string{"sheet": p.Sheets[0].ID, "to": "10 mm"} {
			if err := Enter(&p, "layers/"+id+"/"+path, text); err != nil {
				t.Fatal(err)
			}
		}
	}
	p.Layers[1].Sheet = ""
	c := simulateOf(t, p)
	if !c.Layers[0].Ready || c.Layers[1].Ready || c.Layers[2].Ready || !strings.Contains(c.Layers[2].Why, "below") {
		t.Errorf("%v %q, %v %q, %v %q", c.Layers[0].Ready, c.Layers[0].Why, c.Layers[1].Ready, c.Layers[1].Why, c.Layers[2].Ready, c.Layers[2].Why)
	}
}

func TestNothingIsCuredBeforeItCanBeSanded(t *testing.T) {
	p := plainPour(12, "10 mm")
	pl := Make(p)
	c := simulateOf(t, p)
	timed := c.Timed(&pl)
	if l := timed.Layers[0]; l.Times.FullCure.Value < c.Layers[0].Sand.Value {
		t.Errorf("full cure at %v d, sanded at %v d", l.Times.FullCure.Value/unit.Day, c.Layers[0].Sand.Value/unit.Day)
	}
}
