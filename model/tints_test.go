package model

import (
	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestTintsAddUp: 3 % of mica of 5, 0.5 % of ink of 1 and 0.4 % of paste of 2
// use 0.6 + 0.5 + 0.2 = 1.3 of what is usual.
func TestTintsAddUp(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Sheets[0].TintLimit = Figure[unit.Share]{}
	l := &p.Layers[0]
	l.Tint = Tint{Name: "pearl", Kind: ColorantMica, Share: given(unit.Share(0.03))}
	l.Additives = []Additive{
		{ID: "a1", Name: "blue", Kind: ColorantInk, Share: given(unit.Share(0.005))},
		{ID: "a2", Name: "white", Kind: ColorantPaste, Share: given(unit.Share(0.004))},
	}
	u := p.Tints("l1", unit.Kilogram)
	within(t, "used", u.Used, 1.3, 1e-9)
	within(t, "of the mix", float64(u.Part), 0.039, 1e-12)
	pl := Make(p)
	f := finding(pl, "mix.tint")
	if !u.Over() || f.Level != Check || f.Field != "layers/l1/tint/share" || !strings.Contains(f.Why, "pearl 3 % of 5 %") {
		t.Errorf("%+v", f)
	}
	// Alone each would do.
	l.Additives = nil
	if f := finding(Make(p), "mix.tint"); f.Kind != "" {
		t.Errorf("alone: %+v", f)
	}
	// The sheet goes before what is usual, either way.
	p.Sheets[0].TintLimit = Figure[unit.Share]{Taken: given(unit.Share(0.02))}
	if f := finding(Make(p), "mix.tint"); f.Level != Stop {
		t.Errorf("3 %% of the sheet's 2: %+v", f)
	}
	p.Sheets[0].TintLimit = Figure[unit.Share]{Taken: given(unit.Share(0.10))}
	l.Tint.Kind, l.Tint.Share = ColorantInk, given(unit.Share(0.08))
	if f := finding(Make(p), "mix.tint"); f.Kind != "" {
		t.Errorf("8 %% of the sheet's 10: %+v", f)
	}
}

// TestTintByMass: so many grams are so many grams, in one cup and in several.
func TestTintByMass(t *testing.T) {
	p := tray(300, 200, 30, 10)
	if err := EnterAmount(&p, "layers/l1/tint", "12.34 g"); err != nil {
		t.Fatal(err)
	}
	a := p.AddAdditive("l1")
	if err := EnterAmount(&p, "layers/l1/additives/"+a, "1.5"); err != nil {
		t.Fatal(err)
	}
	m := Make(p).Layers[0].Mix
	within(t, "by mass", m.Tint.Grams(), 12.34, 1e-9)
	within(t, "by share", float64(m.Additives[1].Mass/m.Total), 0.015, 1e-12)
	if got := AmountAt(&p, "layers/l1/tint"); got != "12.34 g" {
		t.Errorf("it shows %q", got)
	}
	// One takes the place of the other, and what cannot be taken changes nothing.
	if err := EnterAmount(&p, "layers/l1/tint", "2 %"); err != nil || p.Layers[0].Tint.Mass.Given() || p.Layers[0].Tint.Share.Value != 0.02 {
		t.Errorf("%v, %+v", err, p.Layers[0].Tint)
	}
	err := EnterAmount(&p, "layers/l1/tint", "plenty")
	if pr, ok := err.(*Problem); !ok || pr.Field != "layers/l1/tint/share" || p.Layers[0].Tint.Share.Value != 0.02 {
		t.Errorf("%v, %+v", err, p.Layers[0].Tint)
	}
	if err := EnterAmount(&p, "layers/l1/tint", ""); err != nil || p.Layers[0].Tint.Share.Given() {
		t.Errorf("%v, %+v", err, p.Layers[0].Tint)
	}
}

// TestLadderWithTints: however much of however many tints, each reading of the
// scale is the one before and what goes in, and the last is all of it.
func TestLadderWithTints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 30, 10)
		p.Mixing.ScaleStep = given(unit.Gram.Times(rapid.SampledFrom([]float64{0.01, 0.1, 1}).Draw(t, "step")))
		share := rapid.Float64Range(0, 0.04)
		p.Layers[0].Tint.Share = given(unit.Share(share.Draw(t, "tint")))
		for i := range rapid.IntRange(0, 4).Draw(t, "more") {
			p.AddAdditive("l1")
			p.Layers[0].Additives[i].Mass = given(unit.Gram.Times(rapid.Float64Range(0, 20).Draw(t, "grams")))
		}
		m := Make(p).Layers[0].Mix
		all := m.Total
		reads := 0.0
		for _, r := range m.Ladder(50 * unit.Gram) {
			if reads += float64(r.Add); r.What == "cup" {
				reads = float64(r.Gross)
			}
			if off := math.Abs(reads - float64(r.Gross)); off > float64(m.Step)*0.501 || !r.Fine && off > 1e-9 {
				t.Fatalf("%+v", r)
			}
		}
		for _, a := range m.Additives {
			all += a.Mass
		}
		if math.Abs(reads-float64(all+50*unit.Gram)) > 1e-9 {
			t.Fatalf("what went in is %v, all is %v", reads, all)
		}
	})
}

// TestTintSettles: coarse mica of a size that is given is found out, ink never
// settles, and where no size is given nothing is said.
func TestTintSettles(t *testing.T) {
	said := func(change func(*Tint)) (Finding, int) {
		p := demo(t, "poppy-stand")
		change(&p.Layers[p.LayerIndex("l3")].Tint)
		pl := Make(p)
		c, err := Simulate(context.Background(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		list, _ := pl.Settling(&p, &c, "l3")
		for _, f := range c.Findings {
			if strings.HasPrefix(f.Kind, "tint.") {
				return f, len(list)
			}
		}
		return Finding{}, len(list)
	}
	if f, n := said(func(*Tint) {}); f.Kind != "" || n != len(grainSizes) {
		t.Errorf("of no size: %+v, %d", f, n)
	}
	f, n := said(func(c *Tint) { c.Kind, c.Grain = ColorantMica, mm(0.1) })
	if f.Kind != "tint.settles" || f.Level != Check || f.Field != "layers/l3/tint/grain" || n != 1 {
		t.Errorf("of 100 µm: %+v, %d", f, n)
	}
	if f, _ = said(func(c *Tint) { c.Grain = mm(0.008) }); f.Kind != "tint.wait" || f.Level != Note {
		t.Errorf("of 8 µm: %+v", f)
	}
	if f, _ = said(func(c *Tint) { c.Grain = mm(0.001) }); f.Kind != "" {
		t.Errorf("of 1 µm: %+v", f)
	}
	if f, n = said(func(c *Tint) { c.Kind, c.Grain = ColorantInk, mm(0.1) }); f.Kind != "" || n != 0 {
		t.Errorf("an ink: %+v, %d", f, n)
	}
	if _, n = said(func(c *Tint) { c.Kind = ColorantPaste }); n != len(pasteSizes) {
		t.Errorf("a paste: %d", n)
	}
}
