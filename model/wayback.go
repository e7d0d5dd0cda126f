package model

import (
	"slices"
	"time"

	"meniscus/model/unit"
)

// WayStep is one step of the way back after a missed window. Instants are UTC
// and zero where they cannot be told.
type WayStep struct {
	Do       string    // what to do
	Care     string    // what to take care of
	From, To time.Time // when; To is zero for what takes no time
	Soonest  time.Time // To's band, where it has one
	Latest   time.Time
}

// WayDry, WaySand and WayWipe are how long the steps of the way back take: common
// practice, no source.
const (
	WayDry  = time.Hour
	WaySand = 30 * time.Minute
	WayWipe = 15 * time.Minute
)

// WayBack tells how a layer can still be poured when the window of the layer
// below has closed by now: let that cure until it is hard enough to sand, wash
// it, sand it dull, wipe it, and pour on what then holds as on any hard
// surface; and the dates that follow. The steps are common practice, no source;
// their dates are the simulation's, c, where it tells them. There is no way back
// for a layer that has been poured, for a first one, and for one whose window
// has not closed.
func (pl *Plan) WayBack(c *Curing, layer string, now time.Time) []WayStep {
	window := pl.Recoat(layer, now)
	if window.State != RecoatLate || window.Done {
		return nil
	}
	k := slices.IndexFunc(pl.Layers, func(l LayerPlan) bool { return l.ID == layer })
	below, mine := c.layer(pl.Layers[k-1].ID), c.layer(layer)
	start, _ := pl.poured(pl.Layers[k-1].ID)
	after := func(s unit.Span) time.Time { return onFives(start.Add(s.Duration()), now) }
	cure := WayStep{
		Do:   "Let " + window.Below + " cure until it is hard enough to sand: a fingernail leaves no mark",
		Care: "Sanding resin that is only part cured is the surest way to an allergy, and it clogs the paper.",
		From: now.UTC(),
	}
	if below != nil && below.Stall != nil {
		cure.Care = below.Stall.Text + ". " + cure.Care
	}
	steps := []WayStep{cure, {Do: "Wash it with warm water and a cloth, and let it dry", Care: "A waxy film would keep the next pour from holding."},
		{Do: "Sand it dull all over, 80 to 120 grit", Care: "Extraction and a dust mask."},
		{Do: "Take off the dust and wipe it clean; leave nothing wet"},
		{Do: "Pour " + pl.Layers[k].Name + ": it holds by the scratches"}}
	if below == nil || !below.Ready || below.Sand.Absent {
		return steps
	}
	steps[0].To = after(below.Sand.Value)
	if below.Sand.Low < below.Sand.High {
		steps[0].Soonest, steps[0].Latest = after(below.Sand.Low), after(below.Sand.High)
	}
	at := steps[0].To
	for i, takes := range []time.Duration{WayDry, WaySand, WayWipe, 0} {
		s := &steps[i+1]
		s.From = at
		if takes > 0 {
			at = at.Add(takes)
			s.To = at
		}
	}
	then := func(do string, from, to Known[unit.Span]) {
		if from.Absent {
			return
		}
		s := WayStep{Do: do, From: onFives(at.Add(from.Value.Duration()), at)}
		if !to.Absent && to.Value > from.Value {
			s.To = onFives(at.Add(to.Value.Duration()), at)
		}
		steps = append(steps, s)
	}
	switch {
	case mine == nil || !mine.Ready:
	case k < len(pl.Layers)-1:
		then("The next pour, on "+mine.Name, mine.RecoatFrom, mine.RecoatTo)
	default:
		then("Take it out of the mold", mine.Demold, Known[unit.Span]{Absent: true})
	}
	return steps
}

// layer gives what the simulation says of a layer, nil for nothing.
func (c *Curing) layer(id string) *LayerCuring {
	for i := range c.Layers {
		if c.Layers[i].ID == id {
			return &c.Layers[i]
		}
	}
	return nil
}

// onFives gives t, or now where that is later, at the next full five minutes,
// UTC.
func onFives(t, now time.Time) time.Time {
	if t.Before(now) {
		t = now
	}
	return t.Add(5*time.Minute - 1).Truncate(5 * time.Minute).UTC()
}
