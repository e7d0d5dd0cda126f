package unit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// lengthStyles are all sensible pairs of a unit and a graduation.
var lengthStyles = []Style{
	{}, {Grain: TenthMillimetre}, {Grain: WholeMillimetre},
	{Lengths: InCentimetres}, {Lengths: InCentimetres, Grain: TenthMillimetre}, {Lengths: InCentimetres, Grain: WholeMillimetre},
	{Lengths: InInches}, {Lengths: InInches, Grain: Sixteenth}, {Lengths: InInches, Grain: ThirtySecond}, {Lengths: InInches, Grain: SixtyFourth},
}

func TestLengthReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(lengthStyles).Draw(t, "style")
		l := Length(rapid.Float64Range(-5, 5).Draw(t, "metres"))
		written := s.Length(l)
		back, err := ParseLength(written, "")
		if err != nil {
			t.Fatal(err)
		}
		if half := float64(Graduation(s.LengthGrain())) / 2; math.Abs(float64(back-l)) > half*(1+1e-9) {
			t.Fatalf("%v m is written %q, which is %v m", float64(l), written, float64(back))
		}
		if again := s.Length(back); again != written {
			t.Fatalf("%q is written again as %q", written, again)
		}
		bare, err := ParseLength(s.LengthNumber(l), s.Lengths)
		if err != nil || bare != back {
			t.Fatalf("%q without its unit is %v, %v", written, float64(bare), err)
		}
	})
}

func TestOthersReadBack(t *testing.T) {
	style := func(t *rapid.T) Style {
		return Style{
			Volumes:      rapid.SampledFrom([]VolumeUnit{"", InMillilitres, InLitres, InFluidOunces, InCubicInches}).Draw(t, "volume"),
			Masses:       rapid.SampledFrom([]MassUnit{"", InGrams, InKilograms, InOunces, InPounds}).Draw(t, "mass"),
			Temperatures: rapid.SampledFrom([]TempUnit{"", InCelsius, InFahrenheit}).Draw(t, "temperature"),
			Lengths:      rapid.SampledFrom([]LengthUnit{"", InCentimetres, InInches}).Draw(t, "length"),
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := style(t)
		x := rapid.Float64Range(0, 1).Draw(t, "x")
		readBack(t, Volume(x/10), s.Volume, func(w string) (Volume, error) { return ParseVolume(w, "") }, 9e-6)
		readBack(t, Mass(x*20), s.Mass, func(w string) (Mass, error) { return ParseMass(w, "") }, 1.5e-3)
		readBack(t, Celsius(x*300-100), s.Temperature, func(w string) (Temperature, error) { return ParseTemperature(w, "") }, 0.051)
		readBack(t, Density(x*3000), s.Density, ParseDensity, 0.51)
		readBack(t, Share(x*2-1), s.Share, ParseShare, 0.00051)
		readBack(t, Angle(x*2-1), s.Angle, ParseAngle, 0.00088)
		readBack(t, Area(x/10), s.Area, func(w string) (Area, error) { return ParseArea(w, "") }, 5.1e-5)
		readBack(t, MolarEnergy(x*1e5), s.MolarEnergy, ParseMolarEnergy, 51)
		readBack(t, SpecificEnergy(x*1e6), s.SpecificEnergy, ParseSpecificEnergy, 51)
		readBack(t, Viscosity(x*20), s.Viscosity, ParseViscosity, 0.051)
		readBack(t, Span(x*30*86400), s.Span, ParseSpan, 4400)
	})
}

func readBack[Q Quantity](t *rapid.T, q Q, write func(Q) string, parse func(string) (Q, error), tol float64) {
	written := write(q)
	back, err := parse(written)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(float64(back-q)) > tol {
		t.Fatalf("%v is written %q, which is %v", float64(q), written, float64(back))
	}
}

// A span is written to within 5 % of itself.
func TestSpanIsCloseEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Span(rapid.Float64Range(60, 1e6).Draw(t, "seconds"))
		readBack(t, d, Style{}.Span, ParseSpan, float64(d)/20)
	})
}

func TestMoneyReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Money{Minor: rapid.Int64Range(-1e10, 1e10).Draw(t, "minor"), Currency: rapid.SampledFrom([]string{"EUR", "USD", "JPY", "KWD"}).Draw(t, "currency")}
		if m.Currency == "JPY" {
			m.Minor /= 100
		}
		back, err := ParseMoney(m.String(), m.Currency)
		if err != nil || back != m {
			t.Fatalf("%v is read as %v, %v", m, back, err)
		}
	})
}

