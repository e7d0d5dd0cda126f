package model

import (
	"fmt"
	"time"

	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// cupsOf gives the cups of a project's first layer, and of what they were made.
func cupsOf(t testing.TB, p Project) (*CupPlan, *heat) {
	t.Helper()
	pl := Make(p)
	h, err := heatOf(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	c := LayerCuring{Working: pl.Layers[0].Times.Working}
	plan, err := h.cups(context.Background(), 0, h.room, &c)
	if err != nil {
		t.Fatal(err)
	}
	return plan, h
}

// boards are the five boards, mixed in buckets of a kilogram.
func boards(t testing.TB) Project {
	return demo(t, "breakfast-boards")
}

// The shop's notes reckon with 752 g in one bucket, resin at 20 °C and a room of
// 15: 56 min to thicken, 39 of them to mix for 6 and to pour five cavities in
// 20, so one is enough; a forgotten one passes 130 °C. Ours is 770 g.
func TestOneBucketIsEnough(t *testing.T) {
	c := simulateOf(t, boards(t))
	plan := c.Layers[0].Cups
	if !plan.Possible || len(plan.Batches) != 1 || plan.Binds != "" || len(plan.Cautions) != 0 {
		t.Fatalf("%+v", plan)
	}
	b := plan.Batches[0]
	if w := b.Working.Per(unit.Minute); w < 50 || w > 60 {
		t.Errorf("it can be worked for %.1f min, want about 56", w)
	}
	if b.Mix != 6*unit.Minute || b.Pour != 19*unit.Minute || b.Spare < 10*unit.Minute || len(b.Into) != 5 {
		t.Errorf("%+v", b)
	}
	if f := plan.Forgotten; f.Peak < unit.Celsius(130) || f.After < unit.Hour || f.After > 4*unit.Hour || !strings.Contains(f.Text, "Never leave it") {
		t.Errorf("forgotten: %+v", f)
	}
	// Without a bucket of its own each cup takes half as much again as the sheet's 150 g.
	own := boards(t)
	own.Mixing.CupHolds = unit.Taken[unit.Mass]{}
	plan, _ = cupsOf(t, own)
	if !plan.Cup.Typical || math.Abs(plan.Cup.Value.Grams()-225) > 1e-6 || len(plan.Batches) != 4 || !strings.HasPrefix(plan.Binds, "how much a cup takes, 225 g: one cup for 770") {
		t.Errorf("%d cups of %v: %q", len(plan.Batches), plan.Cup, plan.Binds)
	}
	if len(plan.Cautions) == 0 || !strings.Contains(plan.Cautions[0], "keep back") {
		t.Errorf("nothing of what four cups keep: %q", plan.Cautions)
	}
}

func TestAShortWorkingTimeNeedsMoreCups(t *testing.T) {
	p := boards(t)
	p.Sheets[0].WorkingTime.Value = 22 * unit.Minute
	plan, _ := cupsOf(t, p)
	if !plan.Possible || len(plan.Batches) < 2 || !strings.Contains(plan.Binds, "working time") {
		t.Errorf("%d cups, binds %q", len(plan.Batches), plan.Binds)
	}
}

func TestPouredAndUnweighableHaveNoCups(t *testing.T) {
	p := boards(t)
	before := simulateOf(t, p).Layers[0].Cups
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: p.Layers[0].ID, At: p.Created}}
	if c := simulateOf(t, p); c.Layers[0].Cups == nil || len(c.Layers[0].Cups.Batches) != len(before.Batches) || c.Layers[1].Cups == nil {
		t.Errorf("the cups of a pour that goes on: %+v, before it %+v", c.Layers[0].Cups, before)
	}
	p.Journal = append(p.Journal, Entry{ID: "e2", Kind: EntryPourDone, Layer: p.Layers[0].ID, At: p.Created.Add(time.Minute)})
	if c := simulateOf(t, p); c.Layers[0].Cups != nil || c.Layers[1].Cups == nil {
		t.Error("cups of a pour that is done, or none of the next")
	}
	p = boards(t)
	p.Sheets[0].Weight, p.Sheets[0].DensityB, p.Sheets[0].Volume = Ratio{}, Figure[unit.Density]{}, Ratio{}
	if plan, _ := cupsOf(t, p); plan.Ready || plan.Why == "" {
		t.Errorf("a mix without a ratio: %+v", plan)
	}
}

// randomCups is a tray with all that decides the cups.
func randomCups(t *rapid.T) Project {
	p := tray(rapid.Float64Range(60, 500).Draw(t, "length"), 150, 30, rapid.Float64Range(3, 20).Draw(t, "depth"))
	p.Mold.Count = rapid.IntRange(0, 8).Draw(t, "cavities")
	s := &p.Sheets[0]
	s.Class = rapid.SampledFrom([]ResinClass{ClassFast, ClassSlow}).Draw(t, "class")
	if s.WorkingTime.Taken = given(unit.Minute.Times(rapid.Float64Range(5, 240).Draw(t, "working"))); rapid.Bool().Draw(t, "silent") {
		s.WorkingTime.Taken = unit.Taken[unit.Span]{}
	}
	s.WorkingTime.At, s.WorkingTime.Mass = given(unit.Celsius(20)), given(unit.Mass(0.15))
	p.Shop.Room = given(unit.Celsius(rapid.Float64Range(8, 32).Draw(t, "room")))
	p.Shop.Resin = given(unit.Celsius(rapid.Float64Range(12, 32).Draw(t, "resin")))
	p.Mixing.ScaleStep = given(rapid.SampledFrom([]unit.Mass{unit.Gram, unit.Gram / 10, unit.Ounce / 20}).Draw(t, "step"))
	if rapid.Bool().Draw(t, "own cup") {
		p.Mixing.CupHolds = given(unit.Mass(rapid.Float64Range(0.05, 2).Draw(t, "cup")))
	}
	p.Mixing.CupRest = given(unit.Minute.Times(rapid.Float64Range(0, 15).Draw(t, "rest")))
	return p
}

