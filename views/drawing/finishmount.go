package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// mountReach is how near to a mount a finger takes hold of it, in dp.
const mountReach = Target / 2

// mount draws the holes of one mount to scale: the counterbore, the hole in it,
// and a cross at its middle.
func (p *finishPainter) mount(s *model.Mount) {
	m := p.f.Plan.Finish.Mount(s.ID)
	if m == nil {
		return
	}
	ink := p.p.Ink
	if s.ID == p.f.Mount && p.st.Live {
		ink = p.p.Accent
	}
	if !m.Works {
		ink = p.p.Stop
	}
	if len(m.Holes) > 1 {
		p.line("mount", narrow, ink, chain, Line(p.place(m.Holes[0].At), p.place(m.Holes[1].At)))
	}
	for i := range m.Holes {
		p.hole(m, p.place(m.Holes[i].At), i)
	}
	words := Lettering{Name: "mount", Size: small, Bold: s.ID == p.f.Mount, Anchor: Middle, Colour: p.p.Ink}
	name := shortened(p.s, s.Name, words, 170)
	p.taken = append(p.taken, p.plated(p.nameAt(m, name, words), name, words, Fade(p.p.Panel, 0.85)))
}

// nameAt gives a place for the name of a mount beside its holes, clear of grips
// and other names where one of the four sides is.
func (p *finishPainter) nameAt(m *model.MountPlan, name string, l Lettering) Pt {
	box := p.reachOf(m)
	half := p.s.Measure(name, l)/2 + 10
	mid := box.Centre()
	sides := [4]Pt{{mid.X, box.Min.Y - 10}, {mid.X, box.Max.Y + 18}, {box.Max.X + half, mid.Y + 4}, {box.Min.X - half, mid.Y + 4}}
	room := p.s.Bounds().Grown(-6)
	room.Min.Y += 58                               // the buttons
	for _, clear := range [2][]Box{p.taken, nil} { // of all, else of the grips alone
		for _, at := range sides {
			plate := plateOf(p.s, at, name, l)
			free := room.Holds(plate)
			for _, t := range append(clear[:len(clear):len(clear)], p.grips...) {
				free = free && !plate.Overlaps(t)
			}
			if free {
				return at
			}
		}
	}
	return sides[0]
}

func (p *finishPainter) hole(m *model.MountPlan, at Pt, i int) {
	const least = 3.0 // dp, so that it is seen
	ink := p.p.Ink
	switch {
	case !m.Works || m.Holes[i].Edge <= 0:
		ink = p.p.Stop
	case m.ID == p.f.Mount && p.st.Live:
		ink = p.p.Accent
	}
	wide2 := max(float64(m.SunkWide)*p.v.X/2, least+2)
	in := m.Clear
	if m.Pilot > 0 && m.Way == model.ScrewInto {
		in = m.Pilot
	}
	r := max(float64(in)*p.v.X/2, least)
	p.s.Fill("hole", Fade(p.p.Panel, 0.9), circle(at, max(r, wide2), 40))
	if m.SunkWide > 0 {
		p.line("counterbore", narrow, ink, nil, Loop(circle(at, wide2, 40)...))
	}
	p.s.Fill("hole", ink, circle(at, r, 32))
	arm := max(wide2, r) + 6
	p.line("hole", narrow, ink, nil, Line(at.Add(-arm, 0), at.Add(arm, 0)), Line(at.Add(0, -arm), at.Add(0, arm)))
	if ink == p.p.Stop {
		beside := at.Add(arm+wrongReach/2, -arm-wrongReach/2)
		p.wrong(beside)
		p.taken = append(p.taken, Box{beside.Add(-wrongReach, -wrongReach), beside.Add(wrongReach, wrongReach)})
	}
}

// reachOf gives the box around the holes of a mount.
func (p *finishPainter) reachOf(m *model.MountPlan) Box {
	var at []Pt
	for _, h := range m.Holes {
		at = append(at, p.place(h.At))
	}
	return BoxOf(at...).Grown(12)
}

// middle gives the middle of a mount on the surface, and the direction of its
// holes.
func (p *finishPainter) middle(m *model.MountPlan) (at, end Pt) {
	first := p.place(m.Holes[0].At)
	if len(m.Holes) < 2 {
		return first, first
	}
	end = p.place(m.Holes[1].At)
	return first.Lerp(end, 0.5), end
}

