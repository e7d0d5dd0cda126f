package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestReferenceSolids holds solids against tables of mensuration (recomputed).
func TestReferenceSolids(t *testing.T) {
	for _, c := range []struct {
		name  string
		s     Solid
		below float64 // m
		want  float64 // mm³
	}{
		{"segment r 50, 10 high, 1 long", LyingCylinder(100*mm, 1*mm), 0.010, 408.752772},
		{"segment r 50, 25 high", LyingCylinder(100*mm, 1*mm), 0.025, 1535.462123},
		{"segment r 50, 50 high", LyingCylinder(100*mm, 1*mm), 0.050, 3926.990817},
		{"half cylinder r 50 × 200", HalfCylinder(100*mm, 200*mm), 1, 785398.1634},
		{"cap r 50, 20 high", Sphere(100 * mm), 0.020, 54454.2727},
		{"cone frustum r 100 to 80 × 60", Frustum(200*mm, 160*mm, 60*mm), 1, 1533097.215},
		{"cylinder", StandingCylinder(40*mm, 12*mm), 0.005, math.Pi * 400 * 5},
		{"box", Box(30*mm, 20*mm, 10*mm), 1, 6000},
		{"ring", RingSolid(60*mm, 40*mm, 5*mm), 1, math.Pi * 500 * 5},
		{"column", Column(12*unit.Millilitre, 40*mm), 0.010, 3000},
		{"prism of squares 280 to 300", Prism(0.28*0.28, 0.28*0.3, 0.3*0.3, 50*mm), 1, 4206666.6666666667},
	} {
		near(t, c.name, float64(c.s.VolumeBelow(unit.Length(c.below)))/mm3, c.want, 1e-9)
		if err := c.s.Check(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func anySolid(t *rapid.T) Solid {
	size := func(label string) unit.Length {
		return unit.Length(rapid.Float64Range(0.001, 0.3).Draw(t, label))
	}
	a, b, h := size("a"), size("b"), size("h")
	var s Solid
	switch rapid.IntRange(0, 8).Draw(t, "kind") {
	case 0:
		s = StandingCylinder(a, h)
	case 1:
		s = LyingCylinder(a, b)
	case 2:
		s = HalfCylinder(a, b)
	case 3:
		s = Sphere(a)
	case 4:
		s = Box(a, b, h)
	case 5:
		s = RingSolid(max(a, b), min(a, b), h)
	case 6:
		s = Frustum(a, b, h)
	case 7:
		s = Column(a.By(b).By(h), h)
	case 8:
		s = Prism(a.By(a), a.By(b), b.By(b), h)
	}
	return At(At(s, size("up")), size("further"))
}

// TestSolidLaws holds every closed form against quadrature of its own section.
func TestSolidLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t)
		lo, hi := float64(s.Bottom()), float64(s.Top())
		below := func(z float64) float64 { return float64(s.VolumeBelow(unit.Length(z))) }
		full := below(hi)
		if below(lo) != 0 || below(lo-1) != 0 || math.Abs(below(hi+1)-full) > 1e-12*full {
			t.Errorf("nothing below %v, all below %v: %v, %v", lo, hi, below(lo), full)
		}
		if s.AreaAt(s.Bottom()-1) != 0 || s.AreaAt(s.Top()+1) != 0 {
			t.Error("area outside the body")
		}
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		z := lerp(lo, hi, rapid.Float64Range(0, 0.999).Draw(t, "z"))
		// z = lo + (hi-lo)·u² smooths the upright start of a round section.
		f := func(u float64) float64 {
			return float64(s.AreaAt(unit.Length(lo+(z-lo)*u*u))) * 2 * u * (z - lo)
		}
		if got := Integrate(f, 0, 1, 1e-13*full); math.Abs(got-below(z)) > 1e-7*full {
			t.Errorf("%v below %v, by quadrature %v", below(z), z, got)
		}
	})
}

// TestShallowSegment keeps its digits: for a shallow one, 4/3·√(2r)·h^1.5.
func TestShallowSegment(t *testing.T) {
	for _, h := range []float64{1e-12, 1e-9} {
		near(t, "segment", segment(0.05, h), 4.0/3*math.Sqrt(0.1)*math.Pow(h, 1.5)*(1-3*h/(20*0.05)*1), 1e-8)
	}
	lo, hi := segment(1, 0.031087), segment(1, 0.031088) // on either side of the change of formula
	near(t, "slope", (hi-lo)/1e-6, 2*math.Sqrt(2*0.0310875-0.0310875*0.0310875), 1e-6)
}

func TestSolidsThatCannotBe(t *testing.T) {
	for name, s := range map[string]Solid{
		"no height":     StandingCylinder(0.1, 0),
		"no diameter":   StandingCylinder(0, 0.1),
		"hole too wide": RingSolid(0.02, 0.03, 0.01),
		"nan":           Sphere(unit.Length(math.NaN())),
		"no length":     LyingCylinder(0.1, 0),
		"negative":      HalfCylinder(-0.1, 0.1),
		"column":        Column(1, 0),
		"raised":        At(Sphere(0), 1),
		"raised by nan": At(Sphere(1), unit.Length(math.NaN())),
	} {
		if s.Check() == nil {
			t.Errorf("%s passed", name)
		}
	}
}

func TestSolidsAreCheap(t *testing.T) {
	sum := unit.Volume(0)
	if n := testing.AllocsPerRun(100, func() {
		sum += At(Prism(0.03, 0.029, 0.028, 0.04), 0.01).VolumeBelow(0.02)
	}); n > 2 {
		t.Errorf("%v allocations for a raised prism, want one for each interface value", n)
	}
}
