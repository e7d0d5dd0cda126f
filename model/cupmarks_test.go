package model

import (
	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// vesselOf is a cup of so many millimetres across its floor and its brim, and
// so tall.
func vesselOf(floor, brim, tall float64) Vessel {
	return Vessel{Floor: mm(floor), Brim: mm(brim), Tall: mm(tall)}
}

// TestVesselByHand: a straight cup 80 mm across holds π 4² = 50.27 ml on each
// centimetre; one of 60 and 80 mm, 100 mm tall, π/3 (3² + 3·4 + 4²) 10 = 387.5
// ml; a cone of 80 mm across and 90 mm tall a third of the cylinder, 150.8 ml.
func TestVesselByHand(t *testing.T) {
	straight, tapered, cone := vesselOf(80, 80, 120), vesselOf(60, 80, 100), vesselOf(1e-6, 80, 90)
	within(t, "straight", straight.Volume(0.010).Millilitres(), 50.265, 1e-3)
	within(t, "straight, to its brim", straight.Holds().Millilitres(), 603.19, 0.01)
	within(t, "tapered", tapered.Holds().Millilitres(), 387.46, 0.01)
	within(t, "cone", cone.Holds().Millilitres(), 150.80, 0.01)
	// Half the height of a cone is an eighth of it.
	within(t, "half a cone", cone.Volume(0.045).Per(cone.Holds()), 1.0/8, 1e-6)
	within(t, "that height", cone.Height(cone.Holds()/8).Millimetres(), 45, 1e-4)
	// Its wall leans 10 mm over 100: √(100² + 10²) = 100.499 mm.
	within(t, "up the wall", tapered.Wall(0.1).Millimetres(), 100.499, 1e-3)
	within(t, "up a straight wall", straight.Wall(0.1).Millimetres(), 100, 1e-12)
	within(t, "no brim given is straight", (&Vessel{Floor: mm(80), Tall: mm(120)}).Holds().Millilitres(), 603.19, 0.01)
	within(t, "narrowing upwards", (&Vessel{Floor: mm(80), Brim: mm(60), Tall: mm(100)}).Holds().Millilitres(), 387.46, 0.01)
}

// TestVesselAsDrawn holds the closed form against the sum of thin slices, and
// its height against the volume; a cup whose walls hardly lean is a straight
// one, and more never stands lower.
func TestVesselAsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := vesselOf(rapid.Float64Range(5, 400).Draw(t, "floor"), rapid.Float64Range(5, 400).Draw(t, "brim"), rapid.Float64Range(10, 400).Draw(t, "tall"))
		h := v.Tall.Value.Times(rapid.Float64Range(0.001, 1).Draw(t, "part"))
		const slices = 400
		sum := 0.0 // by the middle of each slice
		for i := range slices {
			r := float64(v.radius(h.Times((float64(i) + 0.5) / slices)))
			sum += math.Pi * r * r * float64(h) / slices
		}
		of := v.Volume(h)
		if math.Abs(sum-float64(of)) > 1e-4*float64(of) {
			t.Fatalf("by slices %v, by the formula %v", sum, of)
		}
		if back := v.Height(of); math.Abs(back.Per(h)-1) > 1e-9 {
			t.Fatalf("%v stands at %v", h, back)
		}
		if v.Height(of.Times(1.001)) <= h || v.Volume(h.Times(1.001)) <= of {
			t.Fatal("more does not stand higher")
		}
		almost := v
		almost.Brim.Value = v.Floor.Value + 1e-15
		straight := v
		straight.Brim = unit.Dim{}
		if a, b := almost.Height(of), straight.Height(of); math.Abs(a.Per(b)-1) > 1e-9 {
			t.Fatalf("hardly tapered %v, straight %v", a, b)
		}
	})
	if !math.IsInf(float64((&Vessel{Floor: mm(80), Brim: mm(10), Tall: mm(100)}).Height(1)), 1) {
		t.Error("a cubic metre stands somewhere in a cup that closes")
	}
}

