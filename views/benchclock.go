package views

import (
	"strings"
	"time"

	"meniscus/model"
)

// benchClock writes the time that a moment tells as a countdown does, and what
// its parts are where that does not go without saying. What is gone is never
// told as more than it is.
func benchClock(m *model.Moment, now time.Time) (figure, form string) {
	if m.Number == model.NumberLeft {
		figure = until(m.At, now)
	} else {
		figure = countdown(m.Value(now).Truncate(time.Second))
	}
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
