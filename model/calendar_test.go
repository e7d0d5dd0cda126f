package model

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// lasts is a known length of time.
func lasts(d time.Duration) Known[unit.Span] { return Known[unit.Span]{Value: unit.SpanOf(d)} }

var unknownSpan = Known[unit.Span]{Absent: true}

// clockHours is a time of day.
func clockHours(h, m int) time.Duration {
	return time.Duration(h)*time.Hour + time.Duration(m)*time.Minute
}

func zoneOf(t testing.TB, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Skip(err)
	}
	return zone
}

// always gives the same windows for every start.
func always(list ...PourWindows) func(time.Time) ([]PourWindows, error) {
	return func(time.Time) ([]PourWindows, error) { return list, nil }
}

// onePourOnAnother are two layers, the second of which goes onto the first after so
// long.
func onePourOnAnother(from, best, to time.Duration) []PourWindows {
	return []PourWindows{
		{Layer: "l1", Name: "base", PourTakes: lasts(30 * time.Minute), TackFrom: lasts(from - time.Hour), RecoatFrom: lasts(from), RecoatBest: lasts(best), RecoatTo: lasts(to), Demold: lasts(48 * time.Hour)},
		{Layer: "l2", Name: "clear top", PourTakes: lasts(30 * time.Minute), RecoatFrom: unknownSpan, RecoatBest: unknownSpan, RecoatTo: unknownSpan, TackFrom: unknownSpan, Demold: lasts(48 * time.Hour)},
	}
}

// awake is the plain meaning of a maker's day: what the clock on the wall shows.
func awake(d Day, t time.Time) bool {
	clock := clockOf(t.In(d.zone()))
	switch {
	case d.Wakes == d.Sleeps:
		return true
	case d.Wakes < d.Sleeps:
		return d.Wakes <= clock && clock < d.Sleeps
	}
	return clock >= d.Wakes || clock < d.Sleeps
}

// TestWakingIsTheClockOnTheWall holds the stretches of waking against what the
// clock shows minute by minute, over the nights in which it is changed.
func TestWakingIsTheClockOnTheWall(t *testing.T) {
	for _, zone := range []string{"UTC", "Europe/Lisbon", "America/New_York", "Australia/Lord_Howe", "Asia/Kathmandu"} {
		for _, day := range []Day{
			{clockHours(7, 0), clockHours(22, 30), zoneOf(t, zone)},
			{clockHours(1, 30), clockHours(13, 0), zoneOf(t, zone)},
			{clockHours(9, 0), clockHours(1, 30), zoneOf(t, zone)},
			{clockHours(2, 15), clockHours(2, 0), zoneOf(t, zone)},
			{clockHours(6, 0), clockHours(6, 0), zoneOf(t, zone)},
		} {
			for _, base := range []time.Time{
				time.Date(2026, 3, 6, 11, 0, 0, 0, time.UTC), time.Date(2026, 3, 28, 11, 0, 0, 0, time.UTC),
				time.Date(2026, 10, 24, 5, 0, 0, 0, time.UTC), time.Date(2026, 10, 31, 5, 0, 0, 0, time.UTC),
				time.Date(2026, 4, 3, 23, 0, 0, 0, time.UTC), time.Date(2026, 10, 2, 23, 0, 0, 0, time.UTC),
			} {
				list := day.waking(base, 3*wholeDay)
				for i := range list {
					if list[i].from >= list[i].to || i > 0 && list[i].from <= list[i-1].to {
						t.Fatalf("%s: %v is not in order", zone, list)
					}
				}
				for at := time.Duration(0); at < 3*wholeDay; at += 5 * time.Minute {
					in := false
					for _, s := range list {
						in = in || s.from <= at && at < s.to
					}
					if now := base.Add(at); in != awake(day, now) {
						t.Fatalf("%s, %v to %v: at %s awake is %v", zone, day.Wakes, day.Sleeps, now.In(day.Zone), in)
					}
				}
			}
		}
	}
}

