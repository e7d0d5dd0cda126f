package views

import (
	"math"

	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/look"
)

// tintBar draws how much of what a mix bears each thing stirred in uses, beside
// the line at which all of it is used.
type tintBar struct {
	limit   model.TintLimit
	palette drawing.Palette
}

func (t tintBar) paint(s drawing.Surface) {
	b := s.Bounds()
	left, width := b.Min.X+1, b.W()-2
	scale := width / max(1, t.limit.Used)
	if !(scale > 0) || math.IsInf(t.limit.Used, 1) {
		return
	}
	top := b.Min.Y + 4
	full := left + scale
	box := func(x0, x1 float64) []drawing.Pt {
		return []drawing.Pt{{X: x0, Y: top}, {X: x1, Y: top}, {X: x1, Y: top + barHeight}, {X: x0, Y: top + barHeight}}
	}
	outline := drawing.Pen{Name: "outline", Width: 1, Colour: t.palette.Ink}
	s.Fill("limit", t.palette.Ground, box(left, full))
	name := drawing.Lettering{Name: "part", Size: 13, Anchor: drawing.Middle, Colour: t.palette.Ink}
	x := left
	var middles, widths []float64
	var words []string
	for i, u := range t.limit.Uses {
		if u.Used <= 0 {
			continue
		}
		w := scale * u.Used
		ring := box(x, x+w)
		s.Fill("part", t.palette.Resin, ring)
		drawing.Hatch(s, drawing.Hatching{Name: "hatch", Spacing: 5 + 2*float64(i), Angle: -math.Pi/4 + float64(i)*math.Pi/5, Anchor: ring[0], Width: 0.8, Colour: t.palette.Ink}, ring)
		s.Stroke(outline, drawing.Loop(ring...))
		text := brief(u.Name, 18)
		words, middles, widths = append(words, text), append(middles, x+w/2), append(widths, s.Measure(text, name)+12)
		x += w
	}
	s.Stroke(outline, drawing.Loop(box(left, full)...))
	s.Stroke(drawing.Pen{Name: "limit", Width: 3, Colour: t.palette.Ink}, drawing.Line(drawing.Pt{X: full, Y: top - 4}, drawing.Pt{X: full, Y: top + barHeight + 4}))
	for i, at := range spaceOut(middles, widths, left, left+width) {
		s.Stroke(drawing.Pen{Name: "leader", Width: 1, Colour: t.palette.Line}, drawing.Line(drawing.Pt{X: middles[i], Y: top + barHeight}, drawing.Pt{X: at, Y: top + barHeight + 10}))
		s.Text(drawing.Pt{X: at, Y: top + barHeight + 24}, words[i], name)
	}
	all := drawing.Lettering{Name: "limit", Size: 13, Bold: true, Anchor: drawing.End, Colour: look.InkOn(t.palette.Ground)}
	if room := full - x; room > s.Measure("all that it bears", all)+16 {
		s.Text(drawing.Pt{X: full - 8, Y: top + barHeight*0.66}, "all that it bears", all)
	}
}
