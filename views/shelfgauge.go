package views

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// newBottleGauge draws a bottle that is full up to a share of its height, or one
// of which nobody knows what is in it.
func newBottleGauge(level float64, unknown bool) fyne.CanvasObject {
	p := look.Current()
	body, neck, fill := canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewRectangle(p.Resin)
	for _, r := range []*canvas.Rectangle{body, neck} {
		r.StrokeColor, r.StrokeWidth = p.Line, 1.5
	}
	body.CornerRadius, neck.CornerRadius, fill.CornerRadius = 4, 2, 3
	drawn := container.New(bottleGauge(level), fill, body, neck)
	if !unknown {
		return drawn
	}
	ask := touch.NewLine("?", touch.Strong, touch.Faint)
	return container.NewStack(drawn, container.New(layout.NewCustomPaddedLayout(8, 0, 0, 0), container.NewCenter(ask)))
}

// bottleGauge lays out what a bottle is drawn of: its fill, its body, its neck.
type bottleGauge float64

func (bottleGauge) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(26, 46) }

func (g bottleGauge) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const neckWide, neckTall, rim = 10, 8, 2
	tall := size.Height - neckTall
	o[1].Move(fyne.NewPos(0, neckTall))
	o[1].Resize(fyne.NewSize(size.Width, tall))
	o[2].Move(fyne.NewPos((size.Width-neckWide)/2, 0))
	o[2].Resize(fyne.NewSize(neckWide, neckTall+1))
	h := (tall - 2*rim) * float32(min(max(float64(g), 0), 1))
	if h < 1 {
		h = 0 // empty
	}
	o[0].Move(fyne.NewPos(rim, size.Height-rim-h))
	o[0].Resize(fyne.NewSize(size.Width-2*rim, h))
}
