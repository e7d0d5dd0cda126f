package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// TakeBack takes the last typing back in what has the focus, where that is text
// which nothing else keeps yet: what is looked for, the name of a file, an input
// that is read only when it is left. It tells whether there was any.
func TakeBack(c fyne.Canvas) bool { return retype(c, &fyne.ShortcutUndo{}) }

// BringBack brings such typing back.
func BringBack(c fyne.Canvas) bool { return retype(c, &fyne.ShortcutRedo{}) }

// retype hands a shortcut to the text that has the focus and tells whether it
// changed anything.
func retype(c fyne.Canvas, way fyne.Shortcut) bool {
	switch e := c.Focused().(type) {
	case *entry:
		if e.kept != nil && e.kept() {
			return false
		}
		before := e.Text
		e.Entry.TypedShortcut(way)
		return e.Text != before
	case *widget.Entry:
		before := e.Text
		e.TypedShortcut(way)
		return e.Text != before
	}
	return false
}

// TypedShortcut is used by the toolkit. What the entry does not know the window
// may.
func (e *entry) TypedShortcut(s fyne.Shortcut) {
	e.Entry.TypedShortcut(s)
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(e).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}
