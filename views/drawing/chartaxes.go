package drawing

// Plot gives the part of a surface in which the chart's lines run, between its
// axes; false where there is no room for any.
func (c Chart) Plot(bounds Box, fonts *Fonts) (Box, bool) {
	p := chartPainter{c: &c}
	ok := p.lay(bounds, func(text string) float64 { return fonts.Measure(text, small, false) })
	return p.plot, ok
}

// lay finds the figures of the axes and the plot between them, given how wide
// words are; false where there is no room for it.
func (p *chartPainter) lay(b Box, measure func(string) float64) bool {
	c := p.c
	var xstep, ystep, rstep float64
	p.xs, xstep = Ticks(c.X.Min, c.X.Max, max(2, int(b.W()/110)))
	p.ys, ystep = Ticks(c.Y.Min, c.Y.Max, max(2, int(b.H()/60)))
	p.xd, p.yd = decimals(xstep), decimals(ystep)
	if len(p.xs) == 0 || len(p.ys) == 0 {
		return false
	}
	left, right, foot := 22.0, 22.0, 28.0
	widest := 0.0
	for _, y := range p.ys {
		widest = max(widest, measure(p.text(c.Y, y, p.yd)))
	}
	left += widest
	if c.Right.Max > c.Right.Min {
		p.rs, rstep = Ticks(c.Right.Min, c.Right.Max, max(2, int(b.H()/60)))
		p.rd, widest = decimals(rstep), 0
		for _, r := range p.rs {
			widest = max(widest, measure(p.text(c.Right, r, p.rd)))
		}
		right += widest
	}
	head := 28.0
	if c.X.Title != "" {
		foot, head = foot+18, head+8
	}
	p.plot = Box{Pt{b.Min.X + left, b.Min.Y + head}, Pt{b.Max.X - right, b.Max.Y - foot}}
	return p.plot.W() >= 20 && p.plot.H() >= 20
}

func (p *chartPainter) text(a Axis, x float64, d int) string {
	if a.Format != nil {
		return a.Format(x)
	}
	return trimmed(x, d)
}

// axes draws the grid, the axes, the figures at the ticks and the titles.
func (p *chartPainter) axes() {
	var grid, ticks []Path
	for _, x := range p.xs {
		a := p.at(x, p.c.Y.Min)
		grid = append(grid, Line(a, Pt{a.X, p.plot.Min.Y}))
		ticks = append(ticks, Line(a, a.Add(0, 5)))
		p.s.Text(a.Add(0, 19), p.text(p.c.X, x, p.xd), p.note(Middle))
	}
	for _, y := range p.ys {
		a := p.at(p.c.X.Min, y)
		grid = append(grid, Line(a, Pt{p.plot.Max.X, a.Y}))
		ticks = append(ticks, Line(a, a.Add(-5, 0)))
		p.s.Text(a.Add(-9, small*0.36), p.text(p.c.Y, y, p.yd), p.note(End))
	}
	for _, r := range p.rs {
		a := Pt{p.plot.Max.X, p.of(&Series{Right: true}, Pt{Y: r}).Y}
		ticks = append(ticks, Line(a, a.Add(5, 0)))
		p.s.Text(a.Add(9, small*0.36), p.text(p.c.Right, r, p.rd), p.note(Start))
	}
	if len(p.rs) > 0 {
		ticks = append(ticks, Line(p.plot.Max, Pt{p.plot.Max.X, p.plot.Min.Y}))
	}
	p.line("grid", fine, Fade(p.p.Line, 0.35), nil, grid...)
	p.line("axis", narrow*1.3, p.p.Ink, nil, append(ticks,
		Line(p.plot.Min, Pt{p.plot.Min.X, p.plot.Max.Y}, p.plot.Max))...)
	n := p.note(Start)
	n.Colour = p.p.Ink
	p.s.Text(Pt{p.s.Bounds().Min.X + 10, p.plot.Min.Y - 16}, titled(p.c.Y), n)
	n.Anchor = End
	if p.c.X.Title != "" {
		p.s.Text(Pt{p.plot.Max.X, p.plot.Max.Y + 37}, titled(p.c.X), n)
	}
	if len(p.rs) > 0 {
		p.s.Text(Pt{p.s.Bounds().Max.X - 10, p.plot.Min.Y - 16}, titled(p.c.Right), n)
	}
}

// titled gives an axis's title with its unit.
func titled(a Axis) string {
	if a.Unit == "" {
		return a.Title
	}
	return a.Title + ", " + a.Unit
}
