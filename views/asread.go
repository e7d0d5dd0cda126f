package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/layout"
)

// asRead puts a head above and a foot below what takes the room between them;
// head and foot may be nil. The Tab key goes through them from top to bottom,
// where the toolkit's own border would begin in the middle.
func asRead(head, middle, foot fyne.CanvasObject) *fyne.Container {
	c := &fyne.Container{Layout: &readLayout{border: layout.NewBorderLayout(head, foot, nil, nil), head: head, foot: foot}}
	for _, o := range []fyne.CanvasObject{head, middle, foot} {
		if o != nil {
			c.Objects = append(c.Objects, o)
		}
	}
	return c // laid out by what it is put into, and not once for each part
}

// readLayout is a border that sees for itself when its head or foot has become
// higher or lower. The toolkit notes only the last container of a frame that has
// to be laid out anew: where something in the middle changes too, it forgets the
// one whose head has, and the head would lie over the middle for good.
type readLayout struct {
	border     fyne.Layout
	head, foot fyne.CanvasObject
	size       fyne.Size
	high       [2]float32 // head and foot, as they were laid out
}

// Layout is used by the toolkit.
func (l *readLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	l.size, l.high = size, l.heights()
	l.border.Layout(objects, size)
}

// MinSize is used by the toolkit, which asks for it before each frame.
func (l *readLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	if !l.size.IsZero() && l.high != l.heights() {
		l.border.Layout(objects, l.size)
		l.high = l.heights()
	}
	return l.border.MinSize(objects)
}

func (l *readLayout) heights() (high [2]float32) {
	for i, o := range [2]fyne.CanvasObject{l.head, l.foot} {
		if o != nil && o.Visible() {
			high[i] = o.MinSize().Height
		}
	}
	return high
}
