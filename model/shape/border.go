package shape

import "math"

// Border is a ring made ready for finding places on it.
type Border struct{ t *tree }

// NewBorder makes a ring ready. A ring without points has no places.
func NewBorder(r Ring) Border {
	if len(r) == 0 {
		return Border{}
	}
	return Border{grow(r)}
}

// Nearest gives the place on the outline that lies nearest to p, and the index
// of the point at which its edge begins; -1 where there is no outline.
func (b Border) Nearest(p Point) (at Point, edge int) {
	if b.t == nil {
		return p, -1
	}
	t := b.t
	edge = -1
	within := math.Inf(1)
	var stack [64]node
	stack[0] = t.root()
	for top := 1; top > 0; {
		top--
		n := stack[top]
		if t.box(n).square(p) >= within && edge >= 0 {
			continue
		}
		if n.row == 0 {
			from, end := t.span(n)
			for i := from; i < end; i++ {
				q := nearestOn(p, t.ring[i], t.ring[t.ring.next(i)])
				if d := q.minus(p).dot(q.minus(p)); edge < 0 || d < within {
					within, at, edge = d, q, i
				}
			}
			continue
		}
		near, far, two := t.children(n)
		if two {
			if t.box(far).square(p) < t.box(near).square(p) {
				near, far = far, near
			}
			stack[top] = far
			top++
		}
		stack[top] = near
		top++
	}
	return at, edge
}

// Contains tells whether p lies inside the outline, as Ring.Contains does.
func (b Border) Contains(p Point) bool { return b.t != nil && b.t.contains(p) }

// Crosses tells whether the outlines of two borders cross by more than a touch.
func (b Border) Crosses(c Border) bool {
	return b.t != nil && c.t != nil && b.t.leaves(&c.t.boxes, b.t.crossesDeep(c.t))
}

// nearestOn gives the place on the segment from a to b that lies nearest to p.
func nearestOn(p, a, b Point) Point {
	u := b.minus(a)
	along, square := p.minus(a).dot(u), u.dot(u)
	switch {
	case !(along > 0):
		return a
	case along >= square:
		return b
	}
	return a.toward(b, along/square)
}
