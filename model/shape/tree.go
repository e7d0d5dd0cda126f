package shape

import "math"

// leafEdges is the number of edges of a ring in one leaf of its tree.
const leafEdges = 4

// tree finds edges of a ring quickly. Edge i runs from point i to the next.
type tree struct {
	ring Ring
	boxes
}

// box is an upright rectangle.
type box struct{ lo, hi Point }

var emptyBox = box{
	lo: Point{math.Inf(1), math.Inf(1)},
	hi: Point{math.Inf(-1), math.Inf(-1)},
}

func (b *box) add(p Point) {
	b.lo.X, b.lo.Y = min(b.lo.X, p.X), min(b.lo.Y, p.Y)
	b.hi.X, b.hi.Y = max(b.hi.X, p.X), max(b.hi.Y, p.Y)
}

func (b box) join(c box) box {
	return box{
		lo: Point{min(b.lo.X, c.lo.X), min(b.lo.Y, c.lo.Y)},
		hi: Point{max(b.hi.X, c.hi.X), max(b.hi.Y, c.hi.Y)},
	}
}

func (b box) meets(c box) bool {
	return b.lo.X <= c.hi.X && c.lo.X <= b.hi.X && b.lo.Y <= c.hi.Y && c.lo.Y <= b.hi.Y
}

// square gives the square of the distance from p to the box, 0 inside.
func (b *box) square(p Point) float64 {
	dx := max(b.lo.X-p.X, p.X-b.hi.X, 0)
	dy := max(b.lo.Y-p.Y, p.Y-b.hi.Y, 0)
	return dx*dx + dy*dy
}

// middle gives the centre of the box and half its diagonal.
func (b box) middle() (Point, float64) {
	return b.lo.toward(b.hi, 0.5), b.hi.minus(b.lo).norm() / 2
}

// grow makes the tree of a ring of at least one point.
func grow(r Ring) *tree {
	t := &tree{ring: r}
	n := (len(r) + leafEdges - 1) / leafEdges
	store := make([]box, 0, 2*n+64)
	for i := 0; i < len(r); i += leafEdges {
		b, end := emptyBox, min(i+leafEdges, len(r))
		for _, p := range r[i:end] {
			b.add(p)
		}
		b.add(r[end%len(r)])
		store = append(store, b)
	}
	t.rows = stacked(store)
	return t
}

// span gives the edges below n: from, and one past the last.
func (t *tree) span(n node) (from, end int) {
	size := leafEdges << n.row
	return n.at * size, min((n.at+1)*size, len(t.ring))
}

// square gives the square of the distance from p to the nearest edge, or
// within where no edge is nearer than that.
func (t *tree) square(p Point, within float64) float64 {
	type entry struct {
		node
		d float64
	}
	var stack [64]entry
	stack[0] = entry{t.root(), t.box(t.root()).square(p)}
	for top := 1; top > 0; {
		top--
		e := stack[top]
		if e.d >= within {
			continue
		}
		if e.row == 0 {
			from, end := t.span(e.node)
			for i := from; i < end; i++ {
				within = min(within, squareToSegment(p, t.ring[i], t.ring[t.ring.next(i)]))
			}
			continue
		}
		a, b, two := t.children(e.node)
		near := entry{a, t.box(a).square(p)}
		if two {
			far := entry{b, t.box(b).square(p)}
			if far.d < near.d {
				near, far = far, near
			}
			if far.d < within {
				stack[top] = far
				top++
			}
		}
		stack[top] = near
		top++
	}
	return within
}

// contains answers as Ring.Contains does. A stretch of outline wholly to the
// right of p is crossed an odd number of times when its ends lie on either
// side of p's height, so that only boxes around p are opened.
func (t *tree) contains(p Point) bool {
	var stack [64]node
	stack[0] = t.root()
	in := false
	for top := 1; top > 0; {
		top--
		n := stack[top]
		b := t.box(n)
		if p.Y < b.lo.Y || p.Y >= b.hi.Y || p.X > b.hi.X {
			continue
		}
		from, end := t.span(n)
		if p.X < b.lo.X {
			if (t.ring[from].Y > p.Y) != (t.ring[end%len(t.ring)].Y > p.Y) {
				in = !in
			}
			continue
		}
		if n.row == 0 {
			for i := from; i < end; i++ {
				if crossesRight(t.ring[i], t.ring[t.ring.next(i)], p) {
					in = !in
				}
			}
			continue
		}
		first, second, two := t.children(n)
		stack[top] = first
		top++
		if two {
			stack[top] = second
			top++
		}
	}
	return in
}
