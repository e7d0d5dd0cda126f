package touch

import "strings"

// wrap breaks text into lines no wider than width, at spaces; a word that is
// wider than that stands alone. Line breaks in the text stay. A width of 0 or
// less breaks nowhere else.
func wrap(text string, width float32, measure func(string) float32) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		if width <= 0 || measure(paragraph) <= width {
			lines = append(lines, paragraph)
			continue
		}
		line := ""
		for word := range strings.FieldsSeq(paragraph) {
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
	for word := range strings.FieldsSeq(text) {
		widest = max(widest, measure(word))
	}
	return widest
}
