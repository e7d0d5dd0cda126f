package model

import (
	"context"
	"errors"
	"math"
	"slices"

	"meniscus/model/unit"
)

// LayWant is what a place of the cavity over a slab is looked for by.
type LayWant string

// What can be wanted of a place.
const (
	WantLive  LayWant = "most live edge"
	WantResin LayWant = "least resin"
	WantLeft  LayWant = "most of the slab left" // for no more resin than where it was looked from
)

// leastWood is the share of wood below which a place is none: a sliver of edge
// in a mold full of resin.
const leastWood = 0.2

// errNoPlace says that nothing was found.
var errNoPlace = errors.New("no place was found with at least a fifth of wood in the cavity: is the slab large enough for this mold?")

// FindLayup looks for the place of the cavity over a slab that gives most of
// what is wanted: over a grid of places and turns, then downhill from the best
// of them in ever smaller steps. It gives the lay-up there, to the millimetre
// and half a degree. The same plan gives the same answer.
func (pl *Plan) FindLayup(ctx context.Context, slab string, from Layup, want LayWant) (Layup, error) {
	s, table := pl.Slab(slab), pl.LayTable(slab)
	if s == nil || table == nil {
		return from, errNoPlace
	}
	h := layHunt{ctx: ctx, table: table, want: want}
	if here := table.At(from); here.Pieces > 0 {
		h.resin = here.Resin
	}
	lo, hi := s.Upper.Region.Bounds()
	const across, turns, tries = 9, 12, 5
	stepX, stepY := unit.Length(hi.X-lo.X)/across, unit.Length(hi.Y-lo.Y)/across
	best := []layFound{h.look(from)}
	for i := range across {
		for j := range across {
			for k := range turns {
				l := from
				l.X = unit.Length(lo.X) + stepX.Times(float64(i)+0.5)
				l.Y = unit.Length(lo.Y) + stepY.Times(float64(j)+0.5)
				best = append(best, h.look(l.Moved(0, 0, unit.Angle(k)*180*unit.Degree/turns)))
			}
		}
	}
	slices.SortStableFunc(best, func(a, b layFound) int { return a.compare(b) })
	top := h.look(from)
	for _, b := range best[:tries] {
		if b = h.down(b, max(stepX, stepY)/2, 90*unit.Degree/turns); b.compare(top) < 0 {
			top = b
		}
	}
	if err := ctx.Err(); err != nil {
		return from, err
	}
	if math.IsInf(top.cost, 1) {
		return from, errNoPlace
	}
	return top.at, nil
}

// layHunt is a search under way.
type layHunt struct {
	ctx   context.Context
	table *LayTable
	want  LayWant
	resin unit.Volume // of the place it began from; 0 without wood there
}

// layFound is a place with what it costs: less is better, and infinity is no
// place at all.
type layFound struct {
	at   Layup
	cost float64
}

func (f layFound) compare(g layFound) int {
	switch {
	case f.cost < g.cost:
		return -1
	case f.cost > g.cost:
		return 1
	}
	return 0
}

// look tells what a place costs.
func (h *layHunt) look(l Layup) layFound {
	f := layFound{l, math.Inf(1)}
	if h.ctx.Err() != nil {
		return f
	}
	lay := h.table.At(l)
	if lay.Pieces == 0 || lay.Share < leastWood {
		return f
	}
	switch h.want {
	case WantLive:
		f.cost = -float64(lay.Live)
	case WantLeft:
		if h.resin > 0 && lay.Resin > h.resin {
			return f
		}
		f.cost = -float64(lay.Left)
	default:
		f.cost = float64(lay.Resin)
	}
	return f
}

// down goes from a place to better ones near it, in ever smaller steps, down to
// a millimetre and half a degree.
func (h *layHunt) down(f layFound, step unit.Length, turn unit.Angle) layFound {
	const finest = unit.Millimetre
	f = h.look(rounded(f.at))
	for step >= finest/2 {
		better := f
		for _, m := range [6]struct {
			x, y unit.Length
			by   unit.Angle
		}{{step, 0, 0}, {-step, 0, 0}, {0, step, 0}, {0, -step, 0}, {0, 0, turn}, {0, 0, -turn}} {
			if g := h.look(rounded(f.at.Moved(m.x, m.y, m.by))); g.compare(better) < 0 {
				better = g
			}
		}
		if better.compare(f) < 0 {
			f = better
			continue
		}
		step, turn = step/2, max(turn/2, unit.Degree/2)
	}
	return f
}

// rounded puts a lay-up to the millimetre and half a degree.
func rounded(l Layup) Layup {
	l.X, l.Y = toMillimetre(float64(l.X)), toMillimetre(float64(l.Y))
	l.Turn = unit.Angle(math.Round(l.Turn.Degrees()*2)/2) * unit.Degree
	return l
}
