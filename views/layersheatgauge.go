package views

import (
	"math"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
)

// The sizes of the gauges in dp.
const (
	gaugeHigh = 59
	gaugeBar  = 14.0
)

// gauges paint what would become of a pour on scales that stand still: the
// limits and the plan are drawn where they are, the answer moves.
type gauges struct {
	s       *shotOf
	l       *model.LayerCuring
	a       *model.WhatIfAnswer // nil: the plan itself
	palette drawing.Palette
	last    bool

	to  drawing.Surface
	box drawing.Box
}

func (g gauges) paint(to drawing.Surface) {
	g.to, g.box = to, to.Bounds()
	top := g.box.Min.Y
	for _, row := range []func(float64){g.heat, g.depth, g.time} {
		row(top)
		top += gaugeHigh
	}
}

// scale is one gauge's axis.
type scale struct{ low, high, left, width float64 }

func (a scale) x(v float64) float64 {
	return a.left + a.width*min(max((v-a.low)/(a.high-a.low), 0), 1)
}

// axis begins a gauge: its name, what it says, and its track.
func (g *gauges) axis(top, low, high float64, name, said string, tone drawing.Palette, bad bool) scale {
	a := scale{low, high, g.box.Min.X + 6, g.box.W() - 12} // a mark at an end has its half beyond it
	g.to.Text(drawing.Pt{X: a.left, Y: top + 13}, name, drawing.Lettering{Name: "name", Size: 13, Colour: tone.Faint})
	ink := tone.Ink
	if bad {
		ink = tone.Stop
	}
	g.to.Text(drawing.Pt{X: a.left + a.width, Y: top + 13}, said, drawing.Lettering{Name: "said", Size: 15, Bold: true, Anchor: drawing.End, Colour: ink})
	y := top + 20
	g.to.Stroke(drawing.Pen{Name: "track", Width: 1, Colour: tone.Line}, drawing.Loop(drawing.Pt{X: a.left, Y: y}, drawing.Pt{X: a.left + a.width, Y: y}, drawing.Pt{X: a.left + a.width, Y: y + gaugeBar}, drawing.Pt{X: a.left, Y: y + gaugeBar}))
	return a
}

// heat is the peak against its limit.
func (g *gauges) heat(top float64) {
	st := g.s.Project.Style
	in := degrees(st)
	low := in(g.s.layer.Times.Room - mostWarmer)
	high := in(g.l.Peak.Value) + 40
	limit := math.NaN()
	if !g.l.PeakLimit.Absent {
		limit = in(g.l.PeakLimit.Value)
		high = limit + (limit-low)*0.3
	}
	peak, runs, after, bad := g.l.Peak.Value, g.l.RunsAway, g.l.RunsAfter.Value, g.l.PeakCheck == model.Beyond
	if g.a != nil {
		peak, runs, after, bad = g.a.Peak, g.a.RunsAway, g.a.RunsAfter, g.a.TooHot || g.a.RunsAway
	}
	said := wholeDegrees(st, math.Round(in(peak)))
	switch {
	case runs:
		said = "runs away after " + st.Span(after)
	case bad:
		said += ", too hot"
	}
	a := g.axis(top, low, high, "Peak heat", said, g.palette, bad)
	g.limit(a, top, limit, in(g.l.Peak.Value), "limit "+wholeDegrees(st, limit))
	g.planned(a, top, in(g.l.Peak.Value))
	if runs {
		peak = unit.Temperature(math.Inf(1))
	}
	g.bar(a, top, low, in(peak), bad)
}

// depth is how deep the pour is against the deepest that is safe today.
func (g *gauges) depth(top float64) {
	st := g.s.Project.Style
	planned := g.s.layer.Depth
	depth := planned
	if g.a != nil {
		depth = g.a.Depth
	}
	high := float64(planned) + mostDeeper*1.2e-3
	limit := math.NaN()
	words := ""
	if g.l.Deepest.Known {
		limit = float64(g.l.Deepest.Value)
		high = max(high, limit*1.15)
		words = "deepest safe here " + st.Length(g.l.Deepest.Value)
	}
	deep := g.l.TooDeep(depth)
	said := st.Length(depth)
	if deep {
		said += ", too deep"
	}
	a := g.axis(top, 0, high, "Depth", said, g.palette, deep)
	g.limit(a, top, limit, float64(planned), words)
	g.planned(a, top, float64(planned))
	g.bar(a, top, 0, float64(depth), deep)
}

