package shape

import (
	"math"

	"meniscus/model/unit"
)

// oval is a cavity that is an ellipse at every height.
type oval struct {
	walls
	floor, rim ellipse
}

// NewOval makes a cavity that is an ellipse at floor and rim, round where
// length and width are equal, with straight walls between.
func NewOval(floorLength, floorWidth, rimLength, rimWidth, depth unit.Length) (Cavity, error) {
	for _, s := range []struct {
		what string
		size unit.Length
	}{
		{"depth", depth},
		{"length at the floor", floorLength}, {"width at the floor", floorWidth},
		{"length at the rim", rimLength}, {"width at the rim", rimWidth},
	} {
		if err := checkSize(s.what, s.size); err != nil {
			return nil, err
		}
	}
	c := &oval{
		floor: ellipse{float64(floorLength) / 2, float64(floorWidth) / 2},
		rim:   ellipse{float64(rimLength) / 2, float64(rimWidth) / 2},
	}
	c.depth = float64(depth)
	c.area = between(float64(c.floor.Area()), float64(c.at(0.5).Area()), float64(c.rim.Area()), c.depth)
	return c, nil
}

// at gives the section a fraction f of the way up.
func (c *oval) at(f float64) ellipse {
	return ellipse{lerp(c.floor.x, c.rim.x, f), lerp(c.floor.y, c.rim.y, f)}
}

func (c *oval) Section(z unit.Length) Section { return c.at(c.part(z)) }

// WallBelow gives π·(r0+r1)·slant for a cone. For any other oval it sums
// √(y²cos² + x²sin² + (x·y'·sin² + y·x'·cos²)²), the length of the cross
// product of the two directions within the wall, over angle and height.
func (c *oval) WallBelow(z unit.Length) unit.Area {
	h := c.clamped(z)
	leanX, leanY := (c.rim.x-c.floor.x)/c.depth, (c.rim.y-c.floor.y)/c.depth
	if c.floor.x == c.floor.y && c.rim.x == c.rim.y {
		top := c.at(h / c.depth)
		return c.floor.Area() + unit.Area(math.Pi*(c.floor.x+top.x)*h*math.Hypot(1, leanX))
	}
	wall := Integrate(func(z float64) float64 {
		e := c.at(z / c.depth)
		return 4 * Integrate(func(a float64) float64 {
			sin, cos := math.Sincos(a)
			rise := e.x*leanY*sin*sin + e.y*leanX*cos*cos
			return math.Sqrt(e.y*e.y*cos*cos + e.x*e.x*sin*sin + rise*rise)
		}, 0, math.Pi/2, 1e-11)
	}, 0, h, 1e-10)
	return c.floor.Area() + unit.Area(wall)
}
