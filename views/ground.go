package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// ground is the sheet that everything in a window lies on. The toolkit clears a
// window to a colour a shade off, against which the drawings would show as
// boxes.
type ground struct{ widget.BaseWidget }

func newGround() *ground {
	g := &ground{}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer is used by the toolkit.
func (g *ground) CreateRenderer() fyne.WidgetRenderer {
	r := canvas.NewRectangle(look.Current().Ground)
	return &groundRenderer{WidgetRenderer: widget.NewSimpleRenderer(r), sheet: r}
}

type groundRenderer struct {
	fyne.WidgetRenderer
	sheet *canvas.Rectangle
}

// Refresh follows the light.
func (r *groundRenderer) Refresh() {
	r.sheet.FillColor = look.Current().Ground
	r.sheet.Refresh()
}
