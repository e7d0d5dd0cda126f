package views

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/views/drawing"
)

// The invented photo: a mold of 400 by 300 mm whose corners are at these
// pixels, and in it an ellipse of wood with a hole.
const (
	shotWide, shotHigh = 1000, 800
	woodX, woodY       = 500, 400
	woodLong, woodHigh = 300, 200 // half axes in pixels
	holeX, holeY       = 580, 420
	holeRadius         = 40
)

var shotCorners = [4]shape.Point{{X: 100, Y: 100}, {X: 900, Y: 100}, {X: 900, Y: 700}, {X: 100, Y: 700}}

// shotFile writes the photo and gives where.
func shotFile(t testing.TB) fyne.URI {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, shotWide, shotHigh))
	for y := range shotHigh {
		for x := range shotWide {
			c := color.RGBA{196, 197, 200, 255}
			u, v := (float64(x)+0.5-woodX)/woodLong, (float64(y)+0.5-woodY)/woodHigh
			switch {
			case math.Hypot(float64(x)+0.5-holeX, float64(y)+0.5-holeY) < holeRadius:
				c = color.RGBA{222, 222, 226, 255}
			case u*u+v*v < 1:
				grain := uint8(8 + 8*math.Sin(float64(y)/5+float64(x)/90))
				c = color.RGBA{150 + grain, 104 + grain/2, 62, 255}
			case x >= 100 && x < 900 && y >= 100 && y < 700:
				c = color.RGBA{222, 222, 226, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	path := filepath.Join(t.TempDir(), "slab.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, m); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return storage.NewFileURI(path)
}

// traceOn opens the mold window over a measured mold with a photo dropped on it.
func traceOn(t *testing.T) (*bench, *moldPage, *traceView) {
	t.Helper()
	b, p := moldOn(t, "")
	for path, text := range map[string]string{"mold/length": "400 mm", "mold/width": "300 mm", "mold/depth": "50 mm"} {
		b.Enter(path, text)
	}
	b.settle()
	v := p.slab.trace
	v.dropped(fyne.NewPos(10, 10), []fyne.URI{shotFile(t)})
	b.until("the photo is shown", func() bool {
		shot := b.Snapshot()
		face := v.tracing(&shot.Project)
		return face != nil && face.Photo != "" && v.photo == face.Photo && v.surface.Visible()
	})
	b.settle()
	return b, p, v
}

// at gives where a pixel is shown.
func (t *traceView) at(x, y float64) fyne.Position {
	k, o := t.surface.View()
	return fyne.NewPos(float32(o.X+k*x), float32(o.Y+k*y))
}

// press puts a finger on a pixel.
func (t *traceView) press(x, y float64) {
	t.surface.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: t.at(x, y)}, Button: desktop.MouseButtonPrimary})
}

// tapAt touches a pixel, and waits for what comes of it.
func (b *bench) tapAt(v *traceView, x, y float64) {
	b.t.Helper()
	at := v.at(x, y)
	v.press(x, y)
	v.surface.MouseUp(&desktop.MouseEvent{})
	v.surface.Tapped(&fyne.PointEvent{Position: at})
	b.settle()
}

// dragAt draws a finger from one pixel by so many dp, in steps.
func (b *bench) dragAt(v *traceView, x, y float64, dx, dy float32) {
	b.t.Helper()
	at := v.at(x, y)
	v.press(x, y)
	const steps = 20
	for i := range steps {
		k := float32(i+1) / steps
		v.surface.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(k*dx, k*dy)}, Dragged: fyne.NewDelta(dx/steps, dy/steps)})
	}
	v.surface.MouseUp(&desktop.MouseEvent{})
	v.surface.DragEnd()
	b.settle()
}

func (t *traceView) key(name fyne.KeyName) { t.surface.TypedKey(&fyne.KeyEvent{Name: name}) }

// corners touches the four corners of the mold.
func (b *bench) corners(v *traceView) {
	b.t.Helper()
	for _, c := range shotCorners {
		b.tapAt(v, c.X, c.Y)
	}
}

// face gives the tracing of the upper face.
func (b *bench) face() *model.Tracing {
	shot := b.Snapshot()
	return &shot.Project.Slabs[0].Upper
}

