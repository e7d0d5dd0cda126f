package shape

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// TestTurnIsExact holds the sign of a cross product to the arithmetic of whole
// fractions, also of vectors that all but lie in one line.
func TestTurnIsExact(t *testing.T) {
	rat := func(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }
	rapid.Check(t, func(t *rapid.T) {
		coordinate := rapid.Float64Range(-3, 3)
		// Coordinates on the grid are whole multiples of 2^-40, so nothing is
		// as small as to vanish.
		p := Point{snapped(coordinate.Draw(t, "x")), snapped(coordinate.Draw(t, "y"))}
		f := snapped(rapid.Float64Range(-2, 2).Draw(t, "times"))
		q := Point{f * p.X, f * p.Y}
		for range rapid.IntRange(0, 3).Draw(t, "off the line by") {
			q.X += 0x1p-40
		}
		q = Point{snapped(q.X), snapped(q.Y)}
		want := new(big.Rat).Sub(
			new(big.Rat).Mul(rat(p.X), rat(q.Y)), new(big.Rat).Mul(rat(p.Y), rat(q.X))).Sign()
		got := 0
		if v := p.turn(q); v > 0 {
			got = 1
		} else if v < 0 {
			got = -1
		}
		if got != want {
			t.Fatalf("%v and %v turn %d, want %d", p, q, got, want)
		}
	})
}

// snapped puts a coordinate on the grid that is clipped on.
func snapped(v float64) float64 { return math.Round(v*0x1p40) * 0x1p-40 }
