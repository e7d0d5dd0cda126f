package model

import (
	"context"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestTray is worked by hand. 68.5 g at 1.093 g/ml are 62.7 ml; 5 mm deep they
// cover 125 cm², a square of 11.2 cm, so 11 cm, where they stand 5.2 mm deep.
// Of a sheet that allows 3 mm: 209 cm², 14.5 cm, so 15 cm and 2.8 mm. Of one
// that wants 10 mm: 62.7 cm², 7.9 cm; 8 cm would be 9.8 mm, so 7 cm and 12.8 mm.
func TestTray(t *testing.T) {
	deep := func(v float64) Figure[unit.Length] {
		return Figure[unit.Length]{Taken: given(unit.Millimetre.Times(v))}
	}
	for _, c := range []struct {
		least, most float64
		side, deep  float64
		thin        bool
	}{
		{0, 0, 110, 5.18, false},
		{0, 50, 110, 5.18, false},
		{0, 5, 120, 4.35, false},
		{0, 3, 150, 2.79, false},
		{10, 0, 70, 12.79, false},
		{10, 10, 80, 9.79, true},
	} {
		s := Sheet{}
		if c.least > 0 {
			s.MinLayer = deep(c.least)
		}
		if c.most > 0 {
			s.MaxLayer = deep(c.most)
		}
		got := s.TrayFor((68.5 * unit.Gram).Over(1093), 10*unit.Millimetre)
		within(t, "side", got.Side.Millimetres(), c.side, 1e-9)
		within(t, "deep", got.Deep.Millimetres(), c.deep, 0.01)
		if got.Thin != c.thin {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}

// TestTrayHolds: the tray takes all of it, never deeper than the sheet allows.
func TestTrayHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{MaxLayer: Figure[unit.Length]{Taken: given(unit.Millimetre.Times(rapid.Float64Range(0.5, 80).Draw(t, "most")))}}
		if rapid.Bool().Draw(t, "wants depth") {
			s.MinLayer = Figure[unit.Length]{Taken: given(unit.Millimetre.Times(rapid.Float64Range(0.5, 80).Draw(t, "least")))}
		}
		of := unit.Millilitre.Times(rapid.Float64Range(0.1, 20000).Draw(t, "ml"))
		grain := rapid.SampledFrom([]unit.Length{10 * unit.Millimetre, unit.Inch.Times(0.5)}).Draw(t, "grain")
		got := s.TrayFor(of, grain)
		if math.Abs(got.Side.By(got.Side).By(got.Deep).Per(of)-1) > 1e-9 {
			t.Fatalf("%v in %+v", of, got)
		}
		if n := got.Side.Per(grain); got.Deep > s.MaxLayer.Value.Times(1+1e-9) || n < 1 || math.Abs(n-math.Round(n)) > 1e-9 {
			t.Fatalf("%v in %+v", of, got)
		}
		if got.Thin != (s.MinLayer.Given() && got.Deep < s.MinLayer.Value) {
			t.Fatalf("%+v", got)
		}
	})
}

// TestSurplusGoes: into the next pour where that is alike and due in time, into
// what this pour still has to fill, and else into a tray.
func TestSurplusGoes(t *testing.T) {
	r := Rescue{Surplus: 68.5 * unit.Gram}
	two := func() Project {
		p := tray(300, 200, 30, 10)
		p.Mixing.ScaleStep = given(0.1 * unit.Gram)
		next := p.Layers[0]
		next.ID, next.Name, next.By, next.To = "l2", "Second", ToLevel, mm(20)
		p.Layers = append(p.Layers, next)
		s := &p.Sheets[0]
		s.WorkingTime, s.RecoatFrom = Figure[unit.Span]{Taken: given(60 * unit.Minute)}, Figure[unit.Span]{Taken: given(30 * unit.Minute)}
		return p
	}
	goes := func(p Project, r Rescue) string {
		pl := Make(p)
		return pl.SurplusGoes(&p, nil, &pl.Layers[0], &r, 1)
	}
	if got := goes(two(), r); !strings.HasPrefix(got, "Pour 68.5 g of it into Second") || strings.Contains(got, "tray") {
		t.Errorf("due in time: %q", got)
	}
	later, other, nothing := two(), two(), two()
	later.Sheets[0].RecoatFrom.Value = 4 * unit.Hour
	other.Layers[1].Tint = Tint{Name: "black", Share: given(unit.Share(0.02))}
	for name, p := range map[string]Project{"later": later, "another tint": other} {
		got := goes(p, r)
		if strings.Contains(got, "Second") || !strings.Contains(got, "in a tray of") || !strings.Contains(got, "68.5 g is") {
			t.Errorf("%s: %q", name, got)
		}
	}
	if got := goes(nothing, Rescue{Surplus: 0.01 * unit.Gram}); got != "" {
		t.Errorf("nothing over: %q", got)
	}
	// More than the next pour takes goes on into a tray.
	p := two()
	pl := Make(p)
	got := goes(p, Rescue{Surplus: pl.Layers[1].Mix.Total + 50*unit.Gram})
	if !strings.Contains(got, "into Second") || !strings.Contains(got, "50.0 g is") {
		t.Errorf("too much for it: %q", got)
	}
}

// TestSurplusFillsTheRest: with cups still to be mixed the surplus goes where
// they go; after the last it goes into a tray.
func TestSurplusFillsTheRest(t *testing.T) {
	p := demo(t, "poppy-stand")
	pl := Make(p)
	l := &pl.Layers[0]
	p.Mixing.CupHolds = given(l.Mix.Total.Times(0.4))
	pl = Make(p)
	l = &pl.Layers[0]
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	cups := c.CupsOf(&pl, l.ID)
	if cups == nil || len(cups.Batches) < 3 {
		t.Fatalf("%+v", cups)
	}
	r := Rescue{Surplus: 20 * unit.Gram}
	if got := pl.SurplusGoes(&p, &c, l, &r, 1); !strings.Contains(got, "of it into the mold, which this pour still has to fill") || strings.Contains(got, "tray") {
		t.Errorf("the first: %q", got)
	}
	last := len(cups.Batches)
	if got := pl.SurplusGoes(&p, &c, l, &r, last); !strings.Contains(got, "tray") || strings.Contains(got, "still has to fill") {
		t.Errorf("the last: %q", got)
	}
	over := Rescue{Surplus: cups.Batches[last-1].Mass + 30*unit.Gram}
	if got := pl.SurplusGoes(&p, &c, l, &over, last-1); !strings.Contains(got, "still has to fill") || !strings.Contains(got, "tray") {
		t.Errorf("more than the last: %q", got)
	}
}
