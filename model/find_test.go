package model

import (
	"math"
	"strings"
	"testing"
	"time"
	"unicode"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// TestBlankFromTheRim: walls that lean 1.7 mm a side between a rim of 400 mm
// and the floor 40 mm below make the floor 396.6 mm long; a blank traced from
// the rim is 3.4 mm too long there. With a blank of 398.2 mm it would sit where
// the walls are that far apart: 40 · (398.2 - 396.6)/3.4 = 18.8 mm up.
func TestBlankFromTheRim(t *testing.T) {
	p := tray(400, 200, 40, 20)
	p.Mold.Draft = Lean{Kind: LeanSizes, Length: mm(396.6), Width: mm(196.6)}
	p.Pieces = []Piece{{ID: "p1", Name: "blank", Kind: PieceRectangle, Length: mm(400), Width: mm(100), Thickness: mm(10)}}
	pl := Make(p)
	f := finding(pl, "piece.fit")
	if f.Level != Stop || !strings.Contains(f.Why, "3.4 mm too long at the floor") {
		t.Errorf("the finding is %+v", f)
	}
	p.Pieces[0].Length = mm(398.2)
	fit := Make(p).Pieces[0].Fit
	within(t, "too long", fit.LongBy.Millimetres(), 1.6, 0.001)
	within(t, "sits at", fit.SitsAt.Millimetres(), 18.82, 0.05+1000*clearEnough/1.7*40) // within the tenth that counts as clear
	if !fit.Sits {
		t.Error("it sits below the rim")
	}
	p.Pieces[0].Length = mm(390)
	pl = Make(p)
	if g := pl.Pieces[0].Fit.GapFloor; !pl.Pieces[0].Fit.Fits || math.Abs(g.Left.Millimetres()-3.3) > 1e-6 || math.Abs(g.Near.Millimetres()-48.3) > 1e-6 {
		t.Errorf("gap at the floor %+v", g)
	}
	// At 10 mm, its top, each wall has gone back by a quarter of 1.7 mm.
	if g := pl.Pieces[0].Fit.GapFill; math.Abs(g.Right.Millimetres()-3.3-0.425) > 1e-6 {
		t.Errorf("gap at the fill line %+v", g)
	}
}

func TestFillTestFinding(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Mold.FillTest = FillTest{Water: given(1.797 * unit.Kilogram)}
	// 300 · 200 · 30 = 1,800 ml; 1,797 g of water at 0.9982 is 1,800.2 ml.
	pl := Make(p)
	within(t, "apart", pl.Mold.FillTest.Apart, 0, 0.0005)
	if f := finding(pl, "mold.fill-test"); f.Kind != "" {
		t.Errorf("two volumes that agree gave %+v", f)
	}
	p.Mold.FillTest.Water = given(1.700 * unit.Kilogram)
	f := finding(Make(p), "mold.fill-test")
	if f.Level != Check || !strings.Contains(f.Why, "1800 ml") || !strings.Contains(f.Why, "-5.4 %") || !strings.Contains(f.Do, "walls that lean in") {
		t.Errorf("5 %% short gave %+v", f)
	}
	p.Mold.Kind, p.Mold.Diameter = MoldRound, mm(100)
	p.Mold.FillTest.Water = given(unit.Mass(4*math.Pi*0.05*0.05*0.03*998.2) * unit.Kilogram)
	if f := finding(Make(p), "mold.fill-test"); !strings.Contains(f.Do, "radius") {
		t.Errorf("a radius taken for a diameter gave %+v", f)
	}
}

// TestSlips makes slips that makers make and looks for the finding that names
// each.
func TestSlips(t *testing.T) {
	base := func() Project {
		p := tray(300, 200, 30, 10)
		p.Shop.Room = given(unit.Celsius(21))
		return p
	}
	wood := func(p *Project) *Piece {
		p.Pieces = append(p.Pieces, Piece{ID: p.NewID("p"), Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(20), Bedded: true, Sealed: true})
		return &p.Pieces[len(p.Pieces)-1]
	}
	leaky := func(p *Project, gap float64) *Seam {
		p.Sheets[0].Gel = Figure[unit.Span]{Taken: given(10 * unit.Hour), At: given(unit.Celsius(21))}
		p.AddSeam()
		s := &p.Mold.Hold.Seams[0]
		s.Gap, s.Long, s.Way = mm(gap), mm(200), mm(18)
		return s
	}
	mount := func(p *Project) *Mount {
		m := p.Mount(p.AddMount(MountHandle))
		m.Screw = "M4"
		return m
	}
	disc := func(p *Project) *Insert {
		p.Inserts = append(p.Inserts, Insert{ID: p.NewID("i"), Name: "disc", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor})
		return &p.Inserts[len(p.Inserts)-1]
	}
	// A slab of 20 mm traced from straight above, by its corners in mm from its
	// middle, with the cavity over it.
	laid := func(p *Project, corners ...float64) *Layup {
		s := Slab{ID: "b1", Name: "slab", Thickness: mm(20), Layups: []Layup{{ID: "y1", Name: "here", Gap: mm(2)}}}
		f := &s.Upper
		f.Wide, f.High, f.By, f.Long, f.Broad, f.Touch = 2000, 1200, ByCard, mm(300), mm(200), 1
		for i, at := range [][2]float64{{700, 800}, {1300, 800}, {1300, 400}, {700, 400}} {
			f.Marks = append(f.Marks, Mark{ID: "k" + itoa(i), X: at[0], Y: at[1]})
		}
		var ring shape.Ring
		for i := 0; i < len(corners); i += 2 {
			ring = append(ring, shape.Point{X: 1000 + 2*corners[i], Y: 600 - 2*corners[i+1]})
		}
		f.Rings = []TracedRing{{ID: "r1", Kind: RingWood, Points: ring}}
		p.Slabs = []Slab{s}
		return &p.Slabs[0].Layups[0]
	}
	bar := []float64{-200, -50, 200, -50, 200, 50, -200, 50}
	used := func(p *Project) {
		pl := Make(*p)
		if _, err := pl.Choose(p, "b1", "y1"); err != nil {
			t.Error(err)
		}
		for _, kind := range []string{"lay.stale", "lay.gap", "lay.parts", "lay.outside", "lay.thickness", "lay.face"} {
			if f := finding(Make(*p), kind); f.Kind != "" {
				t.Errorf("just chosen: %+v", f)
			}
		}
	}
	for _, c := range []struct {
		slip, kind string
		level      Level
		make       func(p *Project)
	}{
		{"inches typed as mm", "mold.size-slip", Check, func(p *Project) { p.Mold.Length, p.Mold.Width, p.Mold.Depth = mm(12), mm(8), mm(1) }},
		{"mm typed as inches", "mold.size-slip", Check, func(p *Project) { p.Mold.Length = mm(7620) }},
		{"depth and length swapped", "mold.deep", Note, func(p *Project) { p.Mold.Depth = mm(310) }},
		{"no depth", "missing", Check, func(p *Project) { p.Mold.Depth = unit.Dim{} }},
		{"layers above the rim", "mold.overflow", Stop, func(p *Project) { p.Layers[0].To = mm(31) }},
		{"level below the layer before", "layer.order", Stop, func(p *Project) {
			p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToLevel, To: mm(8), Sheet: "s1"})
		}},
		{"more off the edges than there is", "trim.nothing", Stop, func(p *Project) { p.Finish.Trim.Extra = mm(110) }},
		{"a sliver off the edges", "trim.kerf", Note, func(p *Project) { p.Finish.Trim.Extra = mm(1) }},
		{"a promise that is too thick", "flatten.short", Stop, func(p *Project) { p.Finish.Thickness = mm(12) }},
		{"one corner not measured", "flatten.points", Check, func(p *Project) { p.MeasureBlank(true); p.Finish.Flatten.Points[0] = mm(10) }},
		{"flattened down to an insert", "flatten.cover", Stop, func(p *Project) { disc(p).Fixed = true; p.Finish.Thickness = mm(4) }},
		{"no tool to flatten with", "flatten.none", Check, func(p *Project) { p.Finish.Top, p.Finish.Flatten.Tool = mm(1), ToolNone }},
		{"deep passes on resin", "flatten.deep", Check, func(p *Project) { p.Finish.Flatten.Resin = mm(3) }},
		{"a grit that is missing", "sand.gap", Check, func(p *Project) { p.Finish.Sand = Sand{Want: SurfaceSatin, Own: []GritMark{"P80", "P220"}} }},
		{"no allowance for sanding", "sand.more", Check, func(p *Project) { p.Finish.Sand.Want, p.Finish.Top = SurfaceClear, mm(0.1) }},
		{"a fast disc", "sand.fast", Check, func(p *Project) { p.Finish.Sand = Sand{Want: SurfaceClear, Sander: SanderDisc, Turns: 6000} }},
		{"sanding in the heat", "sand.soft", Stop, func(p *Project) {
			p.Finish.Sand.Want = SurfaceSatin
			p.Sheets[0].Softening = Figure[unit.Temperature]{Taken: given(unit.Celsius(30))}
		}},
		{"an inch screw for a metric handle", "mount.thread", Stop, func(p *Project) { mount(p).Screw, p.Finish.Mounts[0].Thread = "#8-32", "M4" }},
		{"a head that is not made", "mount.head", Check, func(p *Project) { mount(p).Head = HeadTruss }},
		{"a screw that is too short", "mount.screw", Stop, func(p *Project) { mount(p).Long = mm(5) }},
		{"a foot on a thin board", "mount.none", Stop, func(p *Project) { p.AddMount(MountFoot) }},
		{"a mount outside", "mount.outside", Stop, func(p *Project) { mount(p).X = 0.149 }},
		{"a mount near the edge", "mount.edge", Check, func(p *Project) { mount(p).X = 0.143 }},
		{"a mount over inserts", "mount.insert", Stop, func(p *Project) { disc(p); mount(p) }},
		{"two series on one piece", "mount.series", Check, func(p *Project) { mount(p); mount(p); p.Finish.Mounts[1].Screw = "#8-32" }},
		{"a foot of unknown thickness", "missing", Check, func(p *Project) { p.AddMount(MountFoot) }},
		{"oil over polish", "coat.dull", Check, func(p *Project) { p.Finish.Sand.Want, p.Finish.Coat.Kind = SurfaceClear, CoatOil }},
		{"a serving board with nothing quoted", "use.food", Note, func(p *Project) { p.Finish.Use.As = UseBoard }},
		{"a table of unknown resin", "use.softens", Note, func(p *Project) { p.Finish.Use.As = UseTable }},
		{"no resin chosen", "layer.sheet", Check, func(p *Project) { p.Layers[0].Sheet = "" }},
		{"too deep for the sheet", "layer.deep", Stop, func(p *Project) { p.Sheets[0].MaxLayer.Value = 0.009 }},
		{"too thin for the sheet", "layer.thin", Check, func(p *Project) { p.Sheets[0].MinLayer = Figure[unit.Length]{Taken: mm(12)} }},
		{"a cold room", "room.coldest", Stop, func(p *Project) { p.Sheets[0].Coldest = Figure[unit.Temperature]{Taken: given(unit.Celsius(22))} }},
		{"a hot room", "room.warmest", Stop, func(p *Project) { p.Sheets[0].Warmest = Figure[unit.Temperature]{Taken: given(unit.Celsius(18))} }},
		{"no room temperature", "room.missing", Check, func(p *Project) { p.Shop.Room = unit.Taken[unit.Temperature]{} }},
		{"too much tint", "mix.tint", Check, func(p *Project) { p.Layers[0].Tint.Share = given(unit.Share(0.07)) }},
		{"a ratio by volume entered as one by weight", "sheet.ratio", Check, func(p *Project) {
			p.Sheets[0].Volume, p.Sheets[0].Weight.B = Ratio{given(unit.Number(2)), given(unit.Number(1))}, given(unit.Number(50))
		}},
		{"A and B swapped", "sheet.swapped", Check, func(p *Project) { p.Sheets[0].Weight = Ratio{given(unit.Number(45)), given(unit.Number(100))} }},
		{"an equivalent weight copied wrong", "sheet.equivalents", Check, func(p *Project) {
			p.Sheets[0].EEW, p.Sheets[0].AHEW = given(unit.Number(190)), given(unit.Number(58))
		}},
		{"no ratio", "mix.ratio", Stop, func(p *Project) { p.Sheets[0].Weight = Ratio{} }},
		{"a window that closes before it opens", "sheet.recoat", Check, func(p *Project) {
			p.Sheets[0].RecoatFrom, p.Sheets[0].RecoatTo = Figure[unit.Span]{Taken: given(8 * unit.Hour)}, Figure[unit.Span]{Taken: given(4 * unit.Hour)}
		}},
		{"working time longer than gel", "sheet.working", Check, func(p *Project) {
			p.Sheets[0].WorkingTime, p.Sheets[0].Gel = Figure[unit.Span]{Taken: given(8 * unit.Hour)}, Figure[unit.Span]{Taken: given(4 * unit.Hour)}
		}},
		{"°F and °C mixed", "sheet.range", Check, func(p *Project) {
			p.Sheets[0].Coldest, p.Sheets[0].Warmest = Figure[unit.Temperature]{Taken: given(unit.Celsius(60))}, Figure[unit.Temperature]{Taken: given(unit.Celsius(30))}
		}},
		{"a kitchen scale for a small batch", "mix.scale", Check, func(p *Project) { p.Mold.Length, p.Mold.Width, p.Layers[0].To = mm(60), mm(40), mm(5) }},
		{"a large batch", "mix.large", Check, func(p *Project) {
			p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(unit.Hour), Mass: given(100 * unit.Gram)}
		}},
		{"wood longer than the mold", "piece.fit", Stop, func(p *Project) { wood(p).Length = mm(301) }},
		{"wood outside the wall", "piece.fit", Stop, func(p *Project) { wood(p).X = 0.2 }},
		{"wood in wood", "piece.overlap", Stop, func(p *Project) { wood(p); wood(p).X = 0.05 }},
		{"wood in a cavity that is not there", "piece.cavity", Stop, func(p *Project) { wood(p).Cavity = 2 }},
		{"wood proud of the resin", "piece.proud", Note, func(p *Project) { wood(p) }},
		{"wood that floats", "piece.floats", Check, func(p *Project) { wood(p).Density = given(unit.Density(400)) }},
		{"weight that does not fit the sizes", "piece.weight", Check, func(p *Project) {
			w := wood(p)
			w.Density, w.Weight = given(unit.Density(650)), given(90*unit.Gram)
		}},
		{"weight in the wrong unit", "piece.density", Check, func(p *Project) { wood(p).Weight = given(3 * unit.Kilogram) }},
		{"an insert taller than the fill", "insert.proud", Stop, func(p *Project) { disc(p).Tall = mm(11) }},
		{"an insert that the planer meets", "insert.cut", Stop, func(p *Project) { disc(p).Tall = mm(9); p.Finish.Top = mm(2) }},
		{"too little cover", "insert.cover", Check, func(p *Project) { disc(p).Tall = mm(8) }},
		{"an insert wider than the mold", "insert.wide", Stop, func(p *Project) { disc(p).Diameter = mm(320) }},
		{"a hole larger than its ring", "missing", Check, func(p *Project) { s := disc(p); s.Kind, s.Inner = InsertRing, mm(25) }},
		{"an insert that floats", "insert.floats", Check, func(p *Project) { disc(p).Mass = given(0.2 * unit.Gram) }},
		{"a mass of no material", "insert.density", Check, func(p *Project) { disc(p).Mass = given(30 * unit.Gram) }},
		{"a bench out of level", "mold.tilt", Check, func(p *Project) { p.Shop.TiltRise, p.Shop.TiltOver = mm(3), mm(300) }},
		{"so far out that it runs over", "mold.tilt-overflow", Stop, func(p *Project) {
			p.Layers[0].To = mm(29)
			p.Shop.TiltRise, p.Shop.TiltOver = mm(3), mm(300)
		}},
		{"wood to be held down", "float.hold", Note, func(p *Project) { wood(p).Density = given(unit.Density(400)) }},
		{"depths at three corners", "missing", Check, func(p *Project) { p.Mold.Hold.Depths = []unit.Dim{mm(10), mm(10), mm(10), {}} }},
		{"a depth in the wrong unit", "level.depths", Check, func(p *Project) { p.Mold.Hold.Depths = []unit.Dim{mm(10), mm(100), mm(100), mm(10)} }},
		{"a twisted floor", "level.twist", Check, func(p *Project) { p.Mold.Hold.Depths = []unit.Dim{mm(10), mm(13), mm(10), mm(10)} }},
		{"a level that says other than the depths", "level.contradicts", Check, func(p *Project) {
			p.Mold.Hold.Depths = []unit.Dim{mm(10), mm(10), mm(10), mm(10)}
			p.Shop.TiltRise, p.Shop.TiltOver = mm(9), mm(600)
		}},
		{"a cavity beside the wood", "lay.outside", Check, func(p *Project) { laid(p, bar...).X = 3 }},
		{"a slab that is not traced", "lay.face", Check, func(p *Project) {
			laid(p, bar...)
			p.Slabs[0].Upper.Rings = nil
		}},
		{"an under face that is not straightened", "lay.face", Check, func(p *Project) {
			laid(p, bar...)
			p.Slabs[0].Under.Photo = "below"
		}},
		{"a slab of no known thickness", "lay.thickness", Check, func(p *Project) {
			laid(p, bar...)
			p.Slabs[0].Thickness = unit.Dim{}
		}},
		{"a cut through a fork", "lay.parts", Note, func(p *Project) {
			laid(p, -200, -60, 200, -60, 200, -20, -160, -20, -160, 20, 200, 20, 200, 60, -200, 60).X = 0.06
		}},
		{"a cut flush with the wall", "lay.gap", Check, func(p *Project) { laid(p, bar...).Gap = unit.Dim{Written: "0"} }},
		{"a cut that leaves a neck", "lay.neck", Check, func(p *Project) {
			laid(p, -200, -50, 0, -50, 0, -3, 20, -3, 20, -50, 200, -50, 200, 50, 20, 50, 20, 3, 0, 3, 0, 50, -200, 50)
			used(p)
		}},
		{"a cavity moved after the wood was cut", "lay.stale", Check, func(p *Project) {
			l := laid(p, bar...)
			used(p)
			l.Turn = 0.1
		}},
		{"walls that lean in", "mold.undercut", Stop, func(p *Project) { p.Mold.Draft = Lean{Kind: LeanAngle, Angle: given(-3 * unit.Degree)} }},
		{"a seam of no measured gap", "missing", Check, func(p *Project) { p.AddSeam() }},
		{"a seam higher than the resin", "leak.above", Note, func(p *Project) { leaky(p, 0.1).Height = mm(12) }},
		{"a seam left open", "leak.much", Check, func(p *Project) { leaky(p, 0.1) }},
		{"a gap that a coin goes into", "leak.empties", Stop, func(p *Project) { leaky(p, 2) }},
		{"a leak of a resin of no gel time", "leak.unknown", Check, func(p *Project) {
			leaky(p, 0.1)
			p.Sheets[0].Gel = Figure[unit.Span]{}
		}},
		{"supports too far apart", "sag.much", Check, func(p *Project) { p.Mold.Hold.Spacing, p.Mold.Thick = mm(1500), mm(12) }},
		{"a mold on battens", "sag.unknown", Note, func(p *Project) { p.Shop.Bench = BenchOpen }},
		{"a soft floor on supports", "sag.soft", Check, func(p *Project) { p.Mold.Floor, p.Mold.Hold.Spacing = FloorSilicone, mm(200) }},
		{"text that could not be taken", "draft", Check, func(p *Project) { p.SetDraft("mold/depth", "3 fingers", "this is no length") }},
		{"no layer", "layer.none", Note, func(p *Project) { p.Layers = nil }},
		{"an outline that crosses itself", "missing", Check, func(p *Project) {
			p.Mold.Kind, p.Mold.Outline = MoldOutline, shape.Ring{{X: 0, Y: 0}, {X: .1, Y: .1}, {X: .1, Y: 0}, {X: 0, Y: .1}}
		}},
		{"one station", "missing", Check, func(p *Project) {
			w := wood(p)
			w.Kind, w.Spacing, w.Stations = PieceStations, mm(50), []unit.Dim{mm(40)}
		}},
		{"a bench out of level over no distance", "missing", Check, func(p *Project) { p.Shop.TiltRise = mm(3) }},
		{"walls that lean by sizes not taken", "missing", Check, func(p *Project) { p.Mold.Draft.Kind = LeanSizes }},
		{"walls that lean by an angle not taken", "missing", Check, func(p *Project) { p.Mold.Draft.Kind = LeanAngle }},
		{"a height to rest on not taken", "missing", Check, func(p *Project) { disc(p).On = OnHeight }},
		{"a measuring cup with false lines", "marks.lines", Check, func(p *Project) {
			p.Mixing.Vessel = vesselOf(90, 90, 140)
			p.Mixing.Vessel.Lined = unit.InMillilitres
			p.Mixing.Vessel.Reads, p.Mixing.Vessel.At = given(500*unit.Millilitre), mm(70)
		}},
		{"an additive with no share", "missing", Check, func(p *Project) { p.Layers[0].Additives = []Additive{{ID: "a1", Name: "powder"}} }},
		{"a void with no size", "missing", Check, func(p *Project) { wood(p).Voids = []Void{{ID: "v1", Kind: VoidRound}} }},
		{"a void of no depth", "missing", Check, func(p *Project) {
			wood(p).Voids = []Void{{ID: "v1", Kind: VoidRound, Diameter: mm(9), Depth: unit.Dim{Written: "0 mm"}}}
		}},
		{"a void larger than its wood", "piece.voids", Stop, func(p *Project) { wood(p).Voids = []Void{{ID: "v1", Kind: VoidRound, Diameter: mm(120)}} }},
		{"a void deeper than its wood", "void.deep", Check, func(p *Project) {
			wood(p).Voids = []Void{{ID: "v1", Kind: VoidRound, Diameter: mm(9), Depth: mm(25)}}
		}},
		{"a void over the edge", "void.outside", Check, func(p *Project) {
			wood(p).Voids = []Void{{ID: "v1", Kind: VoidRound, Diameter: mm(9), X: 0.049}}
		}},
		{"wood above the resin", "piece.above", Check, func(p *Project) { wood(p).Height = mm(10) }},
		{"wood of no known weight", "piece.lift-unknown", Check, func(p *Project) { wood(p) }},
		{"wood stuck down that would float", "piece.floats", Check, func(p *Project) { wood(p).Density = given(unit.Density(300)) }},
		{"a weight in grams for one in pounds", "piece.density", Check, func(p *Project) { wood(p).Weight = given(3 * unit.Gram) }},
		{"live edges that meet above", "piece.overlap", Stop, func(p *Project) {
			wood(p).Top.Width = mm(120)
			wood(p).Y = 0.09
		}},
		{"more inserts than there is room for", "mold.crowded", Stop, func(p *Project) { disc(p).Count = 300 }},
		{"as many as can be typed", "mix.nothing", Stop, func(p *Project) { disc(p).Count = 10000 }},
		{"inserts of which there are none", "insert.none", Note, func(p *Project) { disc(p).Count = 0 }},
		{"an insert of no known mass", "insert.float-unknown", Note, func(p *Project) { disc(p) }},
		{"an insert wider than the mold one way", "insert.wide", Stop, func(p *Project) { disc(p).Diameter = mm(210) }},
		{"an insert cut from below", "insert.cut-below", Stop, func(p *Project) { disc(p); p.Finish.Bottom = mm(1) }},
		{"nothing left", "finish.nothing", Stop, func(p *Project) { p.Finish.Top = mm(10) }},
		{"the last layer planed away", "finish.through", Check, func(p *Project) {
			p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(2), Sheet: "s1"})
			p.Finish.Top = mm(2)
		}},
		{"a fill test above the rim", "mold.fill-test-level", Check, func(p *Project) {
			p.Mold.FillTest = FillTest{Water: given(unit.Mass(1)), Level: mm(35)}
		}},
		{"a scale that shows no hardener at all", "mix.scale", Check, func(p *Project) { p.Mixing.ScaleStep = given(unit.Kilogram) }},
		{"a mixed density of another product", "sheet.density", Check, func(p *Project) {
			p.Sheets[0].DensityMixed = Figure[unit.Density]{Taken: given(unit.Density(1150))}
		}},
		{"the deepest layer in a hot room", "layer.depth-warm", Check, func(p *Project) {
			p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(12), At: given(unit.Celsius(20))}
			p.Shop.Room = given(unit.Celsius(30))
		}},
		{"a room that few work in", "room.odd", Check, func(p *Project) { p.Shop.Room = given(unit.Celsius(45)) }},
		{"the room warmer at night", "room.night", Check, func(p *Project) { p.Shop.Night = given(unit.Celsius(24)) }},
		{"a night too cold for the resin", "room.night-cold", Check, func(p *Project) {
			p.Sheets[0].Coldest, p.Shop.Night = Figure[unit.Temperature]{Taken: given(unit.Celsius(16))}, given(unit.Celsius(12))
		}},
		{"a nearly empty bottle", "stock.short", Check, func(p *Project) { p.Sheets[0].LeftB = given(5 * unit.Gram) }},
		{"bottles out of a cold shed", "day.cold-bottles", Check, func(p *Project) {
			p.Sheets[0].Coldest, p.Shop.Bottles = Figure[unit.Temperature]{Taken: given(unit.Celsius(16))}, given(unit.Celsius(10))
		}},
		{"cold bottles", "resin.cold", Check, func(p *Project) {
			p.Sheets[0].Coldest, p.Shop.Resin = Figure[unit.Temperature]{Taken: given(unit.Celsius(16))}, given(unit.Celsius(10))
		}},
		{"bottles left in the sun", "resin.warm", Check, func(p *Project) {
			p.Sheets[0].Warmest, p.Shop.Resin = Figure[unit.Temperature]{Taken: given(unit.Celsius(28))}, given(unit.Celsius(38))
		}},
		{"a part that water settles on", "day.dew", Stop, func(p *Project) {
			p.Shop.Humidity, p.Shop.Wood = given(unit.Share(0.6)), given(unit.Celsius(12))
		}},
		{"a part hardly above the dew point", "day.dew", Check, func(p *Project) { p.Shop.Humidity = given(unit.Share(0.84)) }},
		{"resin hardly above the dew point", "day.dew", Check, func(p *Project) {
			p.Shop.Humidity, p.Shop.Resin = given(unit.Share(0.6)), given(unit.Celsius(15))
		}},
		{"a night at the dew point", "day.night-dew", Check, func(p *Project) {
			p.Shop.Humidity, p.Shop.Night = given(unit.Share(0.6)), given(unit.Celsius(14))
		}},
		{"damp air", "day.damp", Check, func(p *Project) { p.Shop.Humidity = given(unit.Share(0.9)) }},
		{"wood from the cold store", "day.cold-wood", Check, func(p *Project) { p.Shop.Wood = given(unit.Celsius(16)) }},
		{"a cold bottle", "day.crystals", Check, func(p *Project) { p.Shop.Resin = given(unit.Celsius(9)) }},
		{"a viscosity in the wrong unit", "air.stays", Check, func(p *Project) {
			p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(unit.Hour), At: given(unit.Celsius(20))}
			p.Sheets[0].Viscosity = Figure[unit.Viscosity]{Taken: given(unit.Viscosity(500)), At: given(unit.Celsius(25))}
		}},
		{"rising and resting at one hour", "hours.same", Note, func(p *Project) { p.Shop.Wakes, p.Shop.Sleeps = "07:00", "07:00" }},
		{"no hour of rest", "hours.half", Note, func(p *Project) { p.Shop.Wakes = "07:00" }},
		{"no hour of rising", "hours.half", Note, func(p *Project) { p.Shop.Sleeps = "22:00" }},
		{"a second working time at no temperature", "missing", Check, func(p *Project) {
			p.Sheets[0].WorkingOther = Figure[unit.Span]{Taken: given(2 * unit.Hour)}
		}},
		{"a second working time at the same temperature", "sheet.same-warmth", Check, func(p *Project) {
			p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(unit.Hour), At: given(unit.Celsius(20))}
			p.Sheets[0].WorkingOther = Figure[unit.Span]{Taken: given(2 * unit.Hour), At: given(unit.Celsius(20.2))}
		}},
		{"a working time longer in the warmth", "sheet.warmth", Check, func(p *Project) {
			p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(unit.Hour), At: given(unit.Celsius(20))}
			p.Sheets[0].WorkingOther = Figure[unit.Span]{Taken: given(2 * unit.Hour), At: given(unit.Celsius(30))}
		}},
		{"a gel time shorter in the cold", "sheet.warmth", Check, func(p *Project) {
			p.Sheets[0].Gel = Figure[unit.Span]{Taken: given(9 * unit.Hour), At: given(unit.Celsius(20))}
			p.Sheets[0].GelOther = Figure[unit.Span]{Taken: given(5 * unit.Hour), At: given(unit.Celsius(12))}
		}},
		{"a cup no hotter than the room", "sheet.peak", Check, func(p *Project) {
			p.Sheets[0].Peak = Figure[unit.Temperature]{Taken: given(unit.Celsius(24)), At: given(unit.Celsius(25))}
		}},
		{"a peak heat of no known mass", "sheet.peak-mass", Note, func(p *Project) {
			p.Sheets[0].Peak = Figure[unit.Temperature]{Taken: given(unit.Celsius(140)), At: given(unit.Celsius(25))}
		}},
		{"a limit no hotter than the room", "sheet.peak-limit", Check, func(p *Project) {
			p.Sheets[0].PeakLimit = Figure[unit.Temperature]{Taken: given(unit.Celsius(16))}
		}},
		{"a tack test before the pour", "journal.before-pour", Check, func(p *Project) {
			start := p.Created.Add(time.Hour)
			p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: start}, {ID: "e2", Kind: EntryTack, Layer: "l1", Feel: FeelTape, At: start.Add(-time.Minute)}}
		}},
		{"a probe in a pour that was taken back", "journal.no-pour", Check, func(p *Project) {
			p.Journal = []Entry{
				{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: p.Created}, {ID: "e2", Kind: EntryProbe, Layer: "l1", Part: given(unit.Celsius(30)), At: p.Created.Add(time.Hour)},
				{ID: "e3", Kind: EntryWithdrawn, Of: "e1", At: p.Created.Add(2 * time.Hour)},
			}
		}},
		{"a reading out of the mold", "journal.after-mold", Note, func(p *Project) {
			p.Journal = []Entry{
				{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: p.Created}, {ID: "e2", Kind: EntryDemolded, At: p.Created.Add(time.Hour)},
				{ID: "e3", Kind: EntryReading, Layer: "l1", Part: given(unit.Celsius(30)), At: p.Created.Add(2 * time.Hour)},
			}
		}},
		{"no recoat window on the sheet", "time.recoat", Check, func(p *Project) {
			p.Layers = append(p.Layers, Layer{ID: "l2", Name: "second", By: ToDepth, To: mm(5), Sheet: "s1"})
		}},
	} {
		p := base()
		if f := finding(Make(p), c.kind); f.Kind != "" && c.kind != "room.unknown" {
			t.Errorf("%s: the finding %s stands without the slip: %+v", c.slip, c.kind, f)
		}
		c.make(&p)
		pl := Make(p)
		f := finding(pl, c.kind)
		if f.Level != c.level {
			t.Errorf("%s: want %s at %s, got %+v of %d", c.slip, c.kind, c.level, f, len(pl.Findings))
			continue
		}
		if f.What == "" || !unicode.IsUpper([]rune(f.What)[0]) && !strings.HasPrefix(f.What, "“") && !strings.HasPrefix(f.What, "board") && !strings.HasPrefix(f.What, "disc") && !strings.HasPrefix(f.What, "pour") && !strings.HasPrefix(f.What, "second") && !strings.HasPrefix(f.What, "resin") {
			t.Errorf("%s: the finding does not speak: %+v", c.slip, f)
		}
		if f.Field == "" {
			t.Errorf("%s: the finding points nowhere: %+v", c.slip, f)
		}
		for _, f := range pl.Findings {
			if f.Why == "" || f.Do == "" {
				t.Errorf("%s: the finding does not say why, or what to do: %+v", c.slip, f)
			}
		}
	}
}

