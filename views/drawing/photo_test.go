package drawing

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"meniscus/model/shape"
)

// halves is a photo and its halves, as a test makes them.
type halves []*image.RGBA

func (h halves) Level(k int) *image.RGBA {
	if k < len(h) {
		return h[k]
	}
	return nil
}

// slabPhoto is an invented photo: an ellipse of wood in a mold, by plain loops.
func slabPhoto(wide, high int) halves {
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			u, v := float64(x)/float64(wide)-0.5, float64(y)/float64(high)-0.5
			c := color.RGBA{200, 200, 205, 255}
			if u*u*6+v*v*9 < 1 {
				c = color.RGBA{uint8(150 + 20*math.Sin(v*90)), 110, 70, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	list := halves{m}
	for wide > 64 && high > 64 {
		wide, high = wide/2, high/2
		half := image.NewRGBA(image.Rect(0, 0, wide, high))
		from := list[len(list)-1]
		for y := range high {
			for x := range wide {
				half.SetRGBA(x, y, from.RGBAAt(2*x, 2*y))
			}
		}
		list = append(list, half)
	}
	return list
}

// slabRing is an outline of n points around the wood of a photo.
func slabRing(n, wide, high int) shape.Ring {
	r := make(shape.Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		k := 1 + 0.01*math.Sin(a*float64(n)/200)
		r[i] = shape.Point{X: float64(wide) * (0.5 + 0.4*k*math.Cos(a)), Y: float64(high) * (0.5 + 0.33*k*math.Sin(a))}
	}
	return r
}

// photoCalls keeps what a photo told.
type photoCalls struct {
	placed          []shape.Point
	chosen          []Spot
	moved           []shape.Point
	done            []bool
	inserted        []int
	removed         []Spot
	pushed, strokes int
}

func photoShownIn(t testing.TB, scene PhotoScene, work PhotoWork, w, h float32) (*Photo, *photoCalls, fyne.Window) {
	t.Helper()
	test.NewTempApp(t)
	p, k := NewPhoto(testFonts(t), paper), &photoCalls{}
	p.OnPlace = func(at shape.Point) { k.placed = append(k.placed, at) }
	p.OnChoose = func(s Spot) { k.chosen = append(k.chosen, s) }
	p.OnMove = func(_ Spot, by shape.Point, done bool) { k.moved, k.done = append(k.moved, by), append(k.done, done) }
	p.OnInsert = func(_ string, after int, _ shape.Point) { k.inserted = append(k.inserted, after) }
	p.OnRemove = func(s Spot) { k.removed = append(k.removed, s) }
	p.OnPush = func(string, shape.Point, shape.Point, float64) { k.strokes++ }
	p.OnPushed = func() { k.pushed++ }
	p.SetScene(scene, paper)
	p.SetPhoto(slabPhoto(scene.Wide, scene.High))
	p.SetWork(work)
	window := test.NewTempWindow(t, p)
	window.SetPadded(false)
	window.Resize(fyne.NewSize(w, h))
	return p, k, window
}

func threeMarks() PhotoScene {
	return PhotoScene{Wide: 800, High: 600, Round: true, Marks: []PhotoMark{
		{ID: "a", Label: "1", At: shape.Point{X: 100, Y: 100}},
		{ID: "b", Label: "2", At: shape.Point{X: 700, Y: 100}},
		{ID: "c", Label: "3", At: shape.Point{X: 700, Y: 500}},
	}}
}

// press puts a finger down.
func (p *Photo) pressAt(q Pt) {
	p.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos(q)}, Button: desktop.MouseButtonPrimary})
}

// draw moves a finger that is down, in steps.
func (p *Photo) drawBy(from Pt, dx, dy float64, steps int) {
	for i := range steps {
		k := float64(i+1) / float64(steps)
		p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos(from.Add(k*dx, k*dy))},
			Dragged: fyne.NewDelta(float32(dx/float64(steps)), float32(dy/float64(steps)))})
	}
}

func TestPhotoTellsPixels(t *testing.T) {
	p, k, w := photoShownIn(t, threeMarks(), WorkMarks, 600, 500)
	want := shape.Point{X: 100, Y: 500}
	test.TapCanvas(w.Canvas(), pos(p.view().toScreen(want)))
	if len(k.placed) != 1 || math.Hypot(k.placed[0].X-want.X, k.placed[0].Y-want.Y) > 1 {
		t.Errorf("a touch at %v was told as %v", want, k.placed)
	}
	for range 3 {
		p.press(Closer)
	}
	q := p.view().toPhoto(Pt{300, 300})
	test.TapCanvas(w.Canvas(), pos(Pt{300, 300}))
	if got := k.placed[len(k.placed)-1]; math.Hypot(got.X-q.X, got.Y-q.Y) > 0.01 {
		t.Errorf("enlarged, a touch at %v was told as %v", q, got)
	}
	test.TapCanvas(w.Canvas(), fyne.NewPos(2, 2))
	if n := len(k.placed); n != 3 && p.view().o.X > 2 {
		t.Error("a touch beside the photo counts")
	}
}

