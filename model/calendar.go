package model

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"meniscus/model/unit"
)

// ActKind is something that the maker does with the hands.
type ActKind string

// What a maker does between the first pour and the piece on the bench.
const (
	ActPour   ActKind = "pour"
	ActTack   ActKind = "tack test"
	ActDemold ActKind = "demold"
)

// How long a tack test and the taking out keep the maker; a pour never keeps
// less than the test. Common practice, no source.
const (
	tackTakes   = 5 * time.Minute
	demoldTakes = 30 * time.Minute
)

// Act is one thing to do and when. From and To bound when it may be done, At is
// when the calendar puts it. A zero To is a window with no end, or one that is
// not known.
type Act struct {
	Kind  ActKind   `json:"kind"`
	Layer string    `json:"layer"` // that is poured, touched or, last of all, taken out
	Label string    `json:"label"`
	From  time.Time `json:"from"`
	To    time.Time `json:"to,omitzero"`
	At    time.Time `json:"at"`
}

// StartChoice is a time to start the first pour at, with all that follows.
type StartChoice struct {
	Start time.Time `json:"start"`
	Acts  []Act     `json:"acts"` // in order of time
	Why   string    `json:"why"`
	Score float64   `json:"score"` // what speaks against it, see against; the least is the best
}

// CalendarAnswer is when to start: up to three times that differ, the best
// first, or why there is none.
type CalendarAnswer struct {
	Choices []StartChoice `json:"choices"`
	None    string        `json:"none,omitempty"` // the tightest limit, in words, when there is no choice
}

// PourWindows is how long after its own pour each thing about a layer comes.
// What is Absent is not known: without RecoatFrom nothing can be poured on it,
// without RecoatTo its window does not close, without RecoatBest the middle of
// the window is best, without TackFrom the surface is touched when the window
// opens, and without Demold it holds up the taking out no longer than the rest.
type PourWindows struct {
	Layer string // its ID
	Name  string

	PourTakes  Known[unit.Span] // to weigh, mix and pour it
	TackFrom   Known[unit.Span]
	RecoatFrom Known[unit.Span]
	RecoatBest Known[unit.Span]
	RecoatTo   Known[unit.Span]
	Demold     Known[unit.Span]

	Room    unit.Temperature // of the room when it is poured; 0: not known
	Refused string           // why it must not be poured at this hour, such as that it gets too hot; empty when it may be
}

// The search tries a start every half hour for at most so long, and a window
// longer than the longest is cut off there.
const (
	startGrid     = 30 * time.Minute
	longestSearch = 60 * 24 * time.Hour
	longestWindow = 30 * 24 * time.Hour
	mostChoices   = 3
)

// tryStart is one start that has been looked at.
type tryStart struct {
	at   time.Duration // since the search's own beginning
	legs []pourLeg
}

// FindStarts looks for times to start the first pour at, from an instant on and
// within so long, such that the maker is awake for every pour, tack test and
// the taking out, and each pour after the first falls in the window of the one
// below it. windows gives the layers' windows, in the order of the pours, for a
// start; it is asked once for each time of day. A window is tried as it is
// best, and moved only where sleep or a later window asks for it. The error is
// that of windows or of ctx.
func FindStarts(ctx context.Context, from time.Time, within time.Duration, day Day, windows func(start time.Time) ([]PourWindows, error)) (CalendarAnswer, error) {
	s := startSearch{day: day, zone: day.zone(), cache: map[time.Duration][]pourLeg{}}
	first := clockOf(from.In(s.zone))
	s.base = from.Add((startGrid - first%startGrid) % startGrid)
	until := min(within-s.base.Sub(from), longestSearch)
	awake := fitting(day.waking(s.base, max(until, 0)+day.longest()), tackTakes)
	var starts []tryStart
	for at := time.Duration(0); at <= until; at += startGrid {
		if err := ctx.Err(); err != nil {
			return CalendarAnswer{}, err
		}
		if !holding(awake, at) {
			continue
		}
		legs, err := s.legs(at, windows)
		if err != nil {
			return CalendarAnswer{}, err
		}
		starts = append(starts, tryStart{at, legs})
	}
	var found []plotted
	var misses []startMiss
	for _, c := range starts {
		if err := ctx.Err(); err != nil {
			return CalendarAnswer{}, err
		}
		if p, miss := s.plot(c); miss == nil {
			p.score = s.against(p)
			found = append(found, p)
		} else {
			misses = append(misses, *miss)
		}
	}
	if len(found) == 0 {
		return CalendarAnswer{None: s.none(misses)}, nil
	}
	return CalendarAnswer{Choices: s.choose(found)}, nil
}

// startSearch is one look for starts. All its times are since base, which lies on
// the half hour of the shop's clock.
type startSearch struct {
	base  time.Time
	day   Day
	zone  *time.Location
	cache map[time.Duration][]pourLeg // by time of day

	coolest, warmest unit.Temperature // of the rooms met so far
}

// legs gives the windows for a start, from the cache where that time of day has
// been asked about.
func (s *startSearch) legs(at time.Duration, windows func(time.Time) ([]PourWindows, error)) ([]pourLeg, error) {
	when := s.base.Add(at)
	clock := clockOf(when.In(s.zone))
	if legs, ok := s.cache[clock]; ok {
		return legs, nil
	}
	list, err := windows(when.UTC())
	if err != nil {
		return nil, fmt.Errorf("model: no windows for a start at %s: %w", when.Format(time.RFC3339), err)
	}
	legs := make([]pourLeg, len(list))
	for i := range list {
		legs[i] = legOf(&list[i])
	}
	s.cache[clock] = legs
	if len(legs) > 0 {
		s.meet(legs[0].room)
	}
	return legs, nil
}

// choose takes the best starts that really differ, the best first.
func (s *startSearch) choose(found []plotted) []StartChoice {
	soonest := found[0].pours[0]
	slices.SortStableFunc(found, func(a, b plotted) int { return cmp.Compare(a.score, b.score) })
	var taken []plotted
	for _, p := range found {
		if len(taken) == mostChoices {
			break
		}
		if !slices.ContainsFunc(taken, func(q plotted) bool { return startsAlike(p, q) }) {
			taken = append(taken, p)
		}
	}
	choices := make([]StartChoice, len(taken))
	for i, p := range taken {
		choices[i] = StartChoice{Start: s.at(p.pours[0]), Acts: s.acts(p), Why: s.why(p, p.pours[0] == soonest), Score: p.score}
	}
	return choices
}

// startsAlike tells whether two starts come to much the same for the maker: less than
// half a day apart, and no later pour a night apart.
func startsAlike(p, q plotted) bool {
	const halfDay, night = 12 * time.Hour, 8 * time.Hour
	if (p.pours[0]-q.pours[0]).Abs() >= halfDay || len(p.pours) != len(q.pours) {
		return false
	}
	for i := range p.pours {
		if (p.pours[i] - q.pours[i]).Abs() >= night {
			return false
		}
	}
	return true
}

// at gives an instant of the search, UTC.
func (s *startSearch) at(d time.Duration) time.Time { return s.base.Add(d).UTC() }
