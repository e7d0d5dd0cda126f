package views

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/views/look"
)

// asMany lays things out in equal columns, as many as have room beside each other
// and so many at most; what has nothing to show takes no room.
type asMany struct {
	most  int
	width float32 // at the last layout; 0 before it
}

// sideBySideUpTo puts things into rows of so many, of fewer where the room is narrow.
func sideBySideUpTo(most int, objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&asMany{most: most}, objects...)
}

// MinSize is as wide as the widest of them.
func (l *asMany) MinSize(o []fyne.CanvasObject) fyne.Size {
	shown := visible(o)
	var height float32
	for row := range slices.Chunk(shown, l.columns(shown, l.width)) {
		height += tallest(row) + look.Gap
	}
	return fyne.NewSize(widest(shown), max(0, height-look.Gap))
}

// Layout fills the rows one after the other.
func (l *asMany) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	shown := visible(o)
	n := l.columns(shown, size.Width)
	each, y := (size.Width-float32(n-1)*look.Gap)/float32(n), float32(0)
	for row := range slices.Chunk(shown, n) {
		for _, x := range row {
			x.Resize(fyne.NewSize(each, x.Size().Height)) // words tell their height by their width
		}
		high := tallest(row)
		for i, x := range row {
			x.Move(fyne.NewPos(float32(i)*(each+look.Gap), y))
			x.Resize(fyne.NewSize(each, high))
		}
		y += high + look.Gap
	}
}

// columns is how many have room beside each other.
func (l *asMany) columns(shown []fyne.CanvasObject, width float32) int {
	n, each := l.most, widest(shown)
	for n > 1 && width > 0 && float32(n)*each+float32(n-1)*look.Gap > width+0.5 {
		n--
	}
	return n
}

func visible(o []fyne.CanvasObject) []fyne.CanvasObject {
	return slices.DeleteFunc(slices.Clone(o), func(x fyne.CanvasObject) bool { return !x.Visible() })
}

func widest(o []fyne.CanvasObject) (width float32) {
	for _, x := range o {
		width = max(width, x.MinSize().Width)
	}
	return width
}

func tallest(o []fyne.CanvasObject) (height float32) {
	for _, x := range o {
		height = max(height, x.MinSize().Height)
	}
	return height
}

// orBelow puts a second thing beside the first, with the room that is left, or below
// it where that is less than it needs.
type orBelow struct{ width float32 }

// MinSize is as wide as the wider of the two.
func (l *orBelow) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	least := fyne.NewSize(max(a.Width, b.Width), max(a.Height, b.Height))
	if l.below(o, l.width) {
		least.Height = a.Height + look.Gap + b.Height
	}
	return least
}

// Layout puts the second beside the first, or below.
func (l *orBelow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	a, b := o[0].MinSize(), o[1].MinSize()
	if l.below(o, size.Width) {
		o[0].Resize(fyne.NewSize(size.Width, a.Height))
		o[1].Move(fyne.NewPos(0, a.Height+look.Gap))
		o[1].Resize(fyne.NewSize(size.Width, b.Height))
		return
	}
	o[0].Resize(fyne.NewSize(a.Width, size.Height))
	o[1].Move(fyne.NewPos(a.Width+look.Gap, 0))
	o[1].Resize(fyne.NewSize(size.Width-a.Width-look.Gap, size.Height))
}

func (l *orBelow) below(o []fyne.CanvasObject, width float32) bool {
	return width > 0 && o[0].MinSize().Width+look.Gap+o[1].MinSize().Width > width+0.5
}
