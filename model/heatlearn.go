package model

import (
	"context"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// learn lets the tack tests, the probes and the taking out that the journal
// tells of teach the lots what they can, with what earlier runs had told, and
// calibrates them anew.
func (h *heat) learn(ctx context.Context) error {
	runs, told := map[string][]cure.Logged{}, h.p.lotsTold()
	if !h.taught() {
		if len(told) == 0 {
			return nil
		}
		for k := range h.layers {
			h.layers[k].product.Learned = told[h.layers[k].lot]
		}
		return h.calibrate(ctx)
	}
	v := bestPass()
	v.coarse = true
	stages, err := h.run(ctx, v)
	if err != nil {
		return h.ended(ctx, err)
	}
	for i := range stages {
		l := &h.layers[stages[i].layer]
		if logged := h.logged(ctx, stages, i); len(logged.Felt)+len(logged.Probed) > 0 {
			runs[l.lot] = append(runs[l.lot], logged)
		}
	}
	for k := range h.layers {
		l := &h.layers[k]
		l.product.Learned = told[l.lot]
		if len(runs[l.lot]) == 0 || l.why != "" {
			continue
		}
		taught, err := cure.Learn(ctx, l.cal, runs[l.lot])
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err == nil {
			l.product.Learned = taught.After(told[l.lot])
		}
	}
	return h.calibrate(ctx)
}

// taught tells whether the journal holds anything to learn from.
func (h *heat) taught() bool { return h.p.Learns() }

// Learns tells whether the journal holds anything that teaches of a lot.
func (p *Project) Learns() bool {
	for _, e := range p.standing() {
		if e.Kind == EntryTack || e.Kind == EntryProbe || e.Kind == EntryDemolded && e.Feel != "" {
			return true
		}
	}
	return false
}

// touches says which touch a feel is.
var touches = map[Feel]cure.Touch{FeelStrings: cure.Strings, FeelTape: cure.Tape, FeelHard: cure.Hard, FeelStiff: cure.Firm, FeelBent: cure.Bends}

// logged gives what the journal tells of one layer's run.
func (h *heat) logged(ctx context.Context, stages []stage, i int) cure.Logged {
	var run cure.Logged
	s := &stages[i]
	l := &h.layers[s.layer]
	if !l.poured {
		return run
	}
	last := i == len(stages)-1
	part := h.part(s)
	entries := h.p.standing()
	inMold := whileInMold(entries)
	for _, e := range entries {
		since := unit.SpanOf(e.At.Sub(h.start)) - s.at
		touch, felt := touches[e.Feel]
		switch {
		case since <= 0 || since > s.course.Ends:
		case e.Kind == EntryTack && e.Layer == l.plan.ID && felt:
			run.Felt = append(run.Felt, cure.Felt{Touch: touch, At: since, Part: part})
		case e.Kind == EntryDemolded && last && felt:
			run.Felt = append(run.Felt, cure.Felt{Touch: touch, At: since, Part: part})
		case e.Kind == EntryProbe && e.Layer == l.plan.ID && e.Part.Given() && inMold(e.At):
			run.Probed = append(run.Probed, cure.Probed{Seen: e.Part.Value, Start: s.slab.Strata[s.stratum].From, Peak: func(heat float64) unit.Temperature {
				slab := s.slab
				slab.Strata = append([]cure.Stratum(nil), slab.Strata...)
				hotter := *slab.Strata[s.stratum].Cure
				hotter.Heat = hotter.Heat.Times(heat)
				slab.Strata[s.stratum].Cure = &hotter
				c, err := slab.Run(ctx, cure.Options{Until: peakWithin, Tolerance: 0.1, Limit: runawayLimit})
				if err != nil {
					return 0
				}
				return c.Hottest(s.stratum).T
			}})
		}
	}
	return run
}

// part gives the temperature of a stage's surface since its pour: as it was
// simulated, put right by what was read. Between two readings what they were
// off by is shared out, and after the last it fades as a room's does.
func (h *heat) part(s *stage) cure.Room {
	top := s.top()
	end := min(s.course.Ends, partFollowed)
	own := func(at unit.Span) unit.Temperature { return unit.Temperature(s.course.At(at).T[top]) }
	off := cure.Room{Mean: zeroOff}
	if read := h.readings(s); len(read) > 0 {
		for i := range read {
			read[i].T += zeroOff - own(read[i].At)
		}
		off = off.Logged(append([]cure.Reading{{At: 0, T: zeroOff}}, read...))
	}
	log := make([]cure.Reading, 0, partPoints+1)
	for i := range partPoints + 1 {
		at := end.Times(float64(i) / partPoints)
		log = append(log, cure.Reading{At: at, T: own(at) + off.At(at) - zeroOff})
	}
	room := cure.Steady(own(end))
	return room.Logged(log)
}

// How long a part is followed, in how many points, and what stands for no
// difference where differences are kept as temperatures.
const (
	partFollowed = 6 * unit.Day
	partPoints   = 144
	zeroOff      = unit.Temperature(1000)
)

// readings gives the temperatures of a stage's resin that were read, since its
// pour.
func (h *heat) readings(s *stage) []cure.Reading {
	var list []cure.Reading
	entries := h.p.standing()
	inMold := whileInMold(entries)
	for _, e := range entries {
		since := unit.SpanOf(e.At.Sub(h.start)) - s.at
		if e.Kind == EntryReading && e.Part.Given() && e.Layer == h.layers[s.layer].plan.ID && since > 0 && since < partFollowed && inMold(e.At) {
			list = append(list, cure.Reading{At: since, T: e.Part.Value})
		}
	}
	return list
}

// byPart puts the moments of a stage's surface right by the readings of its
// own temperature; without any it does nothing.
func (h *heat) byPart(ctx context.Context, s *stage, cal *cure.Calibrated, o *outcome) error {
	if len(h.readings(s)) == 0 {
		return nil
	}
	part := h.part(s)
	times := make([]unit.Span, partPoints*2+1)
	for i := range times {
		times[i] = partFollowed.Times(float64(i) / float64(len(times)-1))
	}
	cured, err := cal.Kinetics.Along(ctx, part, s.course.Frames[0].A[s.top()], times)
	if err != nil {
		return h.ended(ctx, err)
	}
	when := func(least func(part unit.Temperature) float64) mayCome {
		for i := range times {
			if a := least(part.At(times[i])); cured[i] >= a {
				if i == 0 || cured[i] == cured[i-1] {
					return mayCome{times[i], true}
				}
				back := (cured[i] - a) / (cured[i] - cured[i-1])
				return mayCome{times[i] - (times[i] - times[i-1]).Times(min(max(back, 0), 1)), true}
			}
		}
		return mayCome{}
	}
	from := openFrom(cal)
	between := func(share float64) mayCome {
		return when(func(t unit.Temperature) float64 { return from + share*(cal.RecoatTo(t)-from) })
	}
	for _, x := range []struct {
		to    *mayCome
		share float64
	}{{&o.opens, 0}, {&o.best, bestShare}, {&o.closes, 1}} {
		// What comes later than a part is followed comes as it was simulated.
		if m := between(x.share); m.comes || x.to.after <= partFollowed {
			*x.to = m
		}
	}
	h.layers[s.layer].keepToSheet(o, s)
	return nil
}
