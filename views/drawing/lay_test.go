package drawing

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// liveSlab is a slab 1.2 m long with live edges of n points in all.
func liveSlab(n int) shape.Ring {
	var r shape.Ring
	edge := func(x, y float64) float64 { return y + 0.02*math.Sin(9*x) + 0.006*math.Sin(41*x+1) }
	for i := range n / 2 {
		x := -0.6 + 1.2*float64(i)/float64(n/2-1)
		r = append(r, shape.Point{X: x, Y: edge(x, -0.2)})
	}
	for i := range n / 2 {
		x := 0.6 - 1.2*float64(i)/float64(n/2-1)
		r = append(r, shape.Point{X: x, Y: edge(x+0.3, 0.2)})
	}
	return r
}

// laidOver is a scene of a slab with a rectangular cavity 500 by 300 mm over its
// near edge.
func laidOver(n int, photo *LayPhoto) LayScene {
	slab := shape.Region{liveSlab(n)}
	st := styleOf(paper)
	st.Live = true
	c := LayScene{Upper: slab, Photo: photo, Kerf: 3 * unit.Millimetre, Style: st, Cut: model.Layup{ID: "y1", X: 0.1, Y: -0.12, Turn: 10 * unit.Degree}}
	c.Tell = func(l *model.LayPlan) []LayFigure {
		return []LayFigure{{"Resin", unit.Style{}.Volume(l.Resin)}, {"Wood", trimmed(100*l.Share, 0) + " %"}}
	}
	return c.laidAt(c.Cut)
}

// laidAt is the scene with the cavity at a place.
func (c LayScene) laidAt(cut model.Layup) LayScene {
	c.Cut = cut
	slab := c.Upper
	c.At = func(ch Change) *model.LayPlan {
		l := c.place(ch)
		box := func(less float64) shape.Region {
			x, y := 0.25-less, 0.15-less
			return shape.Region{shape.Ring{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}.Turned(l.Turn).Moved(float64(l.X), float64(l.Y))}
		}
		lay := &model.LayPlan{ID: "y1", Rim: box(0), Floor: box(0.008), Upper: slab.And(box(0.001)), Under: slab.And(box(0.009)), Blank: slab.And(box(-0.002))}
		if len(lay.Upper) > 0 {
			lay.Walls = []shape.Ring{lay.Upper[0][len(lay.Upper[0])/2:]}
		}
		lay.Share, lay.Resin = float64(lay.Upper.Area())/0.15, unit.Volume(0.15-float64(lay.Upper.Area()))
		return lay
	}
	return c
}

// TestLayIsDragged: the cavity is taken hold of anywhere in it, and moves and
// turns by the model's distances; keys move it by the grain and turn it.
func TestLayIsDragged(t *testing.T) {
	c, k, w := shown(t, laidOver(200, nil), 700, 500)
	c.ShiftTurns = true
	v := c.view()
	at := v.ToScreen(shape.Point{X: 0.2, Y: -0.15}) // within it, away from its middle
	press := func(p Pt) {
		c.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos(p)}, Button: desktop.MouseButtonPrimary})
	}
	drag := func(p Pt, dx, dy float64) {
		c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos(p.Add(dx, dy))}, Dragged: fyne.NewDelta(float32(dx), float32(dy))})
	}
	press(at)
	drag(at, 0.1*v.X, -0.05*v.Y)
	if got := k.moves[len(k.moves)-1]; k.done[len(k.done)-1] || math.Abs(float64(got.DX)-0.1) > 1e-3 || math.Abs(float64(got.DY)-0.05) > 1e-3 {
		t.Errorf("it moved by %v", got)
	}
	c.DragEnd()
	if got := k.last(t); got.Kind != MovePiece || got.ID != "y1" || math.Abs(float64(got.DX)-0.1) > 1e-3 {
		t.Errorf("letting go moved it by %v", got)
	}
	h, ok := Nearest(c.scene.Handles(c.box(), v), c.scene.Handles(c.box(), v)[1].At, 1)
	if !ok || h.Kind != TurnPiece || !c.box().Contains(h.At) {
		t.Fatalf("no handle to turn by: %v", h)
	}
	press(h.At)
	r := h.Pivot.To(h.At)
	a := math.Atan2(h.At.Y-h.Pivot.Y, h.At.X-h.Pivot.X) - 20*math.Pi/180
	drag(h.At, h.Pivot.X+r*math.Cos(a)-h.At.X, h.Pivot.Y+r*math.Sin(a)-h.At.Y)
	c.DragEnd()
	if got := k.last(t); got.Kind != TurnPiece || math.Abs(got.By.Degrees()-20) > 0.26 {
		t.Errorf("a drag by 20 degrees turned it by %v", got.By.Degrees())
	}
	c.Grain = 2 * unit.Millimetre
	w.Canvas().Focus(c)
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := k.last(t); got.DX != 2*unit.Millimetre || got.DY != 0 || got.Kind != MovePiece {
		t.Errorf("an arrow key: %v", got)
	}
	c.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if got := k.last(t); got.Kind != TurnPiece || got.By != 0.5*unit.Degree || got.ID != "y1" {
		t.Errorf("Shift and an arrow key: %v", got)
	}
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if got := k.last(t); got.By != -0.5*unit.Degree {
		t.Errorf("Shift and an arrow key: %v", got)
	}
	c.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c.scene.Selected() != "y1" {
		t.Error("nothing is selected any more")
	}
}

