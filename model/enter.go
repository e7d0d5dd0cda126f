package model

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"meniscus/model/unit"
)

// Problem is a field that could not be taken, in the maker's words: what is
// wrong and what would be right.
type Problem struct {
	Field   string `json:"field"`
	Message string `json:"message"`
}

// Error makes a Problem an error.
func (p *Problem) Error() string { return p.Field + ": " + p.Message }

// Enter takes what the maker typed into the field at path. On success the
// field has the new value, remembers how it was written, and any draft of it
// is dropped. On failure the field keeps its value and a *Problem says why.
// Empty text clears a value that may be missing.
func Enter(d Document, path, text string) error {
	v, err := locate(d, path)
	if err != nil {
		return &Problem{path, "there is no such field any more"}
	}
	text = strings.TrimSpace(text)
	if inMinutes[pattern(path)] && text != "" && !saysUnit(text) {
		text += " min"
	}
	if shelf, ok := d.(*Shelf); ok {
		if text, err = shelf.weighed(path, text); err != nil {
			return err
		}
	}
	old := reflect.New(v.Type()).Elem()
	old.Set(v)
	if err := enter(d, v, text); err != nil {
		v.Set(old)
		return &Problem{path, words(err)}
	}
	if msg := outOfRange(path, v); msg != "" {
		v.Set(old)
		return &Problem{path, msg}
	}
	if p, ok := d.(*Project); ok && !reflect.DeepEqual(old.Interface(), v.Interface()) {
		p.holesChanged(path)
		p.tintRenamed(path)
	}
	dropDraft(d, path)
	return nil
}

// words gives the message of an error without Go's decoration.
func words(err error) string {
	var parse *unit.ParseError
	if errors.As(err, &parse) {
		return parse.Error()
	}
	return err.Error()
}

// enter parses text into v according to its type.
func enter(d Document, v reflect.Value, text string) error {
	s := d.pen()
	switch t := v.Addr().Interface().(type) {
	case *unit.Dim:
		return keep(t, text, func(x string) (unit.Dim, error) { return s.TakeLength(x, t.By) })
	case *unit.Taken[unit.Volume]:
		return keep(t, text, s.TakeVolume)
	case *unit.Taken[unit.Mass]:
		return keep(t, text, s.TakeMass)
	case *unit.Taken[unit.Temperature]:
		return keep(t, text, s.TakeTemperature)
	case *unit.Taken[unit.Density]:
		return take(t, text, densityUnit(text), unit.ParseDensity)
	case *unit.Taken[unit.Share]:
		return take(t, text, "%", unit.ParseShare)
	case *unit.Taken[unit.Angle]:
		return take(t, text, "°", unit.ParseAngle)
	case *unit.Taken[unit.Span]:
		return take(t, text, "h", unit.ParseSpan)
	case *unit.Taken[unit.MolarEnergy]:
		return take(t, text, "kJ/mol", unit.ParseMolarEnergy)
	case *unit.Taken[unit.SpecificEnergy]:
		return take(t, text, "J/g", unit.ParseSpecificEnergy)
	case *unit.Taken[unit.Viscosity]:
		return take(t, text, "mPa·s", unit.ParseViscosity)
	case *unit.Taken[unit.Number]:
		return take(t, text, "", unit.ParseNumber)
	case *unit.Length:
		l, err := unit.ParseLength(text, s.Lengths)
		if err == nil {
			*t = l
		}
		return err
	case *unit.Angle:
		a, err := unit.ParseAngle(text)
		if err == nil {
			*t = a
		}
		return err
	case *unit.Mass:
		m, err := s.TakeMass(text)
		if err == nil || text == "" {
			*t = m.Value
			return nil
		}
		return err
	case *unit.Money:
		return d.takeMoney(t, text)
	case *Currency:
		return d.takeCurrency(t, text)
	case *TimeOfDay:
		return enterClock(t, text)
	case *Date:
		return enterDate(t, text)
	case *time.Time:
		return enterInstant(d, t, text)
	}
	switch v.Kind() {
	case reflect.String:
		return enterString(v, text)
	case reflect.Bool:
		switch text {
		case "yes", "true":
			v.SetBool(true)
		case "no", "false", "":
			v.SetBool(false)
		default:
			return errors.New("say yes or no")
		}
		return nil
	case reflect.Int:
		n, err := strconv.Atoi(text)
		if err != nil {
			return fmt.Errorf("“%s” is not a whole number", clip(text))
		}
		v.SetInt(int64(n))
		return nil
	case reflect.Float64:
		n, err := unit.ParseNumber(text)
		if err == nil {
			v.SetFloat(float64(n))
		}
		return err
	}
	return fmt.Errorf("a %s cannot be typed", v.Type())
}

