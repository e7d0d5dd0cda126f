package touch

import (
	"math"

	"fyne.io/fyne/v2"
)

// Slop is how far, in toolkit units, a finger may slip and still mean a tap.
const Slop float32 = 14

// pressable is a control that a finger can rest on.
type pressable interface {
	Tapped(*fyne.PointEvent)
	letGo()
}

// press is a control under the finger, and where the finger came down.
type press struct {
	on pressable
	at fyne.PointEvent
}

// pressed is the press under way. There is one pointer, so there is one press.
// A control notes itself here when the finger comes down; the scroller that
// gets the drag reads who it was.
var pressed press

// beganAt tells whether this press began at the place at, in canvas units.
func (p press) beganAt(at fyne.Position) bool {
	d := p.at.AbsolutePosition.Subtract(at)
	return p.on != nil && math.Abs(float64(d.X)) < 1 && math.Abs(float64(d.Y)) < 1
}

// length is the length of a movement.
func length(d fyne.Delta) float32 {
	return float32(math.Hypot(float64(d.DX), float64(d.DY)))
}

// takeFocus gives the focus to w, so that the input that had it commits.
func takeFocus(w fyne.Focusable) {
	o, ok := w.(fyne.CanvasObject)
	if !ok {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil && c.Focused() != w {
		c.Focus(w)
	}
}
