package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// Windows opens and closes the program's windows, one for each key. It is the
// only place that does: the toolkit keeps what a closed window showed for good
// unless the content is taken out first.
type Windows struct {
	// OnClosed is told of a window that has been closed and the size it had.
	OnClosed func(key string, size fyne.Size)

	app  fyne.App
	open map[string]*opened
}

// opened is a window that is open.
type opened struct {
	window  fyne.Window
	closing []func()
}

// NewWindows makes a registry with no window open.
func NewWindows(app fyne.App) *Windows {
	return &Windows{app: app, open: map[string]*opened{}}
}

// Show opens the window with this key, or brings it to the front where it is
// open already. Build makes the content of a new one.
func (w *Windows) Show(key, title string, size fyne.Size, build func(fyne.Window) fyne.CanvasObject) fyne.Window {
	if o, ok := w.open[key]; ok {
		o.window.Show()
		o.window.RequestFocus()
		return o.window
	}
	win := w.app.NewWindow(title)
	o := &opened{window: win}
	w.open[key] = o
	win.SetCloseIntercept(func() { w.Close(key) })
	win.SetOnClosed(func() { w.forget(key, o) })
	win.SetContent(build(win))
	win.Resize(size)
	win.Show()
	return win
}

// Closing has do called before the window with this key is closed, while its
// content is still there: the place to commit what is being typed.
func (w *Windows) Closing(key string, do func()) {
	if o, ok := w.open[key]; ok {
		o.closing = append(o.closing, do)
	}
}

// Close closes the window with this key, if it is open.
func (w *Windows) Close(key string) {
	o, ok := w.open[key]
	if !ok {
		return
	}
	size := o.window.Canvas().Size()
	w.forgetSized(key, o, size)
	o.window.SetContent(canvas.NewRectangle(color.Transparent))
	o.window.Close()
}

// Window is the open window with this key, nil where there is none.
func (w *Windows) Window(key string) fyne.Window {
	if o, ok := w.open[key]; ok {
		return o.window
	}
	return nil
}

// Keys are the keys of the open windows, in no order.
func (w *Windows) Keys() []string {
	keys := make([]string, 0, len(w.open))
	for key := range w.open {
		keys = append(keys, key)
	}
	return keys
}

// forget is told by the toolkit that a window is gone, also when the app quits.
func (w *Windows) forget(key string, o *opened) {
	w.forgetSized(key, o, o.window.Canvas().Size())
}

// forgetSized takes a window out of the registry and tells of it, once.
func (w *Windows) forgetSized(key string, o *opened, size fyne.Size) {
	if w.open[key] != o {
		return
	}
	for _, do := range o.closing {
		do()
	}
	delete(w.open, key)
	if w.OnClosed != nil {
		w.OnClosed(key, size)
	}
}
