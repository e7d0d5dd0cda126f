package touch

import (
	"iter"
	"slices"
	"strings"
)

// longestWord is how many letters a word has at most that is never broken, and
// brokenWord how many of a longer one stand together at least.
const longestWord, brokenWord = 20, 10

// wrap breaks text into lines no wider than width, at spaces; a word that is
// wider than that stands alone, or is broken where it is a very long one, and a
// number keeps its unit. Line breaks in the text stay. A width of 0 or less breaks
// nowhere else. measure gives how wide words are on one line; more words are wider.
func wrap(text string, width float32, measure func(string) float32) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		if width <= 0 || measure(paragraph) <= width {
			lines = append(lines, paragraph)
			continue
		}
		rest := slices.Collect(words(paragraph))
		if len(rest) == 0 {
			lines = append(lines, "")
		}
		space := measure(" ")
		for whole := longestWord; len(rest) > 0; {
			if len([]rune(rest[0])) > whole && measure(rest[0]) > width {
				var head string
				head, rest[0] = broken(rest[0], width, measure)
				lines, whole = append(lines, head), brokenWord
				continue
			}
			n := fitting(rest, width, space, measure)
			lines, rest, whole = append(lines, strings.Join(rest[:n], " ")), rest[n:], longestWord
		}
	}
	return lines
}

// fitting tells how many of the words have room on one line; the first always
// stands there. How wide they are together is guessed from each, which is measured
// already for most; only about the end of the line is it measured.
func fitting(list []string, width, space float32, measure func(string) float32) int {
	n, guess := 1, measure(list[0])
	for ; n < len(list); n++ {
		if guess += space + measure(list[n]); guess > width {
			break
		}
	}
	fits := func(n int) bool { return measure(strings.Join(list[:n], " ")) <= width }
	if n > 1 && !fits(n) {
		for n--; n > 1 && !fits(n); n-- {
		}
		return n
	}
	for n < len(list) && fits(n+1) {
		n++
	}
	return n
}

// broken cuts off as much of the beginning of a word as has room.
func broken(word string, width float32, measure func(string) float32) (head, tail string) {
	letters := []rune(word)
	n := brokenWord
	for n < len(letters)-1 && measure(string(letters[:n+1])) <= width {
		n++
	}
	return string(letters[:n]), string(letters[n:])
}

// widestWord is the width of the widest word of text, or of as much of it as is
// never broken.
func widestWord(text string, measure func(string) float32) float32 {
	var widest float32
	for word := range words(text) {
		if letters := []rune(word); len(letters) > longestWord {
			word = string(letters[:brokenWord])
		}
		widest = max(widest, measure(word))
	}
	return widest
}

// trailing are the units that stand behind their number on the same line.
var trailing = []string{
	"mm", "cm", "m", "in", "ft", "ml", "l", "fl", "g", "kg", "oz", "lb", "%", "°", "°C", "°F",
	"min", "h", "d", "s", "g/ml", "kg/m³", "cm²", "in²", "m²", "mPa·s", "kJ/mol",
}

// words gives the words of text, a number and the unit behind it as one.
func words(text string) iter.Seq[string] {
	return func(yield func(string) bool) {
		held := ""
		for word := range strings.FieldsSeq(text) {
			bare := strings.TrimRight(word, ".,;:)?")
			if held != "" && slices.Contains(trailing, bare) && endsInDigit(held) {
				word = held + " " + word
			} else if held != "" && !yield(held) {
				return
			}
			held = word
		}
		if held != "" {
			yield(held)
		}
	}
}

// endsInDigit tells whether the last sign of a word is a digit.
func endsInDigit(word string) bool {
	last := word[len(word)-1]
	return last >= '0' && last <= '9'
}
