package touch

import "fyne.io/fyne/v2"

// Room gives a window's content the whole of the window, and lets it scroll down
// where the window is lower than the content needs.
type Room struct{ Scroll }

var _ fyne.Widget = (*Room)(nil)

// NewRoom makes the room around a window's content.
func NewRoom(content fyne.CanvasObject) *Room {
	r := &Room{}
	r.fill(content)
	r.body.bare = true
	r.ExtendBaseWidget(r)
	return r
}
