package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/views/look"
)

// Opens is a figure that can be touched to see how it came about: underlined,
// with a small equals sign in a box behind it, so that it is known without its
// colour. Space and Enter open it too.
type Opens struct {
	control
	OnOpen func(byKey bool) // told whether it was opened from the keyboard
	Align  fyne.TextAlign   // of the figure in the room it is given

	text    *Text
	hovered bool
}

var (
	_ fyne.Tappable     = (*Opens)(nil)
	_ fyne.Focusable    = (*Opens)(nil)
	_ desktop.Mouseable = (*Opens)(nil)
	_ desktop.Hoverable = (*Opens)(nil)
	_ pressable         = (*Opens)(nil)
	_ scrolled          = (*Opens)(nil)
)

// NewOpens makes a figure that can be opened.
func NewOpens(figure string, role Role, open func(byKey bool)) *Opens {
	o := &Opens{OnOpen: open, text: NewLine(figure, role, Ink)}
	o.extend(o)
	return o
}

// Text is the figure shown.
func (o *Opens) Text() string { return o.text.Text() }

// SetText shows another figure.
func (o *Opens) SetText(figure string) {
	if o.text.Text() != figure {
		o.text.SetText(figure)
		o.Refresh()
	}
}

// SetTone shows the figure in another colour.
func (o *Opens) SetTone(tone Tone) { o.text.SetTone(tone) }

// Focus gives the figure the focus, as the Tab key would.
func (o *Opens) Focus() { takeFocus(o) }

// Tapped takes the focus and opens the figure's working.
func (o *Opens) Tapped(*fyne.PointEvent) {
	pressed = press{}
	o.take()
	o.open(false)
}

// TypedKey opens it on Space and Enter.
func (o *Opens) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(o, ev)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		o.open(true)
	}
}

// MouseIn is used by the toolkit.
func (o *Opens) MouseIn(*desktop.MouseEvent) { o.set(&o.hovered, true) }

// MouseMoved is used by the toolkit.
func (o *Opens) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is used by the toolkit.
func (o *Opens) MouseOut() {
	o.letGo()
	o.set(&o.hovered, false)
}

func (o *Opens) open(byKey bool) {
	if o.OnOpen != nil {
		o.OnOpen(byKey)
	}
}

// CreateRenderer is used by the toolkit.
func (o *Opens) CreateRenderer() fyne.WidgetRenderer {
	r := &opensRenderer{
		opens: o,
		face:  canvas.NewRectangle(color.Transparent),
		under: canvas.NewRectangle(color.Transparent),
		box:   canvas.NewRectangle(color.Transparent),
		sign:  canvas.NewText("=", color.Transparent),
		ring:  newRing(),
	}
	r.face.CornerRadius, r.box.CornerRadius, r.box.StrokeWidth = corner, 3, 1.2
	r.sign.TextSize, r.sign.TextStyle = 12, fyne.TextStyle{Bold: true}
	r.style()
	return r
}

type opensRenderer struct {
	opens                  *Opens
	face, under, box, ring *canvas.Rectangle
	sign                   *canvas.Text
}

// The room in and around a figure that can be opened.
const (
	opensSide float32 = 6  // left and right
	opensGap  float32 = 7  // between the figure and its box
	opensBox  float32 = 15 // the box's side
)

func (r *opensRenderer) style() {
	o, p := r.opens, look.Current()
	r.face.FillColor = color.Transparent
	switch {
	case o.down:
		r.face.FillColor = p.Press
	case o.hovered:
		r.face.FillColor = blend(p.Panel, p.Press, 0.5)
	}
	r.under.FillColor, r.box.StrokeColor, r.sign.Color = p.Accent, p.Accent, p.AccentText
	showRing(r.ring, o.focused)
}

func (r *opensRenderer) Layout(size fyne.Size) {
	r.face.Resize(size)
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))
	text, height := r.opens.text.LineWidth(), r.opens.text.MinSize().Height
	x := opensSide
	switch r.opens.Align {
	case fyne.TextAlignTrailing:
		x = size.Width - r.wide() + opensSide
	case fyne.TextAlignCenter:
		x = (size.Width-r.wide())/2 + opensSide
	}
	y := (size.Height - height) / 2
	r.opens.text.Move(fyne.NewPos(x, y))
	r.opens.text.Resize(fyne.NewSize(text, height))
	r.under.Move(fyne.NewPos(x, y+height))
	r.under.Resize(fyne.NewSize(text, 2))
	at := fyne.NewPos(x+text+opensGap, y+(height-opensBox)/2)
	r.box.Move(at)
	r.box.Resize(fyne.NewSquareSize(opensBox))
	sign := r.sign.MinSize()
	r.sign.Move(at.AddXY((opensBox-sign.Width)/2, (opensBox-sign.Height)/2))
	r.sign.Resize(sign)
}

// wide is the room that figure and box take.
func (r *opensRenderer) wide() float32 {
	return r.opens.text.LineWidth() + opensGap + opensBox + 2*opensSide
}

func (r *opensRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.wide(), r.opens.text.MinSize().Height+6).Max(fyne.NewSquareSize(look.Target))
}

func (r *opensRenderer) Refresh() {
	r.style()
	r.Layout(r.opens.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *opensRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.face, r.under, r.opens.text, r.box, r.sign, r.ring}
}

func (r *opensRenderer) Destroy() {}
