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
// nowhere else.
func wrap(text string, width float32, measure func(string) float32) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		if width <= 0 || measure(paragraph) <= width {
			lines = append(lines, paragraph)
			continue
		}
		line := ""
		for word := range words(paragraph) {
			for whole := longestWord; len([]rune(word)) > whole && measure(word) > width; whole = brokenWord {
				if line != "" {
					lines = append(lines, line)
				}
				line, word = broken(word, width, measure)
				lines, line = append(lines, line), ""
			}
			switch longer := line + " " + word; {
			case line == "":
				line = word
			case measure(longer) <= width:
				line = longer
			default:
				lines = append(lines, line)
				line = word
			}
		}
		lines = append(lines, line)
	}
	return lines
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
