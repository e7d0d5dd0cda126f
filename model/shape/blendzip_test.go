package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestBlendOfNearFaces: a board with one edge that is smooth below and rippled
// above makes a body that is nearly upright, whichever way it is turned. With
// partners at the same part of the way round, which is longer along the ripples,
// its ends would be pulled in.
func TestBlendOfNearFaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(400, 900).Draw(t, "points")
		turn := unit.Angle(rapid.Float64Range(-3, 3).Draw(t, "turn"))
		board := func(n int, ripple float64) Ring {
			r := Ring{{-0.5, -0.1}, {0.5, -0.1}}
			for i := range n {
				x := 0.5 - float64(i)/float64(n-1)
				r = append(r, Point{x, 0.1 + ripple*math.Sin(120*math.Pi*x)})
			}
			return r.Turned(turn)
		}
		bottom, top := board(n/5, 0), board(n, 0.004)
		mean := (float64(bottom.Area()) + float64(top.Area())) / 2
		b, u := Blend(bottom, top)
		if got := float64(MixedArea(b, u)); math.Abs(got/mean-1) > 0.01 {
			t.Fatalf("mixed %v, and the faces have %v", got, mean)
		}
	})
}
