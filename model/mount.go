package model

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// ground is what mounts are screwed on: the finished outline, and the wood in it.
type ground struct {
	room func(shape.Point) float64 // to the nearest edge
	wood []groundWood
}

type groundWood struct {
	name     string
	ring     shape.Ring
	from, to unit.Length // heights
}

// mounts works out all mounts.
func (m *maker) mounts() {
	f := &m.plan.Finish
	if len(m.p.Finish.Mounts) == 0 {
		return
	}
	g := ground{room: f.Trim.Ring.Room()}
	for k := range m.pieces {
		w := &m.pieces[k]
		if w.piece.Cavity > 1 {
			continue // all cavities are alike to a mount, and it is shown in the first
		}
		from := unit.Length(m.x[w.height])
		g.wood = append(g.wood, groundWood{cmp.Or(w.piece.Name, "wood"), placedRing(w.piece, w.faces.bottom), from, from + unit.Length(m.x[w.thick])})
	}
	for i := range m.p.Finish.Mounts {
		f.Mounts = append(f.Mounts, m.mountPlan(&m.p.Finish.Mounts[i], &g))
	}
}

// mountPlan works out one mount: its holes, drills and screw.
func (m *maker) mountPlan(s *Mount, g *ground) MountPlan {
	t := &m.plan.Finish.Trim
	p := MountPlan{ID: s.ID, Name: s.Name, Way: s.way(), From: "underside", Screw: s.Screw, Head: s.Head}
	if p.Way == ScrewInto && s.Top {
		p.From = "top"
	}
	p.Holes = s.holes(g, t.Ring != nil)
	screw, known := ScrewOf(s.Screw)
	if !known || t.Ring == nil {
		p.Lines = []WorkingInput{line("Screw", "not chosen", "choose the screw, and its holes follow").at("finish/mounts/" + s.ID + "/screw")}
		return p
	}
	head, ok := HeadOf(s.Screw, s.Head)
	if !ok {
		head, _ = HeadOf(s.Screw, HeadPan)
		p.Head = HeadPan
	}
	thick := t.High - t.Low
	bite := s.bitesIn()
	if screw.Wood {
		bite = BiteWood // it cuts its own thread, and fits none that is there
	}
	least, aim, most := s.bites(screw, bite)
	p.BitesLeast = least
	p.Clear = screw.Normal
	leave := max(underHead, screw.Thick)
	with := func(long unit.Length) (joint, bool) {
		return throughWith(long, thick, least, aim, most, m.sinkLeast(head), leave+head.cone(screw))
	}
	if p.Way == ScrewInto {
		with = func(long unit.Length) (joint, bool) { return intoWith(long, thick, s.Thickness.Value, least, most) }
	}
	for _, long := range screwLengths(screw) {
		j, ok := with(long)
		if ok && p.Shortest == 0 {
			p.Shortest, p.Suits = long, long
		}
		if ok && (p.Way == ScrewInto || j.left-head.cone(screw) >= thick/2 && j.bites >= aim-1e-9) {
			p.Suits = long
			break
		}
	}
	p.Long = s.Long.Or(p.Suits)
	var j joint
	if p.Long > 0 {
		j, p.Works = with(p.Long)
	}
	if p.Works {
		p.Sunk, p.Bites, p.Left = j.sunk, j.bites, j.left
		m.drills(&p, screw, head, bite)
	}
	m.throughInserts(&p, t)
	p.Lines = m.mountLines(s, &p, screw, head, bite)
	return p
}

// sinkLeast is how deep the face under a pan head, or the top of a flat one, has
// to lie so that the head is below the face.
func (m *maker) sinkLeast(h Head) unit.Length {
	if h.Flat() {
		return belowFace
	}
	return h.High + belowFace
}

// drills fills in what is drilled once the screw is known to work.
func (m *maker) drills(p *MountPlan, screw Screw, head Head, bite BiteKind) {
	if p.Way == ScrewThrough {
		p.Below = p.Sunk
		if head.Flat() {
			p.Cone, p.SunkWide = head.Sharp, drill(head.Sharp, screw.Metric)
			p.Left -= head.cone(screw)
		} else {
			p.Below -= head.High
			p.SunkWide = drill(head.Wide+sunkMore, screw.Metric)
		}
		if bite == BiteWood {
			p.Pilot = screw.Tap
		}
		return
	}
	p.Deep = p.Bites + pilotMore
	if bite == BiteWood {
		p.Pilot = screw.Tap
	}
}

// holes places the holes of a mount and tells what each goes into.
func (s *Mount) holes(g *ground, bounded bool) []Hole {
	at := []shape.Point{{X: float64(s.X), Y: float64(s.Y)}}
	if a := float64(s.Apart.Value) / 2; a > 0 {
		own := shape.Ring{{X: -a}, {X: a}}.Turned(s.Turn)
		at = []shape.Point{{X: at[0].X + own[0].X, Y: at[0].Y + own[0].Y}, {X: at[0].X + own[1].X, Y: at[0].Y + own[1].Y}}
	}
	list := make([]Hole, len(at))
	for i, p := range at {
		list[i] = Hole{At: p, In: "resin"}
		if bounded {
			list[i].Edge = unit.Length(g.room(p))
		}
		for _, w := range g.wood {
			if w.ring.Contains(p) {
				list[i].In, list[i].from, list[i].to = w.name, w.from, w.to
			}
		}
	}
	return list
}

