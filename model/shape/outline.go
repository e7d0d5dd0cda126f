package shape

import (
	"errors"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// steepest is the most that walls may lean from upright.
const steepest = 60 * unit.Degree

// NewOutline makes a cavity from its outline at the rim or at the floor, with
// walls that lean outward by the draft (inward when it is negative): planes
// that all lean alike and meet in mitre lines. It is an error when the outline
// is not valid, when a side would shrink to nothing within the depth, or when
// walls would run into each other.
//
// Moving every edge inward by t takes each point along its mitre and the area
// to A - P·t + K·t², where P is the perimeter and K = Σ tan(turn/2) over the
// signed turns at the points, for as long as no edge vanishes. (For a square
// of side a: a² - 4a·t + 4t².)
func NewOutline(ring Ring, atRim bool, draft unit.Angle, depth unit.Length) (Cavity, error) {
	if err := checkSize("depth", depth); err != nil {
		return nil, err
	}
	if !(draft >= -steepest && draft <= steepest) {
		return nil, fmt.Errorf("the draft must be within %.0f° of upright", steepest.Degrees())
	}
	if err := ring.Validate(); err != nil {
		return nil, err
	}
	r, at := ring.tidy()
	lean := math.Tan(float64(draft))
	if lean == 0 {
		return newFreeform(r, r, float64(depth)), nil
	}
	inset := float64(depth) * lean // of the far end
	if !atRim {
		inset = -inset
	}
	half, mitre := r.turns()
	if edge, t := r.vanishing(half, inset); edge >= 0 {
		from := "rim"
		if !atRim {
			from = "floor"
		}
		return nil, fmt.Errorf("the side from point %d to point %d would shrink to nothing %.1f mm from the %s; give a smaller draft, or an outline with fewer points",
			at[edge]+1, at[r.next(edge)]+1, t/math.Abs(lean)*1000, from)
	}
	far := make(Ring, len(r))
	for i, p := range r {
		far[i] = Point{p.X + inset*mitre[i].X, p.Y + inset*mitre[i].Y}
	}
	if _, _, hit := far.crossing(); hit || far.Signed() < leastArea {
		return nil, errors.New("the walls lean so much that they would run into each other")
	}
	if atRim {
		return newFreeform(far, r, float64(depth)), nil
	}
	return newFreeform(r, far, float64(depth)), nil
}

// NewOutlineSizes makes a cavity from its outline at the rim or at the floor
// and from how many times as long and wide it is at the other end. The outline
// is stretched evenly from end to end, about the middle of its bounding box.
func NewOutlineSizes(ring Ring, atRim bool, scaleX, scaleY float64, depth unit.Length) (Cavity, error) {
	if err := checkSize("depth", depth); err != nil {
		return nil, err
	}
	if !(scaleX > 0.01 && scaleX < 100 && scaleY > 0.01 && scaleY < 100) {
		return nil, errors.New("the sizes at the other end must be more than zero and like those of the outline")
	}
	if err := ring.Validate(); err != nil {
		return nil, err
	}
	r, _ := ring.tidy()
	lo, hi := r.Bounds()
	m := lo.toward(hi, 0.5)
	far := r.Moved(-m.X, -m.Y).Scaled(scaleX, scaleY).Moved(m.X, m.Y)
	switch {
	case scaleX == 1 && scaleY == 1:
		return newFreeform(r, r, float64(depth)), nil
	case atRim:
		return newFreeform(far, r, float64(depth)), nil
	}
	return newFreeform(r, far, float64(depth)), nil
}

// turns gives, for each point of a counterclockwise ring, the tangent of half
// the turn there and how far the point moves for each metre inward.
func (r Ring) turns() (half []float64, mitre []Point) {
	half, mitre = make([]float64, len(r)), make([]Point, len(r))
	for i := range r {
		j, k := r.next(i), r.next(r.next(i))
		u, v := direction(r[i], r[j]), direction(r[j], r[k])
		one := 1 + u.dot(v)
		half[j] = u.cross(v) / one
		mitre[j] = Point{-(u.Y + v.Y) / one, (u.X + v.X) / one}
	}
	return half, mitre
}

// direction gives the unit vector from a to b.
func direction(a, b Point) Point {
	d := b.minus(a)
	l := d.norm()
	return Point{d.X / l, d.Y / l}
}

// vanishing finds the edge that first reaches zero length when all move inward
// by up to inset (outward when negative), and how far they have moved then; -1
// when none does. Moving inward by t shortens an edge by t times the sum of
// the tangents of half the turns at its ends.
func (r Ring) vanishing(half []float64, inset float64) (edge int, t float64) {
	edge, t = -1, math.Abs(inset)
	for i := range r {
		j := r.next(i)
		rate := math.Copysign(half[i]+half[j], (half[i]+half[j])*inset)
		if d := r[j].minus(r[i]).norm() / rate; rate > 0 && d <= t {
			edge, t = i, d
		}
	}
	return edge, t
}
