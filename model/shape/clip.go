package shape

import "slices"

// winding is how many times each of two regions goes round a place.
type winding [2]int32

// What of two regions is wanted.
func both(w winding) bool      { return w[0] > 0 && w[1] > 0 }
func either(w winding) bool    { return w[0] > 0 || w[1] > 0 }
func onlyFirst(w winding) bool { return w[0] > 0 && w[1] <= 0 }

// chain is a stretch of a ring between two joints, in which no other edge takes
// part, or a whole ring without any.
type chain struct {
	of         int     // the web
	from, many int32   // its first edge, and how many
	tail, head int32   // joints by number; none for a ring without any
	turns      winding // by how much the windings to its left exceed those to its right
	left       winding
	known      bool
}

// alone stands for the joints of a ring that has none.
const alone = -1

// overlaid is two regions laid over each other: chains that only meet at their
// ends, and of those the ones that bound what is wanted.
type overlaid struct {
	web    [2]*web
	joints int
	chains []chain
	arcs   []arc
}

// arc is a chain that bounds what is wanted, which lies to its left.
type arc struct {
	*chain
	back bool // it is gone along backwards
}

// overlay lays two webs over each other (b may be nil) and keeps the edges that
// have what is wanted on one side only.
func overlay(a, b *web, want func(winding) bool) *overlaid {
	if b == nil {
		b = &web{start: []int32{0}, clean: true}
	}
	o := &overlaid{}
	o.web[0], o.web[1] = divide(a, b)
	o.link()
	o.merge()
	o.wind()
	for i := range o.chains {
		c := &o.chains[i]
		right := winding{c.left[0] - c.turns[0], c.left[1] - c.turns[1]}
		if in := want(c.left); in != want(right) {
			o.arcs = append(o.arcs, arc{c, !in})
		}
	}
	return o
}

// link numbers the joints and finds the chains between them.
func (o *overlaid) link() {
	type place struct {
		at    Point
		of    int
		point int32
	}
	var places []place
	var number [2][]int32
	for k, w := range o.web {
		number[k] = make([]int32, len(w.at))
		for i, joint := range w.joint {
			if joint {
				places = append(places, place{w.at[i], k, int32(i)})
			}
		}
	}
	slices.SortFunc(places, func(a, b place) int { return earlier(a.at, b.at) })
	for i, p := range places {
		if i > 0 && p.at != places[i-1].at {
			o.joints++
		}
		number[p.of][p.point] = int32(o.joints)
	}
	o.joints++
	for k, w := range o.web {
		turns := winding{}
		turns[k] = 1
		for r := range len(w.start) - 1 {
			from, end := w.start[r], w.start[r+1]
			first := from
			for first < end && !w.joint[first] {
				first++
			}
			if first == end {
				o.chains = append(o.chains, chain{of: k, from: from, many: end - from, tail: alone, head: alone, turns: turns})
				continue
			}
			for i := first; ; {
				c := chain{of: k, from: i, many: 1, tail: number[k][i], turns: turns}
				for i = w.next[i]; !w.joint[i]; i = w.next[i] {
					c.many++
				}
				c.head = number[k][i]
				o.chains = append(o.chains, c)
				if i == first {
					break
				}
			}
		}
	}
}

// merge makes one chain of edges that lie on each other. Only single edges can:
// where longer stretches do, all their points are joints.
func (o *overlaid) merge() {
	var single []int
	for i := range o.chains {
		if c := &o.chains[i]; c.many == 1 && c.tail != alone {
			single = append(single, i)
		}
	}
	ends := func(i int) (lo, hi int32) {
		c := &o.chains[i]
		return min(c.tail, c.head), max(c.tail, c.head)
	}
	slices.SortFunc(single, func(i, j int) int {
		a, b := ends(i)
		c, d := ends(j)
		if a != c {
			return int(a - c)
		}
		if b != d {
			return int(b - d)
		}
		return i - j
	})
	gone := false
	for n := 0; n < len(single); {
		c := &o.chains[single[n]]
		lo, hi := ends(single[n])
		for n++; n < len(single); n++ {
			if a, b := ends(single[n]); a != lo || b != hi {
				break
			}
			d := &o.chains[single[n]]
			sign := int32(1)
			if d.tail != c.tail {
				sign = -1
			}
			c.turns[0] += sign * d.turns[0]
			c.turns[1] += sign * d.turns[1]
			d.many, gone = 0, true
		}
	}
	if gone {
		o.chains = slices.DeleteFunc(o.chains, func(c chain) bool { return c.many == 0 || c.turns == winding{} })
	}
}

// wind finds the windings beside each chain from a ray that starts at the
// middle of one of its edges. Where only two chains meet, and alike, the second
// has what the first has.
func (o *overlaid) wind() {
	ends := make([][2]int32, o.joints) // the first two chains at each joint, by number from 1
	count := make([]int32, o.joints)
	note := func(joint int32, i int) {
		if joint != alone {
			if count[joint] < 2 {
				ends[joint][count[joint]] = int32(i + 1)
			}
			count[joint]++
		}
	}
	for i := range o.chains {
		note(o.chains[i].tail, i)
		note(o.chains[i].head, i)
	}
	// other gives the chain beyond a joint where only two meet.
	other := func(joint int32, i int) int {
		if joint == alone || count[joint] != 2 {
			return none
		}
		for _, n := range ends[joint] {
			if int(n-1) != i {
				return int(n - 1)
			}
		}
		return none
	}
	for i := range o.chains {
		c := &o.chains[i]
		if c.known {
			continue
		}
		o.ray(c)
		for _, joint := range [2]int32{c.tail, c.head} {
			for at, d := i, c; ; {
				n := other(joint, at)
				if n == none || o.chains[n].known {
					break
				}
				e := &o.chains[n]
				along := d.head == joint && e.tail == joint || d.tail == joint && e.head == joint
				e.known = true
				if along && e.turns == d.turns {
					e.left = d.left
				} else if !along && e.turns == (winding{-d.turns[0], -d.turns[1]}) {
					e.left = winding{d.left[0] - d.turns[0], d.left[1] - d.turns[1]}
				} else {
					e.known = false
					break
				}
				if e.tail == e.head {
					break
				}
				joint = e.tail + e.head - joint
				at, d = n, e
			}
		}
	}
}

const none = -1

// ray finds the windings beside one chain.
func (o *overlaid) ray(c *chain) {
	w := o.web[c.of]
	i := c.from
	for k := c.from; ; k = w.next[k] { // the first edge that a level ray crosses well
		if !level(w.at[k], w.at[w.next[k]]) {
			i = k
			break
		}
		if k == c.last(w) {
			break
		}
	}
	a, b := w.at[i], w.at[w.next[i]]
	upright := level(a, b)
	p := Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	up := b.Y > a.Y
	if upright {
		up = b.X < a.X
	}
	c.known = true
	for k, v := range o.web {
		c.left[k] = v.around(p, upright)
		if up { // the ray leaves to the right
			c.left[k] += c.turns[k]
		}
	}
}

// last gives the last edge of the chain.
func (c *chain) last(w *web) int32 {
	r := w.ring[c.from]
	from, long := w.start[r], w.start[r+1]-w.start[r]
	return from + (c.from-from+c.many-1)%long
}