// TestRecoatByDay: with the best moment 12 hours on one starts such that it
// comes before bedtime, or the evening before.
func TestRecoatByDay(t *testing.T) {
	day := Day{clockHours(7, 0), clockHours(23, 0), zoneOf(t, "Europe/Lisbon")}
	from := time.Date(2026, 11, 25, 9, 10, 0, 0, time.UTC) // a Wednesday
	got, err := FindStarts(context.Background(), from, 4*wholeDay, day, always(onePourOnAnother(9*time.Hour, 12*time.Hour, 15*time.Hour)...))
	if err != nil || len(got.Choices) != 3 || got.None != "" {
		t.Fatalf("%+v, %v", got, err)
	}
	first := got.Choices[0]
	// Soonest is 9:30, with the best moment at 21:30 and so an hour to bedtime.
	if want := time.Date(2026, 11, 25, 9, 30, 0, 0, time.UTC); !first.Start.Equal(want) {
		t.Errorf("starts at %s", first.Start)
	}
	var kinds []string
	for _, a := range first.Acts {
		kinds = append(kinds, string(a.Kind)+" "+a.At.Format("2 15:04"))
	}
	if got := strings.Join(kinds, ", "); got != "pour 25 09:30, tack test 25 18:30, pour 25 21:30, demold 27 21:30" {
		t.Error(got)
	}
	for _, c := range got.Choices {
		if c.Why == "" || !strings.HasSuffix(c.Why, ".") {
			t.Errorf("why: %q", c.Why)
		}
	}
	if !strings.Contains(first.Why, "soonest") || !strings.Contains(first.Why, "clear top goes on at its best moment; 3 h to spare") {
		t.Errorf("why: %q", first.Why)
	}
	for i, c := range got.Choices {
		if i > 0 && c.Score < got.Choices[i-1].Score {
			t.Error("not ranked")
		}
	}
}

// TestLooksPastTheNight: the second pour could go on this afternoon or tomorrow
// morning, and its best moment is today; only from tomorrow morning does the
// third still fall in the day.
func TestLooksPastTheNight(t *testing.T) {
	day := Day{clockHours(7, 0), clockHours(17, 0), time.UTC}
	base := onePourOnAnother(8*time.Hour, 8*time.Hour, 26*time.Hour)[0]
	middle := onePourOnAnother(8*time.Hour, 8*time.Hour, 9*time.Hour)
	from := time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)
	got, err := FindStarts(context.Background(), from, 0, day, always(base, middle[0], middle[1]))
	if err != nil || len(got.Choices) != 1 {
		t.Fatalf("%+v, %v", got, err)
	}
	var pours []string
	for _, a := range got.Choices[0].Acts {
		if a.Kind == ActPour {
			pours = append(pours, a.At.Format("2 15:04"))
		}
	}
	if got := strings.Join(pours, ", "); got != "25 07:00, 26 07:00, 26 15:00" {
		t.Error(got)
	}
}

