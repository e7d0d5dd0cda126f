package views

import (
	"fyne.io/fyne/v2"
)

// belowSection gives the section the room that what stands below it leaves: the
// table takes what it needs, the heat's course about half.
type belowSection struct{ page *layersPage }

// leastSection is the height in which what is written at the section stands apart.
const leastSection = 220

// MinSize is that of the section and of what stands below it now.
func (b *belowSection) MinSize(objects []fyne.CanvasObject) fyne.Size {
	least := objects[0].MinSize().Max(fyne.NewSize(0, leastSection))
	for _, o := range objects[1:] {
		if o.Visible() {
			m := o.MinSize()
			least = fyne.NewSize(max(least.Width, m.Width), least.Height+m.Height)
		}
	}
	return least
}

// Layout sets them below each other.
func (b *belowSection) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	const part = 0.56 // of the room, that the heat's course takes
	below := float32(0)
	for _, o := range objects[1:] {
		if !o.Visible() {
			continue
		}
		h := o.MinSize().Height
		if o == fyne.CanvasObject(b.page.heat.root) {
			h = max(h, min(size.Height*part, size.Height-leastSection))
		}
		o.Move(fyne.NewPos(0, size.Height-h))
		o.Resize(fyne.NewSize(size.Width, h))
		below += h
	}
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(size.Width, size.Height-below))
}
