package drawing

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model/shape"
)

// photoCursor is a place that the keys move, for working without a pointer.
type photoCursor struct {
	shown bool
	down  bool // it pushes the outline
	at    shape.Point
	ring  string
}

// How far a key moves the cursor, in dp, and with Shift; and while it pushes.
const (
	cursorStep = 12.0
	cursorJump = 60.0
	cursorPush = 3.0
)

// FocusGained shows that keys go to the photo.
func (p *Photo) FocusGained() {
	p.focused = true
	p.raster.Refresh()
}

// FocusLost shows that they no longer do.
func (p *Photo) FocusLost() {
	p.letGo()
	p.focused, p.shift, p.cursor = false, false, photoCursor{}
	p.raster.Refresh()
}

// HasFocus tells whether keys go to the photo.
func (p *Photo) HasFocus() bool { return p.focused }

// focus asks for the keys.
func (p *Photo) focus() {
	if p.focused || fyne.CurrentApp() == nil {
		return
	}
	if k := fyne.CurrentApp().Driver().CanvasForObject(p); k != nil {
		k.Focus(p)
	}
}

// AcceptsTab keeps the Tab key while there is a mark or point to go on to.
func (p *Photo) AcceptsTab() bool {
	_, ok := p.beside(p.step())
	return ok
}

// step is the direction that Tab goes in.
func (p *Photo) step() int {
	if p.shift {
		return -1
	}
	return 1
}

// beside gives the mark or point next to the chosen one.
func (p *Photo) beside(step int) (Spot, bool) {
	c := p.scene.Chosen
	switch {
	case p.work == WorkMarks && c.Mark != "":
		i := slices.IndexFunc(p.scene.Marks, func(m PhotoMark) bool { return m.ID == c.Mark }) + step
		if i >= 0 && i < len(p.scene.Marks) {
			return Spot{Mark: p.scene.Marks[i].ID}, true
		}
	case p.work == WorkPoints && c.Ring != "" && c.Point != NoPoint:
		if r := p.scene.ring(c.Ring); r != nil && c.Point+step >= 0 && c.Point+step < len(r.Points) {
			return Spot{Ring: c.Ring, Point: c.Point + step}, true
		}
	}
	return Spot{}, false
}

// end gives the first or the last mark or point.
func (p *Photo) end(last bool) (Spot, bool) {
	if p.work == WorkMarks && len(p.scene.Marks) > 0 {
		i := 0
		if last {
			i = len(p.scene.Marks) - 1
		}
		return Spot{Mark: p.scene.Marks[i].ID}, true
	}
	r := p.scene.ring(p.scene.Chosen.Ring)
	if r == nil && len(p.scene.Rings) > 0 {
		r = &p.scene.Rings[0]
	}
	if p.work != WorkPoints || r == nil || len(r.Points) == 0 {
		return Spot{}, false
	}
	if last {
		return Spot{Ring: r.ID, Point: len(r.Points) - 1}, true
	}
	return Spot{Ring: r.ID}, true
}

// KeyDown notes Shift.
func (p *Photo) KeyDown(ev *fyne.KeyEvent) { p.noteShift(ev, true) }

// KeyUp notes that Shift is let go.
func (p *Photo) KeyUp(ev *fyne.KeyEvent) { p.noteShift(ev, false) }

func (p *Photo) noteShift(ev *fyne.KeyEvent, down bool) {
	if ev.Name == desktop.KeyShiftLeft || ev.Name == desktop.KeyShiftRight {
		p.shift = down
	}
}

// TypedKey moves the chosen mark or point by a pixel of the photo, by ten with
// Shift; Tab goes to the next, Home and End to the first and last, Delete
// removes it, Escape lets go of it. Space or Enter shows a cursor, where that one
// is or in the middle, which the arrow keys move, and then does what a finger would do there. With nothing chosen the
// arrow keys move the photo.
func (p *Photo) TypedKey(ev *fyne.KeyEvent) {
	defer p.raster.Refresh()
	switch ev.Name {
	case fyne.KeyLeft:
		p.arrow(-1, 0)
	case fyne.KeyRight:
		p.arrow(1, 0)
	case fyne.KeyUp:
		p.arrow(0, -1)
	case fyne.KeyDown:
		p.arrow(0, 1)
	case fyne.KeyTab:
		if s, ok := p.beside(p.step()); ok {
			p.lead(s)
		}
	case fyne.KeyHome, fyne.KeyEnd:
		if s, ok := p.end(ev.Name == fyne.KeyEnd); ok {
			p.lead(s)
		}
	case fyne.KeyDelete, fyne.KeyBackspace:
		if _, ok := p.scene.place(p.scene.Chosen); ok && p.OnRemove != nil {
			p.OnRemove(p.scene.Chosen)
		}
	case fyne.KeyEscape:
		if p.cursor.shown {
			p.letGo()
			p.cursor = photoCursor{}
			return
		}
		p.pick(Spot{})
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		p.act()
	}
}

// lead chooses a mark or point and brings it into sight.
func (p *Photo) lead(s Spot) {
	p.cursor = photoCursor{}
	p.pick(s)
	if at, ok := p.scene.place(s); ok {
		p.ShowPlace(at)
	}
}

// act shows the cursor, or does what a finger would do where it is.
func (p *Photo) act() {
	c := &p.cursor
	if !c.shown {
		*c = photoCursor{shown: true, at: p.view().toPhoto(p.middle())}
		return
	}
	at := p.view().toScreen(c.at)
	if p.work != PushEdge {
		p.cursor = photoCursor{}
		p.tap(at)
		return
	}
	if c.down {
		p.letGo()
		return
	}
	if ring, _, off := p.lineAt(at, ""); off < brushRadius {
		c.down, c.ring = true, ring
	}
}

// letGo ends a push by keys.
func (p *Photo) letGo() {
	if p.cursor.down {
		p.cursor.down = false
		if p.OnPushed != nil {
			p.OnPushed()
		}
	}
}

// arrow moves the cursor, the chosen mark or point, or the photo.
func (p *Photo) arrow(x, y float64) {
	c, k := &p.cursor, p.view().k
	if c.shown {
		step := cursorStep
		switch {
		case c.down:
			step = cursorPush
		case p.shift:
			step = cursorJump
		}
		to := shape.Point{X: c.at.X + x*step/k, Y: c.at.Y + y*step/k}
		to.X, to.Y = min(max(to.X, 0), float64(p.scene.Wide)), min(max(to.Y, 0), float64(p.scene.High))
		if c.down && p.OnPush != nil {
			p.OnPush(c.ring, c.at, to, brushRadius/k)
		}
		c.at = to
		p.ShowPlace(to)
		return
	}
	if _, ok := p.scene.place(p.scene.Chosen); ok {
		by := 1.0
		if p.shift {
			by = 10
		}
		if p.OnMove != nil {
			p.OnMove(p.scene.Chosen, shape.Point{X: x * by, Y: y * by}, true)
		}
		return
	}
	if p.zoom > 1 {
		p.panTo(p.pan.Add(-40*x, -40*y))
	}
}

// TypedRune zooms with plus, minus and 0.
func (p *Photo) TypedRune(r rune) {
	switch r {
	case '+', '=':
		p.press(Closer)
	case '-':
		p.press(Farther)
	case '0':
		p.press(Whole)
	}
}

// paintCursor draws the place that the keys move.
func (p *Photo) paintCursor(d drafter, v photoView) {
	q := v.toScreen(p.cursor.at)
	d.cross(q, 10, sky)
	if p.work == PushEdge {
		d.twoLines("finger", 1.5, sky, nil, Loop(circle(q, brushRadius, 48)...))
	}
}
