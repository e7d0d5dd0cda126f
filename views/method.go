package views

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
)

// The heights of a drawing that shows how something is measured: among inputs, and where
// a window has room for it.
const (
	methodAmong = drawing.MethodHigh
	methodAlone = 290
)

// newMethod draws how something is measured, on the ground of a window.
func newMethod(d *Desk, x drawing.Method, high float32) *drawing.Picture {
	return newFixed(d, fyne.NewSize(drawing.MethodWide, high), func(p drawing.Palette) color.NRGBA { return p.Ground }, func(s drawing.Surface, st drawing.Style) { drawing.PaintMethod(s, x, st) })
}

// newCardMethod draws it on a card.
func newCardMethod(d *Desk, x drawing.Method) *drawing.Picture {
	return newFixed(d, fyne.NewSize(drawing.MethodWide, methodAmong), func(p drawing.Palette) color.NRGBA { return p.Panel }, func(s drawing.Surface, st drawing.Style) { drawing.PaintMethod(s, x, st) })
}

// whereWide gives a drawing of a method the width that there is, and no height where that
// is too narrow for it.
type whereWide struct{ width float32 }

func (l *whereWide) MinSize(o []fyne.CanvasObject) fyne.Size {
	if l.width < drawing.MethodWide {
		return fyne.Size{}
	}
	return fyne.NewSize(0, o[0].MinSize().Height)
}

func (l *whereWide) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	showIf(o[0], size.Width >= drawing.MethodWide)
	o[0].Resize(size)
}

// newFixed makes a picture that stays as it is, painted in the light of the moment.
func newFixed(d *Desk, least fyne.Size, ground func(drawing.Palette) color.NRGBA, paint func(drawing.Surface, drawing.Style)) *drawing.Picture {
	return drawing.NewPicture(d.fonts, least, ground(d.palette()), func(s drawing.Surface) {
		st := drawing.Style{Palette: d.palette()}
		s.Fill("ground", ground(st.Palette), s.Bounds().Ring())
		paint(s, st)
	})
}

// method shows on a card how the field at a path is measured, until it has been.
func (in *inputs) method(path string, x drawing.Method) fyne.CanvasObject {
	picture := newCardMethod(in.desk, x)
	in.also(path, func(shot *app.Snapshot) {
		text, _ := shot.Show(path)
		showIf(picture, text == "")
	})
	return picture
}

// methodOf gives the drawing that shows how what is missing is found: by the path of
// its field; false where it is chosen and not measured.
func methodOf(field string) (drawing.Method, bool) {
	switch first, _, _ := strings.Cut(field, "/"); first {
	case "":
		return drawing.MethodMix, true
	case "sheets":
		return drawing.MethodSheet, true
	case "layers":
		return drawing.MethodLayer, !strings.HasSuffix(field, "/sheet")
	}
	return 0, false
}

// missingFrom is the path of what keeps a layer from being mixed; "" for no layer.
func missingFrom(p *model.Project, l *model.LayerPlan) string {
	if l == nil {
		return ""
	}
	return p.MixField(l)
}
