package drawing

import (
	"strconv"
	"strings"
)

// trimmed writes a number with at most n decimals and no idle zeros.
func trimmed(x float64, n int) string {
	t := strconv.FormatFloat(x, 'f', n, 64)
	if strings.Contains(t, ".") {
		t = strings.TrimRight(strings.TrimRight(t, "0"), ".")
	}
	if t == "-0" {
		return "0"
	}
	return t
}

// shortened cuts a text to a width with an ellipsis.
func shortened(s Surface, text string, l Lettering, width float64) string {
	if s.Measure(text, l) <= width {
		return text
	}
	r := []rune(text)
	for len(r) > 1 {
		r = r[:len(r)-1]
		if t := strings.TrimRight(string(r), " ") + "…"; s.Measure(t, l) <= width {
			return t
		}
	}
	return "…"
}