// TestNoneNamesTheTightestLimit: each of the reasons why there is no start is
// said with its numbers.
func TestNoneNamesTheTightestLimit(t *testing.T) {
	day := Day{clockHours(7, 0), clockHours(22, 30), time.UTC}
	from := time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)
	change := func(f func([]PourWindows)) []PourWindows {
		list := onePourOnAnother(9*time.Hour, 12*time.Hour, 15*time.Hour)
		f(list)
		return list
	}
	for _, c := range []struct {
		name    string
		windows []PourWindows
		day     Day
		within  time.Duration
		says    []string
	}{
		// The start at 22:00 opens it latest in the night, at 6:00 to 6:30,
		// while that at 7:00 opens it at 15:00: so a short day is needed.
		{"asleep", change(func(l []PourWindows) {
			l[0].RecoatFrom, l[0].RecoatBest, l[0].RecoatTo = lasts(8*time.Hour), lasts(8*time.Hour), lasts(9*time.Hour)
		}), Day{clockHours(7, 0), clockHours(12, 0), time.UTC}, 3 * wholeDay, []string{"clear top bonds to base", "from Wednesday 15:00 to Wednesday 16:00", "07:00 to 12:00", "by 3 h 30 min"}},
		{"unknown", change(func(l []PourWindows) { l[0].RecoatFrom = unknownSpan }), day, wholeDay, []string{"clear top", "base", "not known"}},
		{"closes too soon", change(func(l []PourWindows) { l[0].RecoatTo = lasts(5 * time.Minute) }), day, wholeDay, []string{"base closes before clear top"}},
		{"too hot", change(func(l []PourWindows) { l[1].Refused = "it comes to 82 °C, and 70 °C is its limit" }), day, wholeDay, []string{"clear top", "82 °C"}},
		{"long pour", change(func(l []PourWindows) { l[1].PourTakes = lasts(16 * time.Hour) }), day, wholeDay, []string{"clear top", "16 h", "longer than you are awake"}},
		{"late in the day", change(func(l []PourWindows) { l[0].PourTakes = lasts(3 * time.Hour) }), Day{clockHours(7, 0), clockHours(9, 30), time.UTC}, time.Hour, []string{"base", "3 h", "longer than you are awake"}},
		{"brief day", change(func(l []PourWindows) { l[0].PourTakes, l[1].PourTakes = lasts(0), lasts(0) }), Day{clockHours(7, 0), clockHours(7, 20), time.UTC}, wholeDay, []string{"bonds"}},
		{"brief day, one pour", change(func(l []PourWindows) { l[1].PourTakes = lasts(0) })[1:], Day{clockHours(7, 0), clockHours(7, 20), time.UTC}, wholeDay, []string{"30 min", "07:00 to 07:20"}},
		{"no time", change(func([]PourWindows) {}), Day{clockHours(12, 0), clockHours(22, 0), time.UTC}, time.Hour, []string{"12:00 to 22:00"}},
		{"behind us", change(func([]PourWindows) {}), day, -time.Hour, []string{"waking hours"}},
		{"nothing to pour", nil, day, wholeDay, []string{"no layer"}},
	} {
		got, err := FindStarts(context.Background(), from, c.within, c.day, always(c.windows...))
		if err != nil || len(got.Choices) > 0 {
			t.Errorf("%s: %+v, %v", c.name, got, err)
		}
		for _, word := range c.says {
			if !strings.Contains(got.None, word) {
				t.Errorf("%s says %q, without %q", c.name, got.None, word)
			}
		}
	}
}

// TestPoursByNight: a maker who works from 18:00 to 2:00 is asked for nothing
// in daylight.
func TestPoursByNight(t *testing.T) {
	day := Day{clockHours(18, 0), clockHours(2, 0), zoneOf(t, "America/New_York")}
	from := time.Date(2026, 10, 30, 12, 0, 0, 0, time.UTC) // the clock goes back on 1 November
	got, err := FindStarts(context.Background(), from, 5*wholeDay, day, always(onePourOnAnother(20*time.Hour, 24*time.Hour, 28*time.Hour)...))
	if err != nil || len(got.Choices) != 3 {
		t.Fatalf("%+v, %v", got, err)
	}
	for _, c := range got.Choices {
		for _, a := range c.Acts {
			if !awake(day, a.At) {
				t.Errorf("%s at %s", a.Label, a.At.In(day.Zone))
			}
		}
	}
}

// TestCoolHourWins: with the same windows at all hours the cool of the morning
// is better than the noon.
func TestCoolHourWins(t *testing.T) {
	day := Day{clockHours(6, 0), clockHours(22, 0), time.UTC}
	asked := 0
	windows := func(start time.Time) ([]PourWindows, error) {
		asked++
		list := onePourOnAnother(22*time.Hour, 24*time.Hour, 26*time.Hour)
		list[0].Room = unit.Celsius(22 + 6*math.Cos((clockOf(start)-clockHours(15, 0)).Hours()/12*math.Pi))
		list[1].Room = list[0].Room
		return list, nil
	}
	got, err := FindStarts(context.Background(), time.Date(2026, 7, 6, 10, 0, 0, 0, time.UTC), 3*wholeDay, day, windows)
	if err != nil || len(got.Choices) != 3 {
		t.Fatalf("%+v, %v", got, err)
	}
	if first := got.Choices[0]; first.Start.Hour() > 9 || !strings.Contains(first.Why, "cool of the day") {
		t.Errorf("%s: %s", first.Start, first.Why)
	}
	if asked > 48 {
		t.Errorf("the windows were asked for %d times", asked)
	}
}

