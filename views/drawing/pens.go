package drawing

import "image/color"

// The line groups of ISO 128-2, in dp.
const (
	wide   = 2.0
	narrow = 1.0
	fine   = 0.7 // hatching
)

// The sizes of lettering, in dp.
const (
	figures = 13.0 // figures of dimensions
	small   = 12.0 // notes
	title   = 14.0 // names
)

// The dash patterns of ISO 128-2, shortened to suit a small sheet.
var (
	dashed = []float64{6, 3}
	chain  = []float64{16, 3, 2.5, 3}
)

// drafter draws the common parts of all drawings on one surface.
type drafter struct {
	s  Surface
	st Style
	p  Palette
}

func newDrafter(s Surface, st Style) drafter { return drafter{s, st, st.Palette} }

// wrong marks what cannot stay as it is: a cross in a circle, known without its colour.
func (d drafter) wrong(at Pt) {
	d.s.Fill("unfit", d.p.Ground, circle(at, wrongReach, 32))
	const r = 4.5
	d.line("unfit", wide, d.p.Stop, nil, Loop(circle(at, wrongReach-1, 32)...),
		Line(at.Add(-r, -r), at.Add(r, r)), Line(at.Add(-r, r), at.Add(r, -r)))
}

// wrongReach is how far such a mark covers what lies around it, in dp.
const wrongReach = 11.0

func (d drafter) line(name string, width float64, c color.NRGBA, dash []float64, paths ...Path) {
	if len(paths) > 0 {
		d.s.Stroke(Pen{Name: name, Width: width, Dash: dash, Colour: c}, paths...)
	}
}

func (d drafter) dimensionLine(paths ...Path) {
	d.line("dimension", narrow, d.p.Dimension, nil, paths...)
}

// arrow fills an arrowhead whose tip is at tip, pointing along the unit
// vector (dx, dy).
func (d drafter) arrow(c color.NRGBA, tip Pt, dx, dy float64) {
	const length, half = 9.0, 1.7
	b := tip.Add(-dx*length, -dy*length)
	d.s.Fill("arrow", c, []Pt{tip, b.Add(-dy*half, dx*half), b.Add(dy*half, -dx*half)})
}

// plated writes text on a plate of colour c, so that lines below do not run
// through it.
func (d drafter) plated(at Pt, text string, l Lettering, c color.NRGBA) Box {
	b := plateOf(d.s, at, text, l)
	d.s.Fill("plate", c, rounded(b, 4))
	d.s.Text(at, text, l)
	return b
}

// plateOf gives the plate of a text.
func plateOf(s Surface, at Pt, text string, l Lettering) Box {
	b := TextBox(s, at, text, l)
	if l.Up {
		return Box{b.Min.Add(-3.5, -4), b.Max.Add(1.5, 4)}
	}
	return Box{b.Min.Add(-4, -3.5), b.Max.Add(4, 1.5)}
}

// rounded gives the ring of a box with round corners.
func rounded(b Box, r float64) []Pt {
	r = min(r, b.W()/2, b.H()/2)
	var ring []Pt
	for i, c := range [4]Pt{b.Max.Add(-r, -r), {b.Min.X + r, b.Max.Y - r}, b.Min.Add(r, r), {b.Max.X - r, b.Min.Y + r}} {
		q := circle(c, r, 16)
		for k := 0; k <= 4; k++ {
			ring = append(ring, q[(i*4+k)%16])
		}
	}
	return ring
}

// note gives the lettering of lesser words.
func (d drafter) note(a Anchor) Lettering {
	return Lettering{Name: "note", Size: small, Anchor: a, Colour: d.p.Faint}
}

// figure gives the lettering of a dimension's figure.
func (d drafter) figure(a Anchor) Lettering {
	return Lettering{Name: "dimension", Size: figures, Anchor: a, Colour: d.p.Dimension}
}

// handle draws a round grip. The ring that a finger sees is smaller than its
// target.
func (d drafter) handle(at Pt, held bool) {
	const radius = 13.0
	face, rim := d.p.Panel, d.p.Accent
	if held {
		face = d.p.Accent
	}
	d.s.Fill("handle", Fade(d.p.Ground, 0.6), circle(at, radius+3, 40))
	d.s.Fill("handle", face, circle(at, radius, 40))
	d.line("handle", wide, rim, nil, Path{Points: circle(at, radius, 40), Closed: true})
}
