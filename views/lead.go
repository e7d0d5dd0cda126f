package views

import (
	"fyne.io/fyne/v2"

	"meniscus/views/touch"
)

// leadTo gives the focus to the first input inside o, which brings it into view
// and marks it; false when there is none that is shown.
func leadTo(o fyne.CanvasObject) bool {
	w := firstInput(o)
	if w == nil {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		return false
	}
	c.Focus(w)
	return true
}

// firstInput finds the first widget inside o that takes the focus.
func firstInput(o fyne.CanvasObject) fyne.Focusable {
	if o == nil || !o.Visible() {
		return nil
	}
	if w, ok := o.(fyne.Focusable); ok {
		if d, able := o.(fyne.Disableable); !able || !d.Disabled() {
			return w
		}
	}
	var children []fyne.CanvasObject
	switch o := o.(type) {
	case *fyne.Container:
		children = o.Objects
	case touch.Parent:
		children = o.Children()
	}
	for _, child := range children {
		if w := firstInput(child); w != nil {
			return w
		}
	}
	return nil
}
