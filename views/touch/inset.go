package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/views/look"
)

// insetLayout centres one object upright and keeps room at its right.
type insetLayout struct{}

// newInset wraps a text so that it stands well at the right end of an entry.
func newInset(o fyne.CanvasObject) *fyne.Container { return container.New(insetLayout{}, o) }

func (insetLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	for _, o := range objects {
		least := o.MinSize()
		o.Move(fyne.NewPos(0, (size.Height-least.Height)/2))
		o.Resize(fyne.NewSize(size.Width-look.Gap, least.Height))
	}
}

func (insetLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for _, o := range objects {
		if o.Visible() {
			least = least.Max(o.MinSize())
		}
	}
	if least.Width == 0 {
		return least
	}
	return least.AddWidthHeight(look.Gap, 0)
}
