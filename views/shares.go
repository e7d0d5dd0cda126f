package views

import "fyne.io/fyne/v2"

// shares lays the cells of a row out in shares of its width, each in the middle
// of the row's height.
type shares []float32

const shareGap float32 = 10

// MinSize is as high as the highest cell.
func (s shares) MinSize(cells []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for i, o := range cells {
		m := o.MinSize()
		least.Height = max(least.Height, m.Height)
		if s[i] > 0 {
			least.Width = max(least.Width, (m.Width+shareGap)/s[i])
		}
	}
	return least
}

// Layout gives each cell its share.
func (s shares) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, o := range cells {
		w := s[i] * size.Width
		o.Resize(fyne.NewSize(w-shareGap, o.Size().Height))
		h := o.MinSize().Height
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		o.Resize(fyne.NewSize(w-shareGap, h))
		x += w
	}
}
