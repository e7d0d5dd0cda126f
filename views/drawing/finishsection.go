package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// FinishSection is the casting cut across, with what comes off both faces and
// what is left over each insert.
type FinishSection struct {
	Plan  *model.Plan
	Style Style
	Fine  func(unit.Length) string // writes what comes off, which is finer than a rule
}

// Selected gives no ID: nothing in it can be chosen.
func (c FinishSection) Selected() string { return "" }

// Select gives the scene as it is.
func (c FinishSection) Select(string) Scene { return c }

// Handles gives none.
func (c FinishSection) Handles(Box, View) []Handle { return nil }

// Hit gives no ID.
func (c FinishSection) Hit(Pt, View) string { return "" }

// Preview draws nothing.
func (c FinishSection) Preview(Surface, View, Change) {}

// Ready tells whether there is anything to draw.
func (c FinishSection) Ready() bool {
	return c.Plan.Finish.Ready && len(c.Plan.Drawing.Section.Cavity) > 3
}

// inMold gives the section of the mold, whose walls lean as the casting's edges
// do.
func (c FinishSection) inMold() SectionScene { return SectionScene{Plan: c.Plan, Style: c.Style} }

// Fit gives the view of the whole casting; heights are stretched as in the
// section of the mold.
func (c FinishSection) Fit(box Box) View {
	if !c.Ready() {
		return Fit(shape.Point{}, shape.Point{}, box, Margins{}, 1)
	}
	m := c.margins(box)
	lo, hi := c.extent()
	flat := Fit(lo, hi, box, m, 1)
	high, room := (hi.Y-lo.Y)*flat.Y, box.H()-m.Top-m.Bottom
	k := 1.0
	for _, s := range [5]float64{2, 3, 4, 5, 10} {
		if high*k >= 190 || high*s > room {
			break
		}
		k = s
	}
	return Fit(lo, hi, box, m, k)
}

// margins are the room for the dimensions and for the words at the right.
func (c FinishSection) margins(box Box) Margins {
	m := Margins{Left: 128, Top: 84, Right: 168, Bottom: 70}
	if box.W() < 560 {
		m.Left, m.Right = 96, 150
	}
	return m
}

// extent is what has to be seen of the casting.
func (c FinishSection) extent() (lo, hi shape.Point) {
	lo, hi = c.inMold().extent()
	hi.Y = math.Max(float64(c.Plan.Finish.Flatten.Thickest), c.woodTop())
	return lo, hi
}

// woodTop is the highest place of the wood in the section.
func (c FinishSection) woodTop() float64 {
	top := 0.0
	for _, w := range c.Plan.Drawing.Section.Pieces {
		for _, r := range w.Parts {
			for _, q := range r {
				top = math.Max(top, q.Y)
			}
		}
	}
	return top
}

// Paint draws the section.
func (c FinishSection) Paint(s Surface, v View) {
	if !c.Ready() {
		return
	}
	p := sectionPainter{newDrafter(s, c.Style), c.inMold(), &c.Plan.Drawing.Section, v}
	t, f := &c.Plan.Finish.Trim, &c.Plan.Finish.Flatten
	for i := range p.d.Layers {
		p.layer(&p.d.Layers[i])
	}
	scattered := p
	scattered.s = faintly{s}
	for i := range p.d.Inserts {
		scattered.insert(&p.d.Inserts[i])
	}
	if b := s.Bounds(); len(p.d.Inserts) > 0 {
		s.Text(Pt{b.Max.X - 14, b.Max.Y - 14}, insertsSection, p.note(End))
	}
	for i := range p.d.Pieces {
		p.wood(&p.d.Pieces[i])
	}
	top := float64(f.Thickest)
	p.sunk(top)
	l, r, ok := c.sides()
	if !ok || t.High <= t.Low {
		p.line("as cast", wide, p.p.Ink, nil, p.castOutline(top))
		p.scaleFoot()
		return
	}
	low, high := float64(t.Low), float64(t.High)
	done := []Pt{p.place(l, high), p.place(r, high), p.place(r, low), p.place(l, low)}
	cast := p.castRing(math.Max(top, c.woodTop()))
	goes := mix(p.p.Ground, p.p.Stop, 0.75)
	p.s.Fill("comes off", Fade(p.p.Ground, 0.62), cast, done)
	Hatch(p.s, Hatching{Name: "comes off", Pattern: Slanted, Spacing: 5, Angle: -math.Pi / 4, Anchor: done[0], Width: fine, Colour: goes}, cast, done)
	p.line("as cast", narrow, Fade(p.p.Ink, 0.75), dashed, Loop(cast...))
	p.line("finished outline", wide*1.2, p.p.Ink, nil, Loop(done...))
	p.upright(done[0], done[3], BoxOf(cast...).Min.X-34, p.st.Length(t.High-t.Low))
	p.facesOff(c, done, cast)
	p.scaleFoot()
}

// sides gives where the finished outline meets the plane of the section.
func (c FinishSection) sides() (l, r float64, ok bool) {
	ring, x := c.Plan.Finish.Trim.Ring, c.Plan.Drawing.Section.Cut
	l, r = math.Inf(1), math.Inf(-1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.X > x) == (b.X > x) {
			continue
		}
		y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		l, r = math.Min(l, y), math.Max(r, y)
	}
	return l, r, r > l
}

