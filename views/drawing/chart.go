package drawing

import (
	"image/color"
	"math"
)

// Axis is one axis of a chart, from Min to Max, which is greater. Format may
// be nil for plain numbers.
type Axis struct {
	Title  string // what it shows, "Resin"
	Unit   string // "ml"
	Min    float64
	Max    float64
	Format func(float64) string
}

// Role is how a line, a mark or a band stands out.
type Role uint8

// The roles.
const (
	Main Role = iota
	Second
	Hint
	Warn
	Halt
	Well
)

// Series is a line of a chart, in the order of its points.
type Series struct {
	Name   string
	Points []Pt // in the units of the axes
	Role   Role
	Dashed bool
	Right  bool        // measured on the chart's right axis
	NameAt float64     // X of its name; 0 for its end
	Colour color.NRGBA // instead of the role's; not used when its alpha is 0
}

// Mark is a place on a chart with a word beside it: on both axes a point with
// lines to them, on one a line right across. A NaN leaves an axis out.
type Mark struct {
	X, Y float64
	Text string
	Role Role
}

// Band shades the chart between two places on one axis.
type Band struct {
	From, To float64
	Up       bool // between two places of Y instead of X
	Text     string
	Role     Role
}

// Chart is a line chart. Right is a second axis of height, for the series that
// say so; it is drawn where its ends differ.
type Chart struct {
	X, Y   Axis
	Right  Axis
	Series []Series
	Marks  []Mark
	Bands  []Band
}

type chartPainter struct {
	drafter
	c      *Chart
	plot   Box
	xs, ys []float64
	rs     []float64 // of the right axis
	xd, yd int
	rd     int
	taken  []Box
	lines  []Path // series drawn so far
}

// Paint draws the chart on the whole of a surface.
func (c Chart) Paint(s Surface, st Style) {
	p := chartPainter{drafter: newDrafter(s, st), c: &c}
	if !p.lay(s.Bounds(), func(text string) float64 { return s.Measure(text, p.note(End)) }) {
		return
	}
	p.bands()
	p.axes()
	for i := range c.Series {
		p.series(&c.Series[i])
	}
	p.avoid()
	for i := range c.Series {
		p.label(&c.Series[i])
	}
	for i := range c.Marks {
		p.mark(&c.Marks[i])
	}
}

// at gives the place of a point of the chart.
func (p *chartPainter) at(x, y float64) Pt {
	return Pt{
		p.plot.Min.X + (x-p.c.X.Min)/(p.c.X.Max-p.c.X.Min)*p.plot.W(),
		p.plot.Max.Y - (y-p.c.Y.Min)/(p.c.Y.Max-p.c.Y.Min)*p.plot.H(),
	}
}

// of gives the place of a point of a series.
func (p *chartPainter) of(s *Series, q Pt) Pt {
	a := p.at(q.X, q.Y)
	if r := &p.c.Right; s.Right {
		a.Y = p.plot.Max.Y - (q.Y-r.Min)/(r.Max-r.Min)*p.plot.H()
	}
	return a
}

func (p *chartPainter) hue(r Role) color.NRGBA {
	switch r {
	case Second:
		return p.p.Dimension
	case Hint:
		return p.p.Faint
	case Warn:
		return p.p.Check
	case Halt:
		return p.p.Stop
	case Well:
		return p.p.Good
	}
	return p.p.Ink
}

func (p *chartPainter) bands() {
	for _, b := range p.c.Bands {
		box := p.plot
		if b.Up {
			box.Min.Y, box.Max.Y = p.at(0, b.To).Y, p.at(0, b.From).Y
		} else {
			box.Min.X, box.Max.X = p.at(b.From, 0).X, p.at(b.To, 0).X
		}
		box.Min = Pt{max(box.Min.X, p.plot.Min.X), max(box.Min.Y, p.plot.Min.Y)}
		box.Max = Pt{min(box.Max.X, p.plot.Max.X), min(box.Max.Y, p.plot.Max.Y)}
		if box.W() <= 0 || box.H() <= 0 {
			continue
		}
		c := p.hue(b.Role)
		if b.Role == Main {
			c = p.p.Accent
		}
		p.s.Fill("band", Fade(c, 0.13), box.Ring())
		if b.Role == Warn || b.Role == Halt {
			Hatch(p.s, Hatching{Name: "band", Spacing: 9, Angle: -math.Pi / 4, Anchor: p.plot.Min, Width: fine, Colour: Fade(c, 0.5)}, box.Ring())
		}
		n := p.note(Start)
		n.Colour = mix(p.p.Ink, p.p.Faint, 0.5)
		if t := shortened(p.s, b.Text, n, box.W()-12); b.Text != "" && box.H() > 16 && t != "…" {
			p.taken = append(p.taken, p.plated(p.belowMarks(box.Min.Add(8, 16)), t, n, Fade(p.p.Ground, 0.7)))
		}
	}
}

