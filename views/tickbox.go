package views

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// tickBox is a box that is empty or holds a tick, so that it is known by its shape.
type tickBox struct {
	widget.BaseWidget
	side float32
	on   bool
}

func newTickBox(side float32) *tickBox {
	t := &tickBox{side: side}
	t.ExtendBaseWidget(t)
	return t
}

// set shows the tick or takes it away.
func (t *tickBox) set(on bool) {
	if t.on != on {
		t.on = on
		t.Refresh()
	}
}

// CreateRenderer is used by the toolkit.
func (t *tickBox) CreateRenderer() fyne.WidgetRenderer {
	r := &tickBoxRenderer{tick: t, box: canvas.NewRectangle(color.Transparent), short: canvas.NewLine(color.Black), long: canvas.NewLine(color.Black)}
	r.box.CornerRadius = 5
	r.style()
	return r
}

type tickBoxRenderer struct {
	tick        *tickBox
	box         *canvas.Rectangle
	short, long *canvas.Line
}

func (r *tickBoxRenderer) style() {
	p := look.Current()
	r.box.FillColor, r.box.StrokeColor, r.box.StrokeWidth = p.Panel, p.Ink, 2
	if r.tick.on {
		r.box.FillColor = p.Ink
	}
	for _, l := range []*canvas.Line{r.short, r.long} {
		l.StrokeColor, l.StrokeWidth, l.Hidden = p.Panel, r.tick.side/8, !r.tick.on
	}
}

func (r *tickBoxRenderer) Layout(size fyne.Size) {
	s := r.tick.side
	x, y := (size.Width-s)/2, (size.Height-s)/2
	r.box.Move(fyne.NewPos(x, y))
	r.box.Resize(fyne.NewSquareSize(s))
	at := func(u, v float32) fyne.Position { return fyne.NewPos(x+u*s, y+v*s) }
	r.short.Position1, r.short.Position2 = at(0.22, 0.53), at(0.42, 0.73)
	r.long.Position1, r.long.Position2 = at(0.41, 0.73), at(0.79, 0.28)
}

func (r *tickBoxRenderer) MinSize() fyne.Size { return fyne.NewSquareSize(r.tick.side) }

func (r *tickBoxRenderer) Refresh() {
	r.style()
	r.Layout(r.tick.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *tickBoxRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.short, r.long}
}

func (r *tickBoxRenderer) Destroy() {}
