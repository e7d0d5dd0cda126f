package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// At 15 °C, by 55 kJ/mol, a time that holds at 20 °C is exp(55000/8.31446 ·
// (1/288.15 − 1/293.15)) = 1.48 times as long: worked by hand from the formula
// of ASTM C1074.
func TestScaledWorkingShowsItsFigures(t *testing.T) {
	p := twoPours()
	p.Shop.Room = given(unit.Celsius(15))
	plan := Make(p)
	w, ok := plan.ScaledWorking(&p, "l1", FigRecoat)
	if !ok || !strings.Contains(w.Formula, "4 h · 1.48 = 5 h 55 min") {
		t.Fatalf("%v, %q", ok, w.Formula)
	}
	if in := w.Inputs[0]; in.Value != "4 h" || in.Field != "sheets/s1/recoatFrom" || in.Typical {
		t.Errorf("the sheet's time: %+v", in)
	}
	if in := w.Inputs[3]; !in.Typical || in.Value != "55 kJ/mol" || w.Band == "" {
		t.Errorf("a typical activation energy: %+v, band %q", in, w.Band)
	}
	for _, in := range w.Inputs {
		if in.Field == "" {
			continue
		}
		if _, err := locate(&p, in.Field); err != nil {
			t.Errorf("%s leads nowhere: %v", in.Field, err)
		}
	}
	p.Sheets[0].Demold = Figure[unit.Span]{}
	plan = Make(p)
	if w, ok = plan.ScaledWorking(&p, "l2", FigDemold); !ok || !w.Inputs[0].Typical {
		t.Errorf("a demold time that the sheet lacks: %v, %+v", ok, w.Inputs)
	}
	p.Sheets[0].RecoatFrom = Figure[unit.Span]{}
	plan = Make(p)
	for _, c := range []struct {
		layer string
		fig   Figured
	}{{"l1", FigRecoat}, {"l1", FigStall}, {"l9", FigWorking}} {
		if _, ok = plan.ScaledWorking(&p, c.layer, c.fig); ok {
			t.Errorf("%s of %s has a working", c.fig, c.layer)
		}
	}
}
