package cure

import (
	"math"
	"testing"

	"meniscus/model/unit"
)

func TestAgeFactor(t *testing.T) {
	// Q = E/R = 5000 K and 20 C: values computed with scipy from the equation
	// of ASTM C1074 (Q = 5000 K is its typical value; value from memory).
	q5000 := unit.MolarEnergy(5000 * GasConstant)
	for c, want := range map[float64]float64{5: .39860, 10: .54751, 15: .74382, 20: 1, 23: 1.18860, 25: 1.33114, 30: 1.75528, 35: 2.29389, 40: 2.97227} {
		if got := AgeFactor(q5000, unit.Celsius(c), unit.Celsius(20)); math.Abs(got-want) > 1e-5 {
			t.Errorf("age factor at %v °C = %.5f, want %.5f", c, got, want)
		}
	}
	// Temperature factor of 20 to 30 C by activation energy, computed with scipy
	// from the Arrhenius equation; 51.216 kJ/mol doubles exactly.
	for e, want := range map[unit.MolarEnergy]float64{40: 1.7183, 44.289: 1.8210, 50: 1.9674, 51.216: 2, 54.96: 2.1039, 60: 2.2525, 70: 2.5789} {
		if got := AgeFactor(e*unit.KilojoulePerMole, unit.Celsius(30), unit.Celsius(20)); math.Abs(got-want) > 1e-4 {
			t.Errorf("20 to 30 °C at %v kJ/mol = %.4f, want %.4f", e, got, want)
		}
	}
}

func TestLengthening(t *testing.T) {
	// 22 to 12 °C at 55 kJ/mol lengthens by 2.195, computed by hand from the
	// Arrhenius equation: exp(55000/8.31446 (1/285.15 - 1/295.15)).
	if got := Lengthening(TypicalActivation, unit.Celsius(12), unit.Celsius(22)); math.Abs(got-2.195) > 0.001 {
		t.Errorf("lengthening = %.4f, want 2.195", got)
	}
	if got := Lengthening(TypicalActivation, 0, unit.Celsius(22)); got != 1 {
		t.Errorf("no temperature: %v, want 1", got)
	}
}
