package shape

import "meniscus/model/unit"

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
