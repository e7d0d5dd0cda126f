package shape

import (
	"math"

	"meniscus/model/unit"
)

// Rectangle is a rectangle with square corners: its middle, its sides, and how
// far its length is turned from the x axis, counterclockwise.
type Rectangle struct {
	Middle        Point
	Length, Width unit.Length
	Turn          unit.Angle
}

// Area gives the rectangle's area.
func (r Rectangle) Area() unit.Area { return r.Length.By(r.Width) }

// Ring gives the outline in place.
func (r Rectangle) Ring() Ring {
	return RectangleRing(r.Length, r.Width, 0).Turned(r.Turn).Moved(r.Middle.X, r.Middle.Y)
}

// LargestRectangle gives the rectangle of the greatest area that lies in all of
// the sections, with its sides along the axes, or at any turn. Between sharp
// walls and in one ellipse it is known in closed form: the sides themselves, and
// those of the ellipse over √2. In what is alike on both sides of both axes
// (rounded rectangles, ellipses, polygons of even sides) the half height Y that
// a half width X leaves is concave, so that X·Y has one summit, which is closed
// in on. Anything else is searched, to a hundred thousandth of its size. With no
// room there is no rectangle.
func LargestRectangle(sections []Section, anyTurn bool) Rectangle {
	if len(sections) == 0 {
		return Rectangle{}
	}
	if !anyTurn || !turns(sections) {
		if x, y, ok := centred(sections); ok {
			return Rectangle{Length: unit.Length(2 * x), Width: unit.Length(2 * y)}
		}
	}
	rings := make([]Ring, len(sections))
	for i, s := range sections {
		rings[i] = thinRing(s.Ring())
	}
	return searchRectangle(rings, anyTurn)
}

// turns tells whether a rectangle that lies askew could be larger than one along
// the axes. In an ellipse and between straight walls none is.
func turns(sections []Section) bool {
	for _, s := range sections {
		switch s.(type) {
		case rounded, ellipse:
		default:
			return true
		}
	}
	return false
}

// symmetric is a section that is alike on both sides of both axes and convex:
// what half height it leaves at a half width, and its own half width.
type symmetric interface {
	halfHeight(x float64) float64
	halfWidth() float64
}

func (s rounded) halfWidth() float64 { return s.x }

func (s rounded) halfHeight(x float64) float64 {
	over := x - s.x + s.r
	switch {
	case over <= 0:
		return s.y
	case over >= s.r:
		return s.y - s.r
	}
	return s.y - s.r + math.Sqrt(s.r*s.r-over*over)
}

func (s ellipse) halfWidth() float64 { return s.x }

func (s ellipse) halfHeight(x float64) float64 {
	return s.y * math.Sqrt(max(0, 1-x/s.x*(x/s.x)))
}

func (s regular) halfWidth() float64 {
	if s.sides%4 == 0 {
		return s.r
	}
	return s.r / math.Cos(s.half())
}

func (s regular) halfHeight(x float64) float64 {
	y := s.r // the flat at the top
	for k := range s.sides / 4 {
		// The outward normal of the side so many steps from the top.
		sin, cos := math.Sincos(math.Pi/2 - 2*s.half()*float64(k+1))
		if sin > 1e-12 {
			y = min(y, (s.r-x*cos)/sin)
		}
	}
	return y
}

// centred gives the half sides of the largest rectangle about the origin along
// the axes; false where a section is not alike on both sides.
func centred(sections []Section) (x, y float64, ok bool) {
	list := make([]symmetric, 0, len(sections))
	sharp, oval := true, true
	wide := math.Inf(1)
	for _, s := range sections {
		sym, ok := s.(symmetric)
		if p, isPolygon := s.(regular); !ok || isPolygon && p.sides%2 != 0 {
			return 0, 0, false
		}
		r, isRounded := s.(rounded)
		sharp = sharp && isRounded && r.r == 0
		e, isOval := s.(ellipse)
		oval = oval && isOval && e == sections[0].(ellipse)
		wide = min(wide, sym.halfWidth())
		list = append(list, sym)
	}
	height := func(x float64) float64 {
		y := math.Inf(1)
		for _, s := range list {
			y = min(y, s.halfHeight(x))
		}
		return max(0, y)
	}
	switch {
	case sharp:
		return wide, height(wide), true
	case oval:
		e := sections[0].(ellipse)
		return e.x / math.Sqrt2, e.y / math.Sqrt2, true
	}
	x = summit(0, wide, func(x float64) float64 { return x * height(x) })
	return x, height(x), true
}

