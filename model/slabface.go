package model

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/sight"
	"meniscus/model/unit"
)

// slabs works out the faces of all slabs.
func (m *maker) slabs() {
	for i := range m.p.Slabs {
		s := &m.p.Slabs[i]
		p := SlabPlan{ID: s.ID, Name: s.Name}
		p.Upper = m.face(s, FaceUpper, nil)
		if s.Under.shot() {
			p.Under = m.face(s, FaceUnder, &p.Upper)
		} else {
			p.Under = p.Upper
			p.Under.Shot, p.Under.Wrong = false, nil
		}
		m.plan.Slabs = append(m.plan.Slabs, p)
	}
}

// shot tells whether a face has a photo or an outline of its own.
func (t *Tracing) shot() bool { return t.Photo != "" || len(t.Rings) > 0 }

// facing is one face of a slab in the making.
type facing struct {
	*maker
	slab *Slab
	t    *Tracing
	path string
	ref  reference
	fit  sight.Fit
	lens lens
	plan FacePlan
}

// face straightens a face and measures what was traced in it. The under face
// is laid below the upper one.
func (m *maker) face(s *Slab, face Face, upper *FacePlan) FacePlan {
	f := facing{maker: m, slab: s, t: s.Face(face), path: "slabs/" + s.ID + "/" + string(face)}
	f.plan.Shot = f.t.shot()
	if !f.solve() {
		return f.plan
	}
	f.raise()
	if face == FaceUnder {
		f.plan.Plane = f.plan.Plane.Mirrored()
	}
	f.place(f.rings(), upper)
	f.measure()
	f.findFace()
	return f.plan
}

func (f *facing) wrong(field, message string) {
	f.plan.Wrong = append(f.plan.Wrong, Problem{f.path + field, message})
}

// touch is the half-width of a touched pixel, said or typical.
func (f *facing) touch() float64 { return f.t.touches() }

func (f *facing) longSide() float64 { return f.t.longSide() }

// touches is how far a touched point may be off, in pixels: as said, else so
// much of the picture's longer side, and never less than one.
func (t *Tracing) touches() float64 {
	if t.Touch > 0 {
		return t.Touch
	}
	return max(1, float64(typicalTouch)*t.longSide())
}

// longSide is the longer side of the picture in pixels.
func (t *Tracing) longSide() float64 {
	if side := max(t.Wide, t.High); side > 0 {
		return float64(side)
	}
	const usual = 4000
	return usual
}

// usual tells what stands in for a field of a tracing.
func (t *Tracing) usual(field string) (Usual, bool) {
	switch field {
	case "touch":
		return Usual{Value: fmt.Sprintf("%.1f", t.touches()), Why: commonPractice}, true
	case "rise":
		return Usual{Why: "the face is taken to be level with the marks"}, true
	case "camera":
		return Usual{Why: "it is taken from the perspective where the photo is tilted enough to tell, else a usual lens stands in"}, true
	}
	return Usual{}, false
}

// middle is the middle of the picture; false while its size is not known.
func (f *facing) middle() (shape.Point, bool) {
	return shape.Point{X: float64(f.t.Wide) / 2, Y: float64(f.t.High) / 2}, f.t.Wide > 0 && f.t.High > 0
}

// solve straightens the photo, or notes why that cannot be.
func (f *facing) solve() bool {
	if !f.plan.Shot && len(f.t.Marks) == 0 {
		return false
	}
	ref, wrong := f.reference(f.t, f.path)
	if wrong != nil {
		f.plan.Wrong = append(f.plan.Wrong, *wrong)
		return false
	}
	fit, err := sight.Solve(ref.marks)
	if err != nil {
		field := "/marks"
		var fault *sight.Fault
		if errors.As(err, &fault) && len(fault.Marks) > 0 {
			field += "/" + f.t.Marks[fault.Marks[len(fault.Marks)-1]].ID
		}
		f.wrong(field, err.Error())
		return false
	}
	f.ref, f.fit = ref, fit
	if f.t.By == ByCorners {
		f.turnSides()
	}
	f.plan.Solved = true
	f.plan.Plane, f.plan.Residual = f.fit.Plane, f.fit.Residual
	if len(f.t.Marks) > corners {
		f.plan.Off = f.fit.Off
	}
	return true
}

