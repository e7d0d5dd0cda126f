package model

import (
	"context"
	"errors"
	"slices"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// coarseRun is how a pour is reckoned where only its peak matters and many are.
var coarseRun = cure.Options{Until: peakWithin, Tolerance: 0.1, Limit: runawayLimit}

// deepestOn gives the deepest pour of a product that stays within its heat
// limit on so much resin, and keeps what is below it there, and at most most.
func (h *heat) deepestOn(ctx context.Context, bottom, most unit.Length, sheet string) (unit.Length, error) {
	k := none
	for i := range h.layers {
		if h.layers[i].sheet != nil && h.layers[i].sheet.ID == sheet && h.layers[i].why == "" {
			k = i
		}
	}
	if k == none || !(most > 0) {
		return most, nil
	}
	l := &h.layers[k]
	slab, err := h.under(ctx, l, bottom, most)
	if err != nil {
		return 0, err
	}
	slab.Strata = append(slab.Strata, cure.Stratum{})
	hot := func(depth unit.Length) (bool, error) {
		slab.Strata[len(slab.Strata)-1] = h.fresh(l, depth)
		c, err := slab.Run(ctx, coarseRun)
		if errors.Is(err, cure.ErrUnusable) {
			return true, nil
		}
		if err != nil {
			return false, h.ended(ctx, err)
		}
		return c.RunsAway || c.Peak.T > l.limit.Value, nil
	}
	if over, err := hot(most); err != nil || !over {
		return most, err
	}
	return halved(0, most, unit.Millimetre/2, hot)
}

// under gives what a pour goes on to: the ground, and of so much resin the
// uppermost still at work, as it is when its window opens, since its heat comes
// on top of that of the pour. It is taken as deep as a pour may be; what is
// below that has cured.
func (h *heat) under(ctx context.Context, l *heatLayer, bottom, most unit.Length) (cure.Slab, error) {
	s := cure.Slab{Below: h.below, Above: cure.StillAir, Room: h.room, Strata: slices.Clone(h.ground)}
	if !(bottom > 0) {
		return s, nil
	}
	deepest, err := h.deepestOn(ctx, 0, min(most, bottom), l.sheet.ID)
	if err != nil {
		return s, err
	}
	if cured := bottom - deepest; cured > 0 {
		s.Strata = append(s.Strata, cure.Stratum{Matter: l.careful.Matter, Thickness: cured, Cells: cellsOf(cured, 3*unit.Millimetre, 2, 12), From: h.room.At(0)})
	}
	if !(deepest > 0) {
		return s, nil
	}
	s.Strata = append(s.Strata, h.fresh(l, deepest))
	c, err := s.Run(ctx, coarseRun)
	if err != nil {
		return s, h.ended(ctx, err)
	}
	opens, ok := c.Reached(len(c.Owner)-1, l.careful.From)
	if !ok {
		opens = c.Ends
	}
	next := s.After(c, opens)
	next.Room = h.room // it may be poured at any hour
	return next, nil
}

// fresh is a pour of a layer's product, reckoned coarsely.
func (h *heat) fresh(l *heatLayer, depth unit.Length) cure.Stratum {
	kinetics := l.careful.Kinetics
	return cure.Stratum{Matter: l.careful.Matter, Thickness: depth, Cells: cellsOf(depth, 1.5*unit.Millimetre, 10, 28), Cure: &kinetics, From: h.resin(h.room.At(0))}
}

// resin gives how warm resin is poured in a room.
func (h *heat) resin(room unit.Temperature) unit.Temperature {
	if t := h.p.Shop.Resin; t.Given() {
		return t.Value
	}
	return room
}

// halved finds by halving how far a figure may go before it is too much,
// between low, which is not, and high, which is. It gives the greatest that was
// found not to be, within so much of the true one.
func halved[F ~float64](low, high, within F, tooMuch func(F) (bool, error)) (F, error) {
	for high-low > within {
		mid := (low + high) / 2
		over, err := tooMuch(mid)
		if err != nil {
			return low, err
		}
		if over {
			high = mid
		} else {
			low = mid
		}
	}
	return low, nil
}
