package model

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

var demoNames = []string{"poppy-stand", "breakfast-boards", "hall-shelf"}

func inTurn(n int, f func(int)) {
	for i := range n {
		f(i)
	}
}

func simulateOf(t testing.TB, p Project) Curing {
	t.Helper()
	pl := Make(p)
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func widenOf(t testing.TB, p Project) Curing {
	t.Helper()
	pl := Make(p)
	c, err := Widen(context.Background(), &p, &pl, inTurn)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestSimulationFollowsFromTheProject(t *testing.T) {
	for _, name := range demoNames {
		if a, b := simulateOf(t, demo(t, name)), simulateOf(t, demo(t, name)); !reflect.DeepEqual(a, b) {
			t.Errorf("%s: the same project cures in two ways", name)
		}
	}
	// Its bands do not hang on the order of the runs either.
	p := demo(t, "hall-shelf")
	pl := Make(p)
	a := widenOf(t, p)
	b, err := Widen(context.Background(), &p, &pl, func(n int, f func(int)) {
		for i := range n {
			f(n - 1 - i)
		}
	})
	if err != nil || !reflect.DeepEqual(a, b) {
		t.Errorf("the same project has two bands: %v", err)
	}
	if _, err := json.Marshal(a); err != nil {
		t.Error(err)
	}
}

// ordered tells whether a Known's band holds its value.
func ordered[Q unit.Quantity](k Known[Q]) bool {
	return k.Absent || k.Low <= k.Value && k.Value <= k.High && !math.IsNaN(float64(k.Value))
}

func TestDemosCure(t *testing.T) {
	for _, name := range demoNames {
		c := widenOf(t, demo(t, name))
		if !c.Banded || len(c.Trace.Frames) < 20 || len(c.Steps) == 0 {
			t.Fatalf("%s: banded %v, %d frames, %d steps", name, c.Banded, len(c.Trace.Frames), len(c.Steps))
		}
		for _, l := range c.Layers {
			if !l.Ready {
				t.Errorf("%s: %s: %s", name, l.Name, l.Why)
				continue
			}
			if !ordered(l.Peak) || !ordered(l.GelFirst) || !ordered(l.GelLast) || !ordered(l.RecoatFrom) || !ordered(l.RecoatBest) || !ordered(l.RecoatTo) || !ordered(l.Demold) || !ordered(l.Sand) || !ordered(l.Gradient) {
				t.Errorf("%s: %s: a band that does not hold its value", name, l.Name)
			}
			inOrder := []unit.Span{l.RecoatFrom.Value, l.RecoatBest.Value, l.RecoatTo.Value, l.Demold.Value, l.Sand.Value}
			for i := 1; i < len(inOrder); i++ {
				if inOrder[i] < inOrder[i-1] {
					t.Errorf("%s: %s: out of order: %v", name, l.Name, inOrder)
				}
			}
			if l.GelFirst.Value > l.GelLast.Value || l.Peak.Value < unit.Celsius(10) {
				t.Errorf("%s: %s: gel %v to %v, peak %v", name, l.Name, l.GelFirst.Value, l.GelLast.Value, l.Peak.Value)
			}
			for _, f := range []Figured{FigPeak, FigGel, FigRecoat, FigDemold, FigSand, FigGradient, FigRoom, FigDeepest} {
				w, ok := l.Workings[f]
				if !ok || w.Title == "" || w.Formula == "" || len(w.Inputs) < 5 || w.Source == "" || strings.Contains(w.Band, "NaN") {
					t.Errorf("%s: %s: the working of %s is not whole: %+v", name, l.Name, f, w)
				}
			}
		}
	}
}

func TestDeepestIsNeverMoreThanTheSheet(t *testing.T) {
	for _, name := range demoNames {
		p := demo(t, name)
		for _, shop := range []float64{8, 15, 20, 28} {
			p.Shop.Room.Value = unit.Celsius(shop)
			p.Shop.Night = unit.Taken[unit.Temperature]{}
			for _, l := range simulateOf(t, p).Layers {
				most := p.Sheet(p.Layers[p.LayerIndex(l.ID)].Sheet).MaxLayer
				if l.Deepest.Known && most.Given() && l.Deepest.Value > most.Value {
					t.Errorf("%s at %v °C: %s may be %v deep, the sheet says %v", name, shop, l.Name, l.Deepest.Value, most.Value)
				}
			}
		}
	}
}

// plainPour is a pour of slow resin in a round mold, with what the maker read of it.
func plainPour(room float64, depth string) Project {
	p := Blank("plain", "plain")
	set := func(path, text string) {
		if err := Enter(&p, path, text); err != nil {
			panic(err)
		}
	}
	set("mold/kind", "round")
	set("mold/diameter", "200 mm")
	set("mold/depth", "60 mm")
	sheet, layer := p.AddSheet(), ""
	at := "sheets/" + sheet + "/"
	for path, text := range map[string]string{
		"gel": "24 h", "gel/at": "22 °C", "maxLayer": "40 mm", "maxLayer/at": "20 °C", "softening": "55 °C", "peakLimit": "60 °C",
		"weightRatio/a": "100", "weightRatio/b": "45", "densityMixed": "1.09 g/ml",
	} {
		set(at+path, text)
	}
	layer = p.AddLayer()
	set("layers/"+layer+"/sheet", sheet)
	set("layers/"+layer+"/to", depth)
	p.Shop.Room = unit.Taken[unit.Temperature]{Value: unit.Celsius(room), Written: "x"}
	return p
}

func TestWarmerIsNeverCooler(t *testing.T) {
	last := unit.Temperature(0)
	for room := 8.0; room <= 32; room += 4 {
		l := simulateOf(t, plainPour(room, "24 mm")).Layers[0]
		if l.Peak.Value < last {
			t.Errorf("at %v °C the peak is %v, in a cooler room %v", room, l.Peak.Value.Celsius(), last.Celsius())
		}
		last = l.Peak.Value
	}
}

func TestTheRoomsLimitIsWhereThePeakCrosses(t *testing.T) {
	p := plainPour(20, "30 mm")
	l := simulateOf(t, p).Layers[0]
	if !l.Room.Known || l.Room.Bound {
		t.Fatalf("no limit: %+v", l.Room)
	}
	peak := func(room unit.Temperature) Known[unit.Temperature] {
		return simulateOf(t, plainPour(room.Celsius(), "30 mm")).Layers[0].Peak
	}
	below, above := peak(l.Room.Value-0.5), peak(l.Room.Value+0.5)
	if below.Value > l.PeakLimit.Value || above.Value < l.PeakLimit.Value {
		t.Errorf("limit %v °C: half a degree below %v, above %v, the peak's own limit %v", l.Room.Value.Celsius(), below.Value.Celsius(), above.Value.Celsius(), l.PeakLimit.Value.Celsius())
	}
}

func TestTheDeepestPourIsWhereThePeakCrosses(t *testing.T) {
	p := plainPour(26, "20 mm")
	l := simulateOf(t, p).Layers[0]
	if !l.Deepest.Known || l.Deepest.Bound {
		t.Fatalf("no depth: %+v", l.Deepest)
	}
	for _, off := range []unit.Length{-unit.Millimetre, unit.Millimetre} {
		peak := simulateOf(t, plainPour(26, p.Style.Length(l.Deepest.Value+off))).Layers[0].Peak.Value
		if hot := peak > l.PeakLimit.Value; hot != (off > 0) {
			t.Errorf("at %v the peak is %v °C, the limit %v", l.Deepest.Value+off, peak.Celsius(), l.PeakLimit.Value.Celsius())
		}
	}
}

func TestAColdRoomStalls(t *testing.T) {
	cold := simulateOf(t, plainPour(4, "8 mm")).Layers[0]
	if cold.Stall == nil || cold.Stall.WarmTo <= unit.Celsius(4) {
		t.Fatalf("at 4 °C: %+v, sand %+v", cold.Stall, cold.Sand)
	}
	warm := simulateOf(t, plainPour(cold.Stall.WarmTo.Celsius(), "8 mm")).Layers[0]
	if warm.Stall != nil {
		t.Errorf("at the %v °C that it was to be warmed to: %s", cold.Stall.WarmTo.Celsius(), warm.Stall.Text)
	}
}

func TestARunawaySaysWhenAndNoNumber(t *testing.T) {
	p := plainPour(32, "60 mm")
	c := simulateOf(t, p)
	l := c.Layers[0]
	if !l.RunsAway || l.RunsAfter.Absent || l.PeakCheck != Beyond {
		t.Fatalf("runs away %v after %+v, peak %v, %v", l.RunsAway, l.RunsAfter, l.Peak.Value.Celsius(), l.PeakCheck)
	}
	found := false
	for _, f := range c.Findings {
		found = found || f.Kind == "heat.runaway" && f.Level == Stop && strings.Contains(f.What, "runs away at hour")
	}
	if !found {
		t.Errorf("no finding says so: %+v", c.Findings)
	}
}

func TestLateReadingsRemakeThePast(t *testing.T) {
	p := plainPour(20, "12 mm")
	start := time.Date(2026, 11, 20, 10, 0, 0, 0, time.UTC)
	layer := p.Layers[0].ID
	p.Journal = []Entry{{ID: "j1", At: start, Kind: EntryPourStarted, Layer: layer, Room: p.Shop.Room}}
	before := simulateOf(t, p).Layers[0].RecoatFrom.Value
	cold := unit.Taken[unit.Temperature]{Value: unit.Celsius(12), Written: "12 °C"}
	// Entered late and out of order: the night was cold.
	p.Journal = append(p.Journal,
		Entry{ID: "j3", At: start.Add(14 * time.Hour), Kind: EntryReading, Room: cold},
		Entry{ID: "j2", At: start.Add(4 * time.Hour), Kind: EntryReading, Room: cold})
	after := simulateOf(t, p).Layers[0].RecoatFrom.Value
	if after < before+4*unit.Hour {
		t.Errorf("a cold night moved the window from %v h to %v h", before.Hours(), after.Hours())
	}
	p.Journal = append(p.Journal, Entry{ID: "j4", At: start.Add(20 * time.Hour), Kind: EntryWithdrawn, Of: "j3"}, Entry{ID: "j5", At: start.Add(20 * time.Hour), Kind: EntryWithdrawn, Of: "j2"})
	if again := simulateOf(t, p).Layers[0].RecoatFrom.Value; again != before {
		t.Errorf("with both taken back the window opens at %v h, not %v", again.Hours(), before.Hours())
	}
	// The part itself, warmer than the simulation has it.
	warm := unit.Taken[unit.Temperature]{Value: unit.Celsius(27), Written: "27 °C"}
	p.Journal = append(p.Journal, Entry{ID: "j6", At: start.Add(2 * time.Hour), Kind: EntryReading, Layer: layer, Part: warm}, Entry{ID: "j7", At: start.Add(12 * time.Hour), Kind: EntryReading, Layer: layer, Part: warm})
	if warmer := simulateOf(t, p).Layers[0].RecoatFrom.Value; warmer > before-2*unit.Hour {
		t.Errorf("with the part at 27 °C the window opens at %v h, without at %v", warmer.Hours(), before.Hours())
	}
}

func TestLearningTightensAndNeverLoosens(t *testing.T) {
	p := plainPour(22, "20 mm")
	start := time.Date(2026, 11, 20, 10, 0, 0, 0, time.UTC)
	layer := p.Layers[0].ID
	p.Journal = []Entry{{ID: "j1", At: start, Kind: EntryPourStarted, Layer: layer, Room: p.Shop.Room}}
	sheet := simulateOf(t, p).Layers[0]
	felt := func(feel Feel, after time.Duration) LayerCuring {
		q := p.Clone()
		q.Journal = append(q.Journal, Entry{ID: "j2", At: start.Add(after), Kind: EntryTack, Layer: layer, Feel: feel})
		return simulateOf(t, q).Layers[0]
	}
	slow := felt(FeelStrings, (sheet.RecoatFrom.Value.Duration() * 13 / 10))
	if slow.RecoatFrom.Value <= sheet.RecoatFrom.Value || slow.Learned == "" {
		t.Errorf("it still strung at 1.3 of its hour: the window opens at %v h, before %v; %q", slow.RecoatFrom.Value.Hours(), sheet.RecoatFrom.Value.Hours(), slow.Learned)
	}
	if slow.Peak.Value < sheet.Peak.Value-0.01 {
		t.Errorf("a slow lot made the peak cooler: %v, by the sheet %v", slow.Peak.Value.Celsius(), sheet.Peak.Value.Celsius())
	}
	fast := felt(FeelHard, (sheet.RecoatTo.Value.Duration() * 8 / 10))
	if fast.RecoatFrom.Value >= sheet.RecoatFrom.Value || fast.Peak.Value < sheet.Peak.Value {
		t.Errorf("hard at 0.8 of its hour: opens at %v h, before %v; peak %v, before %v", fast.RecoatFrom.Value.Hours(), sheet.RecoatFrom.Value.Hours(), fast.Peak.Value.Celsius(), sheet.Peak.Value.Celsius())
	}
	if fast.Demold.Value < sheet.Demold.Value {
		t.Errorf("a fast lot may come out after %v h, by the sheet after %v", fast.Demold.Value.Hours(), sheet.Demold.Value.Hours())
	}
}

func TestAskMovesAsItShould(t *testing.T) {
	p := plainPour(20, "20 mm")
	pl := Make(p)
	ask := func(w WhatIf) WhatIfAnswer {
		a, err := Ask(context.Background(), &p, &pl, p.Layers[0].ID, w)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	plan, warm, deep, off := ask(WhatIf{}), ask(WhatIf{Room: 4}), ask(WhatIf{Depth: 8 * unit.Millimetre}), ask(WhatIf{Ratio: -0.08})
	if warm.Peak <= plan.Peak || warm.RecoatFrom.Value >= plan.RecoatFrom.Value {
		t.Errorf("warmer: %+v against %+v", warm, plan)
	}
	if deep.Peak <= plan.Peak || deep.Depth <= plan.Depth || deep.PeakLimit != plan.PeakLimit {
		t.Errorf("deeper: %+v against %+v", deep, plan)
	}
	if len(off.Texts) == 0 || off.RecoatFrom.Value <= plan.RecoatFrom.Value {
		t.Errorf("off ratio: %+v against %+v", off, plan)
	}
	if late := ask(WhatIf{Delay: plan.RecoatTo.Value}); late.InWindow || !plan.InWindow {
		t.Errorf("late: %+v, plan %+v", late, plan)
	}
	if _, err := Ask(context.Background(), &p, &pl, p.Layers[0].ID, WhatIf{Depth: -unit.Metre}); err == nil {
		t.Error("a pour of less than nothing has an answer")
	}
}

func TestACancelledSimulationSaysSo(t *testing.T) {
	p := demo(t, "hall-shelf")
	pl := Make(p)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Simulate(ctx, &p, &pl); err != context.Canceled {
		t.Errorf("simulate: %v", err)
	}
	if _, err := Widen(ctx, &p, &pl, inTurn); err != context.Canceled {
		t.Errorf("widen: %v", err)
	}
	if _, err := Propose(ctx, &p, &pl); err != context.Canceled {
		t.Errorf("propose: %v", err)
	}
	if _, err := Starts(ctx, &p, &pl, time.Now()); err != context.Canceled {
		t.Errorf("starts: %v", err)
	}
}

func TestStartsAreOfAWholePlan(t *testing.T) {
	now := time.Date(2026, 11, 25, 13, 0, 0, 0, time.UTC)
	ask := func(p Project) CalendarAnswer {
		pl := Make(p)
		a, err := Starts(context.Background(), &p, &pl, now)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	for _, name := range demoNames {
		if a := ask(demo(t, name)); len(a.Choices) == 0 {
			t.Errorf("%s: no start: %s", name, a.None)
		}
	}
	begun := demo(t, "poppy-stand")
	begun.Journal = append(begun.Journal, Entry{ID: "x", At: now, Kind: EntryPourStarted, Layer: begun.Layers[0].ID})
	window := simulateOf(t, begun).Layers[0]
	a := ask(begun)
	if len(a.Choices) == 0 || a.Choices[0].Acts[0].Layer != begun.Layers[1].ID {
		t.Fatalf("no time for the second pour: %+v", a)
	}
	for _, c := range a.Choices {
		if after := unit.SpanOf(c.Start.Sub(now)); after < window.RecoatFrom.Value || after > window.RecoatTo.Value {
			t.Errorf("the second pour after %v h, its window is from %v to %v", after.Hours(), window.RecoatFrom.Value.Hours(), window.RecoatTo.Value.Hours())
		}
	}
	late := begun.Clone()
	late.Journal[len(late.Journal)-1].At = now.Add(-10 * 24 * time.Hour)
	done := begun.Clone()
	done.Journal = append(done.Journal, Entry{ID: "y", At: now, Kind: EntryPourStarted, Layer: begun.Layers[1].ID})
	bare := demo(t, "poppy-stand")
	bare.Layers[1].Sheet = ""
	hot := demo(t, "poppy-stand")
	hot.Sheets[0].Warmest.Value = unit.Celsius(12)
	for what, p := range map[string]Project{"every pour has been started": done, "has closed": late, "allows no more than 12 °C": hot, "no resin is chosen": bare, "no pour is planned": Blank("b", "b")} {
		if a := ask(p); len(a.Choices) != 0 || !strings.Contains(a.None, what) {
			t.Errorf("%s: %+v", what, a)
		}
	}
}

func BenchmarkSimulate(b *testing.B) {
	all := demosAndPours(b)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		b.Run(name, func(b *testing.B) {
			p := all[name]
			pl := Make(p)
			for b.Loop() {
				_, _ = Simulate(context.Background(), &p, &pl)
			}
		})
	}
}

func BenchmarkWiden(b *testing.B) {
	all := demosAndPours(b)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		b.Run(name, func(b *testing.B) {
			p := all[name]
			pl := Make(p)
			for b.Loop() {
				if c, err := Widen(context.Background(), &p, &pl, inTwo); err != nil || !c.Banded {
					b.Fatal(c, err)
				}
			}
		})
	}
}

// demosAndPours are the demo jobs, and blocks of plain resin in 1 to 8 pours.
func demosAndPours(b *testing.B) map[string]Project {
	all := map[string]Project{}
	for _, name := range demoNames {
		all[name] = demo(b, name)
	}
	for _, n := range []int{1, 2, 4, 8} {
		all[fmt.Sprintf("pours=%d", n)] = plainPours(b, n)
	}
	return all
}

// plainPours is a block of plain resin, poured 8 mm at a time.
func plainPours(t testing.TB, n int) Project {
	p := demo(t, "poppy-stand")
	p.Pieces, p.Inserts, p.Mold.Depth = nil, nil, mm(100)
	first := p.Layers[0]
	p.Layers = nil
	for i := range n {
		l := first
		l.ID, l.Name, l.By, l.To = fmt.Sprint("l", i+1), fmt.Sprint("pour ", i+1), ToLevel, mm(8*float64(i+1))
		p.Layers = append(p.Layers, l)
	}
	return p
}

func BenchmarkAsk(b *testing.B) {
	all := demosAndPours(b)
	for _, name := range []string{"hall-shelf", "pours=2", "pours=4", "pours=8"} {
		b.Run(name, func(b *testing.B) {
			p := all[name]
			pl := Make(p)
			for b.Loop() {
				_, _ = Ask(context.Background(), &p, &pl, p.Layers[len(p.Layers)-1].ID, WhatIf{Room: 4, Depth: 5 * unit.Millimetre})
			}
		})
	}
}

// BenchmarkPropose looks for levels by the simulation, BenchmarkStarts for a good
// time to start.
func BenchmarkPropose(b *testing.B) {
	for _, name := range demoNames {
		b.Run(name, func(b *testing.B) {
			p := demo(b, name)
			pl := Make(p)
			for b.Loop() {
				if _, err := Propose(context.Background(), &p, &pl); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkStarts(b *testing.B) {
	all := demosAndPours(b)
	for _, name := range append(slices.Clone(demoNames), "pours=1", "pours=2", "pours=4") {
		b.Run(name, func(b *testing.B) {
			p := all[name]
			pl := Make(p)
			for b.Loop() {
				if _, err := Starts(context.Background(), &p, &pl, time.Date(2026, 11, 25, 9, 10, 0, 0, time.UTC)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestTheNextPourIsWhenItIsPlanned(t *testing.T) {
	p := demo(t, "poppy-stand")
	start := time.Date(2026, 11, 25, 13, 0, 0, 0, time.UTC)
	p.Journal = append(p.Journal, Entry{ID: "x", At: start, Kind: EntryPourStarted, Layer: p.Layers[0].ID, Room: p.Shop.Room})
	soonest := simulateOf(t, p).Layers[1].Start
	p.Shop.Planned = start.Add(40 * time.Hour)
	if at := simulateOf(t, p).Layers[1].Start; !at.Equal(p.Shop.Planned) || at.Equal(soonest) {
		t.Errorf("planned for %v it is simulated at %v", p.Shop.Planned, at)
	}
	p.Shop.Planned = start.Add(-time.Hour) // of the first pour, which has been
	if at := simulateOf(t, p).Layers[1].Start; !at.Equal(soonest) {
		t.Errorf("with an old plan it is simulated at %v, as soon as it may be at %v", at, soonest)
	}
}
