package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// river is where a layer runs between wood, at its widest: what takes the heat
// away least.
type river struct {
	width    unit.Length // of resin, in the narrower of the mold's two directions
	wood     [2]riverSide
	bothWood bool
}

// riverSide is what stands at one side of a river.
type riverSide struct {
	thick       unit.Length // of the wood; 0: the mold's wall
	bottom, top unit.Length // above the mold's floor
	density     unit.Density
}

// riverOf finds the widest place of the resin in a layer that has wood at one
// side at least; false where there is none, or where resin runs wider than
// wood could cool: then the pour is as good as endless.
func riverOf(pl *Plan, layer *LayerPlan) (river, bool) {
	mid := (layer.Bottom + layer.Top) / 2
	var best river
	found := false
	for i := range pl.Drawing.Cavities {
		c := &pl.Drawing.Cavities[i]
		wall := c.Fill
		if len(wall) < 3 {
			continue
		}
		var wood []woodRing
		for k := range c.Pieces {
			p := &c.Pieces[k]
			plan := pl.Piece(p.ID)
			if plan == nil || plan.Bottom > mid || plan.Top < mid {
				continue
			}
			// The smaller face leaves the more resin.
			ring := p.Bottom
			if p.Top.Area() < ring.Area() {
				ring = p.Top
			}
			wood = append(wood, woodRing{ring.Simplified(2 * unit.Millimetre), plan})
		}
		if r, ok := widest(wall, wood); ok && r.width > best.width {
			best, found = r, true
		}
	}
	return best, found && best.width < layer.Depth.Times(mostAsRiver)
}

// mostAsRiver is how many times as wide as deep resin may be for the wood at
// its sides to cool its middle at all: heat reaches sideways about as far as
// it does up and down.
const mostAsRiver = 8

type woodRing struct {
	ring shape.Ring
	plan *PiecePlan
}

// widest looks along lines in both directions. At each place of resin the
// narrower of the two channels through it is the one that cools.
func widest(wall shape.Ring, wood []woodRing) (river, bool) {
	lo, hi := wall.Bounds()
	const lines = 41
	along := make([][]channel, lines) // across the width at some x
	var best river
	found := false
	for i := range along {
		x := lo.X + (hi.X-lo.X)*(float64(i)+0.5)/lines
		along[i] = channels(wall, wood, func(r shape.Ring) []shape.Interval { return r.CutAtX(x) })
	}
	for j := range lines {
		y := lo.Y + (hi.Y-lo.Y)*(float64(j)+0.5)/lines
		for _, across := range channels(wall, wood, func(r shape.Ring) []shape.Interval { return r.CutAtY(y) }) {
			for i := range along {
				x := lo.X + (hi.X-lo.X)*(float64(i)+0.5)/lines
				if x <= across.in.Lo || x >= across.in.Hi {
					continue
				}
				for _, up := range along[i] {
					if y <= up.in.Lo || y >= up.in.Hi {
						continue
					}
					s := up
					if across.in.Long() < up.in.Long() {
						s = across
					}
					if w := unit.Length(s.in.Long()); w > best.width {
						best = river{w, s.sides, s.sides[0].thick > 0 && s.sides[1].thick > 0}
						found = s.sides[0].thick > 0 || s.sides[1].thick > 0
					}
				}
			}
		}
	}
	return best, found
}

// channel is resin along a line, and what stands at its two ends.
type channel struct {
	in    shape.Interval
	sides [2]riverSide
}

// channels gives the resin along a line that cut cuts rings with.
func channels(wall shape.Ring, wood []woodRing, cut func(shape.Ring) []shape.Interval) []channel {
	var list []channel
	for _, in := range cut(wall) {
		list = append(list, channel{in: in})
	}
	for k := range wood {
		for _, w := range cut(wood[k].ring) {
			side := riverSide{unit.Length(w.Long()), wood[k].plan.Bottom, wood[k].plan.Top, wood[k].plan.Density}
			var next []channel
			for _, s := range list {
				if w.Hi <= s.in.Lo || w.Lo >= s.in.Hi {
					next = append(next, s)
					continue
				}
				if w.Lo > s.in.Lo {
					a := s
					a.in.Hi, a.sides[1] = w.Lo, side
					next = append(next, a)
				}
				if w.Hi < s.in.Hi {
					b := s
					b.in.Lo, b.sides[0] = w.Hi, side
					next = append(next, b)
				}
			}
			list = next
		}
	}
	return list
}
