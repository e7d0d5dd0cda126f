package model

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// draftTray is a tray of 200 by 150 mm at the rim and 50 mm deep, whose walls
// lean by 2°, filled to 40 mm; 1.5 mm come off either face, and nothing shrinks.
func draftTray() Project {
	p := tray(200, 150, 50, 40)
	p.Mold.Draft = Lean{Kind: LeanAngle, Angle: given(2 * unit.Degree)}
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Top, p.Finish.Bottom = mm(1.5), mm(1.5)
	return p
}

// TestTrimByHand: the walls lean by 50·tan 2° = 1.7460 mm a side over the whole
// depth (the figure of the shop's table of drafts). At the finished underside,
// 1.5 mm up, each has gone in by 48.5·tan 2° = 1.69366 mm, so that 196.6127 by
// 146.6127 mm are left there; at the finished top, 38.5 mm up, by 11.5·tan 2° =
// 0.40159, so that 198.1 - 1.2921 mm each side come off above: 37·tan 2° =
// 1.29207 mm.
func TestTrimByHand(t *testing.T) {
	pl := Make(draftTray())
	within(t, "draft of the mold", pl.Mold.DraftEach.Millimetres(), 1.7460, 5e-5)
	f := pl.Finish.Trim
	within(t, "length", f.Length.Value.Millimetres(), 196.6127, 1e-4)
	within(t, "width", f.Width.Value.Millimetres(), 146.6127, 1e-4)
	within(t, "thickness", f.Thickness.Value.Millimetres(), 37, 1e-6)
	within(t, "lean over the thickness", f.Draft.Millimetres(), 1.29207, 1e-5)
	for _, e := range f.Edges {
		within(t, "most off the "+e.Name+" edge", e.Most.Millimetres(), 1.29207, 1e-5)
		within(t, "least off the "+e.Name+" edge", e.Least.Millimetres(), 0, 1e-9)
	}
	within(t, "face", f.Area.SquareMillimetres(), 196.6127*146.6127, 0.05)
	// A rule's ±0.5 mm is 0.28868 as a standard uncertainty; half a degree of
	// draft is 0.0050384 rad, over 48.5 mm and both walls 2·48.5·0.0050384/cos² 2°
	// = 0.48932 mm; the depth's 0.28868 makes 2·tan 2°·0.28868 = 0.02016. Together
	// √(0.28868² + 0.48932² + 0.02016²) = 0.56850 mm.
	within(t, "uncertainty of the length", f.Length.Sigma.Millimetres(), 0.56850, 2e-4)
	// The thickness is the depth of the pour less what comes off: ±0.5 by the rule.
	within(t, "uncertainty of the thickness", f.Thickness.Sigma.Millimetres(), 0.28868, 1e-4)
	if s := f.SizeWords(unit.Style{}); s != "196.6 mm × 146.6 mm × 37 mm" {
		t.Errorf("the size reads %q", s)
	}
}

// TestSinkSpreadsTheThickness: 40 mm that shrink by 3 % between 1.5 and 5 %, as
// stands in where the sheet is silent, sink by 1.2 mm; half the band over √3 is
// 1.0104 %, of 40 mm 0.40415 mm (the walls upright), and with the rule's 0.28868
// of the pour's depth, which sinks as well, √(0.28868² + 0.40415²) = 0.49667 mm.
func TestSinkSpreadsTheThickness(t *testing.T) {
	p := tray(200, 150, 50, 40)
	p.Sheets[0].Shrink = Figure[unit.Share]{}
	f := Make(p).Finish.Trim
	within(t, "thickness", f.Thickness.Value.Millimetres(), 38.8, 1e-6)
	within(t, "its uncertainty", f.Thickness.Sigma.Millimetres(), 0.49667, 1e-4)
}

// TestTrimToOtherShapes: the largest circle in the tray is as wide as its width;
// 5 mm more off every edge takes 10 off each size.
func TestTrimToOtherShapes(t *testing.T) {
	p := draftTray()
	p.Finish.Trim.Shape = TrimCircle
	f := Make(p).Finish.Trim
	within(t, "diameter", f.Length.Value.Millimetres(), 146.6127, 1e-4)
	within(t, "area of the circle", f.Area.SquareMillimetres(), math.Pi/4*146.6127*146.6127, 0.05)
	p.Finish.Trim = Trim{Shape: TrimRectangle, Extra: mm(5)}
	f = Make(p).Finish.Trim
	within(t, "length", f.Length.Value.Millimetres(), 186.6127, 1e-4)
	within(t, "edge", f.Edges[0].Least.Millimetres(), 5, 1e-6)
	p.Finish.Trim.Extra = mm(80)
	if pl := Make(p); finding(pl, "trim.nothing").Level != Stop || pl.Finish.Trim.SizeWords(p.Style) != "nothing left" {
		t.Errorf("80 mm off every edge of 147 leaves %s", pl.Finish.Trim.SizeWords(p.Style))
	}
	// In a round mold the largest true rectangle is the square of d/√2.
	p = tray(200, 150, 50, 40)
	p.Mold.Kind, p.Mold.Diameter = MoldRound, mm(300)
	p.Finish.Trim.Shape = TrimRectangle
	f = Make(p).Finish.Trim
	within(t, "side of the square", f.Length.Value.Millimetres(), 300/math.Sqrt2, 1e-6)
	within(t, "its width", f.Width.Value.Millimetres(), 300/math.Sqrt2, 1e-6)
	// ±0.5 mm of the diameter is ±0.5/√2 of the side.
	within(t, "its uncertainty", f.Length.Sigma.Millimetres(), 0.5/math.Sqrt(3)/math.Sqrt2, 1e-5)
}

