package model

import (
	"slices"

	"meniscus/model/unit"
)

// Timed gives the plan with its steps and the times of its layers as the
// simulation has them, where it is of the same project and tells of them. All
// else is the plan's.
func (c *Curing) Timed(pl *Plan) Plan {
	t := *pl
	if c.Project != pl.Project {
		return t
	}
	t.Steps = c.StepsOf(pl)
	t.Layers = slices.Clone(pl.Layers)
	for i := range t.Layers {
		if l := c.layer(t.Layers[i].ID); l != nil && l.Ready {
			t.Layers[i].Times = l.timed(t.Layers[i].Times)
		}
	}
	return t
}

// StepsOf gives the steps of a plan as the simulation has them, where it is of
// the same project and tells of any; else the plan's own.
func (c *Curing) StepsOf(pl *Plan) []Step {
	if c.Project == pl.Project && len(c.Steps) > 0 && c.upTo(pl) {
		return c.Steps
	}
	return pl.Steps
}

// upTo tells whether the simulation knows of all the pours that the plan knows
// of: one that was worked out before a pour was started has no instants for it.
func (c *Curing) upTo(pl *Plan) bool {
	return slices.EqualFunc(c.Layers, pl.Layers, func(a LayerCuring, b LayerPlan) bool {
		return a.ID == b.ID && a.Assumed == (b.Status == Planned)
	})
}

// timed gives times with those that the simulation tells in their place. Of a
// pour that runs away there are none past its working time.
func (l *LayerCuring) timed(t LayerTimes) LayerTimes {
	for _, p := range []struct{ to, by *Known[unit.Span] }{{&t.Working, &l.Working}, {&t.RecoatFrom, &l.RecoatFrom}, {&t.RecoatTo, &l.RecoatTo}, {&t.Demold, &l.Demold}} {
		if !p.by.Absent && p.by.Value > 0 {
			*p.to = *p.by
		}
	}
	// Nothing is fully cured before it can be sanded.
	if f := &t.FullCure; !l.Sand.Absent && !f.Absent {
		f.Value, f.Low, f.High = max(f.Value, l.Sand.Value), max(f.Low, l.Sand.Low), max(f.High, l.Sand.High)
	}
	if l.RunsAway {
		absent := absentSpan("it runs away")
		t.RecoatFrom, t.RecoatTo, t.Demold, t.FullCure = absent, absent, absent, absent
	}
	return t
}

// Shut tells whether there is no time at which the next pour is sure to bond:
// the window closes as it opens.
func (l *LayerCuring) Shut() bool { return shut(l.RecoatFrom, l.RecoatTo) }

func shut(from, to Known[unit.Span]) bool {
	return !from.Absent && !to.Absent && from.Value > 0 && to.Value-from.Value < unit.Minute
}