func TestTraceGuidesToAPhoto(t *testing.T) {
	_, p := moldOn(t, "")
	p.pane.show(moldSlabs)
	if !shows(p.slab.root, "straight above") || !shows(p.slab.root, "Choose a photo") {
		t.Errorf("it says %q", texts(p.slab.root))
	}
	if p.slab.trace.surface.Visible() {
		t.Error("there is a surface without a photo")
	}
}

func TestTraceSaysWhyAPictureIsNotTaken(t *testing.T) {
	b, p := moldOn(t, "")
	v := p.slab.trace
	path := filepath.Join(t.TempDir(), "notes.txt")
	if err := os.WriteFile(path, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	v.dropped(fyne.Position{}, []fyne.URI{storage.NewFileURI(path)})
	if p.pane.section != moldSlabs {
		t.Error("the section of the slab is not turned to")
	}
	b.until("it says why", func() bool { return strings.Contains(v.why[1].Text(), "“notes.txt” was not kept: ") })
	if len(b.Snapshot().Project.Slabs) != 0 {
		t.Error("a slab was added for no picture")
	}
	v.dropped(fyne.Position{}, []fyne.URI{shotFile(t)})
	b.until("the photo is there", func() bool { return v.surface.Visible() })
	if shows(p.slab.root, "was not kept") {
		t.Error("the next attempt does not clear the message")
	}
}

func TestTraceIsLedTo(t *testing.T) {
	b, p, v := traceOn(t)
	b.corners(v)
	slab := b.Snapshot().Project.Slabs[0].ID
	p.pane.show(moldSizes)
	v.turn(traceFind)
	if !p.focus("slabs/" + slab + "/upper/marks") {
		t.Fatal("it does not lead anywhere")
	}
	if p.pane.section != moldSlabs || v.work != traceCorners || p.slab.mode != slabPhoto {
		t.Errorf("it leads to %q, %q, %q", p.pane.section, v.work, p.slab.mode)
	}
	second := b.face().Marks[1].ID
	p.focus("slabs/" + slab + "/upper/marks/" + second)
	if v.spot != (drawing.Spot{Mark: second}) {
		t.Errorf("it chooses %v", v.spot)
	}
	p.focus("slabs/" + slab + "/under")
	if v.face != model.FaceUnder || v.surface.Visible() {
		t.Error("the under face is not turned to")
	}
}

// TestSlabAnswers: the head tells of the slab, in as many lines as elsewhere.
func TestSlabAnswers(t *testing.T) {
	b, p, v := traceOn(t)
	b.corners(v)
	if got := p.frame.answer.Text(); !strings.Contains(got, "has no size yet\n") {
		t.Errorf("it says %q", got)
	}
	v.turn(traceFind)
	b.tapAt(v, 350, 400)
	b.until("the outline is found", func() bool { return len(b.face().Rings) > 0 && !v.seek.busy })
	b.settle()
	if got := p.frame.answer.Text(); !strings.Contains(got, "cm²\nbetween ") {
		t.Errorf("it says %q", got)
	}
	p.pane.show(moldSizes)
	if got := p.frame.answer.Text(); !strings.Contains(got, "No wood is measured yet") || p.frame.question.Text() != moldQuestion {
		t.Errorf("elsewhere it says %q", got)
	}
}

// TestTraceKeepsDrafts: what cannot be taken stays as it was typed, and is said
// by its field.
func TestTraceKeepsDrafts(t *testing.T) {
	b, p, _ := traceOn(t)
	path := "slabs/" + b.Snapshot().Project.Slabs[0].ID + "/thickness"
	f := p.in.form.Field(path)
	if f == nil {
		t.Fatal("there is no input for the thickness")
	}
	f.Restore("thick")
	f.Commit()
	b.settle()
	if text, _, bad := func() (string, string, bool) { s := b.Snapshot(); return s.Problem(path) }(); !bad || text != "thick" {
		t.Errorf("the draft is %q", text)
	}
	if f.Text() != "thick" {
		t.Errorf("the field shows %q", f.Text())
	}
}
