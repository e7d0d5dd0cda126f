package model

import (
	"slices"
	"time"
)

// Agenda lists the steps that have an instant (UTC), in order: those of the
// pours that have been started and, where the next pour is planned for an
// instant that is still to come, those of that pour as if it were started then.
// A zero planned is no plan.
func (pl *Plan) Agenda(planned, now time.Time) []Step {
	next, ok := pl.NextPour()
	ahead := ok && planned.After(now)
	var list []Step
	for _, s := range pl.Steps {
		if s.Due.IsZero() && ahead && s.Layer == next.ID {
			s.Due = planned.Add(s.After.Duration()).UTC().Round(time.Second)
			s.Label += " (if poured as planned)"
		}
		if !s.Due.IsZero() {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b Step) int { return a.Due.Compare(b.Due) })
	return list
}
