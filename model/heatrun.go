package model

import (
	"context"
	"errors"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// pass is one way that the project may go: the products as they may be, and
// what is asked about.
type pass struct {
	cals   []cure.Calibrated // by layer; nil means the best estimate
	warmer unit.TempRise     // the room
	layer  int               // that Depth and Delay are about
	depth  unit.Length       // instead of that layer's own; 0: its own
	delay  unit.Span         // that the pour after that layer waits beyond the opening of its window
	until  unit.Span         // each pour is followed for so long; 0: mostSimulated
	last   int               // the last layer to simulate; negative: all
	coarse bool              // fewer cells and longer steps, for what is done many times
}

// bestPass is the pass of the best estimate.
func bestPass() pass { return pass{layer: none, last: none} }

// stage is the stack from one pour on, as if nothing were poured on it.
type stage struct {
	layer   int
	at      unit.Span // of the pour, since the first
	slab    cure.Slab
	course  *cure.Course
	stratum int // of the layer
	first   int // stratum of the lowest resin
}

// cal is a layer's product in a pass.
func (h *heat) cal(v *pass, k int) *cure.Calibrated {
	if v.cals != nil {
		return &v.cals[k]
	}
	return &h.layers[k].cal
}

// run simulates the pours one after the other. A layer that has not been
// poured is poured when the window of the one below opens; one that cannot be
// simulated is left out. It ends at a pour that runs away, and before one that
// cannot be reckoned with.
func (h *heat) run(ctx context.Context, v pass) ([]stage, error) {
	var stages []stage
	room := h.room.Warmer(v.warmer)
	for k := range h.layers {
		l := &h.layers[k]
		if l.why != "" || v.last >= 0 && k > v.last {
			continue
		}
		s := stage{layer: k}
		if n := len(stages); n > 0 {
			below := &stages[n-1]
			s.at = h.begins(v, l, below)
			s.slab = below.slab.After(below.course, s.at-below.at)
			s.first = below.first
		} else {
			s.at = max(l.at, 0)
			s.slab = cure.Slab{Below: h.below, Above: cure.StillAir, Room: room.Shifted(s.at)}
			s.slab.Strata = append(s.slab.Strata, h.ground...)
			for i := range s.slab.Strata {
				s.slab.Strata[i].From += unit.Temperature(v.warmer)
			}
			s.first = len(h.ground)
		}
		s.stratum = len(s.slab.Strata)
		s.slab.Strata = append(s.slab.Strata, h.pour(v, k, &s))
		o := cure.Options{Until: v.until, Limit: runawayLimit}
		if o.Until == 0 {
			o.Until = mostSimulated
		}
		if v.coarse {
			o.Tolerance = 0.1
		}
		var err error
		if s.course, err = s.slab.Run(ctx, o); errors.Is(err, cure.ErrUnusable) {
			break
		} else if err != nil {
			return nil, err
		}
		stages = append(stages, s)
		if s.course.RunsAway {
			break // what would be poured on it does not matter any more
		}
	}
	return stages, nil
}

// runawayLimit is where a pour counts as running away: by then it smokes, foams
// or cracks, and its peak hangs on what nobody knows of it (common practice, no
// source).
const runawayLimit = unit.Temperature(273.15 + 120)

// begins tells when a layer is poured on the stage below it.
func (h *heat) begins(v pass, l *heatLayer, below *stage) unit.Span {
	if l.poured && l.at > below.at {
		return min(l.at, below.at+below.course.Ends)
	}
	open, ok := below.opens(h.cal(&v, below.layer))
	if !ok {
		open = below.course.Ends
	}
	if v.layer == below.layer {
		open += v.delay
	}
	return below.at + min(max(open, 0), below.course.Ends)
}

// pour is a fresh layer.
func (h *heat) pour(v pass, k int, s *stage) cure.Stratum {
	l, cal := &h.layers[k], h.cal(&v, k)
	depth := l.plan.Depth
	if v.depth > 0 && v.layer == k {
		depth = v.depth
	}
	from := s.slab.Room.At(0)
	if t := h.p.Shop.Resin; t.Given() {
		from = t.Value
	}
	size, least, most := unit.Millimetre/2, 16, 60
	if v.coarse {
		size, least, most = 1.5*unit.Millimetre, 10, 28
	}
	kinetics := cal.Kinetics
	return cure.Stratum{Matter: cal.Matter, Thickness: depth, Cells: cellsOf(depth, size, least, most), Cure: &kinetics, From: from}
}

// top is the cell at the surface of the stage's layer.
func (s *stage) top() int {
	_, to := s.course.Cells(s.stratum)
	return to - 1
}

// opens tells when the surface is firm enough to take the next pour, after the
// stage's own.
func (s *stage) opens(cal *cure.Calibrated) (unit.Span, bool) {
	return s.course.Reached(s.top(), cal.From)
}

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
	cal := h.cal(&v, s.layer)
	o := outcome{}
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
	from, to := s.course.Cells(s.stratum)
	o.gelFirst, o.gelLast = mayCome{unit.Span(math.Inf(1)), true}, mayCome{0, true}
	any := false
	for c := from; c < to; c++ {
		at, ok := s.course.Reached(c, cal.Kinetics.Gel)
		any = any || ok
		if ok {
			o.gelFirst.after = min(o.gelFirst.after, at)
			o.gelLast.after = max(o.gelLast.after, at)
		} else {
			o.gelLast.comes = false
		}
	}
	o.gelFirst.comes = any
	top := s.top()
	when := func(holds func(cure.Frame) bool) mayCome {
		at, ok := s.course.When(0, holds)
		return mayCome{at, ok}
	}
	o.opens.after, o.opens.comes = s.opens(cal)
	between := func(share float64) mayCome {
		return when(func(f cure.Frame) bool {
			return f.A[top] >= cal.From+share*(cal.RecoatTo(unit.Temperature(f.T[top]))-cal.From)
		})
	}
	o.best, o.closes = between(bestShare), between(1)
	lowest := s.stratum
	if i == len(stages)-1 {
		lowest = s.first
	}
	cals := make([]*cure.Calibrated, len(s.slab.Strata))
	for j := range stages[:i+1] {
		cals[stages[j].stratum] = h.cal(&v, stages[j].layer)
	}
	hard := func(f cure.Frame, least func(*cure.Calibrated, unit.Temperature) float64) bool {
		shop := s.slab.Room.At(f.At)
		for c, owner := range s.course.Owner {
			if owner >= lowest && f.A[c] < least(cals[owner], shop) {
				return false
			}
		}
		return true
	}
	o.demold = when(func(f cure.Frame) bool { return hard(f, (*cure.Calibrated).Demold) })
	o.sand = when(func(f cure.Frame) bool {
		return o.gelLast.comes && f.At >= o.gelLast.after+cure.SandsAfter && hard(f, (*cure.Calibrated).Sand)
	})
	o.gradient = gradient(s, o.gelFirst)
	last := s.course.Frames[len(s.course.Frames)-1]
	o.conversion = 1
	for c := from; c < to; c++ {
		o.conversion = min(o.conversion, last.A[c])
	}
	o.softening = cal.Kinetics.Glass.At(o.conversion)
	return o
}

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

// coarseRun is how a pour is reckoned where only its peak matters and many are.
var coarseRun = cure.Options{Until: peakWithin, Tolerance: 0.1, Limit: runawayLimit}

// fresh is a pour of a layer's product on so much cured resin, its depth still
// to be set.
func (h *heat) fresh(l *heatLayer, bottom unit.Length) cure.Slab {
	s := cure.Slab{Below: h.below, Above: cure.StillAir, Room: h.room}
	s.Strata = append(s.Strata, h.ground...)
	at := h.room.At(0)
	if bottom > 0 {
		s.Strata = append(s.Strata, cure.Stratum{Matter: l.careful.Matter, Thickness: bottom, Cells: cellsOf(bottom, 3*unit.Millimetre, 2, 12), From: at})
	}
	if t := h.p.Shop.Resin; t.Given() {
		at = t.Value
	}
	kinetics := l.careful.Kinetics
	s.Strata = append(s.Strata, cure.Stratum{Matter: l.careful.Matter, Cure: &kinetics, From: at})
	return s
}
