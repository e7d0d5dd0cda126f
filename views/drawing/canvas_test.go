package drawing

import (
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// calls keeps what a canvas told.
type calls struct {
	selected []string
	moves    []Change
	done     []bool
}

func shown(t *testing.T, s Scene, w, h float32) (*Canvas, *calls, fyne.Window) {
	t.Helper()
	test.NewTempApp(t)
	c := NewCanvas(testFonts(t), s, styleOf(paper))
	k := &calls{}
	note := func(ch Change, done bool) { k.moves, k.done = append(k.moves, ch), append(k.done, done) }
	c.OnSelect = func(id string) { k.selected = append(k.selected, id) }
	c.OnMovePiece = func(id string, dx, dy unit.Length, done bool) {
		note(Change{Kind: MovePiece, ID: id, DX: dx, DY: dy}, done)
	}
	c.OnTurnPiece = func(id string, by unit.Angle, done bool) { note(Change{Kind: TurnPiece, ID: id, By: by}, done) }
	c.OnDragLevel = func(id string, l unit.Length, done bool) { note(Change{Kind: DragLevel, ID: id, To: l}, done) }
	c.OnCut = func(x unit.Length, done bool) { note(Change{Kind: DragCut, To: x}, done) }
	w0 := test.NewTempWindow(t, c)
	w0.SetPadded(false)
	w0.Resize(fyne.NewSize(w, h))
	return c, k, w0
}

func pos(p Pt) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

func (k *calls) last(t *testing.T) Change {
	t.Helper()
	if len(k.moves) == 0 {
		t.Fatal("nothing was told")
	}
	if !k.done[len(k.done)-1] {
		t.Error("the last call is not done")
	}
	return k.moves[len(k.moves)-1]
}

func TestDragMovesAPieceByModelDistances(t *testing.T) {
	e := hexagon()
	c, k, w := shown(t, planOf(e, ""), 700, 500)
	c.Grain = unit.Millimetre / 100
	v := c.view()
	at := v.ToScreen(shape.Point{X: 0.02, Y: -0.01}) // on the wood, away from its middle
	test.Drag(w.Canvas(), pos(at), 60, -30)
	got := k.last(t)
	if got.ID != "w1" || got.Kind != MovePiece {
		t.Fatalf("told %+v", got)
	}
	if dx, dy := 60/v.X, 30/v.Y; math.Abs(float64(got.DX)-dx) > 1e-5 || math.Abs(float64(got.DY)-dy) > 1e-5 {
		t.Errorf("moved by %v, %v m, want %g, %g", got.DX, got.DY, dx, dy)
	}
	if len(k.selected) != 1 || k.selected[0] != "w1" {
		t.Errorf("selected %v", k.selected)
	}
}

func TestDragInStepsTellsAllTheMovement(t *testing.T) {
	c, k, _ := shown(t, planOf(hexagon(), "w1"), 700, 500)
	v := c.view()
	at := v.ToScreen(shape.Point{X: -0.01, Y: 0.01})
	c.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos(at)}, Button: desktop.MouseButtonPrimary})
	for i := 1; i <= 10; i++ {
		c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos(at.Add(float64(5*i), 0))}, Dragged: fyne.NewDelta(5, 0)})
		// A new plan arrives while the finger moves.
		c.SetScene(planOf(hexagon(), "w1"), styleOf(paper))
	}
	c.MouseUp(&desktop.MouseEvent{})
	c.DragEnd()
	if got, want := k.last(t).DX, c.snap(50/v.X); got != want {
		t.Errorf("moved %v, want %v", got, want)
	}
	for i, d := range k.done[:len(k.done)-1] {
		if d {
			t.Errorf("call %d of %d is done", i, len(k.done))
		}
	}
}

