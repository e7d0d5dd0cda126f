package model

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
)

// Place gives the shop's time zone; the machine's own where none is named, or
// none of that name is known here. Only how an instant is read and written
// hangs on it: what is kept is UTC.
func (s *Shop) Place() *time.Location {
	if s.Zone != "" {
		if place, err := time.LoadLocation(s.Zone); err == nil {
			return place
		}
	}
	return time.Local
}

// instantForm is how an instant is written for the maker.
const instantForm = "Mon 2 Jan 2006, 15:04"

// ParseInstant reads a day and a time of day as a clock in the place shows
// them, and gives the instant in UTC: "Fri 27 Nov 18:40", "27 November 2026,
// 6:40 pm", "2026-11-27 18:40". Without a year it is the first such day (of
// such a weekday, where one is named) on or after the day of since. Where the
// clocks go back and the hour comes twice, it is the first of them.
func ParseInstant(text string, place *time.Location, since time.Time) (time.Time, error) {
	day, rest, err := readDay(strings.Fields(strings.ToLower(strings.ReplaceAll(isoSpace(text), ",", " "))))
	if err != nil {
		return time.Time{}, err
	}
	hour := strings.Join(rest, " ")
	if !strings.ContainsAny(hour, ":.m") { // a bare number may be the beginning of a year
		return time.Time{}, errors.New("say the time of day too, such as 18:40")
	}
	clock, err := ParseTimeOfDay(hour)
	if err != nil {
		return time.Time{}, err
	}
	of, _ := clock.Clock()
	if day.year, err = day.inYear(place, since); err != nil {
		return time.Time{}, err
	}
	if day.year < 1970 || day.year > 2200 {
		return time.Time{}, errors.New("the year should be between 1970 and 2200")
	}
	at, ok := wallClock(day, of, place)
	if !ok {
		return time.Time{}, fmt.Errorf("the clocks go forward then: there is no %s on that day", clock)
	}
	return at.UTC(), nil
}

// isoSpace puts a space where an ISO instant has a T between day and time.
func isoSpace(text string) string {
	text = strings.TrimSpace(text)
	if len(text) > 10 && (text[10] == 'T' || text[10] == 't') && text[4] == '-' {
		return text[:10] + " " + text[11:]
	}
	return text
}

// calendarDay is a day as written; a year of 0 and a weekday of -1 were not.
type calendarDay struct {
	year    int
	month   time.Month
	day     int
	weekday time.Weekday
}

// readDay reads the day at the start of the words and gives the words behind.
func readDay(words []string) (calendarDay, []string, error) {
	const want = "write it like Fri 27 Nov 18:40 or 2026-11-27 18:40"
	d := calendarDay{weekday: -1}
	if len(words) > 0 {
		if at, err := time.Parse(time.DateOnly, words[0]); err == nil {
			return calendarDay{at.Year(), at.Month(), at.Day(), -1}, words[1:], nil
		}
		if i, ok := nameIn(words[0], 7, func(i int) string { return time.Weekday(i).String() }); ok {
			d.weekday, words = time.Weekday(i), words[1:]
		}
	}
	if len(words) < 2 {
		return d, nil, errors.New(want)
	}
	for _, order := range [][2]int{{0, 1}, {1, 0}} {
		n, err := strconv.Atoi(strings.TrimRight(words[order[0]], ".dhnrst"))
		m, ok := nameIn(words[order[1]], 12, func(i int) string { return time.Month(i + 1).String() })
		if err == nil && ok {
			d.day, d.month = n, time.Month(m+1)
		}
	}
	if d.month == 0 {
		return d, nil, errors.New(want)
	}
	words = words[2:]
	if len(words) > 0 && len(words[0]) == 4 {
		if y, err := strconv.Atoi(words[0]); err == nil {
			d.year, words = y, words[1:]
		}
	}
	if len(words) > 0 && words[0] == "at" {
		words = words[1:]
	}
	if d.day < 1 || d.day > 31 {
		return d, nil, fmt.Errorf("%s has no day %d", d.month, d.day)
	}
	return d, words, nil
}

// nameIn finds the name, of n, that a word is or begins, with three letters or
// more.
func nameIn(word string, n int, name func(int) string) (int, bool) {
	word = strings.TrimSuffix(word, ".")
	for i := range n {
		if len(word) >= 3 && strings.HasPrefix(strings.ToLower(name(i)), word) {
			return i, true
		}
	}
	return 0, false
}

// inYear gives the year of a day: its own, or the first on or after since in
// which there is such a day.
func (d calendarDay) inYear(place *time.Location, since time.Time) (int, error) {
	if d.year != 0 {
		switch at := d.date(d.year, time.UTC); {
		case at.Day() != d.day:
			return 0, fmt.Errorf("there is no %d %s in %d", d.day, d.month, d.year)
		case d.weekday >= 0 && at.Weekday() != d.weekday:
			return 0, fmt.Errorf("%s is a %s", at.Format("2 January 2006"), at.Weekday())
		}
		return d.year, nil
	}
	if since.IsZero() {
		return 0, errors.New("say the year too: 2026-11-27 18:40")
	}
	y, m, day := since.In(place).Date()
	first := time.Date(y, m, day, 0, 0, 0, 0, time.UTC)
	for year := y; year < y+29; year++ { // in 28 years every weekday comes round
		at := d.date(year, time.UTC)
		if at.Day() == d.day && !at.Before(first) && (d.weekday < 0 || at.Weekday() == d.weekday) {
			return year, nil
		}
	}
	return 0, fmt.Errorf("there is no %d %s", d.day, d.month)
}

// date gives the start of the day in a year.
func (d calendarDay) date(year int, place *time.Location) time.Time {
	return time.Date(year, d.month, d.day, 0, 0, 0, 0, place)
}

// wallClock gives the first instant at which a clock in the place shows the
// time of the day; false where it leaves that out.
func wallClock(d calendarDay, of time.Duration, place *time.Location) (time.Time, bool) {
	h, m := int(of/time.Hour), int(of/time.Minute)%60
	at := time.Date(d.year, d.month, d.day, h, m, 0, 0, place)
	for _, back := range []time.Duration{time.Hour, 30 * time.Minute, 0} { // clocks go back by so much
		if t := at.Add(-back); t.Day() == d.day && t.Hour() == h && t.Minute() == m {
			return t, true
		}
	}
	return time.Time{}, false
}

// latest is the newest instant that the project knows of.
func (p *Project) latest() time.Time {
	at := p.Created
	for _, e := range p.Journal {
		if e.At.After(at) {
			at = e.At
		}
	}
	return at
}
