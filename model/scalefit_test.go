package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// M = e (100+p)/(p τ): ±1 g and 2 % at 100:45 is 145/0.9 = 161.1 g. And ±1 g on
// the 31 % of B in a batch of 20, 50, 100, 300, 1,000 g is 16, 6.5, 3.2, 1.1,
// 0.3 % (worked by hand for the trade).
func TestScaleFit(t *testing.T) {
	within(t, "smallest batch", smallestBatch(unit.Gram, 45, 0.02).Grams(), 161.1, 0.05)
	for _, c := range []struct{ total, share float64 }{{20, 16}, {50, 6.5}, {100, 3.2}, {300, 1.1}, {1000, 0.3}} {
		f := (&MixPlan{Parts: 31.0 / 69 * 100, Step: unit.Gram, Total: unit.Gram.Times(c.total)}).ScaleFit(RatioTolerance)
		within(t, "off", 100*f.Share, c.share, 0.15)
	}
	f := mixOf(100, 45, 1).ScaleFit(RatioTolerance)
	// 2 % of 31.03 g is 0.62 g: a scale to the nearest 0.5 g.
	if f.Fine || math.Abs(f.Finer.Grams()-0.5) > 1e-9 {
		t.Errorf("%+v", f)
	}
	if w := f.Words(unit.Style{}); !strings.Contains(w, "162 g and more") || !strings.Contains(w, "nearest 0.5 g") {
		t.Errorf("%q", w)
	}
	if w := mixOf(660, 45, 1).ScaleFit(RatioTolerance).Words(unit.Style{}); strings.Contains(w, "needs") {
		t.Errorf("%q", w)
	}
}

// A scale of the finer digit is good enough, and so is this one for its smallest
// batch; A counts where it is the smaller part.
func TestScaleFitHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &MixPlan{Parts: rapid.Float64Range(5, 400).Draw(t, "parts"), Total: unit.Gram.Times(rapid.Float64Range(1, 3000).Draw(t, "grams"))}
		m.Step = rapid.SampledFrom([]unit.Mass{unit.Gram / 100, unit.Gram / 10, unit.Gram, 5 * unit.Gram, unit.Ounce / 20}).Draw(t, "last digit")
		f := m.ScaleFit(RatioTolerance)
		if f.Fine != (m.Total >= smallestBatch(m.Step, m.Parts, RatioTolerance).Times(1-1e-9)) {
			t.Fatalf("%+v of %v", f, m.Total)
		}
		finer := *m
		finer.Step = f.Finer
		if !finer.ScaleFit(RatioTolerance).Fine {
			t.Fatalf("%v is not fine enough for %v", f.Finer, m.Total)
		}
		small := *m
		small.Total = f.Smallest
		if !small.ScaleFit(RatioTolerance).Fine {
			t.Fatalf("%v is too small a batch for %v", f.Smallest, m.Step)
		}
	})
}
