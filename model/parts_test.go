package model

import (
	"math"
	"testing"

	"meniscus/model/unit"
)

func TestPartsAddUpToTheMix(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		plan := Make(demo(t, name))
		for i := range plan.Layers {
			l := &plan.Layers[i]
			sum := unit.Mass(0)
			for _, part := range l.Parts() {
				sum += part.Mass
				if part.Mass < -1e-9 {
					t.Errorf("%s, %s: %s is %v", name, l.Name, part.Label, part.Mass)
				}
			}
			if math.Abs(float64(sum-l.Mix.Total)) > 1e-9 || sum <= 0 {
				t.Errorf("%s, %s: parts add up to %v, mixed are %v", name, l.Name, sum, l.Mix.Total)
			}
		}
	}
	empty := LayerPlan{}
	if parts := empty.Parts(); parts != nil {
		t.Errorf("nothing mixed has parts %v", parts)
	}
}

func TestMixFieldNamesWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		name, want string
		change     func(*Project)
	}{
		{"all there", "", func(*Project) {}},
		{"no depth", "layers/l1/to", func(p *Project) { p.Layers[0].To = unit.Dim{} }},
		{"no resin", "layers/l1/sheet", func(p *Project) { p.Layers[0].Sheet = "" }},
		{"no ratio", "sheets/s1/weightRatio/a", func(p *Project) { p.Sheets[0].Weight = Ratio{} }},
		{"by volume, no density", "sheets/s1/densityB", func(p *Project) {
			p.Sheets[0].Volume, p.Sheets[0].Weight = p.Sheets[0].Weight, Ratio{}
			p.Sheets[0].DensityB = Figure[unit.Density]{}
		}},
		{"no mold", "mold/depth", func(p *Project) { p.Mold.Depth = unit.Dim{} }},
	} {
		p := tray(300, 200, 40, 10)
		c.change(&p)
		plan := Make(p)
		if got := p.MixField(&plan.Layers[0]); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestRoomIsWhatALevelTakes(t *testing.T) {
	p := tray(300, 200, 40, 10)
	plan := Make(p)
	// 300 by 200 mm filled 20 mm deep is 1,200 ml.
	v, m := plan.Room("l1", 20*unit.Millimetre)
	if !close(v.Millilitres(), 1200, 1e-9) || !close(float64(m), float64(v.Of(plan.Layers[0].Density.Value)), 1e-12) {
		t.Errorf("room %v, %v", v, m)
	}
	if v, _ := plan.Room("other", 1); v != 0 {
		t.Errorf("no such layer: %v", v)
	}
	p.Mold.Depth = unit.Dim{}
	plan = Make(p)
	if v, _ := plan.Room("l1", 1); v != 0 {
		t.Errorf("no mold: %v", v)
	}
}

func TestCopySheetStandsByItself(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Serial = 9
	id := p.CopySheet("s1")
	if id == "" || id == "s1" || len(p.Sheets) != 2 || p.Sheets[1].Name != "resin s1 (copy)" || p.Sheets[1].Weight != p.Sheets[0].Weight {
		t.Errorf("copy %q: %+v", id, p.Sheets)
	}
	if p.CopySheet("none") != "" || len(p.Sheets) != 2 {
		t.Error("a sheet that is not there was copied")
	}
}
