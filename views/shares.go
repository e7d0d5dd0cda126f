package views

import "fyne.io/fyne/v2"

// shares lays the cells of a row out in shares of its width, each in the middle
// of the row's height. A cell that its share is too narrow for gets what it needs,
// out of what the others have to spare.
type shares []float32

const shareGap float32 = 10

// MinSize is as high as the highest cell.
func (s shares) MinSize(cells []fyne.CanvasObject) fyne.Size {
	var least fyne.Size
	for _, o := range cells {
		m := o.MinSize()
		least.Height = max(least.Height, m.Height)
		least.Width += m.Width + shareGap
	}
	return least
}

// Layout gives each cell its share.
func (s shares) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	x, widths := float32(0), s.widths(cells, size.Width)
	for i, o := range cells {
		w := widths[i]
		o.Resize(fyne.NewSize(w-shareGap, o.Size().Height))
		h := o.MinSize().Height
		o.Move(fyne.NewPos(x, (size.Height-h)/2))
		o.Resize(fyne.NewSize(w-shareGap, h))
		x += w
	}
}

// widths gives each cell its share, or what it needs where that is more.
func (s shares) widths(cells []fyne.CanvasObject, width float32) []float32 {
	list := make([]float32, len(cells))
	var lack, spare float32
	for i, o := range cells {
		list[i] = s[i] * width
		if over := o.MinSize().Width + shareGap - list[i]; over > 0 {
			lack += over
		} else {
			spare -= over
		}
	}
	if lack == 0 || spare <= 0 {
		return list
	}
	part := min(1, lack/spare)
	for i, o := range cells {
		if over := o.MinSize().Width + shareGap - list[i]; over > 0 {
			list[i] += over
		} else {
			list[i] += part * over
		}
	}
	return list
}
