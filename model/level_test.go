package model

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// stacked is a mold 40 mm deep with three layers, each given in its own way:
// 12 mm deep, up to 20 mm, and up to 10 mm below the rim.
func stacked() Project {
	p := Blank("x", "x")
	p.Mold.Depth = unit.Dim{Value: 40 * unit.Millimetre, Written: "40 mm"}
	p.Layers = []Layer{
		{ID: "l1", Name: "lower", By: ToDepth, To: unit.Dim{Value: 12 * unit.Millimetre, Written: "12 mm", By: unit.Rule}},
		{ID: "l2", Name: "middle", By: ToLevel, To: unit.Dim{Value: 20 * unit.Millimetre, Written: "20 mm"}},
		{ID: "l3", Name: "upper", By: ToBelow, To: unit.Dim{Value: 10 * unit.Millimetre, Written: "10 mm"}},
	}
	return p
}

func TestSetLevelKeepsTheWayItWasGiven(t *testing.T) {
	for _, c := range []struct {
		layer   string
		level   float64 // mm
		written string
	}{
		{"l1", 14.5, "14.5 mm"}, // from the floor
		{"l2", 22, "22 mm"},     // the level itself
		{"l3", 31, "9 mm"},      // 40 mm less 31 mm
	} {
		p := stacked()
		if err := SetLevel(&p, c.layer, unit.Length(c.level)*unit.Millimetre); err != nil {
			t.Fatalf("%s to %g mm: %v", c.layer, c.level, err)
		}
		if got := p.Layers[p.LayerIndex(c.layer)].To.Written; got != c.written {
			t.Errorf("%s at %g mm is written %q, want %q", c.layer, c.level, got, c.written)
		}
	}
	p := stacked()
	if err := SetLevel(&p, "l1", 15*unit.Millimetre); err != nil || p.Layers[0].To.By != unit.Rule {
		t.Errorf("the instrument became %q (%v), want that it stays the rule", p.Layers[0].To.By, err)
	}
}

func TestSetLevelOfADepthCountsFromTheLayerBelow(t *testing.T) {
	p := stacked()
	p.Layers[1].By = ToDepth // 20 mm on 12 mm
	if err := SetLevel(&p, "l2", 30*unit.Millimetre); err != nil {
		t.Fatal(err)
	}
	if got := p.Layers[1].To.Written; got != "18 mm" {
		t.Errorf("30 mm above the floor on a layer of 12 mm is %q deep, want 18 mm", got)
	}
}

func TestSetLevelInInches(t *testing.T) {
	p := stacked()
	p.Style = unit.Style{Lengths: unit.InInches, Grain: unit.Sixteenth}
	if err := SetLevel(&p, "l1", 17*unit.Inch/32); err != nil {
		t.Fatal(err)
	}
	to := p.Layers[0].To
	if to.Written != "17/32 in" || math.Abs(float64(to.Value-17*unit.Inch/32)) > 1e-12 {
		t.Errorf("17/32 in is kept as %q, %v m", to.Written, to.Value)
	}
}

func TestSetLevelRefuses(t *testing.T) {
	for _, c := range []struct {
		name, layer string
		level       float64 // mm
		change      func(*Project)
	}{
		{"a layer that is gone", "l9", 10, func(*Project) {}},
		{"the floor", "l1", 0, func(*Project) {}},
		{"the top of the layer below", "l2", 12, func(*Project) {}},
		{"below the layer below", "l3", 15, func(*Project) {}},
		{"the rim, for one measured from it", "l3", 40, func(*Project) {}},
		{"from a rim that is not known", "l3", 30, func(p *Project) { p.Mold.Depth = unit.Dim{} }},
	} {
		p := stacked()
		c.change(&p)
		before := p.Clone()
		err := SetLevel(&p, c.layer, unit.Length(c.level)*unit.Millimetre)
		var problem *Problem
		if !errors.As(err, &problem) || problem.Field != "layers/"+c.layer+"/to" {
			t.Errorf("%s: got %v, want a problem of the layer's height", c.name, err)
		}
		for i := range p.Layers {
			if p.Layers[i].To != before.Layers[i].To {
				t.Errorf("%s: refused, but layer %d has changed", c.name, i)
			}
		}
	}
}

// What SetLevel sets is what the plan draws.
func TestSetLevelMeetsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := stacked()
		p.Mold.Length = unit.Dim{Value: 0.3, Written: "300 mm"}
		p.Mold.Width = unit.Dim{Value: 0.2, Written: "200 mm"}
		for i := range p.Layers {
			p.Layers[i].By = rapid.SampledFrom([]LevelKind{ToDepth, ToLevel, ToBelow}).Draw(t, "by")
		}
		k := rapid.IntRange(0, 2).Draw(t, "layer")
		level := unit.Length(rapid.IntRange(1, 79).Draw(t, "level")) * unit.Millimetre / 2
		if SetLevel(&p, p.Layers[k].ID, level) != nil {
			return
		}
		plan := Make(p)
		if got := plan.Layers[k].Top; math.Abs(float64(got-level)) > 1e-9 {
			t.Fatalf("layer %d is drawn at %v m, want %v m", k, got, level)
		}
	})
}