// TestPhotoMarkFollowsTheFinger: it moves by the finger's movement beyond the
// slop, from wherever in reach it is held, and never jumps.
func TestPhotoMarkFollowsTheFinger(t *testing.T) {
	for _, off := range []Pt{{0, 0}, {9, -7}, {-15, 10}} {
		p, k, _ := photoShownIn(t, threeMarks(), WorkMarks, 600, 500)
		v := p.view()
		from := v.toScreen(p.scene.Marks[1].At).Add(off.X, off.Y)
		p.pressAt(from)
		if at, shown := p.Loupe(); !shown || at != p.scene.Marks[1].At {
			t.Errorf("held %v beside it the loupe shows %v, %v", off, at, shown)
		}
		p.drawBy(from, -30, 40, 25)
		at, shown := p.Loupe()
		p.MouseUp(&desktop.MouseEvent{})
		p.DragEnd()
		dx, dy := -30*(50-fineSlop)/50/v.k, 40*(50-fineSlop)/50/v.k
		last := k.moved[len(k.moved)-1]
		if math.Hypot(last.X-dx, last.Y-dy) > 0.01 || !k.done[len(k.done)-1] {
			t.Errorf("held %v beside it, it moved by %v, want %v, %v", off, last, dx, dy)
		}
		if !shown || math.Hypot(at.X-700-dx, at.Y-100-dy) > 0.01 {
			t.Errorf("the loupe shows %v, %v", at, shown)
		}
		if _, shown := p.Loupe(); shown {
			t.Error("the loupe stays when the finger lets go")
		}
		for i, by := range k.moved[1:] {
			if step := math.Hypot(by.X-k.moved[i].X, by.Y-k.moved[i].Y); step > 2.01/v.k {
				t.Errorf("it jumps by %v px", step)
			}
		}
	}
}

// TestPhotoFitsBesideTheButtons: shown whole, no part of it lies below a button.
func TestPhotoFitsBesideTheButtons(t *testing.T) {
	for _, size := range [][2]float64{{830, 420}, {540, 360}, {500, 700}, {300, 300}, {1400, 700}} {
		for _, photo := range [][2]int{{4000, 3000}, {3000, 4000}, {6000, 2000}, {800, 800}} {
			box := Box{Max: Pt{size[0], size[1]}}
			v := fitPhoto(photo[0], photo[1], box)
			shown := Box{v.o, v.o.Add(v.k*float64(photo[0]), v.k*float64(photo[1]))}
			if !box.Holds(shown) {
				t.Errorf("%v in %v lies at %v", photo, size, shown)
			}
			for _, b := range []Button{Closer, Farther, Whole} {
				if shown.Overlaps(buttonBox(b, box)) {
					t.Errorf("%v in %v lies below a button", photo, size)
				}
			}
		}
	}
}

func TestPhotoDragOnEmptyGroundPans(t *testing.T) {
	for _, work := range []PhotoWork{TouchInside, WorkMarks, WorkPoints, PushEdge} {
		scene := threeMarks()
		scene.Rings = []PhotoRing{{ID: "r", Points: shape.Ring{{X: 10, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 20}}}}
		p, k, w := photoShownIn(t, scene, work, 600, 500)
		for range 4 {
			p.press(Closer)
		}
		before := p.view().toPhoto(Pt{200, 300})
		test.Drag(w.Canvas(), pos(Pt{200, 300}), 80, -60)
		after := p.view().toPhoto(Pt{280, 240})
		if math.Hypot(after.X-before.X, after.Y-before.Y) > 0.01 {
			t.Errorf("work %d: the ground below the finger went from %v to %v", work, before, after)
		}
		if len(k.placed)+len(k.moved)+k.strokes > 0 {
			t.Errorf("work %d: the drag did more than pan: %+v", work, k)
		}
	}
}

