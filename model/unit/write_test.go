package unit

import (
	"math"
	"strings"
	"testing"
)

func TestWriteLength(t *testing.T) {
	in := func(g Grain) Style { return Style{Lengths: InInches, Grain: g} }
	tests := []struct {
		style Style
		l     Length
		want  string
	}{
		{Style{}, 0.2635, "263.5 mm"},
		{Style{}, 0.264, "264 mm"},
		{Style{}, 0.26354, "263.5 mm"},
		{Style{}, -0.003, "-3 mm"},
		{Style{}, -0.00001, "0 mm"},
		{Style{}, 0, "0 mm"},
		{Style{}, 12.3456, "12345.6 mm"},
		{Style{Grain: WholeMillimetre}, 0.2636, "264 mm"},
		{Style{Grain: Sixteenth}, 0.2635, "263.5 mm"},
		{Style{Lengths: InCentimetres}, 0.2635, "26.35 cm"},
		{Style{Lengths: InCentimetres}, 0.264, "26.4 cm"},
		{Style{Lengths: InCentimetres, Grain: WholeMillimetre}, 0.2635, "26.4 cm"},
		{Style{Lengths: "cubit"}, 0.1, "100 mm"},
		{in(""), 10.375 * Inch, "10 3/8 in"},
		{in(Sixteenth), Inch / 16, "1/16 in"},
		{in(Sixteenth), Inch / 33, "0 in"},
		{in(Sixteenth), Inch / 32, "1/16 in"},
		{in(Sixteenth), 15.99 * Inch / 16, "1 in"},
		{in(ThirtySecond), 3 * Inch / 32, "3/32 in"},
		{in(SixtyFourth), 10*Inch + 7*Inch/64, "10 7/64 in"},
		{in(TenthMillimetre), 22.5 * Inch, "22 1/2 in"},
		{in(""), -10.375 * Inch, "-10 3/8 in"},
		{in(""), -Inch / 100, "0 in"},
		{in(""), 1e12, "39370078740157 in"},
		{in(""), Length(math.NaN()), "—"},
		{Style{}, Length(math.Inf(1)), "—"},
	}
	for _, test := range tests {
		if got := test.style.Length(test.l); got != test.want {
			t.Errorf("%+v: Length(%v) = %q, want %q", test.style, float64(test.l), got, test.want)
		}
	}
	if got := in("").LengthNumber(10.375 * Inch); got != "10 3/8" {
		t.Errorf("LengthNumber = %q", got)
	}
	if got := (Style{}).LengthIn(Inch, InInches, WholeMillimetre); got != "1 in" {
		t.Errorf("LengthIn = %q", got)
	}
}

