package drawing

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/model/unit"
)

// How far a key moves the selected piece, and with Shift.
const (
	nudge      = unit.Millimetre
	shiftNudge = 10 * unit.Millimetre
	turnStep   = 0.5 * unit.Degree
)

// FocusGained shows that keys go to the drawing.
func (c *Canvas) FocusGained() {
	c.focused = true
	c.raster.Refresh()
}

// FocusLost shows that they no longer do.
func (c *Canvas) FocusLost() {
	c.focused, c.shift = false, false
	c.raster.Refresh()
}

// focus asks for the keys.
func (c *Canvas) focus() {
	if c.focused || fyne.CurrentApp() == nil {
		return
	}
	if k := fyne.CurrentApp().Driver().CanvasForObject(c); k != nil {
		k.Focus(c)
	}
}

// KeyDown notes Shift.
func (c *Canvas) KeyDown(ev *fyne.KeyEvent) { c.noteShift(ev, true) }

// KeyUp notes that Shift is let go.
func (c *Canvas) KeyUp(ev *fyne.KeyEvent) { c.noteShift(ev, false) }

func (c *Canvas) noteShift(ev *fyne.KeyEvent, down bool) {
	if ev.Name == desktop.KeyShiftLeft || ev.Name == desktop.KeyShiftRight {
		c.shift = down
	}
}

// TypedKey nudges what is selected with the arrow keys, or moves a drawing
// that is shown enlarged. Escape selects nothing.
func (c *Canvas) TypedKey(ev *fyne.KeyEvent) {
	var dx, dy float64
	switch ev.Name {
	case fyne.KeyLeft:
		dx = -1
	case fyne.KeyRight:
		dx = 1
	case fyne.KeyUp:
		dy = 1
	case fyne.KeyDown:
		dy = -1
	case fyne.KeyEscape:
		c.pick("")
		return
	default:
		return
	}
	h, ok := c.selectedHandle()
	switch {
	case ok && h.Kind == MovePiece && c.ShiftTurns && c.shift:
		// Up and left turn counterclockwise, as the brackets do.
		c.tell(Change{Kind: TurnPiece, ID: h.ID, By: unit.Angle(dy-dx) * turnStep}, true)
	case ok && h.Kind == MovePiece && c.ShiftTurns:
		by := float64(c.grain())
		c.tell(Change{Kind: MovePiece, ID: h.ID, DX: unit.Length(dx * by), DY: unit.Length(dy * by)}, true)
	case ok && h.Kind == MovePiece:
		by := float64(nudge)
		if c.shift {
			by = float64(shiftNudge)
		}
		c.tell(Change{Kind: MovePiece, ID: h.ID, DX: unit.Length(dx * by), DY: unit.Length(dy * by)}, true)
	case ok && h.Kind == DragLevel:
		if dy != 0 {
			c.tell(Change{Kind: DragLevel, ID: h.ID, To: c.stepped(h, dy)}, true)
		}
	case c.zoom > 1:
		c.panTo(c.pan.Add(-40*dx, 40*dy))
	}
}

// stepped gives the next level on the grain above or below a handle's.
func (c *Canvas) stepped(h Handle, dir float64) unit.Length {
	g := float64(c.grain())
	const eps = 1e-6
	k := math.Floor(h.Value/g+eps) + 1
	if dir < 0 {
		k = math.Ceil(h.Value/g-eps) - 1
	}
	return min(max(unit.Length(k*g), unit.Length(h.Low)), unit.Length(h.High))
}

// selectedHandle gives the handle by which keys move the selected thing.
func (c *Canvas) selectedHandle() (Handle, bool) {
	id := c.scene.Selected()
	for _, h := range c.scene.Handles(c.box(), c.view()) {
		if id != "" && h.ID == id && (h.Kind == MovePiece || h.Kind == DragLevel) {
			return h, true
		}
	}
	return Handle{}, false
}

// TypedRune turns the selected piece by a degree with the brackets, and zooms
// with plus, minus and 0.
func (c *Canvas) TypedRune(r rune) {
	switch r {
	case '[', ']':
		by := unit.Degree
		if r == ']' {
			by = -by
		}
		if h, ok := c.selectedHandle(); ok && h.Kind == MovePiece {
			c.tell(Change{Kind: TurnPiece, ID: h.ID, By: by}, true)
		}
	case '+', '=':
		c.press(Closer)
	case '-':
		c.press(Farther)
	case '0':
		c.press(Whole)
	}
}
