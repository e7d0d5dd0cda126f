package model

import (
	"context"
	"fmt"
	"math"
	"strings"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Propose finds the levels of the layers that would be best, each layer within
// what its data sheet allows and its heat by the simulation.
func Propose(ctx context.Context, p *Project, pl *Plan) (StageProposal, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return StageProposal{}, err
	}
	h.toHotEnd(ctx)
	if ctx.Err() != nil {
		return StageProposal{}, ctx.Err()
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

// toHotEnd has heat go by the products of which a tenth is hotter, as the two
// answers do.
func (h *heat) toHotEnd(ctx context.Context) {
	w := h.draw(cure.Learned.Cautious)
	for i := range widenRuns {
		w.try(ctx, i)
	}
	hot := make([][]cure.Calibrated, len(h.layers))
	for k := range h.layers {
		hot[k] = w.hotter(k)
	}
	for k := range h.layers {
		if hot[k] != nil {
			h.layers[k].careful = hot[k][k]
		}
	}
}

// bottomStep is how finely the resin below a pour is told apart.
const bottomStep = 6 * unit.Millimetre

// Starts looks for times to start the next pour at from now on: two weeks are
// searched, or the window of the pour that was started last. The times of the
// layers are simulated for each time of day, since the room may swing. There is
// none where a layer cannot be simulated: then the answer says why.
func Starts(ctx context.Context, p *Project, pl *Plan, now time.Time) (CalendarAnswer, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return CalendarAnswer{}, err
	}
	next := none
	for k := range h.layers {
		switch l := &h.layers[k]; {
		case l.why != "":
			return CalendarAnswer{None: l.plan.Name + ": " + l.why}, nil
		case !l.poured && next == none:
			next = k
		}
	}
	switch {
	case len(h.layers) == 0:
		return CalendarAnswer{None: "no pour is planned yet"}, nil
	case next == none:
		return CalendarAnswer{None: "every pour has been started: its times follow from that"}, nil
	}
	within := longestStart
	if next > 0 {
		from, to, err := h.nextWindow(ctx, next)
		switch {
		case err != nil:
			return CalendarAnswer{}, err
		case to.Before(now):
			return CalendarAnswer{None: "the window on " + h.layers[next-1].plan.Name + " has closed: let it harden and sand it first"}, nil
		case from.After(now):
			now = from
		}
		within = min(within, to.Sub(now))
	}
	return FindStarts(ctx, now, within, p.Shop.Day(p.Shop.Place()), func(start time.Time) ([]PourWindows, error) {
		at := p.Clone()
		if next == 0 {
			at.Shop.Planned = start.UTC()
		} else {
			at.Journal = append(at.Journal, Entry{ID: "start", At: start.UTC(), Kind: EntryPourStarted, Layer: pl.Layers[next].ID, Room: p.Shop.Room})
		}
		list, err := pourWindows(ctx, &at, pl)
		if err != nil {
			return nil, err
		}
		return list[next:], nil
	})
}

// StartsAbout tells apart what Starts goes by, other than the hour: where it is
// the same, so is the answer. When the next pour is planned has no say in it, so
// that to take one start leaves the others on offer.
func StartsAbout(p *Project, pl *Plan) string {
	shop := p.Shop
	shop.Planned = time.Time{}
	var b strings.Builder
	fmt.Fprint(&b, p.ID, p.Style, shop, p.Mold.Floor, p.Mold.Thick, p.Sheets, p.Lots, len(p.Journal))
	for k := range pl.Layers {
		l := &pl.Layers[k]
		fmt.Fprint(&b, l.ID, l.Name, l.Sheet, l.Bottom, l.Top, l.Mix.Total)
	}
	for k := range p.Layers {
		fmt.Fprint(&b, p.Layers[k].ID, p.Layers[k].Lot)
	}
	return b.String()
}

// longestStart is how far ahead a start is looked for.
const longestStart = 14 * 24 * time.Hour

// nextWindow gives the window of the pour of layer k on the one below it, which
// has been poured.
func (h *heat) nextWindow(ctx context.Context, k int) (from, to time.Time, err error) {
	v := bestPass()
	v.last = k - 1
	stages, err := h.run(ctx, v)
	if err != nil {
		return from, to, h.ended(ctx, err)
	}
	if n := len(stages) - 1; n == k-1 {
		o := h.outcome(v, stages, n)
		if o.opens.comes {
			below := h.start.Add(stages[n].at.Duration())
			from, to = below.Add(o.opens.after.Duration()), below.Add(longestStart)
			if o.closes.comes {
				to = below.Add(o.closes.after.Duration())
			}
		}
	}
	return from, to, nil
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
		absent := absentSpan("not simulated")
		w.PourTakes, w.TackFrom, w.RecoatFrom, w.RecoatBest, w.RecoatTo, w.Demold = absent, absent, absent, absent, absent, absent
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
	never := "it does not come within " + inDays(MostSimulated)
	w.Room = s.slab.Room.At(0)
	w.RecoatFrom, w.RecoatBest, w.RecoatTo = o.opens.known(never), o.best.known(never), o.closes.known(never)
	w.Demold = o.demold.known(never)
	w.PourTakes = exact(usualMix+usualPour.Times(float64(l.plan.Mix.Total)), "usual hands, "+commonPractice)
	w.PourTakes.Typical = true
	style, at := h.p.Style, w.Room
	switch {
	case l.sheet.tooCold(at):
		w.Refused = "the room is then " + roomRefused(style, at, "coldest", l.sheet.Coldest.Value)
	case l.sheet.tooWarm(at):
		w.Refused = "the room is then " + roomRefused(style, at, "warmest", l.sheet.Warmest.Value)
	case l.sheet.tooDeep(l.plan.Depth):
		w.Refused = "it is deeper than the data sheet's " + style.Length(l.sheet.MaxLayer.Value)
	case o.runs:
		w.Refused = "it would run away"
	case o.peak > l.limit.Value:
		w.Refused = "its peak heat would pass " + h.p.Style.Temperature(l.limit.Value)
	case !o.demold.comes: // it is not that this is not known
		w.Refused = "it would not get hard enough to come out of the mold within " + inDays(MostSimulated)
	}
}
