package model

import (
	"fmt"
	"math"
	"strings"

	"meniscus/model/unit"
)

// CupMark is one mark in the maker's own cup: pour a part up to here.
type CupMark struct {
	Part  string      // "A" or "B"
	Upto  unit.Volume // all that is then in the cup
	Tall  unit.Length // upright above the floor, to what a rule shows
	Wall  unit.Length // up the wall, to what a rule shows
	Lined unit.Volume // one of the cup's own lines; 0 where they are not gone by
}

// CupMarks are the two marks by which a mix is measured in the maker's own cup:
// A up to the first, then B up to the second.
type CupMarks struct {
	Ready bool
	Why   string // there are no marks; names what is missing or why not
	Field string // path of what would mend that

	Marks []CupMark
	Grain unit.Length // to which marks are told, and by which a reading is taken to be off
	Low   float64     // B is off by no less than this when both readings are off by a grain, as a share of the right amount
	High  float64     // and by no more
	Fine  bool        // that is within VolumeTolerance
	Holds unit.Volume // by the cup, to its brim
	Total unit.Volume
	Open  float64 // half-width of what the cup's sizes leave open of the total, as a share: 90 in 100 lie within
	Full  bool    // it leaves little room to stir
	Lines string  // why its own lines are not gone by; empty where they are, or where it has none
}

// VolumeTolerance is how far off its ratio a mix by volume may be before it is
// better weighed: 5 % (common practice, no source). A scale is held to
// RatioTolerance.
const VolumeTolerance = 0.05

// fullCup is the part of a cup that is filled before it can no longer be stirred
// without spilling (common practice, no source).
const fullCup = 0.8

// MixVolumes gives how much of A and of B goes into a mix of a layer by volume:
// by the densities of the two, or where they are not known by the ratio by
// volume that the data sheet gives. A ratio by weight is never measured as if
// it were by volume. Errors are a *Problem.
func (p *Project) MixVolumes(l *LayerPlan, m *MixPlan) (a, b unit.Volume, err error) {
	s := p.Sheet(l.Sheet)
	switch {
	case s == nil:
		return 0, 0, &Problem{"layers/" + l.ID + "/sheet", "choose the resin for " + l.Name + " first"}
	case m.Total <= 0:
		return 0, 0, &Problem{"layers/" + l.ID + "/to", "how much is mixed for " + l.Name + " is not known yet"}
	case m.VolumeA > 0 && m.VolumeB > 0:
		return m.VolumeA, m.VolumeB, nil
	case s.Volume.Given() && l.Density.Value > 0:
		of := float64(s.Volume.A.Value) + float64(s.Volume.B.Value)
		total := m.Total.Over(l.Density.Value)
		a = total.Times(float64(s.Volume.A.Value) / of)
		return a, total - a, nil
	case s.DensityA.Given():
		return 0, 0, &Problem{"sheets/" + s.ID + "/densityB", "the ratio is by weight: to measure it by volume, the density of part B is needed (weigh 50 ml of it)"}
	}
	return 0, 0, &Problem{"sheets/" + s.ID + "/densityA", "the ratio is by weight: to measure it by volume, the densities of A and B are needed (weigh 50 ml of each)"}
}

// CupMarks gives the marks for a mix of a layer, or for one cup of it, in the
// maker's own cup.
func (p *Project) CupMarks(l *LayerPlan, m *MixPlan) CupMarks {
	v := &p.Mixing.Vessel
	refuse := func(field, why string) CupMarks { return CupMarks{Why: why, Field: field} }
	switch {
	case v.Floor.Value <= 0:
		return refuse("mixing/vessel/floorAcross", "measure your cup inside, across its floor")
	case v.Tall.Value <= 0:
		return refuse("mixing/vessel/cupTall", "measure how tall your cup is inside, straight up")
	}
	a, b, err := p.MixVolumes(l, m)
	if err != nil {
		pr := err.(*Problem)
		return refuse(pr.Field, pr.Message)
	}
	c := CupMarks{Holds: v.Holds(), Total: a + b, Grain: p.ruleGrain()}
	if c.Total > c.Holds {
		return CupMarks{Holds: c.Holds, Total: c.Total, Field: "mixing/cupHolds",
			Why: fmt.Sprintf("%s do not fit: this cup takes %s to its brim", p.Style.Volume(c.Total), p.Style.Volume(c.Holds))}
	}
	first, second := p.mark(v, "A", a, c.Grain), p.mark(v, "B", c.Total, c.Grain)
	c.Marks = []CupMark{first, second}
	c.Low, c.High = v.offAt(first.Tall, second.Tall, c.Grain, b.Per(a))
	c.Fine = c.Low >= -VolumeTolerance && c.High <= VolumeTolerance
	c.Full = c.Total > c.Holds.Times(fullCup)
	c.Open = quantile5 * v.spread(second.Tall, p)
	c.Ready = true
	c.lines(v, p, a)
	return c
}

