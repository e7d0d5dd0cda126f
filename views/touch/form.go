package touch

import (
	"fyne.io/fyne/v2"
)

// Input is an input that belongs to a Form.
type Input interface {
	fyne.CanvasObject
	// Path names what the input is about, as findings and drafts name it.
	Path() string
	// Commit hands over what has been typed, if it differs from what was last
	// set or committed.
	Commit()
	// Pending is the text typed and not committed.
	Pending() (text string, ok bool)
	// Restore puts back a text that was pending.
	Restore(text string)

	target() fyne.Focusable
	flash()
}

// Form knows the inputs of one window or page, so that an action can commit
// what is still being typed and a finding can lead to its input.
//
// The toolkit leaves the focus in an entry when something else is pressed that
// is not ours; call CommitAll at the start of every action that does not begin
// at a Button of this package.
type Form struct {
	// OnFocus is told the path of the input that has the focus, and "" when
	// none has.
	OnFocus func(path string)

	inputs map[string]Input
	order  []string
	last   *Field // the field that had the focus last
	pad    *Keypad
}

// NewForm makes a form without inputs.
func NewForm() *Form { return &Form{inputs: map[string]Input{}} }

// Add makes an input part of the form, in place of one with the same path. The
// constructors of Field and TextField do it.
func (f *Form) Add(in Input) {
	if _, ok := f.inputs[in.Path()]; !ok {
		f.order = append(f.order, in.Path())
	}
	f.inputs[in.Path()] = in
}

// Remove takes the input with this path out of the form, when it leaves the
// window.
func (f *Form) Remove(path string) {
	in, ok := f.inputs[path]
	if !ok {
		return
	}
	delete(f.inputs, path)
	for i, p := range f.order {
		if p == path {
			f.order = append(f.order[:i], f.order[i+1:]...)
			break
		}
	}
	if field, ok := in.(*Field); ok && field == f.last {
		f.aim(nil)
	}
}

// Field is the field with this path, nil where there is none.
func (f *Form) Field(path string) *Field {
	field, _ := f.inputs[path].(*Field)
	return field
}

// Input is the input with this path, of whatever sort, nil where there is none.
func (f *Form) Input(path string) Input { return f.inputs[path] }

// Paths are the paths of the inputs, in the order in which they were added.
func (f *Form) Paths() []string { return append([]string(nil), f.order...) }

// CommitAll commits every input that has something typed.
func (f *Form) CommitAll() {
	for _, path := range f.Paths() {
		if in, ok := f.inputs[path]; ok {
			in.Commit()
		}
	}
}

// Focus brings the input with this path into view, gives it the focus with all
// that stands in its line selected, and flashes it. It tells whether there is
// one.
func (f *Form) Focus(path string) bool {
	in, ok := f.inputs[path]
	if !ok {
		return false
	}
	takeFocus(in.target())
	if e, ok := in.target().(*entry); ok && e.focused && !e.edited() {
		e.selectLine()
	}
	in.flash()
	return true
}

// Ready tells whether the input with this path can take the focus. One that
// was made just now cannot before its window is painted.
func (f *Form) Ready(path string) bool {
	in, ok := f.inputs[path]
	return ok && fyne.CurrentApp().Driver().CanvasForObject(in.target().(fyne.CanvasObject)) != nil
}

// Next commits the input that has the focus and goes to the one after it.
func (f *Form) Next() { f.walk(fyne.Canvas.FocusNext) }

// Previous commits the input that has the focus and goes to the one before it.
func (f *Form) Previous() { f.walk(fyne.Canvas.FocusPrevious) }

// walk follows the order of the Tab key until it comes to an input of the
// form. It starts at the last field where nothing has the focus.
func (f *Form) walk(step func(fyne.Canvas)) {
	c := f.canvas()
	if c == nil {
		return
	}
	if c.Focused() == nil && f.last != nil {
		c.Focus(f.last.entry)
	}
	const far = 1000 // more than any window has to Tab through
	for range far {
		step(c)
		if f.owns(c.Focused()) {
			return
		}
	}
}

// canvas is the canvas that the form's inputs are shown on.
func (f *Form) canvas() fyne.Canvas {
	for _, path := range f.order {
		if c := fyne.CurrentApp().Driver().CanvasForObject(f.inputs[path]); c != nil {
			return c
		}
	}
	return nil
}

// owns tells whether w takes the typing for an input of the form.
func (f *Form) owns(w fyne.Focusable) bool {
	for _, in := range f.inputs {
		if in.target() == w {
			return true
		}
	}
	return false
}

// noteFocus is told by an input that it has or lost the focus. A window that comes
// to the front gives it back to what had it last, though that may have left the form.
func (f *Form) noteFocus(in Input, gained bool) {
	if gained && f.inputs[in.Path()] != in {
		return
	}
	if gained {
		field, _ := in.(*Field)
		f.aim(field)
	}
	if f.OnFocus == nil {
		return
	}
	if gained {
		f.OnFocus(in.Path())
	} else {
		f.OnFocus("")
	}
}

// Rest turns the keypad away from the field that had the focus last, when
// another part of the page takes its place.
func (f *Form) Rest() { f.aim(nil) }

// aim turns the keypad to a field, or to none.
func (f *Form) aim(field *Field) {
	f.last = field
	if f.pad != nil {
		f.pad.aim(field)
	}
}
