package model

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// ReadOutline reads an outline from lines of "x, y", in the style's unit of
// length where a number has none. Between x and y stands a comma, a semicolon,
// a tab or, between two plain numbers, a space; with anything but a comma a
// number may have a decimal comma. Empty lines are passed over, and a last
// point that repeats the first is left out. The outline comes back
// counterclockwise, as it lies. The error names the line that cannot be read,
// or says what is wrong with the outline.
func ReadOutline(text string, s unit.Style) (shape.Ring, error) {
	var ring shape.Ring
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		p, err := readPoint(line, s)
		if err != nil {
			return nil, fmt.Errorf("line %d, “%s”: %w", n, clip(line), err)
		}
		if len(ring) == mostPoints {
			return nil, fmt.Errorf("an outline can have up to %d points; simplify it first", mostPoints)
		}
		ring = append(ring, p)
	}
	if last := len(ring) - 1; last > 0 && ring[last] == ring[0] {
		ring = ring[:last]
	}
	if len(ring) < 3 {
		return nil, fmt.Errorf("an outline needs at least three points, one on each line; here is %d", len(ring))
	}
	if err := ring.Validate(); err != nil {
		return nil, err
	}
	return ring.CounterClockwise(), nil
}

// readPoint reads one line.
func readPoint(line string, s unit.Style) (shape.Point, error) {
	x, y, ok := splitPoint(line)
	if !ok {
		return shape.Point{}, errors.New("write two numbers with a comma between them: 12.5, 30")
	}
	a, err := unit.ParseLength(x, s.Lengths)
	if err != nil {
		return shape.Point{}, errors.New(words(err))
	}
	b, err := unit.ParseLength(y, s.Lengths)
	if err != nil {
		return shape.Point{}, errors.New(words(err))
	}
	return shape.Point{X: float64(a), Y: float64(b)}, nil
}

// splitPoint takes a line apart at the strongest separator that it has.
func splitPoint(line string) (x, y string, ok bool) {
	if r := []rune(line); strings.ContainsRune("([{", r[0]) && strings.ContainsRune(")]}", r[len(r)-1]) && len(r) > 2 {
		line = string(r[1 : len(r)-1])
	}
	for _, mark := range []string{";", "\t"} {
		if strings.Contains(line, mark) {
			return pairOf(strings.Split(line, mark))
		}
	}
	// A comma with a space behind it parts two numbers; one without may be a
	// decimal sign.
	if parts := strings.Split(strings.ReplaceAll(line, ",\u00a0", ", "), ", "); len(parts) > 1 {
		return pairOf(parts)
	}
	words := strings.Fields(line)
	switch {
	case len(words) == 2:
		return words[0], words[1], true
	case strings.Count(line, ",") == 1:
		return pairOf(strings.Split(line, ","))
	case len(words) == 4 && isWord(words[1]) && isWord(words[3]): // 10 mm 5 mm
		return words[0] + " " + words[1], words[2] + " " + words[3], true
	}
	return "", "", false
}

// pairOf gives the two parts of a line; false for another number of them.
func pairOf(parts []string) (x, y string, ok bool) {
	if len(parts) != 2 {
		return "", "", false
	}
	x, y = strings.TrimSpace(parts[0]), strings.TrimSpace(parts[1])
	return x, y, x != "" && y != ""
}

func isWord(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && r != '"' && r != '″' }) < 0
}

// WriteOutline writes an outline as ReadOutline reads it, in the style's unit
// of length to a thousandth of a millimetre or better.
func WriteOutline(r shape.Ring, s unit.Style) string {
	per, places := 1000.0, 3
	switch s.LengthUnit() {
	case unit.InInches:
		per, places = 1/float64(unit.Inch), 5
	case unit.InCentimetres:
		per, places = 100, 4
	}
	number := func(v float64) string {
		text := strconv.FormatFloat(v*per, 'f', places, 64)
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
		if text == "-0" || text == "" {
			return "0"
		}
		return text
	}
	var b strings.Builder
	for _, p := range r {
		b.WriteString(number(p.X))
		b.WriteString(", ")
		b.WriteString(number(p.Y))
		b.WriteByte('\n')
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// Outline gives the outline in the field at path; false where there is no such
// field.
func Outline(p *Project, path string) (shape.Ring, bool) {
	v, err := locate(p, path)
	if err != nil {
		return nil, false
	}
	r, ok := v.Addr().Interface().(*shape.Ring)
	if !ok {
		return nil, false
	}
	return *r, true
}

// EnterOutline takes the outline typed or pasted into the field at path. It is
// moved so that the middle of its bounding box is the origin, which is where a
// mold and a piece have theirs. The outline of a piece's upper face is kept as
// it lies over the lower one; only where it lies quite beside it, as a trace
// with an origin of its own does, is it laid middle over middle. Empty text
// takes the outline away. On failure the field keeps its outline and a *Problem
// says why.
func EnterOutline(p *Project, path, text string) error {
	v, err := locate(p, path)
	if err != nil {
		return &Problem{path, "there is no such field any more"}
	}
	field, ok := v.Addr().Interface().(*shape.Ring)
	if !ok {
		return &Problem{path, "this is no outline"}
	}
	if strings.TrimSpace(text) == "" {
		*field = nil
		p.dropDraft(path)
		return nil
	}
	ring, err := ReadOutline(text, p.Style)
	if err != nil {
		return &Problem{path, err.Error()}
	}
	under, over := Outline(p, strings.TrimSuffix(path, "/top/outline")+"/outline")
	if !strings.HasSuffix(path, "/top/outline") || !over || len(under) < 3 || beside(ring, under) {
		ring = centred(ring)
	}
	if lo, hi := ring.Bounds(); max(-lo.X, -lo.Y, hi.X, hi.Y) > anyLength.high {
		return &Problem{path, "this reaches more than 20 m from its middle; say the unit of the numbers"}
	}
	*field = ring
	p.dropDraft(path)
	return nil
}

// centred moves a ring so that the middle of its bounding box is the origin.
func centred(r shape.Ring) shape.Ring {
	lo, hi := r.Bounds()
	return r.Moved(-(lo.X+hi.X)/2, -(lo.Y+hi.Y)/2)
}

// beside tells whether the middle of one outline's bounding box lies outside
// that of the other.
func beside(r, other shape.Ring) bool {
	lo, hi := r.Bounds()
	x, y := (lo.X+hi.X)/2, (lo.Y+hi.Y)/2
	lo, hi = other.Bounds()
	return x < lo.X || x > hi.X || y < lo.Y || y > hi.Y
}
