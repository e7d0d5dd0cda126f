package model

import "fmt"

// bySizes is what the sizes of the finished piece rest on.
const bySizes = "closed forms of the cavity and the outline; sureness by the law of propagation of uncertainty (JCGM 100) from the ± of each instrument"

// Working tells how the finished size came about; false where nothing is left.
func (t *TrimPlan) Working(p *Project) (Working, bool) {
	w := Working{
		Title:   "The finished size",
		Formula: "The narrowest section between the two finished faces decides: it is what the sections at both have in common, since the walls are straight. What more is to come off goes off each of its edges; the saw's own cut falls outside it.",
		Inputs:  t.Lines,
		Source:  bySizes,
	}
	if t.Length.Value > 0 {
		s := p.Style
		w.Band = fmt.Sprintf("The length is from %s to %s in 90 of 100 cases, the thickness from %s to %s", s.Length(t.Length.Low), s.Length(t.Length.High), s.Length(t.Thickness.Low), s.Length(t.Thickness.High))
	}
	return w, len(t.Lines) > 0
}

// Working tells how the passes and the thickness that is left came about.
func (f *FlattenPlan) Working(p *Project) (Working, bool) {
	s := p.Style
	w := Working{
		Title:   "Flattening",
		Formula: "Stop at the finished thickness and what sanding takes off both faces. On each face the passes are what is to come off over the deepest pass, rounded up, and made alike.",
		Inputs:  f.Lines,
		Source:  "the thickness of the casting, measured or planned; how deep a pass may be is yours, else common practice, no source",
	}
	switch {
	case f.Measured:
		w.Band = fmt.Sprintf("The casting is from %s to %s thick where it was measured; between those places it is not known", s.Length(f.Thinnest), s.Length(f.Thickest))
	case f.Thickest > 0:
		w.Band = fmt.Sprintf("It was not measured yet: by the fill line, the sink and the level of the bench it is from %s to %s thick. Measured in five places it is sure to the ± of the caliper", s.Length(f.Thinnest), s.Length(f.Thickest))
	}
	return w, len(f.Lines) > 0
}

// Working tells how the ladder of grits and its time came about; false where there is
// none.
func (a *SandPlan) Working(p *Project) (Working, bool) {
	w := Working{
		Title:   "Sanding",
		Formula: "Of the grits on hand, the shortest ladder to the finish in which no step is too far for the scratches before it. The time is, for each of them, the area that it goes over times the time for 1 dm².",
		Inputs:  a.Lines,
		Source:  "the mean sizes of grains by ISO 6344 and CAMI; the rule for the steps is named with them; pace and life of a disc are yours, else common practice, no source",
	}
	if t := a.Time; t.Value > 0 {
		w.Band = fmt.Sprintf("The time is from %s to %s", p.Style.Span(t.Low), p.Style.Span(t.High))
	}
	return w, len(a.Steps) > 0
}

// Working tells how the screw and its holes came about.
func (x *MountPlan) Working() (Working, bool) {
	return Working{
		Title:   "The screw and its holes",
		Formula: "The shortest standard length that holds by enough thread and stays within the piece: through what it fastens, the thread aimed for and no more, with enough left below its tip or under its head.",
		Inputs:  x.Lines,
		Source:  "tables of screws, of which each row says what was read and what is from memory; the least thread and cover are common practice, no source",
		Band:    "No band: drills and screws come in steps. Measure the screw that you have before you drill",
	}, len(x.Lines) > 0
}

// Working tells how much coat is needed; false where none goes on.
func (c *CoatPlan) Working(p *Project) (Working, bool) {
	w := Working{
		Title:   "The finish coat",
		Formula: "The area that is covered, times what a coat takes on 1 m², times the coats.",
		Inputs:  c.Lines,
		Source:  "the area by the finished size; what a coat takes is yours, else common practice, no source: the supplier's sheet goes before it",
	}
	if v := c.Volume; !v.Absent && v.Value > 0 {
		w.Band = fmt.Sprintf("All coats take from %s to %s; the first on bare wood takes more than the later ones", p.Style.Volume(v.Low), p.Style.Volume(v.High))
	}
	return w, c.Area > 0
}

// Working tells how warm what stands on the piece may be.
func (u *UsePlan) Working(p *Project) (Working, bool) {
	w := Working{
		Title:   "What it may be used for",
		Formula: fmt.Sprintf("The warmth at which the layer that softens first does so, less %s.", p.Style.TempRise(softMargin)),
		Inputs:  u.Lines,
		Source:  "the data sheet, which goes before all that stands here; the margin is common practice, no source",
	}
	if k := u.Softens; k.High > k.Low {
		w.Band = fmt.Sprintf("It softens from %s to %s", p.Style.Temperature(k.Low), p.Style.Temperature(k.High))
	} else {
		w.Band = "The sheet gives one figure and no band; resin that cured cold or off ratio softens sooner"
	}
	return w, len(u.Lines) > 0
}
