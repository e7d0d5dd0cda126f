package model

import (
	"cmp"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// leastPart is the least area that counts as a piece: a square millimetre.
const leastPart unit.Area = 1e-6

// layPart is a piece of wood that hangs together, with its two faces in the
// slab's axes. Each face is one outline and the holes in it.
type layPart struct {
	under, upper shape.Region
	walls        []shape.Ring // runs of the upper outline that are cut along a wall
	bottom, top  shape.Ring   // its outlines in its own axes; top is empty where the faces are alike
	holes        []shape.Ring // right through, in its own axes
	middle       shape.Point  // of its own axes, in the slab's
}

// parts cuts the slab along the walls. Where the faces differ, a part of one
// face goes with the part of the other that it has most in common with; wood
// that shows in one face only is left out, since it thins to nothing.
func (t *LayTable) parts(l *Layup, saw *sawn, plan *LayPlan) []layPart {
	upper, cuts := t.upper.AndCut(l.laid(saw.upper))
	runs := cutRuns(upper, cuts)
	var list []layPart
	if t.alike && !l.Bevelled {
		for _, u := range large(upper) {
			list = append(list, layPart{under: u, upper: u})
		}
	} else {
		list = paired(large(t.under.And(l.laid(saw.under))), large(upper))
	}
	slices.SortStableFunc(list, func(a, b layPart) int { return cmp.Compare(b.upper.Area(), a.upper.Area()) })
	for k := range list {
		p := &list[k]
		for i, r := range p.upper {
			p.walls = append(p.walls, runs[&r[0]]...)
			if i == 0 {
				plan.Live += r.Perimeter()
			}
		}
		for _, run := range p.walls {
			plan.AtWall += run.Along()
		}
		plan.Walls = append(plan.Walls, p.walls...)
		p.ownAxes()
	}
	plan.Live = max(0, plan.Live-plan.AtWall)
	return list
}

// cutRuns lists the cut runs of the rings of a region by their first points.
func cutRuns(r shape.Region, cuts [][]shape.Ring) map[*shape.Point][]shape.Ring {
	runs := make(map[*shape.Point][]shape.Ring, len(r))
	for i, ring := range r {
		runs[&ring[0]] = cuts[i]
	}
	return runs
}

// large gives the parts of a region that are worth counting.
func large(r shape.Region) []shape.Region {
	return slices.DeleteFunc(r.Parts(), func(p shape.Region) bool { return p.Area() < leastPart })
}

// paired finds for the parts of the upper face those of the other that lie
// below them, the greatest overlap first.
func paired(under, upper []shape.Region) []layPart {
	if len(under) == 1 && len(upper) == 1 {
		if lo, hi := under[0].Bounds(); !upper[0].Contains(shape.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}) && under[0].And(upper[0]).Area() < leastPart {
			return nil
		}
		return []layPart{{under: under[0], upper: upper[0]}}
	}
	type pair struct {
		under, upper int
		area         unit.Area
	}
	var pairs []pair
	for i, a := range under {
		for j, b := range upper {
			if area := a.And(b).Area(); area >= leastPart {
				pairs = append(pairs, pair{i, j, area})
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(b.area, a.area) })
	var list []layPart
	usedUnder, usedUpper := make([]bool, len(under)), make([]bool, len(upper))
	for _, p := range pairs {
		if !usedUnder[p.under] && !usedUpper[p.upper] {
			usedUnder[p.under], usedUpper[p.upper] = true, true
			list = append(list, layPart{under: under[p.under], upper: upper[p.upper]})
		}
	}
	return list
}

// ownAxes puts the outlines of a part into axes with the origin in the middle
// of its underside.
func (p *layPart) ownAxes() {
	lo, hi := p.under[0].Bounds()
	p.middle = shape.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
	own := func(r shape.Ring) shape.Ring { return r.Moved(-p.middle.X, -p.middle.Y) }
	p.bottom = own(p.under[0])
	if &p.under[0][0] != &p.upper[0][0] {
		p.top = own(p.upper[0])
	}
	for _, hole := range p.upper[1:] {
		if hole.Area() >= leastPart {
			p.holes = append(p.holes, own(hole).CounterClockwise())
		}
	}
}

// below gives the wood of a part below a level, as the plan will have it once
// it is a piece.
func (p *layPart) below(line, height, thick unit.Length) unit.Volume {
	a0, mixed, a1 := tracedFaces(p.bottom, p.top).areas()
	v := shape.At(shape.Prism(a0, mixed, a1, thick), height).VolumeBelow(line)
	for _, hole := range p.holes {
		v -= shape.At(shape.Column(hole.Area().By(thick), thick), height).VolumeBelow(line)
	}
	return v
}

// meets tells whether a part of the blank holds one of the pieces.
func meets(blank shape.Region, parts []layPart) bool {
	return slices.ContainsFunc(parts, func(p layPart) bool {
		lo, hi := p.upper.Bounds()
		a, b := blank.Bounds()
		return lo.X <= b.X && a.X <= hi.X && lo.Y <= b.Y && a.Y <= hi.Y && blank.And(p.upper).Area() > 0
	})
}
