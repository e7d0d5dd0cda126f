package shape

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

// Signed gives the area inside the ring in m² by the shoelace formula,
// positive when the ring runs counterclockwise. The sum is taken from the
// first point, which keeps the digits of a small ring far from the origin.
func (r Ring) Signed() float64 {
	if len(r) < 3 {
		return 0
	}
	o, twice := r[0], 0.0
	for i := 1; i+1 < len(r); i++ {
		twice += r[i].minus(o).cross(r[i+1].minus(o))
	}
	return twice / 2
}

// Area gives the area inside the ring, whichever way it runs.
func (r Ring) Area() unit.Area { return unit.Area(math.Abs(r.Signed())) }

// CounterClockwise gives a copy of the ring that runs counterclockwise and
// starts at the same point.
func (r Ring) CounterClockwise() Ring {
	c := slices.Clone(r)
	if c.Signed() < 0 {
		slices.Reverse(c[1:])
	}
	return c
}

// Centroid gives the centre of area. A ring without area has the mean of its
// points; a ring without points has the origin.
func (r Ring) Centroid() Point {
	if len(r) == 0 {
		return Point{}
	}
	o := r[0]
	var sum, mean Point
	twice := 0.0
	for i := range r {
		a, b := r[i].minus(o), r[r.next(i)].minus(o)
		c := a.cross(b)
		twice += c
		sum.X += c * (a.X + b.X)
		sum.Y += c * (a.Y + b.Y)
		mean.X += a.X
		mean.Y += a.Y
	}
	if math.Abs(twice) < leastArea {
		n := float64(len(r))
		return Point{o.X + mean.X/n, o.Y + mean.Y/n}
	}
	return Point{o.X + sum.X/(3*twice), o.Y + sum.Y/(3*twice)}
}

// Perimeter gives the length around the ring.
func (r Ring) Perimeter() unit.Length {
	sum := 0.0
	for i := range r {
		sum += r[r.next(i)].minus(r[i]).norm()
	}
	return unit.Length(sum)
}

// Bounds gives the corners of the smallest upright rectangle around the ring.
func (r Ring) Bounds() (lo, hi Point) {
	if len(r) == 0 {
		return Point{}, Point{}
	}
	b := emptyBox
	for _, p := range r {
		b.add(p)
	}
	return b.lo, b.hi
}

// Contains tells whether p lies inside the ring, by the even-odd rule. A
// point on the outline may count as either.
func (r Ring) Contains(p Point) bool {
	in := false
	for i := range r {
		if crossesRight(r[i], r[r.next(i)], p) {
			in = !in
		}
	}
	return in
}

// crossesRight tells whether the edge from a to b crosses the line that runs
// from p to the right. An end at p's own height counts as below it.
func crossesRight(a, b, p Point) bool {
	if (a.Y > p.Y) == (b.Y > p.Y) {
		return false
	}
	return p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
}

// next gives the index of the point after point i.
func (r Ring) next(i int) int {
	if i+1 == len(r) {
		return 0
	}
	return i + 1
}

// Moved gives the ring shifted by dx and dy in metres.
func (r Ring) Moved(dx, dy float64) Ring {
	m := make(Ring, len(r))
	for i, p := range r {
		m[i] = Point{p.X + dx, p.Y + dy}
	}
	return m
}

// Turned gives the ring turned counterclockwise about the origin. Quarter
// turns are exact.
func (r Ring) Turned(a unit.Angle) Ring {
	sin, cos := math.Sincos(float64(a))
	const speck = 1e-15 // what sin and cos of a quarter turn miss zero by
	if math.Abs(sin) < speck {
		sin, cos = 0, math.Copysign(1, cos)
	}
	if math.Abs(cos) < speck {
		sin, cos = math.Copysign(1, sin), 0
	}
	m := make(Ring, len(r))
	for i, p := range r {
		m[i] = Point{cos*p.X - sin*p.Y, sin*p.X + cos*p.Y}
	}
	return m
}

// Scaled gives the ring stretched about the origin by sx along x and sy along
// y. One negative factor mirrors the ring, so that it runs the other way.
func (r Ring) Scaled(sx, sy float64) Ring {
	m := make(Ring, len(r))
	for i, p := range r {
		m[i] = Point{p.X * sx, p.Y * sy}
	}
	return m
}

// tidy gives the ring counterclockwise without points that repeat the one
// before, and for each point kept its index in r.
func (r Ring) tidy() (Ring, []int) {
	t := make(Ring, 0, len(r))
	at := make([]int, 0, len(r))
	for i, p := range r {
		if len(t) == 0 || p != t[len(t)-1] {
			t, at = append(t, p), append(at, i)
		}
	}
	for len(t) > 1 && t[len(t)-1] == t[0] {
		t, at = t[:len(t)-1], at[:len(at)-1]
	}
	if t.Signed() < 0 {
		slices.Reverse(t[1:])
		slices.Reverse(at[1:])
	}
	return t, at
}
