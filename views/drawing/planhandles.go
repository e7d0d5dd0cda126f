package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Handles gives the grips of the selected piece and of the section line.
func (c PlanScene) Handles(box Box, v View) []Handle {
	if !c.Style.Live {
		return nil
	}
	p := planPainter{drafter: drafter{st: c.Style}, c: c, v: v}
	var hs []Handle
	if d := c.piece(c.Piece); d != nil {
		at := v.ToScreen(d.Centre)
		hs = append(hs, Handle{Kind: MovePiece, ID: d.ID, At: at},
			Handle{Kind: TurnPiece, ID: d.ID, At: turnGrip(d, box, v), Pivot: at})
	}
	if x, ok := p.cut(); ok {
		lo, hi := math.Inf(1), math.Inf(-1)
		first := &c.Plan.Drawing.Cavities[0]
		for _, q := range first.Rim {
			lo, hi = math.Min(lo, q.X-first.Centre.X), math.Max(hi, q.X-first.Centre.X)
		}
		top, _ := p.cutEnds(x)
		hs = append(hs, Handle{Kind: DragCut, At: top.Add(0, -21),
			Value: c.Plan.Drawing.Section.Cut, Low: lo, High: hi})
	}
	return hs
}

// turnGrip gives the place of the turn handle: beyond the end of the piece, at
// whichever end lies well within the box.
func turnGrip(d *model.PieceDrawing, box Box, v View) Pt {
	const beyond = 32.0
	sin, cos := math.Sincos(-float64(d.Turn))
	c := v.ToScreen(d.Centre)
	room := box.Grown(-Target / 2)
	var at Pt
	for _, side := range [2]float64{1, -1} {
		end := 0.0
		for _, r := range [2]shape.Ring{d.Top, d.Bottom} {
			for _, q := range r {
				s := v.ToScreen(q)
				end = math.Max(end, side*((s.X-c.X)*cos+(s.Y-c.Y)*sin))
			}
		}
		at = c.Add(side*cos*(end+beyond), side*sin*(end+beyond))
		if room.Contains(at) {
			return at
		}
	}
	at.X = min(max(at.X, room.Min.X), room.Max.X)
	at.Y = min(max(at.Y, room.Min.Y), room.Max.Y)
	return at
}

// Hit gives the ID of the piece at a place; the last drawn wins.
func (c PlanScene) Hit(p Pt, v View) string {
	id := ""
	for _, cavity := range c.Plan.Drawing.Cavities {
		for i := range cavity.Pieces {
			d := &cavity.Pieces[i]
			if inside(p, v.Ring(d.Top)) || inside(p, v.Ring(d.Bottom)) {
				id = d.ID
			}
		}
	}
	return id
}

func (c PlanScene) piece(id string) *model.PieceDrawing {
	for i := range c.Plan.Drawing.Cavities {
		pieces := c.Plan.Drawing.Cavities[i].Pieces
		for j := range pieces {
			if pieces[j].ID == id && id != "" {
				return &pieces[j]
			}
		}
	}
	return nil
}

// handles draws the grips.
func (p *planPainter) handles() {
	for _, h := range p.c.Handles(p.s.Bounds(), p.v) {
		switch h.Kind {
		case MovePiece:
			p.handle(h.At, false)
			p.crossArrows(h.At)
		case TurnPiece:
			p.line("handle", narrow, p.p.Accent, dashed, Line(h.Pivot.Lerp(h.At, 16/max(16, h.Pivot.To(h.At))), h.At))
			p.handle(h.At, false)
			p.turnArrow(h.At)
		case DragCut:
			p.handle(h.At, false)
			p.s.Text(h.At.Add(0, title*0.36), "A", Lettering{Name: "section", Size: title, Bold: true, Anchor: Middle, Colour: p.p.Ink})
		}
	}
}

