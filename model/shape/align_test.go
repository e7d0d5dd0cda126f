package shape

import (
	"math"
	"testing"

	"meniscus/model/unit"
	"pgregory.net/rapid"
)

// lumpy is an outline with so many points that looks the same in one turn only.
func lumpy(n int, long, broad float64) Ring {
	r := make(Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		f := 1 + 0.08*math.Sin(a+1) + 0.05*math.Sin(2*a) + 0.03*math.Cos(5*a+2)
		r[i] = Point{long / 2 * f * math.Cos(a), broad / 2 * f * math.Sin(a)}
	}
	return r
}

// TestAlignFindsAMotion lays a moved and turned outline back on the one that it
// was made of, also when it has other points.
func TestAlignFindsAMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		broad := rapid.Float64Range(0.1, 0.5).Draw(t, "broad")
		still := lumpy(300, 0.5, broad)
		turn := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")
		x, y := rapid.Float64Range(-2, 2).Draw(t, "x"), rapid.Float64Range(-2, 2).Draw(t, "y")
		moving := lumpy(rapid.SampledFrom([]int{300, 1000}).Draw(t, "points"), 0.5, broad).Turned(unit.Angle(turn)).Moved(x, y)
		laid := Align(moving, still)
		if most, _ := laid.Of(moving).Apart(NewBorder(still)); most > 0.1e-3 {
			t.Fatalf("after laying it is off by %g mm", 1000*float64(most))
		}
		if off := math.Remainder(float64(laid.Turn)+turn, 2*math.Pi); math.Abs(off) > 1e-3 {
			t.Fatalf("turned by %g too much", off)
		}
	})
	circle := EllipseRing(0.3, 0.3)
	laid := Align(circle.Moved(0.4, 0.1), circle)
	if most, mean := laid.Of(circle.Moved(0.4, 0.1)).Apart(NewBorder(circle)); most > 1e-4 || mean > 1e-4 {
		t.Errorf("a circle, which any turn suits, is off by %g m", float64(most))
	}
	if l := Align(Ring{{1, 1}}, circle); l != (Laid{}) {
		t.Errorf("a point cannot be laid: %+v", l)
	}
	flat := Ring{{0, 0}, {1, 0}, {0.5, 0}}
	if l := Align(flat, circle); math.IsNaN(float64(l.Turn)) || math.IsNaN(l.By.X) {
		t.Errorf("an outline without area: %+v", l)
	}
}

// TestBorderAgainstEveryEdge holds the nearest place and the inside to a look
// at every edge.
func TestBorderAgainstEveryEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := lumpy(rapid.IntRange(3, 200).Draw(t, "points"), 1, 0.6)
		p := Point{rapid.Float64Range(-1, 1).Draw(t, "x"), rapid.Float64Range(-1, 1).Draw(t, "y")}
		b := NewBorder(r)
		at, edge := b.Nearest(p)
		least := math.Inf(1)
		for i := range r {
			least = min(least, squareToSegment(p, r[i], r[r.next(i)]))
		}
		if d := at.minus(p).norm(); math.Abs(d-math.Sqrt(least)) > 1e-12 {
			t.Fatalf("nearest at %g, every edge says %g", d, math.Sqrt(least))
		}
		if d := squareToSegment(at, r[edge], r[r.next(edge)]); d > 1e-24 {
			t.Fatalf("the place is not on its edge %d", edge)
		}
		if b.Contains(p) != r.Contains(p) {
			t.Fatal("inside and outside differ")
		}
		moved := r.Moved(rapid.Float64Range(-1.2, 1.2).Draw(t, "dx"), 0.01)
		crosses := false
		for i := range r {
			for j := range moved {
				crosses = crosses || crossDeep(r[i], r[r.next(i)], moved[j], moved[moved.next(j)])
			}
		}
		if b.Crosses(NewBorder(moved)) != crosses {
			t.Fatalf("crossing: every pair of edges says %v", crosses)
		}
	})
	if _, edge := NewBorder(nil).Nearest(Point{}); edge != -1 || NewBorder(nil).Contains(Point{}) || NewBorder(nil).Crosses(NewBorder(lumpy(9, 1, 1))) {
		t.Error("an outline without points has no places")
	}
}