// belowMarks moves words down that the line of a mark would run through.
func (p *chartPainter) belowMarks(at Pt) Pt {
	for _, m := range p.c.Marks {
		if y := p.at(p.c.X.Min, m.Y).Y; math.IsNaN(m.X) && abs(y-(at.Y-small/3)) < small*0.8 {
			at.Y = y + small + 6
		}
	}
	return at
}

// series draws one line, cut to the plot.
func (p *chartPainter) series(s *Series) {
	pts := make([]Pt, 0, len(s.Points))
	var paths []Path
	flush := func() {
		runs(thinned(pts, 0.4), p.plot.Grown(0.01), func(run []Pt, _ float64) { paths = append(paths, Path{Points: run}) })
		pts = pts[:0]
	}
	for _, q := range s.Points {
		if a := p.of(s, q); finite(a) {
			pts = append(pts, a)
		} else {
			flush()
		}
	}
	flush()
	c := p.seriesHue(s)
	w, dash := wide, dashed
	if s.Role != Main {
		w = narrow * 1.4
	}
	if !s.Dashed {
		dash = nil
	}
	p.line("series", w, c, dash, paths...)
	p.lines = append(p.lines, paths...)
}

func (p *chartPainter) seriesHue(s *Series) color.NRGBA {
	if s.Colour.A > 0 {
		return s.Colour
	}
	return p.hue(s.Role)
}

// thinned drops points closer than d dp to the one kept before; the last one
// stays.
func thinned(pts []Pt, d float64) []Pt {
	out := make([]Pt, 0, min(len(pts), 1024))
	for i, q := range pts {
		if i == 0 || i == len(pts)-1 || !near(q, out[len(out)-1], d) {
			out = append(out, q)
		}
	}
	return out
}

// mark draws one mark.
func (p *chartPainter) mark(m *Mark) {
	c := p.hue(m.Role)
	l := Lettering{Name: "mark", Size: figures, Anchor: Start, Colour: c}
	switch {
	case math.IsNaN(m.X) && math.IsNaN(m.Y):
	case math.IsNaN(m.Y):
		if a := p.at(m.X, p.c.Y.Min); a.X >= p.plot.Min.X-0.5 && a.X <= p.plot.Max.X+0.5 {
			top := Pt{a.X, p.plot.Min.Y}
			p.line("mark", narrow*1.4, c, chain, Line(a, top.Add(0, -4)))
			p.beside(top.Add(0, 14), m.Text, l)
		}
	case math.IsNaN(m.X):
		if a := p.at(p.c.X.Min, m.Y); a.Y >= p.plot.Min.Y-0.5 && a.Y <= p.plot.Max.Y+0.5 {
			p.line("mark", narrow*1.4, c, chain, Line(a, Pt{p.plot.Max.X, a.Y}))
			p.along(a.Y-6, m.Text, l)
		}
	default:
		a := p.at(m.X, m.Y)
		if !p.plot.Grown(1).Contains(a) {
			return
		}
		p.line("mark", narrow*1.4, c, dashed, Line(Pt{p.plot.Min.X, a.Y}, a, Pt{a.X, p.plot.Max.Y}))
		p.s.Fill("mark", p.p.Ground, circle(a, 6, 32))
		p.s.Fill("mark", p.p.Accent, circle(a, 5, 32))
		p.line("mark", narrow*1.4, p.p.Ink, nil, Loop(circle(a, 5, 32)...))
		p.beside(a, m.Text, l)
	}
}