func TestWriteOthers(t *testing.T) {
	inch := Style{Lengths: InInches, Volumes: InFluidOunces, Masses: InOunces, Temperatures: InFahrenheit}
	big := Style{Lengths: InCentimetres, Volumes: InLitres, Masses: InKilograms}
	heavy := Style{Volumes: InCubicInches, Masses: InPounds}
	var mm Style
	tests := []struct{ got, want string }{
		{mm.Area(450e-6), "450 mm²"}, {mm.Area(4.56e-6), "4.6 mm²"}, {mm.Area(330635e-7), "330.6 cm²"}, {big.Area(450e-6), "4.5 cm²"}, {inch.Area(12.5 * SquareInch), "12.5 sq in"},
		{mm.Volume(1420.4e-6), "1420 ml"}, {mm.Volume(4.26e-6), "4.3 ml"}, {big.Volume(1.4204e-3), "1.42 L"}, {big.Volume(142e-6), "0.142 L"},
		{inch.Volume(USGallon), "128 fl oz"}, {inch.Volume(USFluidOunce / 8), "0.13 fl oz"}, {heavy.Volume(USGallon), "231 cu in"}, {mm.Volume(Volume(math.Inf(1))), "—"},
		{mm.Mass(0.4504), "450 g"}, {mm.Mass(0.00526), "5.3 g"}, {mm.Mass(12.3454), "12345 g"}, {big.Mass(1.2344), "1.234 kg"}, {inch.Mass(Pound), "16 oz"},
		{heavy.Mass(35 * Ounce), "2 lb 3 oz"}, {heavy.Mass(2.98 * Ounce), "3 oz"}, {heavy.Mass(Pound - Gram), "1 lb"}, {heavy.Mass(-Pound - 1.5*Ounce), "-1 lb 1.5 oz"}, {heavy.Mass(1e9), "2204622622 lb"},
		{mm.Temperature(Celsius(22)), "22 °C"}, {mm.Temperature(Celsius(-4.96)), "-5 °C"}, {mm.Temperature(Celsius(21.55)), "21.6 °C"}, {inch.Temperature(Celsius(22)), "71.6 °F"}, {mm.Temperature(0), "—"},
		{mm.TempRise(12), "12 °C"}, {inch.TempRise(10), "18 °F"},
		{mm.Density(1100), "1.1 g/ml"}, {mm.Density(1093.44), "1.093 g/ml"},
		{mm.Share(0.045), "4.5 %"}, {mm.Share(0.00816), "0.82 %"}, {mm.Share(1), "100 %"},
		{mm.Angle(2.5 * Degree), "2.5°"}, {mm.Angle(Degree / 4), "0.25°"}, {mm.Angle(Angle(math.NaN())), "—"},
		{mm.Viscosity(0.45), "450 mPa·s"}, {mm.Viscosity(12), "12 Pa·s"}, {mm.Viscosity(0.0011), "1.1 mPa·s"},
		{mm.MolarEnergy(54960), "55 kJ/mol"}, {mm.MolarEnergy(57500), "57.5 kJ/mol"}, {mm.SpecificEnergy(290e3), "290 J/g"}, {mm.SpecificEnergy(292880), "292.9 J/g"}, {mm.Number(31.58), "31.58"}, {mm.Number(1. / 3), "0.3333"},
		{mm.Span(0), "0 min"}, {mm.Span(45), "45 s"}, {mm.Span(59.7), "1 min"}, {mm.Span(270), "4 min 30 s"}, {mm.Span(599.7), "10 min"}, {mm.Span(45 * Minute), "45 min"},
		{mm.Span(59.6 * Minute), "1 h"}, {mm.Span(2.4 * Hour), "2 h 24 min"}, {mm.Span(10*Hour - 29), "10 h"}, {mm.Span(23.8 * Hour), "23.8 h"}, {mm.Span(48 * Hour), "48 h"}, {mm.Span(7 * Day), "7 d"}, {mm.Span(-90 * Minute), "-1 h 30 min"},
		{mm.MassTo(0.142, Gram/10), "142.0 g"}, {mm.MassTo(0.14226, Gram), "142 g"}, {mm.MassTo(0.143, 5*Gram), "145 g"}, {inch.MassTo(5*Ounce+Gram, Ounce/20), "5.05 oz"},
		{big.MassTo(1.2346, Gram), "1.235 kg"}, {inch.MassTo(Pound, Gram), "16.01 oz"}, {mm.MassTo(0.142, 0), "142 g"}, {mm.MassTo(-1e-9, Gram), "0 g"}, {heavy.MassTo(Pound, Pound/100), "1.00 lb"},
		{Money{1250, "EUR"}.String(), "12.50 EUR"}, {Money{-5, "USD"}.String(), "-0.05 USD"}, {Money{1500, "JPY"}.String(), "1500 JPY"}, {Money{1234, "KWD"}.String(), "1.234 KWD"}, {Money{100, ""}.String(), "1.00"},
		{Money{math.MinInt64, "EUR"}.String(), "-92233720368547758.08 EUR"},
	}
	for i, test := range tests {
		if test.got != test.want {
			t.Errorf("case %d: %q, want %q", i, test.got, test.want)
		}
	}
}