// keep sets a Taken from text by one of the style's readers; empty text clears it.
func keep[Q unit.Quantity](t *unit.Taken[Q], text string, read func(string) (unit.Taken[Q], error)) error {
	if text == "" {
		*t = unit.Taken[Q]{By: t.By}
		return nil
	}
	got, err := read(text)
	if err == nil {
		*t = got
	}
	return err
}

// take sets a Taken whose bare numbers have the same unit in every style. The
// unit is written behind a bare number, so that it reads the same anywhere.
func take[Q unit.Quantity](t *unit.Taken[Q], text, bare string, parse func(string) (Q, error)) error {
	return keep(t, text, func(text string) (unit.Taken[Q], error) {
		value, err := parse(text)
		written := text
		if bare != "" && !saysUnit(text) {
			written += " " + bare
		}
		return unit.Taken[Q]{Value: value, Written: written}, err
	})
}

// saysUnit tells whether text holds a unit and not only a number.
func saysUnit(text string) bool {
	return strings.ContainsFunc(text, func(r rune) bool {
		return unicode.IsLetter(r) || strings.ContainsRune("%°\"'’”′″:", r)
	})
}

// densityUnit is the unit of a bare density: g/ml, or kg/m³ for the numbers
// that no g/ml can have.
func densityUnit(text string) string {
	if d, err := unit.ParseDensity(text); err == nil && d.GramsPerMillilitre() < 30 {
		if n, err := unit.ParseNumber(text); err == nil && float64(n) > 30 {
			return "kg/m³"
		}
	}
	return "g/ml"
}

// clip shortens text that is shown back in a message.
func clip(text string) string {
	const most = 24
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// enterClock takes a time of day; empty text clears it.
func enterClock(t *TimeOfDay, text string) error {
	if text == "" {
		*t = ""
		return nil
	}
	got, err := ParseTimeOfDay(text)
	if err == nil {
		*t = got
	}
	return err
}

// enterDate takes a day; empty text clears it.
func enterDate(t *Date, text string) error {
	if text == "" {
		*t = ""
		return nil
	}
	got, err := ParseDate(text)
	if err == nil {
		*t = got
	}
	return err
}

// enterInstant takes the day and the time of the planned pour, on the shop's
// clock; empty text clears it. No other instant is typed: what happened, and
// when, the journal keeps.
func enterInstant(d Document, t *time.Time, text string) error {
	p, ok := d.(*Project)
	if !ok || t != &p.Shop.Planned {
		return errors.New("an instant cannot be typed")
	}
	if text == "" {
		*t = time.Time{}
		return nil
	}
	got, err := ParseInstant(text, p.Shop.Place(), p.latest())
	if err == nil {
		*t = got
	}
	return err
}

func enterString(v reflect.Value, text string) error {
	if allowed := options[v.Type()]; allowed != nil && !slices.Contains(allowed, text) && text != "" {
		return fmt.Errorf("“%s” is not one of: %s", clip(text), strings.Join(allowed, ", "))
	}
	if len([]rune(text)) > longestText {
		return fmt.Errorf("at most %d characters, please; this has %d", longestText, len([]rune(text)))
	}
	v.SetString(text)
	return nil
}

const longestText = 2000

// Measure says what the length in the field at path was measured with.
func Measure(d Document, path string, by unit.Instrument) error {
	v, err := locate(d, path)
	if err != nil {
		return &Problem{path, "there is no such field any more"}
	}
	length, ok := v.Addr().Interface().(*unit.Dim)
	if !ok {
		return &Problem{path, "this is not measured with an instrument"}
	}
	length.By = by
	return nil
}

// Instrument gives what the length in the field at path was measured with, and
// how far off that may be; false where the field is no length.
func Instrument(d Document, path string) (by unit.Instrument, halfWidth unit.Length, ok bool) {
	v, err := locate(d, path)
	if err != nil {
		return "", 0, false
	}
	length, ok := v.Addr().Interface().(*unit.Dim)
	if !ok {
		return "", 0, false
	}
	by = length.By
	if by == "" {
		by = unit.Rule
	}
	return by, d.HalfWidth(by), true
}

// SetAccuracy changes how far off a reading with an instrument may be, for the
// whole project. Empty text goes back to the default.
func SetAccuracy(p *Project, by unit.Instrument, text string) error {
	field := "instruments/" + string(by)
	if text == "" {
		delete(p.Instruments, by)
		return nil
	}
	l, err := unit.ParseLength(text, p.Style.Lengths)
	if err != nil {
		return &Problem{field, words(err)}
	}
	if l <= 0 || l > 0.1 {
		return &Problem{field, "this should be more than nothing and at most 100 mm"}
	}
	if p.Instruments == nil {
		p.Instruments = map[unit.Instrument]unit.Length{}
	}
	p.Instruments[by] = l
	return nil
}
