package shape

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// RectSize is the inside size of a rectangle with rounded corners.
type RectSize struct{ Length, Width, Corner unit.Length }

// check tells what is wrong with the size at one end. A corner radius up to a
// tenth over half the shorter side is a matter of measuring and is let pass.
func (s RectSize) check(end string) error {
	if err := checkSize("length at the "+end, s.Length); err != nil {
		return err
	}
	if err := checkSize("width at the "+end, s.Width); err != nil {
		return err
	}
	if !(s.Corner >= 0) {
		return fmt.Errorf("the corner radius at the %s must not be less than zero", end)
	}
	if float64(s.Corner) > 1.1*float64(min(s.Length, s.Width))/2 {
		return fmt.Errorf("the corner radius at the %s is more than half the shorter side", end)
	}
	return nil
}

func (s RectSize) section() rounded {
	x, y := float64(s.Length)/2, float64(s.Width)/2
	return rounded{x, y, min(float64(s.Corner), x, y)}
}

// rectangle is a rectangular cavity: each half size and the corner radius
// change evenly from floor to rim.
type rectangle struct {
	walls
	floor, rim rounded
}

// NewRectangle makes a cavity that is rectangular at floor and rim, with
// rounded corners, straight walls between. A corner radius slightly over half
// the shorter side counts as half of it.
func NewRectangle(floor, rim RectSize, depth unit.Length) (Cavity, error) {
	if err := checkSize("depth", depth); err != nil {
		return nil, err
	}
	if err := floor.check("floor"); err != nil {
		return nil, err
	}
	if err := rim.check("rim"); err != nil {
		return nil, err
	}
	c := &rectangle{floor: floor.section(), rim: rim.section()}
	c.depth = float64(depth)
	c.area = between(float64(c.floor.Area()), float64(c.at(0.5).Area()), float64(c.rim.Area()), c.depth)
	return c, nil
}

// at gives the section a fraction f of the way up.
func (c *rectangle) at(f float64) rounded {
	return rounded{lerp(c.floor.x, c.rim.x, f), lerp(c.floor.y, c.rim.y, f), lerp(c.floor.r, c.rim.r, f)}
}

func (c *rectangle) Section(z unit.Length) Section { return c.at(c.part(z)) }

// WallBelow adds flat walls and corners. A corner is ruled: at angle φ it
// leans outward by m(φ) = x'·cos φ + y'·sin φ + r' a metre of height, with x'
// and y' the lean of its centre and r' that of its radius, so that its area is
// ∫r dz · ∫√(1+m²) dφ over a quarter turn.
func (c *rectangle) WallBelow(z unit.Length) unit.Area {
	h := c.clamped(z)
	top, d := c.at(h/c.depth), c.depth
	leanX, leanY, leanR := (c.rim.x-c.floor.x)/d, (c.rim.y-c.floor.y)/d, (c.rim.r-c.floor.r)/d
	mean := rounded{(c.floor.x + top.x) / 2, (c.floor.y + top.y) / 2, (c.floor.r + top.r) / 2}
	flat := 4*(mean.x-mean.r)*math.Hypot(1, leanY) + 4*(mean.y-mean.r)*math.Hypot(1, leanX)
	var turn float64
	if leanX == leanR && leanY == leanR {
		turn = math.Pi / 2 * math.Hypot(1, leanR)
	} else {
		turn = Integrate(func(a float64) float64 {
			sin, cos := math.Sincos(a)
			return math.Hypot(1, (leanX-leanR)*cos+(leanY-leanR)*sin+leanR)
		}, 0, math.Pi/2, 1e-12)
	}
	return c.floor.Area() + unit.Area(h*(flat+4*mean.r*turn))
}
