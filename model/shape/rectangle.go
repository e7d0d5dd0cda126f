package shape

import (
	"fmt"

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
