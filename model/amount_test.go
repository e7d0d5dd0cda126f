package model

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// boarded is a tray of 300 x 200 x 30 mm with one pour of 10 mm and a bare
// board of 100 x 80 x 20 mm on its floor; films of 0.1 mm soak in and 0.3 mm
// creep below.
func boarded() Project {
	p := tray(300, 200, 30, 10)
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(20)}}
	p.Mixing.Soak, p.Mixing.Creep = mm(0.1), mm(0.3)
	return p
}

func second(p *Project, deep float64) {
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(deep), Sheet: "s1"})
}

// TestSoakCountsEachFaceOnce: the edge of the board is 360 mm long, its face
// 8,000 mm². A pour flush with its top wets 20 mm of edge and not the top; the
// next one covers that.
func TestSoakCountsEachFaceOnce(t *testing.T) {
	soak := func(p Project, k int) float64 { return allowed(Make(p).Layers[k], AllowSoak).Volume.Millilitres() }
	p := boarded()
	within(t, "edge", soak(p, 0), 360*10*0.1/1000, 1e-9)
	p.Layers[0].To = mm(20)
	within(t, "flush", soak(p, 0), 360*20*0.1/1000, 1e-9)
	p.Layers[0].To = mm(21)
	within(t, "covered", soak(p, 0), (360*20+8000)*0.1/1000, 1e-9)
	p.Layers[0].To = mm(20)
	second(&p, 5)
	within(t, "top, by the next", soak(p, 1), 8000*0.1/1000, 1e-9)
	p = boarded()
	p.Pieces[0].Height = mm(4) // on blocks: 6 mm of edge and the underside
	within(t, "on blocks", soak(p, 0), (360*6+8000)*0.1/1000, 1e-9)
}

// TestCreepGoesBelowWhatLies: 0.3 mm below 8,000 mm², in the pour that first
// reaches it, whether it lies on the floor or on the layer below; none below a
// board on blocks, where the space below is counted by its height.
func TestCreepGoesBelowWhatLies(t *testing.T) {
	creep := func(p Project, k int) float64 { return allowed(Make(p).Layers[k], AllowCreep).Volume.Millilitres() }
	p := boarded()
	second(&p, 5)
	within(t, "on the floor", creep(p, 0), 2.4, 1e-9)
	within(t, "second pour", creep(p, 1), 0, 1e-12)
	p.Pieces[0].Height = mm(10)
	within(t, "below a board on the first layer", creep(p, 0), 0, 1e-12)
	within(t, "with the second", creep(p, 1), 2.4, 1e-9)
	p.Pieces[0].Height = mm(4)
	within(t, "on blocks", creep(p, 0)+creep(p, 1), 0, 1e-12)
	p.Pieces[0].Height, p.Pieces[0].Bedded = unit.Dim{}, true
	within(t, "stuck down", creep(p, 0), 0, 1e-12)
}

// TestHeightOfNothingIsTheFloor: typing 0 for the height of what lies on the
// floor says nothing new, and adds no doubt.
func TestHeightOfNothingIsTheFloor(t *testing.T) {
	p := boarded()
	before := Make(p).Layers[0].Mass
	p.Pieces[0].Height = unit.Dim{Written: "0 mm", By: unit.Rule}
	if after := Make(p).Layers[0].Mass; after != before {
		t.Errorf("not given: %+v, 0 mm: %+v", before, after)
	}
}

// TestWoodOnALayerFloats: a board set on the first layer is lifted by the
// second pour: 20 mm of 300 kg/m³ in 1,093 kg/m³ from 5.49 mm on.
func TestWoodOnALayerFloats(t *testing.T) {
	p := boarded()
	p.Layers[0].To = mm(0.1 + 0.2 + 9.7) // as sums of fractions come out, a hair off
	second(&p, 8)
	p.Pieces[0].Height, p.Pieces[0].Density = mm(10), given(unit.Density(300))
	pl := Make(p)
	within(t, "lifts at", pl.Pieces[0].LiftsAt.Millimetres(), 20*300/1093.36, 0.01)
	if f := finding(pl, "piece.floats"); f.Level != Check || !strings.Contains(f.Why, "8 mm") {
		t.Errorf("the finding is %+v", f)
	}
}

