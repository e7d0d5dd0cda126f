package drawing

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// TestPictures writes what the painters draw to the folder named by
// DRAWING_PICTURES, to be looked at.
func TestPictures(t *testing.T) {
	dir := os.Getenv("DRAWING_PICTURES")
	if dir == "" {
		t.Skip("DRAWING_PICTURES names no folder")
	}
	fonts := testFonts(t)
	save := func(name string, w, h int, p Palette, paint func(s Surface)) {
		m := NewImage(w, h, 1, fonts)
		m.Clear(p.Ground)
		paint(m)
		f, err := os.Create(filepath.Join(dir, name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, m.RGBA); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	svg := func(name string, w, h float64, paint func(s Surface)) {
		s := NewSVG(w, h, fonts, "Go, sans-serif")
		paint(s)
		if err := os.WriteFile(filepath.Join(dir, name+".svg"), s.Bytes(name), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	print := styleOf(paper)
	print.Live = false
	svg("river-plan", 180, 110, func(s Surface) {
		c := PlanScene{Plan: river().plan, Mold: river().mold, Style: print}
		c.Paint(s, c.Fit(s.Bounds()))
	})
	svg("river-section", 180, 80, func(s Surface) {
		c := SectionScene{Plan: river().plan, Style: print}
		c.Paint(s, c.Fit(s.Bounds()))
	})
	save("print-section", 720, 320, paper, func(s Surface) {
		c := SectionScene{Plan: river().plan, Style: print}
		c.Paint(s, c.Fit(s.Bounds()))
	})
	save("print-plan", 720, 440, paper, func(s Surface) {
		c := PlanScene{Plan: hexagon().plan, Mold: hexagon().mold, Style: print}
		c.Paint(s, c.Fit(s.Bounds()))
	})
	for theme, p := range map[string]Palette{"light": paper, "dark": evening} {
		st := styleOf(p)
		for _, e := range append(examples(), demos(t)...) {
			save(e.name+"-plan-"+theme, 700, 500, p, func(s Surface) {
				c := PlanScene{Plan: e.plan, Mold: e.mold, Style: st, Piece: e.pick}
				c.Paint(s, c.Fit(s.Bounds()))
				paintButtons(newDrafter(s, st))
			})
			save(e.name+"-section-"+theme, 760, 380, p, func(s Surface) {
				c := SectionScene{Plan: e.plan, Style: st, Layer: "l2"}
				c.Paint(s, c.Fit(s.Bounds()))
				paintButtons(newDrafter(s, st))
			})
			save(e.name+"-sketch-"+theme, 120, 80, p, func(s Surface) { PaintSketch(s, sketchOf(e), st) })
		}
		for _, photo := range []*LayPhoto{nil, {Levels: newWedges(1600, 1200), Wide: 1600, High: 1200, Pixel: keystone}} {
			c := laidOver(600, photo)
			c.Style = st
			c.Under = shape.Region{c.Upper[0].Scaled(1, 0.94)}
			name := map[bool]string{true: "lay-photo-", false: "lay-"}[photo.shown()]
			save(name+theme, 700, 500, p, func(s Surface) {
				v := c.Fit(s.Bounds())
				c.Paint(s, v)
				c.Over(s, v, Change{})
				paintButtons(newDrafter(s, st))
			})
		}
		e := hexagon()
		save("moving-"+theme, 700, 500, p, func(s Surface) {
			c := PlanScene{Plan: e.plan, Mold: e.mold, Style: st, Piece: e.pick}
			c.Paint(s, c.Fit(s.Bounds()))
			c.Preview(s, c.Fit(s.Bounds()), Change{Kind: MovePiece, ID: "w1", DX: 0.02, DY: 0.015})
		})
		save("river-picked-"+theme, 700, 500, p, func(s Surface) {
			c := PlanScene{Plan: river().plan, Mold: river().mold, Style: st, Piece: "w1"}
			c.Paint(s, c.Fit(s.Bounds()))
		})
		save("level-"+theme, 480, 300, p, func(s Surface) {
			c := SectionScene{Plan: e.plan, Style: st, Layer: "l2", Note: func(string, unit.Length) string { return "1.42 L" }}
			c.Paint(s, c.Fit(s.Bounds()))
			c.Preview(s, c.Fit(s.Bounds()), Change{Kind: DragLevel, ID: "l2", To: 0.0245})
			paintButtons(newDrafter(s, st))
		})
		save("narrow-"+theme, 340, 300, p, func(s Surface) {
			c := PlanScene{Plan: boards().plan, Mold: boards().mold, Style: st}
			c.Paint(s, c.Fit(s.Bounds()))
			paintButtons(newDrafter(s, st))
		})
		save("chart-"+theme, 560, 340, p, func(s Surface) { fillCurve().Paint(s, st) })
	}
}

func TestImageKeepsAreaOfAFill(t *testing.T) {
	m := NewImage(300, 200, 1, testFonts(t))
	m.Clear(c("#000000"))
	m.Fill("", c("#ffffff"), []Pt{{10.25, 20.5}, {210.75, 20.5}, {210.75, 120.25}, {10.25, 120.25}},
		[]Pt{{50, 50}, {50, 80}, {90, 80}, {90, 50}})
	if got, want := lightness(m.RGBA), 200.5*99.75-40*30; got < want-8 || got > want+8 {
		t.Errorf("lit area %.1f px, want %.1f", got, want)
	}
}

func TestImageCutsAtItsSides(t *testing.T) {
	m := NewImage(100, 60, 1, testFonts(t))
	m.Clear(c("#000000"))
	m.Fill("", c("#ffffff"), []Pt{{-5000, -40}, {50, -40}, {50, 9000}, {-5000, 9000}})
	if got := lightness(m.RGBA); got < 2999 || got > 3001 {
		t.Errorf("lit area %.1f px, want 3000", got)
	}
	m.Clear(c("#000000"))
	m.Stroke(Pen{Width: 2, Colour: c("#ffffff"), Dash: dashed}, Line(Pt{-1e7, 30}, Pt{1e7, 30}))
	if got := lightness(m.RGBA); got < 110 || got > 150 {
		t.Errorf("dashes light %.1f px, want about 200·6/9", got)
	}
}

func TestImageLineHasItsWidth(t *testing.T) {
	m := NewImage(200, 100, 2, testFonts(t))
	m.Clear(c("#000000"))
	m.Stroke(Pen{Width: 3, Colour: c("#ffffff")}, Loop(Pt{20, 10}, Pt{80, 10}, Pt{80, 40}, Pt{20, 40}))
	// Outer less inner rectangle, in pixels at 2 to a dp.
	if got, want := lightness(m.RGBA), 4.0*(63*33-57*27); got < want-10 || got > want+10 {
		t.Errorf("line covers %.1f px, want %.1f", got, want)
	}
}

// lightness gives the sum of the red channel as whole pixels.
func lightness(m *image.RGBA) float64 {
	sum := 0.0
	for i := 0; i < len(m.Pix); i += 4 {
		sum += float64(m.Pix[i]) / 255
	}
	return sum
}

func BenchmarkPlan700x500(b *testing.B) {
	e := river()
	benchScene(b, PlanScene{Plan: e.plan, Mold: e.mold, Style: styleOf(paper), Piece: "w1"})
}

func BenchmarkPlanHexagon700x500(b *testing.B) {
	e := hexagon()
	benchScene(b, PlanScene{Plan: e.plan, Mold: e.mold, Style: styleOf(paper), Piece: "w1"})
}

func BenchmarkPlanRing(b *testing.B) {
	for _, points := range []int{500, 5000, 20_000} {
		b.Run(fmt.Sprintf("points=%d", points), func(b *testing.B) {
			e := hexagon()
			d := &e.plan.Drawing.Cavities[0].Pieces[0]
			d.Bottom, d.Top = polygon(points, 0.09, 0, shape.Point{}), polygon(points, 0.085, 0, shape.Point{})
			benchScene(b, PlanScene{Plan: e.plan, Mold: e.mold, Style: styleOf(paper), Piece: "w1"})
		})
	}
}

func BenchmarkSection760x380(b *testing.B) {
	benchScene(b, SectionScene{Plan: river().plan, Style: styleOf(paper)})
}

func benchScene(b *testing.B, s Scene) {
	m := NewImage(700, 500, 1, testFonts(b))
	for b.Loop() {
		m.Clear(paper.Ground)
		s.Paint(m, s.Fit(m.Bounds()))
	}
}
