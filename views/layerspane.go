package views

import (
	"errors"
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// pane is a part of a window whose inputs come and go: it is built anew only
// when its key changes, so that nothing is lost while someone types in it.
type pane struct {
	in    *inputs
	root  *fyne.Container
	built string
	begun bool
	mine  []string // paths of its inputs
}

func newPane(in *inputs) *pane { return &pane{in: in, root: container.NewStack()} }

// show builds the pane unless it shows what the key stands for already, in the
// light of the moment. It tells whether it was built.
func (p *pane) show(key string, build func() fyne.CanvasObject) bool {
	key = fmt.Sprint(key, look.Current().Ground)
	if p.begun && p.built == key {
		return false
	}
	touch.KeepFocus(p.root, func() { p.rebuild(build) })
	p.built, p.begun = key, true
	return true
}

// rebuild puts what is built into the pane, and forgets the inputs before it, whose
// typing counts.
func (p *pane) rebuild(build func() fyne.CanvasObject) {
	for _, path := range p.mine {
		if field := p.in.form.Input(path); field != nil {
			field.Commit()
		}
		p.in.form.Remove(path)
		delete(p.in.shows, path)
	}
	p.mine = nil
	before := map[string]bool{}
	for path := range p.in.shows {
		before[path] = true
	}
	p.root.Objects = []fyne.CanvasObject{build()}
	for path := range p.in.shows {
		if !before[path] {
			p.mine = append(p.mine, path)
		}
	}
	p.root.Refresh()
}

// also adds to what shows a field.
func (in *inputs) also(path string, more func(*app.Snapshot)) {
	show := in.shows[path]
	in.bind(path, func(shot *app.Snapshot) {
		if show != nil {
			show(shot)
		}
		more(shot)
	})
}

// plain is a quantity that is copied from paper, so without steps.
func (in *inputs) plain(path, label, help string, kind touch.Kind) *touch.Field {
	f := in.quantity(path, label, help, kind)
	f.OnStep = nil
	return f
}

// measured is a quantity with what stands in for it shown where it is not
// given.
func (in *inputs) measured(path, label, help string, kind touch.Kind) fyne.CanvasObject {
	f := in.quantity(path, label, help, kind)
	mark := newTypicalMark()
	in.also(path, func(shot *app.Snapshot) { showUsual(shot, path, path, f, mark) })
	return container.New(layout.NewCustomPaddedVBoxLayout(3), f, mark.root)
}

// showUsual marks a field that is not given with what stands in for it.
func showUsual(shot *app.Snapshot, path, ask string, f *touch.Field, mark *typicalMark) {
	u, known := shot.Usual(ask)
	text, _ := shot.Show(path)
	given := text != ""
	placeholder := ""
	if known && !given {
		placeholder = u.Value
	}
	f.SetPlaceholder(placeholder)
	mark.set(u, known && !given)
}

// problemWords gives what is wrong in the maker's words.
func problemWords(err error) string {
	var p *model.Problem
	switch {
	case err == nil:
		return ""
	case errors.As(err, &p):
		return p.Message
	}
	return err.Error()
}

// swatch is a patch of a resin's colour with an outline.
func swatch(size fyne.Size) *canvas.Rectangle {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(size)
	r.CornerRadius, r.StrokeWidth = 4, 1
	return r
}

// paintSwatch colours a patch as #rrggbb has it.
func paintSwatch(r *canvas.Rectangle, text string) {
	c, _ := drawing.Hex(text)
	r.FillColor, r.StrokeColor = c, look.Current().Line
	r.Refresh()
}
