package cure

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// learn learns from runs of a lot whose sheet is the deep resin's.
func learn(t testing.TB, runs ...Logged) Learned {
	t.Helper()
	sheet, err := Calibrate(context.Background(), deepResin())
	if err != nil {
		t.Fatal(err)
	}
	l, err := Learn(context.Background(), sheet, runs)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// seen is a run in which one moment came at so many times the rate said.
func seen(rate float64) Logged {
	return Logged{Timed: []Timed{{Seen: unit.Span(10/rate) * unit.Hour, Said: 10 * unit.Hour}}}
}

func TestLearningMovesAThirdThenFiveSevenths(t *testing.T) {
	for runs, part := range map[int]float64{1: 1. / 3, 2: 2. / 4, 3: 3. / 5, 5: 5. / 7} {
		list := make([]Logged, runs)
		for i := range list {
			list[i] = seen(1.25)
		}
		l := learn(t, list...)
		if got := math.Log(l.Scale) / math.Log(1.25); math.Abs(got-part) > 1e-9 || l.Runs != runs {
			t.Errorf("%d runs move it by %.4f, want %.4f (%+v)", runs, got, part, l)
		}
	}
}

func TestOneFreakRunIsBounded(t *testing.T) {
	// Whatever one run says, it moves the rate by no more than a third of the way
	// to half as fast again, and after four true ones by no more than a
	// seventh of the way.
	for _, freakish := range []float64{1e-6, 0.1, 10, 1e6} {
		if l := learn(t, seen(freakish)); math.Abs(math.Log(l.Scale)) > math.Log(1.5)/3+1e-9 {
			t.Errorf("a run at %v moves it to %.3f", freakish, l.Scale)
		}
		if l := learn(t, seen(1), seen(1), seen(freakish), seen(1), seen(1)); math.Abs(math.Log(l.Scale)) > math.Log(1.5)/7+1e-9 {
			t.Errorf("a run at %v among five moves it to %.3f", freakish, l.Scale)
		}
	}
}

func TestLearningTightensAndNeverLoosens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Learned{Scale: rapid.Float64Range(0.5, 2).Draw(t, "scale"), Heat: rapid.Float64Range(0.5, 2).Draw(t, "heat"), Runs: rapid.IntRange(1, 9).Draw(t, "runs")}
		peak := func(l Learned) float64 {
			p := deepResin()
			p.Learned = l
			c, err := Calibrate(context.Background(), p)
			if err != nil {
				t.Fatal(err)
			}
			cup := Cup{0.5, c.Matter, &c.Kinetics, unit.Celsius(24), Steady(unit.Celsius(24))}
			course, err := cup.Run(context.Background(), 3*unit.Day)
			if err != nil {
				t.Fatal(err)
			}
			return float64(course.Peak)
		}
		if got, sheet := peak(l.Cautious()), peak(Learned{}); got < sheet-0.02 {
			t.Fatalf("a heat check comes to %.2f, the sheet to %.2f", got, sheet)
		}
		demold := func(l Learned) unit.Span {
			p := deepResin()
			p.Learned = l
			c, err := Calibrate(context.Background(), p)
			if err != nil {
				t.Fatal(err)
			}
			return c.Kinetics.TimeTo(p.Demold.At, 0, c.Demold(p.Demold.At))
		}
		if got, sheet := demold(l.Patient()), demold(Learned{}); float64(got) < float64(sheet)*(1-1e-6) {
			t.Fatalf("demolds at %.2f h, by the sheet at %.2f", got.Hours(), sheet.Hours())
		}
	})
}

func TestTouchesSayWhatTheyCan(t *testing.T) {
	p := deepResin() // opens at 22 h, closes at 40 h at 22 °C
	part := Steady(unit.Celsius(22))
	felt := func(list ...Felt) Learned { return learn(t, Logged{Felt: list}) }
	at := func(touch Touch, hours float64) Felt { return Felt{touch, unit.Span(hours) * unit.Hour, part} }
	// What fits the sheet moves nothing to speak of, and is little told.
	for _, f := range []Felt{at(Strings, 6), at(Hard, 90), at(Firm, 300), at(Bends, 30)} {
		if l := felt(f); math.Abs(l.Scale-1) > 0.02 {
			t.Errorf("touch %d at %v h moves it to %.3f", f.Touch, f.At.Hours(), l.Scale)
		}
	}
	// Strings long after the window should have opened: slower. Hard long before
	// it should have closed: faster.
	if l := felt(at(Strings, 27)); l.Scale > 0.95 || l.Scale < 1/1.5 {
		t.Errorf("strings at 27 h: %.3f", l.Scale)
	}
	if l := felt(at(Hard, 33)); l.Scale < 1.04 || l.Scale > 1.5 {
		t.Errorf("hard at 33 h: %.3f", l.Scale)
	}
	// Strings at 26 h and tape at 28 h put the opening near 27 h, 22/27 of the
	// sheet's rate; one run moves it a third of the way.
	if got, want := felt(at(Strings, 26), at(Tape, 28)).Scale, math.Pow(22./27, 1./3); math.Abs(got-want) > 0.005 {
		t.Errorf("opening between 26 and 28 h: %.4f, want %.4f", got, want)
	}
	// Touches that contradict each other say something all the same, within reason.
	if l := felt(at(Hard, 20), at(Strings, 30)); math.Abs(math.Log(l.Scale)) > math.Log(1.5)/3+1e-9 {
		t.Errorf("a contradiction moves it to %.3f", l.Scale)
	}
	for _, f := range []Felt{at(Strings, 0), at(Strings, math.NaN()), at(Touch(9), 3)} {
		sheet, _ := Calibrate(context.Background(), p)
		if _, err := Learn(context.Background(), sheet, []Logged{{Felt: []Felt{f}}}); !errors.Is(err, ErrUnusable) {
			t.Errorf("%+v: %v", f, err)
		}
	}
}

