package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"

	"meniscus/views/look"
)

// Row is a content that is tapped as a whole, such as an entry of a list or a
// large button with several lines. Space and Enter tap it too. The chosen one
// of a list stands out by its ground, its frame and a bar at the left.
type Row struct {
	control
	OnTap  func()
	OnMove func(dir int) // Up (-1) and Down (+1), to walk a list

	all     *fyne.Container
	chosen  bool
	hovered bool
}

var (
	_ fyne.Tappable     = (*Row)(nil)
	_ fyne.Focusable    = (*Row)(nil)
	_ desktop.Mouseable = (*Row)(nil)
	_ desktop.Hoverable = (*Row)(nil)
	_ pressable         = (*Row)(nil)
	_ scrolled          = (*Row)(nil)
)

// NewRow makes a row of a content that takes no taps itself.
func NewRow(content fyne.CanvasObject, tap func()) *Row {
	r := &Row{OnTap: tap, all: container.New(layout.NewCustomPaddedLayout(8, 8, 14, 10), content)}
	r.extend(r)
	return r
}

// Chosen tells whether the row stands out as the chosen one.
func (r *Row) Chosen() bool { return r.chosen }

// SetChosen lets the row stand out as the chosen one, or not.
func (r *Row) SetChosen(chosen bool) { r.set(&r.chosen, chosen) }

// Focus gives the row the focus, as the Tab key would.
func (r *Row) Focus() { takeFocus(r) }

// Tapped takes the focus and does what the row is for.
func (r *Row) Tapped(*fyne.PointEvent) {
	pressed = press{}
	r.take()
	r.act()
}

// TypedKey taps on Space and Enter, and moves on Up and Down.
func (r *Row) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(r, ev)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !r.held {
			r.act()
		}
	case fyne.KeyUp, fyne.KeyDown:
		if r.OnMove != nil {
			r.OnMove(map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1}[ev.Name])
		}
	}
}

// MouseIn is used by the toolkit.
func (r *Row) MouseIn(*desktop.MouseEvent) { r.set(&r.hovered, true) }

// MouseMoved is used by the toolkit.
func (r *Row) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is used by the toolkit.
func (r *Row) MouseOut() {
	r.letGo()
	r.set(&r.hovered, false)
}

func (r *Row) act() {
	if r.OnTap != nil {
		r.OnTap()
	}
}

// CreateRenderer is used by the toolkit.
func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	n := &rowRenderer{row: r, face: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), ring: newRing()}
	n.face.CornerRadius = corner
	n.style()
	return n
}

type rowRenderer struct {
	row             *Row
	face, bar, ring *canvas.Rectangle
}

func (n *rowRenderer) style() {
	r, p := n.row, look.Current()
	n.face.FillColor, n.face.StrokeColor, n.face.StrokeWidth = p.Panel, p.Hair, 1
	switch {
	case r.down:
		n.face.FillColor = p.Press
	case r.hovered:
		n.face.FillColor = blend(p.Panel, p.Press, 0.5)
	}
	if r.chosen {
		n.face.StrokeColor, n.face.StrokeWidth = p.Accent, 2
	}
	n.bar.FillColor, n.bar.Hidden = p.Accent, !r.chosen
	showRing(n.ring, r.focused)
}

func (n *rowRenderer) Layout(size fyne.Size) {
	n.face.Resize(size)
	n.bar.Resize(fyne.NewSize(6, size.Height))
	n.ring.Move(fyne.NewPos(-2, -2))
	n.ring.Resize(size.AddWidthHeight(4, 4))
	n.row.all.Resize(size)
}

func (n *rowRenderer) MinSize() fyne.Size {
	return n.row.all.MinSize().Max(fyne.NewSquareSize(look.Target))
}

func (n *rowRenderer) Refresh() {
	n.style()
	n.Layout(n.row.Size())
	for _, o := range n.Objects() {
		o.Refresh()
	}
}

func (n *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{n.face, n.bar, n.row.all, n.ring}
}

func (n *rowRenderer) Destroy() {}