// crossArrows draws the sign for moving any way.
func (p *planPainter) crossArrows(at Pt) {
	const r, h = 8.0, 2.6
	p.line("handle", 1.4, p.p.Ink, nil,
		Line(at.Add(-r+1, 0), at.Add(r-1, 0)), Line(at.Add(0, -r+1), at.Add(0, r-1)))
	for _, d := range [4]Pt{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		tip := at.Add(d.X*r, d.Y*r)
		p.s.Fill("handle", p.p.Ink, []Pt{tip, tip.Add(-d.X*3.6-d.Y*h, -d.Y*3.6+d.X*h), tip.Add(-d.X*3.6+d.Y*h, -d.Y*3.6-d.X*h)})
	}
}

// turnArrow draws the sign for turning.
func (p *planPainter) turnArrow(at Pt) {
	const r, from, to = 6.2, -2.5, 2.2
	var arc []Pt
	for k := 0; k <= 16; k++ {
		sin, cos := math.Sincos(from + (to-from)*float64(k)/16)
		arc = append(arc, at.Add(r*cos, r*sin))
	}
	p.line("handle", 1.5, p.p.Ink, nil, Path{Points: arc})
	sin, cos := math.Sincos(to + 0.15)
	tip := at.Add(r*cos-sin*4.2, r*sin+cos*4.2)
	p.s.Fill("handle", p.p.Ink, []Pt{tip, at.Add((r-3)*cos, (r-3)*sin), at.Add((r+3)*cos, (r+3)*sin)})
}

// Preview draws a piece where it is being moved or turned to, or the section
// line where it is being dragged.
func (c PlanScene) Preview(s Surface, v View, ch Change) {
	p := planPainter{drafter: newDrafter(s, c.Style), c: c, v: v}
	if ch.Kind == DragCut {
		if len(c.Plan.Drawing.Cavities) == 0 {
			return
		}
		at := c.Plan.Drawing.Cavities[0].Centre
		at.X += float64(ch.To)
		x := v.ToScreen(at).X
		top, foot := p.cutEnds(x)
		p.line("preview", wide, p.p.Accent, chain, Line(top, foot))
		p.plated(foot.Add(0, 16), p.st.Length(ch.To)+" from the middle", p.figure(Middle), p.p.Panel)
		return
	}
	d := c.piece(ch.ID)
	if d == nil {
		return
	}
	top := moved(d.Top, d.Centre, ch)
	if len(top) < 3 {
		top = moved(d.Bottom, d.Centre, ch)
	}
	ring := v.Ring(top)
	if len(ring) < 3 {
		return
	}
	p.s.Fill("preview", Fade(p.p.Wood, 0.55), ring)
	p.line("preview", wide*1.3, p.p.Accent, nil, Loop(ring...))
	text := p.st.Length(ch.DX) + " along, " + p.st.Length(ch.DY) + " across"
	if ch.Kind == TurnPiece {
		text = degrees(d.Turn + ch.By)
	}
	b := BoxOf(ring...)
	at := Pt{b.Centre().X, b.Min.Y - 12}
	if at.Y < 70 {
		at.Y = b.Max.Y + 24
	}
	p.plated(at, text, p.figure(Middle), p.p.Panel)
}

// moved gives a ring turned around a centre and shifted.
func moved(r shape.Ring, c shape.Point, ch Change) shape.Ring {
	sin, cos := math.Sincos(float64(ch.By))
	out := make(shape.Ring, len(r))
	for i, q := range r {
		x, y := q.X-c.X, q.Y-c.Y
		out[i] = shape.Point{X: c.X + x*cos - y*sin + float64(ch.DX), Y: c.Y + x*sin + y*cos + float64(ch.DY)}
	}
	return out
}

// degrees writes an angle between -180 and 180 degrees, to half a degree.
func degrees(a unit.Angle) string {
	d := math.Mod(a.Degrees()+180, 360)
	if d < 0 {
		d += 360
	}
	return trimmed(math.Round((d-180)*2)/2, 1) + "°"
}