// TestOneMoreMillimetre: flush with the top of the board the next millimetre
// floods it: 60,000 mm² and not 52,000. What stands on the layer rises with it.
func TestOneMoreMillimetre(t *testing.T) {
	p := boarded()
	rho := Make(p).Layers[0].Density.Value.GramsPerMillilitre()
	within(t, "beside the board", Make(p).Layers[0].PerMM.Grams(), 52*rho, 1e-6)
	p.Layers[0].To = mm(20)
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 4, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnLayer, Layer: "l1"}}
	within(t, "over the board", Make(p).Layers[0].PerMM.Grams(), 60*rho, 1e-6)
	p.Layers[0].To = mm(30)
	within(t, "at the rim", Make(p).Layers[0].PerMM.Grams(), 60*rho, 1e-6)
}

// TestWoodShareIsOfWood: 8,000 of 60,000 mm² is 13.3 %, whatever else lies there.
func TestWoodShareIsOfWood(t *testing.T) {
	p := boarded()
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 9, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor}}
	within(t, "share", Make(p).Mold.WoodShare, 8.0/60, 1e-9)
}

// TestNoRefillEndsLower: 10 mm and 5 mm that shrink by 3 % each end 0.15 mm low
// when the second pour refills the first, and 0.45 mm when it does not.
func TestNoRefillEndsLower(t *testing.T) {
	p := tray(300, 200, 30, 10)
	second(&p, 5)
	within(t, "refilled", Make(p).Mold.Sink.Millimetres(), 0.15, 1e-9)
	p.Mixing.NoRefill = true
	pl := Make(p)
	within(t, "not refilled", pl.Mold.Sink.Millimetres(), 0.45, 1e-9)
	if a := allowed(pl.Layers[1], AllowRefill); a.Volume != 0 {
		t.Errorf("refilled all the same: %+v", a)
	}
}

// TestFillTestToALevel: walls that lean in by 2 mm at the floor of a tray of
// 300 x 200 x 40 mm take, below 20 mm, about 1,000 mm · 2 mm · (20 - 20²/80) mm
// = 30 ml of 1,200: the cause must name the 2 mm again.
func TestFillTestToALevel(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Mold.FillTest = FillTest{Dry: given((1200 - 2*30) * unit.Millilitre), Level: mm(20)}
	if c := Make(p).Mold.FillTest.Cause; !strings.Contains(c, "about 4 mm") {
		t.Errorf("60 ml short are %q", c)
	}
	p.Style.Lengths = unit.InInches
	if c := Make(p).Mold.FillTest.Cause; strings.Contains(c, "mm") {
		t.Errorf("a project in inches is told %q", c)
	}
}

// TestSharpCornersStaySharp: a tray of 600 x 200 mm at the rim, 2° of draft and
// 40 mm deep holds 4,755,405.48 mm³ (prismatoid), from whichever end it was
// measured.
func TestSharpCornersStaySharp(t *testing.T) {
	p := tray(600, 200, 40, 10)
	p.Mold.Draft = Lean{Kind: LeanAngle, Angle: given(2 * unit.Degree)}
	within(t, "from the rim", float64(Make(p).Mold.Capacity.Value)*1e9, 4755405.48, 0.01)
	lean := 2 * 40 * math.Tan(2*math.Pi/180)
	p.Mold.At, p.Mold.Length, p.Mold.Width = AtFloor, mm(600-lean), mm(200-lean)
	within(t, "from the floor", float64(Make(p).Mold.Capacity.Value)*1e9, 4755405.48, 0.01)
}

