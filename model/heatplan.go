package model

import (
	"context"
	"math"
	"time"

	"meniscus/model/unit"
)

// Propose finds the levels of the layers that would be best, each layer within
// what its data sheet allows and its heat by the simulation.
func Propose(ctx context.Context, p *Project, pl *Plan) (StageProposal, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return StageProposal{}, err
	}
	var failed error
	type asked struct {
		sheet    string
		most, on unit.Length
	}
	known := map[asked]unit.Length{}
	lim := StageLimits{Deepest: func(bottom, most unit.Length, sheet string) unit.Length {
		if failed != nil {
			return most
		}
		// What is safe changes little with the depth of cured resin below: it is
		// asked in steps.
		on := max(bottom, 0)
		if on > 0 {
			on = bottomStep.Times(math.Ceil(min(on, mostSimulatedDepth).Per(bottomStep)))
		}
		key := asked{sheet, most, on}
		d, ok := known[key]
		if !ok {
			d, failed = h.deepestOn(ctx, on, min(most, mostSimulatedDepth), sheet)
			known[key] = d
		}
		return d
	}}
	s, err := ProposeStages(ctx, p, pl, lim)
	if failed != nil {
		return StageProposal{}, failed
	}
	return s, err
}

// bottomStep is how finely the resin below a pour is told apart.
const bottomStep = 6 * unit.Millimetre

// Starts looks for times to start the first pour at from now on: two weeks are
// searched. The times of the layers are simulated for each time of day, since
// the room may swing. There is none where a pour has been started, or where one
// cannot be simulated: then the answer says why.
func Starts(ctx context.Context, p *Project, pl *Plan, now time.Time) (CalendarAnswer, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return CalendarAnswer{}, err
	}
	for k := range h.layers {
		switch l := &h.layers[k]; {
		case l.poured:
			return CalendarAnswer{None: l.plan.Name + " has been poured: its times follow from that"}, nil
		case l.why != "":
			return CalendarAnswer{None: l.plan.Name + ": " + l.why}, nil
		}
	}
	if len(h.layers) == 0 {
		return CalendarAnswer{None: "no pour is planned yet"}, nil
	}
	return FindStarts(ctx, now, 14*24*time.Hour, p.Shop.Day(p.Shop.Place()), func(start time.Time) ([]PourWindows, error) {
		at := p.Clone()
		at.Shop.Planned = start.UTC()
		return pourWindows(ctx, &at, pl)
	})
}

// pourWindows gives the windows of the layers, for the start that is planned.
func pourWindows(ctx context.Context, p *Project, pl *Plan) ([]PourWindows, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return nil, err
	}
	v := bestPass()
	v.coarse = true
	stages, err := h.run(ctx, v)
	if err != nil {
		return nil, h.ended(ctx, err)
	}
	var list []PourWindows
	for k := range h.layers {
		l := &h.layers[k]
		w := PourWindows{Layer: l.plan.ID, Name: l.plan.Name}
		none := absentSpan("not simulated")
		w.PourTakes, w.TackFrom, w.RecoatFrom, w.RecoatBest, w.RecoatTo, w.Demold = none, none, none, none, none, none
		for i := range stages {
			if stages[i].layer == k {
				h.window(&w, h.outcome(v, stages, i), &stages[i], l)
			}
		}
		list = append(list, w)
	}
	return list, nil
}

// window fills in what the simulation tells of one pour.
func (h *heat) window(w *PourWindows, o outcome, s *stage, l *heatLayer) {
	never := "it does not come within three weeks"
	w.Room = s.slab.Room.At(0)
	w.RecoatFrom, w.RecoatBest, w.RecoatTo = o.opens.known(never), o.best.known(never), o.closes.known(never)
	w.Demold = o.demold.known(never)
	w.PourTakes = exact(usualMix + usualPour.Times(float64(l.plan.Mix.Total)))
	w.PourTakes.Typical = true
	switch {
	case o.runs:
		w.Refused = "it would run away"
	case o.peak > l.limit.Value:
		w.Refused = "its peak heat would pass " + h.p.Style.Temperature(l.limit.Value)
	case !o.demold.comes: // it is not that this is not known
		w.Refused = "it would not get hard enough to come out of the mold within three weeks"
	}
}
