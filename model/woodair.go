package model

import (
	"math"

	"meniscus/model/unit"
)

// WoodBreath gives how much air leaves bare wood as it goes from one temperature
// to another: V (1 - ρ/1500) ΔT/T, by the law of gases at an even pressure. Below
// 0 it is drawn in, or resin in its place. It is nothing for wood without pores.
func WoodBreath(wood unit.Volume, density unit.Density, from, to unit.Temperature) unit.Volume {
	if from <= 0 || to <= 0 {
		return 0
	}
	return wood.Times(max(0, 1-float64(density)/float64(woodSolid)) * float64(to-from) / float64(from))
}

// BubblesIn gives how many bubbles of a diameter so much air makes.
func BubblesIn(air unit.Volume, diameter unit.Length) float64 {
	if diameter <= 0 {
		return 0
	}
	d := float64(diameter)
	return float64(air) / (math.Pi / 6 * d * d * d)
}

// Breath is what the air in a piece does.
type Breath string

// What it does.
const (
	BreathSealed  Breath = "sealed"
	BreathOut     Breath = "pushes air out"
	BreathIn      Breath = "draws resin in"
	BreathSteady  Breath = "neither"
	BreathUnknown Breath = "not known"
)

// AirPlan is what the air in a piece of wood does, and when to pour.
type AirPlan struct {
	Breath    Breath
	From, To  unit.Temperature // the wood now, and what it comes to
	Moves     unit.Volume      // that leaves it on the way; below 0 is drawn in
	Bubbles   float64          // of the size below
	Bubble    unit.Length
	PerDegree unit.Volume // for each degree that it warms
	Density   Known[unit.Density]
	When      string // when to pour
	Why       string
}

// breathes is by how much wood and room must lie apart to count, and how far a
// thermometer laid on wood may be off (common practice, no source).
const breathes = unit.TempRise(1)

// airOf works out what the air in a piece does.
func (pl *Plan) airOf(p *Project, w *Piece, plan *PiecePlan) AirPlan {
	st := p.Style
	a := AirPlan{Breath: BreathUnknown, Bubble: seenBubble, Density: plan.density()}
	if w.Sealed {
		a.Breath, a.When = BreathSealed, "Sealed all round: it neither blows nor drinks."
		return a
	}
	room, measured := p.room()
	a.From, a.To = p.Shop.Wood.Or(room), room
	trend, read := p.roomTrend()
	cools := unit.TempRise(0)
	if night := p.Shop.Night; measured && night.Given() {
		cools = unit.TempRise(room - night.Value)
	}
	volume := plan.Volume.Value
	breath := func(from, to unit.Temperature) unit.Volume { return WoodBreath(volume, a.Density.Value, from, to) }
	if a.Density.Value > 0 {
		a.PerDegree = breath(a.From, a.From+1)
	}
	switch warms := unit.TempRise(a.To - a.From); {
	case measured && warms >= breathes:
		a.Breath, a.When = BreathOut, "Wait: pour once the wood is as warm as the room, in the evening as both cool."
		a.Why = "The wood is at " + st.Temperature(a.From) + " and warms by " + st.TempRise(warms) + "."
	case read && trend >= breathes:
		a.Breath, a.When = BreathOut, "Wait for the evening: the room is warming, and the wood after it."
		a.From = a.To - unit.Temperature(trend)
		a.Why = "The room has warmed by " + st.TempRise(trend) + " in the last hours."
	case measured && warms <= -breathes:
		a.Breath, a.When = BreathIn, "Pour now: the wood is cooling."
		a.Why = "The wood is at " + st.Temperature(a.From) + " and cools by " + st.TempRise(-warms) + "."
	case read && trend <= -breathes:
		a.Breath, a.When = BreathIn, "Pour now: the room is cooling, and the wood after it."
		a.From = a.To - unit.Temperature(trend)
		a.Why = "The room has cooled by " + st.TempRise(-trend) + " in the last hours."
	case cools >= breathes:
		a.Breath, a.When = BreathIn, "Pour in the evening, as the shop cools; in the morning the same wood blows as much."
		a.To = p.Shop.Night.Value
		a.Why = "At night the room falls by " + st.TempRise(cools) + "."
	case measured:
		a.Breath, a.When = BreathSteady, "Pour while the wood is cooling: warm the room, then turn it down. Heaters off before any solvent or flame."
	default:
		a.When = "Read the room and lay a thermometer on the wood: pour while it cools, never while it warms."
	}
	if a.Density.Value > 0 && (a.Breath == BreathOut || a.Breath == BreathIn) {
		a.Moves = breath(a.From, a.To)
		a.Bubbles = BubblesIn(max(0, a.Moves), a.Bubble)
	}
	return a
}

// trendFor is how far back readings of the room count, and trendLeast how far
// they must lie apart.
const (
	trendFor   = 6 * unit.Hour
	trendLeast = unit.Hour / 2
)

// roomTrend gives by how much the room has warmed over the last hours before its
// last reading in the journal; false without two readings that far apart.
func (p *Project) roomTrend() (unit.TempRise, bool) {
	var last Entry
	found, rise := false, unit.TempRise(0)
	list := p.standing()
	for i := len(list) - 1; i >= 0; i-- {
		e := list[i]
		switch {
		case !e.Room.Given():
		case last.ID == "":
			last = e
		default:
			before := unit.SpanOf(last.At.Sub(e.At))
			if before > trendFor {
				return rise, found
			}
			if before >= trendLeast {
				found, rise = true, unit.TempRise(last.Room.Value-e.Room.Value)
			}
		}
	}
	return rise, found
}

// density gives a piece's density: weighed or given, else typical of its
// species; Absent where none is known.
func (p *PiecePlan) density() Known[unit.Density] {
	switch {
	case p.Density > 0:
		return Known[unit.Density]{Value: p.Density, Low: p.Density, High: p.Density, Source: "yours"}
	case p.Typical.Value > 0:
		return p.Typical
	}
	return Known[unit.Density]{Absent: true, Source: "weigh it, give its density, or choose its species"}
}