// time is when the next pour may go on, or for the last one when it can come
// out.
func (g *gauges) time(top float64) {
	st := g.s.Project.Style
	demold := g.l.Demold
	if g.last {
		if g.a != nil {
			demold = g.a.Demold
		}
		said := "not known"
		if !demold.Absent {
			said = "after " + st.Span(demold.Value)
		}
		a := g.axis(top, 0, max(g.l.Demold.Value, unit.Hour).Hours()*1.7, "It can come out", said, g.palette, false)
		if !g.l.Demold.Absent {
			g.planned(a, top, g.l.Demold.Value.Hours())
		}
		if !demold.Absent {
			g.bar(a, top, 0, demold.Value.Hours(), false)
		}
		return
	}
	from, to := g.l.RecoatFrom, g.l.RecoatTo
	next, in := from.Value, true
	if g.a != nil {
		from, to, next, in = g.a.RecoatFrom, g.a.RecoatTo, g.a.NextPour, g.a.InWindow
	}
	end := max(g.l.RecoatTo.Value, g.l.RecoatFrom.Value+unit.Hour.Times(mostLater), unit.Hour).Hours() * 1.3
	said := "not known"
	if !from.Absent {
		said = st.Span(from.Value) + " on"
		if !to.Absent {
			said = st.Span(from.Value) + " to " + st.Span(to.Value)
		}
		if g.a == nil && g.l.Shut() {
			said = "no time is sure: let it harden, and sand it"
		}
	}
	bad := g.a != nil && !in && !from.Absent
	if bad {
		said = map[bool]string{true: "too early: from ", false: "too late: until "}[next < from.Value] + st.Span(map[bool]unit.Span{true: from.Value, false: to.Value}[next < from.Value])
	}
	a := g.axis(top, 0, end, "Next pour, after this one", said, g.palette, bad)
	if !g.l.RecoatFrom.Absent && !g.l.RecoatTo.Absent {
		g.window(a, top, g.l.RecoatFrom.Value.Hours(), g.l.RecoatTo.Value.Hours(), true)
	}
	if from.Absent {
		return
	}
	if !to.Absent {
		g.window(a, top, from.Value.Hours(), to.Value.Hours(), false)
	}
	g.needle(a, top, next.Hours(), bad)
}

// limit draws a limit through a gauge, hatched beyond, with its words below.
func (g *gauges) limit(a scale, top, v, planned float64, words string) {
	if math.IsNaN(v) {
		return
	}
	x, y := a.x(v), top+20
	end := a.left + a.width
	if end-x > 1 {
		drawing.Hatch(g.to, drawing.Hatching{Name: "beyond", Spacing: 6, Angle: -math.Pi / 4, Anchor: drawing.Pt{X: x, Y: y}, Width: 0.8, Colour: drawing.Fade(g.palette.Stop, 0.7)},
			[]drawing.Pt{{X: x, Y: y}, {X: end, Y: y}, {X: end, Y: y + gaugeBar}, {X: x, Y: y + gaugeBar}})
	}
	g.to.Stroke(drawing.Pen{Name: "limit", Width: 2, Colour: g.palette.Stop}, drawing.Line(drawing.Pt{X: x, Y: y - 3}, drawing.Pt{X: x, Y: y + gaugeBar + 5}))
	l := drawing.Lettering{Name: "limit", Size: 12, Colour: g.palette.Stop}
	w := g.to.Measure(words, l)
	at := x // clear of the plan's mark, which lies on the other side
	if planned > v {
		at = x - w
	}
	g.to.Text(drawing.Pt{X: min(max(at, a.left), end-w), Y: y + gaugeBar + 19}, words, l)
}

// planned marks where the plan stands: a hollow triangle below the track.
func (g *gauges) planned(a scale, top, v float64) {
	at := drawing.Pt{X: a.x(v), Y: top + 20 + gaugeBar + 1}
	g.to.Stroke(drawing.Pen{Name: "planned", Width: 1.3, Colour: g.palette.Ink}, drawing.Loop(at, at.Add(-5, 8), at.Add(5, 8)))
}

// bar fills a gauge up to a value.
func (g *gauges) bar(a scale, top, from, to float64, bad bool) {
	x0, x1, y := a.x(from), a.x(to), top+20.0
	c := drawing.Fade(g.palette.Dimension, 0.75)
	if bad {
		c = drawing.Fade(g.palette.Stop, 0.75)
	}
	g.to.Fill("value", c, []drawing.Pt{{X: x0, Y: y + 3}, {X: x1, Y: y + 3}, {X: x1, Y: y + gaugeBar - 3}, {X: x0, Y: y + gaugeBar - 3}})
	g.to.Stroke(drawing.Pen{Name: "value", Width: 3, Colour: g.palette.Ink}, drawing.Line(drawing.Pt{X: x1, Y: y - 2}, drawing.Pt{X: x1, Y: y + gaugeBar + 2}))
}

// window draws when the next pour may go on: dashed as planned, filled as it
// would be.
func (g *gauges) window(a scale, top, from, to float64, planned bool) {
	y := top + 20
	box := []drawing.Pt{{X: a.x(from), Y: y + 2}, {X: a.x(to), Y: y + 2}, {X: a.x(to), Y: y + gaugeBar - 2}, {X: a.x(from), Y: y + gaugeBar - 2}}
	if planned {
		for i := range box {
			box[i].Y += map[bool]float64{true: -4, false: 4}[i < 2]
		}
		g.to.Stroke(drawing.Pen{Name: "planned", Width: 1.3, Dash: []float64{4, 3}, Colour: g.palette.Ink}, drawing.Loop(box...))
		return
	}
	g.to.Fill("window", drawing.Fade(g.palette.Good, 0.55), box)
}

// needle marks when the next pour goes on.
func (g *gauges) needle(a scale, top, v float64, bad bool) {
	c := g.palette.Ink
	if bad {
		c = g.palette.Stop
	}
	x, y := a.x(v), top+20.0
	g.to.Stroke(drawing.Pen{Name: "needle", Width: 3, Colour: c}, drawing.Line(drawing.Pt{X: x, Y: y - 3}, drawing.Pt{X: x, Y: y + gaugeBar + 3}))
	g.to.Fill("needle", c, []drawing.Pt{{X: x, Y: y + gaugeBar + 2}, {X: x - 5, Y: y + gaugeBar + 10}, {X: x + 5, Y: y + gaugeBar + 10}})
}
