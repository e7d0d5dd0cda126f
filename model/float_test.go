package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestLiftOfABody holds the net lift against Archimedes by hand. The walnut
// board is 600 × 100 × 30 mm at 611 kg/m³ in resin of 1,100:
// 1.8e-3 · (1100 - 611) · 9.80665 = 8.632 N, which is 0.8802 kg; a litre of cork
// of 240 and of 120 kg/m³ (Silva 2005, from memory) 0.860 and 0.980 kg.
func TestLiftOfABody(t *testing.T) {
	for _, c := range []struct {
		what    string
		covered unit.Volume
		mass    unit.Mass
		newtons float64
	}{
		{"walnut board", 1.8 * unit.Litre, 1.8 * 0.611 * unit.Kilogram, 8.632},
		{"dense cork", unit.Litre, 0.240 * unit.Kilogram, 0.860 * 9.80665},
		{"light cork", unit.Litre, 0.120 * unit.Kilogram, 0.980 * 9.80665},
	} {
		within(t, c.what, float64(Lift(1100, c.covered, c.mass)), c.newtons, 1e-3)
	}
	within(t, "in kg", float64(Lift(1100, 1.8*unit.Litre, 1.8*0.611).Mass()), 0.8802, 1e-4)
}

// floatingBoard is a tray with the walnut board in it, covered by one pour of
// resin of about 1,100 kg/m³.
func floatingBoard() Project {
	p := tray(700, 200, 60, 40)
	p.Serial = 9
	p.Sheets[0].DensityA, p.Sheets[0].DensityB = Figure[unit.Density]{Taken: given(unit.Density(1100))}, Figure[unit.Density]{Taken: given(unit.Density(1100))}
	p.Pieces = []Piece{{ID: "p1", Name: "walnut", Kind: PieceRectangle, Length: mm(600), Width: mm(100), Thickness: mm(30), Density: given(unit.Density(611))}}
	return p
}

func TestFloatOfABoard(t *testing.T) {
	p := floatingBoard()
	pl := Make(p)
	it := pl.Float.Things[0]
	within(t, "lift", float64(it.Pours[0].Lift), 8.632, 1e-3)
	within(t, "hold", float64(it.Pours[0].Hold.Mass()), 2*0.8802, 1e-3)
	// It floats with 0.5555 of its 30 mm in the resin.
	within(t, "lifts at", it.LiftsAt.Millimetres(), 0.55545*30, 1e-3)
	// Dry it weighs 1.8e-3 · 611 · g = 10.785 N, at half its height it is lifted by
	// 0.9e-3 · 1100 · g - that.
	within(t, "empty", float64(it.Pours[0].Curve[0].Lift), -10.785, 1e-3)
	half := it.Pours[0].Curve[6] // 15 mm
	within(t, "level", half.Level.Millimetres(), 15, 1e-9)
	within(t, "at half", float64(half.Lift), 0.9e-3*1100*9.80665-10.785, 1e-3)

	// Raised by 8 mm it floats so much higher.
	p.Pieces[0].Height = mm(8)
	raised := Make(p).Float.Things[0]
	within(t, "raised lifts at", raised.LiftsAt.Millimetres(), 8+0.55545*30, 1e-3)
}

// TestPoursHoldWhatIsSet: a pour that stops below the level that lifts the wood
// holds it in the next one; its liquid has no underside of upright wood to push
// at. Where the wood widens upwards it still lifts by what hangs over, and where
// it is covered it presses down on the rest.
func TestPoursHoldWhatIsSet(t *testing.T) {
	p := floatingBoard()
	p.Layers[0].To = mm(12)
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToLevel, To: mm(40), Sheet: "s1"})
	it := Make(p).Float.Things[0]
	if it.Pours[0].Lifts || it.Pours[0].Near || it.Pours[0].By != HeldByNothing {
		t.Errorf("12 mm lift it: %+v", it.Pours[0])
	}
	if it.Pours[1].By != HeldBySet || it.Pours[1].Lifts || it.Pours[1].Hold != 0 {
		t.Errorf("it is held by what has set: %+v", it.Pours[1])
	}
	// At 30 mm: nothing below it, so only its weight; at 40 mm, 10 mm of resin on
	// its back, 600 · 100 · 10 mm³ · 1100 · g = 6.472 N more.
	c := it.Pours[1].Curve
	within(t, "just covered", float64(Lift(0, 0, it.Mass)), -10.785, 1e-3)
	within(t, "covered by 10 mm", float64(c[len(c)-1].Lift), -10.785-6.472, 1e-3)

	p.Pieces[0].Top.Width = mm(140)
	// A board that widens by 40 mm over its 30 hangs over by 4/3 of what it rises:
	// at 29.5 mm, 17.5 above what has set, by 600 · 17.5 · (17.5 · 4/3)/2 mm³.
	wide := Make(p).Float.Things[0]
	for _, q := range wide.Pours[1].Curve {
		if math.Abs(q.Level.Millimetres()-29.5) < 1e-6 {
			over := 0.6 * 0.0175 * 0.0175 * 4 / 3 / 2
			within(t, "hanging over", float64(q.Lift), (over*1100-float64(wide.Mass))*9.80665, 1e-3)
			return
		}
	}
	t.Error("no point at 29.5 mm")
}

