package views

import (
	"image/color"
	"math"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
)

// mixBar draws where what is mixed goes: one bar of the whole, and below it
// what does not stay as the layer, drawn larger.
type mixBar struct {
	parts   []model.MixPart
	total   unit.Mass
	style   unit.Style
	palette drawing.Palette
	colour  string
}

// names of the parts in the drawing; the layer itself has the kind "".
var barNames = map[model.AllowanceKind]string{
	model.AllowSoak: "soak", model.AllowCreep: "creep", model.AllowRefill: "refill", model.AllowCup: "cup",
}

const barHeight = 26.0

func (m mixBar) paint(s drawing.Surface) {
	if len(m.parts) < 2 || m.total <= 0 {
		return
	}
	b := s.Bounds()
	left, width := b.Min.X+1, b.W()-2
	resin, ok := drawing.Hex(m.colour)
	if !ok {
		resin = m.palette.Resin
	}
	net, rest := m.parts[0], m.parts[1:]
	cut := left + width*net.Mass.Per(m.total)
	top := b.Min.Y + 2
	m.box(s, left, cut, top, resin, nil)
	m.box(s, cut, left+width, top, m.palette.Panel, nil)
	s.Text(drawing.Pt{X: left + 10, Y: top + barHeight*0.68}, net.Label+" "+m.style.Mass(net.Mass),
		drawing.Lettering{Name: "part", Size: 14, Bold: true, Colour: look.InkOn(resin)})

	extra := m.total - net.Mass
	if extra <= 0 {
		return
	}
	low := top + barHeight + 22
	pen := drawing.Pen{Name: "leader", Width: 1, Colour: m.palette.Line}
	s.Stroke(pen, drawing.Line(drawing.Pt{X: cut, Y: top + barHeight}, drawing.Pt{X: left, Y: low}),
		drawing.Line(drawing.Pt{X: left + width, Y: top + barHeight}, drawing.Pt{X: left + width, Y: low}))
	m.extras(s, rest, extra, left, width, low)
}

// extras draws the lower bar with its words below.
func (m mixBar) extras(s drawing.Surface, rest []model.MixPart, extra unit.Mass, left, width, top float64) {
	l := drawing.Lettering{Name: "part", Size: 13, Anchor: drawing.Middle, Colour: m.palette.Ink}
	x := left
	var middles, widths []float64
	var words []string
	for i, part := range rest {
		w := width * part.Mass.Per(extra)
		ring := &drawing.Hatching{Name: "hatch", Pattern: drawing.Slanted, Spacing: 4 + 2*float64(i), Angle: -math.Pi/4 + float64(i)*math.Pi/5, Width: 0.8, Colour: m.palette.Faint}
		if part.Kind == "" {
			ring = nil
		}
		m.box(s, x, x+w, top, m.palette.Panel, ring)
		name := barNames[part.Kind]
		if name == "" {
			name = "to be sure"
		}
		text := name + " " + m.style.Mass(part.Mass)
		words = append(words, text)
		middles = append(middles, x+w/2)
		widths = append(widths, s.Measure(text, l)+12)
		x += w
	}
	at := spaceOut(middles, widths, left, left+width)
	for i, text := range words {
		s.Stroke(drawing.Pen{Name: "leader", Width: 1, Colour: m.palette.Line},
			drawing.Line(drawing.Pt{X: middles[i], Y: top + barHeight}, drawing.Pt{X: at[i], Y: top + barHeight + 14}))
		s.Text(drawing.Pt{X: at[i], Y: top + barHeight + 28}, text, l)
	}
}

// box draws one part of a bar from x0 to x1.
func (m mixBar) box(s drawing.Surface, x0, x1, top float64, fill color.NRGBA, hatch *drawing.Hatching) {
	ring := []drawing.Pt{{X: x0, Y: top}, {X: x1, Y: top}, {X: x1, Y: top + barHeight}, {X: x0, Y: top + barHeight}}
	s.Fill("part", fill, ring)
	if hatch != nil {
		hatch.Anchor = ring[0]
		drawing.Hatch(s, *hatch, ring)
	}
	s.Stroke(drawing.Pen{Name: "outline", Width: 1, Colour: m.palette.Ink}, drawing.Loop(ring...))
}

// spaceOut moves the middles of labels, given from left to right, apart so that
// none overlaps its neighbour and all lie between lo and hi where there is room.
func spaceOut(middles, widths []float64, lo, hi float64) []float64 {
	at := append([]float64(nil), middles...)
	edge := lo
	for i := range at {
		at[i] = max(at[i], edge+widths[i]/2)
		edge = at[i] + widths[i]/2
	}
	edge = hi
	for i := len(at) - 1; i >= 0; i-- {
		at[i] = min(at[i], edge-widths[i]/2)
		edge = at[i] - widths[i]/2
	}
	return at
}
