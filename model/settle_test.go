package model

import (
	"context"
	"math"
	"testing"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// TestStokesFall: grains of mica of 40 µm in 500 mPa·s sink about 5 mm an hour,
// at half the speed of balls, and about 0.5 in 5 Pa·s (shop notes, D16).
func TestStokesFall(t *testing.T) {
	within(t, "mm an hour", 3600e3*pigment.shape*StokesFall(40e-6, pigment.density.value, 1100, 0.5), 5.3, 0.1)
	within(t, "mm an hour", 3600e3*pigment.shape*StokesFall(40e-6, pigment.density.value, 1100, 5), 0.53, 0.01)
	if StokesFall(40e-6, 900, 1100, 0.5) >= 0 {
		t.Error("what is lighter sinks")
	}
}

// TestThickening: nothing is thicker before it cures, and all is at the gel.
func TestThickening(t *testing.T) {
	gel := cure.GelPoint(4, 2, 1)
	within(t, "fresh", Thickening(0, gel, 1.5, 1), 1, 1e-12)
	within(t, "half way", Thickening(gel/2, gel, 1.5, 1), math.Pow(2, 1.5+gel/2), 1e-9) // by hand
	if !math.IsInf(Thickening(gel, gel, 1.5, 1), 1) {
		t.Error("a gel flows")
	}
}

// TestSettling: in the slow resin of the poppy stand coarse grains lie on the
// floor unless the pour waits, fine ones stay, and the wait leaves a tenth of
// the depth to sink.
func TestSettling(t *testing.T) {
	p := demo(t, "poppy-stand")
	pl := Make(p)
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	list, ok := pl.Settling(&p, &c, "l3")
	if !ok {
		t.Fatal("the tint does not settle at all")
	}
	for i, s := range list[:len(grainSizes)] {
		if s.Size != grainSizes[i] || s.Sinks.Low > s.Sinks.Value || s.Sinks.High < s.Sinks.Value || s.Sinks.High > pl.Layer("l3").Depth || s.After.Low > s.After.Value || s.After.High < s.After.Value {
			t.Errorf("%+v", s)
		}
		if i > 0 && (s.Sinks.Value < list[i-1].Sinks.Value || s.After.Value < list[i-1].After.Value) {
			t.Errorf("a larger grain sinks less: %+v", s)
		}
	}
	fine, usual, coarse := list[0], list[1], list[3]
	if fine.After.Value != 0 || fine.Sinks.Value > fine.Enough {
		t.Errorf("fine colour: %+v", fine)
	}
	if usual.After.Value <= 0 || coarse.Sinks.Value != pl.Layer("l3").Depth {
		t.Errorf("usual %+v, coarse %+v", usual, coarse)
	}
	// What is left to sink after the wait is what is enough.
	s := sinkingOf(pl.Layer("l3"), p.Sheet("s2"), c.Trace.HeartCourse(0))
	pick := func(k Known[unit.Viscosity]) unit.Viscosity { return k.Value }
	from := 0
	for s.from[from].At-s.from[0].At < usual.After.Value {
		from++
	}
	rest := func(from int) unit.Length {
		late := sinking{s.plan, s.from[from:], s.thin[from:]}
		all, _ := late.fall(pigment, usual.Size, pigment.density.value, pick, castro.a.value, castro.b.value, usual.Enough)
		return all
	}
	if before, after := rest(from-1), rest(from); before < usual.Enough || after > usual.Enough {
		t.Errorf("about the wait %v and %v are left of %v", before, after, usual.Enough)
	}
	if _, ok := pl.Settling(&p, &c, "l4"); ok {
		t.Error("clear resin settles")
	}
	if _, ok := pl.Settling(&p, &Curing{}, "l3"); ok {
		t.Error("it settles by a cure that was not simulated")
	}
}

func BenchmarkSettling(b *testing.B) {
	p := demo(b, "hall-shelf")
	pl := Make(p)
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		pl.Settling(&p, &c, p.Layers[1].ID)
	}
}
