package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/layout"
)

// asRead puts a head above and a foot below what takes the room between them;
// head and foot may be nil. The Tab key goes through them from top to bottom,
// where the toolkit's own border would begin in the middle.
func asRead(head, middle, foot fyne.CanvasObject) *fyne.Container {
	c := &fyne.Container{Layout: layout.NewBorderLayout(head, foot, nil, nil)}
	for _, o := range []fyne.CanvasObject{head, middle, foot} {
		if o != nil {
			c.Objects = append(c.Objects, o)
		}
	}
	return c // laid out by what it is put into, and not once for each part
}
