package model

import (
	"context"
	"fmt"
	"math"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// The two answers that no sheet gives are searched for within these.
const (
	coldestAsked = 5  // °C
	warmestAsked = 40 // °C
	roomGrain    = 0.125
	roomStep     = 0.5 // °C that the answer is rounded down to
	deepestAsked = 150 * unit.Millimetre
	peakWithin   = 6 * unit.Day // a pour's peak comes within so long, or it is a lukewarm one
)

func stateOf(t, a float64) cure.State { return cure.State{T: unit.Temperature(t), A: a} }

// peakOf gives the peak of a layer in a pass, and whether it runs away.
func (h *heat) peakOf(ctx context.Context, v pass, k int) (unit.Temperature, bool, error) {
	v.last, v.until, v.coarse = k, peakWithin, true
	stages, err := h.run(ctx, v)
	if err != nil {
		return 0, false, h.ended(ctx, err)
	}
	n := len(stages) - 1
	if n < 0 || stages[n].layer != k {
		return runawayLimit, true, nil // a pour below it runs away
	}
	p := stages[n].course.Hottest(stages[n].stratum)
	return p.T, stages[n].course.RunsAway, nil
}

// answer works out the two answers of a layer, with the products as cals has
// them: what a lot taught must not have loosened them. A layer that has been
// poured has none: what is done is done.
func (h *heat) answer(ctx context.Context, c *LayerCuring, k int, cals []cure.Calibrated) error {
	l := &h.layers[k]
	if l.poured {
		c.Room = Answer[unit.Temperature]{Text: "it has been poured"}
		c.Deepest = Answer[unit.Length]{Text: "it has been poured"}
		return nil
	}
	limit := l.limit.Value
	hot := func(v pass) (bool, error) {
		t, runs, err := h.peakOf(ctx, v, k)
		return runs || t > limit, err
	}
	v := bestPass()
	v.cals, v.layer = cals, k
	if err := h.askRoom(c, l, v, hot); err != nil {
		return err
	}
	return h.askDepth(c, l, v, hot)
}

// askRoom finds the room temperature at which the pour's peak crosses its
// limit, to half a degree, among those that the sheet allows.
func (h *heat) askRoom(c *LayerCuring, l *heatLayer, v pass, hot func(pass) (bool, error)) error {
	temp := h.p.Style.Temperature
	low, high, lowest, bound := unit.Celsius(coldestAsked), unit.Celsius(warmestAsked), "", false
	if f := l.sheet.Coldest; f.Given() && f.Value > low {
		low, lowest = f.Value, ", the coldest that the data sheet allows,"
	}
	if f := l.sheet.Warmest; f.Given() && f.Value < high {
		high, bound = f.Value, true
	}
	low = min(low, high)
	at := func(room unit.Temperature) (bool, error) {
		v.warmer = unit.TempRise(room - byDay(&h.room))
		return hot(v)
	}
	over, err := at(high)
	switch {
	case err != nil:
		return err
	case !over && bound:
		c.Room = Answer[unit.Temperature]{Value: high, Known: true, Bound: true, Text: temp(high),
			Reason: "the data sheet's own limit; the heat would allow more, which changes nothing"}
		return nil
	case !over:
		c.Room = Answer[unit.Temperature]{Value: high, Known: true, Bound: true, Text: "any room up to " + temp(high),
			Reason: "its peak heat stays below " + temp(c.PeakLimit.Value)}
		return nil
	}
	if over, err = at(low); err != nil {
		return err
	} else if over {
		c.Room = Answer[unit.Temperature]{Value: low, Known: true, Bound: true, Text: noRoom,
			Reason: fmt.Sprintf("even at %s%s its peak heat passes %s", temp(low), lowest, temp(c.PeakLimit.Value))}
		return nil
	}
	safe, err := halved(low, high, roomGrain, at)
	if err != nil {
		return err
	}
	safe = max(unit.Celsius(math.Floor(safe.Celsius()/roomStep)*roomStep), low)
	c.Room = Answer[unit.Temperature]{Value: safe, Known: true, Text: temp(safe), Reason: "in a warmer room its peak heat passes " + temp(c.PeakLimit.Value)}
	return nil
}

// noRoom is the answer where a pour gets too hot in every room.
const noRoom = "no room is cool enough"

// askDepth finds the deepest pour whose peak stays below its limit in the room
// as it is, and never more than the sheet allows.
func (h *heat) askDepth(c *LayerCuring, l *heatLayer, v pass, hot func(pass) (bool, error)) error {
	style := h.p.Style
	sheet := l.sheet.MaxLayer
	most := deepestAsked
	if sheet.Given() {
		most = min(most, sheet.Value)
	}
	at := func(d unit.Length) (bool, error) {
		v.depth = d
		return hot(v)
	}
	over, err := at(most)
	if err != nil {
		return err
	}
	if !over {
		safe := h.readable(most)
		c.Deepest = Answer[unit.Length]{Value: safe, Known: true, Bound: true, Text: style.Length(safe), Reason: "the data sheet's own limit; the heat would allow more, which changes nothing"}
		if !sheet.Given() {
			c.Deepest = silent(safe, "by its heat more than "+style.Length(safe))
		}
		return nil
	}
	deepest, err := halved(0, most, unit.Millimetre/4, at)
	if err != nil {
		return err
	}
	safe := h.readable(deepest)
	if !sheet.Given() {
		c.Deepest = silent(safe, "by its heat at most "+style.Length(safe))
		return nil
	}
	reason := "deeper, its peak heat passes " + style.Temperature(c.PeakLimit.Value) + "; the data sheet's own limit is " + style.Length(sheet.Value)
	if least := l.sheet.MinLayer; least.Given() && safe < least.Value {
		reason += "; the data sheet asks for " + style.Length(least.Value) + " at least, so it does not go in this room"
	}
	c.Deepest = Answer[unit.Length]{Value: safe, Known: true, Text: style.Length(safe), Reason: reason}
	return nil
}

// silent is the answer for a sheet that does not say how deep one pour may be:
// none, whatever its heat.
func silent(byHeat unit.Length, words string) Answer[unit.Length] {
	return Answer[unit.Length]{Value: byHeat, Bound: true, Text: "not known", Reason: words + "; but the data sheet does not say how deep one pour may be, so ask the supplier"}
}

// readable rounds a length down to what the maker's rule shows: half a
// millimetre, or the graduation of an inch.
func (h *heat) readable(l unit.Length) unit.Length {
	step := unit.Millimetre / 2
	if s := h.p.Style; s.LengthUnit() == unit.InInches {
		step = unit.Graduation(s.LengthGrain())
	}
	return step.Times(math.Floor(l.Per(step) + 1e-9))
}