// TestFindStartsFails: an error of the windows is handed on, and a search that
// is called off stops.
func TestFindStartsFails(t *testing.T) {
	day := Day{clockHours(7, 0), clockHours(22, 30), time.UTC}
	from := time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC)
	broken := errors.New("no sheet")
	if _, err := FindStarts(context.Background(), from, wholeDay, day, func(time.Time) ([]PourWindows, error) { return nil, broken }); !errors.Is(err, broken) {
		t.Error(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	asked := 0
	_, err := FindStarts(ctx, from, wholeDay, day, func(time.Time) ([]PourWindows, error) {
		asked++
		cancel()
		return onePourOnAnother(9*time.Hour, 12*time.Hour, 15*time.Hour), nil
	})
	if !errors.Is(err, context.Canceled) || asked != 1 {
		t.Errorf("%v after %d", err, asked)
	}
}

// TestFindStartsTakesAnything: no windows, however odd, bring it down.
func TestFindStartsTakesAnything(t *testing.T) {
	odd := []float64{0, -5, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, 3600, 40 * 3600}
	rapid.Check(t, func(t *rapid.T) {
		any := func(what string) Known[unit.Span] {
			return Known[unit.Span]{Value: unit.Span(rapid.SampledFrom(odd).Draw(t, what)), Absent: rapid.Bool().Draw(t, what+" absent")}
		}
		var list []PourWindows
		for i := range rapid.IntRange(0, 4).Draw(t, "layers") {
			list = append(list, PourWindows{Layer: fmt.Sprint(i), Name: "é", PourTakes: any("takes"), TackFrom: any("tack"), RecoatFrom: any("from"), RecoatBest: any("best"), RecoatTo: any("to"), Demold: any("demold"), Room: unit.Temperature(rapid.SampledFrom(odd).Draw(t, "room"))})
		}
		day := Day{Wakes: time.Duration(rapid.Int64().Draw(t, "wakes")), Sleeps: time.Duration(rapid.Int64().Draw(t, "sleeps"))}
		got, err := FindStarts(context.Background(), time.Date(2026, 11, 25, 7, 0, 0, 0, time.UTC), time.Duration(rapid.Int64Range(-1, int64(2*wholeDay)).Draw(t, "within")), day, always(list...))
		if err != nil || (len(got.Choices) == 0) != (got.None != "") {
			t.Fatalf("%+v, %v", got, err)
		}
	})
}

// TestStartsAgainstBruteForce draws windows and days and holds the search
// against the plain one: nothing in the hours of sleep, each pour in the window
// of the one below, and where it says that there is no start there is none on
// a grid of half hours for the pours.
func TestStartsAgainstBruteForce(t *testing.T) {
	zones := []*time.Location{time.UTC, zoneOf(t, "Europe/Lisbon"), zoneOf(t, "Australia/Lord_Howe")}
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		half := func(what string, least, most int) time.Duration {
			return time.Duration(rapid.IntRange(least, most).Draw(t, what)) * startGrid
		}
		day := Day{half("wakes", 0, 47), half("sleeps", 0, 47), rapid.SampledFrom(zones).Draw(t, "zone")}
		var list []PourWindows
		for i := range rapid.IntRange(1, 3).Draw(t, "layers") {
			from := half("from", 2, 40)
			best := from + half("best", 0, 8)
			list = append(list, PourWindows{Layer: fmt.Sprint(i), Name: fmt.Sprint("layer ", i), PourTakes: lasts(half("takes", 0, 4)), TackFrom: lasts(from - half("tack", 0, 2)), RecoatFrom: lasts(from), RecoatBest: lasts(best), RecoatTo: lasts(best + half("to", 0, 8)), Demold: lasts(half("demold", 1, 100))})
		}
		from := time.Date(2026, 10, rapid.IntRange(2, 25).Draw(t, "date"), rapid.IntRange(0, 23).Draw(t, "hour"), 0, 0, 0, time.UTC)
		within := 2 * wholeDay
		got, err := FindStarts(context.Background(), from, within, day, always(list...))
		if err != nil {
			t.Fatal(err)
		}
		if len(got.Choices) == 0 {
			none++
			if at, ok := plainStart(day, from, within, list); ok {
				t.Fatalf("says %q, but a start at %s fits", got.None, at.In(day.Zone))
			}
			return
		}
		found++
		for _, c := range got.Choices {
			if c.Start.Before(from) || c.Start.After(from.Add(within)) {
				t.Fatalf("starts at %s", c.Start)
			}
			checkChoice(t, day, list, c)
		}
	})
	if found == 0 || none == 0 {
		t.Errorf("%d found, %d not: the draws show only one side", found, none)
	}
}

