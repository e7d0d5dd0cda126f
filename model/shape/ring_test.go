package shape

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// near fails the test unless got is within rel of want, relative to want.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*max(math.Abs(want), 1e-300)) {
		t.Errorf("%s: got %.12g, want %.12g", what, got, want)
	}
}

const (
	mm  = unit.Millimetre
	mm2 = 1e-6 // m²
	mm3 = 1e-9 // m³
)

// anyRing draws an outline that does not cross itself: a distance in each of
// some directions.
func anyRing(t *rapid.T, label string) Ring {
	n := rapid.IntRange(3, 40).Draw(t, label+" points")
	r := make(Ring, n)
	for i := range r {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "step")) / float64(n))
		d := rapid.Float64Range(0.05, 0.3).Draw(t, "distance")
		r[i] = Point{d * cos, d * sin}
	}
	return r
}

// TestShoelace is the polygon of the published notes on surveying arithmetic,
// recomputed: 144,700 mm² and its centroid.
func TestShoelace(t *testing.T) {
	r := Ring{{0, 0}, {400, 30}, {520, 260}, {310, 410}, {60, 300}}.Scaled(1e-3, 1e-3)
	near(t, "area", float64(r.Area()), 144700*mm2, 1e-12)
	c := r.Centroid()
	near(t, "centroid x", c.X, 0.249589956, 1e-8)
	near(t, "centroid y", c.Y, 0.187793135, 1e-8)
	if lo, hi := r.Bounds(); lo != (Point{0, 0}) || math.Abs(hi.X-0.52) > 1e-15 || math.Abs(hi.Y-0.41) > 1e-15 {
		t.Errorf("bounds %v %v", lo, hi)
	}
	back := slices.Clone(r)
	slices.Reverse(back)
	if back.Signed() >= 0 || back.CounterClockwise().Signed() <= 0 {
		t.Error("a reversed ring runs clockwise until it is turned round")
	}
	// The same far from the origin keeps its digits.
	near(t, "far away", float64(r.Moved(900, -800).Area()), 144700*mm2, 1e-9)
	near(t, "3-4-5", float64(Ring{{0, 0}, {3, 0}, {3, 4}}.Perimeter()), 12, 1e-15)
}

func TestRingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRing(t, "ring")
		if err := r.Validate(); err != nil {
			t.Skip("too thin") // a draw can touch itself at the middle
		}
		dx, dy := rapid.Float64Range(-2, 2).Draw(t, "dx"), rapid.Float64Range(-2, 2).Draw(t, "dy")
		turn := unit.Angle(rapid.Float64Range(-7, 7).Draw(t, "turn"))
		k := rapid.IntRange(0, len(r)-1).Draw(t, "start")
		m := r.Turned(turn).Moved(dx, dy)
		m = append(slices.Clone(m[k:]), m[:k]...)
		if rapid.Bool().Draw(t, "reverse") {
			slices.Reverse(m)
		}
		near(t, "area", float64(m.Area()), float64(r.Area()), 1e-9)
		near(t, "perimeter", float64(m.Perimeter()), float64(r.Perimeter()), 1e-12)
		c, want := m.Centroid(), Ring{r.Centroid()}.Turned(turn).Moved(dx, dy)[0]
		if c.minus(want).norm() > 1e-9 {
			t.Errorf("centroid %v, want %v", c, want)
		}
		if err := m.Validate(); err != nil {
			t.Errorf("moved and turned: %v", err)
		}
		p := Point{rapid.Float64Range(-0.3, 0.3).Draw(t, "x"), rapid.Float64Range(-0.3, 0.3).Draw(t, "y")}
		q := Ring{p}.Turned(turn).Moved(dx, dy)[0]
		s := outlinedBy(r)
		if d := s.Clearance(p); math.Abs(d) > 1e-9 && m.Contains(q) != r.Contains(p) {
			t.Errorf("contains %v: %v, moved %v", p, r.Contains(p), m.Contains(q))
		} else if (d > 0) != r.Contains(p) {
			t.Errorf("clearance %v at %v, contains %v", d, p, r.Contains(p))
		} else {
			least := math.Inf(1)
			for i := range r {
				least = min(least, squareToSegment(p, r[i], r[r.next(i)]))
			}
			near(t, "distance", math.Abs(d), math.Sqrt(least), 1e-12)
		}
		sum := 0.0
		for _, in := range r.CutAtX(p.X) {
			sum += in.Long()
			if in.Long() > 1e-9 && !r.Contains(Point{p.X, (in.Lo + in.Hi) / 2}) {
				t.Errorf("the middle of %v at x=%v is outside", in, p.X)
			}
		}
		flip := 0.0 // mirrored about the diagonal, cuts at x become cuts at y
		f := make(Ring, len(r))
		for i, p := range r {
			f[i] = Point{p.Y, p.X}
		}
		for _, in := range f.CutAtY(p.X) {
			flip += in.Long()
		}
		if math.Abs(sum-flip) > 1e-12 {
			t.Errorf("cut %v, mirrored %v", sum, flip)
		}
	})
}

