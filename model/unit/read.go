package unit

import (
	"strings"
	"unicode"
)

// reading is one number with its unit.
type reading struct {
	amount
	unit   measure
	stated bool // the unit was written
}

// readAll reads the whole text as one quantity of the kind k: a sign and one
// reading, or several in falling units where the kind allows it.
func readAll(text string, k *kind, bare measure, want string) (negative bool, parts []reading, err error) {
	s, err := newScanner(text, k, want)
	if err != nil {
		return false, nil, err
	}
	if negative, err = s.sign(); err != nil {
		return false, nil, err
	}
	for {
		a, err := s.amount()
		if err != nil {
			return false, nil, err
		}
		r, err := s.unit(a, bare, parts)
		if err != nil {
			return false, nil, err
		}
		parts = append(parts, r)
		if s.skipSpace(); s.done() {
			return negative, parts, nil
		}
		if err := s.next(r); err != nil {
			return false, nil, err
		}
	}
}

// read reads a quantity whose units are in a straight ratio to SI.
func read(text string, k *kind, bare measure, want string) (float64, error) {
	negative, parts, err := readAll(text, k, bare, want)
	if err != nil {
		return 0, err
	}
	sum := 0.0
	for _, p := range parts {
		sum += p.unit.si(p.value)
	}
	if negative {
		return 0 - sum, nil
	}
	return sum, nil
}

// sign reads a sign in front of a quantity.
func (s *scanner) sign() (negative bool, err error) {
	at := s.pos
	r, next := s.runeAt(at)
	dash := isDash(r)
	if !dash && r != '+' && r != '±' {
		return false, nil
	}
	s.pos = next
	s.skipSpace()
	switch again := s.peek(); {
	case s.done():
		return false, s.fail(at, "stops after the sign")
	case isDash(again) || again == '+' || again == '±':
		return false, s.fail(s.pos, "has two signs")
	case dash && !s.kind.signed:
		return false, s.fail(at, "is below zero, which "+s.kind.noun+" cannot be,")
	}
	return dash, nil
}

// unit reads the unit behind the amount a. Without one the first amount has
// the bare unit, and one behind feet is inches, behind hours minutes.
func (s *scanner) unit(a amount, bare measure, before []reading) (reading, error) {
	r := reading{amount: a, unit: bare}
	at := s.afterSpace(s.pos)
	m, end, ok := s.unitAt(s.kind.units, at)
	if ok {
		r.unit, r.stated, s.pos = m, true, end
		if next, after := s.runeAt(end); isDigit(next) || next == '²' || next == '³' || unicode.IsLetter(next) {
			if noun, other := s.foreign(at, end); other {
				return r, s.fail(at, "is "+noun+", and "+s.kind.noun+" is wanted,")
			}
		} else if next == '.' {
			if digit, _ := s.runeAt(after); isDigit(digit) {
				return r, s.fail(end, "has a point that is unclear after the unit")
			}
		}
	} else if at < len(s.text) {
		return r, s.noUnit(at)
	} else if len(before) > 0 {
		switch before[len(before)-1].unit.name {
		case "ft":
			r.unit = s.kind.units["in"]
		case "h":
			r.unit = s.kind.units["min"]
		default:
			return r, s.fail(a.pos, "has no unit after the last number")
		}
	}
	if len(before) == 0 {
		return r, nil
	}
	prior := before[len(before)-1]
	switch {
	case prior.unit.of != r.unit.of:
		return r, s.fail(a.pos, "mixes "+prior.unit.name+" and "+r.unit.name)
	case r.unit.name == prior.unit.name:
		return r, s.fail(a.pos, "has the same unit twice")
	case r.unit.si(1) >= prior.unit.si(1):
		return r, s.fail(a.pos, "has the larger unit behind the smaller one")
	case r.unit.si(r.value) >= prior.unit.si(1)*(1-1e-12):
		return r, s.fail(a.pos, "has more "+r.unit.name+" than make one "+prior.unit.name)
	}
	return r, nil
}

