package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

func (m *maker) findInserts() {
	for i := range m.plan.Inserts {
		s, p := &m.p.Inserts[i], &m.plan.Inserts[i]
		at := "inserts/" + s.ID
		if m.insert[i] == none {
			continue
		}
		if s.Count == 0 {
			m.say(Note, OfMold, "insert.none", at+"/count", "None are counted: "+p.Name, "their number is 0, so they take up no room", "say how many there are")
			continue
		}
		if len(m.layers) > 0 {
			m.findCover(at, s, p)
		}
		if p.Floats {
			m.say(Check, OfMold, "insert.floats", at, p.Name+" would float", fmt.Sprintf("of %s, in resin of %s%s", m.p.Style.Density(s.density(p.Each)), m.p.Style.Density(m.resinAt(p.Bottom)), m.pullWords(s.ID)),
				"fix each with a small dab of glue; that it sticks to a tacky layer is not enough to rely on")
		}
		if s.density(p.Each) == 0 && !s.Fixed && len(m.layers) > 0 {
			m.say(Note, OfMold, "insert.float-unknown", at+"/mass", "Whether "+p.Name+" would float is not known", "no mass is given", "weigh ten and enter a tenth of it")
		}
		if d := s.density(p.Each); d > 0 && (d < 50 || d > 20000) {
			m.say(Check, OfMold, "insert.density", at+"/mass", p.Name+": no material weighs that", m.p.Style.Density(d), "check its mass and its sizes, and their units")
		}
		if m.ok {
			lo, hi := m.fillNow.cavity.Section(p.Bottom).Bounds()
			if w, b := s.footprint(); max(w, b) > max(hi.X-lo.X, hi.Y-lo.Y) || min(w, b) > min(hi.X-lo.X, hi.Y-lo.Y) {
				m.say(Stop, OfMold, "insert.wide", at+"/"+s.widest(), p.Name+" would be wider than the mold",
					fmt.Sprintf("%s by %s, in a mold of %s by %s there", m.length(unit.Length(w)), m.length(unit.Length(b)), m.length(unit.Length(hi.X-lo.X)), m.length(unit.Length(hi.Y-lo.Y))), "check the sizes and their units")
			}
			if c := s.Cavity; c > m.p.Mold.Cavities() {
				m.say(Stop, OfMold, "insert.cavity", at+"/cavity", "The mold has no such cavity for "+p.Name, fmt.Sprintf("cavity %d of %d", c, m.p.Mold.Cavities()), "put it in another")
			}
		}
	}
}

// findCover checks the resin over an insert after finishing.
func (m *maker) findCover(at string, s *Insert, p *InsertPlan) {
	least := m.p.Finish.MinCover.Or(typicalMinCover)
	if off := m.p.Finish.Bottom.Value; p.Bottom < off-1e-9 {
		m.say(Stop, OfMold, "insert.cut-below", at, p.Name+" would be cut when the underside is finished", fmt.Sprintf("%s into it", m.length(min(off, p.Top)-p.Bottom)), "set it higher or take less off")
	}
	switch {
	case p.Top > m.plan.Mold.FillLine+1e-9:
		m.say(Stop, OfMold, "insert.proud", at, p.Name+" would stand out of the resin", fmt.Sprintf("%s above the fill line", m.length(p.Top-m.plan.Mold.FillLine)), "set it lower, cut it, or fill higher")
	case p.Cover < -1e-9:
		m.say(Stop, OfMold, "insert.cut", at, p.Name+" would be cut when the top is flattened", fmt.Sprintf("%s into it", m.length(-p.Cover)), "set it lower or fill higher")
	case p.Cover < least-1e-9:
		m.say(Check, OfMold, "insert.cover", at, p.Name+" would end close below the finished face",
			fmt.Sprintf("%s of cover after flattening; at least %s is wanted", m.length(p.Cover), m.length(least)), "set it lower or fill higher")
	}
}

// widest is the field of an insert's largest size seen from above.
func (s *Insert) widest() string {
	switch s.Kind {
	case InsertLying, InsertHalf, InsertBox:
		return "length"
	case InsertDisplaces:
		return "displaces"
	case InsertMass:
		return "mass"
	}
	return "diameter"
}

// footprint is an insert's extent seen from above.
func (s *Insert) footprint() (long, wide float64) {
	d, l, w := float64(s.Diameter.Value), float64(s.Length.Value), float64(s.Width.Value)
	switch s.Kind {
	case InsertLying, InsertHalf:
		return l, d
	case InsertBox:
		return l, w
	case InsertFrustum:
		d = max(d, float64(s.Inner.Value))
	case InsertDisplaces, InsertMass:
		// Seen from above as round, with the area that its volume and height give.
		v, h := float64(s.Displaces.Value), float64(s.Tall.Value)
		if s.Kind == InsertMass && s.Density.Value > 0 {
			v = float64(s.Mass.Value) / float64(s.Density.Value)
		}
		if h <= 0 {
			h = math.Cbrt(6 / math.Pi * v)
		}
		if h > 0 {
			d = math.Sqrt(4 / math.Pi * v / h)
		}
	}
	return d, d
}
