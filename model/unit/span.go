package unit

import "strings"

// ParseSpan reads a length of time: 45 min, 2.4 h, 2 h 30 min, 1 d 4 h, and
// 2:30 for two hours and a half. A number without a unit is in hours, and one
// behind hours in minutes.
func ParseSpan(text string) (Span, error) {
	if strings.Contains(text, ":") {
		return readClock(text)
	}
	v, err := read(text, &spans, spans.units["h"], spans.want)
	return Span(v), err
}

// readClock reads hours, minutes and perhaps seconds with colons between them.
// Minutes and seconds have two digits.
func readClock(text string) (Span, error) {
	s, err := newScanner(text, &spans, "2:30 or 2 h 30 min")
	if err != nil {
		return 0, err
	}
	start, total, scale := s.pos, 0.0, 1.0
	for field := range 3 {
		end := s.afterDigits(s.pos)
		n := end - s.pos
		switch {
		case n == 0 && field > 0:
			return 0, s.fail(s.pos-1, "stops after the colon")
		case n == 0:
			return 0, s.fail(s.pos, "has no hours in front of the colon")
		case field == 0 && n > 5:
			return 0, s.fail(s.pos, "is larger than anything in a shop")
		case field > 0 && n != 2:
			return 0, s.fail(s.pos, "needs two digits behind the colon")
		case field > 0 && s.text[s.pos] > '5':
			return 0, s.fail(s.pos, "has more than 59 behind the colon")
		}
		v := 0
		for _, c := range s.text[s.pos:end] {
			v = 10*v + int(c-'0')
		}
		scale = [...]float64{3600, 60, 1}[field]
		total += float64(v) * scale
		s.pos = end
		if r := s.peek(); r != ':' || field == 2 {
			break
		}
		s.pos++
	}
	if scale == 3600 {
		return 0, s.fail(start, "has a colon in the wrong place")
	}
	s.skipSpace()
	if m, end, ok := s.unitAt(spans.units, s.pos); ok && m.name == "h" && scale == 60 {
		s.pos = s.afterSpace(end)
	}
	if !s.done() {
		return 0, s.fail(s.pos, "has something behind the hours and minutes")
	}
	return Span(total), nil
}
