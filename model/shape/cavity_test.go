package shape

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

func must(c Cavity, err error) Cavity {
	if err != nil {
		panic(err)
	}
	return c
}

// TestReferenceVolumes holds full cavities against worked values. Where the
// source gives few digits the tolerance says so, and the closed form written
// out beside it is held to 1e-9.
func TestReferenceVolumes(t *testing.T) {
	tan2 := math.Tan(2 * math.Pi / 180)
	tray := RectSize{600 * mm, 200 * mm, 0}
	trayFloor := RectSize{tray.Length - unit.Length(0.08*tan2), tray.Width - unit.Length(0.08*tan2), 0}
	for _, c := range []struct {
		name   string
		cavity Cavity
		quoted float64 // mm³, from the source
		rel    float64
		exact  float64 // mm³, closed form
	}{
		// Plan areas times 1 mm: L·W-(4-π)r², and n·r²·tan(π/n).
		{"rounded rectangle 280 × 120 r 25 (worked in the maker's needs)",
			must(NewRectangle(RectSize{280 * mm, 120 * mm, 25 * mm}, RectSize{280 * mm, 120 * mm, 25 * mm}, mm)),
			33063.5, 2e-7, 280*120 - (4-math.Pi)*25*25},
		{"hexagon 320 across flats", must(NewPolygon(6, 320*mm, 320*mm, mm)), 88681.0, 1e-7, 2 * math.Sqrt(3) * 160 * 160},
		{"hexagon 369.5 across corners",
			must(NewPolygon(6, FlatsFromCorners(6, 369.5*mm), FlatsFromCorners(6, 369.5*mm), mm)), 88679.0, 1e-5, 1.5 * math.Sqrt(3) * 369.5 * 369.5 / 4},
		{"ellipse of half axes 60 and 40", must(NewOval(120*mm, 80*mm, 120*mm, 80*mm, mm)), 7539.8224, 1e-8, math.Pi * 2400},
		{"polygon by shoelace",
			must(NewOutline(Ring{{0, 0}, {400, 30}, {520, 260}, {310, 410}, {60, 300}}.Scaled(1e-3, 1e-3), true, 0, mm)), 144700, 1e-9, 144700},
		// Tapering ones: prismatoid h/6·(A0+4Am+A1).
		{"draft tray 200 × 150 r 20 to 208 × 158 r 24, 30 deep",
			must(NewRectangle(RectSize{200 * mm, 150 * mm, 20 * mm}, RectSize{208 * mm, 158 * mm, 24 * mm}, 30*mm)), 930.1e3, 1e-4,
			30.0 / 6 * (200*150 + 4*204*154 + 208*158 - (4-math.Pi)*(400+4*484+576))},
		{"300 × 300 to 280 × 280, 50 deep (pyramid frustum)",
			must(NewRectangle(RectSize{280 * mm, 280 * mm, 0}, RectSize{300 * mm, 300 * mm, 0}, 50*mm)), 4206666.667, 1e-9,
			50.0 / 3 * (300*300 + 280*280 + 300*280)},
		{"tray 600 × 200 with 2° draft, 40 deep", must(NewRectangle(trayFloor, tray, 40*mm)), 4755405.48, 2e-9, 0},
		{"the same as an outline", must(NewOutline(RectangleRing(0.6, 0.2, 0), true, 2*unit.Degree, 40*mm)), 4755405.48, 2e-9, 0},
		{"cone frustum r 100 to 80, 60 deep", must(NewOval(160*mm, 160*mm, 200*mm, 200*mm, 60*mm)), 1533097.215, 1e-9,
			math.Pi * 60 / 3 * (100*100 + 100*80 + 80*80)},
	} {
		got := float64(c.cavity.VolumeBelow(c.cavity.Depth())) / mm3
		near(t, c.name+", quoted", got, c.quoted, c.rel)
		if c.exact != 0 {
			near(t, c.name+", closed form", got, c.exact, 1e-9)
		}
	}
}

