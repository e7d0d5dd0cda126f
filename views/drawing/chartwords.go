package drawing

import (
	"math"
	"slices"
)

// avoid keeps names clear of the lines of marks that run right across.
func (p *chartPainter) avoid() {
	for _, m := range p.c.Marks {
		switch {
		case math.IsNaN(m.X) && !math.IsNaN(m.Y):
			y := p.at(p.c.X.Min, m.Y).Y
			p.lines = append(p.lines, Line(Pt{p.plot.Min.X, y}, Pt{p.plot.Max.X, y}))
		case math.IsNaN(m.Y) && !math.IsNaN(m.X):
			x := p.at(m.X, p.c.Y.Min).X
			p.lines = append(p.lines, Line(Pt{x, p.plot.Min.Y}, Pt{x, p.plot.Max.Y}))
		}
	}
}

// label names a line where it asks for it or at its last point in the plot, or
// elsewhere along it where there is more room for the words.
func (p *chartPainter) label(s *Series) {
	if s.Name == "" {
		return
	}
	l := Lettering{Name: "series", Size: small, Colour: p.seriesHue(s)}
	var places []Pt
	const tries = 12
	for i := -1; i < tries; i++ {
		x := s.NameAt
		if i >= 0 || x <= 0 {
			x = p.c.X.Max - (p.c.X.Max-p.c.X.Min)*float64(max(i, 0))/tries
		}
		if at, ok := p.before(s, x); ok {
			places = append(places, at)
		}
	}
	for _, at := range places {
		if spot, free := p.spot(at, s.Name, l); free {
			p.write(spot, s.Name, l)
			return
		}
	}
	if len(places) > 0 {
		p.beside(places[0], s.Name, l)
	}
}

// before gives the last point of a line in the plot that is not beyond x; false
// when there is none.
func (p *chartPainter) before(s *Series, x float64) (Pt, bool) {
	for i := len(s.Points) - 1; i >= 0; i-- {
		if at := p.of(s, s.Points[i]); s.Points[i].X <= x && p.plot.Grown(0.5).Contains(at) {
			return at, true
		}
	}
	return Pt{}, false
}

// along writes text by a line right across, at its end or farther along it where
// there is more room.
func (p *chartPainter) along(y float64, text string, l Lettering) {
	if text == "" {
		return
	}
	const tries = 8
	for i := range tries {
		at := Pt{p.plot.Max.X - p.plot.W()*float64(i)/tries, y}
		if spot, free := p.spot(at, text, l); free {
			p.write(spot, text, l)
			return
		}
	}
	p.beside(Pt{p.plot.Max.X, y}, text, l)
}

// beside writes text by a point, at the first of several places around it that is
// in the plot and free, else at the first.
func (p *chartPainter) beside(at Pt, text string, l Lettering) {
	if text == "" {
		return
	}
	spot, _ := p.spot(at, text, l)
	p.write(spot, text, l)
}

// spot gives where text by a point begins; false when no place there is free.
func (p *chartPainter) spot(at Pt, text string, l Lettering) (Pt, bool) {
	w := p.s.Measure(text, l)
	l.Anchor = Start
	const off = 10.0
	spots := []Pt{
		at.Add(-off-w, -off), at.Add(off, l.Size+off-4), at.Add(off, -off), at.Add(-off-w, l.Size+off-4),
		at.Add(off, -off-20), at.Add(off, l.Size+off+16), at.Add(-off-w, -off-20), at.Add(-off-w, l.Size+off+16),
		at.Add(-off-w-30, -off), at.Add(-off-w, l.Size+off+40),
	}
	for _, q := range spots {
		b := TextBox(p.s, q, text, l)
		if p.plot.Grown(-3).Holds(b) && !p.isTaken(b) {
			return q, true
		}
	}
	return spots[0], false
}

// write writes text on a plate, moved into the plot where it begins outside.
func (p *chartPainter) write(at Pt, text string, l Lettering) {
	l.Anchor = Start
	b := TextBox(p.s, at, text, l)
	shift := min(0, p.plot.Max.X-b.Max.X) + max(0, p.plot.Min.X+4-b.Min.X)
	p.taken = append(p.taken, p.plated(at.Add(shift, 0), text, l, Fade(p.p.Ground, 0.85)))
}

func (p *chartPainter) isTaken(b Box) bool {
	if slices.ContainsFunc(p.taken, b.Overlaps) {
		return true
	}
	for _, l := range p.lines {
		for i := 1; i < len(l.Points); i++ {
			if _, _, ok := b.clip(l.Points[i-1], l.Points[i]); ok {
				return true
			}
		}
	}
	return false
}
