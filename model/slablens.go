package model

import (
	"fmt"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// lens is where the lens stood over the plane of the marks.
type lens struct {
	height  unit.Length
	sigma   unit.Length
	typical bool        // by a usual lens, since neither the maker nor the perspective tells
	foot    shape.Point // the place below it
	areaOff float64     // standard uncertainty of an area, as a share, that comes of the rise and of this height
}

const (
	nearest   = 0.9                  // of the way from the marks to the lens is as high as a face can lie
	lensTold  = 0.2                  // a height from the perspective that is surer than this share of it is taken
	lensInto  = 10 * unit.Millimetre // how far in from the outside of a camera its lens may lie (common practice, no source)
	lensShare = 0.01                 // and how far off a tape held to it may be, of the height
)

// raise finds the lens and raises the plane from the marks to the traced face.
//
// Seen from a point, two planes that lie one above the other differ by a
// scaling about the point below it: what lies r above the marks lies (H-r)/H
// as far from there as it seems, H being the height of the lens.
func (f *facing) raise() {
	f.findLens()
	r := f.t.Rise
	h := float64(f.lens.height)
	switch {
	case h == 0:
		return
	case !r.Given():
		f.open()
		return
	case r.Value == 0:
		return
	}
	rise := float64(r.Value)
	if rise > nearest*h {
		f.wrong("/rise", fmt.Sprintf("the face would lie at the lens, which is %s above the marks; check both heights", f.length(f.lens.height)))
		return
	}
	f.plan.Plane = f.plan.Plane.Drawn(f.lens.foot, (h-rise)/h)
	f.plan.RiseCosts = riseCosts(r.Value, f.lens.height)
	u := float64(unit.StandardUncertainty(f.p.HalfWidth(r.By)))
	f.lens.areaOff = math.Hypot(2*u/(h-rise), 2*rise/(h*(h-rise))*float64(f.lens.sigma))
}

// findLens finds the height of the lens: as it was measured, else as the
// perspective tells it, else as a usual lens would have it.
func (f *facing) findLens() {
	middle, known := f.middle()
	told := false
	if known {
		if u, ok := f.fit.HeightDoubt(middle, f.longSide(), max(f.touch()/sqrt3, f.fit.Scatter), f.ref.shifts...); ok && u < lensTold {
			told = true
			pose, _ := f.fit.Pose(middle)
			sigma := pose.Height.Times(u)
			f.plan.Lens = Estimate[unit.Length]{pose.Height, sigma, pose.Height - sigma.Times(quantile5), pose.Height + sigma.Times(quantile5)}
			f.lens = lens{height: pose.Height, sigma: sigma, foot: pose.Foot}
		} else {
			usual := typicalFocal.known()
			pose := f.fit.PoseWith(middle, float64(usual.Value)*f.longSide())
			f.lens = lens{height: pose.Height, sigma: pose.Height.Times(float64(usual.sigma()) / float64(usual.Value)), foot: pose.Foot, typical: true}
		}
	}
	if c := f.t.Camera; c.Given() && c.Value > 0 {
		half := math.Hypot(float64(f.p.HalfWidth(c.By)), math.Hypot(float64(lensInto), lensShare*float64(c.Value)))
		f.lens.height, f.lens.sigma, f.lens.typical = c.Value, unit.StandardUncertainty(unit.Length(half)), false
		if !told {
			f.lens.foot = f.fit.Marks[0].Place
			if known && f.fit.Sees(middle) {
				f.lens.foot = f.fit.At(middle) // it stood about over the middle of the picture
			}
		}
	}
}
