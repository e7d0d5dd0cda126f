package drawing

import "math"

// Box is an upright rectangle. The zero Box is empty.
type Box struct{ Min, Max Pt }

// BoxOf gives the box around points.
func BoxOf(points ...Pt) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{points[0], points[0]}
	for _, p := range points[1:] {
		b.Min.X, b.Min.Y = math.Min(b.Min.X, p.X), math.Min(b.Min.Y, p.Y)
		b.Max.X, b.Max.Y = math.Max(b.Max.X, p.X), math.Max(b.Max.Y, p.Y)
	}
	return b
}

// W gives the width.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H gives the height.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Centre gives the middle.
func (b Box) Centre() Pt { return Pt{(b.Min.X + b.Max.X) / 2, (b.Min.Y + b.Max.Y) / 2} }

// Grown gives the box with d more on every side.
func (b Box) Grown(d float64) Box { return Box{b.Min.Add(-d, -d), b.Max.Add(d, d)} }

// Contains tells whether p is in the box.
func (b Box) Contains(p Pt) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// Holds tells whether the whole of c is in the box.
func (b Box) Holds(c Box) bool { return b.Contains(c.Min) && b.Contains(c.Max) }

// Overlaps tells whether two boxes share more than an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// And gives the box around both.
func (b Box) And(c Box) Box { return BoxOf(b.Min, b.Max, c.Min, c.Max) }

// Ring gives the corners.
func (b Box) Ring() []Pt {
	return []Pt{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}
}

// clip gives the part of a to b inside the box as shares of the way, by Liang
// and Barsky's method.
func (b Box) clip(p, q Pt) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, e := range [4][2]float64{
		{-dx, p.X - b.Min.X}, {dx, b.Max.X - p.X}, {-dy, p.Y - b.Min.Y}, {dy, b.Max.Y - p.Y},
	} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return 0, 0, false
			}
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		default:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	return t0, t1, t0 < t1
}
