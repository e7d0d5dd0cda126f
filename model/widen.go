package model

import (
	"context"
	"math"
	"slices"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// widenRuns is how many times the unknown figures are drawn, and widenSeed what
// they are drawn from: the same project has the same bands.
const (
	widenRuns = 64
	widenSeed = 0x6d656e6973637573
)

// Widen gives a Curing its bands: the figures that the data sheets lack are
// drawn from their own, and each result's band holds four fifths of what comes
// of them. From then on the two answers are those of the hotter tenth, so that
// they are safe and not only likely. do runs f(0) to f(n-1), in any order or at
// once. The plan must be that of the project.
func Widen(ctx context.Context, p *Project, pl *Plan, do func(n int, f func(i int))) (Curing, error) {
	h, err := heatOf(ctx, p, pl)
	if err != nil {
		return Curing{}, err
	}
	c, stages, err := h.simulate(ctx)
	if err != nil || len(stages) == 0 {
		c.Banded = err == nil
		return c, err
	}
	// Heat goes by lots that are never slower or cooler than the sheet.
	w := h.draw(func(l cure.Learned) cure.Learned { return l })
	hot := w
	if h.learned() {
		hot = h.draw(cure.Learned.Cautious)
		do(widenRuns, func(i int) { hot.try(ctx, i) })
	}
	do(widenRuns, func(i int) { w.try(ctx, i) })
	if ctx.Err() != nil {
		return Curing{}, ctx.Err()
	}
	for i := range stages {
		k := stages[i].layer
		l := &c.Layers[k]
		w.bandTimes(l, k)
		hot.bandHeat(l, k)
		if cals := hot.hotter(k); cals != nil && l.Assumed {
			likely := *l
			if err := h.answer(ctx, l, k, cals); err != nil {
				return Curing{}, err
			}
			l.Room.cautious(likely.Room)
			l.Deepest.cautious(likely.Deepest)
		}
		if l.Beside, err = h.beside(ctx, &stages[i]); err != nil {
			return Curing{}, err
		}
		l.Beside.widen(l.Peak, stages[i].slab.Strata[stages[i].stratum].From)
		h.judge(l)
	}
	c.Banded = true
	h.close(&c, stages)
	return c, nil
}

// cautious says that an answer is one at the hot end of what is not known, and
// what the likely one is, where the two differ. What is hotter as the pour is
// planned need not be in every room and at every depth: the tighter one stands.
func (a *Answer[Q]) cautious(likely Answer[Q]) {
	switch {
	case a.Value > likely.Value:
		*a = likely
	case a.Text != likely.Text:
		a.Reason += ", if the resin is as hot as it may be; the best estimate is " + likely.Text
	}
}

// widening is the runs that bands are made of.
type widening struct {
	h       *heat
	samples map[string][]cure.Sample // by lot
	tries   [widenRuns]widenTry
}

// widenTry is one run with its products as they were drawn.
type widenTry struct {
	cals   []cure.Calibrated
	layers map[int]outcome
}

// draw draws the products, with what of their lots' teaching counts.
func (h *heat) draw(counts func(cure.Learned) cure.Learned) *widening {
	w := &widening{h: h, samples: map[string][]cure.Sample{}}
	for k := range h.layers {
		l := &h.layers[k]
		if _, drawn := w.samples[l.lot]; !drawn && l.why == "" {
			p := l.product
			p.Learned = counts(p.Learned)
			w.samples[l.lot] = p.Samples(widenSeed+uint64(len(w.samples)), widenRuns)
		}
	}
	return w
}

// try does one run. One whose figures do not go together tells nothing.
func (w *widening) try(ctx context.Context, i int) {
	if ctx.Err() != nil {
		return
	}
	cals := make([]cure.Calibrated, len(w.h.layers))
	made := map[string]cure.Calibrated{}
	for k := range w.h.layers {
		l := &w.h.layers[k]
		if l.why != "" {
			continue
		}
		cal, ok := made[l.lot]
		if !ok {
			var err error
			if cal, err = w.samples[l.lot][i].Calibrate(ctx, l.cal); err != nil {
				return
			}
			made[l.lot] = cal
		}
		cals[k] = cal
	}
	v := bestPass()
	v.cals, v.coarse = cals, true
	stages, err := w.h.run(ctx, v)
	if err != nil {
		return
	}
	layers := map[int]outcome{}
	for j := range stages {
		o := w.h.outcome(v, stages, j)
		if w.h.byPart(ctx, &stages[j], w.h.cal(&v, stages[j].layer), &o) != nil {
			return
		}
		layers[stages[j].layer] = o
	}
	w.tries[i] = widenTry{cals, layers}
}

// of gives one figure of a layer in each try; not a number where it was not
// told, infinite where it never came.
func (w *widening) of(k int, figure func(*outcome) float64) []float64 {
	list := make([]float64, widenRuns)
	for i := range w.tries {
		list[i] = math.NaN()
		if o, ok := w.tries[i].layers[k]; ok {
			list[i] = figure(&o)
		}
	}
	return list
}

// bandHeat gives a layer's heat its bands, and the figures that would narrow
// them.
func (w *widening) bandHeat(l *LayerCuring, k int) {
	peaks := w.of(k, func(o *outcome) float64 { return float64(o.peak) })
	l.Peak = widened(l.Peak, peaks)
	l.Gradient = widened(l.Gradient, w.of(k, func(o *outcome) float64 { return float64(o.gradient) }))
	w.bandSpan(&l.PeakAfter, k, func(o *outcome) mayCome { return mayCome{o.peakAfter, true} })
	w.bandSpan(&l.RunsAfter, k, func(o *outcome) mayCome { return mayCome{o.runsAfter, o.runs} })
	for _, cause := range cure.Causes(w.samples[w.h.layers[k].lot], peaks) {
		if cause.Part < 0.05 || len(l.Narrow) == 3 {
			break
		}
		l.Narrow = append(l.Narrow, Narrowing{
			Field: "sheets/" + w.h.layers[k].sheet.ID + "/" + inputFields[cause.Input],
			Label: cause.Input.Label(), Part: cause.Part, Learn: cause.Input.Learn(),
		})
	}
}

// bandTimes gives a layer's other times their bands.
func (w *widening) bandTimes(l *LayerCuring, k int) {
	w.bandSpan(&l.GelFirst, k, func(o *outcome) mayCome { return o.gelFirst })
	w.bandSpan(&l.GelLast, k, func(o *outcome) mayCome { return o.gelLast })
	w.bandSpan(&l.RecoatFrom, k, func(o *outcome) mayCome { return o.opens })
	w.bandSpan(&l.RecoatBest, k, func(o *outcome) mayCome { return o.best })
	w.bandSpan(&l.RecoatTo, k, func(o *outcome) mayCome { return o.closes })
	w.bandSpan(&l.Demold, k, func(o *outcome) mayCome { return o.demold })
	w.bandSpan(&l.Sand, k, func(o *outcome) mayCome { return o.sand })
}

// bandSpan gives one of a layer's times its band.
func (w *widening) bandSpan(to *Known[unit.Span], k int, of func(*outcome) mayCome) {
	*to = widened(*to, w.of(k, func(o *outcome) float64 {
		if m := of(o); m.comes {
			return float64(m.after)
		}
		return math.Inf(1)
	}))
}

// inputFields names the figure of a data sheet that tells an input.
var inputFields = map[cure.Input]string{
	cure.InHeat: "peak", cure.InHeatStored: "peak", cure.InConducts: "peak", cure.InActivation: "gelOther", cure.InSoftening: "softening",
	cure.InWorkingEnds: "gel", cure.InGels: "recoatFrom", cure.InGlassy: "recoatTo", cure.InLot: "gel", cure.InSheetTemp: "workingTime", cure.InWorking: "workingTime", cure.InTested: "gel",
}

// widened gives a figure the band of its results.
func widened[Q unit.Quantity](k Known[Q], results []float64) Known[Q] {
	if k.Absent {
		return k
	}
	low, high := cure.Range(results)
	if math.IsNaN(low) {
		return k
	}
	most := math.Max(float64(MostSimulated), float64(k.Value))
	k.Low = Q(math.Min(low, float64(k.Value)))
	k.High = Q(math.Max(math.Min(high, most), float64(k.Value)))
	return k
}

// hotter gives the products of the try that a tenth of the others are hotter
// than; nil where none told.
func (w *widening) hotter(k int) []cure.Calibrated {
	var order []int
	for i := range w.tries {
		if _, ok := w.tries[i].layers[k]; ok {
			order = append(order, i)
		}
	}
	if len(order) == 0 {
		return nil
	}
	// Of runaways the sooner is the hotter.
	heat := func(i int) float64 {
		o := w.tries[i].layers[k]
		if o.runs {
			return 1e9 - float64(o.runsAfter)
		}
		return float64(o.peak)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch x, y := heat(a), heat(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return w.tries[order[min(len(order)*9/10, len(order)-1)]].cals
}
