package unit

import (
	"math"
	"strconv"
)

// Span writes a length of time as one would say it: 45 s, 4 min 30 s, 45 min,
// 2 h 24 min under ten hours, 23.8 h under three days, and 7 d above.
func (s Style) Span(d Span) string {
	seconds := float64(d)
	if !finite(seconds) {
		return unknown
	}
	sign := ""
	if seconds < 0 {
		sign, seconds = "-", -seconds
	}
	if math.Round(seconds) == 0 {
		return "0 min"
	}
	switch {
	case seconds < 59.5:
		return sign + with(seconds, 0, "s")
	case seconds < 10*60:
		return sign + pair(seconds, "min", "s")
	case seconds < 59.5*60:
		return sign + with(seconds/60, 0, "min")
	case seconds < 10*3600-30:
		return sign + pair(seconds/60, "h", "min")
	case seconds < 72*3600:
		return sign + with(seconds/3600, 1, "h")
	}
	return sign + with(seconds/86400, 1, "d")
}

// pair writes v, counted in small units, as so many large ones of sixty small
// ones each and the rest.
func pair(v float64, large, small string) string {
	n := int64(math.Round(v))
	text := strconv.FormatInt(n/60, 10) + " " + large
	if n%60 != 0 {
		text += " " + strconv.FormatInt(n%60, 10) + " " + small
	}
	return text
}
