package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/unit"
)

// Where the marks around the plan view stand, in dp from the drawing.
const (
	sectionReach = 16.0 // the section line beyond the rim
	levelOff     = 50.0 // the dimension line below
	uprightOff   = 74.0 // the dimension line to the left, with room for a gap's figure before it
	uprightNear  = 46.0 // the same on a narrow surface
	crampedWidth = 420.0
)

// dimensions draws the sizes of the opening: below for the cavity that lies
// lowest, to the left for the one farthest left.
func (p *planPainter) dimensions() {
	cavities := p.c.Plan.Drawing.Cavities
	if len(cavities) == 0 {
		return
	}
	low, left := &cavities[0], &cavities[0]
	for i := range cavities {
		c := &cavities[i]
		if c.Centre.Y < low.Centre.Y-1e-9 {
			low = c
		}
		if c.Centre.X < left.Centre.X-1e-9 {
			left = c
		}
	}
	all := p.all()
	if rim := p.v.Ring(low.Rim); len(rim) > 2 {
		a, b := extreme(rim, 1, 0), extreme(rim, -1, 0)
		text := p.measure(low, true, a.X, b.X, p.s.Bounds().Min.X, p.s.Bounds().Max.X)
		p.level(b, a, all.Max.Y+levelOff, text)
		p.taken = append(p.taken, TextBox(p.s, Pt{(a.X + b.X) / 2, all.Max.Y + levelOff - textAbove}, text, p.figure(Middle)).Grown(3))
	}
	if p.c.Mold.Kind == model.MoldRound {
		return
	}
	if rim := p.v.Ring(left.Rim); len(rim) > 2 {
		a, b := extreme(rim, 0, -1), extreme(rim, 0, 1)
		x := all.Min.X - uprightOff
		if p.s.Bounds().W() < crampedWidth {
			x = all.Min.X - uprightNear
		}
		p.upright(a, b, x, p.measure(left, false, a.Y, b.Y, p.s.Bounds().Min.Y, p.s.Bounds().Max.Y))
		p.taken = append(p.taken, Box{Pt{x - figures - textAbove, a.Y}, Pt{x + 3, b.Y}})
	}
}

// all gives the box of all cavities on the surface.
func (p *planPainter) all() Box {
	d := &p.c.Plan.Drawing
	return BoxOf(p.v.ToScreen(d.Min), p.v.ToScreen(d.Max))
}

// measure gives the text of the size of a cavity's opening along or across,
// saying what was measured where the figure alone would not, and where there is
// room for it: between two places of the drawing, or beyond one of them within
// the surface.
func (p *planPainter) measure(c *model.CavityDrawing, along bool, from, to, least, most float64) string {
	lo, hi := math.Inf(1), math.Inf(-1)
	reach := 0.0
	for _, q := range c.Rim {
		x := q.Y
		if along {
			x = q.X
		}
		lo, hi = math.Min(lo, x), math.Max(hi, x)
		reach = math.Max(reach, math.Hypot(q.X-c.Centre.X, q.Y-c.Centre.Y))
	}
	text := p.st.Length(unit.Length(hi - lo))
	switch p.c.Mold.Kind {
	case model.MoldRound:
		return "Ø " + text
	case model.MoldPolygon:
		said := text + acrossWhat(p.c.Mold.Sides, reach, hi-lo)
		from, to = min(from, to), max(from, to)
		if w := p.s.Measure(said, p.figure(Middle)); w+8 <= to-from || to+17+w <= most || from-17-w >= least {
			return said
		}
	}
	return text
}

// acrossWhat says which measure of a regular polygon with corners at reach a
// width is: " across flats", " across corners" or neither.
func acrossWhat(sides int, reach, width float64) string {
	if sides < 3 {
		return ""
	}
	flat := reach * math.Cos(math.Pi/float64(sides)) // middle to a side
	flats, corners := 2*flat, 2*reach
	if sides%2 == 1 {
		flats, corners = flat+reach, 2*reach*math.Cos(math.Pi/float64(2*sides))
	}
	near := func(x float64) bool { return math.Abs(width-x) < 1e-3*reach }
	switch {
	case near(flats):
		return " across flats"
	case near(corners):
		return " across corners"
	}
	return ""
}

// extreme gives the point of a ring that lies farthest along (dx, dy).
func extreme(ring []Pt, dx, dy float64) Pt {
	best := ring[0]
	for _, q := range ring {
		if q.X*dx+q.Y*dy > best.X*dx+best.Y*dy+1e-9 {
			best = q
		}
	}
	return best
}

// section draws the line A-A where the section is cut.
func (p *planPainter) section() {
	x, ok := p.cut()
	if !ok {
		return
	}
	top, foot := p.cutEnds(x)
	p.line("section line", narrow, p.p.Ink, chain, Line(top, foot))
	p.line("section line", wide, p.p.Ink, nil,
		Line(top, top.Add(0, 11)), Line(foot, foot.Add(0, -11)))
	// The section is seen towards -x, so that y runs to the right in it.
	for _, e := range [2]Pt{top, foot} {
		p.line("section line", narrow, p.p.Ink, nil, Line(e, e.Add(-18, 0)))
		p.arrow(p.p.Ink, e.Add(-20, 0), -1, 0)
	}
	l := Lettering{Name: "section", Size: title, Bold: true, Anchor: End, Colour: p.p.Ink}
	letters := []Pt{foot.Add(-25, title*0.36), top.Add(-25, title*0.36)}
	if p.c.Style.Live {
		letters = letters[:1] // the upper one is on the handle
	}
	for _, at := range letters {
		p.s.Text(at, "A", l)
		p.taken = append(p.taken, TextBox(p.s, at, "A", l).Grown(2))
	}
	for _, e := range [2]Pt{top, foot} {
		p.taken = append(p.taken, BoxOf(e.Add(-22, 0), e).Grown(3))
	}
}

// cutEnds gives the ends of a section line at x: beyond the cavities that it
// runs through, from the first.
func (p *planPainter) cutEnds(x float64) (top, foot Pt) {
	var span Box
	for i := range p.c.Plan.Drawing.Cavities {
		b := BoxOf(p.v.Ring(p.c.Plan.Drawing.Cavities[i].Rim)...)
		switch {
		case i == 0:
			span = b
		case b.Min.X < x && x < b.Max.X:
			span = span.And(b)
		}
	}
	return Pt{x, span.Min.Y - sectionReach}, Pt{x, span.Max.Y + sectionReach}
}

// cut gives where the section line is on the surface.
func (p *planPainter) cut() (float64, bool) {
	d := &p.c.Plan.Drawing
	if len(d.Cavities) == 0 || len(d.Section.Cavity) == 0 {
		return 0, false
	}
	at := d.Cavities[0].Centre
	at.X += d.Section.Cut
	return p.v.ToScreen(at).X, true
}
