package cure

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestExpAgreesWithTheStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-689, 689).Draw(t, "x")
		if got, want := exp(x), math.Exp(x); math.Abs(got/want-1) > 4e-15 {
			t.Fatalf("exp(%v) = %v, want %v: off by %g", x, got, want, got/want-1)
		}
	})
	for x, want := range map[float64]float64{0: 1, -700: 0, math.Inf(-1): 0, 800: math.Exp(690), math.Inf(1): math.Exp(690)} {
		if got := exp(x); math.Abs(got-want) > 1e-14*want {
			t.Errorf("exp(%v) = %v, want %v", x, got, want)
		}
	}
	if got := exp(math.NaN()); got != 0 {
		t.Errorf("exp(NaN) = %v, want 0, so that a step with it is refused by its error", got)
	}
}
