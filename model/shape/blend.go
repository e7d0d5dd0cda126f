package shape

import "meniscus/model/unit"

// Blend pairs the points of the outlines of two faces, so that straight lines
// between the pairs make a sensible body: both come back counterclockwise with
// the same number of points and the same areas. Where the rings have equally
// many points, as they stand is one way; another goes around both from the
// point in the direction of x from their centroids and gives each point a
// partner at the same part of the way around; a third gives each point one that
// lies near. The way with the shortest lines (in the mean of squares) is taken.
func Blend(bottom, top Ring) (b, t Ring) {
	b, t = bottom.CounterClockwise(), top.CounterClockwise()
	if len(b) == 0 || len(t) == 0 {
		return b, t
	}
	pb, pt := paired(b, t)
	short := ruling(pb, pt)
	if zb, zt := zipped(b, t); ruling(zb, zt) < short*(1-1e-9) {
		pb, pt, short = zb, zt, ruling(zb, zt)
	}
	if len(b) == len(t) && ruling(b, t) <= short*(1+1e-9) {
		return b, t
	}
	return pb, pt
}

// ruling gives the mean square length of the straight lines between two rings
// of equally many points, weighted by the way around.
func ruling(b, t Ring) float64 {
	around := float64(b.Perimeter() + t.Perimeter())
	if around == 0 {
		return 0
	}
	sum := 0.0
	for i := range b {
		j := b.next(i)
		u, v := t[i].minus(b[i]), t[j].minus(b[j])
		w := b[j].minus(b[i]).norm() + t[j].minus(t[i]).norm()
		sum += w * (u.dot(u) + u.dot(v) + v.dot(v)) / 3
	}
	return sum / around
}

// paired gives every point of either ring a partner on the other at the same
// part of the way around.
func paired(b, t Ring) (Ring, Ring) {
	b, t = b.startingEast(), t.startingEast()
	sb, st := b.ways(), t.ways()
	const same = 1e-12 // of the way around
	var pb, pt Ring
	for i, j := 0, 0; i < len(b) || j < len(t); {
		s := min(sb[i], st[j])
		pb = append(pb, b.alongEdge(sb, i, s))
		pt = append(pt, t.alongEdge(st, j, s))
		if i < len(b) && !(sb[i] > s+same) {
			i++
		}
		if j < len(t) && !(st[j] > s+same) {
			j++
		}
	}
	return pb, pt
}

// startingEast gives the ring from the outermost place in the direction of x
// from its centroid, with a point put there.
func (r Ring) startingEast() Ring {
	c := r.Centroid()
	edge, x := -1, 0.0
	for i, a := range r {
		b := r[r.next(i)]
		if (a.Y > c.Y) == (b.Y > c.Y) {
			continue
		}
		if at := a.X + (c.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X); edge < 0 || at > x {
			edge, x = i, at
		}
	}
	if edge < 0 {
		return r
	}
	s := make(Ring, 0, len(r)+1)
	start := edge + 1
	switch p := (Point{x, c.Y}); p {
	case r[edge]:
		start = edge
	case r[r.next(edge)]:
	default:
		s = append(s, p)
	}
	s = append(s, r[start:]...)
	return append(s, r[:start]...)
}

// ways gives the part of the way around at which each point lies, and 1 for
// the end.
func (r Ring) ways() []float64 {
	s := make([]float64, len(r)+1)
	for i := range r {
		s[i+1] = s[i] + r[r.next(i)].minus(r[i]).norm()
	}
	around := s[len(r)]
	if around == 0 {
		around = 1
	}
	for i := range s {
		s[i] /= around
	}
	s[len(r)] = 1
	return s
}

// alongEdge gives the point at the part s of the way around, on the edge that
// ends at point i.
func (r Ring) alongEdge(ways []float64, i int, s float64) Point {
	end := r[i%len(r)]
	if i == 0 || s >= ways[i] {
		return end
	}
	a := r[i-1]
	return a.toward(end, (s-ways[i-1])/(ways[i]-ways[i-1]))
}

// Between gives the outline a fraction f of the way from b to t, which have
// equally many points, as Blend makes them.
func Between(b, t Ring, f float64) Ring {
	if len(b) != len(t) {
		b, t = Blend(b, t)
	}
	return appendBetween(make(Ring, 0, len(b)), b, t, f)
}

// appendBetween appends the points between b and t to r.
func appendBetween(r, b, t Ring, f float64) Ring {
	for i := range min(len(b), len(t)) {
		r = append(r, Point{lerp(b[i].X, t[i].X, f), lerp(b[i].Y, t[i].Y, f)})
	}
	return r
}

// MixedArea gives the mixed area of two outlines of equally many points: the
// area of the outline between them is (1-f)²·b + 2f(1-f)·mixed + f²·t, which
// follows from putting (1-f)·b + f·t into the shoelace formula. It is positive
// for counterclockwise outlines.
func MixedArea(b, t Ring) unit.Area {
	if len(b) != len(t) {
		b, t = Blend(b, t)
	}
	if len(b) < 3 || len(t) < 3 {
		return 0
	}
	ob, ot, sum := b[0], t[0], 0.0
	for i := range b {
		j := b.next(i)
		sum += b[i].minus(ob).cross(t[j].minus(ot)) + t[i].minus(ot).cross(b[j].minus(ob))
	}
	return unit.Area(sum / 4)
}
