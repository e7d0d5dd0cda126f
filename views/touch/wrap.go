package touch

import (
	"iter"
	"slices"
	"strings"
)

// wrap breaks text into lines no wider than width, at spaces; a word that is
// wider than that stands alone, and a number keeps its unit. Line breaks in the
// text stay. A width of 0 or less breaks nowhere else.
func wrap(text string, width float32, measure func(string) float32) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		if width <= 0 || measure(paragraph) <= width {
			lines = append(lines, paragraph)
			continue
		}
		line := ""
		for word := range words(paragraph) {
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

// widestWord is the width of the widest word of text.
func widestWord(text string, measure func(string) float32) float32 {
	var widest float32
	for word := range words(text) {
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
