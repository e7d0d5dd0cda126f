package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestGrownConvex holds a grown convex outline to Steiner's formula,
// A + P·d + π·d² (Schneider, Convex Bodies; value from memory).
func TestGrownConvex(t *testing.T) {
	for _, ring := range []Ring{
		RectangleRing(0.3, 0.2, 0),
		PolygonRing(6, 0.32),
		RectangleRing(0.28, 0.12, 0.025),
		EllipseRing(0.4, 0.3),
	} {
		a := NewRegion(ring)
		for _, d := range []float64{1e-4, 0.003, 0.05} {
			want := float64(a.Area()) + float64(a.Perimeter())*d + math.Pi*d*d
			got := float64(a.Grown(unit.Length(d)).Area())
			if got > want+1e-12 || want-got > 2*math.Pi*d*roundTo {
				t.Errorf("%d corners grown by %g m: %.10g m², want %.10g", len(ring), d, got, want)
			}
		}
		if n := len(a.Grown(-0.16)); n != 0 {
			t.Errorf("%d corners shrunk to nothing leave %d rings", len(ring), n)
		}
	}
}

// TestShrunkRectangle has a closed form: each side loses twice as much.
func TestShrunkRectangle(t *testing.T) {
	a := NewRegion(RectangleRing(0.3, 0.2, 0), RectangleRing(0.1, 0.05, 0))
	got := float64(a.Grown(-0.01).Area())
	// The hole grows round its four corners.
	want := 0.28*0.18 - (0.1*0.05 + 2*(0.1+0.05)*0.01 + math.Pi*0.01*0.01)
	if math.Abs(got-want) > 2*math.Pi*0.01*roundTo {
		t.Errorf("%.10g m², want %.10g", got, want)
	}
}

// TestGrownLaws: what grows holds what it was, what shrinks lies in it, no
// point of the edge is farther than so far, and a region grown twice is the
// region grown by both.
func TestGrownLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLoose(t, "a")
		d := unit.Length(rapid.Float64Range(1e-4, 0.08).Draw(t, "by"))
		out, in := a.Grown(d), a.Grown(-d)
		sound(t, "grown", out)
		sound(t, "shrunk", in)
		if left := a.Without(out).Area(); left > 3e-11 {
			t.Fatalf("%g m² of it are not in what it grew to", float64(left))
		}
		if left := in.Without(a).Area(); left > 3e-11 {
			t.Fatalf("%g m² of what it shrank to are not in it", float64(left))
		}
		for _, r := range out {
			for _, p := range r {
				near := math.Inf(1)
				for _, q := range a {
					for i := range q {
						near = min(near, squareToSegment(p, q[i], q[q.next(i)]))
					}
				}
				if off := math.Sqrt(near) - float64(d); off > 1e-9 || off < -2*roundTo {
					t.Fatalf("a corner of what it grew to lies %g m from the edge, want %g", math.Sqrt(near), float64(d))
				}
			}
		}
		twice, once := a.Grown(d).Grown(d), a.Grown(2*d)
		apart := twice.Without(once).Area() + once.Without(twice).Area()
		if most := unit.Area(float64(once.Perimeter()) * 4 * roundTo); apart > most+1e-9 {
			t.Fatalf("grown twice and once differ by %g m²", float64(apart))
		}
	})
}

// wandering is an outline like a slab's with so many points.
func wandering(n int, phase float64) Region {
	r := make(Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		f := 1 + 0.03*math.Sin(17*a+phase) + 0.01*math.Sin(151*a) + 0.002*math.Sin(float64(n)/3*a)
		r[i] = Point{0.6 * f * math.Cos(a), 0.2 * f * math.Sin(a)}
	}
	return NewRegion(r)
}

func BenchmarkClip(b *testing.B) {
	mold := NewRegion(RectangleRing(0.9, 0.3, 0.02).Turned(0.1))
	for _, c := range []struct {
		name string
		a, b Region
	}{
		{"slab of 5000 points and a mold", wandering(5000, 0), mold},
		{"slab of 20000 points and a mold", wandering(20000, 0), mold},
		{"20000 and 20000 points", wandering(20000, 0), wandering(20000, 1)},
		{"20000 points and the same", wandering(20000, 0), wandering(20000, 0)},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				_ = c.a.And(c.b)
			}
		})
	}
}

func BenchmarkGrown(b *testing.B) {
	for name, a := range map[string]Region{
		"mold":                NewRegion(RectangleRing(0.9, 0.3, 0.02)),
		"slab of 5000 points": wandering(5000, 0),
	} {
		b.Run(name, func(b *testing.B) {
			for range b.N {
				_ = a.Grown(0.003)
			}
		})
	}
}