// TestLayKeepsItsGround: while the cavity is dragged the slab below is not drawn
// anew, and what is over it is.
func TestLayKeepsItsGround(t *testing.T) {
	c, _, w := shown(t, laidOver(400, nil), 700, 500)
	w.Canvas().Focus(c)
	first := bytes.Clone(c.render(700, 500).(*image.RGBA).Pix)
	ground := bytes.Clone(c.base.RGBA.Pix)
	v := c.view()
	at := v.ToScreen(shape.Point{X: 0.1, Y: -0.12})
	c.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos(at)}, Button: desktop.MouseButtonPrimary})
	c.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos(at.Add(60, 0))}, Dragged: fyne.NewDelta(60, 0)})
	if c.stale {
		t.Error("the slab is to be drawn anew")
	}
	if bytes.Equal(first, c.render(700, 500).(*image.RGBA).Pix) {
		t.Error("nothing has moved on the screen")
	}
	if !bytes.Equal(ground, c.base.RGBA.Pix) {
		t.Error("the ground is not what it was")
	}
	c.DragEnd()
	if !bytes.Equal(first, c.render(700, 500).(*image.RGBA).Pix) {
		t.Error("without an edit it does not lie where it did")
	}
	scene := c.scene.(LayScene)
	cut := scene.Cut
	cut.Turn -= 5 * unit.Degree
	c.SetOver(scene.laidAt(cut))
	if c.stale || bytes.Equal(first, c.render(700, 500).(*image.RGBA).Pix) {
		t.Error("turned a little, it is not drawn over the same ground")
	}
	cut.Y -= 0.4 // beyond what is in view
	if c.SetOver(scene.laidAt(cut)); !c.stale {
		t.Error("another view has the same ground")
	}
}

// wedges is a photo whose colours tell the pixel: red along it, green down it.
type wedges struct{ levels []*image.RGBA }

func (r wedges) Level(k int) *image.RGBA { return r.levels[min(k, len(r.levels)-1)] }

func newWedges(w, h int) wedges {
	var r wedges
	for k := 0; k < 4; k++ {
		m := image.NewRGBA(image.Rect(0, 0, w>>k, h>>k))
		for y := range h >> k {
			for x := range w >> k {
				m.SetRGBA(x, y, color.RGBA{uint8(255 * (x<<k + 1<<k/2) / w), uint8(255 * (y<<k + 1<<k/2) / h), 90, 255})
			}
		}
		r.levels = append(r.levels, m)
	}
	return r
}

// keystone maps places of a plane to pixels of a photo taken aslant.
func keystone(p shape.Point) shape.Point {
	w := 1 + 0.25*p.X - 0.3*p.Y
	return shape.Point{X: (800 + 1000*p.X - 60*p.Y) / w, Y: (600 - 90*p.X - 950*p.Y) / w}
}