// marksIn gives a tray of 600 ml, its plan, and the marks of its layer in a cup.
func marksIn(t testing.TB, v Vessel, change func(*Project)) (Project, Plan, CupMarks) {
	t.Helper()
	p := tray(300, 200, 30, 10)
	p.Mixing.Vessel = v
	if change != nil {
		change(&p)
	}
	pl := Make(p)
	return p, pl, p.CupMarks(&pl.Layers[0], &pl.Layers[0].Mix)
}

func TestCupMarks(t *testing.T) {
	_, pl, c := marksIn(t, vesselOf(90, 90, 140), nil)
	m := &pl.Layers[0].Mix
	if !c.Ready || len(c.Marks) != 2 || c.Grain != unit.Millimetre {
		t.Fatalf("%+v", c)
	}
	// By hand: a straight cup of 90 mm takes 63.617 ml on each centimetre.
	a, both := m.VolumeA.Millilitres(), (m.VolumeA + m.VolumeB).Millilitres()
	within(t, "A", c.Marks[0].Tall.Millimetres(), math.Round(a/6.3617), 1e-9)
	within(t, "A and B", c.Marks[1].Wall.Millimetres(), math.Round(both/6.3617), 1e-9)
	h1, h2 := c.Marks[0].Tall.Millimetres(), c.Marks[1].Tall.Millimetres()
	right := m.VolumeB.Per(m.VolumeA)
	within(t, "low", c.Low, (h2-h1-2)/(h1+1)/right-1, 1e-9)
	within(t, "high", c.High, (h2-h1+2)/(h1-1)/right-1, 1e-9)
	if !strings.Contains(c.Words(unit.Style{}), "Read to the nearest 1 mm") {
		t.Error(c.Words(unit.Style{}))
	}
	// In inches it is read to the graduation that lengths are written to.
	_, _, c = marksIn(t, vesselOf(90, 90, 140), func(p *Project) { p.Style.Lengths, p.Style.Grain = unit.InInches, unit.ThirtySecond })
	within(t, "grain", c.Grain.Per(unit.Inch), 1.0/32, 1e-12)
	// A cup too small, one too wide, and one that is not measured.
	_, _, c = marksIn(t, vesselOf(60, 60, 100), nil)
	if c.Ready || c.Field != "mixing/cupHolds" || !strings.Contains(c.Why, "do not fit") {
		t.Errorf("too small: %+v", c)
	}
	_, _, c = marksIn(t, vesselOf(300, 300, 100), nil)
	if c.Fine || c.High < 0.3 {
		t.Errorf("too wide: %+v", c)
	}
	_, _, c = marksIn(t, Vessel{Floor: mm(80)}, nil)
	if c.Ready || c.Field != "mixing/vessel/cupTall" {
		t.Errorf("not measured: %+v", c)
	}
}

// TestMarksNeedTheVolumes: a ratio by weight is never marked as if it were by
// volume; a ratio by volume is marked also where it cannot be weighed.
func TestMarksNeedTheVolumes(t *testing.T) {
	v := vesselOf(90, 110, 140)
	_, _, c := marksIn(t, v, func(p *Project) {
		p.Sheets[0].DensityA, p.Sheets[0].DensityB = Figure[unit.Density]{}, Figure[unit.Density]{}
	})
	if c.Ready || c.Field != "sheets/s1/densityA" || !strings.Contains(c.Why, "the ratio is by weight") {
		t.Errorf("%+v", c)
	}
	_, pl, c := marksIn(t, v, func(p *Project) {
		s := &p.Sheets[0]
		s.Weight, s.Volume = Ratio{}, Ratio{given(unit.Number(2)), given(unit.Number(1))}
		s.DensityA, s.DensityB = Figure[unit.Density]{}, Figure[unit.Density]{}
	})
	if pl.Layers[0].Mix.Ready || !c.Ready {
		t.Fatalf("%+v", c)
	}
	within(t, "two parts of three", c.Marks[0].Upto.Per(c.Marks[1].Upto), 2.0/3, 1e-12)
}

