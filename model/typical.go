package model

import (
	"meniscus/model/cure"
	"meniscus/model/unit"
)

// typical is what stands in for a figure that a sheet or the maker does not
// give, with its band. The values are common practice with no source unless
// said otherwise, and every use of one is marked.
type typical[Q unit.Quantity] struct{ value, low, high Q }

var (
	typicalMixed      = typical[unit.Density]{1100, 1080, 1120}
	typicalShrink     = typical[unit.Share]{0.03, 0.015, 0.05}
	typicalTintLimit  = typical[unit.Share]{0.06, 0.01, 0.06}
	typicalActivation = typical[unit.MolarEnergy]{cure.TypicalActivation, 45e3, 65e3}
	typicalFullCure   = typical[unit.Span]{7 * unit.Day, 5 * unit.Day, 14 * unit.Day}
	typicalDemold     = typical[unit.Span]{3 * unit.Day, 1 * unit.Day, 7 * unit.Day}
	typicalHeat       = typical[unit.SpecificEnergy]{290e3, 217.5e3, 362.5e3} // a quarter either way
	typicalPeakLimit  = typical[unit.Temperature]{unit.Celsius(60), unit.Celsius(45), unit.Celsius(60)}
	typicalSoftening  = typical[unit.Temperature]{unit.Celsius(50), unit.Celsius(42), unit.Celsius(60)}
	typicalSheetTemp  = typical[unit.Temperature]{unit.Celsius(20), unit.Celsius(20), unit.Celsius(25)}

	typicalScaleStep  = unit.Gram
	typicalScaleOunce = unit.Ounce / 20
	typicalConfident  = unit.Share(0.8)
	typicalCupFilm    = typical[unit.Share]{0.03, 0.02, 0.04}
	typicalCupLeast   = 8 * unit.Gram
	typicalSoak       = typical[unit.Length]{0.15e-3, 0.05e-3, 0.30e-3}
	typicalCreep      = typical[unit.Length]{0.3e-3, 0.15e-3, 0.45e-3}
	typicalTraceErr   = unit.Share(0.02)
	typicalTouch      = unit.Share(0.0005)                   // half-width of a touched point, of the picture's longer side: 2 of 4,000 pixels
	typicalFocal      = typical[unit.Number]{0.75, 0.6, 1.0} // focal length of the lens of a phone, of the picture's longer side
	typicalMinCover   = 2.5 * unit.Millimetre
	typicalRoom       = unit.Celsius(20)
)

// exact makes a Known without a band, and says whence it is.
func exact[Q unit.Quantity](v Q, source string) Known[Q] {
	return Known[Q]{Value: v, Low: v, High: v, Source: source}
}

// known makes a Known of a sheet's figure, or of the typical value.
func known[Q unit.Quantity](f Figure[Q], t typical[Q]) Known[Q] {
	if f.Given() {
		return exact(f.Value, "data sheet")
	}
	return t.known()
}

// shrinkOf is what a product shrinks by; of none, what is typical.
func shrinkOf(s *Sheet) Known[unit.Share] {
	if s == nil {
		return typicalShrink.known()
	}
	return known(s.Shrink, typicalShrink)
}

// known makes a Known of a typical value.
func (t typical[Q]) known() Known[Q] {
	return Known[Q]{Value: t.value, Low: t.low, High: t.high, Typical: true, Source: "typical value, no source"}
}

// only makes a Known of a figure that nothing can stand in for.
func only[Q unit.Quantity](f Figure[Q]) Known[Q] {
	if f.Given() {
		return exact(f.Value, "data sheet")
	}
	return Known[Q]{Absent: true, Source: "the data sheet does not say"}
}

// taken makes a Known of a value that the maker can set, or of the typical one.
func taken[Q unit.Quantity](v unit.Taken[Q], t typical[Q]) Known[Q] {
	if v.Given() {
		return exact(v.Value, "yours")
	}
	return t.known()
}

// sigma is the standard uncertainty of a Known: its band taken as rectangular
// (JCGM 100:2008, 4.3.7).
func (k Known[Q]) sigma() Q { return (k.High - k.Low) / 2 / sqrt3 }

const sqrt3 = 1.7320508075688772
