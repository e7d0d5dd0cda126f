package touch

import (
	"regexp"
	"strconv"
	"strings"
)

// The functions here are what the keys of the keypad do to a text that holds a
// quantity as a maker writes it: "10 3/8 in", "5 ft 3", "264 mm".

var (
	lastNumber = regexp.MustCompile(`^(.*[0-9])([^0-9]*)$`)
	withPart   = regexp.MustCompile(`^(|.*[^0-9.,/])(?:([0-9]{1,6})[ ]+)?([0-9]{1,6})/([0-9]{1,6})$`)
	wholeOnly  = regexp.MustCompile(`^(|.*[^0-9.,/])([0-9]{1,6})$`)
)

// addFraction adds num/den to the last number of text: "10" and 1/2 make
// "10 1/2", and another 1/4 makes "10 3/4". A number written with a decimal
// point stays as it is.
func addFraction(text string, num, den int) string {
	body, tail := splitUnit(text)
	whole, n, d, front := 0, 0, 1, body
	if m := withPart.FindStringSubmatch(body); m != nil {
		front = m[1]
		whole, _ = strconv.Atoi(m[2])
		n, _ = strconv.Atoi(m[3])
		d, _ = strconv.Atoi(m[4])
	} else if m := wholeOnly.FindStringSubmatch(body); m != nil {
		front = m[1]
		whole, _ = strconv.Atoi(m[2])
	} else if body != "" {
		return text
	}
	if d == 0 {
		return text
	}
	sum := whole*d*den + n*den + num*d
	return front + writeFraction(sum, d*den) + tail
}

// writeFraction writes sum/den in lowest terms: "3", "1/2", "10 3/8".
func writeFraction(sum, den int) string {
	whole, rest := sum/den, sum%den
	if rest == 0 {
		return strconv.Itoa(whole)
	}
	g := gcd(rest, den)
	part := strconv.Itoa(rest/g) + "/" + strconv.Itoa(den/g)
	if whole == 0 {
		return part
	}
	return strconv.Itoa(whole) + " " + part
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// setUnit writes a unit behind the last number of text, in place of the one
// that stands there. Without a number there is nothing to put it behind.
func setUnit(text, unit string) string {
	body, _ := splitUnit(text)
	if body == "" {
		return text
	}
	return body + " " + unit
}

// flipSign puts a minus in front of text, or takes it away.
func flipSign(text string) string {
	if rest, ok := cutSign(text); ok {
		return rest
	}
	return "-" + text
}

func cutSign(text string) (string, bool) {
	for _, sign := range []string{"-", "−"} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			return rest, true
		}
	}
	return text, false
}

// erase takes the last thing away that one key wrote: a unit, a fraction or a
// sign.
func erase(text string) string {
	body, tail := splitUnit(text)
	if unit := strings.TrimSpace(tail); unit != "" && unit != "/" && unit != "." && unit != "," && body != "" {
		return body
	}
	if m := withPart.FindStringSubmatch(text); m != nil {
		return strings.TrimRight(m[1]+m[2], " ")
	}
	runes := []rune(text)
	if len(runes) == 0 {
		return ""
	}
	return strings.TrimRight(string(runes[:len(runes)-1]), " ")
}

// needsSpace tells whether a digit typed behind text starts a new number.
func needsSpace(text string) bool {
	_, tail := splitUnit(text)
	switch {
	case tail == "" || strings.HasSuffix(tail, " "):
		return false
	}
	switch strings.TrimSpace(tail) {
	case "", "/", ".", ",", "-", "−", ":", "±":
		return false
	}
	return strings.ContainsAny(text, "0123456789")
}

// splitUnit parts text behind its last digit. Without a digit all is tail.
func splitUnit(text string) (body, tail string) {
	if m := lastNumber.FindStringSubmatch(text); m != nil {
		return m[1], m[2]
	}
	return "", text
}
