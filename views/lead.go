package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/views/touch"
)

// mostBreaths is how many breaths an input that was made just now is waited for,
// until its window has been painted; before that it cannot take the focus.
const mostBreaths = 80

// lead gives the focus to the input at a path, at once or as soon as it is
// painted; false when there is none.
func (in *inputs) lead(path string) bool {
	if in.form.Input(path) == nil {
		return false
	}
	in.once(func() bool { return in.form.Ready(path) }, func() { in.form.Focus(path) }, mostBreaths)
	return true
}

// leadTo gives the focus to the first input inside o, at once or as soon as it
// is painted, which brings it into view and marks it; false when there is none
// that is shown.
func (in *inputs) leadTo(o fyne.CanvasObject) bool {
	if firstInput(o) == nil {
		return false
	}
	canvas := func() fyne.Canvas { return fyne.CurrentApp().Driver().CanvasForObject(o) }
	in.once(func() bool { return canvas() != nil }, func() {
		if w := firstInput(o); w != nil {
			canvas().Focus(w)
		}
	}, mostBreaths)
	return true
}

// once does something once it can be done, which is tried at every breath.
func (in *inputs) once(ready func() bool, do func(), breaths int) {
	once(in.session, ready, do, breaths)
}

// once does something once it can be done, which is tried at so many breaths of
// the session.
func once(s *app.Session, ready func() bool, do func(), breaths int) {
	switch {
	case ready():
		do()
	case breaths > 0:
		s.Later(breath, func() { once(s, ready, do, breaths-1) })
	}
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
	for _, child := range childrenOf(o) {
		if w := firstInput(child); w != nil {
			return w
		}
	}
	return nil
}

// childrenOf lists what stands in an object.
func childrenOf(o fyne.CanvasObject) []fyne.CanvasObject {
	switch o := o.(type) {
	case *fyne.Container:
		return o.Objects
	case touch.Parent:
		return o.Children()
	}
	return nil
}