func TestQuarterTurnsAreExact(t *testing.T) {
	r := RectangleRing(400*mm, 100*mm, 0)
	if q := r.Turned(90 * unit.Degree); q[0] != (Point{0.05, -0.2}) {
		t.Errorf("turned by 90°: %v", q[0])
	}
	if q := r.Turned(-180 * unit.Degree); q[0] != (Point{0.2, 0.05}) {
		t.Errorf("turned by -180°: %v", q[0])
	}
}

func TestCuts(t *testing.T) {
	u := Ring{{0, 0}, {3, 0}, {3, 2}, {2, 2}, {2, 1}, {1, 1}, {1, 2}, {0, 2}} // a U
	if got := u.CutAtY(1.5); !slices.Equal(got, []Interval{{0, 1}, {2, 3}}) {
		t.Errorf("U at y 1.5: %v", got)
	}
	if got := u.CutAtX(1.5); !slices.Equal(got, []Interval{{0, 1}}) {
		t.Errorf("U at x 1.5: %v", got)
	}
	if got := u.CutAtX(7); got != nil {
		t.Errorf("U at x 7: %v", got)
	}
}

func TestValidateNamesWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		name string
		ring Ring
		want string
	}{
		{"square", RectangleRing(1, 1, 0), ""},
		{"closed twice", Ring{{0, 0}, {0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}}, ""},
		{"clockwise", Ring{{0, 0}, {0, 1}, {1, 1}, {1, 0}}, ""},
		{"point in a straight edge", Ring{{0, 0}, {1, 0}, {2, 0}, {1, 1}}, ""},
		{"empty", nil, "at least three"},
		{"two points", Ring{{0, 0}, {1, 0}, {1, 0}, {0, 0}}, "at least three"},
		{"flat", Ring{{0, 0}, {1, 0}, {2, 0}}, "doubles back"},
		{"spike", Ring{{0, 0}, {2, 0}, {2, 1}, {2, 0}, {2, -1}, {0, -1}}, "doubles back on itself at point 3"},
		{"bow tie", Ring{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, "the line from point 1 to point 2 meets the line from point 3 to point 4"},
		{"bow tie with a repeat", Ring{{0, 0}, {0, 0}, {1, 1}, {1, 0}, {0, 1}}, "the line from point 1 to point 3 meets the line from point 4 to point 5"},
		{"touches", Ring{{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}}, "crosses itself"},
		{"nan", Ring{{0, 0}, {1, math.NaN()}, {1, 1}}, "point 2 is not a finite"},
		{"infinite", Ring{{0, 0}, {1, 0}, {math.Inf(-1), 1}}, "point 3 is not a finite"},
		{"far", Ring{{0, 0}, {400, 0}, {40000, 1}}, "point 3 is more than a kilometre"},
		{"a speck", Ring{{0, 0}, {1e-7, 0}, {0, 1e-7}}, "no area"},
	} {
		err := c.ring.Validate()
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
}

// TestValidateFindsEveryCrossing holds the tree against looking at all pairs.
func TestValidateFindsEveryCrossing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := wavy(rapid.IntRange(8, 200).Draw(t, "n"), 1, 0)
		for range rapid.IntRange(0, 2).Draw(t, "swaps") {
			i, j := rapid.IntRange(0, len(r)-1).Draw(t, "i"), rapid.IntRange(0, len(r)-1).Draw(t, "j")
			r[i], r[j] = r[j], r[i]
		}
		want := false
		for i := range r {
			for j := i + 2; j < len(r); j++ {
				want = want || r.next(j) != i && meet(r[i], r[i+1], r[j], r[r.next(j)])
			}
		}
		_, _, got := r.crossing()
		if got != want || want && r.Validate() == nil {
			t.Errorf("crossing %v, want %v", got, want)
		}
	})
}

func TestSimplified(t *testing.T) {
	square := RectangleRing(0.4, 0.2, 0).dense(1200)
	if got := square.Simplified(0.01 * mm); len(got) != 4 {
		t.Errorf("a square of many points keeps %d", len(got))
	}
	if got := Ring(nil).Simplified(1); len(got) != 0 {
		t.Errorf("nothing became %v", got)
	}
	if got := square.Simplified(10); len(got) != len(square) {
		t.Errorf("a tolerance over the size left %d points", len(got))
	}
	rapid.Check(t, func(t *rapid.T) {
		r := wavy(rapid.IntRange(4, 2000).Draw(t, "n"), 1, 2)
		tol := rapid.Float64Range(1e-5, 5e-3).Draw(t, "tol")
		s := outlinedBy(r.Simplified(unit.Length(tol)))
		for _, p := range r {
			if d := s.Clearance(p); math.Abs(d) > tol*(1+1e-9) {
				t.Fatalf("%v is %v off, tolerance %v", p, d, tol)
			}
		}
	})
}

