package views

import (
	"fmt"
	"strings"
	"time"
)

// inSeconds is below what a countdown is written in seconds.
const inSeconds = 10 * time.Minute

// countdown writes the time that is left: days and hours; under a day hours and
// minutes, and under an hour minutes, never more than there are; in the last ten
// minutes, in which a second counts, minutes and seconds, and 0:00 once it is
// over. A number that changes every second is a restless thing to stand beside
// for a night, and each change costs a drawing of the whole window.
func countdown(left time.Duration) string {
	seconds := int64((max(left, 0) + time.Second - 1) / time.Second)
	minutes, hours := seconds/60, seconds/3600
	days := "days"
	if hours < 48 {
		days = "day"
	}
	switch {
	case seconds < int64(inSeconds/time.Second):
		return fmt.Sprintf("%d:%02d", minutes, seconds%60)
	case hours == 0:
		return fmt.Sprintf("%d min", minutes)
	case hours < 24:
		return fmt.Sprintf("%d h %d min", hours, minutes%60)
	}
	return fmt.Sprintf("%d %s %d h", hours/24, days, hours%24)
}

// until writes the time from now to an instant as countdown does. As long as it
// is minutes, they are those between the two as a clock on the wall shows them,
// so that all countdowns turn over together, once a minute and with that clock.
func until(due, now time.Time) string {
	left := due.Sub(now)
	if left >= inSeconds {
		left = max(due.Truncate(time.Minute).Sub(now.Truncate(time.Minute)), inSeconds)
	}
	return countdown(left)
}

// untilWords is until where minutes and seconds stand without a word beside them.
func untilWords(due, now time.Time) string {
	text := until(due, now)
	if strings.Contains(text, ":") {
		text += " min"
	}
	return text
}

// shopClock writes instants as the clock in the shop shows them. A night in
// which the clocks are changed changes what it writes, never how long something
// takes.
type shopClock struct {
	zone  string
	place *time.Location
}

// set turns the clock to a time zone by its IANA name; none, or one that this
// machine does not know, is the machine's own.
func (c *shopClock) set(zone string) {
	if c.place != nil && c.zone == zone {
		return
	}
	c.zone, c.place = zone, time.Local
	if zone != "" {
		if place, err := time.LoadLocation(zone); err == nil {
			c.place = place
		}
	}
}

// full writes the date with its weekday and the time with its zone.
func (c *shopClock) full(t time.Time) string {
	return c.in(t).Format("Monday 2 January 2006, 15:04 MST")
}

// soon writes an instant after another: the time alone on the same day.
func (c *shopClock) soon(before, t time.Time) string {
	if c.in(before).Format(time.DateOnly) == c.in(t).Format(time.DateOnly) {
		return c.in(t).Format("15:04")
	}
	return c.near(t, before)
}

// short writes the weekday and the time.
func (c *shopClock) short(t time.Time) string { return c.in(t).Format("Mon 15:04") }

// dayTime writes the weekday, the day and the time, where the zone is plain.
func (c *shopClock) dayTime(t time.Time) string { return c.in(t).Format("Mon 2 Jan, 15:04") }

// dated writes the weekday, the day and the time with its zone.
func (c *shopClock) dated(t time.Time) string { return c.in(t).Format("Mon 2 Jan, 15:04 MST") }

// long writes the weekday in full and the time, and the date where the weekday
// alone could be mistaken.
func (c *shopClock) long(t, now time.Time) string {
	t, now = c.in(t), c.in(now)
	if t.Sub(now).Abs() < 6*24*time.Hour {
		return t.Format("Monday 15:04")
	}
	if t.Year() != now.Year() || farOff(t, now) {
		return t.Format("Monday 2 January 2006, 15:04")
	}
	return t.Format("Monday 2 January, 15:04")
}

// happened writes what may be long past like dated, with the year where it is.
func (c *shopClock) happened(t, now time.Time) string {
	if farOff(t, now) {
		return c.in(t).Format("Mon 2 Jan 2006, 15:04 MST")
	}
	return c.dated(t)
}

// farOff tells whether half a year or more lies between two instants, so that a day
// without its year could be mistaken.
func farOff(a, b time.Time) bool { return a.Sub(b).Abs() > 182*24*time.Hour }

func (c *shopClock) in(t time.Time) time.Time {
	if c.place == nil {
		return t.Local()
	}
	return t.In(c.place)
}
