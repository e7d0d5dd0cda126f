package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestIntegrate(t *testing.T) {
	for _, c := range []struct {
		name string
		f    func(float64) float64
		a, b float64
		want float64
	}{
		{"cubic", func(x float64) float64 { return x * x * x }, 0, 2, 4},
		{"sine", math.Sin, 0, math.Pi, 2},
		{"backwards", math.Exp, 1, 0, 1 - math.E},
		{"quarter circle", func(x float64) float64 { return math.Sqrt(1 - x*x) }, 0, 1, math.Pi / 4},
		{"peak", func(x float64) float64 { return 1 / (1 + 1e4*x*x) }, -1, 1, 2 * math.Atan(100) / 100},
		{"ripple", func(x float64) float64 { return 1 + math.Cos(16*math.Pi*x) }, 0, 1, 1},
		{"nothing", math.Exp, 3, 3, 0},
	} {
		if got := Integrate(c.f, c.a, c.b, 1e-11); math.Abs(got-c.want) > 2e-10 {
			t.Errorf("%s: %.15g, want %.15g", c.name, got, c.want)
		}
	}
	if got := Integrate(func(float64) float64 { return math.NaN() }, 0, 1, 1e-9); !math.IsNaN(got) {
		t.Errorf("not a number became %v", got)
	}
}

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		name string
		f    func(float64) float64
		a, b float64
		want float64
	}{
		{"√2", func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{"cos x = x", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607},
		{"Wallis's cubic", func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815423265},
		{"at an end", func(x float64) float64 { return x }, 0, 1, 0},
		{"at the other end", func(x float64) float64 { return x - 1 }, 0, 1, 1},
		{"flat", func(x float64) float64 { return math.Pow(x-0.3, 9) }, 0, 1, 0.3},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.7) }, 0, 1, 0.7},
	} {
		got, ok := Root(c.f, c.a, c.b, 1e-12)
		if !ok || math.Abs(got-c.want) > 1e-11 && math.Abs(c.f(got)) > 1e-80 {
			t.Errorf("%s: %.15g %v, want %.15g", c.name, got, ok, c.want)
		}
	}
	if x, ok := Root(func(x float64) float64 { return 1 + x*x }, -1, 3, 1e-9); ok || x != -1 {
		t.Errorf("no root: %v %v", x, ok)
	}
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Float64Range(-5, 5).Draw(t, "root")
		k := rapid.Float64Range(0.01, 3).Draw(t, "k")
		f := func(x float64) float64 { return math.Expm1(k * (x - want)) }
		if got, ok := Root(f, -6, 7, 1e-10); !ok || math.Abs(got-want) > 1e-10 {
			t.Errorf("%v %v, want %v", got, ok, want)
		}
	})
}