// through tells whether the maker is awake from t for so long.
func through(day Day, t time.Time, takes time.Duration) bool {
	for d := time.Duration(0); d < max(takes, tackTakes); d += 5 * time.Minute {
		if !awake(day, t.Add(d)) {
			return false
		}
	}
	return true
}

// plainStart looks for a start by trying every half hour for every pour.
func plainStart(day Day, from time.Time, within time.Duration, list []PourWindows) (time.Time, bool) {
	var fits func(i int, at time.Time) bool
	fits = func(i int, at time.Time) bool {
		if !through(day, at, list[i].PourTakes.Value.Duration()) {
			return false
		}
		if i == len(list)-1 {
			return true
		}
		first := max(list[i].RecoatFrom.Value.Duration(), list[i].PourTakes.Value.Duration())
		for d := first; d <= list[i].RecoatTo.Value.Duration(); d += startGrid {
			if fits(i+1, at.Add(d)) {
				return true
			}
		}
		return false
	}
	for d := time.Duration(0); d <= within; d += startGrid {
		if at := from.Add(d); fits(0, at) {
			// The taking out needs a stretch of waking too.
			for d := time.Duration(0); d < 3*wholeDay; d += startGrid {
				if through(day, at.Add(d), demoldTakes) {
					return at, true
				}
			}
		}
	}
	return time.Time{}, false
}

// checkChoice holds a choice against its windows and the maker's day.
func checkChoice(t *rapid.T, day Day, list []PourWindows, c StartChoice) {
	var pours []time.Time
	ready := c.Start
	for i, a := range c.Acts {
		if i > 0 && a.At.Before(c.Acts[i-1].At) {
			t.Fatalf("%s comes before what is done first", a.Label)
		}
		if a.At.Before(a.From) || !a.To.IsZero() && a.At.After(a.To) {
			t.Fatalf("%s at %s is not in %s to %s", a.Label, a.At, a.From, a.To)
		}
		takes := tackTakes
		switch a.Kind {
		case ActPour:
			k := len(pours)
			takes = list[k].PourTakes.Value.Duration()
			if k > 0 {
				after, below := a.At.Sub(pours[k-1]), list[k-1]
				if after < below.RecoatFrom.Value.Duration() || after > below.RecoatTo.Value.Duration() {
					t.Fatalf("%s comes %s after the one below", a.Label, after)
				}
			}
			pours = append(pours, a.At)
			if out := a.At.Add(list[k].Demold.Value.Duration()); out.After(ready) {
				ready = out
			}
		case ActDemold:
			takes = demoldTakes
			if a.At.Before(ready) {
				t.Fatalf("taken out at %s, ready at %s", a.At, ready)
			}
		case ActTack:
			if after := a.At.Sub(pours[len(pours)-1]); after < list[len(pours)-1].TackFrom.Value.Duration() {
				t.Fatalf("%s after %s", a.Label, after)
			}
		}
		if !through(day, a.At, takes) {
			t.Fatalf("%s at %s, asleep", a.Label, a.At.In(day.Zone))
		}
	}
	if len(pours) != len(list) || !pours[0].Equal(c.Start) || len(c.Acts) != 2*len(list) {
		t.Fatalf("the acts are %+v", c.Acts)
	}
}

func BenchmarkFindStarts(b *testing.B) {
	day := Day{clockHours(7, 0), clockHours(22, 30), zoneOf(b, "Europe/Lisbon")}
	var list []PourWindows
	for range 6 {
		list = append(list, onePourOnAnother(9*time.Hour, 12*time.Hour, 30*time.Hour)[0])
	}
	for _, days := range []time.Duration{7, 14, 28} {
		b.Run(fmt.Sprintf("days=%d", days), func(b *testing.B) {
			for b.Loop() {
				got, err := FindStarts(context.Background(), time.Date(2026, 11, 25, 9, 10, 0, 0, time.UTC), days*wholeDay, day, always(list...))
				if err != nil || len(got.Choices) == 0 {
					b.Fatal(got.None, err)
				}
			}
		})
	}
}
