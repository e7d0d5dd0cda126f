package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestPassesByHand: a casting of 28.4 mm at its thickest corner and 27.6 at its
// thinnest is to finish at 25.5 with 0.5 off the underside. The top comes down
// to 26.0: 2.4 mm at the thick corner, 1.6 at the thin one; at 0.5 mm a pass that
// is 5 passes of 0.48. The underside is one pass of 0.5.
func TestPassesByHand(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Finish.Thickness, p.Finish.Bottom = mm(25.5), mm(0.5)
	p.Finish.Flatten.Resin = mm(0.5)
	p.MeasureBlank(true)
	for i, v := range []float64{28.4, 28.0, 27.6, 28.1, 27.9} {
		p.Finish.Flatten.Points[i] = mm(v)
	}
	f := Make(p).Finish.Flatten
	if !f.Measured || len(f.Faces) != 2 || f.Faces[0].Face != "top" || f.Faces[1].Face != "underside" {
		t.Fatalf("%+v", f)
	}
	top, under := f.Faces[0], f.Faces[1]
	within(t, "off the thick corner", top.Thick.Millimetres(), 2.4, 1e-9)
	within(t, "off the thin corner", top.Thin.Millimetres(), 1.6, 1e-9)
	within(t, "each pass", top.Each.Millimetres(), 0.48, 1e-9)
	if top.Passes != 5 || under.Passes != 1 || !top.Resin {
		t.Errorf("top %+v, underside %+v", top, under)
	}
	within(t, "underside", under.Each.Millimetres(), 0.5, 1e-9)
	within(t, "reached", f.Reached.Millimetres(), 25.5, 1e-9)
	within(t, "stop at", f.Leave.Millimetres(), 25.5, 1e-9)

	// With sanding to 220 on both faces, after a router sled: 80, 120, 180 and 220
	// take 0.008 + 0.004 + 0.001 + 0.0005 in = 0.3429 mm of each face by the
	// published table, so flattening stops so much earlier, twice.
	p.Finish.Sand.Want = SurfaceSatin
	f = Make(p).Finish.Flatten
	within(t, "stop at", f.Leave.Millimetres(), 25.5+2*0.3429, 1e-6)
	within(t, "off the thick corner", f.Faces[0].Thick.Millimetres(), 28.4-25.5-2*0.3429-(0.5-0.3429), 1e-6)
	within(t, "underside", f.Faces[1].Thick.Millimetres(), 0.5-0.3429, 1e-6)
}

// TestPromiseThatCannotBeKept: with 27.6 mm at the thinnest corner, 0.5 off the
// underside and 0.3429 of sanding on top, 26.7571 mm are the most.
func TestPromiseThatCannotBeKept(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Finish.Thickness, p.Finish.Bottom, p.Finish.Sand.Want = mm(27), mm(0.5), SurfaceSatin
	p.MeasureBlank(true)
	for i, v := range []float64{28.4, 28.0, 27.6, 28.1, 27.9} {
		p.Finish.Flatten.Points[i] = mm(v)
	}
	pl := Make(p)
	within(t, "reached", pl.Finish.Flatten.Reached.Millimetres(), 26.7571, 1e-6)
	within(t, "short", pl.Finish.Flatten.Short.Millimetres(), 0.2429, 1e-6)
	f := finding(pl, "flatten.short")
	if f.Level != Stop || f.Field != "finish/thickness" || !strings.Contains(f.Why, "26.8 mm") || !strings.Contains(f.Why, "as measured") {
		t.Errorf("%+v", f)
	}
	p.Finish.Thickness = mm(26.7)
	if f := finding(Make(p), "flatten.short"); f.Kind != "" {
		t.Errorf("26.7 mm can be kept, and yet %+v", f)
	}
}

// TestCoverAfterFlattening: a disc 3 mm high stands on the floor of a pour 28 mm
// deep that is taken down to 5 mm: 1.5 mm of cover, where 2.5 are wanted.
func TestCoverAfterFlattening(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor, Fixed: true}}
	p.Finish.Thickness = mm(4.5)
	pl := Make(p)
	if c := pl.Finish.Flatten.Cover; len(c) != 1 || c[0].Fine || math.Abs(c[0].Over.Millimetres()-1.5) > 1e-9 {
		t.Fatalf("%+v", c)
	}
	if f := finding(pl, "flatten.cover"); f.Level != Stop || f.Field != "inserts/i1" || !strings.Contains(f.Why, "1.5 mm") {
		t.Errorf("%+v", f)
	}
	p.Finish.Thickness = mm(6)
	if f := finding(Make(p), "flatten.cover"); f.Kind != "" {
		t.Errorf("with 3 mm of cover %+v", f)
	}
}