// Handles gives the grips of the selected mount: to move it, and where it has
// two holes to turn it.
func (c FinishScene) Handles(_ Box, v View) []Handle {
	m := c.Plan.Finish.Mount(c.Mount)
	if !c.Style.Live || !c.Ready() || m == nil || len(m.Holes) == 0 {
		return nil
	}
	p := newFinishPainter(nil, c, v)
	at, end := p.middle(m)
	hs := []Handle{{Kind: MovePiece, ID: m.ID, At: at.Add(0, p.gripOff(m))}}
	if len(m.Holes) > 1 {
		const beyond = 40.0
		long := max(at.To(end), 1)
		hs = append(hs, Handle{Kind: TurnPiece, ID: m.ID, At: end.Add((end.X-at.X)/long*beyond, (end.Y-at.Y)/long*beyond), Pivot: at})
	}
	return hs
}

// gripOff sets the grip of a single hole below it, so that the hole is seen while
// it is moved.
func (p *finishPainter) gripOff(m *model.MountPlan) float64 {
	if len(m.Holes) > 1 {
		return 0
	}
	return 34
}

// grip draws a grip with the sign of what it does.
func (p *finishPainter) grip(h Handle) {
	if h.Kind == TurnPiece {
		p.line("handle", narrow, p.p.Accent, dashed, Line(h.Pivot, h.At))
		p.handle(h.At, false)
		p.turnArrow(h.At)
		return
	}
	p.handle(h.At, false)
	p.crossArrows(h.At)
}

// Hit gives the ID of the mount at a place; the last drawn wins.
func (c FinishScene) Hit(at Pt, v View) string {
	if !c.Ready() {
		return ""
	}
	p := newFinishPainter(nil, c, v)
	id := ""
	for i := range c.Plan.Finish.Mounts {
		m := &c.Plan.Finish.Mounts[i]
		near := false
		for _, h := range m.Holes {
			near = near || p.place(h.At).To(at) <= mountReach
		}
		if len(m.Holes) > 1 {
			near = near || fromSegment(at, p.place(m.Holes[0].At), p.place(m.Holes[1].At)) <= mountReach/2
		}
		if near {
			id = m.ID
		}
	}
	return id
}

// Preview draws a mount where it is being moved or turned to.
func (c FinishScene) Preview(s Surface, v View, ch Change) {
	m := c.Plan.Finish.Mount(ch.ID)
	if m == nil || !c.Ready() || len(m.Holes) == 0 {
		return
	}
	p := newFinishPainter(s, c, v)
	mid := m.Holes[0].At
	if len(m.Holes) > 1 {
		mid = shape.Point{X: (mid.X + m.Holes[1].At.X) / 2, Y: (mid.Y + m.Holes[1].At.Y) / 2}
	}
	var ring shape.Ring
	for _, h := range m.Holes {
		ring = append(ring, h.At)
	}
	ring = moved(ring, mid, ch)
	var box []Pt
	for _, q := range ring {
		at := p.place(q)
		r := max(float64(max(m.SunkWide, m.Clear))*v.X/2, 7)
		p.line("preview", wide, p.p.Accent, nil, Loop(circle(at, r, 40)...))
		box = append(box, at)
	}
	if len(box) > 1 {
		p.line("preview", narrow, p.p.Accent, nil, Line(box...))
	}
	to := moved(shape.Ring{mid}, mid, ch)[0]
	text := p.off(unit.Length(to.X-p.t.Middle.X), unit.Length(to.Y-p.t.Middle.Y)) + " from the middle"
	if ch.Kind == TurnPiece {
		text = "turned by " + degrees(ch.By)
	}
	b := BoxOf(box...)
	at := Pt{b.Centre().X, b.Min.Y - 26}
	if at.Y < s.Bounds().Min.Y+70 {
		at.Y = b.Max.Y + 64
	}
	half := s.Measure(text, p.figure(Middle))/2 + 8
	at.X = math.Min(math.Max(at.X, s.Bounds().Min.X+half), s.Bounds().Max.X-half)
	p.plated(at, text, p.figure(Middle), p.p.Panel)
}
