package model

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Simulate gives the best estimate of how a project cures: all figures without
// their bands. The plan must be that of the project. What cannot be simulated
// says why in its layer; the only error is that of a context that ended.
func Simulate(ctx context.Context, p *Project, pl *Plan) (Curing, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return Curing{}, err
	}
	c, _, err := h.simulate(ctx)
	return c, err
}

// simulate runs the best estimate.
func (h *heat) simulate(ctx context.Context) (Curing, []stage, error) {
	v := bestPass()
	stages, err := h.run(ctx, v)
	if err != nil {
		return Curing{}, nil, h.ended(ctx, err)
	}
	c := Curing{Project: h.p.ID, Start: h.start}
	n := len(stages)
	below := n > 0 && stages[n-1].course.RunsAway
	for k := range h.layers {
		c.Layers = append(c.Layers, h.blank(k, below))
	}
	outcomes, err := h.outcomes(ctx, v, stages, nil)
	if err != nil {
		return Curing{}, nil, err
	}
	for i := range stages {
		if err := h.byPart(ctx, &stages[i], h.cal(&v, stages[i].layer), &outcomes[i]); err != nil {
			return Curing{}, nil, err
		}
		l := &c.Layers[stages[i].layer]
		h.tell(l, outcomes[i], &stages[i])
		if l.Cups, err = h.cups(ctx, stages[i].layer, stages[i].slab.Room, l); err != nil {
			return Curing{}, nil, err
		}
	}
	for i := range stages {
		if err := h.answer(ctx, &c.Layers[stages[i].layer], stages[i].layer, h.each(carefully)); err != nil {
			return Curing{}, nil, err
		}
	}
	h.close(&c, stages)
	return c, stages, nil
}

// outcomes reads all layers off the stages of a pass. Where a lot taught
// something its heat is that of the hotter and its waiting that of the slower
// of lot and sheet: learning tightens a limit and never loosens one. change,
// where there is one, is what the pass changes of the products.
func (h *heat) outcomes(ctx context.Context, v pass, stages []stage, change func([]cure.Calibrated)) ([]outcome, error) {
	list := make([]outcome, len(stages))
	for i := range stages {
		list[i] = h.outcome(v, stages, i)
	}
	if !h.learned() {
		return list, nil
	}
	for _, of := range []func(*heatLayer) cure.Calibrated{carefully, patiently} {
		other := v
		if other.cals = h.each(of); change != nil {
			change(other.cals)
		}
		stages, err := h.run(ctx, other)
		if err != nil {
			return nil, h.ended(ctx, err)
		}
		for i := range min(len(stages), len(list)) {
			list[i].tighten(h.outcome(other, stages, i))
		}
	}
	return list, nil
}

// learned tells whether any lot taught something.
func (h *heat) learned() bool {
	return slices.ContainsFunc(h.layers, func(l heatLayer) bool { return l.product.Learned != cure.Learned{} })
}

// ended gives the error of a run: that of the context where it ended. Any other
// is a slab that cannot be reckoned with, which what was checked before rules
// out.
func (h *heat) ended(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return err
}

// absentSpan is a span that is not known.
func absentSpan(why string) Known[unit.Span] { return Known[unit.Span]{Absent: true, Source: why} }

// blank is a layer before anything is known of it. Of one that stays so, below
// tells whether that is since a pour below it runs away.
func (h *heat) blank(k int, below bool) LayerCuring {
	l := &h.layers[k]
	why := l.why
	for _, lower := range h.layers[:k] {
		if lower.why != "" && why == "" {
			why = "what is below it is not known: " + lower.plan.Name + ": " + lower.why
		}
	}
	switch {
	case why != "":
	case below:
		why = "the pour below it runs away, so that it is not reached"
	default:
		why = "its figures cannot be reckoned with: check its depth and its data sheet"
	}
	absent := absentSpan(why)
	c := LayerCuring{
		ID: l.plan.ID, Name: l.plan.Name, Why: why, Assumed: !l.poured,
		Peak:      Known[unit.Temperature]{Absent: true, Source: why},
		PeakLimit: l.limit, PeakCheck: NotKnown, Cracks: NotKnown,
		PeakAfter: absent, RunsAfter: absent, GelFirst: absent, GelLast: absent, Working: absent,
		RecoatFrom: absent, RecoatBest: absent, RecoatTo: absent, Demold: absent, Sand: absent,
		Gradient: Known[unit.TempRise]{Absent: true, Source: why},
		Workings: map[Figured]Working{},
	}
	c.Room.Text, c.Deepest.Text = why, why
	return c
}

