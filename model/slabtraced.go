package model

import (
	"fmt"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// rings maps the traced outlines into the plane. Those that cannot stand are
// left out, with a word.
func (f *facing) rings() []traced {
	var list []traced
	for i := range f.t.Rings {
		r := &f.t.Rings[i]
		if len(r.Points) == 0 {
			continue
		}
		at := "/rings/" + r.ID
		ring, unseen := f.seen(r.Points)
		if unseen != none {
			f.wrong(at, fmt.Sprintf("point %d lies beyond where the plane vanishes in the photo; move it, or check the marks", unseen+1))
			continue
		}
		ring, err := standing(ring)
		if err != nil {
			f.wrong(at, err.Error())
			continue
		}
		if solid := r.Kind != RingHole; solid != (ring.Signed() > 0) {
			slices.Reverse(ring[1:])
		}
		list = append(list, traced{r, ring, shape.NewBorder(ring)})
	}
	return f.nested(list)
}

// traced is an outline with its place in the plane.
type traced struct {
	*TracedRing
	ring   shape.Ring
	border shape.Border
}

// seen maps an outline into the plane, or names the first point that the photo
// does not show there.
func (f *facing) seen(points shape.Ring) (shape.Ring, int) {
	ring := make(shape.Ring, len(points))
	for i, p := range points {
		if !f.plan.Plane.Sees(p) {
			return nil, i
		}
		ring[i] = f.plan.Plane.At(p)
	}
	return ring, none
}

// finest is how far an outline may be simplified without that showing: less
// than any touch.
const finest = 0.1 * unit.Millimetre

// standing gives an outline that does not cross itself. One that was pushed
// together until its points sit a hair apart may need to lose some.
func standing(r shape.Ring) (shape.Ring, error) {
	err := r.Validate()
	if err == nil {
		return r, nil
	}
	if s := r.Simplified(finest); len(s) < len(r) && s.Validate() == nil {
		return s, nil
	}
	return nil, err
}

// nested leaves out outlines that cross another one before them, and those that
// enclose nothing: a hole with no wood around it, wood in wood.
func (f *facing) nested(list []traced) []traced {
	var kept []traced
	for _, t := range list {
		i := slices.IndexFunc(kept, func(k traced) bool { return t.border.Crosses(k.border) })
		if i >= 0 {
			f.wrong("/rings/"+t.ID, "this outline crosses another one; pull them apart, or take one away")
			continue
		}
		kept = append(kept, t)
	}
	for {
		i := slices.IndexFunc(kept, func(t traced) bool { return !fits(t, kept) })
		if i < 0 {
			return kept
		}
		message := "this hole lies outside the wood; move it, or trace the wood around it"
		if kept[i].Kind != RingHole {
			message = "this outline of wood lies in wood already; make it a hole, or take it away"
		}
		f.wrong("/rings/"+kept[i].ID, message)
		kept = slices.Delete(kept, i, i+1)
	}
}

// fits tells whether an outline lies where its kind can: wood in no other
// outline or in a hole, a hole in wood.
func fits(t traced, all []traced) bool {
	depth := 0
	for _, o := range all {
		if o.TracedRing != t.TracedRing && o.border.Contains(t.ring[0]) {
			if o.Kind == RingHole {
				depth--
			} else {
				depth++
			}
		}
	}
	if t.Kind == RingHole {
		return depth == 1
	}
	return depth == 0
}