func TestSmallDragIsATap(t *testing.T) {
	c, k, w := shown(t, planOf(boards(), ""), 700, 500)
	at := c.view().ToScreen(shape.Point{X: 0.29, Y: 0})
	test.Drag(w.Canvas(), pos(at), 8, 9)
	if len(k.moves) != 0 {
		t.Errorf("moved %v", k.moves)
	}
	if len(k.selected) != 1 || k.selected[0] != "w3" {
		t.Errorf("selected %v, want w3", k.selected)
	}
}

func TestDragTurnsAPiece(t *testing.T) {
	c, k, w := shown(t, planOf(hexagon(), "w1"), 700, 500)
	var h Handle
	for _, g := range c.scene.Handles(c.box(), c.view()) {
		if g.Kind == TurnPiece {
			h = g
		}
	}
	// A quarter turn counterclockwise around the piece's middle.
	r := Pt{h.At.X - h.Pivot.X, h.At.Y - h.Pivot.Y}
	test.Drag(w.Canvas(), pos(h.At), float32(r.Y-r.X), float32(-r.X-r.Y))
	if got := k.last(t).By.Degrees(); math.Abs(got-90) > 0.01 {
		t.Errorf("turned by %g degrees, want 90", got)
	}
}

func TestDragLevelSnapsToTheGrain(t *testing.T) {
	s := SectionScene{Plan: hexagon().plan, Style: styleOf(paper)}
	c, k, w := shown(t, s, 760, 380)
	c.Grain = unit.Inch / 32
	v := c.view()
	var h Handle
	for _, g := range s.Handles(c.box(), v) {
		if g.ID == "l2" {
			h = g
		}
	}
	test.Drag(w.Canvas(), pos(h.At), 3, -20)
	got := k.last(t)
	n := float64(got.To) / float64(c.Grain)
	if got.ID != "l2" || math.Abs(n-math.Round(n)) > 1e-9 {
		t.Errorf("told %+v, %g grains", got, n)
	}
	if want := 0.022 + 20/v.Y; math.Abs(float64(got.To)-want) > float64(c.Grain)/2+1e-9 {
		t.Errorf("level %v, want near %g", got.To, want)
	}
	test.Drag(w.Canvas(), pos(h.At), 0, -900)
	if got := k.last(t).To; got != 0.040 {
		t.Errorf("level %v above the rim at 0.040", got)
	}
}

func TestDragCut(t *testing.T) {
	e := hexagon()
	c, k, w := shown(t, planOf(e, ""), 700, 500)
	v := c.view()
	hs := c.scene.Handles(c.box(), v)
	test.Drag(w.Canvas(), pos(hs[len(hs)-1].At), -50, 4)
	if got, want := k.last(t).To, c.snap(0.02-50/v.X); got != want {
		t.Errorf("cut at %v, want %v", got, want)
	}
}

func TestKeysNudge(t *testing.T) {
	c, k, w := shown(t, planOf(hexagon(), "w1"), 700, 500)
	w.Canvas().Focus(c)
	press := func(n fyne.KeyName) { c.TypedKey(&fyne.KeyEvent{Name: n}) }
	press(fyne.KeyLeft)
	if got := k.last(t); got.DX != -unit.Millimetre || got.DY != 0 {
		t.Errorf("left: %+v", got)
	}
	c.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	press(fyne.KeyUp)
	if got := k.last(t); got.DY != 10*unit.Millimetre {
		t.Errorf("shift up: %+v", got)
	}
	c.TypedRune(']')
	if got := k.last(t); got.Kind != TurnPiece || got.By != -unit.Degree {
		t.Errorf("]: %+v", got)
	}
	press(fyne.KeyEscape)
	if c.scene.Selected() != "" {
		t.Error("Escape leaves the piece selected")
	}
	n := len(k.moves)
	press(fyne.KeyLeft)
	if len(k.moves) != n {
		t.Error("a key moved something with nothing selected")
	}
}