func TestPhotoKeys(t *testing.T) {
	p, k, _ := photoShownIn(t, threeMarks(), WorkMarks, 600, 500)
	key := func(name fyne.KeyName) { p.TypedKey(&fyne.KeyEvent{Name: name}) }
	if p.AcceptsTab() {
		t.Error("with nothing chosen the Tab key does not go on")
	}
	key(fyne.KeyHome)
	key(fyne.KeyTab)
	if p.scene.Chosen != (Spot{Mark: "b"}) {
		t.Errorf("Tab from the first leads to %v", p.scene.Chosen)
	}
	key(fyne.KeyRight)
	p.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	key(fyne.KeyUp)
	p.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	if want := []shape.Point{{X: 1}, {Y: -10}}; len(k.moved) != 2 || k.moved[0] != want[0] || k.moved[1] != want[1] {
		t.Errorf("the arrows moved it by %v, want %v", k.moved, want)
	}
	key(fyne.KeyEnd)
	if p.AcceptsTab() {
		t.Error("behind the last mark the Tab key does not leave")
	}
	key(fyne.KeyDelete)
	if len(k.removed) != 1 || k.removed[0].Mark != "c" {
		t.Errorf("Delete removed %v", k.removed)
	}
	key(fyne.KeyEscape)
	key(fyne.KeySpace) // shows the cursor in the middle
	if _, shown := p.Loupe(); !shown {
		t.Error("the cursor has no loupe")
	}
	key(fyne.KeyDown)
	key(fyne.KeySpace)
	v := p.view()
	want := v.toPhoto(p.box().Centre().Add(0, cursorStep))
	if len(k.placed) != 1 || math.Hypot(k.placed[0].X-want.X, k.placed[0].Y-want.Y) > 0.01 {
		t.Errorf("the cursor placed %v, want %v", k.placed, want)
	}
}

func TestPhotoPoints(t *testing.T) {
	scene := threeMarks()
	scene.Rings = []PhotoRing{
		{ID: "r", Points: shape.Ring{{X: 200, Y: 200}, {X: 600, Y: 200}, {X: 600, Y: 450}, {X: 200, Y: 450}}},
		{ID: "h", Hole: true, Points: shape.Ring{{X: 350, Y: 280}, {X: 450, Y: 280}, {X: 400, Y: 380}}},
	}
	scene.Chosen = Spot{Ring: "r", Point: NoPoint}
	p, k, w := photoShownIn(t, scene, WorkPoints, 800, 620)
	touch := func(x, y float64) { test.TapCanvas(w.Canvas(), pos(p.view().toScreen(shape.Point{X: x, Y: y}))) }
	touch(605, 445)
	if p.scene.Chosen != (Spot{Ring: "r", Point: 2}) {
		t.Errorf("a touch near the third point chose %v", p.scene.Chosen)
	}
	touch(202, 320)
	if len(k.inserted) != 1 || k.inserted[0] != 3 {
		t.Errorf("a touch on the last side inserts behind %v", k.inserted)
	}
	touch(400, 281)
	if p.scene.Chosen != (Spot{Ring: "h", Point: NoPoint}) {
		t.Errorf("a touch on the hole's outline chose %v", p.scene.Chosen)
	}
	touch(500, 330)
	if len(k.placed) != 1 {
		t.Errorf("a touch on empty ground told %v", k.placed)
	}
}

// TestPhotoOpenOutline: while an outline is being set neither its last points nor
// the lines of others take the touches that are meant for the next point.
func TestPhotoOpenOutline(t *testing.T) {
	scene := threeMarks()
	scene.Rings = []PhotoRing{
		{ID: "r", Points: shape.Ring{{X: 100, Y: 300}, {X: 700, Y: 300}, {X: 400, Y: 550}}},
		{ID: "o", Open: true, Points: shape.Ring{{X: 200, Y: 200}, {X: 300, Y: 220}, {X: 400, Y: 240}}},
	}
	scene.Chosen = Spot{Ring: "o", Point: 2}
	p, k, w := photoShownIn(t, scene, WorkPoints, 800, 620)
	touch := func(x, y float64) { test.TapCanvas(w.Canvas(), pos(p.view().toScreen(shape.Point{X: x, Y: y}))) }
	touch(414, 240) // close behind the last
	touch(420, 302) // on the line of another
	touch(350, 230) // on its own line
	if len(k.placed) != 3 || len(k.chosen)+len(k.inserted) > 0 {
		t.Errorf("of three touches it told %+v", k)
	}
	touch(212, 205)
	if len(k.chosen) != 1 || k.chosen[0] != (Spot{Ring: "o"}) {
		t.Errorf("a touch near the first point chose %v", k.chosen)
	}
}

