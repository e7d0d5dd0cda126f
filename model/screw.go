package model

import (
	"math"

	"meniscus/model/unit"
)

// Limits of a screwed joint (common practice, no source, but for the wood
// screw's six diameters, which are the least that the National Design
// Specification for Wood Construction lets a wood screw go in, tip and all,
// as its publisher explains; four are what thin boards and light loads are content with).
const (
	belowFace   = unit.Millimetre / 2 // of the head, so that nothing scratches
	underHead   = 4 * unit.Millimetre // of the piece, at least, or as much as the screw is thick
	beyondTip   = 3 * unit.Millimetre // of the piece, at least
	pilotMore   = unit.Millimetre     // that a pilot hole is deeper than the screw goes
	threadClear = unit.Millimetre / 2 // between the tip and the end of a blind thread
	sunkMore    = unit.Millimetre / 2 // that a counterbore is wider than the head
	besideSunk  = 4 * unit.Millimetre // from a counterbore to the edge
	edgeBy      = 3                   // diameters from a screw to the edge
	metalLeast  = 1.0
	metalAim    = 1.5
	insertLeast = 1.5
	tappedLeast = 2.0 // a machine thread cut in wood or resin
	tappedAim   = 2.5
	woodLeast   = 4.0
	woodAim     = 6.0
	threadMost  = 2.5 // counted where the depth of a thread is not known
)

// bites gives how much thread has to hold, how much is aimed for, and how much
// there can be.
func (m *Mount) bites(s Screw, bite BiteKind) (least, aim, most unit.Length) {
	d := s.Thick
	switch {
	case bite == BiteInsert:
		least, aim = d.Times(insertLeast), d.Times(insertLeast)
	case bite == BiteNut:
		least, aim = s.Nut, s.Nut+s.Pitch
	case bite == BiteWood && s.Wood:
		least, aim = d.Times(woodLeast), d.Times(woodAim)
	case bite == BiteWood:
		least, aim = d.Times(tappedLeast), d.Times(tappedAim)
	default:
		least, aim = d.Times(metalLeast), d.Times(metalAim)
	}
	most = max(aim, d.Times(threadMost))
	if bite == BiteWood && s.Wood {
		most = d.Times(2 * woodAim)
	}
	if m.Takes.Given() {
		most = m.Takes.Value
		if bite != BiteNut {
			most -= threadClear
		}
	}
	return least, min(aim, max(most, 0)), most
}

// bitesIn is what a screw bites in where the maker does not say: a handle has a
// thread of its own, a foot or hanger is screwed into the piece.
func (m *Mount) bitesIn() BiteKind {
	switch {
	case m.Bite != "":
		return m.Bite
	case m.way() == ScrewThrough:
		return BiteMetal
	}
	return BiteWood
}

func (m *Mount) way() ScrewWay {
	switch {
	case m.Way != "":
		return m.Way
	case m.Kind == MountHandle:
		return ScrewThrough
	}
	return ScrewInto
}

// joint is a screw through or into a piece.
type joint struct {
	long, sunk, bites, left unit.Length
}

// throughWith finds how deep a screw of a length has to be sunk from the far
// face so that it reaches: what is left under the head is the thickness less the
// sinking, and the rest of the screw bites. With a flat head, whose length
// counts the head, the sinking is that of the head's top.
func throughWith(long, thick, least, aim, most, sinkLeast, leave unit.Length) (joint, bool) {
	lo := max(sinkLeast, thick+least-long)
	hi := min(thick-leave, thick+most-long)
	if lo > hi+1e-9 {
		return joint{}, false
	}
	sunk := min(max(thick+aim-long, lo), hi)
	return joint{long, sunk, long - (thick - sunk), thick - sunk}, true
}

// intoWith finds how far a screw of a length goes into a piece, through so much
// of what is mounted: deep enough to hold, and no deeper than leaves the far
// face alone.
func intoWith(long, thick, through, least, most unit.Length) (joint, bool) {
	deep := long - through
	if deep < least-1e-9 || deep > most+1e-9 || deep+pilotMore+beyondTip > thick+1e-9 {
		return joint{}, false
	}
	return joint{long, 0, deep, thick - deep - pilotMore}, true
}

// drill gives the next size of drill at least as wide: whole millimetres, or
// sixteenths of an inch.
func drill(wide unit.Length, metric bool) unit.Length {
	step := unit.Inch / 16
	if metric {
		step = unit.Millimetre
	}
	return step.Times(math.Ceil(wide.Per(step) - 1e-9))
}

// cone gives how high the cone of a flat head is between the diameter to which
// it runs out and the thread.
func (h Head) cone(s Screw) unit.Length {
	if !h.Flat() {
		return 0
	}
	return unit.Length(float64(h.Sharp-s.Thick) / 2 / math.Tan(h.Angle/2*math.Pi/180))
}
