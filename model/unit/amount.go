package unit

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// mostAmount is the largest number that is read in front of a unit.
const mostAmount = 1e9

// amount is a number as it stands in front of a unit.
type amount struct {
	value    float64
	pos      int  // where it starts
	whole    bool // neither decimals nor a fraction
	decimals int  // digits behind the decimal mark
}

// amount reads a number at the scanner: 10, 10.375, 263,5, 1 234,5, 3/8,
// 10 3/8, 10-3/8, 10½ or ½.
func (s *scanner) amount() (amount, error) {
	a, err := s.mixed()
	if err == nil && a.value > mostAmount {
		err = s.fail(a.pos, "is larger than anything in a shop")
	}
	return a, err
}

// mixed reads a decimal, a fraction, or a whole number with a fraction.
func (s *scanner) mixed() (amount, error) {
	if !s.startsAmount(s.pos) {
		return amount{}, s.noNumber()
	}
	if num, den, end, ok := s.signFraction(s.pos); ok {
		a := amount{value: num / den, pos: s.pos}
		s.pos = end
		return a, nil
	}
	if r := s.peek(); r > unicode.MaxASCII {
		return amount{}, s.failFraction(s.pos, "has a raised digit that belongs to no fraction")
	}
	a, err := s.decimal()
	if err != nil {
		return a, err
	}
	if at := s.afterSpace(s.pos); at < len(s.text) {
		if r, next := s.runeAt(at); isSlash(r) {
			return s.under(a, at, next)
		}
	}
	err = s.addFraction(&a)
	return a, err
}

// under reads what stands below the slash at byte offset slash.
func (s *scanner) under(top amount, slash, next int) (amount, error) {
	den, end, err := s.denominator(slash, next)
	if err != nil {
		return top, err
	}
	if !top.whole {
		return top, s.failFraction(top.pos, "has a decimal in a fraction")
	}
	s.pos = end
	return amount{value: top.value / den, pos: top.pos}, nil
}

// denominator reads the whole number behind the slash at byte offset slash.
func (s *scanner) denominator(slash, next int) (den float64, end int, err error) {
	at := s.afterSpace(next)
	end = s.afterDigits(at)
	if end == at {
		return 0, 0, s.failFraction(slash, "stops after the slash")
	}
	den, _ = strconv.ParseFloat(s.text[at:end], 64)
	if den == 0 {
		return 0, 0, s.failFraction(at, "divides by zero")
	}
	if r, after := s.runeAt(end); r == '.' || r == ',' {
		if r, _ := s.runeAt(after); isDigit(r) {
			return 0, 0, s.failFraction(end, "has a decimal in a fraction")
		}
	}
	return den, end, nil
}

// addFraction reads a fraction behind the whole number a, where there is one:
// after a space, a hyphen or a plus, or as a single sign.
func (s *scanner) addFraction(a *amount) error {
	at := s.pos
	if r, next := s.runeAt(at); isDash(r) || r == '+' {
		if !s.startsAmount(next) {
			return nil
		}
		at = next
	} else {
		at = s.afterSpace(at)
	}
	num, den, end, ok := s.signFraction(at)
	if !ok {
		digits := s.afterDigits(at)
		slash := s.afterSpace(digits)
		r, next := s.runeAt(slash)
		if digits == at || at == s.pos || !isSlash(r) {
			return nil
		}
		var err error
		if den, end, err = s.denominator(slash, next); err != nil {
			return err
		}
		num, _ = strconv.ParseFloat(s.text[at:digits], 64)
	}
	if !a.whole {
		return s.failFraction(at, "has a fraction after a decimal")
	}
	if num >= den {
		return s.failFraction(at, "has a fraction that is not smaller than one after a whole number")
	}
	a.value += num / den
	a.whole = false
	s.pos = end
	return nil
}

