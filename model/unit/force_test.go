package unit

import (
	"math"
	"testing"
)

// TestForceAndPressure: g is exactly 9.80665 m/s² (NIST SP 811); a metre of water
// of 1,000 kg/m³ presses with 9.80665 kPa, a kilogram weighs 9.80665 N.
func TestForceAndPressure(t *testing.T) {
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12*math.Abs(want) {
			t.Errorf("%s = %v, want %v", what, got, want)
		}
	}
	near("a metre of water", float64(Density(1000).Head(Metre)), 9806.65)
	near("a kilogram", float64(Kilogram.Weight()), 9.80665)
	near("and back", float64(Force(9.80665).Mass()), 1)
	near("on half a square metre", float64(Pressure(400).On(0.5*SquareMetre)), 200)
	near("spread over it", float64(Force(200).Over(0.5*SquareMetre)), 400)
	near("twice", float64(Force(3).Times(2)), 6)
	near("of the other", Pressure(3).Per(6), 0.5)
	near("of the other", Force(3).Per(6), 0.5)
	near("doubled", float64(Pressure(3).Times(2)), 6)
}

func TestForceIsWritten(t *testing.T) {
	mm, in := Style{}, Style{Lengths: InInches, Masses: InPounds}
	for _, c := range []struct{ got, want string }{
		{mm.Force(8.632), "8.6 N"}, {mm.Force(70.4), "70 N"}, {mm.Force(-8.632), "-8.6 N"},
		{mm.Pressure(453.1), "453 Pa"}, {mm.Pressure(12345), "12.3 kPa"}, {mm.Pressure(2.5 * Gigapascal), "2.5 GPa"},
		{mm.Load(7.19), "7.2 kg"}, {mm.Load(0.0474), "47 g"}, {mm.Load(0.0026), "2.6 g"}, {mm.Load(-1.5), "-1.5 kg"},
		{in.Load(7.19), "15.9 lb"}, {in.Load(0.0474), "1.7 oz"}, {in.Load(0.0026), "0.09 oz"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