// simulated names the simulation as a source.
const simulated = "simulation of this pour"

// known makes a Known of what may come.
func (m mayCome) known(why string) Known[unit.Span] {
	if !m.comes {
		return absentSpan(why)
	}
	return exact(m.after, simulated)
}

// tell puts an outcome into a layer.
func (h *heat) tell(c *LayerCuring, o outcome, s *stage) {
	l := &h.layers[s.layer]
	c.Ready, c.Why = true, ""
	if !h.start.IsZero() {
		c.Start = h.start.Add(s.at.Duration()).Round(time.Second)
	}
	late := "not within " + inDays(MostSimulated) + " at this temperature"
	if o.runs {
		late = "it runs away before"
	}
	c.Peak, c.PeakAfter, c.PeakHeight = exact(o.peak, simulated), exact(o.peakAfter, simulated), o.height
	c.RunsAway, c.RunsAfter = o.runs, mayCome{o.runsAfter, o.runs}.known("it does not run away")
	c.GelFirst, c.GelLast = o.gelFirst.known(late), o.gelLast.known(late)
	c.RecoatFrom, c.RecoatBest, c.RecoatTo = o.opens.known(late), o.best.known(late), o.closes.known(late)
	c.Demold, c.Sand = o.demold.known(late), o.sand.known(late)
	c.Working = soonest(l.plan.Times.Working, o.gelFirst, mayCome{o.runsAfter, o.runs})
	c.Learned = l.product.Learned.Words
	c.Taught, c.TaughtLot = l.product.Learned, l.lot
	c.Gradient = exact(o.gradient, simulated)
	c.Stall = h.stall(l, s, o)
	h.judge(c)
}

// soonest cuts a time short where something comes sooner: what has set or runs
// away is not worked any more, whatever the sheet says.
func soonest(k Known[unit.Span], ends ...mayCome) Known[unit.Span] {
	for _, end := range ends {
		if end.comes && !k.Absent && end.after < k.Value {
			k = exact(end.after, simulated)
		}
	}
	return k
}

// crackGradient is the difference of temperature through a pour that has set
// from which on it is likely to crack as it cools: at 65 to 170 µm/(m K) it
// strains the resin by two parts in a thousand (common practice, no source).
const crackGradient = unit.TempRise(20)

// judge holds a layer's figures against their limits.
func (h *heat) judge(c *LayerCuring) {
	limit := c.PeakLimit.Value
	switch {
	case c.RunsAway || c.Peak.Value > limit:
		c.PeakCheck = Beyond
	case c.Peak.High > c.PeakLimit.Low: // of a sheet that is silent the limit is not known either
		c.PeakCheck = NotKnown
	default:
		c.PeakCheck = Fine
	}
	switch {
	case c.RunsAway || c.Gradient.Value > crackGradient:
		c.Cracks = Beyond
	case c.Gradient.High > crackGradient:
		c.Cracks = NotKnown
	default:
		c.Cracks = Fine
	}
}

