package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// measuring stands where a mold is drawn while it is not measured: what the drawing
// waits for, and where the mold is measured.
type measuring struct {
	desk    *Desk
	root    *fyne.Container
	guide   *touch.Text
	act     fyne.CanvasObject // leads to where it is measured; nil where that is here
	picture *drawing.Picture
}

// newMeasuring makes one; act, which may be nil, stands below its words.
func newMeasuring(d *Desk, act fyne.CanvasObject) *measuring {
	m := &measuring{desk: d, act: act, guide: touch.NewText("", touch.Body, touch.Faint)}
	m.picture = drawing.NewPicture(d.fonts, fyne.NewSize(260, 200), d.palette().Ground, nil)
	head := container.New(layout.NewCustomPaddedVBoxLayout(look.Gap), m.guide)
	if act != nil {
		head.Add(act)
	}
	m.root = container.New(layout.NewCustomPaddedLayout(12, 0, 18, 18), container.NewBorder(head, nil, nil, nil, m.picture))
	return m
}

// show draws where a mold is measured; lit is the last name in the path of the size
// that is being entered.
func (m *measuring) show(mold *model.Mold, lit string) {
	palette := m.desk.palette()
	x := drawing.MoldMeasure{Form: mold.Kind, Floor: mold.At == model.AtFloor, Across: string(mold.Across), Lit: lit}
	m.picture.Set(palette.Ground, func(s drawing.Surface) { drawing.PaintMoldMeasure(s, x, drawing.Style{Palette: palette}) })
}
