package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// ScaleFit is whether a scale is good enough for a mix: its last digit, taken
// for how far off a reading is, against the smaller of the two parts.
type ScaleFit struct {
	Fine     bool
	Share    float64   // the last digit as a share of the smaller part
	Smallest unit.Mass // of A and B together that this scale weighs within the tolerance, rounded up to its last digit
	Finer    unit.Mass // the coarsest last digit that does for this mix
	Step     unit.Mass // this scale's last digit
}

// ScaleFit holds the scale against a tolerance of the ratio, such as
// RatioTolerance. With p parts of B to 100 of A and a reading off by e, the
// smallest batch within the tolerance τ is M = e (100+p)/(p τ), for p up to
// 100; beyond that A is the smaller part and takes its place.
func (m *MixPlan) ScaleFit(tolerance float64) ScaleFit {
	part := min(m.Parts, 100) / (100 + m.Parts) // of the whole mix
	f := ScaleFit{Share: m.Step.Per(m.Total.Times(part)), Smallest: ceilTo(smallestBatch(m.Step, m.Parts, tolerance), m.Step), Step: m.Step}
	f.Fine = f.Share <= tolerance+1e-9
	f.Finer = scaleDigit(m.Total.Times(part*tolerance), m.Step)
	return f
}

// smallestBatch is the least of A and B together whose ratio is within a
// tolerance when the smaller part may be off by e.
func smallestBatch(e unit.Mass, parts, tolerance float64) unit.Mass {
	return e.Times((100 + parts) / (min(parts, 100) * tolerance))
}

// scaleDigit is the coarsest last digit up to most of a scale in the unit that
// step is a round number of: scales go by 1, 2 and 5 times a power of ten
// (OIML R 76-1, 3.2.2; value from memory).
func scaleDigit(most, step unit.Mass) unit.Mass {
	base := unit.Gram
	if ounces := step.Per(unit.Ounce) * 1000; math.Abs(ounces-math.Round(ounces)) < 1e-6 {
		base = unit.Ounce
	}
	n := most.Per(base)
	if !(n > 0) {
		return 0
	}
	decade := math.Pow(10, math.Floor(math.Log10(n)+1e-9))
	for _, k := range []float64{5, 2} {
		if k*decade <= n*(1+1e-9) {
			return base.Times(k * decade)
		}
	}
	return base.Times(decade)
}

// Words says what the scale is good for, or which would be.
func (f ScaleFit) Words(s unit.Style) string {
	words := fmt.Sprintf("to the nearest %s it keeps the ratio within 2 %% for mixes of %s and more", s.MassTo(f.Step, f.Step), s.MassTo(f.Smallest, f.Step))
	if !f.Fine {
		words += ", this one needs a scale to the nearest " + s.MassTo(f.Finer, f.Finer)
	}
	return words
}
