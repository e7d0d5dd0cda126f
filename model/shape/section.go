package shape

import (
	"math"
	"sync"

	"meniscus/model/unit"
)

// Section is a level cut through a cavity.
type Section interface {
	// Area gives the area of the cut.
	Area() unit.Area
	// Clearance gives the distance in metres from p to the nearest wall at
	// this level, positive inside and negative outside.
	Clearance(p Point) float64
	// Bounds gives the corners of the smallest upright rectangle around it.
	Bounds() (lo, hi Point)
	// Ring gives the outline; arcs are cut to chords within 0.02 mm.
	Ring() Ring
}

// rounded is the section of a rectangular cavity: half sizes along x and y
// and the corner radius, in metres.
type rounded struct{ x, y, r float64 }

func (s rounded) Area() unit.Area { return unit.Area(4*s.x*s.y - (4-math.Pi)*s.r*s.r) }

func (s rounded) Clearance(p Point) float64 {
	qx, qy := math.Abs(p.X)-s.x+s.r, math.Abs(p.Y)-s.y+s.r
	if qx > 0 && qy > 0 {
		return s.r - math.Sqrt(qx*qx+qy*qy)
	}
	return s.r - max(qx, qy)
}

func (s rounded) Bounds() (lo, hi Point) { return Point{-s.x, -s.y}, Point{s.x, s.y} }

func (s rounded) Ring() Ring {
	return RectangleRing(unit.Length(2*s.x), unit.Length(2*s.y), unit.Length(s.r))
}

// ellipse is the section of an oval cavity: half sizes along x and y.
type ellipse struct{ x, y float64 }

func (s ellipse) Area() unit.Area { return unit.Area(math.Pi * s.x * s.y) }

func (s ellipse) Bounds() (lo, hi Point) { return Point{-s.x, -s.y}, Point{s.x, s.y} }

func (s ellipse) Ring() Ring { return EllipseRing(unit.Length(2*s.x), unit.Length(2*s.y)) }

// Clearance finds the nearest point of the ellipse. It solves Eberly's
// equation (Distance from a Point to an Ellipse, Geometric Tools) for one
// quarter with a the longer half axis: g(t) = (a·u/(t+a²))² + (b·v/(t+b²))² - 1
// = 0, with the nearest point at (a²u/(t+a²), b²v/(t+b²)). g falls and is
// convex, so that Newton's steps from its left never pass the root.
func (s ellipse) Clearance(p Point) float64 {
	a, b, u, v := s.x, s.y, math.Abs(p.X), math.Abs(p.Y)
	if a == b {
		return a - math.Sqrt(u*u+v*v)
	}
	if a < b {
		a, b, u, v = b, a, v, u
	}
	inside := u/a*(u/a)+v/b*(v/b) < 1
	var x, y float64 // the nearest point
	if v < 1e-12*b {
		v = 0
	}
	if c := a*a - b*b; v == 0 && a*u < c {
		x = a * a * u / c // beyond the evolute the nearest point leaves the axis
		y = b * math.Sqrt(max(0, 1-x/a*(x/a)))
	} else {
		t := a*u - a*a
		if v > 0 {
			t = max(t, b*v-b*b)
		}
		for range 100 {
			e, f := t+a*a, t+b*b
			gu, gv := a*u/e, 0.0
			if v > 0 {
				gv = b * v / f
			}
			slope := gu * gu / e
			if v > 0 {
				slope += gv * gv / f
			}
			step := (gu*gu + gv*gv - 1) / (2 * slope)
			if !(step > 1e-15*a*a) {
				break
			}
			t += step
		}
		x, y = a*a*u/(t+a*a), 0
		if v > 0 {
			y = b * b * v / (t + b*b)
		}
	}
	d := math.Sqrt((u-x)*(u-x) + (v-y)*(v-y))
	if inside {
		return d
	}
	return -d
}

// regular is the section of a cavity with regular sides, one flat at the
// bottom: the number of sides and the radius of the inscribed circle.
type regular struct {
	sides int
	r     float64
}

// half gives half the angle that a side spans at the centre.
func (s regular) half() float64 { return math.Pi / float64(s.sides) }

func (s regular) Area() unit.Area {
	return unit.Area(float64(s.sides) * s.r * s.r * math.Tan(s.half()))
}

func (s regular) Clearance(p Point) float64 {
	// Turn the side nearest to p until it stands at x = r.
	each := 2 * s.half()
	turn := math.Atan2(p.Y, p.X) + math.Pi/2
	sin, cos := math.Sincos(turn - each*math.Round(turn/each))
	far := p.norm()
	u, v := far*cos-s.r, math.Abs(far*sin)-s.r*math.Tan(s.half())
	if u > 0 && v > 0 {
		return -math.Sqrt(u*u + v*v)
	}
	return -u
}

func (s regular) Bounds() (lo, hi Point) { return s.Ring().Bounds() }

func (s regular) Ring() Ring { return PolygonRing(s.sides, unit.Length(2*s.r)) }

// outlined is the section of a cavity with a free outline. Its ring must not
// be changed after it is made.
type outlined struct {
	ring Ring
	tree func() *tree
}

func outlinedBy(r Ring) *outlined {
	return &outlined{ring: r, tree: sync.OnceValue(func() *tree { return grow(r) })}
}

func (s *outlined) Area() unit.Area { return s.ring.Area() }

func (s *outlined) Clearance(p Point) float64 { return s.tree().clearance(p, math.Inf(1), 0) }

func (s *outlined) Bounds() (lo, hi Point) { return s.ring.Bounds() }

func (s *outlined) Ring() Ring { return append(Ring(nil), s.ring...) }

// clearance gives the signed distance from p to the ring, positive inside.
// reach is a distance known not to be exceeded; side is 1 or -1 where p is
// known to lie inside or outside, else 0.
func (t *tree) clearance(p Point, reach float64, side int) float64 {
	d := math.Sqrt(t.square(p, reach*reach))
	if side > 0 || side == 0 && t.contains(p) {
		return d
	}
	return -d
}