// TestBlindHoles: a hole that opens only at the top stays dry until the resin
// covers it, so it lifts; one right through fills from below.
func TestBlindHoles(t *testing.T) {
	p := floatingBoard()
	p.Pieces[0].Voids = []Void{{ID: "v1", Kind: VoidBox, Length: mm(100), Width: mm(50), Depth: mm(20), Count: 1}}
	it := Make(p).Float.Things[0]
	// 1.8 l of board less 0.1 l of hole weigh 1.0387 kg; brim-full round it
	// displaces all of its 1.8 l.
	within(t, "before it fills", float64(it.Pours[0].Lift), (1.8*1.1-1.7*0.611)*9.80665, 2e-3)
	within(t, "once it has", float64(it.AtOnce), 1.7*(1.1-0.611)*9.80665, 2e-3)
	p.Pieces[0].Voids[0].Depth = unit.Dim{}
	through := Make(p).Float.Things[0]
	within(t, "right through", float64(through.Pours[0].Lift), (1.8-0.15)*(1.1-0.611)*9.80665, 2e-3)
}

// TestDemosFloat: the figures that the shop notes of the demos were drawn up
// with, worked again.
func TestDemosFloat(t *testing.T) {
	poppy := Make(demo(t, "poppy-stand"))
	var wood, heads FloatThing
	for _, it := range poppy.Float.Things {
		switch {
		case strings.Contains(it.Name, "maple"):
			wood = it
		case strings.Contains(it.Name, "poppy"):
			heads = it
		}
	}
	within(t, "maple lifts at", wood.LiftsAt.Millimetres(), 14.35, 0.01)
	// The first pour covers 41,300 · 12 mm³: 495.6 ml · 1.0934 = 541.9 g of 648.
	within(t, "first pour", float64(wood.Pours[0].Lift.Mass())*1000, 541.9-648, 0.2)
	if in := wood.Pours[0]; in.Lifts || in.Near {
		t.Errorf("12 of 14.35 mm lift it: %+v", in)
	}
	if wood.Pours[1].By != HeldBySet {
		t.Errorf("the second pour: %+v", wood.Pours[1])
	}
	// 2.6 ml · 1.0934 - 0.21 g = 2.63 g each, 47.4 g of 18.
	within(t, "a head", float64(heads.AtOnce.Mass())*1000/18, 2.63, 0.01)
	within(t, "all heads", float64(heads.AtOnce.Mass())*1000, 47.4, 0.1)
	if in := heads.Pours[1]; !in.Lifts || in.By != HeldByNothing {
		t.Errorf("heads on a tacky layer count as floating: %+v", in)
	}

	shelf := Make(demo(t, "hall-shelf"))
	// 8,879 ml of oak, 8,879 · (1.115 - 0.71) = 3,596 g if all were poured at once,
	// so 7.2 kg hold it twice over.
	hold := unit.Force(0)
	for _, it := range shelf.Float.Things {
		if !it.Insert {
			hold += it.Pours[0].Hold
			if !it.Pours[0].Near || it.Pours[0].By != HeldByBond {
				t.Errorf("24 of 26.75 mm is close: %+v", it.Pours[0])
			}
		}
	}
	within(t, "both slabs", float64(hold.Mass()), 7.19, 0.01)
	within(t, "in the pour", float64(shelf.Float.Pours[0].Hold), float64(hold), 1e-9)

	for _, it := range Make(demo(t, "breakfast-boards")).Float.Things {
		within(t, "board", it.LiftsAt.Millimetres(), 11.19, 0.01)
		if !it.Pours[0].Near {
			t.Errorf("10 of 11.19 mm is close: %+v", it.Pours[0])
		}
	}
}

