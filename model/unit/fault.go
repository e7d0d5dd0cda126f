package unit

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// ParseError tells why a text could not be read as a quantity, in a maker's
// words. Reason is the part of a sentence that follows the text, such as
// "stops after the slash"; Want is a text that would have been read.
type ParseError struct {
	Text   string
	Pos    int // byte offset in Text of what could not be read
	Reason string
	Want   string
}

// Error gives the whole sentence: what was written, what is the matter, where
// (characters are counted from 1), and how it could be written.
func (e *ParseError) Error() string {
	var b strings.Builder
	if strings.TrimSpace(e.Text) == "" {
		b.WriteString("nothing is written")
	} else {
		b.WriteString("“" + shown(e.Text) + "” " + e.Reason + " at character " + strconv.Itoa(e.Character()))
	}
	if e.Want != "" {
		b.WriteString("; write it like " + e.Want)
	}
	return b.String()
}

// Character gives the place of the fault counted in characters from 1.
func (e *ParseError) Character() int {
	pos := min(max(e.Pos, 0), len(e.Text))
	return utf8.RuneCountInString(e.Text[:pos]) + 1
}

// shown gives a text as it can stand in a sentence: one line, at most 32
// characters, without signs that cannot be printed.
func shown(text string) string {
	const most = 32
	var b strings.Builder
	n := 0
	for _, r := range strings.TrimSpace(text) {
		if n == most {
			b.WriteString("…")
			break
		}
		switch {
		case unicode.IsSpace(r):
			r = ' '
		case !unicode.IsPrint(r):
			r = '�'
		}
		b.WriteRune(r)
		n++
	}
	return b.String()
}
