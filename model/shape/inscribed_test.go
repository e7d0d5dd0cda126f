package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestLargestRectangle holds the search against figures that are known: in an
// ellipse the sides over √2, in a triangle half its area (both school geometry),
// in a regular hexagon of side s the area √3·s², in an L the larger arm.
func TestLargestRectangle(t *testing.T) {
	m := func(mm float64) unit.Length { return unit.Length(mm) * unit.Millimetre }
	free := func(r Ring) Section { return outlinedBy(r) }
	triangle := Ring{{0, 0}, {0.4, 0}, {0.1, 0.3}}
	ell := Ring{{0, 0}, {0.2, 0}, {0.2, 0.1}, {0.1, 0.1}, {0.1, 0.25}, {0, 0.25}}
	for _, c := range []struct {
		name    string
		in      []Section
		anyTurn bool
		area    float64 // mm²
		tol     float64
	}{
		{"sharp walls", []Section{rounded{0.15, 0.1, 0}, rounded{0.14, 0.11, 0}}, false, 280 * 200, 1e-12},
		{"circle", []Section{ellipse{0.1, 0.1}}, false, 2 * 100 * 100, 1e-12},
		{"oval", []Section{ellipse{0.15, 0.08}}, false, 2 * 150 * 80, 1e-12},
		{"two ovals", []Section{ellipse{0.15, 0.08}, ellipse{0.16, 0.09}}, false, 2 * 150 * 80, 1e-9},
		{"oval as an outline", []Section{free(EllipseRing(m(300), m(160)))}, false, 2 * 150 * 80, 1e-3},
		{"hexagon", []Section{regular{6, 0.1 * math.Cos(math.Pi/6)}}, false, math.Sqrt(3) * 100 * 100, 1e-9},
		{"hexagon as an outline", []Section{free(PolygonRing(6, m(200*math.Cos(math.Pi/6))))}, false, math.Sqrt(3) * 100 * 100, 1e-4},
		{"square at any turn", []Section{free(RectangleRing(m(200), m(200), 0).Turned(37 * unit.Degree))}, true, 200 * 200, 1e-3},
		{"triangle", []Section{free(triangle)}, false, 60000.0 / 2, 1e-4},
		{"L", []Section{free(ell)}, false, 25000, 1e-4},
		{"two outlines", []Section{free(ell), free(Ring{{0.02, 0}, {0.2, 0}, {0.2, 0.25}, {0.02, 0.25}})}, false, 80 * 250, 1e-4},
	} {
		r := LargestRectangle(c.in, c.anyTurn)
		if got := r.Area().SquareMillimetres(); math.Abs(got/c.area-1) > c.tol {
			t.Errorf("%s: %.3f mm², want %.3f", c.name, got, c.area)
		}
		for _, s := range c.in {
			inside(t, c.name, r, s)
		}
	}
	if r := LargestRectangle([]Section{rounded{0.1, 0.1, 0}, outlinedBy(Ring{{0.2, 0.2}, {0.3, 0.2}, {0.3, 0.3}})}, false); r.Area() != 0 {
		t.Errorf("two sections with nothing in common hold %v", r)
	}
}

type failer interface {
	Helper()
	Errorf(string, ...any)
}

// inside tells whether a rectangle lies in a section: none of its edge is
// outside, and no corner of the section's edge is within it.
func inside(t failer, name string, r Rectangle, s Section) {
	t.Helper()
	const slight = 2.5e-5 // arcs are cut to chords within 0.02 mm
	ring := r.Ring()
	for i := range ring {
		for k := range 40 {
			if p := ring[i].toward(ring[ring.next(i)], float64(k)/40); s.Clearance(p) < -slight {
				t.Errorf("%s: the rectangle's edge at %v is %.4f mm outside", name, p, -1000*s.Clearance(p))
				return
			}
		}
	}
	if f, ok := s.(*outlined); ok {
		room := ring.Room()
		for _, p := range f.ring {
			if room(p) > slight {
				t.Errorf("%s: the outline's corner %v lies %.4f mm within the rectangle", name, p, 1000*room(p))
				return
			}
		}
	}
}

