package shape

import (
	"sync"

	"meniscus/model/unit"
)

// freeform is a cavity ruled between two outlines of equally many points, one
// at the floor and one at the rim.
type freeform struct {
	walls
	floor, rim *outlined
	slim       func() (floor, rim Ring) // see thinnedPair
}

func newFreeform(floor, rim Ring, depth float64) *freeform {
	c := &freeform{floor: outlinedBy(floor), slim: sync.OnceValues(func() (Ring, Ring) { return thinnedPair(floor, rim) })}
	c.rim = c.floor
	if &floor[0] != &rim[0] {
		c.rim = outlinedBy(rim)
	}
	low, mixed, high := floor.Signed(), float64(MixedArea(floor, rim)), rim.Signed()
	c.depth = depth
	c.area = between(low, (low+2*mixed+high)/4, high, depth)
	if c.floor == c.rim {
		c.area = quadratic{a: low}
	}
	return c
}

func (c *freeform) Section(z unit.Length) Section {
	switch f := c.part(z); {
	case f == 0 || c.floor == c.rim:
		return c.floor
	case f == 1:
		return c.rim
	default:
		return outlinedBy(Between(c.floor.ring, c.rim.ring, f))
	}
}

// slimSection gives the section with fewer points, none farther off than a
// thousandth of a millimetre.
func (c *freeform) slimSection(z unit.Length) *outlined {
	floor, rim := c.slim()
	return outlinedBy(Between(floor, rim, c.part(z)))
}