// Batches add up to the mix in every part at the scale's last digit, none ends
// late or loosens the sheet, no hands are in two places, and every cavity gets
// what it takes.
func TestCupsHoldTheirLaws(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := randomCups(rt)
		plan, h := cupsOf(t, p)
		l := h.plan.Layers[0]
		if !plan.Ready {
			rt.Fatalf("not ready: %q", plan.Why)
		}
		if !plan.Possible {
			if plan.Why == "" || plan.Change == "" || len(plan.Batches) != 0 {
				rt.Fatalf("%+v", plan)
			}
			return
		}
		steps := func(m unit.Mass) int64 {
			n := math.Round(m.Per(l.Mix.Step))
			if math.Abs(m.Per(l.Mix.Step)-n) > 1e-6 {
				rt.Fatalf("%v g is no whole number of steps", m.Grams())
			}
			return int64(n)
		}
		var mass, a, b int64
		into := map[int]int64{}
		for i := range plan.Batches {
			x := &plan.Batches[i]
			mass, a, b = mass+steps(x.Mass), a+steps(x.A), b+steps(x.B)
			if steps(x.A)+steps(x.B) != steps(x.Mass) || x.Mass <= 0 {
				rt.Fatalf("%+v does not add up", x)
			}
			if takes := x.Mix + x.Rest + x.Pour; float64(takes) > 0.7*float64(x.Working)+1e-6 || x.Spare < -1e-6 || math.Abs(float64(x.Spare+takes-x.Working.Times(0.7))) > 1e-6 {
				rt.Fatalf("%+v ends late", x)
			}
			if w := l.Times.Working; !w.Absent && x.Working > w.Value {
				rt.Fatalf("%v of working time, the sheet allows %v", x.Working, w.Value)
			}
			if !plan.Cup.Absent && x.Mass > plan.Cup.Value+1e-9 {
				rt.Fatalf("%v in a cup for %v", x.Mass, plan.Cup.Value)
			}
			var out int64
			for _, in := range x.Into {
				into[in.Cavity] += steps(in.Mass)
				out += steps(in.Mass)
			}
			if out > steps(x.Mass) {
				rt.Fatalf("more is poured than was mixed: %+v", x)
			}
		}
		if mass != steps(l.Mix.Total) || a != steps(l.Mix.A) || b != steps(l.Mix.B) {
			rt.Fatalf("%d %d %d steps of %v %v %v", mass, a, b, l.Mix.Total, l.Mix.A, l.Mix.B)
		}
		for i := range max(p.Mold.Count, 1) {
			want := l.Mass.Value
			if len(l.ByCavity) > 1 {
				want = l.ByCavity[i]
			}
			if got := l.Mix.Step.Times(float64(into[i+1])); math.Abs(float64(got-want)) > 0.51*float64(l.Mix.Step)+1e-9 {
				rt.Fatalf("cavity %d gets %v, takes %v", i+1, got, want)
			}
		}
		handsApart(rt, plan.Batches)
	})
}

// A cup left standing is a simulated one, and a larger one never has longer.
func TestALargerCupNeverHasLonger(t *testing.T) {
	for _, warm := range []struct{ resin, room float64 }{{20, 20}, {25, 15}, {10, 32}} {
		p := boards(t)
		p.Shop.Resin, p.Shop.Room, p.Shop.Night = given(unit.Celsius(warm.resin)), given(unit.Celsius(warm.room)), unit.Taken[unit.Temperature]{}
		pl := Make(p)
		h, err := heatOf(context.Background(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		l := &h.layers[0]
		w := &cupTimes{ctx: context.Background(), cal: &l.careful, of: l.sheet, room: h.room, resin: h.resin(0), limit: Known[unit.Span]{Absent: true}, step: unit.Gram, done: map[int64]unit.Span{}}
		before := unit.Span(math.Inf(1))
		for n := int64(1); n < 5000; n += n/3 + 1 {
			got := w.working(n)
			if got > before+1 || got <= 0 {
				t.Errorf("%v: %d g for %v, less for %v", warm, n, got, before)
			}
			before = got
			cup := cure.Cup{Mass: unit.Gram.Times(float64(max(n, 20))), Matter: l.careful.Matter, Cure: &l.careful.Kinetics, Start: w.resin, Room: h.room}
			if alone, ok, err := cup.WhenCured(context.Background(), l.careful.Working, cupLongest); err != nil || !ok || got > alone {
				t.Errorf("%v: %d g for %v, the cup itself %v %v", warm, n, got, alone, err)
			}
		}
	}
}

func BenchmarkCups(b *testing.B) {
	cases := map[string]Project{}
	for _, name := range demoNames {
		cases[name] = demo(b, name)
	}
	// Six cavities in all orders, for which a change is looked for in vain.
	p := boards(b)
	p.Mold.Count, p.Sheets[0].WorkingTime.Value = 6, 3*unit.Minute
	cases["impossible"] = p
	for n := 2; n < 6; n++ {
		q := p
		q.Mold.Count = n
		cases[fmt.Sprintf("impossible/cavities=%d", n)] = q
	}
	p.Sheets = append([]Sheet(nil), p.Sheets...)
	p.Mixing.CupHolds, p.Sheets[0].WorkingTime.Value = given(0.13*unit.Kilogram), 50*unit.Minute
	cases["small cups"] = p
	for name, p := range cases {
		pl := Make(p)
		h, err := heatOf(context.Background(), &p, &pl)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := h.cups(context.Background(), 0, h.room, &LayerCuring{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
