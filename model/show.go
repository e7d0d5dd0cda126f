package model

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"time"

	"meniscus/model/unit"
)

// Show gives the text of the field at path as the maker should see it: as it
// was written where that is in the project's units, else written anew in them.
// The echo is the same quantity in the other family of units, or how it was
// written, for the line below the field; it may be empty.
func Show(d Document, path string) (text, echo string) {
	v, err := locate(d, path)
	if err != nil {
		return "", ""
	}
	s := d.pen()
	switch t := v.Addr().Interface().(type) {
	case *unit.Dim:
		return showLength(s, *t)
	case *unit.Taken[unit.Volume]:
		return shown(*t, s.Volume(t.Value), fmt.Sprintf("%.1f ml · %.2f US fl oz", t.Value.Millilitres(), t.Value.USFluidOunces()))
	case *unit.Taken[unit.Mass]:
		return shown(*t, s.Mass(t.Value), fmt.Sprintf("%.1f g · %.2f oz", t.Value.Grams(), float64(t.Value/unit.Ounce)))
	case *unit.Taken[unit.Temperature]:
		return shown(*t, s.Temperature(t.Value), fmt.Sprintf("%.1f °C · %.1f °F", t.Value.Celsius(), t.Value.Fahrenheit()))
	case *unit.Taken[unit.Density]:
		return shown(*t, s.Density(t.Value), "")
	case *unit.Taken[unit.Share]:
		return shown(*t, s.Share(t.Value), "")
	case *unit.Taken[unit.Angle]:
		return shown(*t, s.Angle(t.Value), "")
	case *unit.Taken[unit.Span]:
		return shown(*t, s.Span(t.Value), s.Span(t.Value))
	case *unit.Taken[unit.MolarEnergy]:
		return shown(*t, s.MolarEnergy(t.Value), "")
	case *unit.Taken[unit.SpecificEnergy]:
		return shown(*t, s.SpecificEnergy(t.Value), "")
	case *unit.Taken[unit.Viscosity]:
		return shown(*t, s.Viscosity(t.Value), "")
	case *unit.Taken[unit.Number]:
		return shown(*t, s.Number(t.Value), "")
	case *unit.Length:
		return s.Length(*t), ""
	case *unit.Angle:
		return s.Angle(*t), ""
	case *unit.Mass:
		if *t == 0 {
			return "", ""
		}
		return s.Mass(*t), ""
	case *unit.Money:
		if !t.Given() {
			return "", ""
		}
		return t.String(), ""
	case *Date:
		return string(*t), t.Words()
	case *time.Time:
		if t.IsZero() {
			return "", ""
		}
		at := t.In(d.zone())
		return at.Format(instantForm), at.Format("Monday 2 January 2006, 15:04 MST")
	}
	switch v.Kind() {
	case reflect.Int:
		return strconv.FormatInt(v.Int(), 10), ""
	case reflect.Bool:
		if v.Bool() {
			return "yes", ""
		}
		return "no", ""
	case reflect.Float64:
		return strconv.FormatFloat(v.Float(), 'g', 4, 64), ""
	}
	return v.String(), ""
}

// shown gives a quantity as written, with its echo; nothing where none was
// given.
func shown[Q unit.Quantity](t unit.Taken[Q], written, echo string) (string, string) {
	if !t.Given() {
		return "", ""
	}
	if t.Written != "" {
		return t.Written, echo
	}
	return written, echo
}

// showLength keeps what was written as long as it is in the project's family
// of units.
func showLength(s unit.Style, d unit.Dim) (text, echo string) {
	if !d.Given() {
		return "", ""
	}
	inches := s.LengthUnit() == unit.InInches
	other := s.LengthIn(d.Value, unit.InInches, unit.SixtyFourth)
	if !inches && d.Value > 0 && d.Value < unit.Inch/128 {
		other = "" // a rule tells nothing so thin
	}
	if inches {
		other = s.LengthIn(d.Value, unit.InMillimetres, unit.TenthMillimetre)
	}
	if d.Written != "" && writtenInInches(d.Written) == inches {
		return d.Written, other
	}
	if d.Written != "" {
		other = "written " + d.Written
	}
	return s.Length(d.Value), other
}

// writtenInInches tells whether a written length is in inches or feet.
func writtenInInches(text string) bool {
	return strings.ContainsAny(text, "\"'′″’”") || strings.Contains(text, "in") || strings.Contains(text, "ft") || strings.Contains(text, "foot") || strings.Contains(text, "feet")
}

// Nudge gives what the field at path would hold one small step up or down: one
// graduation of a length, one gram, one degree, one per cent.
func Nudge(d Document, path string, up bool) (string, bool) {
	v, err := locate(d, path)
	if err != nil {
		return "", false
	}
	dir := -1.0
	if up {
		dir = 1
	}
	s := d.pen()
	grain := unit.Graduation(s.LengthGrain())
	if s.LengthUnit() != unit.InInches {
		grain = 0.5 * unit.Millimetre
	}
	switch t := v.Addr().Interface().(type) {
	case *unit.Dim:
		return s.Length(max(0, t.Value+grain.Times(dir))), true
	case *unit.Length:
		return s.Length(*t + grain.Times(dir)), true
	case *unit.Angle:
		return s.Angle(*t + unit.Angle(dir)*unit.Degree), true
	case *unit.Taken[unit.Mass]:
		return s.Mass(max(0, t.Value+unit.Gram.Times(dir))), true
	case *unit.Taken[unit.Temperature]:
		return s.Temperature(t.Or(typicalRoom) + unit.Temperature(dir)), true
	case *unit.Taken[unit.Share]:
		return s.Share(max(0, t.Value+unit.Share(dir)*unit.Percent)), true
	case *unit.Taken[unit.Angle]:
		return s.Angle(t.Value + unit.Angle(dir/2)*unit.Degree), true
	case *unit.Taken[unit.Span]:
		return s.Span(max(0, t.Value+unit.Span(dir)*unit.Hour/2)), true
	case *unit.Taken[unit.SpecificEnergy]:
		return s.SpecificEnergy(max(0, t.Or(typicalHeat.value)+unit.SpecificEnergy(10*dir)*unit.JoulePerGram)), true
	case *TimeOfDay:
		since, _ := t.Clock()
		since = (since + time.Duration(dir)*30*time.Minute + 24*time.Hour) % (24 * time.Hour)
		return clockText(since), true
	case *int:
		return strconv.Itoa(max(0, *t+int(dir))), true
	}
	return "", false
}