// TestStopPour: the level handed over keeps the wood down, and the change keeps
// the fill line, the colours and what stands on the layers.
func TestStopPour(t *testing.T) {
	p := floatingBoard()
	p.Inserts = []Insert{{ID: "i1", Name: "coin", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), Mass: given(0.008 * unit.Kilogram), On: OnLayer, Layer: "l1"}}
	pl := Make(p)
	// 0.85 · 16.66 mm = 14.2, on the rule 14.
	if s := pl.Float.Pours[0]; math.Abs(s.Stop.Millimetres()-14) > 1e-9 || !s.Adds {
		t.Fatalf("stop at %+v", s)
	}
	if err := StopPour(&p, "l1"); err != nil {
		t.Fatal(err)
	}
	after := Make(p)
	if len(after.Layers) != 2 || math.Abs(after.Layers[0].Top.Millimetres()-14) > 1e-6 || math.Abs(after.Layers[1].Top.Millimetres()-40) > 1e-6 {
		t.Fatalf("layers %v", after.Layers)
	}
	if p.Inserts[0].Layer != p.Layers[1].ID || p.Layers[1].Sheet != "s1" {
		t.Errorf("the coin stands on %s", p.Inserts[0].Layer)
	}
	if after.Float.Pours[0].Hold != 0 || after.Float.Pours[0].Stop != 0 || finding(after, "piece.floats").Kind != "" {
		t.Errorf("it still floats: %+v", after.Float.Pours)
	}
	if err := StopPour(&p, "l1"); err == nil {
		t.Error("there is nothing more to stop")
	}

	boards := demo(t, "breakfast-boards")
	// 0.85 · 11.19 = 9.5, on the rule 9; both lifts are alike, so the line moves.
	if s := Make(boards).Float.Pours[0]; s.Adds || math.Abs(s.Stop.Millimetres()-9) > 1e-9 {
		t.Fatalf("boards: %+v", s)
	}
	boards.Journal = nil
	if err := StopPour(&boards, boards.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	if now := Make(boards); len(now.Layers) != 2 || math.Abs(now.Layers[1].Top.Millimetres()-19) > 1e-6 || now.Float.Pours[0].Hold != 0 {
		t.Errorf("boards: %v", now.Layers)
	}
}

// TestFloatLaws: whatever lies in a mold, more resin never lifts it less while it
// is not covered, the level told is where it just lifts, and stopping at the
// level handed over lifts no wood.
func TestFloatLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Serial = 99
		for i := range p.Pieces {
			p.Pieces[i].Density = given(unit.Density(rapid.Float64Range(150, 1300).Draw(t, "density")))
		}
		pl := Make(p)
		for _, it := range pl.Float.Things {
			for _, in := range it.Pours {
				for i := 1; i < len(in.Curve); i++ {
					if in.By != HeldBySet && in.Curve[i].Level < it.Top && in.Curve[i].Lift < in.Curve[i-1].Lift-1e-12 {
						t.Fatalf("%s: more resin lifts less: %v", it.Name, in.Curve)
					}
				}
				if in.Lifts && in.By == HeldByNothing && !(it.LiftsAt > it.Bottom && it.LiftsAt <= it.Top) {
					t.Fatalf("%s lifts, but at no level: %+v", it.Name, it)
				}
				if in.Hold < 0 {
					t.Fatalf("%s is held by %v", it.Name, in.Hold)
				}
			}
		}
		for _, pour := range pl.Float.Pours {
			if pour.Stop == 0 {
				continue
			}
			next := p.Clone()
			if err := StopPour(&next, pour.Layer); err != nil {
				t.Fatal(err)
			}
			after := Make(next)
			k := next.LayerIndex(pour.Layer)
			for _, it := range after.Float.Things {
				if in := it.Pours[k]; !it.Insert && in.By == HeldByNothing && in.Lifts {
					t.Fatalf("stopped at %v it still lifts %s: %+v", pour.Stop, it.Name, in)
				}
			}
		}
	})
}
