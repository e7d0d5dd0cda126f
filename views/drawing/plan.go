package drawing

import (
	"fmt"
	"image/color"
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// PlanScene is the mold seen from above.
type PlanScene struct {
	Plan  *model.Plan
	Mold  model.Mold
	Style Style
	Piece string // ID of the selected piece, or ""
}

// Selected gives the ID of the selected piece.
func (c PlanScene) Selected() string { return c.Piece }

// Select gives the scene with another piece selected.
func (c PlanScene) Select(id string) Scene {
	c.Piece = id
	return c
}

// Fit gives the view of all cavities.
func (c PlanScene) Fit(box Box) View {
	m := Margins{Left: uprightOff + 24, Top: 34, Right: 76, Bottom: 88}
	if c.Style.Live {
		m.Top = 64
	}
	if box.W() < crampedWidth {
		m.Left, m.Right = uprightNear+20, 40
	}
	return Fit(c.Plan.Drawing.Min, c.Plan.Drawing.Max, box, m, 1)
}

// planPainter holds what painting a plan view needs at hand.
type planPainter struct {
	drafter
	c     PlanScene
	v     View
	lines [][]Pt // outlines that words keep clear of
	taken []Box  // words and grips that they keep clear of
}

// Paint draws the plan view.
func (c PlanScene) Paint(s Surface, v View) {
	p := planPainter{drafter: newDrafter(s, c.Style), c: c, v: v}
	for _, h := range c.Handles(s.Bounds(), v) {
		p.taken = append(p.taken, BoxOf(h.At).Grown(18))
	}
	for i := range c.Plan.Drawing.Cavities {
		p.cavity(&c.Plan.Drawing.Cavities[i])
	}
	p.dimensions()
	p.section()
	p.gaps()
	p.names()
	p.foot()
	if c.Style.Live {
		p.handles()
	}
}

// cavity draws one cavity with what is in it.
func (p *planPainter) cavity(c *model.CavityDrawing) {
	rim, floor, fill := p.v.Ring(c.Rim), p.v.Ring(c.Floor), p.v.Ring(c.Fill)
	p.s.Fill("wall", mix(p.p.Ground, p.p.Line, 0.22), rim)
	if len(fill) > 2 {
		p.s.Fill("floor", p.p.Panel, fill)
		p.s.Fill("resin", p.resin(0), fill)
	} else {
		p.s.Fill("floor", p.p.Panel, floor)
	}
	for i := range c.Pieces {
		p.piece(&c.Pieces[i])
	}
	for i := range c.Inserts {
		p.insert(&c.Inserts[i])
	}
	if len(floor) > 2 && !hugs(floor, rim) {
		p.line("hidden", narrow, Fade(p.p.Ink, 0.75), dashed, Loop(floor...))
	}
	if len(fill) > 2 && !hugs(fill, rim) && !hugs(fill, floor) {
		p.line("fill line", narrow, p.p.Ink, nil, Loop(fill...))
	}
	p.line("outline", wide, p.p.Ink, nil, Loop(rim...))
	p.lines = append(p.lines, rim)
}

// hugs tells whether two rings lie so near each other that the thinner line
// would only blur the other.
func hugs(a, b []Pt) bool {
	const apart = 3.0 // dp
	x, y := BoxOf(a...), BoxOf(b...)
	return near(x.Min, y.Min, apart) && near(x.Max, y.Max, apart)
}

// resin gives the colour of the resin above a height, seen from above.
func (p *planPainter) resin(above unit.Length) color.NRGBA {
	under, alpha := p.p.Panel, 0.0
	for _, l := range p.c.Plan.Layers {
		if l.Top <= above {
			continue
		}
		t := p.p.tint(l.Colour, l.Clear)
		a := float64(t.A) / 255
		under = mix(under, Fade(t, 1), a/(a+alpha*(1-a)))
		alpha = a + alpha*(1-a)
	}
	return Fade(under, alpha)
}

func (p *planPainter) plan(id string) *model.PiecePlan {
	for i := range p.c.Plan.Pieces {
		if p.c.Plan.Pieces[i].ID == id {
			return &p.c.Plan.Pieces[i]
		}
	}
	return nil
}

// piece draws one piece of wood.
func (p *planPainter) piece(d *model.PieceDrawing) {
	top, bottom := p.v.Ring(d.Top), p.v.Ring(d.Bottom)
	if len(top) < 3 {
		top = bottom
	}
	if len(top) < 3 {
		return
	}
	rings := [][]Pt{top}
	for _, v := range d.Voids {
		if r := p.v.Ring(v); len(r) > 2 {
			rings = append(rings, r)
		}
	}
	p.s.Fill("wood", p.p.Wood, rings...)
	Hatch(p.s, Hatching{
		Name: "grain", Pattern: LongGrain, Spacing: 7, Angle: -float64(d.Turn), Anchor: p.v.ToScreen(d.Centre),
		Seed: seedOf(d.ID), Width: fine, Colour: p.p.grain(),
	}, rings...)
	plan := p.plan(d.ID)
	covered := plan != nil && plan.Proud < 0
	if covered {
		over := p.resin(plan.Top)
		p.s.Fill("resin", Fade(over, min(float64(over.A)/255, 0.8)), rings...)
	}
	ink := p.p.Ink
	pen := wide * 0.8
	switch {
	case !d.Fits:
		ink, pen = p.p.Stop, wide
	case d.ID == p.c.Piece && p.c.Style.Live:
		ink, pen = p.p.Accent, wide*1.3
	}
	if !same(top, bottom) {
		p.line("hidden", narrow, ink, dashed, Loop(bottom...))
	}
	for _, r := range rings[1:] {
		p.line("void", narrow, p.p.Ink, nil, Loop(r...))
	}
	p.line("piece", pen, ink, nil, Loop(top...))
	p.lines = append(p.lines, top)
	if !d.Fits {
		p.unfit(d, plan)
	}
}

// unfit marks a piece that does not fit with a cross where it goes farthest
// beyond the wall.
func (p *planPainter) unfit(d *model.PieceDrawing, plan *model.PiecePlan) {
	at := p.v.ToScreen(d.Centre)
	if plan != nil {
		if q, ok := p.farthestOut(d, float64(plan.Fit.OverAt)); ok {
			at = q
		}
	}
	p.wrong(at)
}

func (p *planPainter) farthestOut(d *model.PieceDrawing, height float64) (Pt, bool) {
	c := p.home(d.ID)
	if c == nil {
		return Pt{}, false
	}
	wall := p.v.Ring(p.wallAt(c, height))
	best, at, found := 0.0, Pt{}, false
	for _, q := range append(p.v.Ring(d.Bottom), p.v.Ring(d.Top)...) {
		if len(wall) < 3 || inside(q, wall) {
			continue
		}
		least := math.Inf(1)
		for i, a := range wall {
			least = math.Min(least, fromSegment(q, a, wall[(i+1)%len(wall)]))
		}
		if least > best {
			best, at, found = least, q, true
		}
	}
	return at, found
}

// home gives the cavity that a piece is in.
func (p *planPainter) home(id string) *model.CavityDrawing {
	for i := range p.c.Plan.Drawing.Cavities {
		c := &p.c.Plan.Drawing.Cavities[i]
		for j := range c.Pieces {
			if c.Pieces[j].ID == id {
				return c
			}
		}
	}
	return nil
}

// wallAt gives the wall at a height above the floor.
func (p *planPainter) wallAt(c *model.CavityDrawing, height float64) shape.Ring {
	depth := float64(p.c.Plan.Mold.Depth)
	if len(c.Floor) != len(c.Rim) || depth <= 0 {
		if len(c.Floor) > 2 && height < depth/2 {
			return c.Floor
		}
		return c.Rim
	}
	t := min(max(height/depth, 0), 1)
	ring := make(shape.Ring, len(c.Rim))
	for i, f := range c.Floor {
		ring[i] = shape.Point{X: f.X + (c.Rim[i].X-f.X)*t, Y: f.Y + (c.Rim[i].Y-f.Y)*t}
	}
	return ring
}

// insert draws one insert.
func (p *planPainter) insert(d *model.InsertDrawing) {
	ring, hole := p.v.Ring(d.Ring), p.v.Ring(d.Hole)
	if len(ring) < 3 {
		return
	}
	rings := [][]Pt{ring}
	if len(hole) > 2 {
		rings = append(rings, hole)
	}
	p.s.Fill("insert", mix(p.p.Panel, p.p.Line, 0.25), rings...)
	var paths []Path
	for _, r := range rings {
		paths = append(paths, Loop(r...))
	}
	p.line("insert", narrow*1.2, p.p.Ink, nil, paths...)
	p.taken = append(p.taken, BoxOf(ring...))
}

// foot draws the scale bar and what is not seen: how many cavities.
func (p *planPainter) foot() {
	b := p.s.Bounds()
	at := Pt{b.Min.X + 16, b.Max.Y - 14}
	bar := p.scaleBar(at, p.v.X, "")
	if n := len(p.c.Plan.Drawing.Cavities); n > 1 {
		text := fmt.Sprintf("%d equal cavities, dimensions of each", n)
		if bar.Max.X+24+p.s.Measure(text, p.note(Start)) < b.Max.X-10 {
			p.s.Text(Pt{b.Max.X - 14, at.Y}, text, p.note(End))
		}
	}
}