func TestKeysNudgeALevelByOneGrain(t *testing.T) {
	c, k, _ := shown(t, SectionScene{Plan: hexagon().plan, Style: styleOf(paper), Layer: "l2"}, 760, 380)
	c.Grain = unit.Millimetre / 2
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := k.last(t); got.ID != "l2" || math.Abs(got.To.Millimetres()-22.5) > 1e-9 {
		t.Errorf("up: %+v", got)
	}
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if got := k.last(t); math.Abs(got.To.Millimetres()-21.5) > 1e-9 {
		t.Errorf("down: %+v", got)
	}
}

func TestButtonsZoomAndEmptyGroundPans(t *testing.T) {
	c, k, w := shown(t, planOf(hexagon(), ""), 700, 500)
	fit := c.view()
	spare := 0.0
	c.OnSpareDrag = func(_, dy float32) { spare += float64(dy) }
	empty := Pt{30, 250}
	test.Drag(w.Canvas(), pos(empty), 40, 20)
	if c.view() != fit || spare != 20 {
		t.Errorf("a whole drawing moved, or the scroller got %g", spare)
	}
	test.TapCanvas(w.Canvas(), pos(buttonBox(Closer, c.box()).Centre()))
	near := c.view()
	if near.X <= fit.X {
		t.Fatal("plus does not enlarge")
	}
	test.Drag(w.Canvas(), pos(empty), 40, 20)
	if got := c.view(); math.Abs(got.Origin.X-near.Origin.X-40) > 1e-6 || math.Abs(got.Origin.Y-near.Origin.Y-20) > 1e-6 {
		t.Errorf("panned from %v to %v", near.Origin, got.Origin)
	}
	test.TapCanvas(w.Canvas(), pos(buttonBox(Whole, c.box()).Centre()))
	if c.view() != fit {
		t.Error("Fit does not show the whole")
	}
	c.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: pos(Pt{200, 200})}, Scrolled: fyne.NewDelta(0, 20)})
	if world := fit.ToWorld(Pt{200, 200}); c.view().ToScreen(world).To(Pt{200, 200}) > 1e-6 || c.view().X <= fit.X {
		t.Error("the wheel does not zoom about the pointer")
	}
	if len(k.moves)+len(k.selected) != 0 {
		t.Errorf("told %v, %v", k.moves, k.selected)
	}
	for _, b := range []Button{Closer, Farther, Whole} {
		if box := buttonBox(b, c.box()); box.W() < 44 || box.H() < 44 {
			t.Errorf("button %d is %g by %g", b, box.W(), box.H())
		}
	}
}

func TestRasterGivesAPlainImageOnce(t *testing.T) {
	c, _, _ := shown(t, planOf(hexagon(), ""), 700, 500)
	m, ok := c.render(1050, 750).(*image.RGBA)
	if !ok || m.Rect != image.Rect(0, 0, 1050, 750) || m.Stride != 4*1050 {
		t.Fatalf("image %v, stride %d", m.Rect, m.Stride)
	}
	if c.stale {
		t.Error("still to be drawn")
	}
	if n := c.render(1050, 750).(*image.RGBA); &n.Pix[0] != &m.Pix[0] {
		t.Error("another image for the same size")
	}
	c.render(0, 0)
}

func TestPictureRenders(t *testing.T) {
	test.NewTempApp(t)
	p := NewPicture(testFonts(t), fyne.NewSize(120, 80), paper.Ground, func(s Surface) { PaintSketch(s, sketchOf(hexagon()), styleOf(paper)) })
	w := test.NewTempWindow(t, p)
	w.Resize(fyne.NewSize(130, 90))
	m := p.render(240, 160).(*image.RGBA)
	seen := map[[3]uint8]bool{}
	for i := 0; i < len(m.Pix); i += 4 {
		seen[[3]uint8{m.Pix[i], m.Pix[i+1], m.Pix[i+2]}] = true
	}
	if len(seen) < 20 {
		t.Errorf("only %d colours", len(seen))
	}
}
