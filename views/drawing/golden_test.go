package drawing

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

var update = flag.Bool("update", false, "write the golden pictures anew, to be looked at before they are taken over")

// golden is one picture: what is painted, and how large.
type golden struct {
	name  string
	w, h  int
	paint func(Surface, Style)
}

// goldens are the drawings of the windows. All is painted by our own code with our own
// typeface, so that the pictures are the same on every machine, but for the last digit
// of a processor.
func goldens(t *testing.T) []golden {
	hex, wide := hexagon(), river()
	finish := finishOf(t)
	return []golden{
		{"plan", 420, 320, func(s Surface, st Style) {
			c := PlanScene{Plan: hex.plan, Mold: hex.mold, Style: st, Piece: hex.pick}
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"section", 480, 260, func(s Surface, st Style) {
			c := SectionScene{Plan: wide.plan, Style: st, Layer: "l2"}
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"level", 420, 260, func(s Surface, st Style) {
			c := SectionScene{Plan: hex.plan, Style: st, Layer: "l2", Note: func(string, unit.Length) string { return "1.42 L" }}
			c.Paint(s, c.Fit(s.Bounds()))
			c.Preview(s, c.Fit(s.Bounds()), Change{Kind: DragLevel, ID: "l2", To: 0.0245})
		}},
		{"heat", 480, 260, func(s Surface, st Style) {
			c := warm()
			c.Style = st
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"heat-across", 480, 260, func(s Surface, st Style) {
			c := rivers(false)
			c.Style = st
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"chart", 420, 260, func(s Surface, st Style) { fillCurve().Paint(s, st) }},
		{"course", 480, 260, func(s Surface, st Style) { courseChart().Paint(s, st) }},
		{"finish", 420, 320, func(s Surface, st Style) {
			c := finish
			c.Style.Palette = st.Palette
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"finish-section", 480, 260, func(s Surface, st Style) {
			c := FinishSection{Plan: finish.Plan, Style: finish.Style, Fine: finish.Style.Length}
			c.Style.Palette = st.Palette
			c.Paint(s, c.Fit(s.Bounds()))
		}},
		{"lay-up", 420, 320, func(s Surface, st Style) {
			c := laidOver(200, nil)
			c.Style, c.Under = st, shape.Region{c.Upper[0].Scaled(1, 0.94)}
			v := c.Fit(s.Bounds())
			c.Paint(s, v)
			c.Over(s, v, Change{})
		}},
		{"lay-up-photo", 300, 220, func(s Surface, st Style) {
			c := laidOver(200, &LayPhoto{Levels: newWedges(1600, 1200), Wide: 1600, High: 1200, Pixel: keystone})
			c.Style = st
			v := c.Fit(s.Bounds())
			c.Paint(s, v)
			c.Over(s, v, Change{})
		}},
		{"cup", 360, 260, func(s Surface, st Style) { PaintCup(s, tumbler(), st) }},
		{"method-layer", 400, 210, func(s Surface, st Style) { PaintMethod(s, MethodLayer, st) }},
		{"method-mix", 600, 320, func(s Surface, st Style) { PaintMethod(s, MethodMix, st) }},
		{"method-bottle", 400, 210, func(s Surface, st Style) { PaintMethod(s, MethodBottle, st) }},
		{"method-left", 400, 210, func(s Surface, st Style) { PaintMethod(s, MethodLeft, st) }},
		{"method-warmth", 400, 210, func(s Surface, st Style) { PaintMethod(s, MethodWarmth, st) }},
		{"method-casting", 480, 260, func(s Surface, st Style) { PaintMethod(s, MethodCasting, st) }},
		{"method-sheet", 400, 210, func(s Surface, st Style) { PaintMethod(s, MethodSheet, st) }},
		{"sketch", 120, 80, func(s Surface, st Style) { PaintSketch(s, sketchOf(hex), st) }},
		{"buttons", 300, 120, func(s Surface, st Style) { paintButtons(newDrafter(s, st)) }},
	}
}

// TestGoldenPictures holds the drawings to pictures that were looked at, in both lights.
// Of 2,000 pixels one may differ by more than a shade, as where an edge falls otherwise.
func TestGoldenPictures(t *testing.T) {
	fonts := testFonts(t)
	for light, p := range map[string]Palette{"light": paper, "dark": evening} {
		for _, g := range goldens(t) {
			m := NewImage(g.w, g.h, 1, fonts)
			m.Clear(p.Ground)
			g.paint(m, styleOf(p))
			checkGolden(t, g.name+"-"+light, m.RGBA)
		}
	}
}

// TestGoldenPhoto: the same for the photo that wood is traced in.
func TestGoldenPhoto(t *testing.T) {
	scene := threeMarks()
	scene.Rings = []PhotoRing{{ID: "o", Points: slabRing(60, 800, 600)}}
	scene.Chosen = Spot{Mark: "b"}
	p, _, w := photoShownIn(t, scene, WorkMarks, 360, 280)
	p.Refresh()
	picture := image.NewRGBA(image.Rect(0, 0, 360, 280))
	shown := w.Canvas().Capture()
	for y := range 280 {
		for x := range 360 {
			picture.Set(x, y, shown.At(x, y))
		}
	}
	checkGolden(t, "photo", picture)
}

// checkGolden compares a picture with the one that is kept.
func checkGolden(t *testing.T, name string, got image.Image) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name+".png")
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, opaque(got)); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if n, err := unlike(got, want); err != nil {
		t.Errorf("%s: %v", name, err)
	} else if b := want.Bounds(); 2000*n > b.Dx()*b.Dy() {
		t.Errorf("%s: %d of %d pixels differ; look at what -update writes", name, n, b.Dx()*b.Dy())
	}
}

// opaque leaves the opacity out, of which a picture of a window has none, and which
// takes a quarter of the room.
func opaque(m image.Image) image.Image {
	out := image.NewNRGBA(m.Bounds())
	for y := m.Bounds().Min.Y; y < m.Bounds().Max.Y; y++ {
		for x := m.Bounds().Min.X; x < m.Bounds().Max.X; x++ {
			r, g, b, _ := m.At(x, y).RGBA()
			out.SetNRGBA(x, y, color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), 255})
		}
	}
	return out
}

// unlike counts the pixels of two pictures that differ by more than a shade.
func unlike(a, b image.Image) (n int, err error) {
	if a.Bounds().Size() != b.Bounds().Size() {
		return 0, fmt.Errorf("it is %v, was %v", a.Bounds().Size(), b.Bounds().Size())
	}
	const shade = 24 // of 255
	off := func(x, y uint32) bool { return max(x, y)-min(x, y) > shade<<8 }
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			r, g, bl, _ := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
			r2, g2, bl2, _ := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
			if off(r, r2) || off(g, g2) || off(bl, bl2) {
				n++
			}
		}
	}
	return n, nil
}
