package drawing

import (
	"image/color"
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// FinishScene is the casting seen from above with what is cut away: the outline
// as cast, the finished outline, the cuts, and what is screwed on.
type FinishScene struct {
	Plan   *model.Plan
	Mold   model.Mold
	Mounts []model.Mount
	Style  Style
	Mount  string // ID of the selected mount, or ""
}

// Selected gives the ID of the selected mount.
func (c FinishScene) Selected() string { return c.Mount }

// Select gives the scene with another mount selected.
func (c FinishScene) Select(id string) Scene {
	c.Mount = id
	return c
}

// Ready tells whether there is anything to draw.
func (c FinishScene) Ready() bool { return len(c.Plan.Drawing.Cavities) > 0 && c.Plan.Finish.Ready }

// Fit gives the view of the first casting; those of other cavities are like it.
func (c FinishScene) Fit(box Box) View {
	var lo, hi shape.Point
	if c.Ready() {
		lo, hi = c.Plan.Drawing.Cavities[0].Rim.Bounds()
	}
	return Fit(lo, hi, box, c.margins(), 1)
}

// margins are the room for the dimensions and the key.
func (c FinishScene) margins() Margins { return Margins{Left: 66, Top: 64, Right: 40, Bottom: 88} }

// finishPainter holds what painting the view needs at hand. The wood and the
// inserts are painted as in the mold.
type finishPainter struct {
	planPainter
	f FinishScene
	t *model.TrimPlan
	d *model.CavityDrawing

	grips []Box // that names keep clear of
}

func newFinishPainter(s Surface, c FinishScene, v View) finishPainter {
	p := finishPainter{f: c, t: &c.Plan.Finish.Trim, d: &c.Plan.Drawing.Cavities[0]}
	p.planPainter = planPainter{drafter: drafter{s, c.Style, c.Style.Palette}, c: PlanScene{Plan: c.Plan, Mold: c.Mold, Style: c.Style}, v: v}
	return p
}

// place gives where a point in the mold's axes is on the surface.
func (p *finishPainter) place(q shape.Point) Pt {
	return p.v.ToScreen(shape.Point{X: q.X + p.d.Centre.X, Y: q.Y + p.d.Centre.Y})
}

// Paint draws the view.
func (c FinishScene) Paint(s Surface, v View) {
	if !c.Ready() {
		return
	}
	p := newFinishPainter(s, c, v)
	for _, h := range c.Handles(s.Bounds(), v) {
		p.grips = append(p.grips, BoxOf(h.At).Grown(18))
	}
	cast := p.cast()
	p.s.Fill("cast", p.p.Panel, cast)
	p.s.Fill("resin", p.resin(0), cast)
	for i := range p.d.Pieces {
		p.piece(&p.d.Pieces[i])
	}
	scattered := p.planPainter
	scattered.s = faintly{s}
	for i := range p.d.Inserts {
		scattered.insert(&p.d.Inserts[i])
	}
	done := v.Ring(p.t.Ring.Moved(p.d.Centre.X, p.d.Centre.Y))
	if len(done) > 2 {
		p.comesOff(cast, done)
		p.middleLines(done)
		p.line("finished outline", wide*1.2, p.p.Ink, nil, Loop(done...))
		p.cuts(done)
		p.sizes(done)
	}
	for i := range c.Mounts {
		p.mount(&c.Mounts[i])
	}
	p.key(len(done) > 2)
	if c.Style.Live {
		for _, h := range c.Handles(s.Bounds(), v) {
			p.grip(h)
		}
	}
}

// cast gives the outline of the casting: the wider of its two faces.
func (p *finishPainter) cast() []Pt {
	upper, lower := p.d.Fill, p.d.Floor
	if len(upper) < 3 || lower.Area() > upper.Area() {
		upper, lower = lower, upper
	}
	if len(upper) < 3 {
		upper = p.d.Rim
	}
	return p.v.Ring(upper)
}

// comesOff hatches what is cut away, and draws the edges of both faces as cast.
func (p *finishPainter) comesOff(cast, done []Pt) {
	if p.t.Lost < 1e-4 && hugs(cast, done) {
		return // nothing to be seen
	}
	p.s.Fill("comes off", Fade(p.p.Ground, 0.62), cast, done)
	Hatch(p.s, Hatching{Name: "comes off", Pattern: Slanted, Spacing: 6, Angle: -math.Pi / 4, Anchor: cast[0], Width: fine, Colour: p.comesOffInk()}, cast, done)
	for _, r := range []shape.Ring{p.d.Fill, p.d.Floor} {
		if face := p.v.Ring(r); len(face) > 2 && !hugs(face, done) {
			p.line("as cast", narrow, Fade(p.p.Ink, 0.75), dashed, Loop(face...))
		}
	}
}

// comesOffInk is the colour of what goes.
func (p *finishPainter) comesOffInk() color.NRGBA { return mix(p.p.Ground, p.p.Stop, 0.75) }

// cuts draws the lines of the saw: along each straight edge of a rectangle and
// beyond its corners.
func (p *finishPainter) cuts(done []Pt) {
	if p.t.Shape != model.TrimRectangle || len(done) != 4 {
		return
	}
	const beyond = 16.0
	for i, a := range done {
		b := done[(i+1)%4]
		long := max(a.To(b), 1)
		dx, dy := (b.X-a.X)/long, (b.Y-a.Y)/long
		p.line("cut", narrow, p.p.Stop, chain, Line(a.Add(-dx*beyond, -dy*beyond), a), Line(b, b.Add(dx*beyond, dy*beyond)))
	}
}

// middleLines draws the two middle lines of the finished piece, on which mounts
// are centred and across which they are mirrored.
func (p *finishPainter) middleLines(done []Pt) {
	if len(p.f.Mounts) == 0 {
		return
	}
	for _, half := range [2]shape.Point{{X: float64(p.t.Length.Value)/2 + 8/p.v.X}, {Y: float64(p.t.Width.Value)/2 + 8/p.v.Y}} {
		ends := shape.Ring{{X: -half.X, Y: -half.Y}, half}.Turned(p.t.Turn)
		a, b := ends[0], ends[1]
		p.line("middle line", narrow, Fade(p.p.Ink, 0.6), chain,
			Line(p.place(shape.Point{X: a.X + p.t.Middle.X, Y: a.Y + p.t.Middle.Y}), p.place(shape.Point{X: b.X + p.t.Middle.X, Y: b.Y + p.t.Middle.Y})))
	}
}

// sizes writes the finished length and width: as dimensions where the piece lies
// along the mold, beside its edges where it is turned.
func (p *finishPainter) sizes(done []Pt) {
	long, broad := p.st.Length(p.t.Length.Value), p.st.Length(p.t.Width.Value)
	if p.t.Shape == model.TrimCircle {
		p.level(extreme(done, -1, 0), extreme(done, 1, 0), BoxOf(p.v.Ring(p.d.Rim)...).Max.Y+34, "Ø "+long)
		return
	}
	if p.t.Turn != 0 && len(done) == 4 {
		p.plated(done[0].Lerp(done[1], 0.5).Add(0, 5), long, p.figure(Middle), p.p.Panel)
		p.plated(done[1].Lerp(done[2], 0.5).Add(0, 5), broad, p.figure(Middle), p.p.Panel)
		return
	}
	all := BoxOf(p.v.Ring(p.d.Rim)...)
	p.level(extreme(done, -1, 0), extreme(done, 1, 0), all.Max.Y+34, long)
	p.upright(extreme(done, 0, -1), extreme(done, 0, 1), all.Min.X-34, broad)
}

// faintly is a surface on which all is drawn faint and dashed: what is there, but
// not known to be just there.
type faintly struct{ Surface }

// How much of a line and of a fill is left of what is drawn faintly.
const (
	faintLine = 0.5
	faintFill = 0.15
)

// Stroke draws lines.
func (f faintly) Stroke(p Pen, paths ...Path) {
	p.Dash = dashed
	p.Colour = Fade(p.Colour, faintLine*float64(p.Colour.A)/255)
	f.Surface.Stroke(p, paths...)
}

// Fill fills a region.
func (f faintly) Fill(name string, c color.NRGBA, rings ...[]Pt) {
	f.Surface.Fill(name, Fade(c, faintFill*float64(c.A)/255), rings...)
}

// Words for inserts that are drawn faintly.
const (
	insertsFaint   = "faint: inserts, places not known"
	insertsSection = "faint: inserts, as high as planned, places not known"
)

// key says at the foot what the lines are, beside the scale bar, and above that
// what is not to be trusted.
func (p *finishPainter) key(cut bool) {
	b := p.s.Bounds()
	at := Pt{b.Min.X + 16, b.Max.Y - 14}
	bar := p.scaleBar(at, p.v.X, "")
	hatched := cut && p.t.Lost >= 1e-4
	if len(p.d.Inserts) > 0 {
		y := at.Y
		if hatched {
			y -= 17
		}
		p.s.Text(Pt{b.Max.X - 14, y}, insertsFaint, p.note(End))
	}
	if !hatched {
		return
	}
	text := "hatched: comes off the edges"
	note := p.note(Start)
	x := b.Max.X - 14 - p.s.Measure(text, note)
	if x-30 < bar.Max.X+20 {
		return
	}
	swatch := Box{Pt{x - 26, at.Y - 11}, Pt{x - 6, at.Y + 1}}
	Hatch(p.s, Hatching{Name: "comes off", Pattern: Slanted, Spacing: 5, Angle: -math.Pi / 4, Anchor: swatch.Min, Width: fine, Colour: p.comesOffInk()}, swatch.Ring())
	p.line("key", fine, p.p.Faint, nil, Loop(swatch.Ring()...))
	p.s.Text(Pt{x, at.Y}, text, note)
}

// off writes how far a place lies along and across from the middle of the mold.
func (p *finishPainter) off(x, y unit.Length) string {
	return p.st.Length(x) + " along, " + p.st.Length(y) + " across"
}
