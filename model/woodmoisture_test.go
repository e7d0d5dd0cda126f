package model

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestEquilibriumTable holds the equation against rows of the table of
// equilibrium moisture (Forest Products Laboratory, Wood Handbook, FPL-GTR-190,
// table 4-2), which has one figure for each 5 % of humidity and is rounded to a
// tenth; the rows are keyed by °F.
func TestEquilibriumTable(t *testing.T) {
	for f, row := range map[float64][19]float64{
		30:  {1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.4, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3},
		50:  {1.4, 2.6, 3.6, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.4, 14.8, 16.4, 18.4, 20.9, 24.3},
		60:  {1.3, 2.5, 3.6, 4.6, 5.4, 6.2, 7.0, 7.8, 8.6, 9.4, 10.2, 11.1, 12.1, 13.3, 14.6, 16.2, 18.2, 20.7, 24.1},
		70:  {1.3, 2.5, 3.5, 4.5, 5.4, 6.2, 6.9, 7.7, 8.5, 9.2, 10.1, 11.0, 12.0, 13.1, 14.4, 16.0, 17.9, 20.5, 23.9},
		90:  {1.2, 2.3, 3.4, 4.3, 5.1, 5.9, 6.7, 7.4, 8.1, 8.9, 9.7, 10.5, 11.5, 12.6, 13.9, 15.4, 17.3, 19.8, 23.3},
		100: {1.2, 2.3, 3.3, 4.2, 5.0, 5.8, 6.5, 7.2, 7.9, 8.7, 9.5, 10.3, 11.2, 12.3, 13.6, 15.1, 17.0, 19.5, 22.9},
		120: {1.1, 2.1, 3.0, 3.9, 4.7, 5.4, 6.1, 6.8, 7.5, 8.2, 8.9, 9.7, 10.6, 11.7, 12.9, 14.4, 16.2, 18.6, 22.0},
		140: {.9, 1.9, 2.8, 3.6, 4.3, 5.0, 5.7, 6.3, 7.0, 7.7, 8.4, 9.1, 10.0, 11.0, 12.1, 13.6, 15.3, 17.7, 21.0},
	} {
		for i, want := range row {
			h := unit.Share(5*(i+1)) * unit.Percent
			got, ok := Equilibrium(unit.Fahrenheit(f), h)
			if !ok || math.Abs(got.Percent()-want) > 0.07 {
				t.Errorf("%g °F and %g %%: %.3f %%, the table says %g", f, h.Percent(), got.Percent(), want)
			}
		}
	}
	// Further rows of the same table, values from memory.
	for f, row := range map[float64][19]float64{
		40:  {1.4, 2.6, 3.7, 4.6, 5.5, 6.3, 7.1, 7.9, 8.7, 9.5, 10.4, 11.3, 12.3, 13.5, 14.9, 16.5, 18.5, 21.0, 24.3},
		80:  {1.3, 2.4, 3.5, 4.4, 5.3, 6.1, 6.8, 7.6, 8.3, 9.1, 9.9, 10.8, 11.7, 12.9, 14.2, 15.7, 17.7, 20.2, 23.6},
		110: {1.1, 2.2, 3.2, 4.1, 4.9, 5.6, 6.3, 7.0, 7.7, 8.4, 9.2, 10.0, 11.0, 12.0, 13.2, 14.7, 16.6, 19.1, 22.4},
		130: {1.0, 2.0, 2.9, 3.7, 4.5, 5.2, 5.9, 6.6, 7.2, 7.9, 8.7, 9.4, 10.3, 11.3, 12.5, 14.0, 15.8, 18.2, 21.5},
		150: {.9, 1.8, 2.6, 3.4, 4.1, 4.8, 5.5, 6.1, 6.7, 7.4, 8.1, 8.8, 9.7, 10.6, 11.8, 13.1, 14.9, 17.2, 20.4},
		160: {.8, 1.6, 2.4, 3.2, 3.9, 4.6, 5.2, 5.8, 6.4, 7.1, 7.8, 8.5, 9.3, 10.3, 11.4, 12.7, 14.4, 16.7, 19.9},
	} {
		for i, want := range row {
			h := unit.Share(5*(i+1)) * unit.Percent
			got, ok := Equilibrium(unit.Fahrenheit(f), h)
			if !ok || math.Abs(got.Percent()-want) > 0.2 {
				t.Errorf("%g °F and %g %%: %.3f %%, the table says %g", f, h.Percent(), got.Percent(), want)
			}
		}
	}
}

