package shape

import (
	"math"

	"meniscus/model/unit"
)

// roundTo is how far the chords of a round corner of a grown region may lie
// within its arc, in metres.
const roundTo = 1e-5

// Grown gives all places within a distance of the region, or for a distance
// below nothing those of the region that are at least so far from its outside.
// Corners that a region grows round are arcs, cut to chords that lie within
// 0.01 mm of them. A part that is too narrow vanishes, a gap that is too narrow
// closes.
//
// Each edge is moved out to its right, round a corner along an arc and into one
// by way of the corner itself; of what these rings go round, the places that
// they go round more often one way than the other are kept (Chen and McMains,
// Polygon Offsetting by Computing Winding Numbers, 2005; value from memory).
func (a Region) Grown(by unit.Length) Region {
	d := float64(by)
	if d == 0 || math.IsNaN(d) {
		return a
	}
	rings := make([]Ring, 0, len(a))
	for _, r := range a {
		rings = append(rings, r.beside(d))
	}
	return overlay(weave(rings), nil, func(w winding) bool { return w[0] > 0 }).rings()
}

// beside gives the ring moved by d metres to its right, crossing itself where
// it will.
func (r Ring) beside(d float64) Ring {
	t := r.bare()
	if len(t) < 3 {
		return nil
	}
	out := make(Ring, 0, 2*len(t))
	step := math.Pi / 4
	if far := math.Abs(d); far > roundTo {
		step = min(step, 2*math.Acos(1-roundTo/far))
	}
	way := func(i int) Point { // the unit vector to the right of edge i
		e := t[t.next(i)].minus(t[i])
		n := e.norm()
		return Point{e.Y / n, -e.X / n}
	}
	before := way(len(t) - 1)
	for i, p := range t {
		after := way(i)
		turn := math.Atan2(before.cross(after), before.dot(after))
		out = append(out, Point{p.X + d*before.X, p.Y + d*before.Y})
		if turn*d > 0 {
			parts := math.Ceil(math.Abs(turn) / step)
			for k := 1.0; k < parts; k++ {
				sin, cos := math.Sincos(turn * k / parts)
				out = append(out, Point{
					p.X + d*(before.X*cos-before.Y*sin),
					p.Y + d*(before.X*sin+before.Y*cos),
				})
			}
		} else if turn != 0 {
			out = append(out, p)
		}
		out = append(out, Point{p.X + d*after.X, p.Y + d*after.Y})
		before = after
	}
	return out
}

// bare gives the ring, the way that it runs, without points that repeat the one
// before.
func (r Ring) bare() Ring {
	t := make(Ring, 0, len(r))
	for _, p := range r {
		if len(t) == 0 || p != t[len(t)-1] {
			t = append(t, p)
		}
	}
	for len(t) > 1 && t[len(t)-1] == t[0] {
		t = t[:len(t)-1]
	}
	return t
}
