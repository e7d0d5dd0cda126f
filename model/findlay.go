package model

import (
	"fmt"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// sawWanders is how far a hand-guided cut strays from its line, and thinNeck
// what breaks easily at the saw or when it is handled (common practice, no
// source).
const (
	sawWanders = 0.5 * unit.Millimetre
	thinNeck   = 8 * unit.Millimetre
)

// LeastGap is the gap to the wall below which a sawn piece may not go into the
// mold.
const LeastGap = sawWanders

// findLayUps says what was noticed of the places that the cavity was tried in
// over the slabs.
func (m *maker) findLayUps() {
	for i := range m.p.Slabs {
		s, plan := &m.p.Slabs[i], &m.plan.Slabs[i]
		if len(s.Layups) == 0 {
			continue
		}
		name, at := upperFirst(orWord(s.Name, "the slab")), "slabs/"+s.ID
		switch {
		case len(plan.Upper.Region) == 0:
			m.say(Check, OfMold, "lay.face", at+"/upper", name+": the cavity has no wood to lie over yet",
				"its upper face is not straightened and traced", "touch what is of known size in its photo, and find or draw its outline")
			continue
		case plan.Under.Shot && len(plan.Under.Region) == 0:
			m.say(Check, OfMold, "lay.face", at+"/under", name+": its under face is not counted in what would be cut",
				"it is not straightened and traced yet; until then the upper face stands for it", "touch what is of known size in its photo, and find or draw its outline")
		}
		if !s.Thickness.Given() {
			m.say(Check, OfMold, "lay.thickness", at+"/thickness", name+": measure how thick it is",
				"the resin that each place needs hangs on it; until then "+m.length(usualThick)+" is taken", "measure it where it will lie in the mold")
		}
		for k := range s.Layups {
			l := &s.Layups[k]
			if lay := plan.Layup(l.ID); lay != nil {
				lay.Stale = m.plan.StaleLayup(m.p, s.ID, l.ID)
				m.findLayUp(at+"/layups/"+l.ID, name+", "+orWord(l.Name, "place "+itoa(k+1)), l, lay)
			}
		}
	}
}

// findLayUp says what was noticed of one place.
func (m *maker) findLayUp(at, name string, l *Layup, lay *LayPlan) {
	if lay.Pieces == 0 {
		m.say(Check, OfMold, "lay.outside", at, name+": no wood lies in the cavity", "the cavity and the wood have nothing in common there", "move the cavity over the wood, or remove this place")
		return
	}
	if lay.Pieces > 1 {
		m.say(Note, OfMold, "lay.parts", at, fmt.Sprintf("%s: the wood falls into %d pieces", name, lay.Pieces), "they do not hang together within the cavity", "each is placed and held down by itself; move the cavity if one piece is wanted")
	}
	if lay.AtWall > 0 && lay.Gap.Value < sawWanders {
		m.say(Check, OfMold, "lay.gap", at+"/gap", name+": the piece may not go into the mold as it is cut",
			fmt.Sprintf("a cut wanders by about %s, and the gap to the wall is %s", m.length(sawWanders), m.length(lay.Gap.Value)), "leave a gap of a millimetre or two, or something to trim")
	}
	if !l.Chosen {
		return
	}
	if neck(lay.Upper) {
		m.say(Check, OfMold, "lay.neck", at, name+": the cut leaves a narrow neck of wood",
			fmt.Sprintf("two parts of the piece hang together by less than %s, which breaks easily at the saw or when it is handled", m.length(thinNeck)), "move the cavity, or cut it there and lay in two pieces")
	}
	if lay.Stale {
		m.say(Check, OfMold, "lay.stale", at, name+": the wood in the mold is no longer what is cut here",
			"the slab, the mold, the place or the wood itself was changed since", "use this place again, or choose another")
	}
}

// neck tells whether a piece hangs together by less than a thin neck: moved in
// by half of that all round it falls apart. Crumbs do not count.
func neck(r shape.Region) bool {
	const crumb unit.Area = 1e-4
	for _, part := range r.Parts() {
		for i := range part {
			part[i] = part[i].Simplified(fineEnough)
		}
		count := 0
		for _, p := range shape.NewRegion(part...).Grown(-thinNeck / 2).Parts() {
			if p.Area() > crumb {
				count++
			}
		}
		if count > 1 {
			return true
		}
	}
	return false
}
