package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/touch"
)

// usualList is an input for one of many words that may also be left open; then
// it says so, and what stands in.
func (in *inputs) usualList(path, label, open string, options []touch.Option) fyne.CanvasObject {
	options = append([]touch.Option{{ID: "", Label: open}}, options...)
	list := in.list(path, label, open, func(*app.Snapshot) []touch.Option { return options })
	mark := newTypicalMark()
	in.also(path, func(shot *app.Snapshot) {
		u, known := shot.Usual(path)
		text, _ := shot.Show(path)
		mark.set(u, known && text == "")
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), list, mark.root)
}

// usualLength is an input for a length that is measured with an instrument,
// with what stands in for it where it is not given.
func (in *inputs) usualLength(path, label, help string) fyne.CanvasObject {
	f := in.length(path, label, help)
	mark := newTypicalMark()
	in.also(path, func(shot *app.Snapshot) { showUsual(shot, path, path, f, mark) })
	return container.New(layout.NewCustomPaddedVBoxLayout(3), f, mark.root)
}
