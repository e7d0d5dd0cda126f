package unit

import "unicode/utf8"

// vulgar gives the parts of a fraction that is one sign, such as ½.
func vulgar(r rune) (num, den float64, ok bool) {
	switch r {
	case '½':
		return 1, 2, true
	case '⅓':
		return 1, 3, true
	case '⅔':
		return 2, 3, true
	case '¼':
		return 1, 4, true
	case '¾':
		return 3, 4, true
	case '⅕':
		return 1, 5, true
	case '⅖':
		return 2, 5, true
	case '⅗':
		return 3, 5, true
	case '⅘':
		return 4, 5, true
	case '⅙':
		return 1, 6, true
	case '⅚':
		return 5, 6, true
	case '⅐':
		return 1, 7, true
	case '⅛':
		return 1, 8, true
	case '⅜':
		return 3, 8, true
	case '⅝':
		return 5, 8, true
	case '⅞':
		return 7, 8, true
	case '⅑':
		return 1, 9, true
	case '⅒':
		return 1, 10, true
	}
	return 0, 0, false
}

// superscript gives the value of a raised digit.
func superscript(r rune) (int, bool) {
	switch r {
	case '¹':
		return 1, true
	case '²':
		return 2, true
	case '³':
		return 3, true
	}
	if r == '⁰' || ('⁴' <= r && r <= '⁹') {
		return int(r - '⁰'), true
	}
	return 0, false
}

// subscript gives the value of a lowered digit.
func subscript(r rune) (int, bool) { return int(r - '₀'), '₀' <= r && r <= '₉' }

// signFraction reads a fraction at pos that is made of signs of its own: a
// single one (½), or raised and lowered digits (³⁄₈).
func (s *scanner) signFraction(pos int) (num, den float64, end int, ok bool) {
	r, next := s.runeAt(pos)
	if num, den, ok = vulgar(r); ok {
		return num, den, next, true
	}
	num, end = s.small(pos, superscript)
	slash, next := s.runeAt(end)
	if end == pos || !isSlash(slash) {
		return 0, 0, 0, false
	}
	pos = next
	den, end = s.small(pos, subscript)
	return num, den, end, end > pos && den > 0
}

// small reads a run of raised or lowered digits.
func (s *scanner) small(pos int, digit func(rune) (int, bool)) (v float64, end int) {
	for end = pos; end < len(s.text); {
		r, size := utf8.DecodeRuneInString(s.text[end:])
		d, ok := digit(r)
		if !ok {
			break
		}
		v = 10*v + float64(d)
		end += size
	}
	return v, end
}
