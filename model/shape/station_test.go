package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestPublishedOffsets is the worked example of nine offsets at 10 m in a
// text on surveying: 461.167 m² by Simpson's rule.
func TestPublishedOffsets(t *testing.T) {
	got := StationArea([]unit.Length{3.15, 4.3, 8.2, 5.6, 6.85, 7.6, 4.2, 5.6, 4.3}, 10)
	near(t, "offsets", float64(got), 461.166666667, 1e-9)
}

// river is a channel of thirteen widths, in mm, worked by hand to 84,142 mm².
var river = []unit.Length{98 * mm, 90 * mm, 80 * mm, 70 * mm, 60 * mm, 53 * mm, 52 * mm, 58 * mm, 70 * mm, 82 * mm, 88 * mm, 86 * mm, 80 * mm}

func TestRiver(t *testing.T) {
	spacing := 1150 * mm / 12
	want := StationArea(river, spacing)
	if got := want.SquareMillimetres(); math.Abs(got-84142) > 1 {
		t.Errorf("river of %v mm²", got)
	}
	for _, straight := range []bool{false, true} {
		r := StationRing(river, spacing, straight)
		if err := r.Validate(); err != nil {
			t.Error(err)
		}
		near(t, "outline", float64(r.Area()), float64(want), 1e-5)
		lo, hi := r.Bounds()
		near(t, "length", hi.X-lo.X, 1.15, 1e-12)
		if math.Abs(lo.Y+hi.Y) > 1e-12 || math.Abs(lo.X+hi.X) > 1e-12 {
			t.Errorf("not centred: %v %v", lo, hi)
		}
		near(t, "width at the first station", r.CutAtX(lo.X + 1e-9)[0].Long(), 0.098, 1e-6)
		near(t, "width at the middle station", r.CutAtX(0)[0].Long(), 0.052, 1e-6)
		if straight && r[0].Y != r[1].Y {
			t.Errorf("the straight edge runs from %v to %v", r[0], r[1])
		}
	}
}

// TestWeights are the published rules: trapezoid, 1/3, 3/8, and their chains.
func TestWeights(t *testing.T) {
	for n, want := range map[int][]float64{
		0: {}, 1: {0},
		2: {0.5, 0.5},
		3: {1. / 3, 4. / 3, 1. / 3},
		4: {3. / 8, 9. / 8, 9. / 8, 3. / 8},
		5: {1. / 3, 4. / 3, 2. / 3, 4. / 3, 1. / 3},
		6: {1. / 3, 4. / 3, 1./3 + 3./8, 9. / 8, 9. / 8, 3. / 8},
	} {
		got := StationWeights(n)
		if len(got) != len(want) {
			t.Errorf("%d: %v", n, got)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-15 {
				t.Errorf("%d: %v, want %v", n, got, want)
			}
		}
	}
}

func TestStationsAreExactForCubics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 60).Draw(t, "n")
		k := rapid.SliceOfN(rapid.Float64Range(-1, 1), 4, 4).Draw(t, "coefficients")
		widths := make([]unit.Length, n)
		for i := range widths {
			x := float64(i) / float64(n-1)
			widths[i] = unit.Length(4 + k[0] + x*(k[1]+x*(k[2]+x*k[3])))
		}
		want := 4 + k[0] + k[1]/2 + k[2]/3 + k[3]/4
		spacing := unit.Length(1 / float64(n-1))
		near(t, "area", float64(StationArea(widths, spacing)), want, 1e-12)
		near(t, "outline", StationRing(widths, spacing, n%2 == 0).Signed(), want, 5e-4)
	})
}

func TestStationRingEnds(t *testing.T) {
	if r := StationRing([]unit.Length{1}, 1, false); r != nil {
		t.Errorf("one station made %v", r)
	}
	r := StationRing([]unit.Length{0.1, 0.2}, 0.5, false)
	near(t, "two stations", float64(r.Area()), 0.075, 1e-12)
	for _, w := range [][]unit.Length{{0, 0.1, 0}, {0, 0.05, 0.08, 0}, {0.1, 0.001, 0.2, 0.001, 0.1}} {
		if err := StationRing(w, 0.1, true).Validate(); err != nil {
			t.Errorf("%v: %v", w, err)
		}
	}
}
