package model

import (
	"math"
	"testing"
)

// The demo jobs are invented; their figures are arithmetic, worked by hand
// beside each. Where a shop note behind a demo says otherwise, the working here
// is the one that stands.

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s = %.4g, want %.4g ± %.2g", what, got, want, tol)
	}
}

func TestPoppyStand(t *testing.T) {
	pl := Make(demo(t, "poppy-stand"))
	// Hexagon 320 across flats: √3/2 · 320² = 88,681 mm².
	within(t, "mold area", pl.Mold.RimArea.SquareMillimetres(), 88681, 0.5)
	within(t, "footprint", pl.Pieces[0].Footprint.SquareMillimetres(), 41300, 1)
	// 24 mm of it: 991.2 cm³; 648 g over that is 0.654 g/cm³.
	within(t, "wood", pl.Pieces[0].Volume.Value.Millilitres(), 991.2, 0.1)
	within(t, "wood's density", pl.Pieces[0].Density.GramsPerMillilitre(), 0.6538, 0.0002)
	// It floats at t·ρ/ρ = 24 · 0.6538/1.0934 = 14.35 mm.
	within(t, "lifts at", pl.Pieces[0].LiftsAt.Millimetres(), 14.35, 0.01)

	one, two := pl.Layers[0], pl.Layers[1]
	// (88,681 - 41,300) · 12.
	within(t, "layer 1 net", one.Net.Millilitres(), 568.57, 0.05)
	// 0.3 mm below 41,300 mm².
	within(t, "layer 1 creep", allowed(one, AllowCreep).Volume.Millilitres(), 12.39, 0.01)
	// (88,681 - 41,300) · 12 + 88,681 · 4, less 14 washers of π/4 (24² - 11²) 2
	// = 0.7147 and 18 half heads of 2.6 cm³.
	within(t, "layer 2 net", two.Net.Millilitres(), 923.30-14*0.71471-18*2.6, 0.05)
	// 3.2 % of layer 1.
	within(t, "layer 2 refill", allowed(two, AllowRefill).Volume.Millilitres(), 18.19, 0.01)
	// (100+45)/(100/1.13 + 45/1.02).
	within(t, "mixed density", one.Density.Value.GramsPerMillilitre(), 1.0934, 0.0001)
	within(t, "parts", one.Mix.Parts, 45, 1e-9)
	// The top sinks by 3.2 % of its net over 88,681 mm²: 0.31 mm; 1.7 comes off it
	// and 0.5 off the underside: 25.5 mm are left.
	within(t, "sink", pl.Mold.Sink.Millimetres(), 0.3127, 0.0005)
	within(t, "finished", pl.Mold.Finished.Millimetres(), 25.49, 0.01)
	// Heads stand on 12 and are 11 tall: tops at 23, under a face at 25.99.
	heads := pl.Inserts[1]
	within(t, "tops", heads.Top.Millimetres(), 23, 1e-6)
	within(t, "cover", heads.Cover.Millimetres(), 2.987, 0.001)
	within(t, "heads together", heads.Total.Millilitres(), 46.8, 1e-6)
	within(t, "heads in layer 1", heads.Layers[0].Millilitres(), 0, 1e-9)
	// The bench is out by 0.3 in 320 mm; corner to corner the hexagon is 369.5.
	within(t, "wedge", pl.Mold.Tilt.Wedge.Millimetres(), 0.3*369.504/320, 0.001)
	for _, f := range pl.Findings {
		if f.Level == Stop {
			t.Errorf("a demo job stops: %s", f.What)
		}
	}
}

func allowed(l LayerPlan, kind AllowanceKind) Allowance {
	for _, a := range l.Allowances {
		if a.Kind == kind {
			return a
		}
	}
	return Allowance{}
}

