package model

import (
	"fmt"

	"meniscus/model/unit"
)

// MixWorking tells how the grams of a layer's mix came about: the room for resin
// and every allowance in it, the density, the ratio and the rounding. False where
// there is no mix.
func (pl *Plan) MixWorking(p *Project, layer string) (Working, bool) {
	l := pl.Layer(layer)
	if l == nil || !l.Mix.Ready {
		return Working{}, false
	}
	m, s := &l.Mix, p.Style
	w := Working{
		Title: "How much to mix for " + l.Name,
		Formula: fmt.Sprintf("Each volume below times the density is its mass. The sum, with what makes it suffice in %.0f of 100 cases, is rounded up to the scale: %s. A is 100/(100 + %.1f) of it, %s; B is the rest, %s.",
			100*m.Confidence, s.MassTo(m.Total, m.Step), m.Parts, s.MassTo(m.A, m.Step), s.MassTo(m.B, m.Step)),
		Inputs: []WorkingInput{{Label: "Room for resin from " + s.Length(l.Bottom) + " to " + s.Length(l.Top), Value: s.Volume(l.Net) + ", " + s.Mass(l.Net.Of(l.Density.Value)), Source: "the mold less the wood and the inserts, as measured", Field: "layers/" + l.ID + "/to"}},
		Source: "closed forms of the solids; sureness by the law of propagation of uncertainty (JCGM 100) from the ± of each instrument",
		Band:   fmt.Sprintf("%s would suffice in half of all cases, %s in 95 of 100", s.MassTo(m.At50, m.Step), s.MassTo(m.At95, m.Step)),
	}
	for _, a := range l.Allowances {
		value := s.Mass(a.Mass)
		if a.Volume > 0 {
			value = s.Volume(a.Volume) + ", " + value
		}
		w.Inputs = append(w.Inputs, WorkingInput{Label: upperFirst(a.Label), Value: value, Source: a.Why, Typical: a.Typical, Field: a.Field})
	}
	if parts := l.Parts(); len(parts) > 0 {
		w.Inputs = append(w.Inputs, WorkingInput{Label: upperFirst(parts[len(parts)-1].Label), Value: s.Mass(parts[len(parts)-1].Mass), Source: fmt.Sprintf("%.0f in 100 chosen, and the scale's last digit", 100*m.Confidence), Field: "mixing/confidence"})
	}
	if l.Advice != "" {
		w.Band += "; " + l.Advice
	}
	sheet := "sheets/" + l.Sheet
	w.Inputs = append(w.Inputs,
		WorkingInput{Label: "Density of the mix", Value: s.Density(l.Density.Value), Source: l.Density.Source, Typical: l.Density.Typical, Field: sheet + "/densityMixed"},
		WorkingInput{Label: "Parts of B to 100 of A by weight", Value: s.Number(unit.Number(m.Parts)), Source: ratioSource(p.Sheet(l.Sheet)), Field: sheet + "/weightRatio/b"},
		WorkingInput{Label: "The scale's last digit", Value: s.Mass(m.Step), Source: orWord(p.Mixing.ScaleStep.Written, "usual scale"), Typical: !p.Mixing.ScaleStep.Given(), Field: "mixing/scaleStep"},
	)
	return w, true
}

// ratioSource says where a sheet's ratio by weight is from.
func ratioSource(s *Sheet) string {
	switch {
	case s.Weight.Given():
		return "data sheet, by weight"
	case s.Volume.Given():
		return "data sheet, by volume, with the densities of A and B"
	}
	return "the equivalent weights of A and B"
}