// TestMissingIsNotNothing: what is not measured takes part in nothing, and says
// no more than that it is missing.
func TestMissingIsNotNothing(t *testing.T) {
	p := boarded()
	p.Layers[0].By, p.Layers[0].To = ToBelow, unit.Dim{}
	if l := Make(p).Layers[0]; l.Mix.Total != 0 || l.Depth != 0 {
		t.Errorf("a pour of no height takes %v and is %v deep", l.Mix.Total, l.Depth)
	}
	for _, by := range []LevelKind{ToDepth, ToLevel, ToBelow} {
		p = boarded()
		p.Mold.Depth, p.Layers[0].By = unit.Dim{}, by
		for _, f := range Make(p).Findings {
			if f.Level == Stop {
				t.Errorf("with no depth of the mold, a layer by %s stops: %s", by, f.What)
			}
		}
	}
}

// TestPlanIsAlwaysFinite makes what a hostile or careless document could hold,
// and looks for numbers that are none: JSON refuses to write those.
func TestPlanIsAlwaysFinite(t *testing.T) {
	zero := unit.Dim{Written: "0 mm"}
	for name, change := range map[string]func(*Project){
		"a void of no depth": func(p *Project) {
			p.Pieces[0].Voids = []Void{{ID: "v", Kind: VoidBox, Length: mm(9), Width: mm(9), Depth: zero}}
		},
		"all stays in the cup": func(p *Project) { p.Mixing.CupFilm = given(unit.Share(1)) },
		"no step of the scale": func(p *Project) { p.Mixing.ScaleStep = unit.Taken[unit.Mass]{Written: "0 g"} },
		"sure beyond doubt":    func(p *Project) { p.Mixing.Confidence = given(unit.Share(1)) },
		"a step of two tonnes": func(p *Project) { p.Mixing.ScaleStep = given(unit.Mass(2000)) },
		"stations of no width": func(p *Project) {
			w := &p.Pieces[0]
			w.Kind, w.Spacing, w.Stations = PieceStations, mm(30), []unit.Dim{zero, zero, zero}
		},
		"a ridge": func(p *Project) {
			w := &p.Pieces[0]
			w.Kind, w.Spacing, w.Stations = PieceStations, mm(30), []unit.Dim{mm(9), mm(9), mm(9)}
			w.Top.Stations = []unit.Dim{zero, zero, zero}
		},
		"ten thousand inserts": func(p *Project) {
			p.Inserts = []Insert{{ID: "i", Name: "balls", Count: 10000, Kind: InsertSphere, Diameter: mm(9)}}
		},
		"everything above": func(p *Project) { p.Pieces[0].Height, p.Layers[0].To = mm(100), mm(100) },
		"densities of nothing": func(p *Project) {
			p.Sheets[0].DensityA.Taken, p.Sheets[0].DensityB.Taken = unit.Taken[unit.Density]{Written: "0"}, unit.Taken[unit.Density]{Written: "0"}
		},
		"a glacier and an oven": func(p *Project) {
			p.Shop.Room = given(unit.Celsius(-20))
			p.Sheets[0].FullCure = Figure[unit.Span]{Taken: given(300 * unit.Day), At: given(unit.Celsius(200))}
		},
		"a level of fill at 0": func(p *Project) { p.Mold.FillTest = FillTest{Water: given(unit.Mass(1)), Level: zero} },
		"a bench on its edge":  func(p *Project) { p.Shop.TiltRise, p.Shop.TiltOver, p.Shop.TiltAlong = mm(5000), mm(1), AlongWidth },
		"a seam like a door": func(p *Project) {
			p.Mold.Hold.Seams = []Seam{{ID: "g1", Gap: mm(1e9), Long: mm(1e9), Way: mm(1e-9)}, {ID: "g2", Gap: zero, Long: zero, Way: zero, Height: mm(-1e6)}}
		},
		"no floor on far supports": func(p *Project) { p.Mold.Thick, p.Mold.Hold.Spacing = zero, mm(1e9) },
		"depths of the sea": func(p *Project) {
			p.Mold.Hold.Depths = []unit.Dim{mm(1e9), mm(1), mm(1e9), mm(1)}
		},
		"a layer of the rim": func(p *Project) { p.Layers[0].By, p.Layers[0].To = ToBelow, zero },
	} {
		p := boarded()
		p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: p.Created}}
		change(&p)
		pl := Make(p)
		if _, err := json.Marshal(pl); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, s := range pl.Steps {
			if s.Due.Year() > 2200 {
				t.Errorf("%s: %s falls due in %d", name, s.Label, s.Due.Year())
			}
		}
		if m := pl.Layers[0].Mass; m.Value < 0 || pl.Layers[0].Net < 0 {
			t.Errorf("%s: less than nothing is poured: %+v", name, m)
		}
	}
}

