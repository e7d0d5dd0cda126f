package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// control is what everything that a finger taps has in common: it takes the
// focus when it is tapped, shows the focus only when that came by keyboard, then
// brings itself into view, and notes the finger that rests on it. A widget
// embeds it and calls extend with itself.
type control struct {
	widget.BaseWidget
	self    tapped
	focused bool // and shows it
	silent  bool // while the focus comes from a tap
	held    bool // the key that was pressed on what stood here before is not let go of yet
	down    bool // a finger rests on it
	scroll  *Scroll
}

// tapped is a widget that embeds a control.
type tapped interface {
	fyne.Widget
	fyne.Focusable
	pressable
}

// extend readies the control of the widget self.
func (c *control) extend(self tapped) {
	c.self = self
	c.ExtendBaseWidget(self)
}

// take gives the control the focus without showing it, at the start of a tap.
func (c *control) take() {
	c.silent = true
	takeFocus(c.self)
	c.silent = false
}

// handed gives the control the focus in place of one that stood here before,
// whose key may still be held; shown tells whether that one showed it.
func (c *control) handed(on fyne.Canvas, shown bool) {
	c.silent, c.held = !shown, true
	on.Focus(c.self)
	c.silent = false
}

// quiet tells whether the focus came from a tap, and so is not shown.
func (c *control) quiet() bool { return !c.focused }

// KeyDown is told by the toolkit of a key that was pressed anew.
func (c *control) KeyDown(*fyne.KeyEvent) { c.held = false }

// KeyUp is told by the toolkit of a key that was let go of.
func (c *control) KeyUp(*fyne.KeyEvent) { c.held = false }

// unheard hands an Escape that means nothing to what has the focus on to its
// window, as if nothing had the focus.
func unheard(o fyne.CanvasObject, ev *fyne.KeyEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(ev)
	}
}

// TypedRune is used by the toolkit.
func (c *control) TypedRune(rune) {}

// FocusGained shows the focus, unless it came from a tap, and brings the
// control into view.
func (c *control) FocusGained() {
	if c.silent {
		return
	}
	if c.scroll != nil {
		c.scroll.ScrollTo(c.self)
	}
	c.set(&c.focused, true)
}

// FocusLost is used by the toolkit.
func (c *control) FocusLost() {
	c.held = false
	c.set(&c.focused, false)
}

// MouseDown notes that the finger rests on the control.
func (c *control) MouseDown(ev *desktop.MouseEvent) {
	pressed = press{on: c.self, at: ev.PointEvent}
	c.set(&c.down, true)
}

// MouseUp is used by the toolkit.
func (c *control) MouseUp(*desktop.MouseEvent) { c.letGo() }

func (c *control) letGo() { c.set(&c.down, false) }

func (c *control) within(s *Scroll) { c.scroll = s }

// set changes one of the control's states and redraws it.
func (c *control) set(state *bool, to bool) {
	if *state != to {
		*state = to
		c.self.Refresh()
	}
}