func TestProbeTeachesTheHeat(t *testing.T) {
	peak := func(rise float64) func(float64) unit.Temperature {
		return func(heat float64) unit.Temperature { return unit.Celsius(20 + rise*heat) }
	}
	run := func(saw, rise float64) Logged {
		return Logged{Probed: []Probed{{Seen: unit.Celsius(saw), Start: unit.Celsius(20), Peak: peak(rise)}}}
	}
	// 60 K were expected and 72 came: a fifth more heat, of which a third counts.
	if got, want := learn(t, run(92, 60)).Heat, math.Pow(1.2, 1./3); math.Abs(got-want) > 0.002 {
		t.Errorf("heat %.4f, want %.4f", got, want)
	}
	// A pour that hardly warms tells hardly anything.
	if got := learn(t, run(22.4, 2)).Heat; got > 1.05 {
		t.Errorf("0.4 K more than 2 move the heat to %.3f", got)
	}
	if got := learn(t, Logged{Probed: []Probed{{Seen: 300, Start: 290}, {Seen: 0, Start: 290, Peak: peak(60)}}}); got.Heat != 1 || got.Runs != 0 || got.Words != "" {
		t.Errorf("nothing to go by: %+v", got)
	}
}

func TestNextWindowAfterThreeRuns(t *testing.T) {
	// Made-up lots up to a third faster or slower than their sheet, three runs in
	// rooms of their own with a touch every two hours or so: the next window
	// opens within 15 % of the hour that the learned lot says.
	sheet, err := Calibrate(context.Background(), deepResin())
	if err != nil {
		t.Fatal(err)
	}
	random := splitmix(5)
	worst, before := 0.0, 0.0
	const lots = 40
	for range lots {
		lot := math.Exp((2*random.unit() - 1) * math.Log(1.33))
		true := sheet.Kinetics.Scaled(lot)
		var runs []Logged
		for range 3 {
			mean := 18 + 6*random.unit()
			part := Room{Mean: unit.Celsius(mean), Swing: 3, Warmest: unit.Span(random.unit()) * unit.Day}
			var times []unit.Span
			for at := 10 * unit.Hour; at < 90*unit.Hour; at += unit.Span(1.5+random.unit()) * unit.Hour {
				times = append(times, at)
			}
			cured, err := true.Along(context.Background(), part, 0, times)
			if err != nil {
				t.Fatal(err)
			}
			var run Logged
			for i, a := range cured { // as felt, with a finger that errs by 0.02
				a += 0.04 * (random.unit() - 0.5)
				touch := Strings
				switch {
				case a > sheet.RecoatTo(part.At(times[i])):
					touch = Hard
				case a > sheet.From:
					touch = Tape
				}
				run.Felt = append(run.Felt, Felt{touch, times[i], part})
			}
			runs = append(runs, run)
		}
		l, err := Learn(context.Background(), sheet, runs)
		if err != nil {
			t.Fatal(err)
		}
		if l.Runs != 3 {
			t.Errorf("%d runs told something", l.Runs)
		}
		p := deepResin()
		p.Learned = l
		c, err := Calibrate(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		at := unit.Celsius(20)
		want := true.TimeTo(at, 0, sheet.From)
		off := math.Abs(float64(c.Kinetics.TimeTo(at, 0, c.From)/want) - 1)
		worst = max(worst, off)
		before = max(before, math.Abs(float64(sheet.Kinetics.TimeTo(at, 0, sheet.From)/want)-1))
	}
	t.Logf("worst error of the next window %.1f %%, %.1f %% by the sheet", 100*worst, 100*before)
	if worst > 0.15 {
		t.Errorf("the next window is %.1f %% off", 100*worst)
	}
	if before < 0.2 {
		t.Errorf("the lots were hardly different (%.1f %%)", 100*before)
	}
}

func TestLearningNarrowsTheLot(t *testing.T) {
	p := deepResin()
	wide := p.Band(InLot)
	p.Learned = Learned{Scale: 1.1, Heat: 1, Runs: 6}
	narrow := p.Band(InLot)
	if narrow.Value != 1.1 || math.Abs((narrow.High-narrow.Low)/(wide.High-wide.Low)-1.1/2) > 1e-9 {
		t.Errorf("band %v, before %v", narrow, wide)
	}
}

func TestLearnedInWords(t *testing.T) {
	l := learn(t, seen(0.8), seen(0.8))
	for _, part := range []string{"2 runs of this lot say", "% slower than the sheet", "as much heat", "Heat limits keep to the sheet"} {
		if !strings.Contains(l.Words, part) {
			t.Errorf("%q does not say %q", l.Words, part)
		}
	}
	if l := learn(t); l.Words != "" || l.Scale != 1 || l.Heat != 1 {
		t.Errorf("of nothing it learned %+v", l)
	}
	for _, bad := range []Learned{{Scale: -1}, {Heat: math.NaN()}, {Scale: 1e9}} {
		p := deepResin()
		p.Learned = bad
		if _, err := Calibrate(context.Background(), p); !errors.Is(err, ErrUnusable) {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}
