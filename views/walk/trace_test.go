package walk

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"path/filepath"
	"testing"
	"time"

	"meniscus/model"
	"meniscus/storage"
)

// The invented photo: a mold of 400 by 300 mm from above, half a millimetre to
// the pixel, with an ellipse of wood of 300 by 200 mm in it that has a round
// hole of 40 mm.
const (
	tracedWide, tracedHigh = 1000, 800
	tracedName             = "Traced slab (demo)"
)

func tracedPhoto(t *testing.T) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, tracedWide, tracedHigh))
	for y := range tracedHigh {
		for x := range tracedWide {
			px, py := float64(x)+0.5, float64(y)+0.5
			u, v := (px-500)/300, (py-400)/200
			c := color.RGBA{196, 197, 200, 255}
			switch {
			case math.Hypot(px-580, py-420) < 40:
				c = color.RGBA{222, 222, 226, 255}
			case u*u+v*v < 1:
				grain := uint8(8 + 8*math.Sin(py/5+px/90))
				c = color.RGBA{150 + grain, 104 + grain/2, 62, 255}
			case px > 100 && px < 900 && py > 100 && py < 700:
				c = color.RGBA{222, 222, 226, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// shotNotebook makes a notebook with a measured mold and a slab with the photo.
func shotNotebook(t *testing.T) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "n.db")
	n, err := storage.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	data := tracedPhoto(t)
	name, err := n.PutPhoto(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	p := model.Blank("traced", tracedName)
	id := p.AddSlab("")
	face := p.Slab(id).Face(model.FaceUpper)
	face.Photo, face.Wide, face.High = name, tracedWide, tracedHigh
	for _, f := range [][2]string{{"mold/length", "400 mm"}, {"mold/width", "300 mm"}, {"mold/depth", "50 mm"}, {"slabs/" + id + "/upper/rise", "0 mm"}} {
		if err := model.Enter(&p, f[0], f[1]); err != nil {
			t.Fatal(err)
		}
	}
	plan, now := model.Make(p), time.Now()
	if _, err := n.Save(p, model.NewCard(&p, &plan, now), 0, false, "shot", now); err != nil {
		t.Fatal(err)
	}
	if err := n.Close(); err != nil {
		t.Fatal(err)
	}
	return file
}

// TestTrace traces a slab in the real windows: the mold's corners are touched in
// a photo, the wood's outline is found, pushed about, and the push is taken
// back; what is kept has the area that was drawn.
func TestTrace(t *testing.T) {
	if testing.Short() {
		t.Skip("works real windows")
	}
	t.Parallel()
	notebook := shotNotebook(t)
	s := newScreen(t, "1366x768")
	p := s.start(notebook, checks+"=1")
	p.tap("Notebook", "line", "^Traced slab")
	p.await("the piece", "Notebook · Traced slab", func(seen) bool { return true })
	p.key("Notebook", "ctrl+2")
	p.await("the mold's window", "Mold and inserts · Traced slab", func(w seen) bool { return len(w.Things) > 10 })
	p.tap("Mold", "line", "^Slab$")

	for i, c := range [][2]float32{{100, 100}, {900, 100}, {900, 700}, {100, 700}} {
		p.text("Mold", fmt.Sprintf("^Touch the %s corner of the mold", []string{"far left", "far right", "near right", "near left"}[i]))
		p.touchPixel(c[0], c[1])
	}
	p.text("Mold", "^All four corners are set")

	p.tap("Mold", "line", "^Find$")
	p.text("Mold", "^Touch inside the wood")
	p.touchPixel(350, 400)
	p.text("Mold", "^Found")
	p.find("Mold", "slider", "Reach")
	p.find("Mold", "button", "^Undo: outline of slab 1$")

	p.tap("Mold", "line", "^Push$")
	p.text("Mold", "^Push the outline with your finger")
	x, y := p.pixel(500, 202)
	p.drag(p.raise("Mold"), x, y, x, y-30)
	p.find("Mold", "button", "^Undo: push the outline$")
	p.tap("Mold", "button", "^Undo: push the outline$")
	p.find("Mold", "button", "^Undo: outline of slab 1$")
	p.text("Mold", "^kept ")
	p.finish()

	project, _ := kept(t, notebook, tracedName)
	face := project.Slabs[0].Upper
	if len(face.Marks) != 4 || len(face.Rings) != 2 {
		t.Fatalf("%d marks and %d outlines are kept", len(face.Marks), len(face.Rings))
	}
	plan := model.Make(project)
	area := plan.Slab(project.Slabs[0].ID).Upper.Area
	want := math.Pi * (0.150*0.100 - 0.020*0.020)
	if off := float64(area.Value)/want - 1; math.Abs(off) > 0.01 {
		t.Errorf("the wood has %.1f cm², %.1f %% off the %.1f cm² drawn", 1e4*float64(area.Value), 100*off, 1e4*want)
	}
}

// pixel gives where a pixel of the photo is shown in the window Mold.
func (p *program) pixel(x, y float32) (atX, atY float32) {
	p.t.Helper()
	photo := p.find("Mold", "photo", "")
	var k, ox, oy float32
	if _, err := fmt.Sscan(photo.Text, &k, &ox, &oy); err != nil {
		p.t.Fatal(err)
	}
	return photo.X + ox + k*x, photo.Y + oy + k*y
}

// touchPixel touches a pixel of the photo.
func (p *program) touchPixel(x, y float32) {
	p.t.Helper()
	atX, atY := p.pixel(x, y)
	p.point(p.raise("Mold"), atX+0.5, atY+0.5)
	p.tool("click", "1")
}
