package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestPrismIsTheBodyBetween holds the prism of two outlines against the areas
// of the outlines between them.
func TestPrismIsTheBodyBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bottom, top := anyRing(t, "bottom"), anyRing(t, "top")
		b, u := Blend(bottom, top)
		if len(b) != len(u) || len(b) < 3 {
			t.Fatalf("%d and %d points", len(b), len(u))
		}
		near(t, "bottom", b.Signed(), math.Abs(bottom.Signed()), 1e-9)
		near(t, "top", u.Signed(), math.Abs(top.Signed()), 1e-9)
		s := Prism(b.Area(), MixedArea(b, u), u.Area(), 0.04)
		for _, z := range []float64{0, 0.007, 0.02, 0.04} {
			near(t, "area", float64(s.AreaAt(unit.Length(z))), Between(b, u, z/0.04).Signed(), 1e-9)
		}
		got := Integrate(func(z float64) float64 { return Between(b, u, z/0.04).Signed() }, 0, 0.03, 1e-14)
		near(t, "volume", float64(s.VolumeBelow(0.03)), got, 1e-9)
	})
}

// TestBlendOfRectangles: a bevelled board is narrower all round at the top, and
// its corners must meet corners, so that the mixed area is (l0·w1+l1·w0)/2.
func TestBlendOfRectangles(t *testing.T) {
	b, u := Blend(RectangleRing(0.4, 0.1, 0), RectangleRing(0.39, 0.08, 0))
	if len(b) != 4 {
		t.Fatalf("%d points", len(b))
	}
	near(t, "mixed", float64(MixedArea(b, u)), (0.4*0.08+0.39*0.1)/2, 1e-12)
	m := Between(b, u, 0.5)
	lo, hi := m.Bounds()
	near(t, "middle", (hi.X-lo.X)*(hi.Y-lo.Y), 0.395*0.09, 1e-12)
}

// TestBlendIgnoresWhereTracingBegan: two tracings of one outline, begun at
// different points, are an upright body.
func TestBlendIgnoresWhereTracingBegan(t *testing.T) {
	r := wavy(300, 1, 0)
	turned := append(append(Ring(nil), r[77:]...), r[:77]...)
	for _, top := range []Ring{turned, turned.dense(401), r} {
		b, u := Blend(r, top)
		for i := range b {
			if d := b[i].minus(u[i]).norm(); d > 2e-3 {
				t.Fatalf("point %d is %v from its partner", i, d)
			}
		}
	}
	// Of outlines a little smaller all round, each point stays near its partner.
	b, u := Blend(r, wavy(411, 0.97, 0))
	for i := range b {
		if d := b[i].minus(u[i]).norm(); d > 0.009 {
			t.Fatalf("point %d is %v from its partner", i, d)
		}
	}
}

func TestBlendOfNothing(t *testing.T) {
	for _, r := range []Ring{nil, {{1, 1}}, {{1, 1}, {1, 1}, {1, 1}}} {
		b, u := Blend(r, PolygonRing(5, 1))
		if len(r) > 0 && len(b) != len(u) {
			t.Errorf("%v: %d and %d points", r, len(b), len(u))
		}
		MixedArea(b, u)
		Between(b, u, 0.5)
	}
}
