package views

import (
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

func TestBandWords(t *testing.T) {
	c, f := unit.Style{}, unit.Style{Temperatures: unit.InFahrenheit}
	temp := func(v, low, high float64) model.Known[unit.Temperature] {
		return model.Known[unit.Temperature]{Value: unit.Celsius(v), Low: unit.Celsius(low), High: unit.Celsius(high)}
	}
	span := func(u unit.Span, v, low, high float64) model.Known[unit.Span] {
		return model.Known[unit.Span]{Value: unit.Span(v) * u, Low: unit.Span(low) * u, High: unit.Span(high) * u}
	}
	for _, x := range []struct{ got, want string }{
		{tempWords(c, temp(38.4, 31.2, 51.7)), "38 °C (31 to 52)"},
		{tempWords(c, temp(38.4, 38.4, 38.4)), "38 °C"},
		{tempWords(c, temp(38.4, 38.3, 38.4)), "38 °C"},
		{tempWords(f, temp(38.4, 31.2, 51.7)), "101 °F (88 to 125)"},
		{tempWords(c, temp(-0.2, -4, 3)), "0 °C (-4 to 3)"},
		{riseWords(f, model.Known[unit.TempRise]{Value: 10, Low: 5, High: 20}), "18 °F (9 to 36)"},
		{spanWords(c, span(unit.Hour, 23.5, 20.2, 28.4)), "24 h (20 to 28)"},
		{spanWords(c, span(unit.Hour, 28.44, 27.6, 29.1)), "28.4 h (27.6 to 29.1)"},
		{spanWords(c, span(unit.Hour, 5.8, 5.7, 18.2)), "6 h (6 to 18)"},
		{spanWords(c, span(unit.Hour, 6.02, 4.46, 9.51)), "6 h (4.5 to 9.5)"},
		{spanWords(c, span(unit.Minute, 45, 40.2, 52)), "45 min (40 to 52)"},
		{spanWords(c, span(unit.Minute, 8, 0.3, 52)), "8 min (0 to 52)"},
		{spanWords(c, span(unit.Day, 5, 4.2, 7.25)), "5 d (4.2 to 7.3)"},
		{spanWords(c, span(unit.Hour, 5, 4, 504)), "5 h (4 or later)"},
		{spanWords(c, span(unit.Hour, 2.4, 2.4, 2.4)), "2 h 24 min"},
		{spanWords(c, span(unit.Hour, 2.4, 2.39, 2.41)), "2 h 24 min"},
	} {
		if x.got != x.want {
			t.Errorf("%q, want %q", x.got, x.want)
		}
	}
}
