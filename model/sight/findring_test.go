package sight

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
)

// fieldOf makes a field of a function that is more than 0 in wood, soft over a
// cell, as a picture would be.
func fieldOf(wide, high, step int, f func(x, y float64) float64) *field {
	g := &field{wide: wide, high: high, step: step, size: image.Pt(wide*step, high*step), at: make([]float32, wide*high)}
	for i := range g.at {
		x, y := (float64(i%wide)+0.5)*float64(step), (float64(i/wide)+0.5)*float64(step)
		g.at[i] = float32(min(1, max(0, 0.5+f(x, y)/float64(step)/2)))
	}
	return g
}

// A ring of wood around a hole with an island, against the areas of circles.
func TestRingsOfCircles(t *testing.T) {
	f := fieldOf(200, 150, 2, func(x, y float64) float64 {
		d := math.Hypot(x-200.3, y-149.1)
		return max(min(120-d, d-60), 25-d)
	})
	var found Found
	found.sort(f.rings(), 10, 0.05)
	if len(found.Holes) != 1 || len(found.Islands) != 1 {
		t.Fatalf("%d holes, %d islands", len(found.Holes), len(found.Islands))
	}
	for _, c := range []struct {
		ring   shape.Ring
		radius float64
	}{{found.Outer, 120}, {found.Holes[0], -60}, {found.Islands[0], 25}} {
		want := math.Copysign(math.Pi*c.radius*c.radius, c.radius)
		if got := c.ring.Signed(); math.Abs(got/want-1) > 2e-3 {
			t.Errorf("radius %g: area %.1f, not %.1f", c.radius, got, want)
		}
		middle := c.ring.Centroid()
		if math.Hypot(middle.X-200.3, middle.Y-149.1) > 0.05 {
			t.Errorf("radius %g: about %v", c.radius, middle)
		}
	}
}

// Wood that fills the picture has the picture's own border.
func TestRingAlongTheBorder(t *testing.T) {
	rings := fieldOf(30, 20, 3, func(x, y float64) float64 { return 100 }).rings()
	if len(rings) != 1 || rings[0].Signed() < 0.98*90*60 || rings[0].Signed() > 90*60 {
		t.Errorf("%v", rings)
	}
}

// Whatever the field, its rings are valid, never meet, and hold the cells that
// are wood.
func TestRingsOfAnyField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.IntRange(1, 12).Draw(t, "wide"), rapid.IntRange(1, 12).Draw(t, "high")
		f := &field{wide: wide, high: high, step: 1, size: image.Pt(wide, high), at: make([]float32, wide*high)}
		for i := range f.at {
			f.at[i] = float32(rapid.IntRange(0, 8).Draw(t, "share")) / 8
		}
		var all shape.Region
		for _, r := range f.rings() {
			all = append(all, r.Scaled(1e-3, 1e-3))
		}
		if err := all.Validate(); err != nil {
			t.Fatal(err)
		}
		for y := range high {
			for x := range wide {
				p := shape.Point{X: (float64(x) + 0.5) / 1e3, Y: (float64(y) + 0.5) / 1e3}
				if all.Contains(p) != f.wood(x, y) {
					t.Fatalf("cell %d,%d: inside %v, wood %v", x, y, all.Contains(p), f.wood(x, y))
				}
			}
		}
	})
}
