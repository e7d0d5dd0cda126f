package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// PartsByWeight gives the hardener per 100 parts of resin by weight: as the
// sheet says it, or from its ratio by volume and the densities of the parts,
// p = 100 (b ρB)/(a ρA), or from the equivalent weights of the two. The error
// says what is missing; a ratio by volume is never weighed as if it were by
// weight.
func (s *Sheet) PartsByWeight() (float64, error) {
	at := "sheets/" + s.ID
	switch {
	case s.Weight.Given():
		return 100 * float64(s.Weight.B.Value) / float64(s.Weight.A.Value), nil
	case s.Volume.Given() && s.DensityA.Given() && s.DensityB.Given():
		return partsFromVolume(float64(s.Volume.A.Value), float64(s.Volume.B.Value), s.DensityA.Value, s.DensityB.Value), nil
	case s.EEW.Given() && s.AHEW.Given():
		return partsFromEquivalents(float64(s.EEW.Value), float64(s.AHEW.Value)), nil
	case !s.Volume.Given():
		return 0, &Problem{at + "/weightRatio/a", "copy the mixing ratio from the data sheet"}
	case !s.DensityA.Given():
		return 0, &Problem{at + "/densityA", "the ratio is by volume: to weigh it, the density of part A is needed (weigh 50 ml of it)"}
	}
	return 0, &Problem{at + "/densityB", "the ratio is by volume: to weigh it, the density of part B is needed (weigh 50 ml of it)"}
}

// partsFromVolume gives hardener per 100 of resin by weight for a to b parts
// by volume.
func partsFromVolume(a, b float64, rhoA, rhoB unit.Density) float64 {
	return 100 * b * float64(rhoB) / (a * float64(rhoA))
}

// mixedFrom gives the density of 100 parts of A and p of B by weight, when
// volumes add up: (100+p)/(100/ρA + p/ρB).
func mixedFrom(p float64, rhoA, rhoB unit.Density) unit.Density {
	return unit.Density((100 + p) / (100/float64(rhoA) + p/float64(rhoB)))
}

// mixedDensity gives the density of a product's mixed resin: from the parts'
// densities and the ratio, else as the sheet says, else typical.
func mixedDensity(s *Sheet) Known[unit.Density] {
	if s == nil {
		return typicalMixed.known()
	}
	if p, err := s.PartsByWeight(); err == nil && s.DensityA.Given() && s.DensityB.Given() {
		d := mixedFrom(p, s.DensityA.Value, s.DensityB.Value)
		return Known[unit.Density]{Value: d, Low: d, High: d, Source: "the densities of the parts and the ratio"}
	}
	return known(s.DensityMixed, typicalMixed)
}

// film is the share of a mix that stays in the cup.
func (m *Mixing) film() float64 {
	return min(float64(taken(m.CupFilm, typicalCupFilm).Value), filmRange.high)
}

// filmOfPoured is the same as a share of what is poured.
func (m *Mixing) filmOfPoured() float64 { return m.film() / (1 - m.film()) }

// stays is what stays in the cup of so much mix.
func (m *Mixing) stays(mix unit.Mass) unit.Mass {
	return max(m.CupLeast.Or(typicalCupLeast), mix.Times(m.film()))
}

// mixPlan works out what to weigh for a layer: the mass that suffices with the
// chosen confidence, with the film that stays in the cup, rounded up to the
// scale so that A and B are the total. more is the standard uncertainty of the
// mass towards more.
func (s *stack) mixPlan(k int, t taking, more unit.Mass) (MixPlan, Allowance) {
	m, l := &s.p.Mixing, &s.layers[k]
	plan := MixPlan{
		Confidence: min(max(float64(m.Confidence.Or(typicalConfident)), confidence.low), confidence.high),
		Step:       s.p.scaleStep(),
	}
	film := taken(m.CupFilm, typicalCupFilm)
	least := m.CupLeast.Or(typicalCupLeast)
	part := m.filmOfPoured()
	cup := func(net unit.Mass) unit.Mass { return max(least, net.Times(part)) }
	if t.mass <= 0 || t.net <= 0 {
		plan.Why = "there is no room for resin in this layer"
		return plan, Allowance{}
	}
	enough := func(confidence float64) unit.Mass {
		net := t.mass + more.Times(normal(confidence))
		return ceilTo(net+cup(net), plan.Step)
	}
	allow := Allowance{
		Kind: AllowCup, Label: "film left in the cup", Mass: cup(t.mass), Typical: film.Typical, Field: "mixing/cupFilm",
		Why: fmt.Sprintf("%s of the mix, at least %s", s.p.Style.Share(film.Value), s.p.Style.Mass(least)),
	}
	if least > t.mass.Times(part) {
		allow.Typical, allow.Field = !m.CupLeast.Given(), "mixing/cupLeast"
	}
	plan.Total, plan.At50, plan.At95 = enough(plan.Confidence), enough(0.5), enough(0.95)
	if l.sheet == nil {
		plan.Why = "choose the resin for this layer"
		return plan, allow
	}
	parts, err := l.sheet.PartsByWeight()
	if err != nil {
		plan.Why = words(err)
		if p, ok := err.(*Problem); ok {
			plan.Why = p.Message
		}
		return plan, allow
	}
	plan.Ready, plan.Parts = true, parts
	a := plan.Total.Times(100 / (100 + parts))
	total, rounded := unit.RoundParts(plan.Total, []unit.Mass{a, plan.Total - a}, plan.Step)
	plan.Total, plan.A, plan.B = total, rounded[0], rounded[1]
	if l.sheet.DensityA.Given() && l.sheet.DensityB.Given() {
		plan.VolumeA, plan.VolumeB = plan.A.Over(l.sheet.DensityA.Value), plan.B.Over(l.sheet.DensityB.Value)
	}
	s.additives(l.layer, &plan)
	return plan, allow
}

// scaleStep is the scale's last digit: as the maker gives it, or the usual.
func (p *Project) scaleStep() unit.Mass {
	if p.Mixing.ScaleStep.Value > 0 {
		return p.Mixing.ScaleStep.Value
	}
	return p.usualStep()
}

// usualStep is the last digit of a common kitchen scale in the project's
// units: 1 g or 0.05 oz (common practice, no source).
func (p *Project) usualStep() unit.Mass {
	switch p.Style.MassUnit() {
	case unit.InOunces, unit.InPounds:
		return typicalScaleOunce
	}
	return typicalScaleStep
}

// additives weighs what is stirred in: a share of A and B together, or a mass.
func (s *stack) additives(l *Layer, plan *MixPlan) {
	for i, c := range l.Stirred() {
		share, known := c.Of(plan.Total)
		if !known {
			continue
		}
		a := AdditivePlan{c.Name, float64(share), plan.Total.Times(float64(share))}
		if i == 0 && c.At == "layers/"+l.ID+"/tint" {
			plan.Tint = a.Mass
		}
		plan.Additives = append(plan.Additives, a)
	}
}

// ceilTo rounds a mass up to the scale's step.
func ceilTo(m, step unit.Mass) unit.Mass {
	if step <= 0 {
		return m
	}
	n := math.Ceil(float64(m)/float64(step) - 1e-9)
	return unit.Mass(n * float64(step))
}

func orWord(s, other string) string {
	if s == "" {
		return other
	}
	return s
}