// TestMarksAddUp: A and B are the total at every rounding, the marks rise, and
// in a cup of any form reading them right keeps the ratio within the range told.
func TestMarksAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 30, 10)
		p.Mixing.Vessel = vesselOf(rapid.Float64Range(70, 250).Draw(t, "floor"), rapid.Float64Range(70, 250).Draw(t, "brim"), rapid.Float64Range(100, 300).Draw(t, "tall"))
		p.Mixing.Vessel.Lined = unit.InMillilitres
		p.Mixing.Vessel.Step = given(unit.Millilitre.Times(rapid.SampledFrom([]float64{5, 10, 25, 50, 100}).Draw(t, "step")))
		p.Mixing.Vessel.Reads, p.Mixing.Vessel.Water = given(500*unit.Millilitre), given(499*unit.Gram)
		pl := Make(p)
		m := &pl.Layers[0].Mix
		c := p.CupMarks(&pl.Layers[0], m)
		if !c.Ready {
			return
		}
		first, second := c.Marks[0], c.Marks[1]
		if math.Abs(float64(second.Upto-m.VolumeA-m.VolumeB)) > 1e-15 || second.Upto != c.Total || first.Upto != m.VolumeA {
			t.Fatalf("%+v", c)
		}
		if second.Tall < first.Tall || second.Wall < second.Tall-c.Grain || c.Low > c.High || c.Open < 0 {
			t.Fatalf("%+v", c)
		}
		for _, mark := range c.Marks {
			if n := mark.Wall.Per(c.Grain); math.Abs(n-math.Round(n)) > 1e-9 {
				t.Fatalf("%v cannot be read", mark.Wall)
			}
		}
		if first.Lined > 0 {
			step := p.Mixing.Vessel.Step.Value
			if second.Lined < c.Total-1e-12 || second.Lined > c.Total.Times(1+VolumeTolerance) {
				t.Fatalf("by its own lines it is %v of %v", second.Lined, c.Total)
			}
			b := second.Lined - first.Lined
			if math.Abs(first.Lined.Per(step)-math.Round(first.Lined.Per(step))) > 1e-9 || math.Abs(b.Per(first.Lined)/m.VolumeB.Per(m.VolumeA)-1) > VolumeTolerance+1e-9 {
				t.Fatalf("by its own lines: %+v", c)
			}
		}
	})
}

// TestOwnLines: the lines of a cup are gone by only where they are true to its
// sizes and fine enough for the mix.
func TestOwnLines(t *testing.T) {
	lined := func(step, reads, at float64) (Project, Plan, CupMarks) {
		v := vesselOf(90, 90, 140)
		v.Lined, v.Step = unit.InMillilitres, given(unit.Millilitre.Times(step))
		if reads > 0 {
			v.Reads, v.At = given(unit.Millilitre.Times(reads)), mm(at)
		}
		return marksIn(t, v, nil)
	}
	// Nothing was held against them: only the rule, and how to check them. 640 ml
	// of water at 0.9982 g/ml weigh 638.8 g.
	_, _, c := lined(10, 0, 0)
	if c.Marks[0].Lined != 0 || !strings.Contains(c.Lines, "fill it with water to its line of 640 ml, and the water should weigh 639 g") {
		t.Errorf("unchecked lines: %+v, %q", c.Marks, c.Lines)
	}
	// 500 ml of water weigh 499.1 g.
	_, _, c = lined(10, 500, 0)
	if c.Marks[0].Lined != 0 || !strings.Contains(c.Lines, "its line of 500 ml, and the water should weigh 499 g") {
		t.Errorf("unchecked lines: %+v, %q", c.Marks, c.Lines)
	}
	_, pl, c := lined(10, 500, 78.6)
	m := &pl.Layers[0].Mix
	within(t, "the line of the total", c.Marks[1].Lined.Millilitres(), 10*math.Ceil((m.VolumeA+m.VolumeB).Millilitres()/10), 1e-9)
	within(t, "the line of A", c.Marks[0].Lined.Per(c.Marks[1].Lined), m.VolumeA.Per(m.VolumeA+m.VolumeB), 0.01)
	// 500 ml stand at 78.6 mm in this cup; printed at 70 it takes 445.
	if c.Marks[0].Lined == 0 || finding(pl, "marks.lines").Kind != "" {
		t.Errorf("true lines: %+v", c)
	}
	if _, _, c = lined(250, 500, 78.6); c.Marks[0].Lined != 0 || !strings.Contains(c.Lines, "too far apart") {
		t.Errorf("lines of 250 ml: %+v", c)
	}
	_, pl, c = lined(10, 500, 70)
	if f := finding(pl, "marks.lines"); c.Marks[0].Lined != 0 || f.Level != Check || f.Field != "mixing/vessel/lineReads" || !strings.Contains(f.Why, "-11 %") || !strings.Contains(c.Lines, "-11 %") {
		t.Errorf("lines that are off: %q, %+v", c.Lines, f)
	}
}

