package model

import (
	"math"

	"meniscus/model/unit"
)

// rows writes a run beside its plan.
func (r *Ran) rows(p *Project, pl *Plan, c *Curing) {
	for i := range r.Layers {
		r.layerRows(p, pl, c, i)
	}
	s := p.Style
	m := &pl.Mold
	if n := len(r.Thick); n > 0 {
		sum, least, most := unit.Length(0), r.Thick[0], r.Thick[0]
		for _, t := range r.Thick {
			sum, least, most = sum+t, min(least, t), max(most, t)
		}
		mean := sum.Times(1 / float64(n))
		text := s.Length(mean)
		if n > 1 {
			text += ", from " + s.Length(least) + " to " + s.Length(most)
		}
		r.row("thickness", "piece", "Finished thickness", s.Length(m.Finished), text, over(float64(mean), float64(m.Finished)))
	}
	for _, t := range r.Minutes {
		if t.Planned > 0 || t.Took > 0 {
			r.row("minutes/"+t.ID, "minutes", upperFirst(t.Task), spanOrNone(s, t.Planned), spanOrNone(s, t.Took), over(float64(t.Took), float64(t.Planned)))
		}
	}
}

func spanOrNone(s unit.Style, t unit.Span) string {
	if t <= 0 {
		return ""
	}
	return s.Span(t)
}

// row adds a figure that happened, or was planned.
func (r *Ran) row(key, group, label, planned, actual string, ratio float64) {
	if actual == "" {
		ratio = 0
	}
	r.Rows = append(r.Rows, RanRow{key, group, label, planned, actual, ratio})
}

// layerRows writes what happened of layer i. What was not noted has no row.
func (r *Ran) layerRows(p *Project, pl *Plan, c *Curing, i int) {
	l, plan := &r.Layers[i], &pl.Layers[i]
	s := p.Style
	mass := func(m unit.Mass) string { return s.MassTo(m, l.Planned.Step) }
	masses := func(key, label string, planned, actual unit.Mass) {
		r.row(l.ID+"/"+key, l.Name, label, mass(planned), mass(actual), over(float64(actual), float64(planned)))
	}
	if l.Used() > 0 {
		masses("mix", "Mixed", l.Planned.Total, l.Used())
		if l.Planned.Ready {
			masses("a", "Of it A", l.Planned.A, l.A)
			masses("b", "Of it B", l.Planned.B, l.B)
		}
		cups := ""
		if list := c.CupsOf(pl, l.ID); list != nil {
			cups = itoa(len(list.Batches))
		}
		r.row(l.ID+"/cups", l.Name, "Cups", cups, itoa(l.Cups), 0)
	}
	if l.LostCups > 0 {
		r.row(l.ID+"/lost", l.Name, "In cups that were lost", "", mass(l.Lost), 0)
	}
	if l.Emptied > 0 {
		masses("stayed", "Stayed in the cups", p.Mixing.stays(l.Emptied), l.Stayed)
	}
	if l.Over > 0 {
		r.row(l.ID+"/over", l.Name, "Left over", "", mass(l.Over), 0)
	}
	if l.At.IsZero() {
		return
	}
	planned := ""
	if i == 0 && !p.Shop.Planned.IsZero() && withinADay(p.Shop.Planned, l.At) {
		planned = p.Shop.Planned.In(p.Shop.Place()).Format("Mon 2 Jan 2006, 15:04")
	}
	r.row(l.ID+"/start", l.Name, "Poured", planned, l.At.In(p.Shop.Place()).Format("Mon 2 Jan 2006, 15:04"), 0)
	t := &plan.Times
	r.limit(s, l, "done", "All in the mold after", "within ", t.Working, l.Done)
	r.span(s, l, "set", "Like tape after", t.RecoatFrom, l.Set)
	if l.Next > 0 {
		planned := ""
		if !t.RecoatFrom.Absent && !t.RecoatTo.Absent {
			planned = window(s, t.RecoatFrom, t.RecoatTo)
		}
		r.row(l.ID+"/next", l.Name, "Next pour after", planned, s.Span(l.Next), 0)
	}
	r.limit(s, l, "out", "Out of the mold after", "not before ", t.Demold, l.Out)
	if l.Probe.Given() {
		peak := ""
		if x := c.of(pl, l.ID); x != nil && x.Ready && !x.RunsAway && !x.Peak.Absent {
			peak = s.Temperature(x.Peak.Value)
		}
		r.row(l.ID+"/peak", l.Name, "Hottest by the probe", peak, s.Temperature(l.Probe.Value), 0)
	}
}

// span adds how long after its pour something came, where that was noted.
func (r *Ran) span(s unit.Style, l *LayerRan, key, label string, planned Known[unit.Span], took unit.Span) {
	if took <= 0 {
		return
	}
	text, ratio := "", 0.0
	if !planned.Absent && planned.Value > 0 && !math.IsNaN(float64(planned.Value)) {
		text, ratio = s.Span(planned.Value), over(float64(took), float64(planned.Value))
	}
	r.row(l.ID+"/"+key, l.Name, label, text, s.Span(took), ratio)
}

// limit adds how long after its pour something came that was to come within a
// time, or not before it; a ratio would say nothing of that.
func (r *Ran) limit(s unit.Style, l *LayerRan, key, label, when string, planned Known[unit.Span], took unit.Span) {
	if took <= 0 {
		return
	}
	text := ""
	if !planned.Absent && planned.Value > 0 {
		text = when + s.Span(planned.Value)
	}
	r.row(l.ID+"/"+key, l.Name, label, text, s.Span(took), 0)
}

// of gives what a simulation says of a layer of a plan; nil where it is of
// another project, or there is none.
func (c *Curing) of(pl *Plan, layer string) *LayerCuring {
	if c == nil || c.Project != pl.Project {
		return nil
	}
	return c.layer(layer)
}

// runs lists in what two runs differ: what happened, beside each other.
func (c *comparer) runs(a, b *Ran) {
	if a == nil {
		a = &Ran{}
	}
	if b == nil {
		b = &Ran{}
	}
	find := func(r *Ran, key string) *RanRow {
		for i := range r.Rows {
			if r.Rows[i].Key == key {
				return &r.Rows[i]
			}
		}
		return &RanRow{}
	}
	say := func(x *RanRow, was, now string) {
		if was != now {
			c.list = append(c.list, Difference{"run/" + x.Key, "What happened", x.Group + ": " + lowerFirst(x.Label), was, now})
		}
	}
	for i := range a.Rows {
		x := &a.Rows[i]
		say(x, x.Actual, find(b, x.Key).Actual)
	}
	for i := range b.Rows {
		if x := &b.Rows[i]; find(a, x.Key).Key == "" {
			say(x, "", x.Actual)
		}
	}
}
