package views

import (
	"fyne.io/fyne/v2"

	"meniscus/views/look"
)

// slabBarEdge is the room at the ends of a slab's bar.
const slabBarEdge = 14

// slabBar puts what is shown of a slab at the left of its bar and what a finger
// does at the right, or below where both have no room beside each other.
type slabBar struct{ view *slabView }

// MinSize is the room that the two parts need: beside each other they need no more than
// the wider, since they go below each other where that is all there is.
func (b *slabBar) MinSize(o []fyne.CanvasObject) fyne.Size {
	shown, tools := o[0].MinSize(), fyne.Size{}
	if o[1].Visible() {
		tools = o[1].MinSize()
	}
	size := shown.Max(tools)
	if b.below(shown, tools) {
		size.Height = shown.Height + look.Gap + tools.Height
	}
	return size
}

// below tells whether the two stand below each other, by the room that the view
// has, which is known before the bar's own.
func (b *slabBar) below(shown, tools fyne.Size) bool {
	if b.view.root == nil || tools.Width == 0 {
		return false
	}
	room := b.view.root.Size().Width - 2*slabBarEdge
	return room > 0 && shown.Width+look.Gap+tools.Width > room
}

// Layout lays them beside each other, or below.
func (b *slabBar) Layout(o []fyne.CanvasObject, size fyne.Size) {
	shown, tools := o[0].MinSize(), o[1].MinSize()
	at := fyne.NewPos(size.Width-tools.Width, 0)
	if b.below(shown, tools) {
		at = fyne.NewPos(0, shown.Height+look.Gap)
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(shown)
	o[1].Move(at)
	o[1].Resize(tools)
}