// TestDraftTaper is the taper on each side at 50 mm depth for common drafts
// (trigonometry): 0.4363, 0.8728, 1.7460, 2.6204, 4.3744 mm.
func TestDraftTaper(t *testing.T) {
	for deg, want := range map[float64]float64{0.5: 0.4363, 1: 0.8728, 2: 1.7460, 3: 2.6204, 5: 4.3744} {
		draft := unit.Angle(deg) * unit.Degree
		c := must(NewOutline(RectangleRing(0.4, 0.3, 0), true, draft, 50*mm))
		_, hi := c.Section(0).Bounds()
		near(t, "taper from the rim", (0.2-hi.X)*1000, want, 1e-4)
		c = must(NewOutline(RectangleRing(0.4, 0.3, 0), false, draft, 50*mm))
		_, hi = c.Section(c.Depth()).Bounds()
		near(t, "taper from the floor", (hi.Y-0.15)*1000, want, 1e-4)
	}
}

// anyCavity draws one of each kind.
func anyCavity(t *rapid.T) Cavity {
	size := func(label string) unit.Length {
		return unit.Length(rapid.Float64Range(0.05, 0.6).Draw(t, label))
	}
	depth := unit.Length(rapid.Float64Range(0.005, 0.12).Draw(t, "depth"))
	taper := func(l unit.Length) unit.Length { return l.Times(rapid.Float64Range(0.8, 1.1).Draw(t, "taper")) }
	l, w := size("length"), size("width")
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0:
		l2, w2 := taper(l), taper(w)
		c := unit.Length(rapid.Float64Range(0, 0.5).Draw(t, "corner"))
		return must(NewRectangle(RectSize{l2, w2, min(l2, w2).Times(float64(c))}, RectSize{l, w, min(l, w).Times(float64(c) / 2)}, depth))
	case 1:
		return must(NewOval(taper(l), taper(w), l, w, depth))
	case 2:
		return must(NewPolygon(rapid.IntRange(3, 24).Draw(t, "sides"), taper(l), l, depth))
	case 3:
		r := anyRing(t, "outline")
		draft := unit.Angle(rapid.Float64Range(-5, 5).Draw(t, "draft")) * unit.Degree
		c, err := NewOutline(r, rapid.Bool().Draw(t, "rim"), draft, depth)
		if err != nil {
			t.Skip(err)
		}
		return c
	}
	c, err := NewOutlineSizes(anyRing(t, "outline"), rapid.Bool().Draw(t, "rim"),
		rapid.Float64Range(0.8, 1.2).Draw(t, "sx"), rapid.Float64Range(0.8, 1.2).Draw(t, "sy"), depth)
	if err != nil {
		t.Skip(err)
	}
	return c
}

func TestCavityLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyCavity(t)
		d := float64(c.Depth())
		y := rapid.Float64Range(0, d).Draw(t, "y")
		z := rapid.Float64Range(y, d).Draw(t, "z")
		lo, hi := float64(c.VolumeBelow(unit.Length(y))), float64(c.VolumeBelow(unit.Length(z)))
		if lo > hi {
			t.Errorf("volume falls from %v to %v", lo, hi)
		}
		area := func(z float64) float64 { return float64(c.AreaAt(unit.Length(z))) }
		full := float64(c.VolumeBelow(c.Depth()))
		if got := Integrate(area, y, z, 1e-13*full); math.Abs(got-(hi-lo)) > 1e-10*full {
			t.Errorf("between %v and %v: %v, by quadrature %v", y, z, hi-lo, got)
		}
		if got := float64(c.LevelFor(unit.Volume(hi))); math.Abs(got-z) > 1e-9*d {
			t.Errorf("level for the volume below %v: %v", z, got)
		}
		s := c.Section(unit.Length(z))
		near(t, "area of the section", float64(s.Area()), area(z), 1e-9)
		ring := s.Ring()
		if got, want := ring.Signed(), area(z); got > want*(1+1e-9) || got < want-float64(ring.Perimeter())*chordError-1e-9*want {
			t.Errorf("ring of %v, section of %v", got, want)
		}
		p := Point{rapid.Float64Range(-0.4, 0.4).Draw(t, "px"), rapid.Float64Range(-0.4, 0.4).Draw(t, "py")}
		gap := s.Clearance(p)
		if chord := outlinedBy(ring).Clearance(p); math.Abs(gap-chord) > chordError*1.001 {
			t.Errorf("clearance %v, to the ring %v", gap, chord)
		}
		for _, out := range []float64{-1, d + 1} {
			in := max(0, min(out, d))
			if c.AreaAt(unit.Length(out)) != c.AreaAt(unit.Length(in)) || c.VolumeBelow(unit.Length(out)) != c.VolumeBelow(unit.Length(in)) {
				t.Errorf("%v is not taken for %v", out, in)
			}
		}
	})
}