func TestOutlines(t *testing.T) {
	for _, c := range []struct {
		name string
		ring Ring
		area float64 // exact, m²
		miss float64 // what the chords may cut off: perimeter times chord error
	}{
		{"sharp", RectangleRing(0.28, 0.12, 0), 0.0336, 0},
		{"rounded", RectangleRing(0.28, 0.12, 0.025), 33063.4954 * mm2, 0.16 * chordError},
		{"stadium", RectangleRing(0.28, 0.12, 0.06), 0.16*0.12 + math.Pi*0.0036, 0.38 * chordError},
		{"disc of a rectangle", RectangleRing(0.1, 0.1, 0.07), math.Pi * 0.0025, 0.32 * chordError},
		{"ellipse", EllipseRing(0.12, 0.08), 7539.8224 * mm2, 0.32 * chordError},
		{"hexagon", PolygonRing(6, 0.32), 88681.00135 * mm2, 1e-13},
	} {
		if err := c.ring.Validate(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		if got := c.ring.Signed(); got > c.area+1e-10 || got < c.area-c.miss-1e-10 {
			t.Errorf("%s: area %v, want %v less at most %v", c.name, got, c.area, c.miss)
		}
	}
	for n := 3; n <= 24; n++ {
		r := PolygonRing(n, FlatsFromCorners(n, 2))
		near(t, "corner", r[0].norm(), 1, 1e-12)
		if r[0].Y != r[1].Y && math.Abs(r[0].Y-r[1].Y) > 1e-15 || r[0].Y > 0 || r[0].X >= r[1].X {
			t.Errorf("%d sides: the bottom runs from %v to %v", n, r[0], r[1])
		}
	}
}

func TestPointJSON(t *testing.T) {
	text, err := json.Marshal(Ring{{0.1, -2e-7}, {1e21, 0}})
	if err != nil || string(text) != "[[0.1,-2e-07],[1e+21,0]]" {
		t.Errorf("%s %v", text, err)
	}
	if _, err := json.Marshal(Point{math.NaN(), 0}); err == nil {
		t.Error("a point that is not a number was written")
	}
	var r Ring
	if err := json.Unmarshal([]byte(" [ [ 1 , 2.5e-1 ] , [-0,3] ] "), &r); err != nil || !slices.Equal(r, Ring{{1, 0.25}, {0, 3}}) {
		t.Errorf("%v %v", r, err)
	}
	for _, bad := range []string{
		`[]`, `[1]`, `[1,2,3]`, `[1,null]`, `null`, `["1",2]`, `{"X":1,"Y":2}`, `[1,1e999]`, `[[1],2]`, `[1,2`, `1,2`, `[0x1,2]`, `[.5,2]`, `[+1,2]`, `[Inf,2]`, `[1,]`, `[1 2,3]`, ``,
	} {
		p := Point{7, 7}
		if err := p.UnmarshalJSON([]byte(bad)); err == nil || p != (Point{7, 7}) {
			t.Errorf("%q was read as %v", bad, p)
		}
	}
}

func FuzzRing(f *testing.F) {
	for _, s := range []string{"[[0,0],[1,0],[0,1]]", "[]", "null", "[[1e308,-1e308],[1e-320,0],[0,1]]", "[[0,0],[1,1],[1,0],[0,1]]", "[[0,0],[0,0],[0,0]]"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var r Ring
		if json.Unmarshal(text, &r) != nil || len(r) > 500 {
			return
		}
		again, err := json.Marshal(r)
		if err != nil {
			t.Fatalf("read but not written: %v", err)
		}
		var q Ring
		if err := json.Unmarshal(again, &q); err != nil || !slices.Equal(q, r) {
			t.Fatalf("%s came back as %v, %v", again, q, err)
		}
		valid := r.Validate() == nil
		// Nothing may panic or hang, whatever the ring.
		r.Centroid()
		r.Simplified(mm)
		b, u := Blend(r, PolygonRing(5, 1))
		MixedArea(b, u)
		Overlaps(r, b)
		c, err := NewOutline(r, true, 0.01, 0.05)
		if err == nil && !valid {
			t.Fatal("a cavity of an outline that is not valid")
		}
		if err == nil {
			c.LevelFor(c.VolumeBelow(0.02))
			SitsAt(c, r, r, 0, 0.02)
		}
		if valid && !(r.Area() > 0) {
			t.Fatal("a valid outline without area")
		}
	})
}
