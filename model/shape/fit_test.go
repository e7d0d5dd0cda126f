package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestFitOfATracedBlank: a mold 400 × 150 at the rim, 40 deep, tapers by 3.4
// in all to the floor. A blank traced at the rim, 25 thick, is 3.4 too long on
// the floor: 1.7 beyond each wall, less by 1.7/40 for each mm higher.
func TestFitOfATracedBlank(t *testing.T) {
	floor, rim := RectSize{396.6 * mm, 146.6 * mm, 0}, RectSize{400 * mm, 150 * mm, 0}
	angle := unit.Angle(math.Atan(1.7 / 40))
	blank := RectangleRing(400*mm, 100*mm, 0)
	for name, c := range map[string]Cavity{
		"rectangle": must(NewRectangle(floor, rim, 40*mm)),
		"outline":   must(NewOutline(RectangleRing(400*mm, 150*mm, 0), true, angle, 40*mm)),
		"sizes":     must(NewOutlineSizes(RectangleRing(400*mm, 150*mm, 0), true, 396.6/400, 146.6/150, 40*mm)),
	} {
		at := Fit(c, blank, blank, 0, 25*mm, 6)
		if len(at) != 6 {
			t.Fatalf("%s: %d heights", name, len(at))
		}
		for _, m := range at {
			over := 1.7e-3 * (1 - m.Z/0.040)
			if math.Abs(m.Over-over) > 1e-12 || math.Abs(m.Gap+over) > 1e-12 || math.Abs(m.LongBy-2*over) > 1e-12 {
				t.Errorf("%s at %v: %+v, want %v over", name, m.Z, m, over)
			}
			if math.Abs(math.Abs(m.At.X)-0.2) > 1e-12 {
				t.Errorf("%s: worst at %v", name, m.At)
			}
		}
		near(t, "wide by", at[0].WideBy, 0.1-0.1466, 1e-12)
		near(t, "highest", at[5].Z, 0.025, 1e-12)
		if z, ok := SitsAt(c, blank, blank, 0, 25*mm); !ok || math.Abs(float64(z)-0.040) > 1e-6 {
			t.Errorf("%s: the blank sits at %v, %v, want the rim", name, z, ok)
		}
		// A blank of 398 clears where the walls are 398 apart: 1.4/3.4 of the way up.
		small := RectangleRing(398*mm, 100*mm, 0)
		if z, ok := SitsAt(c, small, small, 0, 25*mm); !ok || math.Abs(float64(z)-0.040*1.4/3.4) > 1e-6 {
			t.Errorf("%s: the short blank sits at %v, %v", name, z, ok)
		}
		// Bevelled: 396.6 below clears the floor, the upper face 404 at 25 does not.
		b, u := RectangleRing(396*mm, 100*mm, 0), RectangleRing(404*mm, 100*mm, 0)
		if m := Fit(c, b, u, 0, 25*mm, 2); m[0].Over > 0 || math.Abs(m[1].Over-(2-1.7*25/40+1.7)*1e-3) > 1e-12 {
			t.Errorf("%s: bevelled %+v", name, m)
		}
		big := RectangleRing(401*mm, 100*mm, 0)
		if z, ok := SitsAt(c, big, big, 0, 25*mm); ok || z != 40*mm {
			t.Errorf("%s: the long blank sits at %v, %v", name, z, ok)
		}
		short := RectangleRing(390*mm, 100*mm, 0)
		if z, ok := SitsAt(c, short, short, 3*mm, 25*mm); !ok || z != 3*mm {
			t.Errorf("%s: the loose blank sits at %v, %v", name, z, ok)
		}
		// Pushed along by 4 mm it goes through one wall, though it is not too long.
		if m := Fit(c, short.Moved(0.004, 0), short.Moved(0.004, 0), 0, 25*mm, 1)[0]; math.Abs(m.Over-0.0007) > 1e-12 || m.LongBy > 0 || m.At.X < 0 {
			t.Errorf("%s: pushed %+v", name, m)
		}
		if m := Fit(c, blank, blank, 41*mm, 60*mm, 3); m != nil {
			t.Errorf("%s: above the rim %v", name, m)
		}
		if m := Fit(c, blank, blank, 20*mm, 60*mm, 3); math.Abs(m[2].Z-0.040) > 1e-15 {
			t.Errorf("%s: highest at %v, want the rim", name, m[2].Z)
		}
	}
}

// TestFitSeesAPointOfTheWall: a free outline can reach into the middle of a
// long edge of a piece all of whose corners are inside.
func TestFitSeesAPointOfTheWall(t *testing.T) {
	wall := Ring{{-0.2, -0.1}, {0.2, -0.1}, {0.2, 0.1}, {0.01, 0.1}, {0, 0.04}, {-0.01, 0.1}, {-0.2, 0.1}}
	c := must(NewOutline(wall, true, 0, 0.04))
	piece := RectangleRing(0.36, 0.1, 0)
	m := Fit(c, piece, piece, 0, 0.02, 1)[0]
	near(t, "over", m.Over, 0.01, 1e-12)
	if m.At != (Point{0, 0.04}) {
		t.Errorf("at %v", m.At)
	}
	thin := RectangleRing(0.36, 0.06, 0)
	near(t, "gap", Fit(c, thin, thin, 0, 0.02, 1)[0].Gap, 0.01, 1e-12)
}

