package shape

import "math"

// crossings looks for where edges of two webs, or of one, meet, and notes where
// each must be divided so that in the end edges only meet at their ends.
type crossings struct {
	web    [2]*web
	splits [2][]split
	found  []Point // where edges crossed away from their ends
	strict bool    // only what truly meets counts, not what comes near
}

// snap is more than the distance at which a point can bend an edge to itself.
const snap = 1.0 / gridSteps

// divide divides the edges of two webs at all the places where they meet or
// cross, themselves or each other, by snap rounding (Hobby 1999, Practical
// segment intersection with finite precision output): each end of an edge and
// each crossing, put on the grid, bends to itself all edges that pass through
// the square of one step around it. What is left then meets at ends only. A
// crossing very near the border of two squares can be put into the wrong one;
// so what is new is looked at again.
func divide(a, b *web) (*web, *web) {
	c := crossings{web: [2]*web{a, b}}
	for k, w := range c.web {
		if !w.clean {
			w.pairs(w, func(i, j int32) { c.look(k, i, k, j) })
		}
	}
	a.pairs(b, func(i, j int32) { c.look(0, i, 1, j) })
	const most = 20 // rounds; mostly two
	for range most {
		c.bend()
		var fresh [2][]int32
		for k := range c.web {
			c.web[k], fresh[k] = c.web[k].divided(c.splits[k])
			c.splits[k] = c.splits[k][:0]
		}
		if len(fresh[0])+len(fresh[1]) == 0 {
			break
		}
		c.strict = true
		for k, list := range fresh {
			w := c.web[k]
			for _, i := range list {
				b := emptyBox
				b.add(w.at[i])
				b.add(w.at[w.next[i]])
				for l, v := range c.web {
					v.near(b, func(j int32) {
						if k != l || i != j {
							c.look(k, i, l, j)
						}
					})
				}
			}
		}
	}
	return c.web[0], c.web[1]
}

// bend divides the edges that pass through the squares around the crossings.
func (c *crossings) bend() {
	for _, x := range c.found {
		b := emptyBox
		b.add(x)
		for k, w := range c.web {
			w.near(b, func(i int32) {
				if throughSquare(w.at[i], w.at[w.next[i]], x) {
					c.put(k, i, x)
				}
			})
		}
	}
	c.found = c.found[:0]
}

// look notes where edge i of web k and edge j of web l meet.
func (c *crossings) look(k int, i int32, l int, j int32) {
	w, v := c.web[k], c.web[l]
	in, jn := w.next[i], v.next[j]
	p, q, r, s := w.at[i], w.at[in], v.at[j], v.at[jn]
	if max(p.X, q.X) < min(r.X, s.X)-snap || max(r.X, s.X) < min(p.X, q.X)-snap ||
		max(p.Y, q.Y) < min(r.Y, s.Y)-snap || max(r.Y, s.Y) < min(p.Y, q.Y)-snap {
		return
	}
	if w == v && (in == j || jn == i) {
		if in == j {
			c.spike(k, i, j)
		} else {
			c.spike(k, j, i)
		}
		return
	}
	if p == r {
		w.joint[i], v.joint[j] = true, true
	}
	if p == s {
		w.joint[i], v.joint[jn] = true, true
	}
	if q == r {
		w.joint[in], v.joint[j] = true, true
	}
	if q == s {
		w.joint[in], v.joint[jn] = true, true
	}
	c.touch(k, i, v, j)
	c.touch(k, i, v, jn)
	c.touch(l, j, w, i)
	c.touch(l, j, w, in)
	if pr, ps := side(p, q, r), side(p, q, s); opposite(pr, ps) {
		if rp, rq := side(r, s, p), side(r, s, q); opposite(rp, rq) {
			x := meeting(p, q, rp, rq)
			c.put(k, i, x)
			c.put(l, j, x)
			c.found = append(c.found, x)
		}
	}
}

func opposite(u, v float64) bool { return u > 0 && v < 0 || u < 0 && v > 0 }

// spike looks whether edge j of web k, which follows on edge i, turns back
// along it. Neighbours have a point in common and cannot meet elsewhere but so.
func (c *crossings) spike(k int, i, j int32) {
	w := c.web[k]
	p, q, s := w.at[i], w.at[j], w.at[w.next[j]]
	if q.minus(p).dot(s.minus(q)) >= 0 {
		return
	}
	first, second := c.touch(k, i, w, w.next[j]), c.touch(k, j, w, i)
	if first || second || p == s {
		w.joint[i], w.joint[j], w.joint[w.next[j]] = true, true, true
	}
}

// touch divides edge i of web k at a point of web v, if it passes through the
// square around it, and tells whether it does. With strict it must pass through
// the point.
func (c *crossings) touch(k int, i int32, v *web, at int32) bool {
	w, p := c.web[k], v.at[at]
	a, b := w.at[i], w.at[w.next[i]]
	if p == a || p == b || !throughSquare(a, b, p) || c.strict && side(a, b, p) != 0 {
		return false
	}
	v.joint[at] = true
	c.splits[k] = append(c.splits[k], split{edge: i, at: p})
	return true
}

// throughSquare tells whether the edge from a to b passes through the square of
// one step around c, whose left and lower borders belong to it and whose right
// and upper ones do not.
func throughSquare(a, b, c Point) bool {
	const h = 0.5 / gridSteps
	if a.X > b.X {
		a, b = b, a
	}
	left, right, low, high := c.X-h, c.X+h, c.Y-h, c.Y+h
	if a.X >= right || b.X < left || min(a.Y, b.Y) >= high || max(a.Y, b.Y) < low {
		return false
	}
	if a.X == b.X || a.Y == b.Y {
		return true
	}
	// A line that goes through a corner either enters the square or only
	// touches it there, as it rises or falls.
	rising := a.Y < b.Y
	upperLeft := side(a, b, Point{left, high})
	if upperLeft == 0 {
		return !rising
	}
	upperRight := side(a, b, Point{right, high})
	if upperRight == 0 {
		return rising
	}
	if !sameSide(upperLeft, upperRight) {
		return true
	}
	lowerLeft := side(a, b, Point{left, low})
	if lowerLeft == 0 || !sameSide(lowerLeft, upperLeft) {
		return true
	}
	lowerRight := side(a, b, Point{right, low})
	if lowerRight == 0 {
		return !rising
	}
	return !sameSide(lowerRight, lowerLeft)
}

// put divides edge i of web k at x, or marks its end if x is there.
func (c *crossings) put(k int, i int32, x Point) {
	w := c.web[k]
	switch x {
	case w.at[i]:
		w.joint[i] = true
	case w.at[w.next[i]]:
		w.joint[w.next[i]] = true
	default:
		c.splits[k] = append(c.splits[k], split{edge: i, at: x})
	}
}

// earlier orders points from left to right, then upwards.
func earlier(a, b Point) int {
	switch {
	case a.X < b.X:
		return -1
	case a.X > b.X:
		return 1
	case a.Y < b.Y:
		return -1
	case a.Y > b.Y:
		return 1
	}
	return 0
}

// level tells whether an edge is level, or so nearly that a ray along x would
// hardly cross it.
func level(a, b Point) bool { return math.Abs(b.Y-a.Y) < math.Abs(b.X-a.X) }
