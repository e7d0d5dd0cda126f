package model

import (
	"fmt"
	"strings"
	"time"
)

// Date is a day of the calendar as "2026-11-25", without an hour and a zone: a
// bottle is opened, and runs out, on a day. Empty is not given. As text, dates
// of one form compare as they follow each other.
type Date string

// dateForm is how a date is kept.
const dateForm = time.DateOnly

// DateOf gives the day of an instant, in the instant's own zone.
func DateOf(t time.Time) Date { return Date(t.Format(dateForm)) }

// ParseDate reads a day: "2026-11-25", "25 Nov 2026", "November 25, 2026". Of a
// month alone, as labels give it ("11/2027", "Nov 2027"), it is the last day.
// Days as 3/4/2026 are refused: half of the world reads them the other way.
func ParseDate(text string) (Date, error) {
	text = strings.Join(strings.Fields(strings.ReplaceAll(text, ",", " ")), " ")
	for _, layout := range []string{"2006-1-2", "2006/1/2", "2 Jan 2006", "2 January 2006", "2. January 2006", "Jan 2 2006", "January 2 2006", "2-Jan-2006"} {
		if t, err := time.Parse(layout, text); err == nil {
			return DateOf(t), nil
		}
	}
	for _, layout := range []string{"2006-1", "1/2006", "1-2006", "1.2006", "Jan 2006", "January 2006"} {
		if t, err := time.Parse(layout, text); err == nil {
			return DateOf(t.AddDate(0, 1, -1)), nil
		}
	}
	return "", fmt.Errorf("“%s” is no day that can be read one way only; write it like 25 Nov 2026, or 11/2027 for a month", clip(text))
}

// Start gives the first instant of the day in UTC; false when not given.
func (d Date) Start() (time.Time, bool) {
	t, err := time.Parse(dateForm, string(d))
	return t, err == nil
}

// Given tells whether the day was given.
func (d Date) Given() bool { return d != "" }

// AddMonths gives the same day so many months later, or the last of that month
// where it has no such day: a month after 31 January is 28 or 29 February.
func (d Date) AddMonths(n int) Date {
	t, ok := d.Start()
	if !ok {
		return ""
	}
	first := time.Date(t.Year(), t.Month()+time.Month(n), 1, 0, 0, 0, 0, time.UTC)
	last := first.AddDate(0, 1, -1).Day()
	return DateOf(first.AddDate(0, 0, min(t.Day(), last)-1))
}

// AddDays gives the day so many days later.
func (d Date) AddDays(n int) Date {
	t, ok := d.Start()
	if !ok {
		return ""
	}
	return DateOf(t.AddDate(0, 0, n))
}

// Words writes the day for reading: "25 November 2026".
func (d Date) Words() string {
	t, ok := d.Start()
	if !ok {
		return ""
	}
	return t.Format("2 January 2006")
}

// whole tells whether the day is written as it is kept, in a year that a shop
// can mean.
func (d Date) whole() bool {
	t, ok := d.Start()
	return ok && DateOf(t) == d && t.Year() >= 1970 && t.Year() <= 2200
}
