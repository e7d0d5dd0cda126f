package model

import (
	"context"
	"errors"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// pass is one way that the project may go: the products as they may be, and
// what is asked about.
type pass struct {
	cals   []cure.Calibrated // by layer; nil means the best estimate
	warmer unit.TempRise     // the room
	layer  int               // that depth is about
	depth  unit.Length       // instead of that layer's own; 0: its own
	until  unit.Span         // each pour is followed for so long; 0: MostSimulated
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

// each gives one product of every layer.
func (h *heat) each(of func(*heatLayer) cure.Calibrated) []cure.Calibrated {
	list := make([]cure.Calibrated, len(h.layers))
	for k := range h.layers {
		list[k] = of(&h.layers[k])
	}
	return list
}

// The products that each may choose from.
func asItIs(l *heatLayer) cure.Calibrated    { return l.cal }
func carefully(l *heatLayer) cure.Calibrated { return l.careful }
func patiently(l *heatLayer) cure.Calibrated { return l.patient }

// cal is a layer's product in a pass.
func (h *heat) cal(v *pass, k int) *cure.Calibrated {
	if v.cals != nil {
		return &v.cals[k]
	}
	return &h.layers[k].cal
}

// run simulates the pours one after the other. A layer that has not been
// poured is poured when the window of the one below opens, the next one when it
// is planned for. It ends at a pour that
// runs away, and before one that cannot be simulated: what lies on that is not
// known either.
func (h *heat) run(ctx context.Context, v pass) ([]stage, error) {
	var stages []stage
	room := h.room.Warmer(v.warmer)
	for k := range h.layers {
		l := &h.layers[k]
		if l.why != "" || v.last >= 0 && k > v.last {
			break
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
			o.Until = MostSimulated
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

// begins tells when a layer is poured on the stage below it: past the end of
// that stage's course it has stayed as it was then.
func (h *heat) begins(v pass, l *heatLayer, below *stage) unit.Span {
	if l.poured && l.at > below.at {
		return l.at
	}
	if h.next != none && l == &h.layers[h.next] && h.due > below.at {
		return h.due
	}
	open, ok := h.layers[below.layer].opensBySheet(below, h.cal(&v, below.layer))
	if !ok {
		open = below.course.Ends
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
	size, least, most := unit.Millimetre/2, 16, 60
	if v.coarse {
		size, least, most = 1.5*unit.Millimetre, 10, 28
	}
	kinetics := cal.Kinetics
	return cure.Stratum{Matter: cal.Matter, Thickness: depth, Cells: cellsOf(depth, size, least, most), Cure: &kinetics, From: h.resin(s.slab.Room.At(0))}
}

// top is the cell at the surface of the stage's layer.
func (s *stage) top() int {
	_, to := s.course.Cells(s.stratum)
	return to - 1
}

// openFrom is the conversion from which a surface takes the next pour: the
// sheet's, and nothing is poured on what has not set.
func openFrom(cal *cure.Calibrated) float64 { return max(cal.From, cal.Kinetics.Gel) }

// opens tells when the surface is firm enough to take the next pour, after the
// stage's own.
func (s *stage) opens(cal *cure.Calibrated) (unit.Span, bool) {
	return s.course.Reached(s.top(), openFrom(cal))
}
