package views

import (
	"strings"
	"time"
)

// benchClock writes a time as a countdown does, and what its parts are where
// that does not go without saying. What is left is never told as less than there
// is, what is gone never as more.
func benchClock(d time.Duration, left bool) (figure, form string) {
	if !left {
		d = d.Truncate(time.Second)
	}
	figure = countdown(d)
	if strings.Contains(figure, ":") {
		form = " (min:s)"
	}
	return figure, form
}

// benchWidest is a time with the widest digits that it can have, so that the
// size of the digits does not change from second to second.
func benchWidest(figure string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return '0'
		}
		return r
	}, figure)
}
