package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// veil lies over an entry and takes its drags and the wheel. The toolkit's window hands a drag
// to the inside of its own entry, past what this package makes of it; taps and
// keys go through the veil.
type veil struct {
	widget.BaseWidget
	entry *entry
}

var (
	_ fyne.Draggable  = (*veil)(nil)
	_ fyne.Scrollable = (*veil)(nil)
)

func newVeil(e *entry) *veil {
	v := &veil{entry: e}
	v.ExtendBaseWidget(v)
	return v
}

// CreateRenderer is used by the toolkit; there is nothing to see.
func (v *veil) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

// Dragged is used by the toolkit.
func (v *veil) Dragged(ev *fyne.DragEvent) { v.entry.Dragged(ev) }

// DragEnd is used by the toolkit. A drag that never left the slop was a tap;
// the entry has not been told of the end of the press.
func (v *veil) DragEnd() {
	if e := v.entry; e.drag == dragUnknown && e.down != nil {
		e.MouseUp(e.down)
	}
	v.entry.DragEnd()
}

// Scrolled is used by the toolkit: the wheel scrolls what the entry stands in,
// and not the inside of the entry.
func (v *veil) Scrolled(ev *fyne.ScrollEvent) {
	if s := v.entry.scroll; s != nil {
		s.SetOffset(s.Offset() - ev.Scrolled.DY)
	}
}
