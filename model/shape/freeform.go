package shape

import (
	"math"
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

// gauss holds the places and weights of Gauss and Legendre's rule with four
// points on 0 to 1 (Abramowitz and Stegun, table 25.4).
var gauss = [4]struct{ at, weight float64 }{
	{(1 - 0.8611363115940526) / 2, 0.3478548451374538 / 2},
	{(1 - 0.3399810435848563) / 2, 0.6521451548625461 / 2},
	{(1 + 0.3399810435848563) / 2, 0.6521451548625461 / 2},
	{(1 + 0.8611363115940526) / 2, 0.3478548451374538 / 2},
}

// WallBelow sums, over each edge and the height, the length of the cross
// product of the two directions within the wall. Walls are flat or nearly so;
// four points each way are exact for flat ones.
func (c *freeform) WallBelow(z unit.Length) unit.Area {
	h := c.clamped(z)
	floor, rim, sum := c.floor.ring, c.rim.ring, 0.0
	for i := range floor {
		j := floor.next(i)
		low, high := floor[j].minus(floor[i]), rim[j].minus(rim[i])
		from, to := rim[i].minus(floor[i]), rim[j].minus(floor[j])
		for _, gz := range gauss {
			d := low.toward(high, gz.at*h/c.depth)
			flat := d.dot(d)
			for _, gu := range gauss {
				rise := d.cross(from.toward(to, gu.at)) / c.depth
				sum += gz.weight * gu.weight * math.Sqrt(flat+rise*rise)
			}
		}
	}
	return c.AreaAt(0) + unit.Area(h*sum)
}
