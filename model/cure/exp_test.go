package cure

import (
	"math"
	"testing"

	"meniscus/model/unit"

	"pgregory.net/rapid"
)

func TestExpAndLogAgreeWithTheStandardLibrary(t *testing.T) {
	one := func(f func([]float64), x float64) float64 {
		v := []float64{x}
		f(v)
		return v[0]
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-689, 689).Draw(t, "x")
		if got, want := one(expEach, x), math.Exp(x); math.Abs(got/want-1) > 4e-15 {
			t.Fatalf("exp(%v) = %v, want %v: off by %g", x, got, want, got/want-1)
		}
		y := math.Exp(x)
		if got, want := one(logEach, y), math.Log(y); math.Abs(got-want) > 1e-14+2e-16*math.Abs(want) {
			t.Fatalf("ln(%v) = %v, want %v", y, got, want)
		}
	})
	for x, want := range map[float64]float64{0: 1, math.Inf(-1): math.Exp(-690), 800: math.Exp(690), math.Inf(1): math.Exp(690)} {
		if got := one(expEach, x); math.Abs(got/want-1) > 4e-15 {
			t.Errorf("exp(%v) = %v, want %v", x, got, want)
		}
	}
}

func TestRateAgreesWithItself(t *testing.T) {
	// Whole slices, one place and the public law are the same, and the slopes are
	// those of the rate.
	rapid.Check(t, func(t *rapid.T) {
		k := []Kinetics{FastAmine(), SlowAmine(), unslowed(SlowAmine())}[rapid.IntRange(0, 2).Draw(t, "class")]
		r := ratesOf(&k, 1800)
		n := rapid.IntRange(1, 70).Draw(t, "cells")
		a, temps, out, byA, byT := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		for i := range n {
			a[i], temps[i] = rapid.Float64Range(1e-6, 0.97).Draw(t, "a"), rapid.Float64Range(270, 450).Draw(t, "T")
		}
		r.slopes(out, byA, byT, a, temps)
		again := make([]float64, n)
		r.rate(again, a, temps)
		for i := range n {
			public := k.Rate(a[i], unit.Temperature(temps[i]))
			for _, v := range []float64{again[i], r.one(a[i], temps[i]), public} {
				if math.Abs(v/out[i]-1) > 1e-11 {
					t.Fatalf("rate at %v, %v K: %v and %v", a[i], temps[i], v, out[i])
				}
			}
			ha, ht := 1e-5*a[i], 1e-3
			da := (r.one(a[i]+ha, temps[i]) - r.one(a[i]-ha, temps[i])) / (2 * ha)
			dt := (r.one(a[i], temps[i]+ht) - r.one(a[i], temps[i]-ht)) / (2 * ht)
			if math.Abs(da-byA[i]) > 1e-5*(math.Abs(da)+out[i]) || math.Abs(dt-byT[i]) > 1e-6*(math.Abs(dt)+out[i]) {
				t.Fatalf("slopes at %v, %v K: %v and %v, by differences %v and %v", a[i], temps[i], byA[i], byT[i], da, dt)
			}
		}
	})
}