func TestSafetyNotes(t *testing.T) {
	p := demo(t, "hall-shelf")
	p.Inserts = append(p.Inserts, Insert{ID: "i9", Name: "moss", Count: 1, Kind: InsertSphere, Diameter: mm(9), Damp: true}, Insert{ID: "i8", Name: "cell", Count: 1, Kind: InsertSphere, Diameter: mm(9), Sealed: true})
	p.Finish.Sand.Want, p.Finish.Coat.Kind = SurfaceClear, CoatOil
	p.AddMount(MountFoot)
	have := map[string]bool{}
	for _, n := range Make(p).Safety {
		have[n.Kind] = true
		if !strings.Contains(n.Text, "data sheet") || !strings.Contains(n.Text, "local rules") {
			t.Errorf("%s does not defer to the data sheet and local rules", n.Kind)
		}
	}
	for _, kind := range []string{"skin", "kitchen", "heat", "fumes", "flame", "dust", "damp insert", "sealed insert", "sanding dust", "blades", "wet sanding", "drilling", "rags"} {
		if !have[kind] {
			t.Errorf("no note about %s", kind)
		}
	}
}

// TestGather: what is so of several pieces alike is said once.
func TestGather(t *testing.T) {
	proud := 0
	for _, f := range Make(demo(t, "breakfast-boards")).Findings {
		if f.Kind == "piece.proud" {
			proud++
			if f.What != "sycamore board 1 and 4 others will stand proud of the resin" || f.Field != "pieces/p1/thickness" {
				t.Errorf("it says %q at %s", f.What, f.Field)
			}
		}
	}
	if proud != 1 {
		t.Errorf("said %d times", proud)
	}
	for _, f := range Make(demo(t, "hall-shelf")).Findings {
		if f.Kind == "piece.floats" && f.What != "near slab and another will only just not be lifted" {
			t.Errorf("it says %q", f.What)
		}
	}
}

// TestProfiles: an insert is drawn in the section as wide and as tall as it is.
func TestProfiles(t *testing.T) {
	for _, kind := range []InsertKind{InsertSphere, InsertLying, InsertHalf, InsertFrustum} {
		p := tray(300, 200, 40, 30)
		p.Inserts = []Insert{{ID: "i1", Name: "x", Count: 1, Kind: kind, Diameter: mm(20), Inner: mm(10), Length: mm(50), Tall: mm(12), On: OnHeight, Height: mm(3)}}
		d := Make(p).Drawing.Section.Inserts[0]
		lo, hi := d.Profile.Bounds()
		if !close(lo.Y, d.Bottom, 1e-3) || !close(hi.Y, d.Top, 1e-3) || !close(hi.X-lo.X, 2*d.HalfWidth, 1e-3) {
			t.Errorf("%s: drawn %v to %v, it stands from %v to %v, %v wide", kind, lo, hi, d.Bottom, d.Top, 2*d.HalfWidth)
		}
	}
}
