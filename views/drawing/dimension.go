package drawing

import (
	"math"

	"meniscus/model/unit"
)

// Gaps around dimension lines in dp (ISO 129-1, figure A.1, in proportion).
const (
	extensionGap  = 3.0 // outline to extension line
	extensionOver = 4.0 // extension line beyond the dimension line
	textAbove     = 4.0 // dimension line to baseline
	arrowsInside  = 28.0
)

// level draws a horizontal dimension at height y between the points a and b,
// a to the left, with its figure above the line.
func (d drafter) level(a, b Pt, y float64, text string) {
	d.dimensionLine(d.extend(a, y, false), d.extend(b, y, false))
	l, r := Pt{a.X, y}, Pt{b.X, y}
	if w := d.s.Measure(text, d.figure(Middle)); w+8 > r.X-l.X {
		d.arrowsOut(l, r, 1, 0)
		if b := d.s.Bounds(); r.X+17+w > b.Max.X && l.X-17-w > b.Min.X {
			d.dimensionLine(Line(l.Add(-14-w-6, 0), r.Add(14, 0)))
			d.s.Text(Pt{l.X - 17, y - textAbove}, text, d.figure(End))
			return
		}
		d.dimensionLine(Line(l.Add(-14, 0), r.Add(14+w+6, 0)))
		d.s.Text(Pt{r.X + 17, y - textAbove}, text, d.figure(Start))
		return
	}
	d.dimensionLine(Line(l, r))
	d.arrowsIn(l, r, 1, 0)
	d.s.Text(Pt{(l.X + r.X) / 2, y - textAbove}, text, d.figure(Middle))
}

// upright draws a vertical dimension at x between the points a and b, a above,
// with its figure on the left of the line, read from the right.
func (d drafter) upright(a, b Pt, x float64, text string) {
	d.dimensionLine(d.extend(a, x, true), d.extend(b, x, true))
	t, f := Pt{x, a.Y}, Pt{x, b.Y}
	l := d.figure(Middle)
	l.Up = true
	if w := d.s.Measure(text, l); w+8 > f.Y-t.Y {
		d.arrowsOut(t, f, 0, 1)
		if b := d.s.Bounds(); t.Y-17-w < b.Min.Y && f.Y+17+w < b.Max.Y {
			d.dimensionLine(Line(t.Add(0, -14), f.Add(0, 14+w+6)))
			l.Anchor = End
			d.s.Text(Pt{x - textAbove, f.Y + 17}, text, l)
			return
		}
		d.dimensionLine(Line(t.Add(0, -14-w-6), f.Add(0, 14)))
		l.Anchor = Start
		d.s.Text(Pt{x - textAbove, t.Y - 17}, text, l)
		return
	}
	d.dimensionLine(Line(t, f))
	d.arrowsIn(t, f, 0, 1)
	d.s.Text(Pt{x - textAbove, (t.Y + f.Y) / 2}, text, l)
}

// extend gives the extension line of p to a dimension line at y, or at x when
// sideways.
func (d drafter) extend(p Pt, to float64, sideways bool) Path {
	if sideways {
		s := math.Copysign(1, to-p.X)
		return Line(p.Add(s*extensionGap, 0), Pt{to + s*extensionOver, p.Y})
	}
	s := math.Copysign(1, to-p.Y)
	return Line(p.Add(0, s*extensionGap), Pt{p.X, to + s*extensionOver})
}

func (d drafter) arrowsIn(a, b Pt, dx, dy float64) {
	if a.To(b) < arrowsInside {
		d.arrowsOut(a, b, dx, dy)
		return
	}
	d.arrow(d.p.Dimension, a, -dx, -dy)
	d.arrow(d.p.Dimension, b, dx, dy)
}

// arrowsOut draws the arrowheads from the outside, on short tails.
func (d drafter) arrowsOut(a, b Pt, dx, dy float64) {
	d.dimensionLine(Line(a.Add(-dx*14, -dy*14), a), Line(b, b.Add(dx*14, dy*14)))
	d.arrow(d.p.Dimension, a, dx, dy)
	d.arrow(d.p.Dimension, b, -dx, -dy)
}

// surfaceMark draws the sign for a liquid's surface: a triangle that stands
// on it, over two short lines.
func (d drafter) surfaceMark(at Pt) {
	const half, high = 6.0, 10.0
	d.s.Fill("surface mark", d.p.Ground, []Pt{at.Add(0, -1), at.Add(-half, -high), at.Add(half, -high)})
	d.line("surface mark", narrow+0.3, d.p.Ink, nil,
		Loop(at.Add(0, -1), at.Add(-half, -high), at.Add(half, -high)),
		Line(at.Add(-5, 3.5), at.Add(5, 3.5)), Line(at.Add(-2.5, 6.5), at.Add(2.5, 6.5)))
}

// scaleBar draws a bar of a round length with its left foot at at, and gives
// the box it covers. K is dp to a metre; after is added to the figure.
func (d drafter) scaleBar(at Pt, k float64, after string) Box {
	const most, high = 130.0, 5.0
	step := RoundBelow(most/k, d.st.Inches)
	w := float64(step) * k
	if !(w > 1) {
		return Box{}
	}
	bar := Box{at.Add(0, -high), at.Add(w, 0)}
	const parts = 5
	for i := 0; i < parts; i += 2 {
		x := at.X + w*float64(i)/parts
		d.s.Fill("scale bar", d.p.Ink, Box{Pt{x, at.Y - high}, Pt{x + w/parts, at.Y}}.Ring())
	}
	d.line("scale bar", narrow, d.p.Ink, nil, Path{Points: bar.Ring(), Closed: true})
	text := d.st.Length(step) + after
	at = Pt{at.X + w + 8, at.Y}
	d.s.Text(at, text, d.note(Start))
	return bar.And(TextBox(d.s, at, text, d.note(Start)))
}

// RoundBelow gives the largest round length of at most limit metres: 1, 2 or 5
// times a power of ten of millimetres; of inches also halves down to a
// sixteenth.
func RoundBelow(limit float64, inches bool) unit.Length {
	if !(limit > 0) || math.IsInf(limit, 1) {
		return 0
	}
	if !inches {
		return unit.Length(step125(limit*1000, false)) * unit.Millimetre
	}
	in := limit / float64(unit.Inch)
	if in < 1 {
		return unit.Length(math.Pow(2, math.Floor(math.Log2(in)))) * unit.Inch
	}
	return unit.Length(step125(in, false)) * unit.Inch
}
