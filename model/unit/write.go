package unit

import (
	"math"
	"strconv"
	"strings"
)

// unknown is written for a value that is no finite number.
const unknown = "—"

// decimals writes v rounded to so many decimals, halves away from zero,
// without zeros at the end.
func decimals(v float64, places int) string {
	text := strconv.FormatFloat(roundTo(v, places), 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// finite tells whether v can be written as a number.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// with writes v to so many decimals and the unit behind it.
func with(v float64, places int, unit string) string {
	if !finite(v) {
		return unknown
	}
	return decimals(v, places) + " " + unit
}

// Length writes a length with its unit, rounded to the style's graduation:
// 263.5 mm, 26.35 cm, 10 3/8 in. Feet are not used.
func (s Style) Length(l Length) string { return s.LengthIn(l, s.Lengths, s.Grain) }

// LengthNumber writes a length as Length does, without the unit.
func (s Style) LengthNumber(l Length) string {
	return lengthNumber(l, s.LengthUnit(), s.LengthGrain())
}

// LengthIn writes a length with the unit u, rounded to the graduation g. An
// empty unit is millimetres, and a graduation that does not belong to the unit
// is the unit's own default.
func (s Style) LengthIn(l Length, u LengthUnit, g Grain) string {
	u = Style{Lengths: u}.LengthUnit()
	text := lengthNumber(l, u, grainFor(u, g))
	if text == unknown {
		return text
	}
	return text + " " + string(u)
}

// lengthNumber writes the number of l in the unit u to its graduation g.
func lengthNumber(l Length, u LengthUnit, g Grain) string {
	if !finite(float64(l)) {
		return unknown
	}
	places := 1
	if g == WholeMillimetre {
		places = 0
	}
	switch u {
	case InInches:
		return mixedInches(l, g)
	case InCentimetres:
		return decimals(roundTo(l.Millimetres(), places)/10, places+1)
	}
	return decimals(l.Millimetres(), places)
}

// roundTo rounds v to so many decimals, halves away from zero.
func roundTo(v float64, places int) float64 {
	p := math.Pow10(places)
	if r := math.Round(v*p) / p; finite(r) {
		return r
	}
	return v
}

// mixedInches writes l as inches with a reduced fraction of the graduation g.
// A length of more than a million inches has none.
func mixedInches(l Length, g Grain) string {
	parts := int64(64)
	switch g {
	case Sixteenth:
		parts = 16
	case ThirtySecond:
		parts = 32
	}
	inches := l.Inches()
	if math.Abs(inches) > 1e6 {
		return decimals(inches, 0)
	}
	steps := int64(math.Round(math.Abs(inches) * float64(parts)))
	whole, top := steps/parts, steps%parts
	for top != 0 && top%2 == 0 {
		top, parts = top/2, parts/2
	}
	sign := ""
	if inches < 0 && steps > 0 {
		sign = "-"
	}
	switch {
	case top == 0:
		return sign + strconv.FormatInt(whole, 10)
	case whole == 0:
		return sign + strconv.FormatInt(top, 10) + "/" + strconv.FormatInt(parts, 10)
	}
	return sign + strconv.FormatInt(whole, 10) + " " + strconv.FormatInt(top, 10) + "/" + strconv.FormatInt(parts, 10)
}

// Area writes an area: 450 mm² and, from 100 cm² or in centimetres, 331 cm²;
// in inches 12.5 sq in.
func (s Style) Area(a Area) string {
	mm := a.SquareMillimetres()
	switch {
	case s.LengthUnit() == InInches:
		in := float64(a) / float64(SquareInch)
		return with(in, falling(in, 10, 2, 1), "sq in")
	case s.LengthUnit() == InCentimetres, math.Abs(mm) >= 1e4:
		return with(mm/100, falling(mm/100, 1000, 1, 0), "cm²")
	}
	return with(mm, falling(mm, 10, 1, 0), "mm²")
}

// Areas writes areas that stand below each other: all in the unit that suits the
// largest, and nothing in words.
func (s Style) Areas(list ...Area) []string {
	most := Area(0)
	for _, a := range list {
		most = max(most, a)
	}
	name, of, least := "mm²", SquareMillimetre, 1.0
	switch {
	case s.LengthUnit() == InInches:
		name, of, least = "sq in", SquareInch, 0.1
	case s.LengthUnit() == InCentimetres, most.SquareMillimetres() >= 1e4:
		name, of, least = "cm²", 100*SquareMillimetre, 0.1
	}
	out := make([]string, len(list))
	for i, a := range list {
		switch v := float64(a) / float64(of); {
		case a == 0:
			out[i] = "nothing"
		case math.Abs(v) < least:
			out[i] = "under " + with(least, falling(least, 1, 1, 0), name)
		case least == 1:
			out[i] = with(v, 0, name)
		default:
			out[i] = with(v, falling(v, 1000, 1, 0), name)
		}
	}
	return out
}

// falling gives the decimals below for a value under limit, else those above.
func falling(v, limit float64, below, above int) int {
	if math.Abs(v) < limit {
		return below
	}
	return above
}

// Volume writes a volume in the style's unit: ml to 1 ml, under 10 ml to 0.1 and
// from 10 L on in L; L to 0.01 L, and under 1 L to 1 ml; fluid ounces and cubic inches to
// 0.1, and under 10 to 0.01.
func (s Style) Volume(v Volume) string {
	switch u := s.VolumeUnit(); u {
	case InLitres:
		l := float64(v) / float64(Litre)
		return with(l, falling(l, 1, 3, 2), string(u))
	case InFluidOunces:
		oz := v.USFluidOunces()
		return with(oz, falling(oz, 10, 2, 1), string(u))
	case InCubicInches:
		in := float64(v) / float64(CubicInch)
		return with(in, falling(in, 10, 2, 1), string(u))
	}
	ml := v.Millilitres()
	if math.Abs(ml) >= 10000 {
		return with(ml/1000, 2, string(InLitres))
	}
	return with(ml, falling(ml, 10, 1, 0), string(InMillilitres))
}

// Temperature writes a temperature in the style's unit to 0.1 degree. One of
// zero kelvin was not given and is written as a dash.
func (s Style) Temperature(t Temperature) string {
	switch {
	case t == 0:
		return unknown
	case s.TempUnit() == InFahrenheit:
		return with(t.Fahrenheit(), 1, "°F")
	}
	return with(t.Celsius(), 1, "°C")
}

// TempRise writes a difference of temperatures in the style's degrees to 0.1.
func (s Style) TempRise(r TempRise) string {
	if s.TempUnit() == InFahrenheit {
		return with(float64(r)*1.8, 1, "°F")
	}
	return with(float64(r), 1, "°C")
}

// Density writes a density in g/ml to 0.001.
func (s Style) Density(d Density) string { return with(d.GramsPerMillilitre(), 3, "g/ml") }

// Share writes a share in per cent to 0.1 %, and under 1 % to 0.01.
func (s Style) Share(p Share) string {
	return with(p.Percent(), falling(p.Percent(), 1, 2, 1), "%")
}

// Angle writes an angle in degrees to 0.1, and under one degree to 0.01. The
// degree sign follows the number without a space, as is usual.
func (s Style) Angle(a Angle) string {
	if !finite(float64(a)) {
		return unknown
	}
	return decimals(a.Degrees(), falling(a.Degrees(), 1, 2, 1)) + "°"
}

// Viscosity writes a viscosity in mPa·s, and from 10 Pa·s in Pa·s.
func (s Style) Viscosity(v Viscosity) string {
	mpas := float64(v) * 1000
	if math.Abs(mpas) >= 1e4 {
		return with(float64(v), 1, "Pa·s")
	}
	return with(mpas, falling(mpas, 10, 1, 0), "mPa·s")
}

// MolarEnergy writes an energy per mole in kJ/mol to 0.1.
func (s Style) MolarEnergy(e MolarEnergy) string { return with(float64(e)/1000, 1, "kJ/mol") }

// SpecificEnergy writes a heat per mass in J/g to 0.1.
func (s Style) SpecificEnergy(e SpecificEnergy) string { return with(float64(e)/1000, 1, "J/g") }

// Number writes a plain number to at most four decimals.
func (s Style) Number(n Number) string {
	if !finite(float64(n)) {
		return unknown
	}
	return decimals(float64(n), 4)
}
