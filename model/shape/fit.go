package shape

import (
	"math"

	"meniscus/model/unit"
)

// Misfit tells how a piece stands to the walls at one height. Lengths are in
// metres.
type Misfit struct {
	Z      float64 // height above the floor
	Over   float64 // the largest distance beyond a wall; 0 or less means clear
	At     Point   // where that is
	Gap    float64 // the smallest clearance to a wall; less than 0 beyond it
	GapAt  Point   // where that is
	LongBy float64 // piece longer than the cavity along x; more than 0 cannot fit even if moved
	WideBy float64 // the same along y
}

// Fit compares a piece with the walls of a cavity at so many heights, evenly
// from its underside z0 to its upper face z1 or the rim, both included. The
// outline at a height lies between those of the two faces, which must be
// placed in the cavity's axes and have equally many points (see Blend). A
// piece that starts above the rim has no heights in the cavity. Outlines of
// more than 512 points are thinned, so that distances hold to two thousandths
// of a millimetre; all else is exact.
func Fit(c Cavity, bottom, top Ring, z0, z1 unit.Length, heights int) []Misfit {
	p := placed{cavity: c, z0: float64(z0), z1: float64(z1)}
	p.bottom, p.top = facesOf(bottom, top)
	if len(p.bottom) < 3 || heights < 1 || p.z0 > p.end() {
		return nil
	}
	all := make([]Misfit, heights)
	for k := range all {
		z := p.z0
		if k > 0 {
			z = lerp(p.z0, p.end(), float64(k)/float64(heights-1))
		}
		s, ring := p.at(z)
		m := &all[k]
		m.Z = z
		m.Gap, m.GapAt = leastClearance(s, ring, math.Inf(1))
		m.Over, m.At = -m.Gap, m.GapAt
		pieceLo, pieceHi := ring.Bounds()
		wallLo, wallHi := s.Bounds()
		m.LongBy = (pieceHi.X - pieceLo.X) - (wallHi.X - wallLo.X)
		m.WideBy = (pieceHi.Y - pieceLo.Y) - (wallHi.Y - wallLo.Y)
	}
	return all
}

// placed is a piece at a height in a cavity.
type placed struct {
	cavity      Cavity
	bottom, top Ring
	z0, z1      float64
	ring        Ring // room for the outline at a height
}

// end gives the height of the upper face, or of the rim where that is lower.
func (p *placed) end() float64 { return min(p.z1, float64(p.cavity.Depth())) }

// at gives the section of the cavity and the outline of the piece at height z.
// The outline holds until the next call.
func (p *placed) at(z float64) (Section, Ring) {
	f := 0.0
	if p.z1 > p.z0 {
		f = (z - p.z0) / (p.z1 - p.z0)
	}
	p.ring = appendBetween(p.ring[:0], p.bottom, p.top, f)
	if free, ok := p.cavity.(*freeform); ok {
		return free.slimSection(unit.Length(z)), p.ring
	}
	return p.cavity.Section(unit.Length(z)), p.ring
}

// facesOf pairs and thins the two faces of a piece.
func facesOf(bottom, top Ring) (b, t Ring) {
	if len(bottom) != len(top) {
		bottom, top = Blend(bottom, top)
	}
	return thinnedPair(bottom, top)
}

// leastClearance gives the smallest clearance of an outline to the walls of a
// section, and where it is, if it is below the bound, else the bound. The
// closed forms are convex, so that the least is at a point of the outline. A
// free outline can also reach with a point of its own between two points of
// the piece.
func leastClearance(s Section, ring Ring, bound float64) (least float64, at Point) {
	least = bound
	wall, free := s.(*outlined)
	if !free {
		for _, p := range ring {
			if d := s.Clearance(p); d < least {
				least, at = d, p
			}
		}
		return least, at
	}
	t, piece := wall.tree(), grow(ring)
	if d, p, ok := piece.lowest(t.clearance, least); ok {
		least, at = d, p
	}
	outside := func(p Point, reach float64, side int) float64 { return -piece.clearance(p, reach, -side) }
	if d, p, ok := t.lowest(outside, least); ok {
		least, at = d, p
	}
	return least, at
}

// SitsAt gives the lowest height of a piece's underside, at or above z0, at
// which the piece clears the walls. It tells false, with the height of the
// rim, when the piece does not clear them even there. It looks at the
// underside, the middle and the upper face (or the rim), which suffices for
// straight walls, and takes it that a piece clears them the better the higher
// it lies, as it does in a cavity that widens upward.
func SitsAt(c Cavity, bottom, top Ring, z0, thickness unit.Length) (unit.Length, bool) {
	bottom, top = facesOf(bottom, top)
	clear := 1e-9 // m, for rounding
	if free, ok := c.(*freeform); ok && len(free.floor.ring) > coarse || len(bottom) > coarse {
		clear = 3 * fine
	}
	p := placed{cavity: c, bottom: bottom, top: top}
	over := func(z float64) float64 {
		p.z0, p.z1 = z, z+float64(thickness)
		least := math.Inf(1)
		for k := range 3 {
			s, ring := p.at(lerp(z, max(z, p.end()), float64(k)/2))
			least, _ = leastClearance(s, ring, least)
		}
		return -least - clear
	}
	lo, hi := float64(z0), float64(c.Depth())
	if len(bottom) < 3 || lo > hi {
		return z0, true
	}
	overLo := over(lo)
	if overLo <= 0 {
		return z0, true
	}
	overHi := over(hi)
	if overHi > 0 {
		return c.Depth(), false
	}
	// False position with the kept end's value halved (Illinois), and a
	// bisection now and then; hi always clears, and is good enough when it
	// just about touches.
	const near, touch = 1e-7, 1e-8
	for k, v := 0, overHi; hi-lo > near && !(v <= 0 && v > -touch); k++ {
		z := (lo + hi) / 2
		if k%4 != 3 {
			z = max(lo+near/2, min(hi-near/2, hi-overHi*(hi-lo)/(overHi-overLo)))
		}
		v = over(z)
		if v > 0 {
			lo, overLo = z, v
			overHi /= 2
		} else {
			hi, overHi = z, v
			overLo /= 2
		}
	}
	return unit.Length(hi), true
}