func TestLevelForEnds(t *testing.T) {
	c := must(NewOval(0.1, 0.1, 0.2, 0.2, 0.05))
	for v, want := range map[unit.Volume]unit.Length{-1: 0, 0: 0, 1: 0.05, unit.Volume(math.Inf(1)): 0.05} {
		if got := c.LevelFor(v); got != want {
			t.Errorf("level for %v: %v, want %v", v, got, want)
		}
	}
}

// TestMitre compares an L with a draft with A - P·t + K·t² by hand: five
// corners turn left and one turns right, so that K = 5 - 1 = 4.
func TestMitre(t *testing.T) {
	l := Ring{{0, 0}, {0.4, 0}, {0.4, 0.1}, {0.1, 0.1}, {0.1, 0.3}, {0, 0.3}}
	c := must(NewOutline(l, true, unit.Angle(math.Atan(0.1)), 0.05))
	in := 0.005
	near(t, "floor", float64(c.AreaAt(0)), 0.06-1.4*in+4*in*in, 1e-12)
	want := Ring{{in, in}, {0.4 - in, in}, {0.4 - in, 0.1 - in}, {0.1 - in, 0.1 - in}, {0.1 - in, 0.3 - in}, {in, 0.3 - in}}
	for i, p := range c.Section(0).Ring() {
		if p.minus(want[i]).norm() > 1e-15 {
			t.Errorf("point %d at %v, want %v", i+1, p, want[i])
		}
	}
}

func TestCavitiesThatCannotBe(t *testing.T) {
	ok := RectSize{0.3, 0.2, 0.01}
	square := RectangleRing(0.1, 0.1, 0)
	// Two halls joined by a neck 10 mm wide: no edge vanishes, but the walls
	// of the neck meet.
	hall := Ring{{0, 0}, {0.1, 0}, {0.1, 0.045}, {0.2, 0.045}, {0.2, 0}, {0.3, 0}, {0.3, 0.1}, {0.2, 0.1}, {0.2, 0.055}, {0.1, 0.055}, {0.1, 0.1}, {0, 0.1}}
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"no depth", second(NewRectangle(ok, ok, 0)), "depth must be more than zero"},
		{"no width", second(NewRectangle(RectSize{0.3, 0, 0}, ok, 0.05)), "width at the floor must be more than zero"},
		{"corner", second(NewRectangle(ok, RectSize{0.3, 0.2, 0.12}, 0.05)), "corner radius at the rim"},
		{"corner by a hair", second(NewRectangle(ok, RectSize{0.3, 0.2, 0.101}, 0.05)), ""},
		{"negative corner", second(NewRectangle(RectSize{0.3, 0.2, -1}, ok, 0.05)), "corner radius at the floor"},
		{"not a number", second(NewOval(0.1, 0.1, 0.1, unit.Length(math.NaN()), 0.05)), "width at the rim is not a finite"},
		{"two sides", second(NewPolygon(2, 0.1, 0.1, 0.05)), "sides must be 3 to 24"},
		{"rim", second(NewPolygon(5, 0.1, -0.1, 0.05)), "across flats at the rim"},
		{"bow tie", second(NewOutline(Ring{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, true, 0, 0.05)), "crosses itself"},
		{"too steep", second(NewOutline(square, true, 2, 0.05)), "draft"},
		{"shrunk", second(NewOutline(square, true, 45*unit.Degree, 0.06)), "shrink to nothing 50.0 mm from the rim"},
		{"shrunk upward", second(NewOutline(square, false, -45*unit.Degree, 0.06)), "shrink to nothing 50.0 mm from the floor"},
		{"neck", second(NewOutline(hall, true, 10*unit.Degree, 0.05)), "run into each other"},
		{"scale", second(NewOutlineSizes(square, true, 0, 1, 0.05)), "sizes at the other end"},
	} {
		if c.want == "" && c.err != nil || c.want != "" && (c.err == nil || !strings.Contains(c.err.Error(), c.want)) {
			t.Errorf("%s: %v, want %q", c.name, c.err, c.want)
		}
	}
}

