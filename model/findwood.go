package model

import (
	"fmt"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

func (m *maker) findPieces() {
	for k := range m.pieces {
		w, p := m.pieces[k].piece, &m.plan.Pieces[k]
		at := "pieces/" + w.ID
		m.findFit(at, w, p)
		if c := p.ByWeight; c != nil && math.Abs(c.Apart) > fillTestLimit {
			do := "check the thickness in five places and the density of this board"
			if c.Apart < 0 {
				do = "check the thickness in five places; a hollow, a check in the wood or a wrong density would explain it"
			}
			m.say(Check, OfMold, "piece.weight", at+"/weight", p.Name+": its weight and its sizes do not agree",
				fmt.Sprintf("weighed and divided by its density it is %s, measured it is %s: %+.1f %%", m.vol(c.Volume), m.vol(p.Volume.Value), 100*c.Apart), do)
		}
		if m.ok && len(m.layers) > 0 {
			m.findLift(at, w, p)
			if p.Bottom >= m.plan.Mold.FillLine {
				m.say(Check, OfMold, "piece.above", at+"/height", p.Name+" would lie above the resin", fmt.Sprintf("its underside is at %s, the fill line at %s", m.length(p.Bottom), m.length(m.plan.Mold.FillLine)), "set it lower or fill higher; no resin is counted for it")
			}
			if p.Proud > 1e-6 && p.Bottom < m.plan.Mold.FillLine {
				m.say(Note, OfMold, "piece.proud", at+"/thickness", p.Name+" will stand proud of the resin", fmt.Sprintf("by %s", m.length(p.Proud)), "that is counted: resin is only taken up to the fill line")
			}
		}
		switch {
		case p.Density > 1400:
			m.say(Check, OfMold, "piece.density", at+"/weight", p.Name+" would be heavier than any wood", m.p.Style.Density(p.Density), "check its weight and sizes, and their units")
		case p.Density > 0 && p.Density < 80: // balsa starts at about 100 kg/m³ (value from memory)
			m.say(Check, OfMold, "piece.density", at+"/weight", p.Name+" would be lighter than any wood", m.p.Style.Density(p.Density), "check its weight and sizes, and their units")
		}
		m.findVoids(k)
	}
}

// findFit says by how much a piece misses, where, and how high it would sit.
func (m *maker) findFit(at string, w *Piece, p *PiecePlan) {
	f := &p.Fit
	if f.Fits || !m.ok {
		return
	}
	where := "at " + m.length(f.OverAt) + " above the floor"
	if f.OverAt < 1e-9 {
		where = "at the floor"
	}
	var why string
	do := "move or turn it; there is room"
	switch long, wide := f.LongBy > clearEnough, f.WideBy > clearEnough; {
	case long && wide:
		why = fmt.Sprintf("%s too long and %s too wide %s", m.length(f.LongBy), m.length(f.WideBy), where)
	case long:
		why = fmt.Sprintf("%s too long %s", m.length(f.LongBy), where)
	case wide:
		why = fmt.Sprintf("%s too wide %s", m.length(f.WideBy), where)
	default:
		why = fmt.Sprintf("it reaches %s beyond the wall %s", m.length(f.Over), where)
	}
	if f.LongBy > clearEnough || f.WideBy > clearEnough {
		do = "trim it, or bevel its edge to the lean of the wall"
		if w.Turn != 0 {
			do = "turn it back, trim it, or bevel its edge to the lean of the wall"
		}
	}
	switch tooLarge := f.LongBy > clearEnough || f.WideBy > clearEnough; {
	case f.Sits && f.SitsAt > p.Bottom:
		why += fmt.Sprintf("; it would sit %s up", m.length(f.SitsAt))
	case !f.Sits && tooLarge:
		why += "; it does not go into the mold"
	}
	m.say(Stop, OfMold, "piece.fit", at+"/x", p.Name+" does not fit the mold", why, do)
}

// findOverlaps looks for wood that lies in wood.
func (m *maker) findOverlaps() {
	for i := range m.pieces {
		for j := i + 1; j < len(m.pieces); j++ {
			a, b := &m.plan.Pieces[i], &m.plan.Pieces[j]
			if m.p.cavityIndex(m.pieces[i].piece.Cavity) != m.p.cavityIndex(m.pieces[j].piece.Cavity) || a.Bottom >= b.Top || b.Bottom >= a.Top {
				continue
			}
			lo, hi := max(a.Bottom, b.Bottom), min(a.Top, b.Top)
			if shape.Overlaps(m.outlineAt(i, lo), m.outlineAt(j, lo)) || shape.Overlaps(m.outlineAt(i, hi), m.outlineAt(j, hi)) {
				m.say(Stop, OfMold, "piece.overlap", "pieces/"+b.ID+"/x", a.Name+" and "+b.Name+" lie in each other", "both cannot be in one place, and the resin there would be taken off twice", "move or turn one of them")
			}
		}
	}
}

// outlineAt is a piece's outline at a height, where it lies.
func (m *maker) outlineAt(k int, z unit.Length) shape.Ring {
	w, p := &m.pieces[k], &m.plan.Pieces[k]
	f := 0.0
	if p.Top > p.Bottom {
		f = (z - p.Bottom).Per(p.Top - p.Bottom)
	}
	return placedRing(w.piece, shape.Between(w.faces.bottom, w.faces.top, f))
}

// findVoids looks for voids that the wood around them has no room for.
func (m *maker) findVoids(k int) {
	w, p := &m.pieces[k], &m.plan.Pieces[k]
	at := "pieces/" + w.piece.ID
	if m.ok && p.Voids > 0 && p.Volume.Value <= 0 {
		m.say(Stop, OfMold, "piece.voids", at, "The voids in "+p.Name+" are larger than the wood",
			fmt.Sprintf("they hold %s of %s", m.vol(p.Voids), m.vol(p.Voids+p.Volume.Value)), "check their sizes and how many there are")
	}
	for i := range w.piece.Voids {
		v := &w.piece.Voids[i]
		name, field := orWord(v.Name, "the void")+" in "+p.Name, at+"/voids/"+v.ID
		if deep := w.piece.Thickness.Value; v.Depth.Value > deep {
			m.say(Check, OfMold, "void.deep", field+"/depth", upperFirst(name)+" would be deeper than the wood is thick",
				fmt.Sprintf("%s in %s; it is counted as going right through", m.length(v.Depth.Value), m.length(deep)), "measure both again")
		}
		if r := v.ring(); r != nil && reachesOut(w.faces.top, r) {
			m.say(Check, OfMold, "void.outside", field, upperFirst(name)+" would reach beyond the edge of the wood",
				"what lies beyond would be counted as resin twice", "move it, make it smaller, or trace the edge there instead")
		}
	}
}

// reachesOut tells whether a void's outline leaves the edge of a face by more
// than half a millimetre, which is what a rule can tell.
func reachesOut(edge, void shape.Ring) bool {
	lo, hi := void.Bounds()
	x, y := (lo.X+hi.X)/2, (lo.Y+hi.Y)/2
	const slack = 0.5e-3
	for _, p := range void {
		in := max(0, 1-slack/math.Hypot(p.X-x, p.Y-y))
		if !edge.Contains(shape.Point{X: x + in*(p.X-x), Y: y + in*(p.Y-y)}) {
			return true
		}
	}
	return false
}