// summit closes in on the greatest value of a function with one summit, by
// golden section.
func summit(a, b float64, f func(float64) float64) float64 {
	part := (math.Sqrt(5) - 1) / 2
	c, d := b-part*(b-a), a+part*(b-a)
	fc, fd := f(c), f(d)
	for range 100 {
		if b-a <= 1e-12*(math.Abs(a)+math.Abs(b)) {
			break
		}
		if fc >= fd {
			b, d, fd = d, c, fc
			c = b - part*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + part*(b-a)
			fd = f(d)
		}
	}
	// Where the summit is an end, as on a straight wall, it is taken itself.
	best, most := (a+b)/2, f((a+b)/2)
	for _, x := range [2]float64{a, b} {
		if v := f(x); v > most {
			best, most = x, v
		}
	}
	return best
}

// LargestCircle gives the middle and the radius in metres of the largest circle
// that lies in all of the sections. Where all are alike about their middle it is
// known; a free outline is divided into squares, of which only those are kept
// that can hold a better middle, since nowhere does the distance to a wall change
// faster than the place; the best is then closed in on. Between walls that run
// side by side there are many as good, so that squares are not divided for the
// last 0.2 %.
func LargestCircle(sections []Section) (middle Point, radius float64) {
	if len(sections) == 0 {
		return Point{}, 0
	}
	room := func(p Point) float64 {
		least := math.Inf(1)
		for _, s := range sections {
			least = min(least, s.Clearance(p))
		}
		return least
	}
	free := false
	lo, hi := sections[0].Bounds()
	for _, s := range sections {
		if _, ok := s.(*outlined); ok {
			free = true
		}
		l, h := s.Bounds()
		lo, hi = Point{max(lo.X, l.X), max(lo.Y, l.Y)}, Point{min(hi.X, h.X), min(hi.Y, h.Y)}
	}
	if !free {
		return Point{}, max(0, room(Point{}))
	}
	half := min(hi.X-lo.X, hi.Y-lo.Y) / 2
	if !(half > 0) {
		return Point{}, 0
	}
	half = max(half, max(hi.X-lo.X, hi.Y-lo.Y)/200)
	type square struct {
		p    Point
		half float64
	}
	var todo []square
	for x := lo.X + half; x-half < hi.X; x += 2 * half {
		for y := lo.Y + half; y-half < hi.Y; y += 2 * half {
			todo = append(todo, square{Point{x, y}, half})
		}
	}
	fine := 2e-3 * half
	for len(todo) > 0 {
		var next []square
		reach := make([]float64, len(todo))
		for i, q := range todo {
			reach[i] = room(q.p)
			if reach[i] > radius {
				middle, radius = q.p, reach[i]
			}
		}
		for i, q := range todo {
			if reach[i]+q.half*math.Sqrt2 <= radius+fine {
				continue
			}
			h := q.half / 2
			for _, d := range [4]Point{{-h, -h}, {h, -h}, {-h, h}, {h, h}} {
				next = append(next, square{Point{q.p.X + d.X, q.p.Y + d.Y}, h})
			}
		}
		todo = next
	}
	// Step aside as long as that is better, by ever smaller steps.
	for step := 2 * fine; step > 1e-7*half; {
		better := false
		for k := range 8 {
			sin, cos := math.Sincos(math.Pi / 4 * float64(k))
			p := Point{middle.X + step*cos, middle.Y + step*sin}
			if r := room(p); r > radius {
				middle, radius, better = p, r, true
			}
		}
		if !better {
			step /= 2
		}
	}
	return middle, radius
}