// TestLinesByWater: weighed water alone checks the lines of a cup, and where it
// and the height of the line do not agree they are not gone by. By hand: 499.1
// g at 0.9982 g/ml are 500 ml, 450 g are 450.8 ml, which is 9.8 % less.
func TestLinesByWater(t *testing.T) {
	for _, c := range []struct {
		grams, at float64
		true      bool
		apart     float64
	}{
		{499.1, 0, true, 0},
		{487, 0, true, -0.0242},
		{450, 0, false, -0.0984},
		{499.1, 78.6, true, 0.0001},
		{499.1, 70, false, -0.1094},
		{450, 78.6, false, -0.0984},
	} {
		v := vesselOf(90, 90, 140)
		v.Lined, v.Step, v.Reads, v.Water, v.At = unit.InMillilitres, given(10*unit.Millilitre), given(500*unit.Millilitre), given(unit.Gram.Times(c.grams)), mm(c.at)
		p, pl, marks := marksIn(t, v, nil)
		got := v.Lines(&p)
		within(t, "apart", got.Apart, c.apart, 5e-4)
		f := finding(pl, "marks.lines")
		if !got.Checked || got.True != c.true || (marks.Marks[1].Lined > 0) != c.true || (f.Kind == "") != c.true {
			t.Errorf("%v g, at %v mm: %+v, %+v, %+v", c.grams, c.at, got, marks, f)
		}
		if !c.true && c.at == 0 && !strings.Contains(f.Why, "451 ml") {
			t.Error(f.Why)
		}
	}
}

// TestMarksAreFound: a cup that does not take a mix, and one whose marks cannot
// be told apart, are said beside the cups.
func TestMarksAreFound(t *testing.T) {
	said := func(v Vessel) []string {
		p := demo(t, "poppy-stand")
		p.Mixing.Vessel = v
		pl := Make(p)
		c, err := Simulate(context.Background(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		var kinds []string
		for _, f := range c.Findings {
			if strings.HasPrefix(f.Kind, "marks.") {
				kinds = append(kinds, f.Kind+" "+f.Field)
			}
		}
		return kinds
	}
	if got := said(Vessel{}); len(got) != 0 {
		t.Errorf("no cup: %q", got)
	}
	if got := said(vesselOf(30, 30, 60)); len(got) == 0 || got[0] != "marks.fit mixing/cupHolds" {
		t.Errorf("a small cup: %q", got)
	}
	if got := said(vesselOf(200, 200, 200)); len(got) == 0 || got[0] != "marks.coarse mixing/vessel/floorAcross" {
		t.Errorf("a wide cup: %q", got)
	}
}

// FuzzVessel: no sizes make anything but a height or infinity.
func FuzzVessel(f *testing.F) {
	f.Add(80.0, 60.0, 100.0, 300.0)
	f.Add(0.0, 0.0, 0.0, 0.0)
	f.Add(1e-5, 20.0, 20.0, 1e9)
	f.Fuzz(func(t *testing.T, floor, brim, tall, ml float64) {
		p := tray(300, 200, 30, 10)
		p.Mixing.Vessel = vesselOf(floor, brim, tall)
		if len(p.Validate()) > 0 || !p.Mixing.Vessel.Given() {
			return
		}
		pl := Make(p)
		p.CupMarks(&pl.Layers[0], &pl.Layers[0].Mix)
		if h := float64(p.Mixing.Vessel.Height(unit.Millilitre.Times(ml))); math.IsNaN(h) || h < 0 {
			t.Fatalf("%v", h)
		}
	})
}