func TestPhotoPush(t *testing.T) {
	scene := threeMarks()
	scene.Rings = []PhotoRing{{ID: "r", Points: slabRing(200, 800, 600)}}
	p, k, w := photoShownIn(t, scene, PushEdge, 800, 620)
	at := p.view().toScreen(scene.Rings[0].Points[0])
	test.Drag(w.Canvas(), pos(at.Add(10, 0)), 30, 4)
	if k.strokes == 0 || k.pushed != 1 || len(k.placed) != 0 {
		t.Errorf("a drag beside the outline told %+v", k)
	}
}

// TestPhotoThins: what is left of an outline of many points shows no other line,
// to a dp, and far fewer points.
func TestPhotoThins(t *testing.T) {
	ring := slabRing(20000, 4000, 3000)
	box := Box{Max: Pt{1000, 700}}
	for _, k := range []float64{1, 3, 20} {
		v := fitPhoto(4000, 3000, box).about(box.Centre(), k).shifted(Pt{-140 * k, 60 * k})
		points := 0
		var kept []Path
		for _, path := range v.visible(ring, true, box) {
			points += len(path.Points)
			kept = append(kept, path)
		}
		if points > 6000 {
			t.Errorf("%g times as large %d points are drawn", k, points)
		}
		for i := 0; i < len(ring); i += 17 {
			q := v.toScreen(ring[i])
			if !box.Contains(q) {
				continue
			}
			off := math.Inf(1)
			for _, path := range kept {
				for i := 1; i < len(path.Points); i++ {
					off = math.Min(off, fromSegment(q, path.Points[i-1], path.Points[i]))
				}
				if n := len(path.Points); path.Closed {
					off = math.Min(off, fromSegment(q, path.Points[n-1], path.Points[0]))
				}
			}
			if off > 1.2 {
				t.Fatalf("%g times as large a point is %g dp off the line drawn", k, off)
			}
		}
	}
}

// TestPhotoShowsWhatIsThere: a pixel of the photo appears where the view says,
// at each level.
func TestPhotoShowsWhatIsThere(t *testing.T) {
	scene := PhotoScene{Wide: 1600, High: 1200}
	p, _, w := photoShownIn(t, scene, TouchInside, 500, 400)
	for range 5 {
		img := w.Canvas().Capture()
		v := p.view()
		for _, c := range []struct {
			at   shape.Point
			wood bool
		}{{shape.Point{X: 800, Y: 600}, true}, {shape.Point{X: 760, Y: 640}, true}, {shape.Point{X: 40, Y: 40}, false}, {shape.Point{X: 1560, Y: 1170}, false}} {
			q := v.toScreen(c.at)
			if !p.box().Grown(-3).Contains(q) || buttonAt(q, p.box()) != NoButton {
				continue
			}
			r, _, b, _ := img.At(int(q.X), int(q.Y)).RGBA()
			if wood := r > b+0x1000; wood != c.wood {
				t.Errorf("at scale %g the place %v shows wood: %v", v.k, c.at, wood)
			}
		}
		p.press(Closer)
	}
}

// BenchmarkPhoto draws what lies over a photo, 1000 by 700 dp, and the photo too
// where it is panned.
func BenchmarkPhoto(b *testing.B) {
	test.NewTempApp(b)
	for _, n := range []struct{ wide, high, points int }{{2000, 1500, 20_000}, {4000, 3000, 500}, {4000, 3000, 5000}, {4000, 3000, 20_000}, {6000, 4000, 20_000}} {
		levels := slabPhoto(n.wide, n.high)
		scene := PhotoScene{Wide: n.wide, High: n.high, Rings: []PhotoRing{{ID: "r", Points: slabRing(n.points, n.wide, n.high)}}, Chosen: Spot{Ring: "r", Point: 7}}
		for _, c := range []struct {
			name string
			zoom float64
			pan  bool
			held bool
		}{{"overlay whole", 1, false, false}, {"overlay enlarged", 12, false, false}, {"loupe", 3, false, true}, {"pan whole", 1, true, false}, {"pan enlarged", 3, true, false}} {
			b.Run(fmt.Sprintf("megapixels=%d/points=%d/%s", n.wide*n.high/1_000_000, n.points, c.name), func(b *testing.B) {
				p := NewPhoto(testFonts(b), paper)
				p.SetScene(scene, paper)
				p.SetPhoto(levels)
				p.SetWork(WorkPoints)
				p.Resize(fyne.NewSize(1000, 700))
				p.zoom = c.zoom
				if c.held {
					p.grip = photoGrip{pressed: true, live: true, spot: scene.Chosen, start: scene.Rings[0].Points[7], view: p.view()}
				}
				p.render(1000, 700)
				for b.Loop() {
					p.stale = c.pan
					p.render(1000, 700)
				}
			})
		}
	}
}