// TestEquilibriumFigures: unrounded figures of the same equation, worked out
// apart in another language, and figures of the shop's notes.
func TestEquilibriumFigures(t *testing.T) {
	for _, c := range []struct{ at, humidity, want, tol float64 }{
		{0, 30, 6.316, 1e-3}, {0, 50, 9.519, 1e-3}, {0, 65, 12.373, 1e-3}, {0, 80, 16.533, 1e-3},
		{10, 30, 6.305, 1e-3}, {10, 80, 16.382, 1e-3}, {20, 30, 6.188, 1e-3}, {20, 50, 9.271, 1e-3}, {20, 65, 11.996, 1e-3}, {20, 80, 16.037, 1e-3},
		{25, 50, 9.132, 1e-3}, {30, 65, 11.605, 1e-3}, {30, 80, 15.548, 1e-3},
		// A sign or a power of ten lost in K gives 13.832 here.
		{60, 80, 13.561, 1e-3},
		// The shop's notes, rounded to a tenth.
		{21, 35, 6.9, 0.05}, {21, 45, 8.5, 0.05}, {21, 55, 10.1, 0.051}, {12, 75, 14.7, 0.051},
	} {
		got, _ := Equilibrium(unit.Celsius(c.at), unit.Share(c.humidity)*unit.Percent)
		within(t, "moisture", got.Percent(), c.want, c.tol)
	}
	for _, c := range []struct{ moisture, want float64 }{{6, .2881}, {8, .4183}, {12, .6502}} {
		got, ok := HumidityFor(unit.Celsius(20), unit.Share(c.moisture)*unit.Percent)
		if !ok {
			t.Errorf("no humidity for %g %%", c.moisture)
		}
		within(t, "humidity", float64(got), c.want, 1e-4)
	}
}

// TestEquilibriumEnds: air cannot be drier than dry or wetter than wet, and wood
// that it makes wet stays at or below fibre saturation.
func TestEquilibriumEnds(t *testing.T) {
	if m, ok := Equilibrium(unit.Celsius(20), 0); !ok || m != 0 {
		t.Errorf("dry air gives %v, %v", m, ok)
	}
	if m, ok := Equilibrium(unit.Celsius(20), 1); !ok || m > fibreSaturation || m < 0.24 {
		t.Errorf("saturated air gives %v, %v", m, ok)
	}
	for _, h := range []unit.Share{-0.01, 1.01, unit.Share(math.NaN()), unit.Share(math.Inf(1))} {
		if _, ok := Equilibrium(unit.Celsius(20), h); ok {
			t.Errorf("humidity %v was taken", h)
		}
	}
	if _, ok := Equilibrium(0, 0.5); ok {
		t.Error("no temperature was taken")
	}
	if _, ok := HumidityFor(unit.Celsius(20), 0.29); ok {
		t.Error("there is air for wood above fibre saturation")
	}
}

func TestEquilibriumLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := unit.Celsius(rapid.Float64Range(-1, 90).Draw(t, "at"))
		h := unit.Share(rapid.Float64Range(0, 0.99).Draw(t, "humidity"))
		m, _ := Equilibrium(at, h)
		if damper, _ := Equilibrium(at, h+0.01); !(damper > m) {
			t.Fatalf("damper air gives %v after %v", damper, m)
		}
		// Above 20 °C and 5 % humidity warmth dries wood; the table turns below.
		if at > unit.Celsius(20) && h > 0.05 {
			if warmer, _ := Equilibrium(at+1, h); !(warmer < m) {
				t.Fatalf("warmer air gives %v after %v", warmer, m)
			}
		}
		if back, ok := HumidityFor(at, m); !ok || math.Abs(float64(back-h)) > 1e-9 {
			t.Fatalf("%v came back as %v", h, back)
		}
	})
}
