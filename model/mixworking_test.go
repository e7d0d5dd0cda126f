package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestMixWorking: 300 · 200 · 10 mm are 600 ml; 100 g of 1.13 and 45 g of 1.02
// g/ml are 145 g in 88.50 + 44.12 ml, so 1.0934 g/ml and 656 g. All that is
// listed with a mass adds up to what is mixed, and each line says where it is from.
func TestMixWorking(t *testing.T) {
	p := tray(300, 200, 40, 10)
	pl := Make(p)
	w, ok := pl.MixWorking(&p, "l1")
	if !ok {
		t.Fatal("there is no working")
	}
	if v := w.Inputs[0].Value; v != "600 ml, 656 g" {
		t.Errorf("the room for resin is %q", v)
	}
	m := &pl.Layers[0].Mix
	for _, words := range []string{p.Style.MassTo(m.Total, m.Step), p.Style.MassTo(m.A, m.Step), p.Style.MassTo(m.B, m.Step), "80 of 100"} {
		if !strings.Contains(w.Formula, words) {
			t.Errorf("no %q in %q", words, w.Formula)
		}
	}
	sum := unit.Mass(0)
	for _, in := range w.Inputs {
		if in.Label == "" || in.Value == "" || in.Source == "" || in.Field == "" {
			t.Errorf("a line that does not say all: %+v", in)
		}
		if before, ok := strings.CutSuffix(in.Value, " g"); ok && in.Label != "The scale's last digit" {
			g, err := unit.Style{}.TakeMass(before[strings.LastIndex(before, " ")+1:] + " g")
			if err != nil {
				t.Fatal(err)
			}
			sum += g.Value
		}
	}
	within(t, "the sum in g", sum.Grams(), m.Total.Grams(), 2) // each is rounded for itself
	if _, ok := pl.MixWorking(&p, "no such"); ok {
		t.Error("a layer that is not there has a working")
	}
}
