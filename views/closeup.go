package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// closeUp sets objects below each other, each as wide as there is room. An
// object without height, such as a text that says nothing, has no gap of its
// own.
type closeUp struct{}

func (closeUp) MinSize(objects []fyne.CanvasObject) fyne.Size {
	var all fyne.Size
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		all.Width = max(all.Width, size.Width)
		if size.Height > 0 {
			if all.Height > 0 {
				all.Height += theme.Padding()
			}
			all.Height += size.Height
		}
	}
	return all
}

func (closeUp) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		high := o.MinSize().Height
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(size.Width, high))
		if high > 0 {
			y += high + theme.Padding()
		}
	}
}