// TestThickPromised: what was promised is held to the caliper that checks it.
func TestThickPromised(t *testing.T) {
	p := draftTray()
	p.Finish.Thickness = mm(36)
	p.Finish.Thickness.By = unit.Caliper
	f := Make(p).Finish
	within(t, "thickness", f.Trim.Thickness.Value.Millimetres(), 36, 1e-9)
	within(t, "uncertainty", f.Trim.Thickness.Sigma.Millimetres(), 0.1/math.Sqrt(3), 1e-6)
	within(t, "narrowest", f.Trim.Length.Value.Millimetres(), 196.6127, 1e-4)
}

// TestTrimLiesWithinBothFaces: whatever the mold, the finished outline lies
// within the casting at both finished faces, and half way between.
func TestTrimLiesWithinBothFaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Finish.Trim.Shape = rapid.SampledFrom([]TrimShape{"", TrimAsCast, TrimRectangle, TrimCircle}).Draw(t, "shape")
		p.Finish.Trim.Extra = mm(rapid.Float64Range(0, 5).Draw(t, "extra"))
		p.Finish.Top, p.Finish.Bottom = mm(rapid.Float64Range(0, 3).Draw(t, "top")), mm(rapid.Float64Range(0, 3).Draw(t, "bottom"))
		m := &maker{stack: compile(&p)}
		if m.cavity == nil {
			return
		}
		pl := Make(p)
		f := &pl.Finish.Trim
		if f.Ring == nil {
			return
		}
		c, err := m.cavity(m.in.values())
		if err != nil {
			t.Fatal(err)
		}
		for _, z := range []unit.Length{f.Low, (f.Low + f.High) / 2, f.High} {
			s := c.Section(z)
			for _, q := range f.Ring {
				// Arcs are cut to chords within 0.02 mm, a dense outline is thinned as much.
				if d := s.Clearance(q) - float64(p.Finish.Trim.Extra.Value); d < -6e-5 {
					t.Fatalf("%v to %v: at %v the finished edge lies %.4f mm outside", p.Mold.Kind, f.Shape, z, -1000*d)
				}
			}
		}
		if f.Length.Low > f.Length.Value || f.Length.High < f.Length.Value {
			t.Fatalf("the length %v is not in its own range", f.Length)
		}
		for _, e := range f.Edges {
			if e.Most < e.Least {
				t.Fatalf("%+v", e)
			}
		}
		if got, most := float64(f.Area), float64(min(c.AreaAt(f.Low), c.AreaAt(f.High))); got > most*(1+1e-6) {
			t.Fatalf("the face has %v m², the casting %v", got, most)
		}
	})
}

// TestTrimOfAnOutline: a free outline that is a rectangle is trimmed as that
// rectangle is, turned or not.
func TestTrimOfAnOutline(t *testing.T) {
	p := tray(200, 150, 50, 40)
	p.Mold.Kind = MoldOutline
	p.Mold.Outline = shape.RectangleRing(0.2, 0.15, 0).Turned(20 * unit.Degree)
	p.Finish.Trim = Trim{Shape: TrimRectangle, AnyTurn: true}
	f := Make(p).Finish.Trim
	within(t, "length", f.Length.Value.Millimetres(), 200, 0.1)
	within(t, "width", f.Width.Value.Millimetres(), 150, 0.1)
	within(t, "turn", f.Turn.Degrees(), 20, 0.05)
	for _, e := range f.Edges {
		within(t, "off the "+e.Name+" edge", e.Most.Millimetres(), 0, 0.1)
	}
	if f.Length.Sigma <= 0 {
		t.Error("a tracing is not exact")
	}
	text := ""
	for _, l := range f.Lines {
		text += l.Label + ": " + l.Value + "\n"
	}
	if !strings.Contains(text, "Turned: 20.0°") {
		t.Errorf("the lines say\n%s", text)
	}
}

// TestTrimOfCrossedWalls: walls that lean in along the mold and out across it, as
// bent sheet does: 200 by 150 mm at the rim and 196 by 156 at the floor, 40 mm
// deep and filled to the rim. The length is narrowest at the finished underside,
// 2 mm up: 196 + 4·2/40 = 196.2; the width at the finished top, 38 mm up: 156 -
// 6·38/40 = 150.3.
func TestTrimOfCrossedWalls(t *testing.T) {
	p := tray(200, 150, 40, 40)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Mold.Draft = Lean{Kind: LeanSizes, Length: mm(196), Width: mm(156)}
	p.Finish.Top, p.Finish.Bottom = mm(2), mm(2)
	for _, shape := range []TrimShape{TrimAsCast, TrimRectangle} {
		p.Finish.Trim.Shape = shape
		f := Make(p).Finish.Trim
		within(t, "length "+string(shape), f.Length.Value.Millimetres(), 196.2, 1e-4)
		within(t, "width "+string(shape), f.Width.Value.Millimetres(), 150.3, 1e-4)
	}
}
