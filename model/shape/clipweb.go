package shape

import "slices"

// web holds the rings of a region on the grid in one list of points, with a
// tree of boxes over its edges. Edge i runs from point i to point next[i].
type web struct {
	at    []Point
	next  []int32
	ring  []int32 // the ring that each point belongs to
	start []int32 // where each ring begins, and where the last one ends
	joint []bool  // the point also lies elsewhere on a ring, so that edges meet there
	boxes         // around its edges
	clean bool    // no two of its edges cross, touch away from their ends or overlap
}

// weave puts rings on the grid. Those that enclose nothing are left out.
func weave(rings []Ring) *web {
	w := &web{start: []int32{0}}
	n := 0
	for _, r := range rings {
		n += len(r)
	}
	w.at, w.next, w.ring = make([]Point, 0, n), make([]int32, 0, n), make([]int32, 0, n)
	for _, r := range rings {
		if g := r.onGrid(); g != nil {
			w.at = append(w.at, g...)
			w.close()
		}
	}
	w.joint = make([]bool, len(w.at))
	w.plant()
	return w
}

// close makes a ring of the points since the last one.
func (w *web) close() {
	from, end := w.start[len(w.start)-1], int32(len(w.at))
	for i := from; i < end; i++ {
		w.next, w.ring = append(w.next, i+1), append(w.ring, int32(len(w.start)-1))
	}
	w.next[end-1] = from
	w.start = append(w.start, end)
}

// plant makes the tree.
func (w *web) plant() {
	n := (len(w.at) + leafEdges - 1) / leafEdges
	store := make([]box, 0, 2*n+64)
	for i := 0; i < len(w.at); i += leafEdges {
		b := emptyBox
		for e := i; e < min(i+leafEdges, len(w.at)); e++ {
			b.add(w.at[e])
			b.add(w.at[w.next[e]])
		}
		b.lo.X, b.lo.Y, b.hi.X, b.hi.Y = b.lo.X-snap, b.lo.Y-snap, b.hi.X+snap, b.hi.Y+snap
		store = append(store, b)
	}
	w.rows = stacked(store)
}

// span gives the edges below n: from, and one past the last.
func (w *web) span(n node) (from, end int32) {
	size := int32(leafEdges << n.row)
	at := int32(n.at)
	return at * size, min((at+1)*size, int32(len(w.at)))
}

// pairs calls f for the edges of every pair of leaves, one of w and one of v,
// whose boxes meet; with w == v each pair once, and each leaf with itself.
func (w *web) pairs(v *web, f func(i, j int32)) {
	if len(w.at) == 0 || len(v.at) == 0 {
		return
	}
	w.leaves(&v.boxes, func(m, n node) bool {
		fromA, endA := w.span(m)
		fromB, endB := v.span(n)
		for i := fromA; i < endA; i++ {
			for j := fromB; j < endB; j++ {
				if w != v || m != n || j > i {
					f(i, j)
				}
			}
		}
		return false
	})
}

// near calls f for every edge of w in a leaf whose box meets b.
func (w *web) near(b box, f func(j int32)) {
	if len(w.at) == 0 {
		return
	}
	var stack [64]node
	stack[0] = w.root()
	for top := 1; top > 0; {
		top--
		n := stack[top]
		if !w.box(n).meets(b) {
			continue
		}
		if n.row == 0 {
			from, end := w.span(n)
			for j := from; j < end; j++ {
				f(j)
			}
			continue
		}
		first, second, two := w.children(n)
		stack[top] = first
		top++
		if two {
			stack[top] = second
			top++
		}
	}
}

// around tells how many times the rings go round p, seen along the ray from p
// towards +x, or towards +y where upright is set. Edges through p itself do not
// count. A stretch of one ring that lies wholly beyond p on the ray's side is
// crossed as often as its ends say, so that only boxes around p are opened.
func (w *web) around(p Point, upright bool) int32 {
	if len(w.at) == 0 {
		return 0
	}
	// Turned a quarter to the right, upwards becomes +x: the height across the
	// ray is then -x.
	height := func(q Point) float64 { return q.Y }
	if upright {
		height = func(q Point) float64 { return -q.X }
	}
	h, count := height(p), int32(0)
	var stack [64]node
	stack[0] = w.root()
	for top := 1; top > 0; {
		top--
		n := stack[top]
		b := w.box(n)
		lo, hi, nearest, farthest, from := b.lo.Y, b.hi.Y, b.lo.X, b.hi.X, p.X
		if upright {
			lo, hi, nearest, farthest, from = -b.hi.X, -b.lo.X, b.lo.Y, b.hi.Y, p.Y
		}
		if h < lo || h >= hi || from > farthest {
			continue
		}
		i, end := w.span(n)
		if from < nearest && w.ring[i] == w.ring[end-1] {
			count += rises(height(w.at[i]), height(w.at[w.next[end-1]]), h)
			continue
		}
		if n.row > 0 {
			first, second, two := w.children(n)
			stack[top] = first
			top++
			if two {
				stack[top] = second
				top++
			}
			continue
		}
		for ; i < end; i++ {
			c, d := w.at[i], w.at[w.next[i]]
			if s := rises(height(c), height(d), h); s != 0 && float64(s)*side(c, d, p) > 0 {
				count += s
			}
		}
	}
	return count
}

// rises tells whether a line from height a to height b comes up through h (1),
// down through it (-1), or neither. An end at h itself counts as below it.
func rises(a, b, h float64) int32 {
	switch {
	case a <= h && b > h:
		return 1
	case a > h && b <= h:
		return -1
	}
	return 0
}

// split is a point to be put into an edge.
type split struct {
	edge  int32
	along float64 // how far from the edge's first point
	at    Point
}

// divided gives the web with points put into its edges, and tells which edges
// are new.
func (w *web) divided(by []split) (*web, []int32) {
	if len(by) == 0 {
		return w, nil
	}
	for i := range by {
		s := &by[i]
		a, b := w.at[s.edge], w.at[w.next[s.edge]]
		s.along = s.at.minus(a).dot(b.minus(a))
	}
	slices.SortFunc(by, func(a, b split) int {
		switch {
		case a.edge != b.edge:
			return int(a.edge - b.edge)
		case a.along < b.along:
			return -1
		case a.along > b.along:
			return 1
		}
		return 0
	})
	n := len(w.at) + len(by)
	d := &web{start: []int32{0}}
	d.at, d.next, d.ring, d.joint = make([]Point, 0, n), make([]int32, 0, n), make([]int32, 0, n), make([]bool, 0, n)
	var fresh []int32
	k := 0
	for r := range len(w.start) - 1 {
		for i := w.start[r]; i < w.start[r+1]; i++ {
			d.at, d.joint = append(d.at, w.at[i]), append(d.joint, w.joint[i])
			if k == len(by) || by[k].edge != i {
				continue
			}
			fresh = append(fresh, int32(len(d.at)-1))
			for ; k < len(by) && by[k].edge == i; k++ {
				if p := by[k].at; p != d.at[len(d.at)-1] && p != w.at[w.next[i]] {
					fresh = append(fresh, int32(len(d.at)))
					d.at, d.joint = append(d.at, p), append(d.joint, true)
				}
			}
		}
		d.close()
	}
	d.plant()
	return d, fresh
}