// stall tells where a cure all but stops before it is hard enough to sand, and
// what would bring it on; nil where it gets there.
func (h *heat) stall(l *heatLayer, s *stage, o outcome) *Stall {
	if o.sand.comes && o.sand.after <= stallsAfter || o.runs {
		return nil
	}
	style := h.p.Style
	room := s.slab.Room.Mean
	t := &Stall{Conversion: o.conversion, Softening: o.softening, Room: room}
	k := &l.cal.Kinetics
	what := "stays too soft to sand"
	switch {
	case o.sand.comes:
		what += " for " + style.Span(o.sand.after)
	case o.conversion < k.Gel:
		what = "does not set"
	case !o.demold.comes:
		what = "stays rubbery"
	}
	warmest, whose := unit.Celsius(warmestShop), "a shop"
	if f := l.sheet.Warmest; f.Given() && f.Value < warmest {
		warmest, whose = f.Value, "the data sheet's rooms"
	}
	coolest := math.Floor(room.Celsius()) + 1
	if f := l.sheet.Coldest; f.Given() {
		coolest = max(coolest, math.Ceil(f.Value.Celsius()))
	}
	for c := coolest; unit.Celsius(c) <= warmest; c++ {
		if warm := unit.Celsius(c); k.TimeTo(warm, 0, l.cal.Sand(warm)) <= stallsAfter.Times(0.8) {
			t.WarmTo = warm
			break
		}
	}
	t.Text = fmt.Sprintf("%s at %s", what, style.Temperature(room))
	if t.WarmTo != 0 {
		t.Text += "; warm it to " + style.Temperature(t.WarmTo)
	} else {
		t.Text += "; no warmth of " + whose + " makes it hard, by what its sheet tells"
	}
	return t
}

// stallsAfter is how long a cure may take before it counts as stalled: a week
// in the mold is common advice for slow resins (common practice, no source).
const stallsAfter = 10 * unit.Day

// warmestShop is how warm a shop may be made for a cure, in °C (common
// practice, no source).
const warmestShop = 35

// close works out what follows from all layers together.
func (h *heat) close(c *Curing, stages []stage) {
	c.Trace = h.trace(stages)
	c.Steps = h.steps(c)
	c.Findings = h.findings(c)
	for i := range stages {
		k := stages[i].layer
		h.workings(&c.Layers[k], &h.layers[k], &stages[i])
	}
}

// steps gives the plan's steps with the simulation's times where it tells. The
// working time stays the sheet's, at the temperature of the room.
func (h *heat) steps(c *Curing) []Step {
	timed := c.timedLayers(h.plan)
	return h.p.steps(timed)
}

// timedLayers gives the plan's layers with the times of the simulation.
func (c *Curing) timedLayers(pl *Plan) []LayerPlan {
	own := *c
	own.Steps = nil
	return own.Timed(pl).Layers
}

// trace strings the stages together, each up to the next pour.
func (h *heat) trace(stages []stage) Trace {
	var t Trace
	for i := range stages {
		s := &stages[i]
		end := s.course.Ends
		if i+1 < len(stages) {
			end = stages[i+1].at - s.at
		} else if hard, ok := h.shown(stages, i); ok {
			end = min(end, hard)
		}
		for _, f := range s.course.Frames {
			if f.At > end {
				break
			}
			t.Frames = append(t.Frames, h.frame(stages[:i+1], s, f.At, f.T, f.A))
		}
		f := s.course.At(end)
		t.Frames = append(t.Frames, h.frame(stages[:i+1], s, f.At, f.T, f.A))
	}
	return t
}

// shown tells how long after the last pour the trace goes on: past the moment
// at which the piece can be cut and sanded, and two days at least.
func (h *heat) shown(stages []stage, i int) (unit.Span, bool) {
	o := h.outcome(bestPass(), stages, i)
	for _, m := range []mayCome{o.sand, o.demold} {
		if m.comes {
			return max(m.after.Times(1.1), 2*unit.Day), true
		}
	}
	return 0, false
}

// frame is the resin of a stage at one time.
func (h *heat) frame(stages []stage, s *stage, at unit.Span, temps, done []float64) TraceFrame {
	f := TraceFrame{At: s.at + at, Room: s.slab.Room.At(at)}
	bottom := unit.Length(0)
	cell := 0
	for j, x := range s.slab.Strata {
		if j < s.first {
			cell += x.Cells
			continue
		}
		layer := none
		for i := range stages {
			if stages[i].stratum == j {
				layer = stages[i].layer
			}
		}
		dz := x.Thickness.Times(1 / float64(x.Cells))
		for range x.Cells {
			f.Cells = append(f.Cells, TraceCell{
				Layer: layer, Bottom: bottom, Top: bottom + dz,
				State:     stateOf(temps[cell], done[cell]),
				Softening: x.Cure.Glass.At(done[cell]),
			})
			bottom += dz
			cell++
		}
	}
	return f
}