func second(_ Cavity, err error) error { return err }

// TestClearances are distances worked by hand.
func TestClearances(t *testing.T) {
	for _, c := range []struct {
		name string
		s    Section
		p    Point
		want float64
	}{
		{"rectangle, middle", rounded{0.2, 0.1, 0.03}, Point{}, 0.1},
		{"rectangle, near a side", rounded{0.2, 0.1, 0.03}, Point{0.19, -0.02}, 0.01},
		{"rectangle, in a corner", rounded{0.2, 0.1, 0.05}, Point{0.18, 0.09}, 0.05 - 0.05}, // centre (150, 50), 3-4-5
		{"rectangle, off a sharp corner", rounded{0.2, 0.1, 0}, Point{-0.23, -0.14}, -0.05},
		{"circle", ellipse{0.1, 0.1}, Point{0.03, 0.04}, 0.05},
		{"ellipse, centre", ellipse{0.06, 0.04}, Point{}, 0.04},
		{"ellipse, end", ellipse{0.06, 0.04}, Point{0.07, 0}, -0.01},
		{"ellipse, side", ellipse{0.06, 0.04}, Point{0, -0.05}, -0.01},
		{"ellipse, upright", ellipse{0.04, 0.06}, Point{0, 0.055}, 0.005},
		{"hexagon, middle", regular{6, 0.16}, Point{}, 0.16},
		{"hexagon, below", regular{6, 0.16}, Point{0.01, -0.2}, -0.04},
		{"hexagon, off a corner", regular{6, 0.16}, Point{0.16/math.Cos(math.Pi/6) + 0.01, 0}, -0.01},
	} {
		if got := c.s.Clearance(c.p); math.Abs(got-c.want) > 1e-15 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestEllipseClearance builds points on a known normal of the ellipse, so that
// the distance is known beforehand.
func TestEllipseClearance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := ellipse{rapid.Float64Range(0.01, 0.5).Draw(t, "x"), rapid.Float64Range(0.01, 0.5).Draw(t, "y")}
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle"))
		n := Point{e.y * cos, e.x * sin}
		n = Point{n.X / n.norm(), n.Y / n.norm()}
		// Inward as far as the smallest radius of curvature, the foot is the nearest point.
		r := min(e.x, e.y) * min(e.x, e.y) / max(e.x, e.y)
		d := rapid.Float64Range(-0.3, r).Draw(t, "d")
		p := Point{e.x*cos - d*n.X, e.y*sin - d*n.Y}
		if got := e.Clearance(p); math.Abs(got-d) > 1e-9 {
			t.Errorf("%v in %v: %v, want %v", p, e, got, d)
		}
	})
}