// The factors are those of NIST SP 811 and NIST Handbook 44, appendix C
// (values from memory; the gallon, fluid ounce and pound re-read in copies).
func TestFactors(t *testing.T) {
	length := func(s string) float64 { v, err := ParseLength(s, ""); fatal(t, err); return v.Millimetres() }
	volume := func(s string) float64 { v, err := ParseVolume(s, ""); fatal(t, err); return v.Millilitres() }
	density := func(s string) float64 { v, err := ParseDensity(s); fatal(t, err); return float64(v) }
	mass := func(s string) float64 { v, err := ParseMass(s, ""); fatal(t, err); return v.Grams() }
	area := func(s string) float64 { v, err := ParseArea(s, ""); fatal(t, err); return v.SquareMillimetres() }
	tests := []struct {
		name      string
		got, want float64
	}{
		{"inch", length("1 in"), 25.4}, {"foot", length("1 ft"), 304.8}, {"yard", length("1 yd"), 914.4}, {"square inch", area("1 sq in"), 645.16},
		{"cubic inch", volume("1 cu in"), 16.387064}, {"cubic foot", volume("1 cu ft"), 28316.846592}, {"board foot", volume("1 bd ft"), 2359.737216},
		{"gallon", volume("1 gal"), 3785.411784}, {"quart", volume("1 qt"), 946.352946}, {"pint", volume("1 pt"), 473.176473}, {"fluid ounce", volume("1 fl oz"), 29.5735295625},
		{"imperial gallon", volume("1 imp gal"), 4546.09}, {"imperial quart", volume("1 imp qt"), 1136.5225}, {"imperial pint", volume("1 imp pt"), 568.26125}, {"imperial fluid ounce", volume("1 imp fl oz"), 28.4130625},
		{"pound", mass("1 lb"), 453.59237}, {"ounce", mass("1 oz"), 28.349523125},
		{"Inch", Inch.Millimetres(), 25.4}, {"Foot", Foot.Millimetres(), 304.8}, {"SquareInch", SquareInch.SquareMillimetres(), 645.16},
		{"CubicInch", CubicInch.Millilitres(), 16.387064},
		{"USGallon", USGallon.Millilitres(), 3785.411784}, {"USFluidOunce", USFluidOunce.Millilitres(), 29.5735295625},
		{"ImperialFluidOunce", ImperialFluidOunce.Millilitres(), 28.4130625}, {"Pound", Pound.Grams(), 453.59237}, {"Ounce", Ounce.Grams(), 28.349523125},
		{"128 fl oz", volume("128 fl oz"), volume("1 gal")}, {"48×18×2 in", (48 * Inch).By(18 * Inch).By(2 * Inch).Millilitres(), volume("12 bd ft")}, {"1728 cu in", volume("1728 cu in"), 28316.846592},
		{"0 °C", float64(Celsius(0)), 273.15}, {"212 °F", Fahrenheit(212).Celsius(), 100}, {"180 degrees", float64(180 * Degree), math.Pi},
	}
	for _, test := range tests {
		if !near(test.got, test.want) {
			t.Errorf("%s = %.17g, want %.17g", test.name, test.got, test.want)
		}
	}
	approximate := []struct {
		name           string
		got, want, tol float64
	}{
		{"gallon in imperial fl oz", float64(USGallon) / float64(ImperialFluidOunce), 133.2279, 5e-5},
		{"lb/ft³", density("1 lb/ft3"), 16.018463374, 1e-8},
		{"slab", volume("1728 cu in") / 1000, 28.316847, 5e-7},
	}
	for _, test := range approximate {
		if math.Abs(test.got-test.want) > test.tol {
			t.Errorf("%s = %v, want %v ± %v", test.name, test.got, test.want, test.tol)
		}
	}
}

func fatal(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// A box of 600 ±1 × 200 ±1 × 25 ±0.5 mm holds 3000 ml with a standard
// uncertainty of 35.82 ml (computed from JCGM 100:2008, 4.3.7 and 5.1.2).
func TestStandardUncertainty(t *testing.T) {
	size := []Length{600 * Millimetre, 200 * Millimetre, 25 * Millimetre}
	half := []Length{DefaultAccuracy(Tape), DefaultAccuracy(Tape), DefaultAccuracy(Rule)}
	square := 0.0
	for i := range size {
		r := StandardUncertainty(half[i]).Per(size[i])
		square += r * r
	}
	if u := 3000 * math.Sqrt(square); math.Abs(u-35.82) > 0.005 {
		t.Errorf("uncertainty of the box = %v ml, want 35.82", u)
	}
	if a := DefaultAccuracy(""); a != DefaultAccuracy(Tape) {
		t.Errorf("accuracy of no instrument = %v", a)
	}
	last := Length(1)
	for _, i := range Instruments() {
		if a := DefaultAccuracy(i); a >= last || a <= 0 {
			t.Errorf("accuracy of %s = %v, after %v", i, a, last)
		} else {
			last = a
		}
	}
}

// TestAreasShareAUnit: areas below each other are in the unit of the largest,
// one that does not show says so, and nothing is a word.
func TestAreasShareAUnit(t *testing.T) {
	for _, c := range []struct {
		style Style
		want  string
		list  []Area
	}{
		{Style{}, "137.7 cm²; nothing; 3.2 cm²; under 0.1 cm²; 1377 cm²", []Area{0.01377, 0, 3.2e-4, 4e-6, 0.1377}},
		{Style{}, "450 mm²; 5 mm²; under 1 mm²", []Area{450e-6, 4.6e-6, 3e-7}},
		{Style{Lengths: InInches}, "12.5 sq in; nothing; under 0.1 sq in", []Area{12.5 * SquareInch, 0, 0.03 * SquareInch}},
		{Style{}, "nothing", []Area{0}},
	} {
		if got := strings.Join(c.style.Areas(c.list...), "; "); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
