package shape

import (
	"fmt"

	"meniscus/model/unit"
)

// mostSides is the most sides that a regular cavity can have.
const mostSides = 24

// polygon is a cavity with regular sides, one flat at the bottom of the plan.
type polygon struct {
	walls
	floor, rim regular
}

// NewPolygon makes a cavity that is a regular polygon of 3 to 24 sides at
// floor and rim, given across flats (twice the inscribed radius), with flat
// walls between. One flat lies parallel to x at the bottom.
func NewPolygon(sides int, floorFlats, rimFlats, depth unit.Length) (Cavity, error) {
	if sides < 3 || sides > mostSides {
		return nil, fmt.Errorf("the number of sides must be 3 to %d", mostSides)
	}
	if err := checkSize("depth", depth); err != nil {
		return nil, err
	}
	if err := checkSize("size across flats at the floor", floorFlats); err != nil {
		return nil, err
	}
	if err := checkSize("size across flats at the rim", rimFlats); err != nil {
		return nil, err
	}
	c := &polygon{
		floor: regular{sides, float64(floorFlats) / 2},
		rim:   regular{sides, float64(rimFlats) / 2},
	}
	c.depth = float64(depth)
	c.area = between(float64(c.floor.Area()), float64(c.at(0.5).Area()), float64(c.rim.Area()), c.depth)
	return c, nil
}

// at gives the section a fraction f of the way up.
func (c *polygon) at(f float64) regular {
	return regular{c.floor.sides, lerp(c.floor.r, c.rim.r, f)}
}

func (c *polygon) Section(z unit.Length) Section { return c.at(c.part(z)) }