// decimal reads digits with their marks: a decimal point or comma, and
// thousands set apart by commas, points or single spaces.
func (s *scanner) decimal() (amount, error) {
	a := amount{pos: s.pos}
	run := s.marked(s.pos)
	s.pos += len(run)
	clean, decimals, err := s.unmark(a.pos, run)
	if err != nil {
		return a, err
	}
	if len(run) <= 3 && run == clean && decimals == 0 && run[0] != '0' {
		for {
			group, ok := s.thousand()
			if !ok {
				break
			}
			clean += group
		}
		if r, next := s.runeAt(s.pos); len(clean) > len(run) && (r == '.' || r == ',') {
			if end := s.afterDigits(next); end > next {
				if r, _ := s.runeAt(end); r == '.' || r == ',' {
					return a, s.fail(end, "mixes marks in one number")
				}
				clean += "." + s.text[next:end]
				decimals = end - next
				s.pos = end
			}
		}
	}
	v, perr := strconv.ParseFloat(clean, 64)
	if perr != nil || math.IsInf(v, 0) {
		return a, s.fail(a.pos, "has a number that cannot be read")
	}
	a.value, a.decimals, a.whole = v, decimals, decimals == 0
	return a, nil
}

// thousand reads a space and three digits that carry on a number. Digits that
// are followed by a slash are the top of a fraction instead.
func (s *scanner) thousand() (group string, ok bool) {
	r, at := s.runeAt(s.pos)
	if r == 0 || !unicode.IsSpace(r) {
		return "", false
	}
	end := s.afterDigits(at)
	if end-at != 3 {
		return "", false
	}
	if r, _ := s.runeAt(s.afterSpace(end)); isSlash(r) {
		return "", false
	}
	s.pos = end
	return s.text[at:end], true
}

// marked gives the run of digits, points and commas at pos. A mark belongs to
// it only in front of a digit.
func (s *scanner) marked(pos int) string {
	end := pos
	for end < len(s.text) {
		r, next := s.runeAt(end)
		if r == '.' || r == ',' {
			r, _ = s.runeAt(next)
		}
		if !isDigit(r) {
			break
		}
		end = next
	}
	return s.text[pos:end]
}

// unmark takes thousands marks out of run, which starts at byte offset pos,
// and makes its decimal mark a point. A single point is a decimal point. A
// single comma is a decimal comma, but a comma in front of exactly three
// digits can also be a thousands mark: 1,234 is refused, 0,375 and 1234,567
// are not. With both marks the last one is the decimal mark.
func (s *scanner) unmark(pos int, run string) (clean string, decimals int, err error) {
	commas, points := strings.Count(run, ","), strings.Count(run, ".")
	last := strings.LastIndexAny(run, ".,")
	switch {
	case commas+points == 0:
		return run, 0, nil
	case points == 1 && commas == 0:
		return run, len(run) - last - 1, nil
	case commas == 1 && points == 0:
		if last >= 1 && last <= 3 && run[0] != '0' && len(run)-last == 4 {
			if s.kind.thousands {
				return run[:last] + run[last+1:], 0, nil
			}
			one, other := run[:last]+run[last+1:], run[:last]+"."+run[last+1:]
			e := s.fail(pos+last, "can be read as "+one+" and as "+other+": the comma is unclear").(*ParseError)
			e.Want = one + " or " + other
			return "", 0, e
		}
		return run[:last] + "." + run[last+1:], len(run) - last - 1, nil
	}
	whole, rest := run, ""
	if commas > 0 && points > 0 {
		if strings.Count(run, run[last:last+1]) > 1 {
			return "", 0, s.fail(pos+last, "mixes marks in one number")
		}
		whole, rest = run[:last], run[last+1:]
	}
	mark := ","
	if strings.Contains(whole, ".") {
		mark = "."
	}
	groups := strings.Split(whole, mark)
	at := pos
	for i, g := range groups {
		if (i == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0')) || (i > 0 && len(g) != 3) {
			return "", 0, s.fail(at, "has thousands that are not in groups of three")
		}
		at += len(g) + 1
	}
	clean = strings.Join(groups, "")
	if rest != "" {
		clean += "." + rest
	}
	return clean, len(rest), nil
}
