package views

import (
	"fmt"
	"slices"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// workingOf looks up a figure's working in a snapshot; false when the snapshot
// has none.
type workingOf func(*app.Snapshot) (model.Working, bool)

// figureOf looks up the working of one figure of a layer's simulation.
func figureOf(layer string, fig model.Figured) workingOf {
	return func(shot *app.Snapshot) (model.Working, bool) {
		for i := range shot.Curing.Layers {
			if l := &shot.Curing.Layers[i]; l.ID == layer {
				w, ok := l.Workings[fig]
				return w, ok
			}
		}
		return model.Working{}, false
	}
}

// timeOf looks up the working of a time of a layer: the simulation's, or how
// the data sheet's came to what it is in this room.
func timeOf(layer string, fig model.Figured) workingOf {
	return func(shot *app.Snapshot) (model.Working, bool) {
		if w, ok := figureOf(layer, fig)(shot); ok {
			return w, true
		}
		return shot.Plan.ScaledWorking(&shot.Project, layer, fig)
	}
}

// workingPanel is the place of a window where a figure's working is opened: the
// formula, what went in, where that is from, and how far it may be off. It
// stands in the window itself and holds nothing up.
type workingPanel struct {
	desk   *Desk
	root   *fyne.Container
	scroll *touch.Scroll
	close  *touch.Button
	under  fyne.CanvasObject // what it covers while it is open; may be nil
	of     workingOf         // looks the open working up anew
	from   *touch.Opens      // the figure that was opened
	built  string
	shot   *app.Snapshot // that the window shows
}

// newWorkingPanel makes a panel with nothing open.
func newWorkingPanel(d *Desk) *workingPanel {
	w := &workingPanel{desk: d}
	w.close = touch.NewButton("Close", w.hide)
	w.scroll = touch.NewScroll(container.NewStack())
	w.root = container.NewStack(w.scroll)
	w.root.Hide()
	return w
}

// over has the panel, while it is open, take the place of a part of the window.
func (w *workingPanel) over(part fyne.CanvasObject) fyne.CanvasObject {
	w.under = part
	return container.New(covering{}, part, w.root)
}

// covering lays a panel over a part of the window, with room for the larger of
// the two whichever is shown, so that opening the panel moves nothing.
type covering struct{}

func (covering) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize().Max(o[1].MinSize()) }

func (covering) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, x := range o {
		x.Resize(size)
	}
}

// opens makes a figure that opens its working when it is touched.
func (w *workingPanel) opens(figure string, role touch.Role, of workingOf) *touch.Opens {
	o := touch.NewOpens(figure, role, nil)
	o.OnOpen = func(byKey bool) {
		if w.shot == nil {
			return
		}
		working, ok := of(w.shot)
		if !ok {
			return
		}
		w.show(working, w.shot)
		w.desk.guide.tried(model.TryWorking)
		w.of, w.from = of, nil
		if byKey {
			w.from = o
			w.lead()
		}
	}
	return o
}

// newOpens makes text for a figure: one that opens its working in the panel
// where the snapshot has it, and plain text where it has not.
func newOpens(w *workingPanel, shot *app.Snapshot, figure string, role touch.Role, of workingOf) fyne.CanvasObject {
	if _, ok := of(shot); ok {
		return w.opens(figure, role, of)
	}
	return touch.NewLine(figure, role, touch.Ink)
}

// show opens a working.
func (w *workingPanel) show(working model.Working, shot *app.Snapshot) {
	w.of, w.from = nil, nil
	w.draw(working, shot)
	w.scroll.SetOffset(0)
	if w.under != nil {
		w.under.Hide()
	}
	w.root.Show()
}

// hide closes what is open; the focus goes back to a figure that was opened
// from the keyboard.
func (w *workingPanel) hide() {
	if !w.root.Visible() {
		return
	}
	w.root.Hide()
	if w.under != nil {
		w.under.Show()
	}
	from := w.from
	w.of, w.from = nil, nil
	if from != nil && fyne.CurrentApp().Driver().CanvasForObject(from) != nil {
		from.Focus()
	}
}

