package cure

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Gap is a stretch of a log without readings.
type Gap struct{ From, To unit.Span }

// Gaps lists the stretches between two readings, between start and the first,
// and between the last and end that are longer than most, in order. The
// readings may come in any order.
func Gaps(log []Reading, start, end, most unit.Span) []Gap {
	var room Room
	var list []Gap
	last := start
	add := func(to unit.Span) {
		if to-last > most {
			list = append(list, Gap{last, to})
		}
		last = max(last, to)
	}
	for _, x := range room.Logged(log).Log {
		if x.At >= start && x.At <= end {
			add(x.At)
		}
	}
	add(end)
	return list
}

// AgedAt gives the time at which a cure that starts at from has come to an
// equivalent age: as far as one that lay for so long at the temperature ref, by
// the integral of AgeFactor over the room's temperature (ASTM C1074), which runs
// straight between two readings of its log. It hangs on the room alone, so that
// a reading that was added late or put right makes the past anew. False when it
// has not come to it by the time to.
func (r *Room) AgedAt(e unit.MolarEnergy, ref unit.Temperature, from, to, age unit.Span) (unit.Span, bool) {
	if !(age > 0) {
		return from, age <= 0
	}
	left, found, ok := age, unit.Span(0), false
	r.stretches(from, to, func(a, b unit.Span) bool {
		whole := r.stretch(e, ref, a, b)
		if whole < left {
			left -= whole
			return true
		}
		at, _ := shape.Root(func(t float64) float64 { return float64(r.stretch(e, ref, a, unit.Span(t)) - left) }, float64(a), float64(b), 1e-3)
		found, ok = unit.Span(at), true
		return false
	})
	return found, ok
}

// stretch gives the equivalent age of a stretch with no corner in it.
func (r *Room) stretch(e unit.MolarEnergy, ref unit.Temperature, a, b unit.Span) unit.Span {
	return unit.Span(gauss(func(t float64) float64 { return AgeFactor(e, r.At(unit.Span(t)), ref) }, float64(a), float64(b)))
}

// stretches walks from one time to another in stretches that have no corner in
// them and are so short that Gauss's rule of order 10 is all but exact, until
// see says no.
func (r *Room) stretches(from, to unit.Span, see func(a, b unit.Span) bool) {
	if !(to > from) || math.IsInf(float64(from), 0) || to-from > 100*longest {
		return
	}
	const most = 6 * unit.Hour
	corners := make([]unit.Span, 0, len(r.Log)+2)
	add := func(t unit.Span) {
		if t > from && t < to {
			corners = append(corners, t)
		}
	}
	for _, x := range r.Log {
		add(x.At)
	}
	if n := len(r.Log); n > 0 {
		add(r.Log[n-1].At + settles)
	}
	a := from
	for _, corner := range append(corners, to) {
		parts := max(math.Ceil(float64((corner-a)/most)), 1)
		start := a
		for i := range int(parts) {
			b := start + (corner - start).Times(float64(i+1)/parts)
			if !see(a, b) {
				return
			}
			a = b
		}
	}
}
