package model

import (
	"context"
	"fmt"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// WhatIf is what a finger asks of one pour: all of it is added to what is
// planned. The zero WhatIf is the plan.
type WhatIf struct {
	Room  unit.TempRise // the room warmer by so much
	Depth unit.Length   // this pour deeper by so much
	Delay unit.Span     // the next pour waits so much longer past the opening of the window
	Ratio float64       // share of hardener off: 0.1 is a tenth too much
}

// WhatIfAnswer is what would become of the pour. The limits are those of the
// project: they stay where they are.
type WhatIfAnswer struct {
	Depth     unit.Length
	Room      unit.Temperature
	Peak      unit.Temperature
	PeakAfter unit.Span
	PeakLimit unit.Temperature
	TooHot    bool
	RunsAway  bool
	RunsAfter unit.Span

	DepthLimit unit.Length // the data sheet's deepest; 0: it does not say
	TooDeep    bool        // by the data sheet

	RecoatFrom Known[unit.Span]
	RecoatTo   Known[unit.Span]
	NextPour   unit.Span // when the next pour would go on
	InWindow   bool      // whether that is in the window
	Demold     Known[unit.Span]

	Texts []string // what else there is to say, such as what an off ratio does
}

// askedFor is how long a pour is followed when it is asked what would become of
// it.
const askedFor = 10 * unit.Day

// Ask answers what would become of a layer, by the best estimate. What is asked
// beyond what can be is kept to what can: a pour of no depth has no answer, and
// that is the error, a *Problem.
func Ask(ctx context.Context, p *Project, pl *Plan, layer string, w WhatIf) (WhatIfAnswer, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return WhatIfAnswer{}, err
	}
	k := none
	for i := range h.layers {
		if h.layers[i].plan.ID == layer {
			k = i
		}
	}
	if k == none {
		return WhatIfAnswer{}, &Problem{"layers", "choose a pour first"}
	}
	l := &h.layers[k]
	if l.why != "" {
		return WhatIfAnswer{}, &Problem{"layers/" + layer, l.why}
	}
	v := bestPass()
	v.warmer, v.layer, v.last, v.until = w.Room, k, k, askedFor
	if v.depth = l.plan.Depth + w.Depth; v.depth < unit.Millimetre || v.depth > mostSimulatedDepth {
		return WhatIfAnswer{}, &Problem{"layers/" + layer + "/to", "that is no depth to pour"}
	}
	off := func(cals []cure.Calibrated) { offRatio(&cals[k], w.Ratio) }
	v.cals = h.each(asItIs)
	off(v.cals)
	stages, err := h.run(ctx, v)
	if err != nil {
		return WhatIfAnswer{}, h.ended(ctx, err)
	}
	i := len(stages) - 1
	if i < 0 || stages[i].layer != k {
		return WhatIfAnswer{}, &Problem{"layers/" + layer, "the pour below it runs away, or its figures cannot be reckoned with"}
	}
	outcomes, err := h.outcomes(ctx, v, stages, off)
	if err != nil {
		return WhatIfAnswer{}, err
	}
	return h.whatIf(v, &stages[i], outcomes[i], w), nil
}

// whatIf words the answer for a stage and what became of it.
func (h *heat) whatIf(v pass, s *stage, o outcome, w WhatIf) WhatIfAnswer {
	l := &h.layers[s.layer]
	late := "not within " + inDays(askedFor)
	a := WhatIfAnswer{
		Depth: v.depth, Room: s.slab.Room.At(0),
		Peak: o.peak, PeakAfter: o.peakAfter, PeakLimit: l.limit.Value,
		RunsAway: o.runs, RunsAfter: o.runsAfter, TooHot: o.runs || o.peak > l.limit.Value,
		DepthLimit: l.sheet.MaxLayer.Value,
		TooDeep:    l.sheet.tooDeep(v.depth),
		RecoatFrom: o.opens.known(late), RecoatTo: o.closes.known(late), Demold: o.demold.known(late),
	}
	if o.opens.comes {
		a.NextPour = o.opens.after + w.Delay
		a.InWindow = w.Delay >= 0 && (!o.closes.comes || a.NextPour <= o.closes.after)
	}
	style := h.p.Style
	if a.TooDeep {
		a.Texts = append(a.Texts, fmt.Sprintf("deeper than the data sheet's %s, whatever its heat", style.Length(a.DepthLimit)))
	}
	switch {
	case w.Ratio >= offRatioStop || w.Ratio <= -offRatioStop:
		a.Texts = append(a.Texts, fmt.Sprintf("%+.0f %% of hardener: it is likely to stay soft or sticky for good; more hardener never hurries a cure safely", 100*w.Ratio))
	case w.Ratio > 0.02 || w.Ratio < -0.02:
		a.Texts = append(a.Texts, fmt.Sprintf("%+.0f %% of hardener: softer, and it sets later in its cure", 100*w.Ratio))
	}
	return a
}

// offRatioStop is how far a ratio may be off before a pour is likely lost
// (common practice, no source: 2 % is the aim, 5 % the stop).
const offRatioStop = 0.05

// offRatio puts a product off its ratio. The scarcer part decides: the heat is
// that of what can react, the gel point moves by Flory and Stockmayer, and what
// is in excess softens the resin, taken as a softening temperature lower by 3 K
// for each per cent (common practice, no source).
func offRatio(c *cure.Calibrated, off float64) {
	if off == 0 {
		return
	}
	const softer = 3
	off = min(max(off, -0.5), 0.5)
	scarce := 1 + off // of hardener to what is right
	if scarce > 1 {
		scarce = 1 / scarce
	}
	kin := &c.Kinetics
	later := min(cure.GelPoint(4, 2, scarce)/cure.GelPoint(4, 2, 1), 0.99/kin.Gel)
	kin.Gel *= later
	c.From = min(c.From*later, 0.99)
	kin.Heat = kin.Heat.Times(scarce)
	kin.Glass.Full = max(kin.Glass.Full-unit.Temperature(softer*100*(1-scarce)), kin.Glass.Liquid+20)
}
