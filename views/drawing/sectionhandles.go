package drawing

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

// Handles gives a grip for each layer's top, fanned out to the right where
// the levels are close.
func (c SectionScene) Handles(box Box, v View) []Handle {
	d := &c.Plan.Drawing.Section
	if !c.Style.Live || len(d.Cavity) < 4 {
		return nil
	}
	p := sectionPainter{drafter{st: c.Style}, c, d, v}
	marks := c.levels()
	right := BoxOf(p.inner()...).Max.X + band
	lo, hi := box.Min.Y+Target/2+56, box.Max.Y-Target/2-4
	columns := 1
	if n := len(marks); n > 1 {
		columns = max(1, int(math.Ceil(Target*float64(n-1)/max(hi-lo, 1)-1e-9)))
	}
	var want []float64
	for i := len(marks) - 1; i >= 0; i-- {
		want = append(want, p.place(0, marks[i].level).Y)
	}
	at := spread(want, Target/float64(columns), lo, hi)
	hs := make([]Handle, 0, len(marks))
	for i := range marks {
		m := marks[len(marks)-1-i]
		x := right + 34 + Target*float64(i%columns)
		hs = append(hs, Handle{Kind: DragLevel, ID: m.id, At: Pt{x, at[i]}, Value: m.level, High: d.Depth})
	}
	return hs
}

// grips draws the level handles with their leaders, or on paper the levels
// alone.
func (p *sectionPainter) grips() {
	right := BoxOf(p.inner()...).Max.X + band
	if !p.c.Style.Live {
		p.figures(right)
		return
	}
	for _, h := range p.c.Handles(p.s.Bounds(), p.v) {
		_, r := p.across(h.Value)
		held := h.ID == p.c.Layer
		pen := narrow
		if held {
			pen = wide
		}
		p.line("leader", pen, p.p.Accent, nil,
			Line(Pt{r.X + 2, r.Y}, Pt{right + 5, r.Y}, Pt{h.At.X - 17, h.At.Y}, h.At))
		p.handle(h.At, held)
		ink := p.p.Ink
		if held {
			ink = p.p.AccentInk
		}
		for _, s := range [2]float64{-1, 1} {
			tip := h.At.Add(0, 7.5*s)
			p.s.Fill("handle", ink, []Pt{tip, tip.Add(-4.5, -5.5*s), tip.Add(4.5, -5.5*s)})
		}
		p.s.Text(h.At.Add(20, figures*0.36), p.st.Length(unit.Length(h.Value)), p.figure(Start))
	}
}

// figures writes the height of each level above the floor beside it.
func (p *sectionPainter) figures(right float64) {
	marks := p.c.levels()
	b := p.s.Bounds()
	// Where there is no room for all, the topmost is among those that are written.
	if every := int(math.Ceil(17 * float64(len(marks)) / max(b.H()-70, 1))); every > 1 {
		var some []mark
		for i := len(marks) - 1; i >= 0; i -= every {
			some = append(some, marks[i])
		}
		slices.Reverse(some)
		marks = some
	}
	var want []float64
	for i := len(marks) - 1; i >= 0; i-- {
		want = append(want, p.place(0, marks[i].level).Y)
	}
	at := spread(want, 17, b.Min.Y+40, b.Max.Y-30)
	for i := range marks {
		m := marks[len(marks)-1-i]
		p.dimensionLine(Line(Pt{right + extensionGap, want[i]}, Pt{right + 12, at[i]}, Pt{right + 18, at[i]}))
		p.s.Text(Pt{right + 21, at[i] + figures*0.36}, p.st.Length(unit.Length(m.level)), p.figure(Start))
	}
}

// Hit gives the ID of the piece of wood or the layer at a place.
func (c SectionScene) Hit(p Pt, v View) string {
	d := &c.Plan.Drawing.Section
	for _, w := range d.Pieces {
		for _, part := range w.Parts {
			if inside(p, v.Ring(part)) {
				return w.ID
			}
		}
	}
	for _, l := range d.Layers {
		if inside(p, v.Ring(l.Ring)) {
			return l.ID
		}
	}
	return ""
}

// Preview draws a level where it is being dragged to.
func (c SectionScene) Preview(s Surface, v View, ch Change) {
	p := sectionPainter{newDrafter(s, c.Style), c, &c.Plan.Drawing.Section, v}
	if ch.Kind != DragLevel || len(p.d.Cavity) < 4 {
		return
	}
	l, r := p.across(float64(ch.To))
	p.line("preview", wide*1.2, p.p.Accent, nil, Line(l, Pt{r.X + band + 26, r.Y}))
	text := p.st.Length(ch.To)
	if c.Note != nil {
		if n := c.Note(ch.ID, ch.To); n != "" {
			text += " · " + n
		}
	}
	p.plated(Pt{(l.X + r.X) / 2, l.Y - 8}, text, Lettering{Name: "preview", Size: 17, Bold: true, Anchor: Middle, Colour: p.p.Ink}, p.p.Panel)
}
