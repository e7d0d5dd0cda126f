package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// finish plans the work after the casting. The order matters: what sanding
// takes off decides where flattening stops, the two faces decide where the
// leaning walls are cut, and the finished size decides the areas.
func (m *maker) finish() {
	f := &m.plan.Finish
	f.Sand = m.sandLadder()
	f.Ready = m.ok && len(m.layers) > 0 && m.plan.Mold.FillLine > 0
	if !f.Ready {
		f.Use = m.usePlan()
		return
	}
	blank := m.blank()
	f.Flatten = m.flattenPlan(blank)
	f.Trim = m.trimPlan(blank)
	m.sandWork(&f.Sand)
	m.mounts()
	f.Coat = m.coatPlan()
	f.Use = m.usePlan()
}

// Mount finds how a mount is screwed on; nil when it is not there.
func (f *FinishPlan) Mount(id string) *MountPlan {
	return named(f.Mounts, id, func(s *MountPlan) string { return s.ID })
}

// Mount finds a mount by ID; nil when it is not there.
func (p *Project) Mount(id string) *Mount {
	return named(p.Finish.Mounts, id, func(s *Mount) string { return s.ID })
}

// line is one working line: what, with its unit, and where that is from.
func line(label, value, source string) WorkingInput {
	return WorkingInput{Label: label, Value: value, Source: source}
}

// at points a working line at the field that changes it.
func (w WorkingInput) at(field string) WorkingInput {
	w.Field = field
	return w
}

// standing marks a working line whose figure stands in for one not given.
func (w WorkingInput) standing(typical bool) WorkingInput {
	w.Typical = typical
	return w
}

// ofPieces tells that a figure is of all pieces of a mold of several cavities.
func (m *maker) ofPieces() string {
	if n := m.p.Mold.Cavities(); n > 1 {
		return fmt.Sprintf(", of %d pieces", n)
	}
	return ""
}

// fine writes a length to a hundredth of a millimetre, or to a thousandth of an
// inch: passes, scratches and drills are finer than a rule.
func (m *maker) fine(l unit.Length) string { return fineLength(m.p.Style, l) }

func fineLength(s unit.Style, l unit.Length) string {
	if s.LengthUnit() == unit.InInches {
		if math.Abs(l.Inches()) < 0.0005 {
			return "0 in"
		}
		return fmt.Sprintf("%.3f in", l.Inches())
	}
	return trimZeros(fmt.Sprintf("%.2f", l.Millimetres())) + " mm"
}

// trimZeros takes zeros off the end of decimals.
func trimZeros(s string) string {
	for len(s) > 1 && s[len(s)-1] == '0' {
		s = s[:len(s)-1]
	}
	if s[len(s)-1] == '.' {
		s = s[:len(s)-1]
	}
	return s
}

// between words the range of an estimate.
func (m *maker) between(e Estimate[unit.Length]) string {
	return fmt.Sprintf("between %s and %s", m.tenth(e.Low), m.tenth(e.High))
}

// tenth writes a length to a tenth of a millimetre, or a sixty-fourth of an
// inch, however coarse the style is.
func (m *maker) tenth(l unit.Length) string {
	return m.p.Style.LengthIn(l, m.p.Style.LengthUnit(), fineGrain(m.p.Style))
}
