package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// drawRegion draws a region of up to four figures. On the coarse grid that
// their corners lie on, edges are often shared, corners touch and outlines
// cross in points that they have in common.
func drawRegion(t *rapid.T, name string) Region {
	var rings []Ring
	for range rapid.IntRange(1, 4).Draw(t, name+" rings") {
		var r Ring
		for range rapid.IntRange(3, 12).Draw(t, name+" points") {
			r = append(r, Point{float64(rapid.IntRange(0, 8).Draw(t, "x")) / 10, float64(rapid.IntRange(0, 8).Draw(t, "y")) / 10})
		}
		rings = append(rings, r)
	}
	return NewRegion(rings...)
}

// drawLoose draws a region that shares nothing with another but by chance.
func drawLoose(t *rapid.T, name string) Region {
	a := unit.Angle(rapid.Float64Range(0, 7).Draw(t, name+" turn"))
	r := drawRegion(t, name).Turned(a).Moved(rapid.Float64Range(-.3, .3).Draw(t, name+" dx"), rapid.Float64Range(-.3, .3).Draw(t, name+" dy"))
	return NewRegion(r...) // turned, what is one step of the grid wide may cross itself
}

// sameArea holds two areas together to the grid's own fineness.
func sameArea(t *rapid.T, what string, got, want unit.Area) {
	t.Helper()
	if math.Abs(float64(got-want)) > 3e-11 {
		t.Fatalf("%s: %.15g, want %.15g", what, float64(got), float64(want))
	}
}

func sound(t *rapid.T, what string, r Region) {
	t.Helper()
	if err := r.Validate(); err != nil {
		t.Fatalf("%s: %v\n%v", what, err, r)
	}
}

// drawSlivers draws a few triangles or wedges that are up to a metre long and
// between a micrometre and a nanometre wide, near each other.
func drawSlivers(t *rapid.T, name string) Region {
	var rings []Ring
	for range rapid.IntRange(1, 3).Draw(t, name+" slivers") {
		long := rapid.Float64Range(0.01, 1).Draw(t, name+" long")
		wide := math.Pow(10, rapid.Float64Range(-9, -6).Draw(t, name+" width"))
		at := rapid.Float64Range(0, 1).Draw(t, name+" tip") * long
		r := Ring{{}, {X: long}, {X: at, Y: wide}}
		if rapid.Bool().Draw(t, name+" wedge") {
			r = Ring{{}, {X: long, Y: -wide / 2}, {X: long, Y: wide / 2}, {Y: wide * rapid.Float64Range(0, 0.3).Draw(t, name+" blunt")}}
		}
		// Along each other but for nothing, or for an angle of their own width, or
		// across.
		turn := rapid.SampledFrom([]float64{0, wide / long, 2e-7, 0.3, math.Pi / 2}).Draw(t, name+" turn")
		dx, dy := rapid.Float64Range(-0.5, 0.5).Draw(t, name+" dx"), rapid.Float64Range(-1, 1).Draw(t, name+" dy")*1e-6
		rings = append(rings, r.Turned(unit.Angle(turn)).Moved(dx, dy))
	}
	return NewRegion(rings...)
}

// thinArea holds two areas of slivers together: the grid's step of 1e-12 m along
// some metres of edges, a tenth and less of what the thinnest have.
func thinArea(t *rapid.T, what string, got, want unit.Area) {
	t.Helper()
	if math.Abs(float64(got-want)) > 5e-12 {
		t.Fatalf("%s: %.15g, want %.15g", what, float64(got), float64(want))
	}
}

// TestSliverLaws: what is very thin obeys the same laws, to the area that the
// grid's step takes along its edges.
func TestSliverLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawSlivers(t, "a"), drawSlivers(t, "b")
		and, or, less, rest := a.And(b), a.Or(b), a.Without(b), b.Without(a)
		for name, r := range map[string]Region{"a": a, "b": b, "and": and, "or": or, "without": less, "the other without": rest} {
			sound(t, name, r)
		}
		thinArea(t, "inclusion and exclusion", and.Area()+or.Area(), a.Area()+b.Area())
		thinArea(t, "difference", less.Area(), a.Area()-and.Area())
		thinArea(t, "in one only", less.Area()+rest.Area()+and.Area(), or.Area())
		thinArea(t, "and, the other way", b.And(a).Area(), and.Area())
		thinArea(t, "a and a", a.And(a).Area(), a.Area())
		if n := len(a.Without(a)); n != 0 {
			t.Fatalf("a without itself has %d rings", n)
		}
		// Against a board they are cut as anything is.
		board := Region{RectangleRing(0.3, 0.2, 0)}
		in, out := a.And(board), a.Without(board)
		sound(t, "in the board", in)
		sound(t, "beside the board", out)
		sound(t, "the board without them", board.Without(a))
		thinArea(t, "in the board and beside it", in.Area()+out.Area(), a.Area())
		thinArea(t, "the board without them", board.Without(a).Area(), board.Area()-in.Area())
	})
}

func TestRegionLaws(t *testing.T) {
	for _, draw := range []func(*rapid.T, string) Region{drawRegion, drawLoose} {
		rapid.Check(t, func(t *rapid.T) {
			a, b := draw(t, "a"), draw(t, "b")
			and, or, less := a.And(b), a.Or(b), a.Without(b)
			for _, r := range []struct {
				name   string
				region Region
			}{{"a", a}, {"b", b}, {"and", and}, {"or", or}, {"without", less}} {
				sound(t, r.name, r.region)
			}
			sameArea(t, "inclusion and exclusion", and.Area()+or.Area(), a.Area()+b.Area())
			sameArea(t, "difference", less.Area(), a.Area()-and.Area())
			sameArea(t, "and, the other way", b.And(a).Area(), and.Area())
			sameArea(t, "or, the other way", b.Or(a).Area(), or.Area())
			sameArea(t, "a and a", a.And(a).Area(), a.Area())
			sameArea(t, "a or a", a.Or(a).Area(), a.Area())
			if n := len(a.Without(a)); n != 0 {
				t.Fatalf("a without itself has %d rings", n)
			}
			sameArea(t, "the parts together", less.Or(and).Area(), a.Area())
			if n := len(less.And(b)); n != 0 && less.And(b).Area() > 3e-11 {
				t.Fatalf("what is not in b lies in b: %v", less.And(b))
			}
			turn := unit.Angle(rapid.Float64Range(0, 7).Draw(t, "turn"))
			dx := rapid.Float64Range(-1, 1).Draw(t, "dx")
			sameArea(t, "turned and moved", a.Turned(turn).Moved(dx, 2).And(b.Turned(turn).Moved(dx, 2)).Area(), and.Area())
		})
	}
}