func TestBreakfastBoards(t *testing.T) {
	pl := Make(demo(t, "breakfast-boards"))
	// 280 · 120 - (4 - π) 25² = 33,063.5 mm² a cavity.
	within(t, "one cavity", pl.Mold.RimArea.SquareMillimetres(), 33063.5, 0.1)
	wood := 0.0
	for i, want := range []float64{19800, 20400, 18900, 21300, 19500} {
		within(t, "footprint", pl.Pieces[i].Footprint.SquareMillimetres(), want, 0.5)
		wood += pl.Pieces[i].Footprint.SquareMillimetres()
		// 20 mm of sycamore at 0.61 in 1.0902: 11.19 mm.
		within(t, "lifts at", pl.Pieces[i].LiftsAt.Millimetres(), 11.19, 0.01)
		within(t, "proud", pl.Pieces[i].Proud.Millimetres(), 1, 1e-6)
	}
	surface := 5*33063.5 - wood
	within(t, "surface", pl.Mold.Surface.SquareMillimetres(), surface, 1)
	within(t, "resin to 19 mm", pl.Mold.Resin.Millilitres(), surface*19/1000, 0.1)
	one, two := pl.Layers[0], pl.Layers[1]
	within(t, "lift 1", one.Net.Millilitres(), 654.2, 0.1)
	within(t, "lift 2", two.Net.Millilitres(), 588.8, 0.1)
	within(t, "sink refilled", allowed(two, AllowRefill).Volume.Millilitres(), 0.035*654.175, 0.02)
	// 654.2 + 30.0 of creep (0.3 mm below 99,900 mm²), at (100+42)/(100/1.15+42/0.97)
	// = 1.0900: 745.8 g, and 6 g stay in the cup: 751.8 g suffices in half of all cases.
	within(t, "mix of lift 1 at even odds", one.Mix.At50.Grams(), 751.9, 0.3)
	// Lift 2: (588.8 + 22.9) · 1.0900 + 6 = 672.8 g. A shop note for this job says
	// 698 g; that counts the creep below the boards a second time, though it
	// was filled by lift 1.
	within(t, "mix of lift 2 at even odds", two.Mix.At50.Grams(), 672.8, 0.3)
	for i, want := range []float64{144.6, 138.0, 154.4, 128.2, 147.8} { // the net of each, at 1.090
		net := one.ByCavity[i].Grams() * one.Net.Millilitres() / one.Volume.Millilitres()
		within(t, "cavity", net, want, 0.3)
	}
	// Out of level by 1.5 in 900 mm: 0.47 mm along one board.
	within(t, "wedge", pl.Mold.Tilt.Wedge.Millimetres(), 0.467, 0.001)
}

func TestHallShelf(t *testing.T) {
	pl := Make(demo(t, "hall-shelf"))
	wood := pl.Pieces[0].Footprint.SquareMillimetres() + pl.Pieces[1].Footprint.SquareMillimetres()
	// The thirteen-station river by Simpson's rule is 84,142 mm²; the two gaps of
	// 1.5 mm along 1,150 mm are 3,450 mm² more.
	within(t, "river", 1150*260-3450-wood, 84142, 1)
	one, two := pl.Layers[0], pl.Layers[1]
	within(t, "pour 1", one.Net.Millilitres(), (84142+3450)*24/1000.0, 0.1)
	within(t, "pour 2", two.Net.Millilitres(), (84142+3450)*18/1000.0-31*5.4, 0.1)
	within(t, "pebbles", pl.Inserts[0].Total.Millilitres(), 167.4, 1e-6)
	// 2.8 % of all that lies below, the gaps' resin with it: 58.9 ml. A shop note
	// says 57, of the river alone.
	within(t, "refill", allowed(two, AllowRefill).Volume.Millilitres(), 58.86, 0.02)
	// 42 mm of oak at 0.71 in (100+33)/(100/1.12+33/1.10) = 1.1150: 26.75 mm.
	within(t, "lifts at", pl.Pieces[0].LiftsAt.Millimetres(), 26.75, 0.01)
	// A and B of 2,450 g at 100:33, by hand 1,842.1 and 607.9.
	within(t, "parts", one.Mix.Parts, 33, 1e-9)
	within(t, "A of 2,450", 2450*100/(100+one.Mix.Parts), 1842.1, 0.05)
	if !pl.Pieces[0].Fit.Fits || !pl.Pieces[1].Fit.Fits {
		t.Error("the slabs fit their form")
	}
}

func TestDemosAreWhole(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := demo(t, name)
		if !p.Demo {
			t.Errorf("%s is not marked as a demo", name)
		}
		for _, x := range p.Validate() {
			t.Errorf("%s: %v", name, x)
		}
		for _, l := range Make(p).Layers {
			if !l.Mix.Ready {
				t.Errorf("%s: %s cannot be weighed: %s", name, l.Name, l.Mix.Why)
			}
		}
	}
}
