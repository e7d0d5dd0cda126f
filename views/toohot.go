package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// hotPanel tells over a whole window what to do about resin that smokes or is
// too hot to touch. It holds nothing up: Back or Escape closes it.
type hotPanel struct {
	desk   *Desk
	root   *fyne.Container
	ground *canvas.Rectangle
	head   *touch.Text
	steps  *touch.Scroll
	back   *touch.Button
	other  *touch.Button // it is in the other place
	undo   *touch.Button // it was nothing
	said   *touch.Text
	under  fyne.CanvasObject // what it covers while it is open; may be nil
	layer  string
	place  model.HotPlace
	from   time.Time // what was noted before then is of another time
	drawn  string
}

// newHotPanel makes a panel that is closed.
func newHotPanel(d *Desk) *hotPanel {
	h := &hotPanel{desk: d, ground: canvas.NewRectangle(look.Current().Ground), head: touch.NewSigned("", touch.Reading, touch.StopTone), said: touch.NewText("", touch.Body, touch.StopTone)}
	h.steps = touch.NewScroll(container.NewStack())
	h.back = touch.NewStyledButton("Back", touch.Primary, h.hide)
	h.other = touch.NewButton("", h.change)
	h.undo = touch.NewStyledButton("It was nothing: take it back", touch.Quiet, h.takeBack)
	for _, b := range []*touch.Button{h.back, h.other, h.undo} {
		b.Bench, b.Debounce, b.OnEscape = true, touch.Settle, h.hide
	}
	title := container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 0, 12), container.NewCenter(touch.NewSign(touch.Stop, 44))), nil, h.head)
	acts := container.NewBorder(nil, nil, nil, h.back, container.NewHBox(h.other, h.undo))
	h.root = container.NewStack(h.ground, container.New(layout.NewCustomPaddedLayout(14, 14, 22, 22),
		container.NewBorder(title, stack(h.said, acts), nil, nil, h.steps)))
	h.root.Hide()
	return h
}

// over has the panel, while it is open, take the place of a part of the window.
func (h *hotPanel) over(part fyne.CanvasObject) fyne.CanvasObject {
	h.under = part
	return container.New(covering{}, part, h.root)
}

// stop notes that resin for a layer got too hot, and shows what to do. What to
// do is shown even where it cannot be noted; the error says why.
func (h *hotPanel) stop(layer string) error {
	shot := h.desk.session.Snapshot()
	h.layer, h.place, h.from = layer, shot.Project.HotPlaceOf(layer), h.desk.session.Now().Add(-time.Millisecond)
	err := h.desk.session.Happened(model.TooHotEntry(layer, h.place))
	h.said.SetText(problemWords(err))
	h.show()
	return err
}

// show opens the panel, with the focus on the way back.
func (h *hotPanel) show() {
	h.draw()
	h.steps.SetOffset(0)
	if h.under != nil {
		h.under.Hide()
	}
	h.root.Show()
	canvas := func() fyne.Canvas { return fyne.CurrentApp().Driver().CanvasForObject(h.back) }
	once(h.desk.session, func() bool { return canvas() != nil }, func() { canvas().Focus(h.back) }, mostBreaths)
}

// hide closes the panel.
func (h *hotPanel) hide() {
	if !h.root.Visible() {
		return
	}
	h.root.Hide()
	if h.under != nil {
		h.under.Show()
	}
}

// see draws an open panel anew where the light has changed, and closes it where
// its project has been closed.
func (h *hotPanel) see(shot *app.Snapshot) {
	if !h.root.Visible() {
		return
	}
	if shot.Project.LayerIndex(h.layer) < 0 {
		h.hide()
		return
	}
	h.draw()
}

// draw builds the steps unless they are shown already.
func (h *hotPanel) draw() {
	shot := h.desk.session.Snapshot()
	name := ""
	if l, ok := shot.Layer(h.layer); ok {
		name = l.Name
	}
	key := fmt.Sprint(h.layer, name, h.place, look.Current().Ground)
	if key == h.drawn {
		return
	}
	h.drawn = key
	h.ground.FillColor = look.Current().Ground
	h.ground.Refresh()
	h.head.SetText("Stop: too hot, " + string(h.place) + " · " + brief(name, 30))
	other := model.HotMold
	if h.place == model.HotMold {
		other = model.HotCup
	}
	h.other.SetLabel("It is " + string(other))
	rows := container.New(layout.NewCustomPaddedVBoxLayout(1))
	for i, s := range model.TooHot(h.place) {
		words := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewText(s.Do, touch.Reading, touch.Ink))
		if s.Care != "" {
			words.Add(touch.NewText(s.Care, touch.Title, touch.Ink))
		}
		number := touch.NewLine(fmt.Sprint(i+1), touch.Reading, touch.Ink)
		rows.Add(container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 0, 14), container.NewVBox(number)), nil, words))
	}
	rows.Add(touch.NewText(model.Burnt, touch.Strong, touch.Ink))
	rows.Add(touch.NewText(model.HotSource, touch.Body, touch.Faint))
	h.steps.SetContent(container.New(layout.NewCustomPaddedLayout(2, 2, 0, 10), rows))
}

// entry finds what was noted when the panel was opened; false where it was not,
// or has been taken back.
func (h *hotPanel) entry() (model.Entry, bool) {
	shot := h.desk.session.Snapshot()
	return shot.Project.LastTooHot(h.layer, h.from)
}

// change says that it is in the other place: what was noted is corrected, and
// what to do there is shown.
func (h *hotPanel) change() {
	if h.place == model.HotCup {
		h.place = model.HotMold
	} else {
		h.place = model.HotCup
	}
	if e, ok := h.entry(); ok {
		err := h.desk.session.Correct(e.ID, func(e *model.Entry) { e.Text = string(h.place) })
		h.said.SetText(problemWords(err))
	}
	h.draw()
}

// takeBack takes what was noted back and closes the panel.
func (h *hotPanel) takeBack() {
	if e, ok := h.entry(); ok {
		if err := h.desk.session.Withdraw(e.ID); err != nil {
			h.said.SetText(problemWords(err))
			return
		}
	}
	h.hide()
}
