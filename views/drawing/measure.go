package drawing

import (
	"meniscus/model"
)

// MoldMeasure shows where the sizes of a mold are measured, before there are any.
type MoldMeasure struct {
	Form   model.MoldKind
	Floor  bool   // the inside sizes are taken at the floor
	Across string // what a size across a polygon runs between: "flats" or "corners"
	Lit    string // the last name in the path of the size that is being entered
}

// measurer draws a thing with its dimensions by name.
type measurer struct {
	drafter
	lit string
}

// named gives the drafter and the words for the dimension of some fields: where
// one of them is being entered it is drawn in ink, behind an arrow.
func (m measurer) named(text string, fields ...string) (drafter, string) {
	d := m.drafter
	for _, f := range fields {
		if f == m.lit {
			d.p.Dimension, text = d.p.Ink, "→ "+text
		}
	}
	return d, text
}

func (m measurer) levelOf(a, b Pt, y float64, text string, fields ...string) {
	d, text := m.named(text, fields...)
	d.level(a, b, y, text)
}

func (m measurer) uprightOf(a, b Pt, x float64, text string, fields ...string) {
	d, text := m.named(text, fields...)
	d.upright(a, b, x, text)
}

// PaintMoldMeasure draws a mold from above and, below it, cut through, with the
// names of the sizes that are asked for at the places where they are measured.
// Nothing in it is to scale.
func PaintMoldMeasure(s Surface, x MoldMeasure, st Style) {
	m := measurer{newDrafter(s, st), x.Lit}
	b := s.Bounds()
	const around = 156 // dp for the dimensions of both
	across, room := min(b.W()-150, 420), b.H()-around
	if across < 80 || room < 60 {
		return
	}
	left := b.Centre().X - across/2 + 26
	high := min(across*0.5, room*0.62)
	m.fromAbove(Box{Pt{left, b.Min.Y + 8}, Pt{left + across, b.Min.Y + 8 + high}}, x)
	top := b.Min.Y + high + 92
	m.cut(Box{Pt{left, top}, Pt{left + across, top + min(90, room-high)}}, x)
}

// fromAbove draws the opening.
func (m measurer) fromAbove(b Box, x MoldMeasure) {
	c, r := b.Centre(), b.H()/2
	var outline []Pt
	switch x.Form {
	case model.MoldRound:
		outline = circle(c, r, 64)
	case model.MoldOval:
		outline = circle(c, r, 64)
		for i := range outline {
			outline[i].X = c.X + (outline[i].X-c.X)*b.W()/b.H()
		}
	case model.MoldPolygon:
		outline = circle(c, r, 6)
	case model.MoldOutline:
		for _, p := range [][2]float64{{0, 0.15}, {0.35, 0}, {1, 0.1}, {0.93, 0.6}, {1, 1}, {0.5, 0.86}, {0.05, 1}} {
			outline = append(outline, Pt{b.Min.X + p[0]*b.W(), b.Min.Y + p[1]*b.H()})
		}
	default:
		outline = rounded(b, 18)
	}
	m.s.Fill("inside", m.p.Panel, outline)
	m.line("outline", wide, m.p.Ink, nil, Loop(outline...))
	o := BoxOf(outline...)
	below, beside := o.Max.Y+30, o.Min.X-24
	bottom := [2]Pt{{o.Min.X, o.Max.Y}, o.Max}
	side := [2]Pt{o.Min, {o.Min.X, o.Max.Y}}
	switch x.Form {
	case model.MoldRound:
		m.levelOf(Pt{o.Min.X, c.Y}, Pt{o.Max.X, c.Y}, below, "Diameter", "diameter")
	case model.MoldPolygon:
		if x.Across == "corners" {
			m.levelOf(Pt{o.Min.X, c.Y}, Pt{o.Max.X, c.Y}, below, "Size across corners", "span")
		} else {
			m.uprightOf(side[0].Add(r/2, 0), side[1].Add(r/2, 0), beside, "Size across flats", "span")
		}
	case model.MoldOutline:
		m.s.Text(Pt{c.X, c.Y}, "x, y of each corner, all the way round", m.note(Middle))
		for _, p := range outline {
			m.s.Fill("corner", m.p.Ink, circle(p, 3, 16))
		}
	default:
		m.levelOf(bottom[0], bottom[1], below, "Length", "length")
		m.uprightOf(side[0], side[1], beside, "Width", "width")
		if x.Form != model.MoldOval {
			d, words := m.named("Corner radius", "corner")
			at := Pt{o.Max.X - 5.3, o.Min.Y + 5.3}
			d.dimensionLine(Line(at, at.Add(-30, 30)))
			d.arrow(d.p.Dimension, at, 0.7071, -0.7071)
			d.s.Text(at.Add(-34, 42), words, d.figure(End))
		}
	}
}

