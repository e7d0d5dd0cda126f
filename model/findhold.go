package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// findHolding notices whether the mold keeps the resin in, stands true and lets
// the piece out.
func (m *maker) findHolding() {
	m.findDepths()
	if !m.ok {
		return
	}
	m.findTwist()
	m.findUndercut()
	m.findSeams()
	m.findSag()
	m.findHolds()
}

// findDepths looks for depths at the corners that are missing or cannot be.
func (m *maker) findDepths() {
	list := m.p.Mold.Hold.Depths
	given := 0
	for i := range list {
		if list[i].Given() {
			given++
		}
	}
	if given == 0 || given == len(moldCorners) {
		return
	}
	why, do := helpOf("mold/hold/depths")
	for i := range list {
		if name, where := CornerName(i); !list[i].Given() && name != "" {
			m.say(Check, OfMold, "missing", "mold/hold/depths/"+itoa(i), "Measure the depth at corner "+name+", "+where+", too", why, do)
			return
		}
	}
	m.say(Check, OfMold, "missing", "mold/hold/depths", "Measure the depth at all four corners", why, do)
}

// steepest is the fall of a floor beyond which a depth is misread rather than the
// bench so crooked: 5 %; common practice, no source.
const steepest = 0.05

// findTwist looks at the four depths: whether they can be, whether the floor is
// twisted, and whether they say the same as the level.
func (m *maker) findTwist() {
	l := m.plan.Mold.Level
	if l == nil {
		return
	}
	const at = "mold/hold/depths/0"
	if math.Hypot(l.Along, l.Across) > steepest {
		m.say(Check, OfMold, "level.depths", at, "The four depths differ more than a bench leans", Slope(m.p.Style, math.Hypot(l.Along, l.Across)), "measure all four down from the same level line, and check their units")
	}
	// Four readings make the twist; it shows from about twice the ± of one on.
	off := m.p.HalfWidth(m.p.Mold.Hold.Depths[0].By)
	if limit := max(mostSag, 2*off); l.Twist > limit {
		m.say(Check, OfMold, "level.twist", at, "The floor of the mold is twisted",
			fmt.Sprintf("one corner lies %s off the plane of the other three; shims below the corners cannot mend that", m.length(l.Twist)), "lay it on a flat, stiff board and screw or weigh it down, or plan to take so much off")
	}
	if level, depths, apart := m.contradicts(); apart {
		m.say(Check, OfMold, "level.contradicts", "shop/tiltRise", "The level and the four depths do not agree",
			fmt.Sprintf("the level says %s, the depths say %s; the depths are gone by", Slope(m.p.Style, level), Slope(m.p.Style, depths)), "turn the level end for end and read it again; what differs is its own error. A phone is no use here: it is off by up to "+Slope(m.p.Style, phoneLevel))
	}
}

// findUndercut refuses walls that hold the piece fast.
func (m *maker) findUndercut() {
	p := &m.plan.Mold
	if p.DraftEach > -clearEnough {
		return
	}
	level, do := Stop, "turn the lean round, or build the mold so that its walls come off"
	if kind, _ := m.p.floor(); kind == FloorSilicone {
		level, do = Check, "a soft mold gives a little: try it with wax or plaster first, or turn the lean round"
	}
	m.say(level, OfMold, "mold.undercut", "mold/draft/kind", "The piece would not come out: the mold is narrower at the rim than at the floor",
		fmt.Sprintf("by %s on each side, %s", m.length(-p.DraftEach), m.p.Style.Angle(-p.Draft)), do)
}

// findSeams tells what would be lost by the seams.
func (m *maker) findSeams() {
	for i := range m.p.Mold.Hold.Seams {
		s := &m.p.Mold.Hold.Seams[i]
		at := "mold/hold/seams/" + s.ID
		if !s.Gap.Given() {
			why, do := helpOf(at + "/gap")
			m.say(Check, OfMold, "missing", at+"/gap", "Measure the gap of "+orWord(s.Name, "the seam"), why, do)
		}
		if fill := m.plan.Mold.FillLine; fill > 0 && s.Height.Value >= fill-clearEnough {
			m.say(Note, OfMold, "leak.above", at+"/height", upperFirst(orWord(s.Name, "the seam"))+" lies above all resin",
				fmt.Sprintf("at %s, and the fill line is at %s", m.length(s.Height.Value), m.length(fill)), "it counts for nothing; check its height above the floor")
		}
	}
	for k := range m.plan.Leaks.Pours {
		if !m.plan.hasSet(m.p, k) {
			m.findLeak(&m.plan.Leaks.Pours[k])
		}
	}
}

