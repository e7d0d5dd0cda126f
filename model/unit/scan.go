package unit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// mostRunes is the longest text that is read as a quantity, in characters.
const mostRunes = 64

// scanner walks over the text of one quantity. Its methods never look outside
// the text and always move forward, so that reading ends for any text.
type scanner struct {
	text string
	kind *kind
	want string
	pos  int
}

// newScanner starts to read a quantity of the kind k. It refuses a text that
// is empty, too long or not text at all.
func newScanner(text string, k *kind, want string) (*scanner, error) {
	s := &scanner{text: text, kind: k, want: want}
	runes := 0
	for i, r := range text {
		if runes == mostRunes {
			return nil, s.fail(i, "is too long to be "+k.noun)
		}
		if r == utf8.RuneError {
			return nil, s.fail(i, "has a sign that cannot be read")
		}
		runes++
	}
	s.skipSpace()
	if s.done() {
		return nil, s.fail(0, "is empty")
	}
	return s, nil
}

// fail makes the error for a fault at the byte offset pos.
func (s *scanner) fail(pos int, reason string) error {
	return &ParseError{Text: s.text, Pos: pos, Reason: reason, Want: s.want}
}

// failFraction makes the error for a fault in a fraction; a length is then
// best written in inches.
func (s *scanner) failFraction(pos int, reason string) error {
	want := s.want
	if s.kind == &lengths {
		want = "10 3/8 in"
	}
	return &ParseError{Text: s.text, Pos: pos, Reason: reason, Want: want}
}

func (s *scanner) done() bool { return s.pos >= len(s.text) }

// runeAt gives the rune at a byte offset and the offset behind it, or 0 at the
// end of the text.
func (s *scanner) runeAt(pos int) (rune, int) {
	if pos >= len(s.text) {
		return 0, pos
	}
	r, size := utf8.DecodeRuneInString(s.text[pos:])
	return r, pos + size
}

func (s *scanner) peek() rune {
	r, _ := s.runeAt(s.pos)
	return r
}

func (s *scanner) skipSpace() { s.pos = s.afterSpace(s.pos) }

// afterSpace gives the offset of the first rune from pos that is not a space.
func (s *scanner) afterSpace(pos int) int {
	for {
		r, next := s.runeAt(pos)
		if r == 0 || !unicode.IsSpace(r) {
			return pos
		}
		pos = next
	}
}

// afterDigits gives the offset behind the plain digits that start at pos.
func (s *scanner) afterDigits(pos int) int {
	for pos < len(s.text) && isDigit(rune(s.text[pos])) {
		pos++
	}
	return pos
}

func isDigit(r rune) bool { return '0' <= r && r <= '9' }

// isDash tells whether r is written for a minus or a hyphen.
func isDash(r rune) bool {
	switch r {
	case '-', '‐', '‑', '–', '−':
		return true
	}
	return false
}

// isSlash tells whether r stands between the parts of a fraction.
func isSlash(r rune) bool { return r == '/' || r == '⁄' || r == '∕' }

// startsAmount tells whether a number can begin at pos.
func (s *scanner) startsAmount(pos int) bool {
	r, next := s.runeAt(pos)
	if r == '.' || r == ',' {
		r, _ = s.runeAt(next)
		return isDigit(r)
	}
	if _, _, ok := vulgar(r); ok {
		return true
	}
	_, raised := superscript(r)
	return isDigit(r) || raised
}

// fold gives the form of r by which units are compared: small letters, one
// sign for each mark, and 0 for what only stands between (a space, a point, a
// raised dot).
func fold(r rune) rune {
	switch r {
	case '′', '’', '‘', 'ʹ':
		return '\''
	case '″', '”', '“', 'ʺ':
		return '"'
	case 'º', '˚':
		return '°'
	case '²':
		return '2'
	case '³':
		return '3'
	case '⁄', '∕':
		return '/'
	case 'ℓ':
		return 'l'
	case '.', '·', '⋅', '∙', '*', '^':
		return 0
	}
	if unicode.IsSpace(r) {
		return 0
	}
	return unicode.ToLower(r)
}

// unitAt finds the longest name out of units that starts at pos, and gives the
// offset behind it. A name ends where the word does: "inx" is not "in".
func (s *scanner) unitAt(units map[string]measure, pos int) (found measure, end int, ok bool) {
	var name strings.Builder
	var last rune
	for at := pos; at < len(s.text); {
		r, next := s.runeAt(at)
		f := fold(r)
		switch {
		case r == '℃':
			name.WriteRune('°')
			f = 'c'
		case r == '℉':
			name.WriteRune('°')
			f = 'f'
		}
		follows, _ := s.runeAt(next)
		switch {
		case isDigit(r) && r != '2' && r != '3', isDigit(r) && !unicode.IsLetter(last) && last != '^':
			return found, end, ok
		case r == '.' && (!unicode.IsLetter(last) || isDigit(follows)):
			return found, end, ok
		case f == 0:
		case unicode.IsLetter(f), isDigit(f), f == '\'', f == '"', f == '°', f == '/', f == '%':
			name.WriteRune(f)
		default:
			return found, end, ok
		}
		last = r
		at = next
		key := name.String()
		if key == "''" {
			key = `"`
		}
		whole := f != 0 || r == '.'
		if unicode.IsLetter(f) && unicode.IsLetter(follows) {
			whole = false
		}
		if m, known := units[key]; known && whole {
			found, end, ok = m, next, true
		}
	}
	return found, end, ok
}

// foreign finds a unit of another kind at pos that runs to the end of the
// text, and gives that kind's noun.
func (s *scanner) foreign(pos, least int) (noun string, ok bool) {
	for _, k := range kinds {
		if k == s.kind {
			continue
		}
		if _, end, found := s.unitAt(k.units, pos); found && end > least && s.afterSpace(end) == len(s.text) {
			return k.noun, true
		}
	}
	return "", false
}

// word gives the run of letters and marks at pos, for a message.
func (s *scanner) word(pos int) string {
	end := pos
	for end < len(s.text) {
		r, next := s.runeAt(end)
		if unicode.IsSpace(r) || isDigit(r) || (end > pos && !unicode.IsLetter(r)) {
			break
		}
		end = next
	}
	return s.text[pos:end]
}
