package model

import (
	"math"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// Ratio by volume to ratio by weight, p = 100 b ρB/(a ρA), and the density of
// the mix when volumes add up. The values are worked from these formulas by
// hand; 2:1 at 1.13/1.02 is the example of the trade.
func TestRatioByVolumeIsNotByWeight(t *testing.T) {
	for _, c := range []struct{ a, b, rhoA, rhoB, parts, mixed float64 }{
		{2, 1, 1130, 1020, 45.13, 1093.3},
		{2, 1, 1150, 970, 42.17, 1090.0},
		{3, 1, 1120, 1100, 32.74, 1115.0},
		{2, 1, 1100, 970, 44.09, 1056.7},
	} {
		s := Sheet{ID: "s", Volume: Ratio{given(unit.Number(c.a)), given(unit.Number(c.b))}, DensityA: Figure[unit.Density]{Taken: given(unit.Density(c.rhoA))}, DensityB: Figure[unit.Density]{Taken: given(unit.Density(c.rhoB))}}
		p, err := s.PartsByWeight()
		if err != nil || math.Abs(p-c.parts) > 0.005 {
			t.Errorf("%v:%v by volume is 100:%.3f by weight (%v), want 100:%.2f", c.a, c.b, p, err, c.parts)
		}
		if got := float64(mixedDensity(&s).Value); math.Abs(got-c.mixed) > 0.1 {
			t.Errorf("mixed density %.1f, want %.1f", got, c.mixed)
		}
	}
	// Published style of check: 2:1 by volume at 1.10/0.97 is 2.2680:1 by weight.
	if got := 100 / partsFromVolume(2, 1, 1100, 970); math.Abs(got-2.2680) > 1e-4 {
		t.Errorf("2:1 by volume = %.4f:1 by weight", got)
	}
}

func TestNoWeighingWithoutDensities(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Sheets[0].Weight = Ratio{}
	p.Sheets[0].Volume = Ratio{given(unit.Number(2)), given(unit.Number(1))}
	p.Sheets[0].DensityB = Figure[unit.Density]{}
	pl := Make(p)
	m := pl.Layers[0].Mix
	if m.Ready || m.A != 0 || !strings.Contains(m.Why, "density of part B") {
		t.Errorf("a ratio by volume was weighed without densities: %+v", m)
	}
	f := finding(pl, "mix.ratio")
	if f.Level != Stop || f.Field != "sheets/s1/densityB" {
		t.Errorf("the finding is %+v", f)
	}
}

// finding gives the first finding of a kind.
func finding(pl Plan, kind string) Finding {
	for _, f := range pl.Findings {
		if f.Kind == kind {
			return f
		}
	}
	return Finding{}
}

// TestAmount works the mass of one layer by hand: 300 x 200 x 10 mm is 600 ml,
// at (100+45)/(100/1.13+45/1.02) = 1.09336 g/ml 656.0 g; 3 % of the mix stays
// in the cup, so 656.0/0.97 = 676.3 g suffices in half of all cases.
func TestAmount(t *testing.T) {
	p := tray(300, 200, 30, 10)
	l := Make(p).Layers[0]
	within(t, "net", l.Net.Millilitres(), 600, 1e-9)
	within(t, "mass", l.Mass.Value.Grams(), 656.0, 0.05)
	within(t, "even odds", l.Mix.At50.Grams(), 677, 1e-6) // up to the scale's gram
	// ±0.5 mm of rule on each length: u/V = √((.5/300)²+(.5/200)²+(.5/10)²)/√3 = 2.892 %.
	within(t, "spread", float64(l.Mass.Sigma/l.Mass.Value), 0.02892, 0.00001)
	// 80 %: 0.8416 σ more.
	within(t, "80 %", l.Mix.Total.Grams(), math.Ceil((656.0+0.84162*0.02892*656.0)/0.97), 1)
	if l.Influences[0].Field != "layers/l1/to" || !strings.Contains(l.Advice, "depth") {
		t.Errorf("the depth dominates: %+v %q", l.Influences[0], l.Advice)
	}
	within(t, "one more mm", l.PerMM.Grams(), 65.6, 0.01)
	within(t, "one more sixteenth", l.PerGrain.Grams(), 65.6*1.5875, 0.02)
	within(t, "below the rim", l.BelowRim.Millimetres(), 20, 1e-9)
}

func TestAdditives(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Layers[0].Tint = Tint{Name: "green", Share: given(unit.Share(0.05))}
	p.Layers[0].Additives = []Additive{{ID: "a1", Name: "metal powder", Share: given(unit.Share(0.02))}}
	pl := Make(p)
	l := pl.Layers[0]
	within(t, "tint", float64(l.Mix.Tint), 0.05*float64(l.Mix.Total), 1e-12)
	// 7 % together is over the 6 % of common practice where the sheet is silent.
	if f := finding(pl, "mix.tint"); f.Level != Check {
		t.Errorf("7 %% of additives passed: %+v", l.Checks)
	}
	p.Sheets[0].TintLimit = Figure[unit.Share]{Taken: given(unit.Share(0.08))}
	if f := finding(Make(p), "mix.tint"); f.Kind != "" {
		t.Errorf("7 %% within the sheet's 8 %% was stopped: %+v", f)
	}
}

// TestMissingFigureIsNotFine: where the sheet is silent on what decides a stop,
// the answer is "not known".
func TestMissingFigureIsNotFine(t *testing.T) {
	p := tray(300, 200, 60, 45)
	if f := finding(Make(p), "layer.deep"); f.Kind != "" {
		t.Errorf("45 mm within 50: %+v", f)
	}
	p.Layers[0].To = mm(50.1)
	if f := finding(Make(p), "layer.deep"); f.Level != Stop {
		t.Error("50.1 mm of a resin for 50 mm passed")
	}
	p.Sheets[0].MaxLayer = Figure[unit.Length]{}
	pl := Make(p)
	if c := pl.Layers[0].Checks[0]; c.Verdict != NotKnown {
		t.Errorf("the verdict without a figure is %q", c.Verdict)
	}
	if f := finding(pl, "layer.depth-unknown"); f.Level != Check || f.Field != "sheets/s1/maxLayer" {
		t.Errorf("the finding is %+v", f)
	}
	for _, c := range pl.Layers[0].Checks {
		if (c.Kind == "coldest" || c.Kind == "warmest") && c.Verdict != NotKnown {
			t.Errorf("%s without a figure is %q", c.Kind, c.Verdict)
		}
	}
}

// TestTypicalIsMarked: what stands in for a figure is marked wherever it is used.
func TestTypicalIsMarked(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Sheets[0].Shrink = Figure[unit.Share]{}
	p.Sheets[0].DensityA, p.Sheets[0].DensityB = Figure[unit.Density]{}, Figure[unit.Density]{}
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(5), Sheet: "s1"})
	p.Pieces = []Piece{{ID: "p1", Name: "wood", Kind: PieceRectangle, Length: mm(50), Width: mm(50), Thickness: mm(20)}}
	pl := Make(p)
	if d := pl.Layers[0].Density; !d.Typical || d.Low >= d.High {
		t.Errorf("mixed density %+v is not marked", d)
	}
	for _, a := range append(pl.Layers[0].Allowances, pl.Layers[1].Allowances...) {
		if !a.Typical {
			t.Errorf("%s is not marked as typical", a.Label)
		}
	}
	if !pl.Layers[0].Times.FullCure.Typical || !pl.Layers[0].Times.Working.Absent {
		t.Errorf("times %+v", pl.Layers[0].Times)
	}
}