// throughInserts names the inserts whose heights a hole goes through. Where each
// lies is not known, so that any of them may be in the way but those that stand
// no higher and no lower than the wood that the hole is in. How deep a hole of a
// screw that does not work goes is not known: it counts as right through.
func (m *maker) throughInserts(p *MountPlan, t *TrimPlan) {
	lo, hi := t.Low, t.High
	if p.Way == ScrewInto && p.Works {
		lo, hi = t.Low, t.Low+p.Deep
		if p.From == "top" {
			lo, hi = t.High-p.Deep, t.High
		}
	}
	for i := range p.Holes {
		h := &p.Holes[i]
		for k := range m.plan.Inserts {
			if s := &m.plan.Inserts[k]; s.Count > 0 && s.Top > lo && s.Bottom < hi && !(h.from <= s.Bottom && s.Top <= h.to) {
				h.Passes = append(h.Passes, cmp.Or(s.Name, "an insert"))
			}
		}
	}
}

// Passes names each insert whose height any hole of the mount goes through.
func (p *MountPlan) Passes() []string {
	var names []string
	for _, h := range p.Holes {
		for _, name := range h.Passes {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

// edgeLeast is how far the middle of a hole has to stay from a finished edge.
func (p *MountPlan) edgeLeast(screw Screw) unit.Length {
	return max(screw.Thick.Times(edgeBy), p.SunkWide/2+besideSunk)
}

func (m *maker) mountLines(s *Mount, p *MountPlan, screw Screw, head Head, bite BiteKind) []WorkingInput {
	at := "finish/mounts/" + s.ID + "/"
	list := []WorkingInput{
		line("Screw", fmt.Sprintf("%s, head %s", s.Screw, p.Head), screw.Source).at(at + "screw"),
		line("Goes", string(p.Way)+", drilled from the "+p.From, "common practice").at(at + "way"),
	}
	if names := p.Passes(); len(names) > 0 {
		seen, why := "not looked through yet", "at the height of "+strings.Join(names, ", ")
		if s.Looked {
			seen, why = "looked through, clear", "yours; "+why
		}
		list = append(list, line("Inserts in its way", seen, why).at(at+"looked"))
	}
	if p.Shortest > 0 {
		list = append(list, line(LineShortest, m.screwLength(screw, p.Shortest), "standard lengths, from memory"))
		if p.Suits != p.Shortest {
			list = append(list, line(LineSuits, m.screwLength(screw, p.Suits), "the shortest that leaves half of the piece under its head, with all the thread aimed for"))
		}
	} else {
		list = append(list, line(LineShortest, "none", "no standard length holds and stays within the piece"))
	}
	if !p.Works {
		return append(list, line("Holes", "not worked out", "this screw does not work here").at(at+"long"))
	}
	list = append(list,
		line("Length", m.screwLength(screw, p.Long), lengthCounts(head)).at(at+"long"),
		line("Clearance hole", m.drillSize(screw, p.Clear), "normal fit"))
	if p.Pilot > 0 {
		list = append(list, line("Pilot hole", m.drillSize(screw, p.Pilot), pilotWhy(screw)))
	}
	if p.Deep > 0 {
		list = append(list, line("Drilled deep", m.fine(p.Deep), fmt.Sprintf("from the %s; %s left to the far face", p.From, m.fine(p.Left))))
	}
	if p.SunkWide > 0 {
		what, why := "Counterbore", fmt.Sprintf("%s wide; the head ends %s below the face", m.drillSize(screw, p.SunkWide), m.fine(p.Below))
		if p.Cone > 0 {
			why = fmt.Sprintf("%s wide, with a %g° cone of that width below it, by its sharp edge and not the head as made", m.drillSize(screw, p.SunkWide), head.Angle)
		}
		list = append(list, line(what, m.fine(p.Sunk)+" deep", why), line(LineUnderHead, m.fine(p.Left), fmt.Sprintf("at least %s", m.fine(max(underHead, screw.Thick)))))
	}
	list = append(list, line(LineThread, m.fine(p.Bites), fmt.Sprintf("at least %s: %s", m.fine(p.BitesLeast), biteWhy(bite, screw))).at(at+"bite"))
	for i, h := range p.Holes {
		list = append(list, line(fmt.Sprintf("Hole %d", i+1), "in "+h.In, fmt.Sprintf("%s from the nearest edge", m.tenth(h.Edge))))
	}
	return list
}

// lengthCounts tells how the length of a screw is measured.
func lengthCounts(h Head) string {
	if h.Flat() {
		return "over all: a flat head counts"
	}
	return "under the head"
}

func pilotWhy(s Screw) string {
	if s.Wood {
		return "90 % of the root in hardwood and in resin, 70 % in softwood (Wood Handbook)"
	}
	return "for three quarters of a thread"
}

func biteWhy(b BiteKind, s Screw) string {
	switch {
	case b == BiteInsert:
		return "1.5 diameters in a threaded insert, common practice"
	case b == BiteNut:
		return "the whole nut"
	case b == BiteWood && s.Wood:
		return "4 diameters for light loads, 6 by the National Design Specification for Wood"
	case b == BiteWood:
		return "2 diameters of thread cut in wood or resin, common practice"
	}
	return "1 diameter in metal, 1.5 aimed for, common practice"
}

// screwLength writes a screw's length as it is sold.
func (m *maker) screwLength(s Screw, l unit.Length) string { return soldAs(s, l) }

// drillSize writes a drill as its screw's series has it, and in the maker's own
// units where those differ.
func (m *maker) drillSize(s Screw, l unit.Length) string { return drillWords(m.p.Style, s, l) }