// see takes the snapshot that the window shows from now on. It shows the open
// working as that has it, and closes one that is no more.
func (w *workingPanel) see(shot *app.Snapshot) {
	w.shot = shot
	if !w.root.Visible() || w.of == nil {
		return
	}
	working, ok := w.of(shot)
	if !ok {
		w.hide()
		return
	}
	w.draw(working, shot)
}

// lead gives the focus to the panel once it is painted.
func (w *workingPanel) lead() {
	canvas := func() fyne.Canvas { return fyne.CurrentApp().Driver().CanvasForObject(w.close) }
	once(w.desk.session, func() bool { return canvas() != nil }, func() { canvas().Focus(w.close) }, mostBreaths)
}

// draw builds the panel unless it shows the same already.
func (w *workingPanel) draw(working model.Working, shot *app.Snapshot) {
	key := fmt.Sprint(working, shot.Project.ID, look.Current().Ground)
	if key == w.built {
		return
	}
	w.built = key
	rows := container.New(layout.NewCustomPaddedVBoxLayout(10))
	if working.Formula != "" {
		rows.Add(touch.NewText(capitalised(working.Formula), touch.Body, touch.Ink))
	}
	if len(working.Inputs) > 0 {
		list := container.New(layout.NewCustomPaddedVBoxLayout(look.Gap), touch.NewText("What went in", touch.Strong, touch.Ink))
		if slices.ContainsFunc(working.Inputs, func(in model.WorkingInput) bool { return in.Field != "" }) {
			list.Add(touch.NewText("Touch one with › to go to where it is entered.", touch.Small, touch.Faint))
		}
		for _, in := range working.Inputs {
			list.Add(w.input(in))
		}
		rows.Add(list)
	}
	for _, part := range []struct{ name, words string }{{"How sure it is", working.Band}, {"Where it is from", working.Source}} {
		if part.words != "" {
			rows.Add(container.New(layout.NewCustomPaddedVBoxLayout(2), touch.NewText(part.name, touch.Strong, touch.Ink), touch.NewText(capitalised(part.words), touch.Body, touch.Ink)))
		}
	}
	offset := w.scroll.Offset()
	w.scroll.SetContent(inset(touch.NewCard(capitalised(working.Title), rows, w.close)))
	w.scroll.SetOffset(offset)
}

// input is one figure that went in. One that the maker can change leads to its
// input.
func (w *workingPanel) input(in model.WorkingInput) fyne.CanvasObject {
	all := container.New(layout.NewCustomPaddedVBoxLayout(1), nameAndValue(capitalised(in.Label), in.Value))
	if in.Typical {
		all.Add(newDotted("a typical value, not yours").root)
	}
	if in.Source != "" {
		all.Add(touch.NewText(capitalised(in.Source), touch.Small, touch.Faint))
	}
	if in.Field == "" {
		return container.New(layout.NewCustomPaddedLayout(2, 2, 14, 10), all)
	}
	on := touch.NewLine("›", touch.Title, touch.Touchable)
	return touch.NewRow(container.NewBorder(nil, nil, nil, container.NewCenter(on), all), func() { w.goTo(in.Field) })
}

// goTo shows the input of a field, and closes the panel where it covers it.
func (w *workingPanel) goTo(field string) {
	driver := fyne.CurrentApp().Driver()
	for _, key := range homesOf(field, "") {
		if there := w.desk.windows.Window(key); there != nil && there.Canvas() == driver.CanvasForObject(w.root) {
			w.from = nil
			w.hide()
		}
	}
	w.desk.goTo(model.Finding{Field: field})
}

// nameAndValue sets a value at the end of the line of its name, or below it
// where it is long.
func nameAndValue(name, value string) fyne.CanvasObject {
	const short = 24
	if utf8.RuneCountInString(value) > short {
		return container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewText(name, touch.Body, touch.Ink), touch.NewText(value, touch.Strong, touch.Ink))
	}
	return timeHead(name, value)
}