// TestLayPhotoIsStraight: each place shows the pixel that the plane says it has,
// from whichever step of the photo, in the photo's own pixels where what was
// decoded is smaller.
func TestLayPhotoIsStraight(t *testing.T) {
	for _, smaller := range []int{1, 2} {
		f := &LayPhoto{Levels: newWedges(1600/smaller, 1200/smaller), Wide: 1600, High: 1200, Pixel: keystone}
		for _, zoom := range []float64{0.5, 1, 4} {
			m := NewImage(350, 250, 1, testFonts(t))
			m.Clear(paper.Ground)
			v := View{X: 290 * zoom, Y: 290 * zoom, Origin: Pt{175, 125}}
			f.paint(m, v)
			seen := 0
			for y := 5; y < 250; y += 8 {
				for x := 5; x < 350; x += 8 {
					px := keystone(v.ToWorld(Pt{float64(x) + 0.5, float64(y) + 0.5}))
					if px.X < 20 || px.Y < 20 || px.X > 1580 || px.Y > 1180 {
						continue
					}
					seen++
					got := m.RGBA.RGBAAt(x, y)
					if math.Abs(float64(got.R)-255*px.X/1600) > 2.5 || math.Abs(float64(got.G)-255*px.Y/1200) > 2.5 || got.B != 90 {
						t.Fatalf("zoom %v: at %d, %d stands %v, want pixel %v", zoom, x, y, got, px)
					}
				}
			}
			if seen < 400 {
				t.Errorf("only %d places were looked at", seen)
			}
		}
	}
	var none *LayPhoto
	if none.shown() || (&LayPhoto{}).shown() {
		t.Error("a photo without a picture")
	}
}

// TestLayFits: the whole slab and the cavity are in view, and a cavity that lies
// far off does not make the slab a speck.
func TestLayFits(t *testing.T) {
	c := laidOver(200, nil)
	box := Box{Max: Pt{700, 500}}
	v := c.Fit(box)
	for _, r := range append(shape.Region{c.Upper[0]}, c.At(Change{}).Rim...) {
		for _, p := range r {
			if !box.Contains(v.ToScreen(p)) {
				t.Fatalf("%v is out of view", p)
			}
		}
	}
	c = c.laidAt(model.Layup{ID: "y1", X: 40})
	if w := c.Fit(box); w.X < v.X/2.5 {
		t.Errorf("a cavity far off makes the slab %.2f times as large", w.X/v.X)
	}
	c.At = nil
	if c.Hit(v.ToScreen(shape.Point{}), v) != "" || len(c.Handles(box, v)) != 0 {
		t.Error("without a mold there is something to take hold of")
	}
}

// TestBeside: a run moved to its right keeps its distance, round corners too.
func TestBeside(t *testing.T) {
	got := beside([]Pt{{0, 0}, {10, 0}, {10, 10}}, 2) // along, then down the screen
	for i, want := range []Pt{{0, 2}, {8, 2}, {8, 10}} {
		if got[i].To(want) > 1e-9 {
			t.Errorf("%v, want %v", got, want)
		}
	}
	for _, p := range beside([]Pt{{0, 0}, {0, 0}, {5, 0}, {0, 0}}, 2) {
		if !finite(p) {
			t.Error("a run that turns back is lost")
		}
	}
}

// BenchmarkLayFrame is a frame while the cavity is dragged, without the model's
// part: the ground copied, what is over it drawn.
func BenchmarkLayFrame(b *testing.B) {
	c := laidOver(5000, nil)
	lay := c.At(Change{})
	c.At = func(Change) *model.LayPlan { return lay }
	fonts := testFonts(b)
	base, frame := NewImage(700, 500, 1, fonts), NewImage(700, 500, 1, fonts)
	v := c.Fit(base.Bounds())
	base.Clear(paper.Ground)
	c.Paint(base, v)
	for b.Loop() {
		frame.CopyOf(base)
		c.Over(frame, v, Change{})
	}
}