// blob draws a wavy outline, which is not convex.
func blob(t *rapid.T) Ring {
	n := rapid.IntRange(5, 40).Draw(t, "points")
	ring := make(Ring, n)
	for i := range ring {
		r := rapid.Float64Range(0.05, 0.15).Draw(t, "r")
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = Point{1.4 * r * cos, r * sin}
	}
	return ring
}

// TestLargestRectangleByBruteForce holds the search against a raster: of all
// rectangles of cells whose middles lie inside, the largest. A raster is off by
// about one cell along each edge.
func TestLargestRectangleByBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := blob(t)
		s := outlinedBy(ring)
		r := LargestRectangle([]Section{s}, false)
		inside(t, "blob", r, s)
		const n = 120
		lo, hi := ring.Bounds()
		dx, dy := (hi.X-lo.X)/n, (hi.Y-lo.Y)/n
		// For each cell how many cells below it in a row are inside; then for each
		// row the largest rectangle under that profile.
		best, bw, bh := 0.0, 0.0, 0.0
		var high [n]int
		for j := range n {
			for i := range n {
				if ring.Contains(Point{lo.X + (float64(i)+0.5)*dx, lo.Y + (float64(j)+0.5)*dy}) {
					high[i]++
				} else {
					high[i] = 0
				}
			}
			for i := range n {
				least := high[i]
				for k := i; k < n && least > 0; k++ {
					least = min(least, high[k])
					if a := float64((k-i+1)*least) * dx * dy; a > best {
						best, bw, bh = a, float64(k-i+1)*dx, float64(least)*dy
					}
				}
			}
		}
		got := float64(r.Area())
		// What the raster holds true, shrunk by a cell and a half all round, is a
		// rectangle whose edges no wall between two middles can reach far into.
		if low := (bw - 3*dx) * (bh - 3*dy); bw > 3*dx && bh > 3*dy && got < 0.97*low {
			t.Fatalf("found %.1f mm², the raster has %.1f by %.1f mm", got*1e6, bw*1e3, bh*1e3)
		}
		if w, h := float64(r.Length), float64(r.Width); w > dx && h > dy && best < (w-dx)*(h-dy)-1e-12 {
			t.Fatalf("found %.1f by %.1f mm, of which the raster has only %.1f mm²", w*1e3, h*1e3, best*1e6)
		}
	})
}

// TestAnyTurnIsNoSmaller: a rectangle that may lie at any turn is at least as
// large as one along the axes.
func TestAnyTurnIsNoSmaller(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := outlinedBy(blob(t))
		along, turned := LargestRectangle([]Section{s}, false), LargestRectangle([]Section{s}, true)
		inside(t, "turned", turned, s)
		if float64(turned.Area()) < 0.99*float64(along.Area()) {
			t.Fatalf("%.1f mm² at any turn, %.1f along the axes", float64(turned.Area())*1e6, float64(along.Area())*1e6)
		}
	})
}