// TestScaleOfOunces: where the maker weighs in ounces the usual scale does too,
// so that what is shown of A and B adds up.
func TestScaleOfOunces(t *testing.T) {
	p := boarded()
	p.Style.Masses = unit.InOunces
	m := Make(p).Layers[0].Mix
	if m.Step != unit.Ounce/20 {
		t.Errorf("the step is %v", m.Step)
	}
	if u, _ := p.Usual("mixing/scaleStep"); u.Value != "0.05 oz" {
		t.Errorf("the usual step is written %q", u.Value)
	}
}

// TestNoTemperatureOnTheSheet: the figure is taken at 20 °C, marked, and its
// band reaches to where it would hold at 25: in a room at 20 °C that is longer
// by exp(55000/R (1/293.15 - 1/298.15)) = 1.46 (and 1.56 at 65 kJ/mol).
func TestNoTemperatureOnTheSheet(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Shop.Room = given(unit.Celsius(20))
	p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(unit.Hour)}
	w := Make(p).Layers[0].Times.Working
	within(t, "value", w.Value.Hours(), 1, 1e-9)
	within(t, "low", w.Low.Hours(), 1, 1e-9)
	within(t, "high", w.High.Hours(), 1.564, 0.002)
	if !w.Typical {
		t.Error("it is not marked")
	}
}

// TestSlowLayerBelow: a fast layer that is ready after two days on a slow one
// that takes ten from a pour a day earlier leaves nine.
func TestSlowLayerBelow(t *testing.T) {
	p := twoPours()
	slow := p.Sheets[0]
	slow.ID, slow.Demold.Value = "s2", 240*unit.Hour
	p.Sheets = append(p.Sheets, slow)
	p.Layers[0].Sheet = "s2"
	p = pouredAt(pouredAt(p, "l1", firstPour), "l2", firstPour.Add(24*time.Hour))
	if s := stepOf(t, Make(p), StepDemold); !s.Due.Equal(firstPour.Add(240 * time.Hour)) {
		t.Errorf("ready at %v, want ten days after the first pour", s.Due)
	}
}

func TestPoursOutOfOrder(t *testing.T) {
	p := pouredAt(twoPours(), "l2", firstPour)
	if f := finding(Make(p), "pour.order"); f.Level != Check || f.Field != "layers/l2" {
		t.Errorf("the second before the first: %+v", f)
	}
	p = pouredAt(p, "l1", firstPour.Add(time.Hour)) // marked afterwards, and later
	if f := finding(Make(p), "pour.order"); f.Level != Check {
		t.Errorf("the first after the second: %+v", f)
	}
	first := pouredAt(twoPours(), "l1", firstPour)
	for kind, after := range map[string]time.Duration{"pour.early": 2 * time.Hour, "pour.late": 10 * time.Hour} {
		if f := finding(Make(pouredAt(first, "l2", firstPour.Add(after))), kind); f.Level != Check || !strings.Contains(f.Why, "2 h") {
			t.Errorf("%v after the first: %+v", after, f)
		}
	}
	pl := Make(pouredAt(first, "l2", firstPour.Add(5*time.Hour)))
	for _, kind := range []string{"pour.order", "pour.early", "pour.late"} {
		if f := finding(pl, kind); f.Kind != "" {
			t.Errorf("in the window: %+v", f)
		}
	}
}