// BenchmarkLayGround is the slab drawn anew with its photo, as when it is zoomed.
func BenchmarkLayGround(b *testing.B) {
	c := laidOver(5000, &LayPhoto{Levels: newWedges(4000, 3000), Wide: 4000, High: 3000, Pixel: func(p shape.Point) shape.Point {
		q := keystone(p)
		return shape.Point{X: q.X * 2.5, Y: q.Y * 2.5}
	}})
	m := NewImage(700, 500, 1, testFonts(b))
	v := c.Fit(m.Bounds())
	for b.Loop() {
		m.Clear(paper.Ground)
		c.Paint(m, v)
	}
}

// TestLayPieceAtWall: over a photo the piece has the same colour whether it
// keeps clear of the walls or its edge lies along them, whichever point of its
// outline comes first.
func TestLayPieceAtWall(t *testing.T) {
	photo := &LayPhoto{Levels: newWedges(1600, 1200), Wide: 1600, High: 1200, Pixel: keystone}
	painted := func(less float64, first int) *Image {
		c := laidOver(300, photo)
		at := c.At
		c.At = func(ch Change) *model.LayPlan {
			lay := at(ch)
			inner := shape.Ring{}
			for _, p := range lay.Rim[0] {
				x, y := p.X-float64(c.Cut.X), p.Y-float64(c.Cut.Y)
				inner = append(inner, shape.Point{X: float64(c.Cut.X) + (1-less)*x, Y: float64(c.Cut.Y) + (1-less)*y})
			}
			lay.Upper = c.Upper.And(shape.Region{inner})
			r := lay.Upper[0]
			k := first % len(r)
			lay.Upper[0] = append(append(shape.Ring{}, r[k:]...), r[:k]...)
			lay.Walls = nil
			return lay
		}
		m := NewImage(350, 250, 1, testFonts(t))
		m.Clear(paper.Ground)
		c.Paint(m, View{X: 290, Y: 290, Origin: Pt{175, 125}})
		c.Over(m, View{X: 290, Y: 290, Origin: Pt{175, 125}}, Change{})
		return m
	}
	clear := painted(0.02, 0)
	v := View{X: 290, Y: 290, Origin: Pt{175, 125}}
	for first := range 12 {
		touching := painted(0, first)
		seen := 0
		for _, dy := range []float64{0.02, 0.04, 0.06, 0.08} {
			for _, dx := range []float64{-0.1, -0.05, 0.05, 0.1} {
				at := v.ToScreen(shape.Point{X: 0.1 + dx, Y: -0.12 + dy})
				x, y := int(at.X), int(at.Y)
				if a, b := clear.RGBA.RGBAAt(x, y), touching.RGBA.RGBAAt(x, y); a != b {
					t.Fatalf("from point %d: at %d, %d the piece is %v along the walls and %v clear of them", first, x, y, b, a)
				}
				seen++
			}
		}
		if seen == 0 {
			t.Fatal("nothing was looked at")
		}
	}
}

// TestFillIsEvenOdd: on the screen as on paper, what lies in an odd number of
// rings is filled, also where they cross or share an edge.
func TestFillIsEvenOdd(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) []Pt { return Box{Pt{x0, y0}, Pt{x1, y1}}.Ring() }
	rings := [][]Pt{box(10, 10, 90, 90), box(30, 10, 60, 50), box(70, 60, 120, 120), box(90, 20, 110, 40)}
	for turn := range 4 {
		var turned [][]Pt
		for _, r := range rings {
			turned = append(turned, append(append([]Pt{}, r[turn:]...), r[:turn]...))
		}
		m := NewImage(130, 130, 1, testFonts(t))
		m.Clear(color.NRGBA{255, 255, 255, 255})
		m.Fill("x", color.NRGBA{0, 0, 0, 255}, turned...)
		for y := range 130 {
			for x := range 130 {
				in := inside(Pt{float64(x) + 0.5, float64(y) + 0.5}, rings...)
				if got := m.RGBA.RGBAAt(x, y).R; (got < 128) != in || got > 2 && got < 253 {
					t.Fatalf("at %d, %d stands %d, inside is %v", x, y, got, in)
				}
			}
		}
	}
}
