package shape

import (
	"errors"
	"fmt"
	"math"
)

const (
	leastArea = 1e-12 // m²; an outline around less encloses nothing
	farthest  = 1e3   // m; a point farther out is a mistake of units
)

// Validate tells what is wrong with the ring as an outline, or nil: it needs
// at least three different points, all finite and within a kilometre of the
// origin, must enclose some area, and must neither cross nor touch itself.
// Points are numbered from 1. A point that repeats the one before is allowed.
func (r Ring) Validate() error {
	for i, p := range r {
		if !p.finite() {
			return fmt.Errorf("point %d is not a finite number", i+1)
		}
		if math.Abs(p.X) > farthest || math.Abs(p.Y) > farthest {
			return fmt.Errorf("point %d is more than a kilometre away", i+1)
		}
	}
	t, at := r.tidy()
	if len(t) < 3 {
		return errors.New("an outline needs at least three different points")
	}
	number := func(i int) int { return at[i%len(at)] + 1 }
	for i := range t {
		a, b, c := t[i], t[t.next(i)], t[t.next(t.next(i))]
		if u, v := b.minus(a), c.minus(b); u.turn(v) == 0 && u.dot(v) <= 0 {
			return fmt.Errorf("the outline doubles back on itself at point %d", number(i+1))
		}
	}
	if a, b, ok := t.crossing(); ok {
		return fmt.Errorf("the outline crosses itself: the line from point %d to point %d meets the line from point %d to point %d",
			number(a), number(a+1), number(b), number(b+1))
	}
	if math.Abs(t.Signed()) < leastArea {
		return errors.New("the outline encloses no area")
	}
	return nil
}

// crossing finds two edges that are not neighbours and meet, by the index of
// their first points.
func (r Ring) crossing() (i, j int, found bool) {
	t := grow(r)
	found = t.leaves(&t.boxes, func(a, b node) bool {
		fromA, endA := t.span(a)
		fromB, endB := t.span(b)
		for i = fromA; i < endA; i++ {
			for j = fromB; j < endB; j++ {
				if a == b && j <= i || i == j || r.next(i) == j || r.next(j) == i {
					continue
				}
				if meet(r[i], r[r.next(i)], r[j], r[r.next(j)]) {
					return true
				}
			}
		}
		return false
	})
	return min(i, j), max(i, j), found
}

// meet tells whether the segments ab and cd have a point in common.
func meet(a, b, c, d Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	ab, cd := b.minus(a), d.minus(c)
	return !sameSide(cd.turn(a.minus(c)), cd.turn(b.minus(c))) &&
		!sameSide(ab.turn(c.minus(a)), ab.turn(d.minus(a)))
}

func sameSide(u, v float64) bool { return u > 0 && v > 0 || u < 0 && v < 0 }
