package model

import (
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// bestShare is how far into its window a surface is best: the stickiness of
// tape comes early in it (common practice, no source).
const bestShare = 1. / 3

// outcome is what became of one layer. Spans count from its own pour.
type outcome struct {
	peak       unit.Temperature
	peakAfter  unit.Span
	height     unit.Length // of the peak above the mold's floor
	runs       bool
	runsAfter  unit.Span
	gelFirst   mayCome
	gelLast    mayCome
	opens      mayCome
	best       mayCome
	closes     mayCome
	demold     mayCome
	sand       mayCome
	gradient   unit.TempRise
	conversion float64          // at the end, where it has cured least
	softening  unit.Temperature // then and there
}

// mayCome is when something comes, if it does.
type mayCome struct {
	after unit.Span
	comes bool
}

// outcome reads a layer's off its own stage and those after it.
func (h *heat) outcome(v pass, stages []stage, i int) outcome {
	s := &stages[i]
	var o outcome
	o.readHeat(stages, i)
	cal := h.cal(&v, s.layer)
	o.readSetting(s, cal)
	o.gradient = gradient(s, o.gelFirst)
	o.readWindow(s, cal)
	h.readHardening(&o, v, stages, i)
	h.layers[s.layer].keepToSheet(&o, s)
	return o
}

// readHeat reads the peak, and whether it runs away, up to the end of the last
// stage.
func (o *outcome) readHeat(stages []stage, i int) {
	s := &stages[i]
	ground := unit.Length(0)
	for k := range s.first {
		ground += s.slab.Strata[k].Thickness
	}
	for j := i; j < len(stages); j++ {
		end := unit.Span(math.Inf(1))
		if j+1 < len(stages) {
			end = stages[j+1].at - stages[j].at
		}
		late := stages[j].at - s.at
		if p := hottest(&stages[j], s.stratum, end); p.T > o.peak {
			o.peak, o.peakAfter, o.height = p.T, p.At+late, p.Height-ground
		}
		if c := stages[j].course; c.RunsAway && !o.runs {
			o.runs, o.runsAfter = true, c.Ends+late
		}
	}
}

// readSetting reads when the first and the last place set, and how far the
// laggard comes in the end.
func (o *outcome) readSetting(s *stage, cal *cure.Calibrated) {
	from, to := s.course.Cells(s.stratum)
	o.gelFirst, o.gelLast = mayCome{after: unit.Span(math.Inf(1))}, mayCome{0, true}
	last := s.course.Frames[len(s.course.Frames)-1]
	o.conversion = 1
	for c := from; c < to; c++ {
		if at, ok := s.course.Reached(c, cal.Kinetics.Gel); ok {
			o.gelFirst = mayCome{min(o.gelFirst.after, at), true}
			o.gelLast.after = max(o.gelLast.after, at)
		} else {
			o.gelLast.comes = false
		}
		o.conversion = min(o.conversion, last.A[c])
	}
	o.softening = cal.Kinetics.Glass.At(o.conversion)
}

// when gives the first time at which something holds of a stage.
func (s *stage) when(holds func(cure.Frame) bool) mayCome {
	at, ok := s.course.When(0, holds)
	return mayCome{at, ok}
}

// readWindow reads the window of the next pour.
func (o *outcome) readWindow(s *stage, cal *cure.Calibrated) {
	top := s.top()
	o.opens.after, o.opens.comes = s.opens(cal)
	from := openFrom(cal)
	between := func(share float64) mayCome {
		return s.when(func(f cure.Frame) bool {
			return f.A[top] >= from+share*(cal.RecoatTo(unit.Temperature(f.T[top]))-from)
		})
	}
	o.best, o.closes = between(bestShare), between(1)
}

// readHardening reads when the layer, and of the last one all the resin below
// it, is hard enough.
func (h *heat) readHardening(o *outcome, v pass, stages []stage, i int) {
	s := &stages[i]
	lowest := s.stratum
	if i == len(stages)-1 {
		lowest = s.first
	}
	cals := make([]*cure.Calibrated, len(s.slab.Strata))
	for j := range stages[:i+1] {
		cals[stages[j].stratum] = h.cal(&v, stages[j].layer)
	}
	hard := func(f cure.Frame, room unit.Temperature, least func(*cure.Calibrated, unit.Temperature) float64) bool {
		shop := max(s.slab.Room.At(f.At), room)
		for c, owner := range s.course.Owner {
			if owner >= lowest && f.A[c] < least(cals[owner], shop) {
				return false
			}
		}
		return true
	}
	// A piece taken out in the cool of the night has to keep its shape by day.
	o.demold = s.when(func(f cure.Frame) bool { return hard(f, byDay(&s.slab.Room), (*cure.Calibrated).Demold) })
	o.sand = s.when(func(f cure.Frame) bool {
		return o.gelLast.comes && f.At >= o.gelLast.after+cure.SandsAfter && hard(f, s.slab.Room.Mean, (*cure.Calibrated).Sand)
	}).later(o.demold)
}

// tighten takes over what is hotter or later in another outcome.
func (o *outcome) tighten(b outcome) {
	if b.peak > o.peak {
		o.peak, o.peakAfter, o.height = b.peak, b.peakAfter, b.height
	}
	if b.runs && !o.runs {
		o.runs, o.runsAfter = true, b.runsAfter
	}
	o.gradient = max(o.gradient, b.gradient)
	o.demold, o.sand = o.demold.later(b.demold), o.sand.later(b.sand)
}

// later gives the later of two; what never comes is latest.
func (m mayCome) later(b mayCome) mayCome {
	if !m.comes || !b.comes {
		return mayCome{}
	}
	return mayCome{max(m.after, b.after), true}
}

// byDay is how warm a room gets by day, by its own ways.
func byDay(r *cure.Room) unit.Temperature { return r.Mean + unit.Temperature(r.Swing) }

// hottest gives the peak of a stratum within a time.
func hottest(s *stage, stratum int, end unit.Span) cure.Peak {
	p := s.course.Hottest(stratum)
	if p.At <= end {
		return p
	}
	from, to := s.course.Cells(stratum)
	p = cure.Peak{}
	for _, f := range s.course.Frames {
		if f.At > end {
			f = s.course.At(end)
		}
		for c := from; c < to; c++ {
			if t := unit.Temperature(f.T[c]); t > p.T {
				p = cure.Peak{T: t, At: f.At, Height: s.course.Heights[c], Cell: c}
			}
		}
		if f.At >= end {
			break
		}
	}
	return p
}

// gradient gives the greatest difference of temperature through a layer once
// its first place has gelled: liquid resin gives way, set resin is strained.
func gradient(s *stage, gel mayCome) unit.TempRise {
	if !gel.comes {
		return 0
	}
	from, to := s.course.Cells(s.stratum)
	worst := 0.0
	for _, f := range s.course.Frames {
		if f.At < gel.after {
			continue
		}
		low, high := math.Inf(1), math.Inf(-1)
		for c := from; c < to; c++ {
			low, high = min(low, f.T[c]), max(high, f.T[c])
		}
		worst = max(worst, high-low)
	}
	return unit.TempRise(worst)
}