// findLeak tells what one pour would lose.
func (m *maker) findLeak(p *LeakPour) {
	worst := none
	all := false
	for i := range p.Seams {
		s := &p.Seams[i]
		all = all || s.All
		if s.Hour > 0 && (worst == none || s.Hour > p.Seams[worst].Hour) {
			worst = i
		}
	}
	if worst == none {
		return
	}
	at := "mold/hold/seams/" + p.Seams[worst].ID + "/gap"
	st := m.p.Style
	switch {
	case p.ByGel.Absent:
		m.say(Check, OfMold, "leak.unknown", at, "How much of "+p.Name+" would leak is not known", st.Mass(p.Hour)+" in an hour, for as long as it runs: "+p.Gel.Source, "copy the gel time or the working time from the data sheet, and seal the seams in any case")
	case all:
		m.say(Stop, OfMold, "leak.empties", at, p.Name+" would run out of the mold", fmt.Sprintf("%s in an hour, and all that stands above the seam before it sets in %s", st.Mass(p.Hour), st.Span(p.Gel.Value)), m.sealWords(p))
	case p.TooMuch():
		m.say(Check, OfMold, "leak.much", at, fmt.Sprintf("%s would lose up to %s by the seams", p.Name, st.Share(unit.Share(p.Share))),
			fmt.Sprintf("%s in an hour; up to %s until it sets in %s, if it stays as thin as it was mixed and nothing is sealed", st.Mass(p.Hour), st.Mass(p.ByGel.Value), st.Span(p.Gel.Value)), m.sealWords(p))
	}
}

// sealWords says what to do about a leak.
func (m *maker) sealWords(p *LeakPour) string {
	return fmt.Sprintf("seal the seams, test them with water a day before, and set a tray for %s below; a gap of %s in all of them would lose 1 %%", m.vol(m.plan.Leaks.Tray), GapWords(m.p.Style, p.Gap))
}

// GapWords writes a gap as a feeler gauge reads it, to a hundredth of a
// millimetre, or to a thousandth of an inch.
func GapWords(s unit.Style, gap unit.Length) string {
	if s.LengthUnit() == unit.InInches {
		return fmt.Sprintf("%.4f in", gap.Inches())
	}
	return fmt.Sprintf("%.2f mm", gap.Millimetres())
}

// findSag tells whether the floor sinks between its supports.
func (m *maker) findSag() {
	s := m.plan.Mold.Sag
	if s == nil {
		return
	}
	const at = "mold/hold/spacing"
	bench, _ := m.p.bench()
	switch {
	case !s.Bears && s.Spacing > 0:
		m.say(Check, OfMold, "sag.soft", at, "A silicone floor does not bear from support to support", "it lies as flat as what is below it", "set the mold on a flat, stiff board")
	case !s.Bears:
	case s.Spacing > 0 && s.Sinks.Value > s.Allowed:
		m.say(Check, OfMold, "sag.much", at, "The floor of the mold would sag between its supports",
			fmt.Sprintf("by %s, of %s that may be; %s apart, %s thick", m.length(s.Sinks.Value), m.length(s.Allowed), m.length(s.Spacing), m.length(s.Thick.Value)), "support it every "+m.length(spaced(s.Most.Value))+" or closer, or take a thicker floor")
	case s.Spacing == 0 && bench == BenchOpen:
		m.say(Note, OfMold, "sag.unknown", at, "Whether the floor of the mold sags is not known", "it stands on battens, and how far apart they are is not said", fmt.Sprintf("measure it; up to %s between them it sinks less than %s", m.length(spaced(s.Most.Value)), m.length(s.Allowed)))
	}
}

// spaced rounds a spacing of supports down to whole centimetres.
func spaced(l unit.Length) unit.Length {
	return unit.Centimetre.Times(math.Floor(l.Per(unit.Centimetre)))
}

// SpacingWords writes the largest spacing of supports, rounded down.
func SpacingWords(s unit.Style, l unit.Length) string { return s.Length(spaced(l)) }
