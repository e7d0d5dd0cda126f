package shape

import (
	"math"

	"meniscus/model/unit"
)

// Inset gives what is left of a section when so much is taken off all round,
// measured square to the edge; false where nothing is left, or where an outline
// is too narrow in places for it. Corners stay sharp where they were, and round
// ones lose as much radius.
func Inset(s Section, by unit.Length) (Section, bool) {
	d := float64(by)
	if d <= 0 {
		return s, true
	}
	switch s := s.(type) {
	case rounded:
		if s.x <= d || s.y <= d {
			return nil, false
		}
		return rounded{s.x - d, s.y - d, max(0, s.r-d)}, true
	case regular:
		if s.r <= d {
			return nil, false
		}
		return regular{s.sides, s.r - d}, true
	case ellipse:
		return s.inset(d)
	}
	ring := s.Ring()
	const steep = 45 * unit.Degree // a wall that leans by 45° moves in by its height
	c, err := NewOutline(ring, true, steep, by)
	if err != nil {
		c, err = NewOutline(ring.Simplified(unit.Millimetre/2), true, steep, by)
	}
	if err != nil {
		return nil, false
	}
	return c.Section(0), true
}

// inset moves the edge of an ellipse in. What comes of it is no ellipse, and it
// folds over where the ellipse bends tighter than that, at b²/a.
func (s ellipse) inset(d float64) (Section, bool) {
	long, short := max(s.x, s.y), min(s.x, s.y)
	if s.x == s.y && d < s.x {
		return ellipse{s.x - d, s.y - d}, true
	}
	if d >= short*short/long {
		return nil, false
	}
	ring := s.Ring()
	for i, p := range ring {
		nx, ny := p.X/(s.x*s.x), p.Y/(s.y*s.y)
		n := math.Hypot(nx, ny)
		ring[i] = Point{p.X - d*nx/n, p.Y - d*ny/n}
	}
	return outlinedBy(ring), true
}

// Common gives what lies in both of two sections: the narrower of the two where
// it lies in the other all round, as it does in a mold whose walls all lean the
// same way, else the largest part of what they share. It is nil where they share
// nothing.
func Common(a, b Section) Section {
	if a == b {
		return a
	}
	if a.Area() > b.Area() {
		a, b = b, a
	}
	if within(a, b) {
		return a
	}
	ring := a.Ring()
	var best Region
	for _, part := range NewRegion(ring).And(NewRegion(b.Ring())).Parts() {
		if best == nil || part.Area() > best.Area() {
			best = part
		}
	}
	if best == nil {
		return nil
	}
	return outlinedBy(best[0].CounterClockwise())
}

// within tells whether a section lies in another, or at most a thousandth of a
// millimetre beyond it. A free outline is looked at in some hundred places.
func within(a, b Section) bool {
	const slight = 1e-6
	switch a := a.(type) {
	case ellipse:
		if b, ok := b.(ellipse); ok {
			return a.x <= b.x+slight && a.y <= b.y+slight
		}
	case regular:
		if b, ok := b.(regular); ok && a.sides == b.sides {
			return a.r <= b.r+slight
		}
	case rounded:
		if b, ok := b.(rounded); ok && a.x <= b.x+slight && a.y <= b.y+slight {
			const looks = 8
			for i := range looks + 1 {
				sin, cos := math.Sincos(math.Pi / 2 * float64(i) / looks)
				if b.Clearance(Point{a.x - a.r + a.r*cos, a.y - a.r + a.r*sin}) < -slight {
					return false
				}
			}
			return true
		}
	}
	ring := a.Ring()
	const looks = 256
	for i := 0; i < len(ring); i += 1 + len(ring)/looks {
		if b.Clearance(ring[i]) < -slight {
			return false
		}
	}
	return true
}

// Room gives a function that tells the distance in metres from a place to the
// nearest edge of the ring, positive inside and negative outside. The ring must
// not be changed while it is asked.
func (r Ring) Room() func(p Point) float64 {
	if len(r) == 0 {
		return func(Point) float64 { return math.Inf(-1) }
	}
	t := grow(r)
	return func(p Point) float64 { return t.clearance(p, math.Inf(1), 0) }
}
