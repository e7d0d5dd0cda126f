package shape

import "math"

// touching is the depth in metres up to which two outlines count as only
// touching; it is well below what any instrument of a shop can show.
const touching = 1e-6

// Overlaps tells whether two outlines have some area in common, deeper than a
// thousandth of a millimetre. Outlines that only touch do not overlap.
func Overlaps(a, b Ring) bool {
	if len(a) < 3 || len(b) < 3 {
		return false
	}
	ta, tb := grow(a), grow(b)
	ba, bb := *ta.box(ta.root()), *tb.box(tb.root())
	if min(ba.hi.X, bb.hi.X)-max(ba.lo.X, bb.lo.X) <= touching ||
		min(ba.hi.Y, bb.hi.Y)-max(ba.lo.Y, bb.lo.Y) <= touching {
		return false
	}
	crossed := ta.leaves(&tb.boxes, func(m, n node) bool {
		fromA, endA := ta.span(m)
		fromB, endB := tb.span(n)
		for i := fromA; i < endA; i++ {
			for j := fromB; j < endB; j++ {
				if crossDeep(a[i], a[a.next(i)], b[j], b[b.next(j)]) {
					return true
				}
			}
		}
		return false
	})
	return crossed || reachesInto(a, tb) || reachesInto(b, ta)
}

// crossDeep tells whether ab and cd cross so that each has its ends on either
// side of the other by more than a touch.
func crossDeep(a, b, c, d Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	ab, cd := b.minus(a), d.minus(c)
	return apart(cd.cross(a.minus(c)), cd.cross(b.minus(c)), cd.norm()) &&
		apart(ab.cross(c.minus(a)), ab.cross(d.minus(a)), ab.norm())
}

// apart tells whether two cross products with a vector of the given length
// stand for points on either side of it, each farther off than a touch.
func apart(u, v, length float64) bool {
	least := touching * length
	return u > least && v < -least || u < -least && v > least
}

// reachesInto tells whether a point of r, the middle of an edge, or a place
// well inside r lies deeper than a touch inside the ring of t.
func reachesInto(r Ring, t *tree) bool {
	if p, ok := r.inner(); ok && t.clearance(p, math.Inf(1), 0) > touching {
		return true
	}
	dense := make(Ring, 0, 2*len(r))
	for i, p := range r {
		dense = append(dense, p, p.toward(r[r.next(i)], 0.5))
	}
	depth := func(p Point, reach float64, side int) float64 { return -t.clearance(p, reach, -side) }
	_, _, found := grow(dense).lowest(depth, -touching)
	return found
}

// inner gives a place inside the ring: the middle of the longest stretch of a
// level line near its middle height.
func (r Ring) inner() (Point, bool) {
	lo, hi := r.Bounds()
	y := lerp(lo.Y, hi.Y, 0.4871) // a height that corners seldom have
	long, at := 0.0, 0.0
	for _, in := range r.CutAtY(y) {
		if in.Long() > long {
			long, at = in.Long(), (in.Lo+in.Hi)/2
		}
	}
	return Point{at, y}, long > 0
}

// lowest finds the point of t's ring where f is least, if it is below the
// bound there. f must change by no more than the distance moved, as signed
// distances do, so that a box need not be opened when f at its middle less
// half its diagonal is not below the least found. f is told a distance that
// its value does not exceed, and 1 or -1 where its sign is known, else 0.
func (t *tree) lowest(f func(p Point, reach float64, side int) float64, bound float64) (float64, Point, bool) {
	type entry struct {
		node
		middle     Point
		half       float64 // half the diagonal of the box
		value, low float64 // f at the middle, and what it cannot be below in the box
	}
	look := func(n node, from Point, value float64) entry {
		m, half := t.box(n).middle()
		reach, side := known(value, m.minus(from).norm())
		v := f(m, reach, side)
		return entry{n, m, half, v, v - half}
	}
	var at Point
	found := false
	work := []entry{look(t.root(), Point{}, math.Inf(1))}
	for len(work) > 0 {
		e := work[len(work)-1]
		work = work[:len(work)-1]
		if e.low >= bound {
			continue
		}
		if e.row == 0 {
			from, end := t.span(e.node)
			for _, p := range t.ring[from:end] {
				far := p.minus(e.middle).norm()
				if e.value-far >= bound {
					continue
				}
				reach, side := known(e.value, far)
				if v := f(p, reach, side); v < bound {
					bound, at, found = v, p, true
				}
			}
			continue
		}
		a, b, two := t.children(e.node)
		near := look(a, e.middle, e.value)
		if two {
			far := look(b, e.middle, e.value)
			if far.low < near.low {
				near, far = far, near
			}
			work = append(work, far)
		}
		work = append(work, near)
	}
	return bound, at, found
}

// known tells what can be said of a signed distance so far away from where it
// has a value: what it does not exceed, and its sign if that is sure.
func known(value, far float64) (reach float64, side int) {
	if math.IsInf(value, 0) {
		return math.Inf(1), 0
	}
	const slack = 1 + 1e-9 // for rounding
	far *= slack
	reach = math.Abs(value)*slack + far + 1e-12
	switch {
	case value > far:
		return reach, 1
	case value < -far:
		return reach, -1
	}
	return reach, 0
}