// castRing gives the outline of the casting up to a height.
func (p *sectionPainter) castRing(top float64) []Pt {
	a, b := p.sideAt(top)
	n := len(p.d.Cavity)
	ring := []Pt{p.place(a, top)}
	for _, q := range p.d.Cavity[1 : n-1] {
		ring = append(ring, p.v.ToScreen(q))
	}
	return append(ring, p.place(b, top))
}

func (p *sectionPainter) castOutline(top float64) Path { return Loop(p.castRing(top)...) }

// sideAt gives where the two walls are at a height.
func (p *sectionPainter) sideAt(z float64) (l, r float64) {
	n := len(p.d.Cavity)
	at := func(rim, floor shape.Point) float64 {
		if rim.Y <= floor.Y {
			return rim.X
		}
		return floor.X + (rim.X-floor.X)*(z-floor.Y)/(rim.Y-floor.Y)
	}
	return at(p.d.Cavity[0], p.d.Cavity[1]), at(p.d.Cavity[n-1], p.d.Cavity[n-2])
}

// sunk takes away what the resin sank below the fill line.
func (p *sectionPainter) sunk(top float64) {
	if top >= p.d.FillLine {
		return
	}
	a, b := p.sideAt(top)
	c, d := p.sideAt(p.d.FillLine)
	band := []Pt{p.place(a, top), p.place(b, top), p.place(d, p.d.FillLine), p.place(c, p.d.FillLine)}
	rings := [][]Pt{band}
	for _, w := range p.d.Pieces {
		for _, r := range w.Parts {
			if BoxOf(p.v.Ring(r)...).Overlaps(BoxOf(band...)) {
				return // the wood stands in it, and is drawn already
			}
		}
	}
	p.s.Fill("sunk", p.p.Ground, rings...)
}

// facesOff says at the right what comes off each face, and what is left over
// each insert that is in the section.
func (p *sectionPainter) facesOff(c FinishSection, done, cast []Pt) {
	f := &c.Plan.Finish.Flatten
	type word struct {
		at           float64
		figure, name string
		bad          bool
	}
	var words []word
	box := BoxOf(cast...)
	off := func(y, metres float64, name string) {
		if metres > 5e-6 {
			words = append(words, word{y, c.Fine(unit.Length(metres)), name, false})
		}
	}
	top := float64(f.Thickest)
	if proud := c.woodTop() - top; proud > 5e-6 {
		off(box.Min.Y, proud, "of wood stands above")
	}
	off((done[0].Y+p.place(0, top).Y)/2, top-float64(c.Plan.Finish.Trim.High), "off the top")
	off((done[2].Y+box.Max.Y)/2, float64(c.Plan.Finish.Trim.Low), "off the underside")
	seen := map[string]bool{}
	for i := range p.d.Inserts {
		d := &p.d.Inserts[i]
		if seen[d.ID] {
			continue
		}
		seen[d.ID] = true
		for _, left := range f.Cover {
			if left.Insert != d.ID {
				continue
			}
			ink := p.p.Dimension
			if !left.Fine {
				ink = p.p.Stop
			}
			at := p.place(d.Centre.X, d.Top)
			p.line("cover", narrow*1.4, ink, nil, Line(Pt{at.X, done[0].Y}, at))
			p.arrow(ink, at, 0, 1)
			over := "over "
			if !left.Fine {
				over = "too little over "
			}
			words = append(words, word{(done[0].Y + at.Y) / 2, p.st.Length(left.Over), over + left.Name, !left.Fine})
		}
	}
	var want []float64
	for i := range words {
		want = append(want, words[i].at)
	}
	b := p.s.Bounds()
	x := box.Max.X
	for i, y := range spreadInOrder(want, 34, b.Min.Y+80, b.Max.Y-40) {
		w := words[i]
		l, n := p.figure(Start), p.note(Start)
		if w.bad {
			l.Colour, n.Colour, l.Bold = p.p.Stop, p.p.Stop, true
		}
		p.line("leader", narrow, p.p.Dimension, nil, Line(Pt{x + 3, w.at}, Pt{x + 16, y}, Pt{x + 20, y}))
		p.s.Text(Pt{x + 24, y + 2}, w.figure, l)
		p.s.Text(Pt{x + 24, y + 16}, shortened(p.s, w.name, n, b.Max.X-x-30), n)
	}
}

// spreadInOrder is spread for places that are in no order.
func spreadInOrder(want []float64, apart, lo, hi float64) []float64 {
	order := make([]int, len(want))
	for i := range order {
		order[i] = i
	}
	for i := range order { // few, and nearly in order
		for k := i; k > 0 && want[order[k]] < want[order[k-1]]; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	sorted := make([]float64, len(want))
	for i, k := range order {
		sorted[i] = want[k]
	}
	out := make([]float64, len(want))
	for i, y := range spread(sorted, apart, lo, hi) {
		out[order[i]] = y
	}
	return out
}
