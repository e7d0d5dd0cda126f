package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestAndCut: the runs that are told to be b's lie on b's outline, and what is
// left of each ring lies on a's. A region made ready gives the same.
func TestAndCut(t *testing.T) {
	for _, draw := range []func(*rapid.T, string) Region{drawRegion, drawLoose} {
		rapid.Check(t, func(t *rapid.T) {
			a, b := draw(t, "a"), draw(t, "b")
			both, cut := a.AndCut(b)
			sameArea(t, "and", both.Area(), a.And(b).Area())
			if len(cut) != len(both) {
				t.Fatalf("runs of %d rings, and there are %d", len(cut), len(both))
			}
			apart := func(p Point, of Region) float64 {
				least := math.Inf(1)
				for _, r := range of {
					least = min(least, math.Abs(grow(r).clearance(p, math.Inf(1), 0)))
				}
				return least
			}
			const near = 1e-10
			for i, r := range both {
				onCut := map[[2]Point]bool{}
				for _, run := range cut[i] {
					for k := 1; k < len(run); k++ {
						onCut[[2]Point{run[k-1], run[k]}] = true
						if m := run[k-1].toward(run[k], 0.5); apart(m, b) > near {
							t.Fatalf("%v of a run lies %g from b", m, apart(m, b))
						}
					}
				}
				for k, p := range r {
					q := r[r.next(k)]
					if m := p.toward(q, 0.5); !onCut[[2]Point{p, q}] && apart(m, a) > near {
						t.Fatalf("%v counts as a's and lies %g from it", m, apart(m, a))
					}
					delete(onCut, [2]Point{p, q})
				}
				if len(onCut) > 0 {
					t.Fatalf("%d edges of the runs are none of the ring", len(onCut))
				}
			}
			ready := a.Ready()
			sameArea(t, "and, ready", ready.And(b).Area(), both.Area())
			sameArea(t, "without, ready", ready.Without(b).Area(), a.Without(b).Area())
			again, _ := ready.AndCut(b)
			sameArea(t, "and, ready again", again.Area(), both.Area())
			sound(t, "ready", ready.Without(b))
		})
	}
	// A square in the middle of a larger one is all cut; one around it, not at all.
	small, large := Region{RectangleRing(1, 1, 0)}, Region{RectangleRing(3, 3, 0)}
	if _, cut := large.AndCut(small); len(cut) != 1 || len(cut[0]) != 1 || math.Abs(float64(cut[0][0].Along())-4) > 1e-12 || cut[0][0][0] != cut[0][0][4] {
		t.Errorf("all round: %v", cut)
	}
	if _, cut := small.AndCut(large); len(cut) != 1 || len(cut[0]) != 0 {
		t.Errorf("not at all: %v", cut)
	}
	// Two outlines that touch at a point, (0.5, 1) here, still do when they are
	// made ready and something is cut off elsewhere.
	bow := NewRegion(Ring{{0, 0}, {2, 0}, {0, 5}, {0, 1}, {1, 1}, {1, 2}}).Ready()
	left := bow.Without(Region{{{1, 0}, {2, 0}, {1, 2}}})
	if err := left.Validate(); err != nil || len(left) != len(bow.Region.Without(Region{{{1, 0}, {2, 0}, {1, 2}}})) {
		t.Errorf("touching at a point: %v, %v", left, err)
	}
	if none := (Ready{}).And(large); len(none) != 0 {
		t.Errorf("nothing and something is %v", none)
	}
}