// ruleGrain is what can be read on a rule held in a cup: 1 mm, or a graduation of
// the project's inches.
func (p *Project) ruleGrain() unit.Length {
	if p.Style.LengthUnit() == unit.InInches {
		return unit.Graduation(p.Style.LengthGrain())
	}
	return unit.Millimetre
}

// mark gives one mark, rounded to what can be read.
func (p *Project) mark(v *Vessel, part string, upto unit.Volume, grain unit.Length) CupMark {
	h := v.Height(upto)
	return CupMark{Part: part, Upto: upto, Tall: wholeGrains(h, grain), Wall: wholeGrains(v.Wall(h), grain)}
}

// wholeGrains rounds a length to what can be read.
func wholeGrains(l, grain unit.Length) unit.Length { return grain.Times(math.Round(l.Per(grain))) }

// offAt gives between which shares B is off when A is poured up to one height
// and B up to another, each read off by as much as off; right is how much B
// goes with so much A, by volume.
func (v *Vessel) offAt(first, second, off unit.Length, right float64) (low, high float64) {
	index := func(h1, h2 unit.Length) float64 {
		a := v.Volume(h1)
		if a <= 0 {
			return math.Inf(1)
		}
		return max(0, (v.Volume(h2)-a).Per(a)/right) - 1
	}
	return index(first+off, second-off), index(first-off, second+off)
}

// lines gives each mark in the cup's own lines, where they can be gone by: one of
// them was checked and is true, and those at hand keep the ratio and make no
// more than a little more than is wanted, and never less.
func (c *CupMarks) lines(v *Vessel, p *Project, a unit.Volume) {
	if v.Lined == "" || v.Step.Value <= 0 {
		return
	}
	step := v.Step.Value
	second := step.Times(math.Ceil(c.Total.Per(step) - 1e-9))
	first := step.Times(math.Round(second.Times(a.Per(c.Total)).Per(step)))
	right := (c.Total - a).Per(a)
	if first <= 0 || second > min(c.Holds, c.Total.Times(1+VolumeTolerance)) || math.Abs((second-first).Per(first)/right-1) > VolumeTolerance {
		c.Lines = "its own lines are too far apart for this mix: go by the rule"
		return
	}
	switch held := v.Lines(p); {
	case !held.Checked:
		c.Lines = v.checkByWater(second, p)
		return
	case !held.True:
		c.Lines = fmt.Sprintf("its own lines are not gone by: what it takes differs from them by %+.0f %%", 100*held.Apart)
		return
	}
	c.Marks[0].Lined, c.Marks[1].Lined = first, second
}

// Words says how far off the ratio the marks may lead, signed.
func (c *CupMarks) Words(s unit.Style) string {
	if math.IsInf(c.High, 1) || c.High > 1 {
		return fmt.Sprintf("It fills this cup so little that a rule read %s off makes any ratio of it: take a narrower cup, or weigh it.", s.Length(c.Grain))
	}
	words := fmt.Sprintf("Read to the nearest %s the hardener is off by %+.0f to %+.0f %%", s.Length(c.Grain), 100*c.Low, 100*c.High)
	if c.Fine {
		return words + ", which most resins bear; a scale is surer."
	}
	return words + ": take a narrower cup, mix more at once, or weigh it."
}

// findMarks looks at the marks of a layer's cups in the maker's own cup: whether
// each fits, and whether it can be read finely enough.
func (h *heat) findMarks(k int, l *LayerCuring, say func(level Level, subject Subject, kind, field, what, why, do string)) {
	if !h.p.Mixing.Vessel.Given() {
		return
	}
	plan := h.layers[k].plan
	mixes := []MixPlan{plan.Mix}
	if cups := l.Cups; cups.Possible && len(cups.Batches) > 0 {
		mixes = nil
		for i := range cups.Batches {
			mixes = append(mixes, plan.Mix.ForCup(&cups.Batches[i]))
		}
	}
	for i := range mixes {
		switch c := h.p.CupMarks(plan, &mixes[i]); {
		case !c.Ready && c.Total > 0:
			say(Check, OfMixing, "marks.fit", c.Field, "A cup of "+l.Name+" does not fit the cup that you measure in", c.Why, "say how much your largest cup takes, or measure in a larger one")
			return
		case c.Ready && !c.Fine:
			why, do, _ := strings.Cut(c.Words(h.p.Style), ": ")
			say(Check, OfMixing, "marks.coarse", "mixing/vessel/floorAcross", "The marks in your cup are too coarse for "+l.Name, why, strings.TrimSuffix(do, "."))
			return
		}
	}
}
