package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// GiveOrTake is how far the worst known of the finished sizes may be off either
// way, in nine cases out of ten.
func (t *TrimPlan) GiveOrTake() unit.Length {
	sizes := []Estimate[unit.Length]{t.Length, t.Width, t.Thickness}
	off := unit.Length(0)
	for _, e := range sizes {
		off = max(off, (e.High-e.Low)/2)
	}
	return off
}

// ShortWords writes the finished size as SizeWords does, with the unit once.
func (t *TrimPlan) ShortWords(s unit.Style) string {
	return strings.ReplaceAll(t.SizeWords(s), " "+string(s.LengthUnit())+" ×", " ×")
}

// FineLength writes a length to a hundredth of a millimetre, or to a thousandth
// of an inch: what a face loses is finer than a rule.
func FineLength(s unit.Style, l unit.Length) string { return fineLength(s, l) }

// Answer says in one line what is left once all is done: the finished size with
// what it may be off by, or what is missing for that.
func (f *FinishPlan) Answer(s unit.Style) string {
	t := &f.Trim
	switch {
	case !f.Ready:
		return "Not known yet: measure the mold and plan a pour"
	case t.Ring == nil:
		return "Nothing is left inside the edges"
	}
	off := s.LengthIn(max(t.GiveOrTake(), unit.Millimetre/10), s.LengthUnit(), fineGrain(s))
	return t.ShortWords(s) + ", give or take " + off
}

// fineGrain is a tenth of a millimetre, or a sixty-fourth of an inch.
func fineGrain(s unit.Style) unit.Grain {
	if s.LengthUnit() == unit.InInches {
		return unit.SixtyFourth
	}
	return unit.TenthMillimetre
}

// DrillUse is one tool that a hole of a mount takes, in the order in which they
// are used: how wide it cuts and how deep.
type DrillUse struct{ What, Wide, Deep string }

// Drills lists what the holes of a mount are made with: the wide and shallow
// first, since a narrower drill leaves nothing to centre a wider one on. It is
// empty where no screw works.
func (p *MountPlan) Drills(s unit.Style) []DrillUse {
	screw, ok := ScrewOf(p.Screw)
	if !ok || !p.Works {
		return nil
	}
	wide := func(l unit.Length) string { return drillWords(s, screw, l) }
	var list []DrillUse
	if p.SunkWide > 0 && p.Sunk > 0 {
		list = append(list, DrillUse{"Counterbore", wide(p.SunkWide), fineLength(s, p.Sunk) + " deep"})
	}
	if p.Cone > 0 {
		list = append(list, DrillUse{"Countersink", wide(p.Cone), "until the cone is that wide"})
	}
	switch {
	case p.Way == ScrewThrough:
		list = append(list, DrillUse{"Clearance hole", wide(p.Clear), "right through"})
	case p.Pilot > 0:
		list = append(list, DrillUse{"Pilot hole", wide(p.Pilot), fineLength(s, p.Deep) + " deep"})
	}
	if p.Way == ScrewInto {
		list = append(list, DrillUse{"Hole in what is mounted", wide(p.Clear), "right through it"})
	} else if p.Pilot > 0 {
		list = append(list, DrillUse{"Pilot hole in what is mounted", wide(p.Pilot), ""})
	}
	return list
}

// ScrewWords names the screw with its length as it is sold: M4 × 30 mm.
func (p *MountPlan) ScrewWords() string {
	screw, ok := ScrewOf(p.Screw)
	switch {
	case !ok:
		return "No screw is chosen"
	case !p.Works && p.Shortest == 0:
		return "No " + string(p.Screw) + " works"
	case !p.Works:
		return fmt.Sprintf("%s × %s does not work", p.Screw, soldAs(screw, p.Long))
	}
	return fmt.Sprintf("%s × %s", p.Screw, soldAs(screw, p.Long))
}

// soldAs writes a screw's length as it is sold.
func soldAs(s Screw, l unit.Length) string {
	if s.Metric {
		return unit.Style{}.LengthIn(l, unit.InMillimetres, unit.TenthMillimetre)
	}
	return unit.Style{}.LengthIn(l, unit.InInches, unit.Sixteenth)
}

// drillWords writes a drill as its screw's series has it, and in the maker's own
// units where those differ.
func drillWords(style unit.Style, s Screw, l unit.Length) string {
	own := fineLength(style, l)
	mm := fineLength(unit.Style{}, l)
	in := fineLength(unit.Style{Lengths: unit.InInches}, l)
	if s.Metric && own != mm {
		return mm + " (" + own + ")"
	}
	if !s.Metric && own != in {
		return own + " (" + in + ")"
	}
	return own
}

// TakesWords tells what one grit takes off and what it takes: 80 µm off, 12 min,
// 1 disc.
func (s *SandStep) TakesWords(style unit.Style) string {
	text := micrometres(s.Removes) + " off"
	if s.Time > 0 {
		text += ", " + style.Span(s.Time) + ", " + s.discs()
	}
	return text
}

// discs tells how many discs, or belts, are used up.
func (s *SandStep) discs() string {
	if s.Belt {
		return count(s.Discs, "belt", "belts")
	}
	return count(s.Discs, "disc", "discs")
}

// Grits counts the grits of the ladder; one that a belt and then a disc have is
// one.
func (p *SandPlan) Grits() string {
	n := 0
	for i := range p.Steps {
		if i == 0 || p.Steps[i].Mark != p.Steps[i-1].Mark {
			n++
		}
	}
	return count(n, "grit", "grits")
}

// By tells what a grit is moved with where there is a wide belt.
func (s *SandStep) By() string {
	if s.Belt {
		return "belt"
	}
	return "disc or hand"
}

// ScrewSizes lists the screws of the table, in the order in which they are
// offered.
func ScrewSizes() []string { return screwSizes() }
