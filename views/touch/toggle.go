package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/views/look"
)

// Toggle is something that is so or not so. The whole row can be tapped.
type Toggle struct {
	control
	OnChange func(on bool)

	label *Text
	on    bool
}

var (
	_ fyne.Tappable     = (*Toggle)(nil)
	_ fyne.Focusable    = (*Toggle)(nil)
	_ desktop.Mouseable = (*Toggle)(nil)
	_ pressable         = (*Toggle)(nil)
	_ scrolled          = (*Toggle)(nil)
)

// NewToggle makes a toggle.
func NewToggle(label string, on bool, change func(on bool)) *Toggle {
	t := &Toggle{label: NewText(label, Body, Ink), on: on, OnChange: change}
	t.extend(t)
	return t
}

// On tells whether it is so.
func (t *Toggle) On() bool { return t.on }

// SetOn shows it as so or not so, without telling of it.
func (t *Toggle) SetOn(on bool) {
	if t.on != on {
		t.on = on
		t.Refresh()
	}
}

// SetLabel shows other words.
func (t *Toggle) SetLabel(label string) { t.label.SetText(label) }

// Tapped turns it over.
func (t *Toggle) Tapped(*fyne.PointEvent) {
	pressed = press{}
	t.take()
	t.turn()
}

// TypedKey turns it over on Space and Enter.
func (t *Toggle) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(t, ev)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !t.held {
			t.turn()
		}
	}
}

func (t *Toggle) turn() {
	t.on = !t.on
	t.Refresh()
	if t.OnChange != nil {
		t.OnChange(t.on)
	}
}

// CreateRenderer is used by the toolkit.
func (t *Toggle) CreateRenderer() fyne.WidgetRenderer {
	r := &toggleRenderer{
		toggle: t,
		box:    canvas.NewRectangle(color.Transparent),
		down:   canvas.NewLine(color.Transparent),
		up:     canvas.NewLine(color.Transparent),
		ring:   newRing(),
	}
	r.box.CornerRadius, r.box.StrokeWidth = 4, 2
	r.down.StrokeWidth, r.up.StrokeWidth = 3.5, 3.5
	r.style()
	return r
}

// boxSide is the side of a toggle's box.
const boxSide float32 = 26

type toggleRenderer struct {
	toggle   *Toggle
	box      *canvas.Rectangle
	down, up *canvas.Line // the two strokes of the tick
	ring     *canvas.Rectangle
}

func (r *toggleRenderer) style() {
	p := look.Current()
	r.box.StrokeColor, r.box.FillColor = p.Accent, p.Panel
	if r.toggle.on {
		r.box.FillColor = p.Accent
	}
	r.down.StrokeColor, r.up.StrokeColor = p.AccentInk, p.AccentInk
	r.down.Hidden, r.up.Hidden = !r.toggle.on, !r.toggle.on
	showRing(r.ring, r.toggle.focused)
}

func (r *toggleRenderer) Layout(size fyne.Size) {
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))
	const inset = 4
	y := (size.Height - boxSide) / 2
	r.box.Move(fyne.NewPos(inset, y))
	r.box.Resize(fyne.NewSquareSize(boxSide))
	at := fyne.NewPos(inset, y)
	r.down.Position1, r.down.Position2 = at.AddXY(6, 13), at.AddXY(11, 19)
	r.up.Position1, r.up.Position2 = at.AddXY(11, 19), at.AddXY(20, 7)
	x := boxSide + inset + look.Gap + 2
	height := r.toggle.label.HeightFor(size.Width - x)
	r.toggle.label.Move(fyne.NewPos(x, (size.Height-height)/2))
	r.toggle.label.Resize(fyne.NewSize(size.Width-x, height))
}

func (r *toggleRenderer) MinSize() fyne.Size {
	label := r.toggle.label.MinSize()
	return fyne.NewSize(boxSide+4+look.Gap+2+label.Width, max(look.Target, label.Height))
}

func (r *toggleRenderer) Refresh() {
	r.style()
	r.Layout(r.toggle.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *toggleRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.down, r.up, r.toggle.label, r.ring}
}

func (r *toggleRenderer) Destroy() {}
