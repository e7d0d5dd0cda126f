package model

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestAirWorkings: each figure of the demos opens with what went in, each with
// its unit and where it is from, and the number that it ends at.
func TestAirWorkings(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := demo(t, name)
		pl := Make(p)
		c, err := Simulate(context.Background(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		l := p.Layers[0].ID
		check := func(what string, w Working, ok bool, formula string) {
			t.Helper()
			if !ok || w.Title == "" || w.Source == "" || w.Band == "" || len(w.Inputs) == 0 || !strings.Contains(w.Formula, formula) {
				t.Errorf("%s, %s: %v %+v", name, what, ok, w)
			}
			for _, in := range w.Inputs {
				if in.Value == "" || in.Source == "" {
					t.Errorf("%s, %s: an input does not speak: %+v", name, what, in)
				}
				if _, known := p.Usual(in.Field); in.Field != "" && !known {
					if text, _ := Show(&p, in.Field); text == "" && !strings.HasSuffix(in.Field, "/viscosity") {
						t.Errorf("%s, %s: it leads to %s, which holds nothing", name, what, in.Field)
					}
				}
			}
		}
		a, _ := pl.Air(&p, l)
		w, ok := pl.AirWorking(&p, l, FigBubbles)
		check("bubbles", w, ok, SmallLength(a.Smallest.Value))
		w, ok = pl.AirWorking(&p, l, FigBath)
		check("bath", w, ok, "ρ c d/(5 U)")
		w, ok = pl.AirWorking(&p, l, FigVacuum)
		check("vacuum", w, ok, "p₀/p")
		w, ok = pl.AirWorking(&p, l, FigPass)
		check("pass", w, ok, "half of the working time")
		w, ok = pl.SettlingWorking(&p, &c, l)
		check("settling", w, ok, "(ρₛ − ρ) g d²/(18 η)")
		w, ok = pl.DayWorking(&p, l)
		check("day", w, ok, p.Style.Temperature(pl.PourDay(&p, l).Dew.Value))
		if _, ok := pl.AirWorking(&p, l, FigPeak); ok {
			t.Error("a figure that is not of the air has a working of it")
		}
		if _, ok := pl.AirWorking(&p, "l99", FigBubbles); ok {
			t.Error("a pour that is none has a working")
		}
	}
}

// TestAirOfAnything: whatever is measured, all that is told is a number.
func TestAirOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		s := &p.Sheets[0]
		s.Viscosity = Figure[unit.Viscosity]{Taken: given(unit.Viscosity(math.Pow(10, rapid.Float64Range(-4, 4).Draw(t, "viscosity"))))}
		s.WorkingTime = Figure[unit.Span]{Taken: given(unit.Span(math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "working"))))}
		p.Shop.Room = given(unit.Celsius(rapid.Float64Range(-20, 60).Draw(t, "room")))
		p.Shop.Resin = given(unit.Celsius(rapid.Float64Range(-20, 60).Draw(t, "resin")))
		p.Shop.Wood = given(unit.Celsius(rapid.Float64Range(-20, 60).Draw(t, "wood")))
		p.Shop.Humidity = given(unit.Share(rapid.Float64Range(0, 1).Draw(t, "humidity")))
		pl := Make(p)
		for _, l := range p.Layers {
			a, _ := pl.Air(&p, l.ID)
			w, _ := pl.AirWorking(&p, l.ID, FigBath)
			if text := fmt.Sprint(a, pl.PourDay(&p, l.ID), w); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Fatal(text)
			}
			for _, b := range a.Baths {
				if b.Leaves.Value < 0 || b.Clears > b.Else {
					t.Fatalf("%+v", b)
				}
			}
		}
	})
}
