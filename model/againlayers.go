package model

import (
	"meniscus/model/unit"
)

// untilTraced stands for a figure that hangs on wood still to be traced.
const untilTraced = "not known until the wood is traced"

// layers tells of each layer what is mixed and what becomes of it.
func (c *changes) layers() {
	for i := range c.now.Plan.Layers {
		b := &c.now.Plan.Layers[i]
		a := c.was.Plan.Layer(b.ID)
		if a == nil {
			continue
		}
		s := c.style
		figure := func(label, was, now string, ratio float64) { c.figure(b.Name, label, was, now, ratio) }
		mass := func(label string, was, now unit.Mass) {
			figure(label, s.MassTo(was, a.Mix.Step), s.MassTo(now, b.Mix.Step), over(float64(now), float64(was)))
		}
		c.row(b.Name, "Depth", s.Length(a.Depth), s.Length(b.Depth), over(float64(b.Depth), float64(a.Depth)))
		figure("Volume to fill", s.Volume(a.Net), s.Volume(b.Net), over(float64(b.Net), float64(a.Net)))
		mass("Resin to mix", a.Mix.Total, b.Mix.Total)
		if a.Mix.Ready && b.Mix.Ready {
			mass("Of it A", a.Mix.A, b.Mix.A)
			mass("Of it B", a.Mix.B, b.Mix.B)
		}
		if a.Mix.Tint > 0 || b.Mix.Tint > 0 {
			mass("Tint", a.Mix.Tint, b.Mix.Tint)
		}
		c.changed(b.Name, "Resin", a.SheetName, b.SheetName, 0)
		was, now := c.lot(&c.was, b.ID), c.lot(&c.now, b.ID)
		c.changed(b.Name, "Lot", was, now, 0)
		c.cures(a, b, i+1 < len(c.now.Plan.Layers))
	}
}

func (c *changes) lot(i *Issue, layer string) string {
	if k := i.Project.LayerIndex(layer); k != none {
		return orWord(i.Project.Layers[k].Lot, "none named")
	}
	return ""
}

// cures tells a layer's times and heat: by the simulation where both issues
// have one, else by the data sheets. The window for a further pour is told of a
// layer that one follows.
func (c *changes) cures(a, b *LayerPlan, followed bool) {
	s := c.style
	span := func(k Known[unit.Span]) string {
		if k.Absent {
			return "not known"
		}
		return s.Span(k.Value)
	}
	times := func(label string, was, now Known[unit.Span]) {
		c.figure(b.Name, label, span(was), span(now), over(float64(now.Value), float64(was.Value)))
	}
	if c.was.Curing == nil || c.now.Curing == nil {
		times("Working time", a.Times.Working, b.Times.Working)
		if followed {
			c.figure(b.Name, "Recoat window", window(s, a.Times.RecoatFrom, a.Times.RecoatTo), window(s, b.Times.RecoatFrom, b.Times.RecoatTo), 0)
		}
		times("Ready to demold", a.Times.Demold, b.Times.Demold)
		return
	}
	x, y := c.was.Curing.layer(a.ID), c.now.Curing.layer(b.ID)
	if x == nil || y == nil {
		return
	}
	hot := func(l *LayerCuring, text string) string {
		if l.RunsAway {
			return "none, it runs away"
		}
		return text
	}
	peak := func(l *LayerCuring) string {
		switch {
		case l.RunsAway:
			return "runs away"
		case !l.Ready || l.Peak.Absent:
			return "not known"
		}
		return s.Temperature(l.Peak.Value)
	}
	cups := func(l *LayerCuring) string {
		switch {
		case l.Cups == nil || !l.Cups.Ready:
			return "not known"
		case !l.Cups.Possible:
			return "cannot be done"
		}
		return itoa(len(l.Cups.Batches))
	}
	c.figure(b.Name, "Cups", cups(x), cups(y), 0)
	c.changed(b.Name, "What is known of its lot", orWord(x.Learned, "nothing"), orWord(y.Learned, "nothing"), 0)
	c.figure(b.Name, "Peak heat", peak(x), peak(y), 0)
	times("Working time", x.Working, y.Working)
	if followed {
		c.figure(b.Name, "Recoat window", hot(x, window(s, x.RecoatFrom, x.RecoatTo)), hot(y, window(s, y.RecoatFrom, y.RecoatTo)), 0)
	}
	ratio := over(float64(y.Demold.Value), float64(x.Demold.Value))
	if x.RunsAway || y.RunsAway || x.Demold.Absent || y.Demold.Absent {
		ratio = 0
	}
	c.figure(b.Name, "Ready to demold", hot(x, span(x.Demold)), hot(y, span(y.Demold)), ratio)
}

// window writes when the next pour bonds by itself. Where it would open only
// once it has closed there is none.
func window(s unit.Style, from, to Known[unit.Span]) string {
	switch {
	case from.Absent || to.Absent:
		return "not known"
	case to.Value <= from.Value:
		return "none: let it cure through, sand and clean it first"
	}
	return s.Span(from.Value) + " to " + s.Span(to.Value)
}