func TestLargestCircle(t *testing.T) {
	for _, c := range []struct {
		name   string
		in     []Section
		radius float64
	}{
		{"rectangle", []Section{rounded{0.15, 0.1, 0.02}}, 0.1},
		{"two ovals", []Section{ellipse{0.15, 0.08}, ellipse{0.07, 0.2}}, 0.07},
		{"hexagon", []Section{regular{6, 0.1}}, 0.1},
		// The incircle of a triangle of sides 3, 4 and 5 has the radius 1.
		{"triangle", []Section{outlinedBy(Ring{{0, 0}, {0.4, 0}, {0, 0.3}})}, 0.1},
	} {
		at, r := LargestCircle(c.in)
		if math.Abs(r-c.radius) > 2e-6 {
			t.Errorf("%s: radius %.6f, want %.6f", c.name, r, c.radius)
		}
		for _, s := range c.in {
			if s.Clearance(at) < r-1e-9 {
				t.Errorf("%s: the circle leaves the section", c.name)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		ring := blob(t)
		s := outlinedBy(ring)
		at, r := LargestCircle([]Section{s})
		if got := s.Clearance(at); math.Abs(got-r) > 1e-9 {
			t.Fatalf("the circle's room is %v, not %v", got, r)
		}
		lo, hi := ring.Bounds()
		for i := range 60 {
			for j := range 60 {
				p := Point{lo.X + (hi.X-lo.X)*float64(i)/59, lo.Y + (hi.Y-lo.Y)*float64(j)/59}
				if d := s.Clearance(p); d > 1.004*r+1e-6 {
					t.Fatalf("at %v there is room for %.6f, found %.6f", p, d, r)
				}
			}
		}
	})
}

// TestInset holds the area that is left against Steiner's formula for a convex
// outline, A - P·d + k·d², with k = π for a smooth edge and n·tan(π/n) for a
// regular polygon.
func TestInset(t *testing.T) {
	const d = 0.004
	for _, c := range []struct {
		name string
		s    Section
		k    float64
		tol  float64
	}{
		{"round corners", rounded{0.1, 0.07, 0.02}, math.Pi, 1e-9},
		{"sharp corners", rounded{0.1, 0.07, 0}, 4, 1e-9},
		{"circle", ellipse{0.1, 0.1}, math.Pi, 1e-9},
		{"oval", ellipse{0.1, 0.06}, math.Pi, 1e-3},
		{"hexagon", regular{6, 0.1}, 6 * math.Tan(math.Pi/6), 1e-9},
		{"triangle", outlinedBy(Ring{{0, 0}, {0.4, 0}, {0, 0.3}}), 12, 1e-9}, // 1/tan of the half angles: 1 + 2 + 3, each twice
	} {
		got, ok := Inset(c.s, d)
		if !ok {
			t.Errorf("%s: nothing left", c.name)
			continue
		}
		around := float64(c.s.Ring().Perimeter())
		switch s := c.s.(type) {
		case rounded:
			around = 4*(s.x+s.y) - (8-2*math.Pi)*s.r
		case ellipse:
			if s.x == s.y {
				around = 2 * math.Pi * s.x
			}
		}
		k := c.k
		if c.name == "triangle" {
			k = c.k / 2
		}
		want := float64(c.s.Area()) - around*d + k*d*d
		if math.Abs(float64(got.Area())/want-1) > c.tol {
			t.Errorf("%s: %.9f m² left, want %.9f", c.name, float64(got.Area()), want)
		}
		for _, p := range got.Ring() {
			if c.s.Clearance(p) < d-2.5e-5 {
				t.Errorf("%s: %v is only %.3f mm inside", c.name, p, 1000*c.s.Clearance(p))
				break
			}
		}
	}
	if _, ok := Inset(rounded{0.003, 0.07, 0}, d); ok {
		t.Error("more was taken off than there is")
	}
	if _, ok := Inset(ellipse{0.1, 0.01}, d); ok {
		t.Error("an oval was moved in by more than it bends")
	}
}

func TestCommon(t *testing.T) {
	a, b := rounded{0.1, 0.08, 0.01}, rounded{0.09, 0.07, 0.01}
	if got := Common(a, b); got != Section(b) {
		t.Errorf("the narrower section is %v", got)
	}
	// Crossed, they share what is in both: 180 by 140 mm.
	got := Common(rounded{0.1, 0.07, 0}, rounded{0.09, 0.08, 0})
	if math.Abs(float64(got.Area())-0.18*0.14) > 1e-9 {
		t.Errorf("what both share is %v m²", got.Area())
	}
	if Common(outlinedBy(Ring{{1, 1}, {2, 1}, {2, 2}}), rounded{0.1, 0.1, 0}) != nil {
		t.Error("two sections apart share something")
	}
}

func BenchmarkLargestRectangle(b *testing.B) {
	ring := make(Ring, 20000)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(ring)))
		r := 0.3 + 0.02*math.Sin(40*sin)
		ring[i] = Point{1.5 * r * cos, r * sin}
	}
	s := []Section{outlinedBy(ring)}
	for b.Loop() {
		LargestRectangle(s, false)
	}
}
