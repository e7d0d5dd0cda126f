package shape

import "math"

// points calls f for the points of an arc in the order in which it is gone
// along, the last one left out.
func (o *overlaid) points(a arc, f func(p Point)) {
	w := o.web[a.of]
	r := w.ring[a.from]
	from, long := w.start[r], w.start[r+1]-w.start[r]
	for k := range a.many {
		at := a.from - from + k
		if a.back {
			at = a.from - from + a.many - k
		}
		f(w.at[from+at%long])
	}
}

// ends gives the joints at which an arc begins and ends.
func (a arc) ends() (tail, head int32) {
	if a.back {
		return a.head, a.tail
	}
	return a.tail, a.head
}

// leaves gives the direction in which an arc leaves its tail; comes gives the
// one that looks back from its head.
func (o *overlaid) leaves(a arc) Point { return o.direction(a, a.back) }
func (o *overlaid) comes(a arc) Point  { return o.direction(a, !a.back) }

// direction gives the way from one end of a chain to the point next to it.
func (o *overlaid) direction(a arc, end bool) Point {
	w := o.web[a.of]
	if end {
		e := a.last(w)
		return w.at[e].minus(w.at[w.next[e]])
	}
	return w.at[w.next[a.from]].minus(w.at[a.from])
}

// rings joins the arcs to rings. At a joint the ring goes on along the arc that
// bounds the same corner of what is wanted, the first one clockwise from where
// it came; a ring that comes back to a joint is closed there, so that rings
// touch at most at points. What encloses next to nothing is left out.
func (o *overlaid) rings() Region {
	var out Region
	o.trace(func(loop []arc) {
		if r := o.ring(loop); r != nil {
			out = append(out, r)
		}
	})
	return out
}

// ring gives the points of a loop; nil when it encloses next to nothing.
func (o *overlaid) ring(loop []arc) Ring {
	n := int32(0)
	for _, a := range loop {
		n += a.many
	}
	r := make(Ring, 0, n)
	for _, a := range loop {
		o.points(a, func(p Point) { r = append(r, p) })
	}
	if len(r) < 3 || math.Abs(r.Signed()) < leastArea {
		return nil
	}
	return r
}

// trace calls f for each ring as the list of its arcs. The list holds until the
// next call.
func (o *overlaid) trace(f func(loop []arc)) {
	leaving := make([][]int32, o.joints)
	for i, a := range o.arcs {
		if a.tail == alone {
			f(o.arcs[i : i+1])
			continue
		}
		tail, _ := a.ends()
		leaving[tail] = append(leaving[tail], int32(i))
	}
	used := make([]bool, len(o.arcs))
	seat := make([]int32, o.joints) // where on the way a joint is the tail of an arc, from 1
	var way []arc
	for i, a := range o.arcs {
		if a.tail == alone || used[i] {
			continue
		}
		way = way[:0]
		for at := int32(i); at != none && !used[at]; {
			used[at] = true
			a := o.arcs[at]
			tail, head := a.ends()
			way = append(way, a)
			seat[tail] = int32(len(way))
			if s := seat[head]; s > 0 {
				f(way[s-1:])
				for _, b := range way[s-1:] {
					t, _ := b.ends()
					seat[t] = 0
				}
				way = way[:s-1]
			}
			at = o.following(a, leaving[head], used)
		}
		for _, b := range way { // nothing is left open on a sound arrangement
			t, _ := b.ends()
			seat[t] = 0
		}
	}
}

// following chooses among the arcs that leave a joint the first one clockwise
// from the direction that an arc came from.
func (o *overlaid) following(a arc, leaving []int32, used []bool) int32 {
	best := int32(none)
	if len(leaving) == 1 {
		return leaving[0]
	}
	back := o.comes(a)
	for _, i := range leaving {
		if !used[i] && (best == none || sooner(back, o.leaves(o.arcs[i]), o.leaves(o.arcs[best]))) {
			best = i
		}
	}
	return best
}

// sooner tells whether, turning clockwise from the direction r, one comes to d
// before e. Directions are differences of points of the grid.
func sooner(r, d, e Point) bool {
	if u, v := quarter(r, d), quarter(r, e); u != v {
		return u < v
	}
	return side(Point{}, d, e) < 0
}

// quarter tells how far clockwise from r the direction d lies: less than half
// a turn, half a turn, more, or all of it.
func quarter(r, d Point) int {
	switch s := side(Point{}, r, d); {
	case s < 0:
		return 0
	case s > 0:
		return 2
	case r.dot(d) < 0:
		return 1
	}
	return 3
}
