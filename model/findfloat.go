package model

import (
	"fmt"

	"meniscus/model/unit"
)

// findLift warns of wood that floats in a pour. A piece that is stuck down is as
// firm as what holds it, so it is warned of too.
func (m *maker) findLift(at string, w *Piece, p *PiecePlan) {
	if p.Density <= 0 && p.Bottom < m.plan.Mold.FillLine {
		m.say(Check, OfMold, "piece.lift-unknown", at+"/weight", "Whether "+p.Name+" would float is not known", m.unweighed(p), "weigh it, or hold it down in any case")
	}
	t := m.plan.Float.Thing(at)
	if p.LiftsAt == 0 || t == nil {
		return
	}
	for k := range t.Pours {
		in := &t.Pours[k]
		if !in.Reaches || in.By == HeldBySet || m.plan.hasSet(m.p, k) {
			continue
		}
		comes := unit.Length(m.taken[k].top) - p.Bottom
		why := fmt.Sprintf("it lifts when %s stands %s above its underside; that pour comes to %s", m.layers[k].layer.Name, m.length(p.LiftsAt), m.length(comes))
		switch {
		case in.Lifts && w.Bedded:
			m.say(Check, OfMold, "piece.floats", at, p.Name+" will float if it comes loose", why, "clamp it from above as well, or pour less first"+m.stopWords(k))
		case in.Lifts:
			m.say(Check, OfMold, "piece.floats", at, p.Name+" will float unless held down", why, "clamp it from above, stick it down, or pour less first"+m.stopWords(k))
		case in.Near:
			m.say(Check, OfMold, "piece.floats", at, p.Name+" will only just not be lifted", why, "hold it down all the same"+m.stopWords(k))
		default:
			m.say(Note, OfMold, "piece.held", at, p.Name+" will not be lifted by the first pour",
				fmt.Sprintf("it lifts at %s, that pour comes to %s and then holds it", m.length(p.LiftsAt), m.length(comes)), "nothing need hold it, as long as that pour rises no higher")
		}
	}
}

// findHolds tells what has to hold the wood down, pour by pour.
func (m *maker) findHolds() {
	for k := range m.plan.Float.Pours {
		p := &m.plan.Float.Pours[k]
		if p.Hold <= 0 || m.plan.Layers[k].Status != Planned {
			continue
		}
		first := ""
		for i := range m.plan.Float.Things {
			if t := &m.plan.Float.Things[i]; !t.Insert && t.Pours[k].Hold > 0 && first == "" {
				first = t.Field
			}
		}
		m.say(Note, OfMold, "float.hold", first, "Have "+m.p.Style.Load(p.Hold.Mass())+" in all ready to hold the wood down in "+p.Name,
			"twice what lifts it, "+m.p.Style.Force(p.Hold/holdFactor), "in clamps or weights on covered bars across the mold, before anything is mixed")
	}
}

// stopWords says at what level to stop a pour, if there is one.
func (m *maker) stopWords(k int) string {
	if k < len(m.plan.Float.Pours) && m.plan.Float.Pours[k].Stop > 0 {
		return ": at " + m.length(m.plan.Float.Pours[k].Stop) + " it lifts no wood"
	}
	return ""
}

// pullWords says how hard inserts are lifted.
func (m *maker) pullWords(id string) string {
	t := m.plan.Float.Thing("inserts/" + id)
	if t == nil || t.AtOnce <= 0 {
		return ""
	}
	each := t.AtOnce.Times(1 / float64(max(1, t.Count))).Mass()
	return fmt.Sprintf("; each is lifted by %s, all by %s", m.p.Style.Load(each), m.p.Style.Load(t.AtOnce.Mass()))
}
