package model

import (
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestDewPoint holds the dew point against the shop's notes (appendix C, 8),
// and against psychrometric tables: 20 °C and 50 % give 9.3, 30 °C and 80 %
// give 26.2 (values from memory).
func TestDewPoint(t *testing.T) {
	for _, c := range []struct{ air, humidity, want, tol float64 }{
		{15, 0.68, 9.1, 0.2}, {27, 0.60, 18.6, 0.2}, {24, 0.62, 16.3, 0.2},
		{20, 0.50, 9.3, 0.1}, {30, 0.80, 26.2, 0.1}, {20, 1, 20, 1e-9},
	} {
		got, ok := DewPoint(unit.Celsius(c.air), unit.Share(c.humidity))
		if !ok {
			t.Fatalf("%v °C, %v: not known", c.air, c.humidity)
		}
		within(t, "dew point", got.Celsius(), c.want, c.tol)
	}
	for _, c := range []struct {
		air      unit.Temperature
		humidity unit.Share
	}{{0, 0.5}, {unit.Celsius(20), 0}, {unit.Celsius(20), -1}, {unit.Celsius(-260), 0.5}} {
		if dew, ok := DewPoint(c.air, c.humidity); ok {
			t.Errorf("%v and %v gave %v", c.air, c.humidity, dew)
		}
	}
}

// TestDewPointLaws: it is never above the air, and rises with both.
func TestDewPointLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := unit.Celsius(rapid.Float64Range(-20, 60).Draw(t, "air"))
		h := rapid.Float64Range(0.02, 0.99).Draw(t, "humidity")
		dew, _ := DewPoint(air, unit.Share(h))
		damper, _ := DewPoint(air, unit.Share(h+0.01))
		warmer, _ := DewPoint(air+1, unit.Share(h))
		if dew > air || damper <= dew || warmer <= dew {
			t.Fatalf("%v: %v, damper %v, warmer %v", air.Celsius(), dew.Celsius(), damper.Celsius(), warmer.Celsius())
		}
	})
}
