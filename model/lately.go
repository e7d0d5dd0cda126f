package model

import (
	"errors"
	"strings"
	"time"

	"meniscus/model/unit"
)

// ParseLately reads when something happened that is written down late, as a
// clock in the place shows it, and gives the instant in UTC: "23:30", which is
// the last time the clock showed that; "yesterday 23:30" or "23:30 yesterday";
// "20 min ago"; or a day and a time as ParseInstant reads them, the last such.
// Where the clocks go back and the hour comes twice, a time without its day is
// the second of them once that has come. Empty text is now. What is still to
// come, and an hour that the clocks leave out, is refused.
func ParseLately(text string, place *time.Location, now time.Time) (time.Time, error) {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(text, ",", " ")))
	if len(words) > 0 && words[0] == "at" {
		words = words[1:]
	}
	last := len(words) - 1
	switch {
	case last < 0 || last == 0 && words[0] == "now":
		return now.UTC(), nil
	case words[0] == "yesterday":
		return clockOn(-1, words[1:], place, now)
	case words[last] == "yesterday":
		return clockOn(-1, words[:last], place, now)
	case words[last] == "ago":
		return ago(words[:last], now)
	}
	switch at, err := clockOn(0, words, place, now); {
	case errors.Is(err, errLeftOut):
		return time.Time{}, err
	case err == nil && at.After(now):
		return clockOn(-1, words, place, now)
	case err == nil:
		return at, nil
	}
	if at, err := ago(words, now); err == nil && !strings.Contains(text, ":") {
		return at, nil
	}
	at, err := ParseInstant(text, place, now.AddDate(-1, 0, 1))
	switch {
	case err != nil:
		return time.Time{}, errors.New("write it like 23:30, yesterday 23:30, 20 min ago or Fri 27 Nov 18:40")
	case at.After(now):
		return time.Time{}, errors.New("this is still to come: only what has happened can be written down")
	}
	return at, nil
}

// errLeftOut refuses a time of day that no clock showed.
var errLeftOut = errors.New("the clocks go forward then: there is no such time on that day")

// clockOn reads a time of day on the day so many days after today: the second
// of two where it has come.
func clockOn(days int, words []string, place *time.Location, now time.Time) (time.Time, error) {
	clock, err := ParseTimeOfDay(strings.TrimPrefix(strings.Join(words, " "), "at "))
	if err != nil {
		return time.Time{}, err
	}
	of, _ := clock.Clock()
	y, m, d := now.In(place).AddDate(0, 0, days).Date()
	at, ok := wallClock(calendarDay{year: y, month: m, day: d}, of, place)
	if !ok {
		return time.Time{}, errLeftOut
	}
	for _, back := range []time.Duration{time.Hour, 30 * time.Minute} { // clocks go back by so much
		again := at.Add(back)
		if again.Format(clockForm) == at.Format(clockForm) && !again.After(now) {
			at = again
		}
	}
	return at.UTC(), nil
}

// ago reads how long ago it was.
func ago(words []string, now time.Time) (time.Time, error) {
	d, err := unit.ParseSpan(strings.Join(words, " "))
	if err != nil {
		return time.Time{}, err
	}
	if d < 0 {
		return time.Time{}, errors.New("this is still to come: only what has happened can be written down")
	}
	return now.Add(-d.Duration()).UTC().Truncate(time.Second), nil
}