// What a maker wrote is never written anew: a project that changes its units a
// thousand times has the same values, and the same texts, as before.
func TestSwitchingUnitsDriftsByNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sixteenths := rapid.Int64Range(1, 2000).Draw(t, "sixteenths")
		first := rapid.SampledFrom(lengthStyles).Draw(t, "style")
		text := first.Length(Length(sixteenths) * Inch / 16)
		taken, err := first.TakeLength(text, Rule)
		if err != nil {
			t.Fatal(err)
		}
		now, shown := taken, make(map[Style]string)
		for i := range 1000 {
			s := lengthStyles[i%len(lengthStyles)]
			w := s.Length(now.Value)
			if before, ok := shown[s]; ok && w != before {
				t.Fatalf("switch %d: %q became %q", i, before, w)
			}
			shown[s] = w
			if now, err = s.TakeLength(now.Written, now.By); err != nil {
				t.Fatal(err)
			}
		}
		if now != taken {
			t.Fatalf("%+v became %+v", taken, now)
		}
	})
}

func TestThousandsAndCommasAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(1_000, 999_999_999).Draw(t, "n")
		plain := decimals(float64(n), 0) + ".5"
		want, err := ParseNumber(plain)
		if err != nil {
			t.Fatal(err)
		}
		for _, marks := range [][2]string{{",", "."}, {".", ","}, {" ", "."}, {" ", ","}, {"\u202f", ","}} {
			text := grouped(decimals(float64(n), 0), marks[0]) + marks[1] + "5"
			if got, err := ParseNumber(text); err != nil || got != want {
				t.Fatalf("ParseNumber(%q) = %v, %v; want %v", text, got, err, want)
			}
		}
	})
}

// grouped puts mark between the thousands of digits.
func grouped(digits, mark string) string {
	var groups []string
	for len(digits) > 3 {
		groups = append([]string{digits[len(digits)-3:]}, groups...)
		digits = digits[:len(digits)-3]
	}
	return strings.Join(append([]string{digits}, groups...), mark)
}

func TestPartsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]Mass{Gram / 10, Gram, 5 * Gram, Ounce / 20, Ounce / 10}).Draw(t, "step")
		var parts []Mass
		sum := Mass(0)
		for _, g := range rapid.SliceOfN(rapid.Float64Range(0, 5), 1, 9).Draw(t, "parts") {
			parts = append(parts, Mass(g))
			sum += Mass(g)
		}
		total, rounded := RoundParts(sum, parts, step)
		if math.Abs(float64(total-sum)) > float64(step)/2*(1+1e-9) {
			t.Fatalf("the total %v became %v", sum, total)
		}
		left := steps(total, step)
		for i, p := range rounded {
			left -= steps(p, step)
			if p < 0 || math.Abs(float64(p)-float64(parts[i])*ratio(total, sum)) > float64(step)*(1+1e-6) {
				t.Fatalf("part %d: %v became %v", i, parts[i], p)
			}
		}
		if left != 0 {
			t.Fatalf("%v of %v leave %d steps of %v", rounded, total, left, step)
		}
	})
}

func steps(m, step Mass) int64 { return int64(math.Round(float64(m) / float64(step))) }

func ratio(a, b Mass) float64 {
	if b == 0 {
		return 1
	}
	return float64(a) / float64(b)
}

func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := rapid.Int64().Draw(t, "total")
		weights := rapid.SliceOfN(rapid.Float64(), 1, 20).Draw(t, "weights")
		left := total
		for i, p := range ShareOut(total, weights) {
			left -= p
			if (p < 0) != (total < 0) && p != 0 {
				t.Fatalf("part %d of %d is %d", i, total, p)
			}
		}
		if left != 0 {
			t.Fatalf("%d is left of %d", left, total)
		}
	})
}

func TestShareOut(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	tests := []struct {
		total   int64
		weights []float64
		want    []int64
	}{
		{100, []float64{1, 1, 1}, []int64{34, 33, 33}},
		{10, []float64{2, 1}, []int64{7, 3}},
		{-10, []float64{2, 1}, []int64{-7, -3}},
		{10, []float64{0, 5, -1, nan, inf}, []int64{0, 10, 0, 0, 0}},
		{3, []float64{0, 0}, []int64{2, 1}},
		{0, []float64{1, 2}, []int64{0, 0}},
		{1, []float64{1e308, 1e308, 1e-308}, []int64{1, 0, 0}},
		{math.MinInt64, []float64{1}, []int64{math.MinInt64}},
		{math.MaxInt64, []float64{1}, []int64{math.MaxInt64}},
		{5, nil, nil},
	}
	for _, test := range tests {
		got := ShareOut(test.total, test.weights)
		if len(got) != len(test.want) {
			t.Errorf("ShareOut(%d, %v) = %v, want %v", test.total, test.weights, got, test.want)
			continue
		}
		for i := range got {
			if got[i] != test.want[i] {
				t.Errorf("ShareOut(%d, %v) = %v, want %v", test.total, test.weights, got, test.want)
			}
		}
	}
}

func TestRoundPartsWithoutStep(t *testing.T) {
	parts := []Mass{0.1, 0.2}
	for _, step := range []Mass{0, -1, Mass(math.NaN()), 1e-300} {
		total, got := RoundParts(0.3, parts, step)
		if total != 0.3 || got[0] != 0.1 || got[1] != 0.2 {
			t.Errorf("RoundParts with a step of %v = %v, %v", step, total, got)
		}
	}
}
