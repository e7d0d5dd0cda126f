package model

import "time"

// Day is when the maker is about: from Wakes to Sleeps, both on the clock of
// the zone as time since midnight. One that sleeps before it wakes is about
// over midnight; where both are the same somebody is always about.
type Day struct {
	Wakes, Sleeps time.Duration
	Zone          *time.Location // nil means UTC
}

// A maker's day where the shop does not say. Common practice, no source.
const (
	typicalWakes  = 7 * time.Hour
	typicalSleeps = 22*time.Hour + 30*time.Minute
)

// Day gives the maker's waking hours in a zone, typical ones where the shop
// does not say.
func (s *Shop) Day(zone *time.Location) Day {
	day := Day{typicalWakes, typicalSleeps, zone}
	if t, ok := s.Wakes.Clock(); ok {
		day.Wakes = t
	}
	if t, ok := s.Sleeps.Clock(); ok {
		day.Sleeps = t
	}
	return day
}

// zone gives the zone of the day.
func (d Day) zone() *time.Location {
	if d.Zone == nil {
		return time.UTC
	}
	return d.Zone
}

// clockOf gives what a clock shows at t, in t's own zone, since midnight.
func clockOf(t time.Time) time.Duration {
	h, m, s := t.Clock()
	return time.Duration(h)*time.Hour + time.Duration(m)*time.Minute + time.Duration(s)*time.Second + time.Duration(t.Nanosecond())
}

// period is a length of time, both ends since the same beginning.
type period struct{ from, to time.Duration }

const wholeDay = 24 * time.Hour

// longest is how long a stretch of waking can be.
func (d Day) longest() time.Duration { return 2 * wholeDay }

// waking lists when the maker is awake between base and so long after it, in
// order and apart. Only the clock on the wall counts: in the night in which an
// hour comes twice, so does a bedtime in it.
func (d Day) waking(base time.Time, until time.Duration) []period {
	wakes, sleeps := ofDay(d.Wakes), ofDay(d.Sleeps)
	if wakes == sleeps {
		return []period{{0, until}}
	}
	if sleeps < wakes {
		sleeps += wholeDay
	}
	var list []period
	for at := time.Duration(0); at < until; {
		here := base.Add(at).In(d.zone())
		to := until
		if _, end := here.ZoneBounds(); !end.IsZero() {
			to = min(to, end.Sub(base))
		}
		// Up to there the clock runs on evenly.
		midnight := at - clockOf(here)
		for m := midnight - wholeDay; m < to; m += wholeDay {
			if s := (period{max(m+wakes, at), min(m+sleeps, to)}); s.from < s.to {
				list = joined(list, s)
			}
		}
		at = to
	}
	return list
}

// ofDay brings a time of day between midnight and midnight.
func ofDay(d time.Duration) time.Duration { return ((d % wholeDay) + wholeDay) % wholeDay }

// joined adds a stretch at the end of a list in order, to the last one where the
// two touch.
func joined(list []period, s period) []period {
	if n := len(list); n > 0 && s.from <= list[n-1].to {
		list[n-1].to = max(list[n-1].to, s.to)
		return list
	}
	return append(list, s)
}

// fitting lists when something that takes so long can begin, so that it is over
// by the end of its stretch.
func fitting(list []period, takes time.Duration) []period {
	var fit []period
	for _, s := range list {
		if s.to-takes >= s.from {
			fit = append(fit, period{s.from, s.to - takes})
		}
	}
	return fit
}

// spreadOver lists what lies from so long to so long after anything in a list.
func spreadOver(list []period, from, to time.Duration) []period {
	var wide []period
	for _, s := range list {
		wide = joined(wide, period{s.from + from, s.to + to})
	}
	return wide
}

// overlaps lists what lies in one of a and one of b.
func overlaps(a, b []period) []period {
	var list []period
	for i, j := 0, 0; i < len(a) && j < len(b); {
		if s := (period{max(a[i].from, b[j].from), min(a[i].to, b[j].to)}); s.from <= s.to {
			list = append(list, s)
		}
		if a[i].to < b[j].to {
			i++
		} else {
			j++
		}
	}
	return list
}

// nearestIn gives the instant of a list nearest to t, the earlier of two; false
// for an empty list.
func nearestIn(list []period, t time.Duration) (time.Duration, bool) {
	best, found := time.Duration(0), false
	for _, s := range list {
		if at := min(max(t, s.from), s.to); !found || (at-t).Abs() < (best-t).Abs() {
			best, found = at, true
		}
	}
	return best, found
}

// holding tells whether t lies in one of the stretches.
func holding(list []period, t time.Duration) bool {
	for _, s := range list {
		if s.from <= t && t <= s.to {
			return true
		}
	}
	return false
}