// cut draws the mold cut through its middle, with walls that lean.
func (m measurer) cut(b Box, x MoldMeasure) {
	const lean, wall = 22.0, 10.0
	floor := [2]Pt{{b.Min.X + lean, b.Max.Y}, {b.Max.X - lean, b.Max.Y}}
	rim := [2]Pt{b.Min, {b.Max.X, b.Min.Y}}
	m.s.Fill("wall", mix(m.p.Ground, m.p.Line, 0.6), []Pt{
		rim[0].Add(-wall, 0), rim[0], floor[0], floor[1], rim[1], rim[1].Add(wall, 0), rim[1].Add(wall, b.H()+wall), rim[0].Add(-wall, b.H()+wall)})
	m.line("outline", wide, m.p.Ink, nil, Line(rim[0], floor[0], floor[1], rim[1]))

	m.uprightOf(rim[0].Add(-wall, 0), Pt{rim[0].X - wall, floor[0].Y}, rim[0].X-wall-24, "Depth", "depth")
	at, other := "inside sizes, at the rim", "at the floor, where the walls lean"
	if x.Floor {
		at, other = "at the rim, where the walls lean", "inside sizes, at the floor"
	}
	m.levelOf(rim[0], rim[1], rim[0].Y-14, at)
	m.levelOf(floor[0], floor[1], floor[0].Y+wall+30, other)

	d, words := m.named("lean", "angle")
	d.line("upright", narrow, d.p.Dimension, dashed, Line(floor[1], Pt{floor[1].X, b.Min.Y + 4}))
	d.s.Text(Pt{floor[1].X - 8, b.Centre().Y + 4}, words, d.figure(End))
}

// PaintWoodMeasure draws a piece of wood from above with its stations and, below
// it, from the side, with the names of what is measured on it. It is not to scale.
func PaintWoodMeasure(s Surface, st Style) {
	d, b := newDrafter(s, st), s.Bounds()
	if b.W() < 190 || b.H() < 150 {
		return
	}
	o := Box{b.Min.Add(44, 26), b.Max.Add(-16, -86)}
	widths := []float64{0.8, 1, 0.9, 0.7, 0.86}
	var ring, ticks = []Pt{o.Max, {o.Min.X, o.Max.Y}}, []Path(nil)
	for i, w := range widths {
		p := Pt{o.Min.X + o.W()*float64(i)/float64(len(widths)-1), o.Max.Y - o.H()*w}
		ring = append(ring, p)
		ticks = append(ticks, Line(p, Pt{p.X, o.Max.Y}))
	}
	side := Box{Pt{o.Min.X, b.Max.Y - 40}, Pt{o.Max.X, b.Max.Y - 10}}
	for _, r := range [][]Pt{ring, side.Ring()} {
		s.Fill("wood", d.p.Wood, r)
		d.line("outline", wide, d.p.Ink, nil, Loop(r...))
	}
	d.line("station", narrow, d.p.Ink, dashed, ticks...)
	d.s.Text(Pt{ring[4].X + 6, o.Max.Y - 8}, "width", Lettering{Name: "dimension", Size: figures, Colour: d.p.Ink})
	d.level(Pt{ring[3].X, o.Min.Y}, Pt{ring[4].X, o.Min.Y}, o.Min.Y-8, "distance")
	d.level(Pt{o.Min.X, o.Max.Y}, o.Max, o.Max.Y+22, "length")
	d.upright(side.Min, Pt{side.Min.X, side.Max.Y}, side.Min.X-16, "")
	d.s.Text(side.Centre().Add(0, 5), "thickness, from the side", Lettering{Name: "dimension", Size: figures, Anchor: Middle, Colour: d.p.Ink})
}