// TestPassesAreEnough: the passes of equal depth take off what has to go, none
// is deeper than the deepest, and with one fewer they would be.
func TestPassesAreEnough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		off := unit.Length(rapid.Float64Range(0, 0.02).Draw(t, "off"))
		deep := unit.Length(rapid.Float64Range(5e-5, 0.005).Draw(t, "deep"))
		n, each := passesFor(off, deep)
		if off <= 1e-9 {
			return
		}
		if got := each.Times(float64(n)); got < off-1e-12 {
			t.Fatalf("%d passes of %v take %v, not %v", n, each, got, off)
		}
		if each > deep.Times(1+1e-8) {
			t.Fatalf("a pass of %v is deeper than %v", each, deep)
		}
		if n > 1 && off.Times(1/float64(n-1)) <= deep.Times(1-1e-8) {
			t.Fatalf("%d passes would do for %v at %v", n-1, off, deep)
		}
	})
}

// TestAsCast: with no tool nothing comes off but what sanding takes.
func TestAsCast(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Top, p.Finish.Flatten.Tool = mm(2), ToolNone
	pl := Make(p)
	within(t, "reached", pl.Finish.Flatten.Reached.Millimetres(), 28, 1e-6)
	if len(pl.Finish.Flatten.Faces) != 0 || finding(pl, "flatten.none").Level != Check {
		t.Errorf("%+v", pl.Finish.Flatten)
	}
}

// TestSandingCountsAgainstCover: with nothing planned to come off, sanding to
// 220 after a router sled takes 0.3429 mm off the top and as much off the
// underside: over a disc 25 mm high in a pour of 28 mm 2.657 mm are left, and a
// disc that stands on the floor is cut by 0.343 mm.
func TestSandingCountsAgainstCover(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(25), On: OnFloor, Fixed: true}}
	p.Finish.Sand.Want = SurfaceSatin
	pl := Make(p)
	c := pl.Finish.Flatten.Cover[0]
	within(t, "over the disc", c.Over.Millimetres(), 3-0.3429, 1e-6)
	within(t, "under the disc", c.Under.Millimetres(), -0.3429, 1e-6)
	if f := finding(pl, "flatten.cover"); f.Level != Stop || !strings.Contains(f.What, "cut from below") {
		t.Errorf("%+v", f)
	}
	p.Finish.Sand.Under = SurfaceRaw
	if f := finding(Make(p), "flatten.cover"); f.Kind != "" {
		t.Errorf("with the underside left alone %+v", f)
	}
	p.Inserts[0].Tall = mm(25.3)
	if f := finding(Make(p), "flatten.cover"); f.Level != Stop || !strings.Contains(f.Why, "2.4 mm") {
		t.Errorf("%+v", f)
	}
}

// TestProudWoodIsTakenDownFirst: 28 mm are poured and sink by nothing; a board 31
// mm thick on the floor stands 3 mm above them. It comes down to the resin in 2
// passes of 1.5 mm on wood alone; from there the top goes as before. Taken at the
// thickest resin alone nothing would be said of those 3 mm.
func TestProudWoodIsTakenDownFirst(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(31)}}
	p.Finish.Top, p.Finish.Flatten.Resin, p.Finish.Flatten.Wood = mm(2), mm(0.5), mm(1.5)
	f := Make(p).Finish.Flatten
	within(t, "above the resin", f.Proud.Millimetres(), 3, 1e-6)
	if f.Tallest != "board" || len(f.Faces) != 3 || f.Faces[1].Face != "top" {
		t.Fatalf("%+v", f)
	}
	wood, top := f.Faces[0], f.Faces[1]
	within(t, "on wood alone", wood.Thick.Millimetres(), 3, 1e-6)
	within(t, "each pass", wood.Each.Millimetres(), 1.5, 1e-6)
	within(t, "off the resin", top.Thick.Millimetres(), 2, 1e-6)
	if wood.Passes != 2 || wood.Resin || top.Passes != 4 {
		t.Errorf("%+v, %+v", wood, top)
	}
	said := ""
	for _, l := range f.Lines {
		said += l.Label + ": " + l.Value + ", " + l.Source + "\n"
	}
	if !strings.Contains(said, "Its highest place is wood: 31 mm, board stands 3 mm above the thickest resin") || !strings.Contains(said, "1. The wood above the resin: 2 passes of 1.5 mm") {
		t.Error(said)
	}
	within(t, "reached", f.Reached.Millimetres(), 26, 1e-6)

	// Measured corners are of the resin, and higher than planned: 30 mm leave 1 mm.
	p.MeasureBlank(true)
	for i := range p.Finish.Flatten.Points {
		p.Finish.Flatten.Points[i] = mm(30)
	}
	f = Make(p).Finish.Flatten
	within(t, "above the measured place", f.Proud.Millimetres(), 1, 1e-6)
	p.Pieces[0].Thickness = mm(27)
	if f := Make(p).Finish.Flatten; f.Proud != 0 || len(f.Faces) != 2 {
		t.Errorf("wood below the resin: %+v", f)
	}
}

// However deep a pass may be, what is to come off takes one.
func TestOnePassAtLeast(t *testing.T) {
	if n, each := passesFor(1e-6, 1e6); n != 1 || each != 1e-6 {
		t.Errorf("%d passes of %v m", n, float64(each))
	}
}
