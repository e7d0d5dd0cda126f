package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestStirredWorking: 2 % of 1,000 g of A and B is 20 g (by hand), to 0.01 g.
func TestStirredWorking(t *testing.T) {
	p := demo(t, "poppy-stand")
	l := &p.Layers[0]
	l.Tint.Share = unit.Taken[unit.Share]{Value: 0.02, Written: "2 %"}
	pl := Make(p)
	pl.Layer(l.ID).Mix.Total = unit.Kilogram
	at := "layers/" + l.ID + "/tint"
	w, ok := pl.StirredWorking(&p, l.ID, at)
	if !ok || !strings.Contains(w.Formula, "20.00 g") || w.Source == "" || w.Band == "" || w.Inputs[0].Field != at+"/share" {
		t.Errorf("%v %+v", ok, w)
	}
	for _, of := range [][2]string{{l.ID, "layers/" + l.ID + "/additives/none"}, {"none", at}} {
		if w, ok := pl.StirredWorking(&p, of[0], of[1]); ok {
			t.Errorf("%v: %+v", of, w)
		}
	}
	pl.Layer(l.ID).Mix.Total = 0
	if _, ok := pl.StirredWorking(&p, l.ID, at); ok {
		t.Error("it is told of a mix that is not known")
	}
}
