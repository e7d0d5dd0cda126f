package views

import (
	"math"
	"strconv"

	"meniscus/model"
	"meniscus/model/unit"
)

// tempWords writes a temperature of the simulation in whole degrees, with its
// band: "38 °C (31 to 52)".
func tempWords(s unit.Style, k model.Known[unit.Temperature]) string {
	in := func(t unit.Temperature) string {
		degrees := t.Celsius()
		if s.TempUnit() == unit.InFahrenheit {
			degrees = t.Fahrenheit()
		}
		return strconv.FormatFloat(math.Round(degrees)+0, 'f', 0, 64)
	}
	return banded(in(k.Value)+" °"+string(s.TempUnit()), in(k.Low), in(k.High), k.Low < k.High)
}

// riseWords writes a difference of temperatures as tempWords does.
func riseWords(s unit.Style, k model.Known[unit.TempRise]) string {
	in := func(r unit.TempRise) string {
		degrees := float64(r)
		if s.TempUnit() == unit.InFahrenheit {
			degrees *= 1.8
		}
		return strconv.FormatFloat(math.Round(degrees)+0, 'f', 0, 64)
	}
	return banded(in(k.Value)+" °"+string(s.TempUnit()), in(k.Low), in(k.High), k.Low < k.High)
}

// spanWords writes a length of time of the simulation with its band: "24 h (20
// to 28)". Both are in the unit that suits the value, and no finer than the
// band is wide.
func spanWords(s unit.Style, k model.Known[unit.Span]) string {
	if k.Low >= k.High {
		return s.Span(k.Value)
	}
	u, name := unit.Minute, "min"
	switch v := k.Value; {
	case v >= 96*unit.Hour:
		u, name = unit.Day, "d"
	case v >= 90*unit.Minute:
		u, name = unit.Hour, "h"
	}
	in := func(d unit.Span, places int) string {
		v := d.Per(u)
		if u == unit.Minute {
			places = 0
		}
		p := math.Pow10(places)
		return strconv.FormatFloat(math.Round(v*p)/p, 'f', -1, 64)
	}
	// A figure that may be off by whole units is told in whole ones.
	places := 1
	if wide := (k.High - k.Low).Per(u); k.Low.Per(u) >= 10 && wide >= 2 || wide >= 6 {
		places = 0
	}
	low, high := in(k.Low, places), in(k.High, places)
	if k.High >= model.MostSimulated {
		return in(k.Value, places) + " " + name + " (" + low + " or later)"
	}
	if low == high {
		return s.Span(k.Value)
	}
	return banded(in(k.Value, places)+" "+name, low, high, true)
}

// banded puts a band behind a figure, unless its ends are written alike.
func banded(figure, low, high string, band bool) string {
	if !band || low == high {
		return figure
	}
	return figure + " (" + low + " to " + high + ")"
}
