package model

import (
	"testing"

	"meniscus/model/unit"
)

func TestUsualSaysWhatThePlanUses(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Sheets = append(p.Sheets, Sheet{ID: "s2", Name: "bare"})
	p.Slabs = []Slab{{ID: "b1", Layups: []Layup{{ID: "y1"}}}}
	for _, c := range []struct{ path, value, band string }{
		{"sheets/s2/shrink", "3 %", "between 1.5 % and 5 %"},
		{"sheets/s2/densityMixed", "1.1 g/ml", "between 1.08 g/ml and 1.12 g/ml"},
		{"sheets/s1/densityMixed", "1.093 g/ml", ""}, // from the parts
		{"sheets/s2/activation", "55 kJ/mol", "between 45 kJ/mol and 65 kJ/mol"},
		{"sheets/s2/workingTime", "", ""},
		{"slabs/b1/layups/y1/gap", "1.5 mm", "between 1 mm and 2 mm"},
		{"slabs/b1/layups/y1/kerf", "3.2 mm", "between 2 mm and 3.5 mm"},
		{"mixing/cupFilm", "3 %", "between 2 % and 4 %"},
		{"mixing/soak", "0.15 mm", "between 0.05 mm and 0.30 mm"},
		{"shop/room", "20 °C", ""},
		{"shop/night", "", ""},
		{"shop/resin", "", ""},
		{"shop/wood", "", ""},
		{"shop/bench", "wooden bench", ""},
		{"shop/wakes", "07:00", ""},
		{"shop/sleeps", "22:30", ""},
		{"mold/floor", "coated board", ""},
		{"mold/thick", "18 mm", "between 12 mm and 22 mm"},
		{"sheets/s2/heat", "290 J/g", "between 217.5 J/g and 362.5 J/g"},
		{"sheets/s2/softening", "50 °C", "between 42 °C and 60 °C"},
		{"sheets/s2/peakLimit", "60 °C", ""},
		{"sheets/s2/peak", "", ""},
		{"sheets/s2/workingOther", "", ""},
	} {
		u, ok := p.Usual(c.path)
		if !ok || u.Value != c.value || u.Band != c.band || u.Why == "" {
			t.Errorf("%s: %+v, %v", c.path, u, ok)
		}
	}
	p.Mold.Floor = FloorAluminium
	if u, ok := p.Usual("mold/thick"); !ok || u.Value != "3 mm" || u.Band != "between 2 mm and 6 mm" {
		t.Errorf("an aluminium floor is usually %+v", u)
	}
	p.Sheets[0].Volume, p.Sheets[0].Weight = Ratio{given(unit.Number(2)), given(unit.Number(1))}, Ratio{}
	// 2:1 by volume at 1.13 and 1.02 g/ml is 100 : 45.1 by weight.
	if u, ok := p.Usual("sheets/s1/weightRatio"); !ok || u.Value != "100 : 45.1" || !u.Derived {
		t.Errorf("weight ratio %+v", u)
	}
	for _, path := range []string{"sheets/s9/shrink", "slabs/b1/layups/y1/trim", "slabs/b1/layups/y9/gap", "sheets/s1/gel", "mold/depth", "sheets"} {
		if u, ok := p.Usual(path); ok {
			t.Errorf("%s has %+v", path, u)
		}
	}
}
