package unit

import (
	"math"
	"strconv"
)

// Mass writes a mass in the style's unit: g to 1 g, and under 10 g to 0.1; kg
// to 0.001; oz to 0.1, and under 1 oz to 0.01; lb as 2 lb 3.2 oz.
func (s Style) Mass(m Mass) string {
	switch u := s.MassUnit(); u {
	case InKilograms:
		return with(float64(m), 3, string(u))
	case InOunces:
		oz := float64(m) / float64(Ounce)
		return with(oz, falling(oz, 1, 2, 1), string(u))
	case InPounds:
		return pounds(m)
	}
	return with(m.Grams(), falling(m.Grams(), 10, 1, 0), string(InGrams))
}

// pounds writes a mass as whole pounds and ounces to 0.1 oz.
func pounds(m Mass) string {
	if !finite(float64(m)) {
		return unknown
	}
	if math.Abs(float64(m)) > 1e6*float64(Pound) {
		return with(float64(m)/float64(Pound), 0, "lb")
	}
	const tenths = 160 // in a pound
	steps := int64(math.Round(math.Abs(float64(m)) / float64(Pound) * tenths))
	sign := ""
	if m < 0 && steps > 0 {
		sign = "-"
	}
	whole, rest := steps/tenths, float64(steps%tenths)/10
	switch {
	case whole == 0:
		return sign + with(rest, 1, "oz")
	case rest == 0:
		return sign + strconv.FormatInt(whole, 10) + " lb"
	}
	return sign + strconv.FormatInt(whole, 10) + " lb " + with(rest, 1, "oz")
}

// MassTo writes a mass as a scale shows it that has the step given, in the
// style's unit: rounded to a whole number of steps, with all the decimals of
// the step (142.0 g at 0.1 g). Without a step it writes as Mass does.
func (s Style) MassTo(m Mass, step Mass) string {
	steps := math.Round(float64(m) / float64(step))
	if !(step > 0) || !finite(steps) || math.Abs(steps) > 1e15 {
		return s.Mass(m)
	}
	unit := s.MassUnit()
	one := Gram
	switch unit {
	case InKilograms:
		one = Kilogram
	case InOunces:
		one = Ounce
	case InPounds:
		one = Pound
	}
	size := float64(step) / float64(one)
	if steps == 0 {
		steps = 0 // no minus in front of nothing
	}
	return strconv.FormatFloat(steps*size, 'f', stepPlaces(size), 64) + " " + string(unit)
}

// stepPlaces gives the decimals that show a step of the size given exactly,
// or, where six do not, as many as tell neighbouring steps apart.
func stepPlaces(size float64) int {
	const most = 6
	for places := range most + 1 {
		scaled := size * math.Pow10(places)
		if r := math.Round(scaled); r >= 1 && math.Abs(scaled-r) <= 1e-9*scaled {
			return places
		}
	}
	return min(max(0, int(math.Ceil(-math.Log10(size)))), most)
}
