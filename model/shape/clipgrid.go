package shape

import "math"

// Regions are clipped on a grid so fine that no one sees it and yet such that
// which side of a line a point lies on can be told exactly: the points of the
// grid, and the middles between two of them, are float64 numbers without
// rounding, and so are their differences.
const (
	gridSteps = 1 << 40 // to a metre; a step is about 1e-12 m
	gridReach = 1 << 11 // m; beyond it the grid's points are no longer exact
)

// onGrid gives the point of the grid nearest to p.
func onGrid(p Point) Point {
	return Point{math.RoundToEven(p.X*gridSteps) / gridSteps, math.RoundToEven(p.Y*gridSteps) / gridSteps}
}

// onGrid gives the ring on the grid without points that repeat the one before;
// nil when less than three points are left or one lies out of reach.
func (r Ring) onGrid() Ring {
	g := make(Ring, 0, len(r))
	for _, p := range r {
		if !(math.Abs(p.X) < gridReach && math.Abs(p.Y) < gridReach) {
			return nil
		}
		if q := onGrid(p); len(g) == 0 || q != g[len(g)-1] {
			g = append(g, q)
		}
	}
	for len(g) > 1 && g[len(g)-1] == g[0] {
		g = g[:len(g)-1]
	}
	if len(g) < 3 {
		return nil
	}
	return g
}

// side tells on which side of the line from a to b the point c lies: more than
// 0 to the left, less than 0 to the right, 0 on the line. The size is twice the
// area of the triangle; for points of the grid the sign is exact.
func side(a, b, c Point) float64 { return b.minus(a).turn(c.minus(a)) }

// meeting gives where the lines through ab and cd, which cross, meet, on the
// grid. alongA and beyondA are side(c, d, a) and side(c, d, b).
func meeting(a, b Point, alongA, beyondA float64) Point {
	t := alongA / (alongA - beyondA)
	if t <= 0.5 {
		return onGrid(Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)})
	}
	t = beyondA / (beyondA - alongA)
	return onGrid(Point{b.X + t*(a.X-b.X), b.Y + t*(a.Y-b.Y)})
}