// next decides what may follow the reading r, and stands on the next amount.
func (s *scanner) next(r reading) error {
	at := s.pos
	c, after := s.runeAt(at)
	feet := r.unit.name == "ft"
	if s.kind.compound && ((c == ',' && s.afterSpace(after) > after) || (feet && isDash(c))) {
		s.pos = s.afterSpace(after)
	}
	switch {
	case s.kind.compound && s.startsAmount(s.pos):
		if !r.whole {
			return s.fail(r.pos, "has a fraction in front of the last unit")
		}
		return nil
	case !s.startsAmount(at):
		return s.trouble(at)
	}
	return s.fail(at, "has a second number")
}

// noNumber tells why no number starts at the scanner.
func (s *scanner) noNumber() error {
	r, _ := s.runeAt(s.pos)
	switch word := s.word(s.pos); {
	case s.done():
		return s.fail(s.pos, "stops before the number")
	case r == '∞' || isWord(word, "nan", "inf", "infinity"):
		return s.fail(s.pos, "is not a number that can be measured")
	case isSlash(r):
		return s.failFraction(s.pos, "starts with a slash")
	case r == '.' || r == ',':
		return s.fail(s.pos, "has no digit after the mark")
	case unicode.IsDigit(r):
		return s.fail(s.pos, "has a digit of another script, “"+shown(word)+"”,")
	case s.knows(s.pos):
		return s.fail(s.pos, "has a unit but no number in front of it")
	case unicode.IsLetter(r):
		return s.fail(s.pos, "has a word where a number is wanted")
	}
	return s.strange(s.pos, r)
}

// noUnit tells why no unit starts at the byte offset at, behind an amount.
func (s *scanner) noUnit(at int) error {
	word := s.word(at)
	r, next := s.runeAt(at)
	follows, _ := s.runeAt(next)
	if isWord(word, "e") && (isDigit(follows) || isDash(follows) || follows == '+') {
		return s.fail(at, "has an exponent; write the number out")
	}
	if isWord(word, "mil", "mils") && s.kind == &lengths {
		return s.fail(at, "has a unit that means two things, “mil”,")
	}
	if noun, ok := s.foreign(at, at); ok && len(s.kind.units) > 0 {
		return s.fail(at, "is "+noun+", and "+s.kind.noun+" is wanted,")
	}
	if unicode.IsLetter(r) && !isWord(word, "x", "by") {
		if len(s.kind.units) == 0 {
			return s.fail(at, "has a unit, but "+s.kind.noun+" is wanted,")
		}
		return s.fail(at, "has a unit that is not known, “"+shown(word)+"”,")
	}
	return s.trouble(at)
}

// trouble tells why the text cannot go on at the byte offset at.
func (s *scanner) trouble(at int) error {
	r, next := s.runeAt(at)
	follows := s.afterSpace(next)
	switch word := s.word(at); {
	case isDash(r) && follows == len(s.text):
		return s.fail(at, "stops after the dash")
	case isDash(r) && s.startsAmount(follows):
		return s.fail(at, "has two numbers with a dash between them")
	case r == '±':
		return s.fail(at, "has a tolerance behind it")
	case r == '+':
		return s.fail(at, "has a plus that joins nothing")
	case isSlash(r):
		return s.failFraction(at, "has a slash too many")
	case r == '.' || r == ',':
		return s.fail(at, "has no digit after the mark")
	case isDigit(r) || s.startsAmount(at):
		return s.fail(at, "has two numbers with no unit between them")
	case r == '×' || r == '*' || isWord(word, "x", "by"):
		return s.fail(at, "has more than one size")
	case unicode.IsLetter(r):
		return s.fail(at, "has a word too many, “"+shown(word)+"”,")
	}
	return s.strange(at, r)
}

// strange makes the error for a sign that has no meaning where it stands.
func (s *scanner) strange(at int, r rune) error {
	if !unicode.IsPrint(r) {
		return s.fail(at, "has a sign that cannot be seen")
	}
	return s.fail(at, "has a sign that does not belong there, “"+string(r)+"”,")
}

// knows tells whether a unit of any kind starts at pos.
func (s *scanner) knows(pos int) bool {
	for _, k := range kinds {
		if _, _, ok := s.unitAt(k.units, pos); ok {
			return true
		}
	}
	return false
}

// isWord tells whether word is one of the lower-case list, in any case.
func isWord(word string, list ...string) bool {
	for _, w := range list {
		if strings.EqualFold(w, word) {
			return true
		}
	}
	return false
}
