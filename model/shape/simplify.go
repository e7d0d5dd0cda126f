package shape

import (
	"slices"

	"meniscus/model/unit"
)

// Simplified gives the ring with fewer points, none of those left out being
// farther than tol from the new outline (Douglas and Peucker 1973). A ring
// that would be left with fewer than three points comes back whole. A crude
// tolerance can make an outline cross itself; Validate tells.
func (r Ring) Simplified(tol unit.Length) Ring {
	if len(r) < 4 || tol <= 0 {
		return slices.Clone(r)
	}
	keep := thinned(len(r), float64(tol), func(i, a, b int) float64 {
		return squareToSegment(r[i], r[a], r[b])
	})
	if len(keep) < 3 {
		return slices.Clone(r)
	}
	m := make(Ring, len(keep))
	for k, i := range keep {
		m[k] = r[i]
	}
	return m
}

const (
	fine   = 1e-6 // m; how far a thinned pair may stand off
	coarse = 512  // points; fewer are not thinned
)

// thinnedPair gives two rings of equally many points with fewer of them, the
// same of each, so that any outline between the two stays within a thousandth
// of a millimetre.
func thinnedPair(b, t Ring) (Ring, Ring) {
	if len(b) <= coarse || len(b) != len(t) {
		return b, t
	}
	keep := thinned(len(b), fine, func(i, m, n int) float64 {
		db, dt := b[n].minus(b[m]), t[n].minus(t[m])
		pb, pt := b[i].minus(b[m]), t[i].minus(t[m])
		f := 0.0
		if long := db.dot(db) + dt.dot(dt); long > 0 {
			f = max(0, min(1, (pb.dot(db)+pt.dot(dt))/long))
		}
		pb, pt = pb.minus(Point{f * db.X, f * db.Y}), pt.minus(Point{f * dt.X, f * dt.Y})
		return max(pb.dot(pb), pt.dot(pt))
	})
	if len(keep) < 3 {
		return b, t
	}
	sb, st := make(Ring, len(keep)), make(Ring, len(keep))
	for k, i := range keep {
		sb[k], st[k] = b[i], t[i]
	}
	return sb, st
}

// thinned chooses which of n points around a ring to keep, given the square of
// the distance of point i from the segment between the points a and b.
func thinned(n int, tol float64, square func(i, a, b int) float64) []int {
	far, d2 := 0, -1.0
	for i := range n {
		if d := square(i, 0, 0); d > d2 {
			far, d2 = i, d
		}
	}
	type span struct{ from, to int } // to may be n, which is point 0 again
	work := []span{{0, far}, {far, n}}
	keep := []int{0, far}
	limit := tol * tol
	for len(work) > 0 {
		s := work[len(work)-1]
		work = work[:len(work)-1]
		worst, at := limit, -1
		for i := s.from + 1; i < s.to; i++ {
			if d := square(i, s.from, s.to%n); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep = append(keep, at)
			work = append(work, span{s.from, at}, span{at, s.to})
		}
	}
	slices.Sort(keep)
	return slices.Compact(keep)
}

// squareToSegment gives the square of the distance from p to the segment ab.
func squareToSegment(p, a, b Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	px, py := p.X-a.X, p.Y-a.Y
	along := px*dx + py*dy
	if along <= 0 {
		return px*px + py*py
	}
	long := dx*dx + dy*dy
	if along >= long {
		qx, qy := p.X-b.X, p.Y-b.Y
		return qx*qx + qy*qy
	}
	c := dx*py - dy*px
	return c * c / long
}
