package model

import (
	"fmt"
	"time"

	"meniscus/model/unit"
)

// findCrowded looks for heights at which the wood and the inserts of a cavity
// take more room than it has: one of them lies in another then, and the resin
// there would be counted short.
func (m *maker) findCrowded() {
	if !m.ok {
		return
	}
	const slices = 32
	const slight = 0.01 // of the room, as far as tracings of a tight fit may be off
	top := min(m.plan.Mold.FillLine, m.plan.Mold.Depth)
	for c := range m.fillNow.count {
		over, from, to := unit.Volume(0), unit.Length(0), unit.Length(0)
		below, room := unit.Volume(0), unit.Volume(0)
		for i := range slices {
			z := top.Times(float64(i+1) / slices)
			full, whole := m.fillNow.in(c, z), m.fillNow.cavity.VolumeBelow(z)
			if d := below - full; d > (whole - room).Times(slight) {
				if over == 0 {
					from = top.Times(float64(i) / slices)
				}
				over, to = over+d, z
			}
			below, room = full, whole
		}
		if over <= 0 {
			continue
		}
		where := ""
		if m.fillNow.count > 1 {
			where = fmt.Sprintf(" in cavity %d", c+1)
		}
		m.say(Stop, OfMold, "mold.crowded", "inserts", "The wood and the inserts take more room than there is"+where,
			fmt.Sprintf("between %s and %s above the floor, by %s", m.length(from), m.length(to), m.vol(over)), "check their sizes, how many there are, and that none lies in another")
	}
}

// findFinish holds what is to come off against what is there.
func (m *maker) findFinish() {
	p, off := &m.plan.Mold, &m.p.Finish
	if !m.ok || p.FillLine <= 0 || off.Top.Value+off.Bottom.Value <= 0 {
		return
	}
	last := &m.taken[len(m.taken)-1]
	switch {
	case p.Finished <= 0:
		m.say(Stop, OfLayers, "finish.nothing", "finish/top", "Nothing would be left after finishing",
			fmt.Sprintf("%s are poured, %s are to come off", m.length(p.FillLine), m.length(off.Top.Value+off.Bottom.Value)), "take less off, or fill higher")
	case len(m.taken) > 1 && p.FillLine-p.Sink-off.Top.Value <= unit.Length(last.bottom):
		m.say(Check, OfLayers, "finish.through", "finish/top", "Flattening the top would take all of "+m.layers[len(m.layers)-1].layer.Name+" off",
			fmt.Sprintf("%s are to come off, it begins at %s", m.length(off.Top.Value), m.length(unit.Length(last.bottom))), "take less off, or pour it deeper")
	}
}

// findOrder looks for pours that were started out of their order, or outside
// the recoat window of the layer below.
func (m *maker) findOrder() {
	for k := 1; k < len(m.plan.Layers); k++ {
		l, below := &m.plan.Layers[k], &m.plan.Layers[k-1]
		start, begun := m.p.PourStart(l.ID)
		if !begun {
			continue
		}
		first, before := m.p.PourStart(below.ID)
		if !before || start.At.Before(first.At) {
			m.say(Check, OfCure, "pour.order", "layers/"+l.ID, l.Name+" was started before "+below.Name, "it lies on it in the plan", "take back the start that was marked by mistake")
			continue
		}
		switch w := m.plan.Recoat(l.ID, start.At); w.State {
		case RecoatEarly:
			m.say(Check, OfCure, "pour.early", "layers/"+l.ID, l.Name+" was poured before "+below.Name+" was ready for it",
				"by "+m.p.Style.Span(unit.SpanOf(w.Off.Round(time.Minute)))+" of the window of its data sheet", "watch for colours that run together and inserts that sink")
		case RecoatLate:
			m.say(Check, OfCure, "pour.late", "layers/"+l.ID, l.Name+" was poured after the recoat window of "+below.Name,
				"by "+m.p.Style.Span(unit.SpanOf(w.Off.Round(time.Minute))), "the bond rests on the sanding before it; without that it is weak there")
		}
	}
}
