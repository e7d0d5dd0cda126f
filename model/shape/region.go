package shape

import (
	"errors"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Region is a part of the plane: outlines that run counterclockwise, holes in
// them that run clockwise, islands in those, and so on. Rings of a region
// neither cross nor overlap; they may touch at points. The methods that give a
// region leave the one that they are called on as it is.
type Region []Ring

// NewRegion makes a region of rings however they run: a place belongs to it
// when it lies inside an odd number of them (the even-odd rule), so that a
// ring in a ring is a hole. Rings that cross themselves or each other are
// divided where they do. Points that are not finite or farther than a
// kilometre from the origin make their ring count as nothing.
func NewRegion(rings ...Ring) Region {
	return overlay(weave(rings), nil, func(w winding) bool { return w[0]&1 != 0 }).rings()
}

// And gives what lies in both regions.
func (a Region) And(b Region) Region { return overlay(weave(a), weave(b), both).rings() }

// Or gives what lies in either region.
func (a Region) Or(b Region) Region { return overlay(weave(a), weave(b), either).rings() }

// Without gives what lies in a and not in b.
func (a Region) Without(b Region) Region { return overlay(weave(a), weave(b), onlyFirst).rings() }

// Area gives the area of the region, its holes taken out.
func (a Region) Area() unit.Area {
	sum := 0.0
	for _, r := range a {
		sum += r.Signed()
	}
	return unit.Area(sum)
}

// Perimeter gives the length of all outlines, those of holes too.
func (a Region) Perimeter() unit.Length {
	sum := unit.Length(0)
	for _, r := range a {
		sum += r.Perimeter()
	}
	return sum
}

// Contains tells whether p lies in the region. A point on an outline may count
// as either.
func (a Region) Contains(p Point) bool {
	in := false
	for _, r := range a {
		if r.Contains(p) {
			in = !in
		}
	}
	return in
}

// Bounds gives the corners of the smallest upright rectangle around the
// region; both are the origin when there is nothing in it.
func (a Region) Bounds() (lo, hi Point) {
	b := emptyBox
	for _, r := range a {
		for _, p := range r {
			b.add(p)
		}
	}
	if b == emptyBox {
		return Point{}, Point{}
	}
	return b.lo, b.hi
}

// Moved gives the region shifted by dx and dy in metres.
func (a Region) Moved(dx, dy float64) Region {
	m := make(Region, len(a))
	for i, r := range a {
		m[i] = r.Moved(dx, dy)
	}
	return m
}

// Turned gives the region turned counterclockwise about the origin.
func (a Region) Turned(by unit.Angle) Region {
	m := make(Region, len(a))
	for i, r := range a {
		m[i] = r.Turned(by)
	}
	return m
}

// Parts divides the region into pieces that hang together: each is one outline
// and the holes in it. An island in a hole is a part of its own.
func (a Region) Parts() []Region {
	var parts []Region
	for _, r := range a {
		if r.Signed() > 0 {
			parts = append(parts, Region{r})
		}
	}
	for _, r := range a {
		if r.Signed() >= 0 {
			continue
		}
		p := r[0].toward(r[1], 0.5)
		best := -1
		for i := range parts {
			if parts[i][0].Contains(p) && (best < 0 || parts[i][0].Area() < parts[best][0].Area()) {
				best = i
			}
		}
		if best >= 0 {
			parts[best] = append(parts[best], r)
		}
	}
	return parts
}

// Validate tells what is wrong with the region, or nil: every ring must be
// valid by itself, no two may cross, and each must run the way that its place
// asks, counterclockwise for an outline and clockwise for a hole. Rings are
// numbered from 1.
func (a Region) Validate() error {
	trees := make([]*tree, len(a))
	for i, r := range a {
		if err := r.Validate(); err != nil {
			return fmt.Errorf("ring %d: %w", i+1, err)
		}
		trees[i] = grow(r)
	}
	for i := range a {
		depth := 0
		for j := range a {
			if i == j {
				continue
			}
			if j > i && trees[i].leaves(&trees[j].boxes, trees[i].crossesDeep(trees[j])) {
				return fmt.Errorf("ring %d and ring %d cross each other", i+1, j+1)
			}
			if trees[j].contains(a[i].off(trees[j])) {
				depth++
			}
		}
		switch solid := a[i].Signed() > 0; {
		case solid && depth%2 == 1:
			return fmt.Errorf("ring %d lies in another outline and runs the same way round", i+1)
		case !solid && depth%2 == 0:
			return fmt.Errorf("ring %d is a hole that lies in no outline", i+1)
		}
	}
	if math.IsNaN(float64(a.Area())) {
		return errors.New("the region has no area that could be told")
	}
	return nil
}

// off gives a point of r, or the middle of an edge, that lies clear of the
// ring of t, so that it tells on which side of that r lies.
func (r Ring) off(t *tree) Point {
	best, far := r[0], -1.0
	for i, p := range r {
		for _, q := range [2]Point{p, p.toward(r[r.next(i)], 0.5)} {
			if d := t.square(q, math.Inf(1)); d > far {
				best, far = q, d
			}
			if far > touching*touching {
				return best
			}
		}
	}
	return best
}

// crossesDeep gives a test of two leaves: whether edges of theirs cross by
// more than a touch.
func (t *tree) crossesDeep(u *tree) func(m, n node) bool {
	a, b := t.ring, u.ring
	return func(m, n node) bool {
		fromA, endA := t.span(m)
		fromB, endB := u.span(n)
		for i := fromA; i < endA; i++ {
			for j := fromB; j < endB; j++ {
				if crossDeep(a[i], a[a.next(i)], b[j], b[b.next(j)]) {
					return true
				}
			}
		}
		return false
	}
}