// TestFitOfManyPoints holds the search against looking at every pair.
func TestFitOfManyPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(20, 900).Draw(t, "wall points")
		wall := wavy(n, 1, 0)
		k := rapid.IntRange(3, 900).Draw(t, "piece points")
		scale := rapid.Float64Range(0.3, 1.1).Draw(t, "scale")
		piece := wavy(max(k, 8), scale, rapid.Float64Range(0, 6).Draw(t, "phase"))
		c, err := NewOutlineSizes(wall, true, 0.95, 0.95, 0.04)
		if err != nil {
			t.Skip(err)
		}
		z := unit.Length(rapid.Float64Range(0, 0.04).Draw(t, "z"))
		got := Fit(c, piece, piece, z, z, 1)[0].Gap
		ring := c.Section(z).Ring()
		least := math.Inf(1)
		for _, p := range piece {
			least = min(least, slowly(ring, p))
		}
		for _, p := range ring {
			least = min(least, -slowly(piece, p))
		}
		if math.Abs(got-least) > 2.1*fine || len(piece) <= coarse && n <= coarse && math.Abs(got-least) > 1e-12 {
			t.Errorf("gap %v, by all pairs %v", got, least)
		}
	})
}

// slowly gives the clearance by looking at every edge.
func slowly(r Ring, p Point) float64 {
	d := math.Inf(1)
	for i := range r {
		d = min(d, squareToSegment(p, r[i], r[r.next(i)]))
	}
	if r.Contains(p) {
		return math.Sqrt(d)
	}
	return -math.Sqrt(d)
}

// TestSitsAtIsTheLowest: just below, the piece does not clear.
func TestSitsAtIsTheLowest(t *testing.T) {
	c := must(NewOval(0.36, 0.2, 0.42, 0.26, 0.06))
	rapid.Check(t, func(t *rapid.T) {
		piece := wavy(rapid.IntRange(20, 200).Draw(t, "n"), rapid.Float64Range(0.7, 0.98).Draw(t, "scale"), 0)
		z, ok := SitsAt(c, piece, piece, 0, 0.02)
		if !ok || z == 0 {
			return
		}
		if m := Fit(c, piece, piece, z, z+0.02, 3); m[0].Over > 1.1e-9 || m[1].Over > 1.1e-9 || m[2].Over > 1.1e-9 {
			t.Errorf("at %v it does not clear: %+v", z, m)
		}
		if m := Fit(c, piece, piece, z-1e-6, z+0.02, 1); m[0].Over <= 0 {
			t.Errorf("%v is not the lowest", z)
		}
	})
}

func TestOverlaps(t *testing.T) {
	board := RectangleRing(0.4, 0.1, 0)
	tilted := board.Turned(30 * unit.Degree)
	along := Point{math.Cos(math.Pi / 6), math.Sin(math.Pi / 6)}
	for _, c := range []struct {
		name string
		a, b Ring
		want bool
	}{
		{"itself", board, board, true},
		{"apart", board, board.Moved(0, 0.2), false},
		{"flush side by side", board, board.Moved(0, 0.1), false},
		{"flush end to end", board, board.Moved(0.4, 0), false},
		{"flush and tilted", tilted, tilted.Moved(0.4*along.X, 0.4*along.Y), false},
		{"tilted, 1 mm into each other", tilted, tilted.Moved(0.399*along.X, 0.399*along.Y), true},
		{"in line", board, board.Moved(0.3, 0), true},
		{"a cross", board, board.Turned(90 * unit.Degree), true},
		{"a cross near the ends", board, RectangleRing(0.02, 0.4, 0).Moved(0.15, 0.1), true},
		{"inside", board, RectangleRing(0.01, 0.01, 0).Moved(0.1, 0), true},
		{"inside, from a corner", board, RectangleRing(0.2, 0.05, 0).Moved(0.1, 0.025), true},
		{"touching at a corner", board, RectangleRing(0.1, 0.1, 0).Moved(0.25, 0.1), false},
		{"in the arm of an L", Ring{{0, 0}, {0.4, 0}, {0.4, 0.1}, {0.1, 0.1}, {0.1, 0.3}, {0, 0.3}}, RectangleRing(0.1, 0.1, 0).Moved(0.2, 0.2), false},
		{"filling the arm of an L", Ring{{0, 0}, {0.4, 0}, {0.4, 0.1}, {0.1, 0.1}, {0.1, 0.3}, {0, 0.3}}, RectangleRing(0.3, 0.2, 0).Moved(0.25, 0.2), false},
		{"nothing", board, nil, false},
		{"wandering, nested", wavy(3000, 1, 0), wavy(3000, 0.5, 0), true},
		{"wandering, apart", wavy(3000, 1, 0), wavy(3000, 1, 0).Moved(0.5, 0), false},
	} {
		if got := Overlaps(c.a, c.b); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
		if got := Overlaps(c.b, c.a); got != c.want {
			t.Errorf("%s, the other way: %v", c.name, got)
		}
	}
}

// TestOverlapIsCommonArea holds the answer against cuts at many heights.
func TestOverlapIsCommonArea(t *testing.T) {
	seen, clear := false, false
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyRing(t, "a"), anyRing(t, "b")
		if a.Validate() != nil || b.Validate() != nil {
			t.Skip("touches itself")
		}
		b = b.Moved(rapid.Float64Range(-0.7, 0.7).Draw(t, "dx"), rapid.Float64Range(-0.7, 0.7).Draw(t, "dy"))
		common := 0.0
		for k := range 400 {
			y := lerp(-1.1, 1.1, (float64(k)+0.37)/400)
			for _, u := range a.CutAtY(y) {
				for _, v := range b.CutAtY(y) {
					common = max(common, min(u.Hi, v.Hi)-max(u.Lo, v.Lo))
				}
			}
		}
		got := Overlaps(a, b)
		if common > 1e-3 && !got {
			t.Errorf("%v in common, not seen", common)
		}
		seen = seen || got && common > 1e-3
		clear = clear || !got
	})
	if !seen || !clear {
		t.Error("the draws were all alike")
	}
}