// turnSides puts the mold's length to those of its sides that a real lens would
// show so: the corners do not say which is which.
func (f *facing) turnSides() {
	if turned, better := f.otherSides(1); better {
		f.ref, f.fit = *f.ref.turned, turned
	}
}

// otherSides solves with the two sides of the rectangle in each other's place
// and tells whether a real lens would rather have seen that, by more than so
// many times.
func (f *facing) otherSides(times float64) (sight.Fit, bool) {
	middle, known := f.middle()
	if f.ref.turned == nil || !known {
		return sight.Fit{}, false
	}
	turned, err := sight.Solve(f.ref.turned.marks)
	if err != nil {
		return turned, false
	}
	side := f.longSide()
	return turned, turned.Square(middle, side)*times < f.fit.Square(middle, side)
}

// place lays the outlines, with the plane, into the slab's axes.
func (f *facing) place(list []traced, upper *FacePlan) {
	region := make(shape.Region, len(list))
	for i := range list {
		region[i] = list[i].ring
	}
	if upper != nil && len(upper.Region) > 0 && len(region) > 0 {
		f.below(region, upper)
		return
	}
	lo, hi := region.Bounds()
	dx, dy := -(lo.X+hi.X)/2, -(lo.Y+hi.Y)/2
	f.plan.Plane, f.plan.Region = f.plan.Plane.Moved(dx, dy), region.Moved(dx, dy)
}

// below lays the under face below the upper one so that their outlines agree
// best. It was mirrored already, since it was shot from its own side.
func (f *facing) below(region shape.Region, upper *FacePlan) {
	under, over := largest(region), largest(upper.Region)
	laid := shape.Align(under, over)
	f.plan.Plane = f.plan.Plane.Turned(laid.Turn)
	f.plan.Plane = f.plan.Plane.Moved(laid.By.X, laid.By.Y)
	f.plan.Region = region.Turned(laid.Turn).Moved(laid.By.X, laid.By.Y)
	f.plan.LeanMost, f.plan.LeanMean = laid.Of(under).Apart(shape.NewBorder(over))
}

// largest is the ring that encloses the most.
func largest(r shape.Region) shape.Ring {
	return slices.MaxFunc(r, func(a, b shape.Ring) int {
		switch u, v := a.Area(), b.Area(); {
		case u < v:
			return -1
		case u > v:
			return 1
		}
		return 0
	})
}

// measure gives the area of the wood with its uncertainty: the scale that the
// marks give, the hand that followed the outline, and the lens above a raised
// face.
func (f *facing) measure() {
	area := f.plan.Region.Area()
	if area <= 0 {
		return
	}
	touch := f.touch() / sqrt3
	share := f.fit.ScaleDoubt(f.centre(), max(touch, f.fit.Scatter), f.ref.shifts...)
	share = math.Hypot(share, f.lens.areaOff)
	sigma := share * float64(area)
	for i := range f.t.Rings {
		r := &f.t.Rings[i]
		if f.kept(r.ID) {
			sigma = math.Hypot(sigma, f.plan.Plane.OutlineDoubt(r.Points, touch))
		}
	}
	f.plan.Area = Estimate[unit.Area]{area, unit.Area(sigma), area - unit.Area(quantile5*sigma), area + unit.Area(quantile5*sigma)}
}

// kept tells whether an outline is part of the region.
func (f *facing) kept(ring string) bool {
	field := f.path + "/rings/" + ring
	return !slices.ContainsFunc(f.plan.Wrong, func(w Problem) bool { return w.Field == field })
}

// centre is the centroid of the wood in the plane of the marks as it was
// solved.
func (f *facing) centre() shape.Point {
	var x, y, sum float64
	for _, r := range f.plan.Region {
		a, c := r.Signed(), r.Centroid()
		x, y, sum = x+a*c.X, y+a*c.Y, sum+a
	}
	return f.fit.At(f.plan.Plane.Pixel(shape.Point{X: x / sum, Y: y / sum}))
}
