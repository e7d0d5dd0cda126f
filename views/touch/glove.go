package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Glove is a button for a wet glove: large, with its words as large as they fit
// in three lines, and in no colours whose contrast is below 7:1. It never takes
// the focus; what holds it marks the one that Space would touch.
type Glove struct {
	widget.BaseWidget
	OnTapped func()

	words   *Fit
	style   Style
	marked  bool
	pressed bool
}

var (
	_ fyne.Tappable     = (*Glove)(nil)
	_ fyne.Focusable    = (*Glove)(nil)
	_ fyne.Disableable  = (*Glove)(nil)
	_ desktop.Mouseable = (*Glove)(nil)
)

// NewGlove makes a button with words up to a size.
func NewGlove(label string, style Style, size float32, tapped func()) *Glove {
	g := &Glove{OnTapped: tapped, style: style, words: NewFit(size, look.Small, 3)}
	g.words.Align = fyne.TextAlignCenter
	g.words.SetText(label)
	g.ExtendBaseWidget(g)
	return g
}

// Label is the words on the button.
func (g *Glove) Label() string { return g.words.Text() }

// WordSize is the size at which the words are drawn.
func (g *Glove) WordSize() float32 { return g.words.TextSize() }

// Primary tells whether it is what is done next.
func (g *Glove) Primary() bool { return g.style == Primary }

// SetMarked marks the button as the one that Space would touch.
func (g *Glove) SetMarked(marked bool) {
	if g.marked != marked {
		g.marked = marked
		g.Refresh()
	}
}

// Marked tells whether Space would touch it.
func (g *Glove) Marked() bool { return g.marked }

// Tapped does what the button is for.
func (g *Glove) Tapped(*fyne.PointEvent) {
	if g.OnTapped != nil {
		g.OnTapped()
	}
}

// MouseDown shows that the finger rests on the button.
func (g *Glove) MouseDown(*desktop.MouseEvent) { g.press(true) }

// MouseUp shows that it rests there no more.
func (g *Glove) MouseUp(*desktop.MouseEvent) { g.press(false) }

func (g *Glove) press(down bool) {
	if g.pressed != down {
		g.pressed = down
		g.Refresh()
	}
}

// FocusGained, FocusLost, TypedRune, TypedKey, Enable, Disable and Disabled keep
// the focus where it is when the button is touched, and Tab away from it.
func (g *Glove) FocusGained() {}

// FocusLost is used by the toolkit.
func (g *Glove) FocusLost() {}

// TypedRune is used by the toolkit.
func (g *Glove) TypedRune(rune) {}

// TypedKey is used by the toolkit.
func (g *Glove) TypedKey(*fyne.KeyEvent) {}

// Enable is used by the toolkit.
func (g *Glove) Enable() {}

// Disable is used by the toolkit.
func (g *Glove) Disable() {}

// Disabled is used by the toolkit.
func (g *Glove) Disabled() bool { return true }

// CreateRenderer is used by the toolkit.
func (g *Glove) CreateRenderer() fyne.WidgetRenderer {
	r := &gloveRenderer{glove: g, face: canvas.NewRectangle(color.Transparent), ring: canvas.NewRectangle(color.Transparent)}
	r.face.CornerRadius, r.ring.CornerRadius = 10, 13
	r.paint()
	return r
}

type gloveRenderer struct {
	glove      *Glove
	face, ring *canvas.Rectangle
}

// paint sets the colours from the button's state.
func (r *gloveRenderer) paint() {
	g, p := r.glove, look.Current()
	r.face.FillColor, r.face.StrokeColor, r.face.StrokeWidth = p.Panel, p.Line, 2
	if g.style == Primary {
		r.face.FillColor, r.face.StrokeColor, r.face.StrokeWidth = p.Press, p.Accent, 5
	}
	if g.style == Danger {
		r.face.StrokeColor, r.face.StrokeWidth = p.Stop, 5
	}
	if g.pressed {
		r.face.FillColor, r.face.StrokeColor, r.face.StrokeWidth = p.Press, p.Ink, 5
	}
	r.ring.StrokeColor, r.ring.StrokeWidth, r.ring.Hidden = p.Ink, 4, !g.marked
}

func (r *gloveRenderer) Layout(size fyne.Size) {
	const side, out = 14, 6
	r.face.Resize(size)
	r.ring.Move(fyne.NewPos(-out, -out))
	r.ring.Resize(size.AddWidthHeight(2*out, 2*out))
	r.glove.words.Move(fyne.NewPos(side, 4))
	r.glove.words.Resize(size.SubtractWidthHeight(2*side, 8))
}

func (r *gloveRenderer) MinSize() fyne.Size { return fyne.NewSquareSize(look.Glove) }

func (r *gloveRenderer) Refresh() {
	r.paint()
	r.Layout(r.glove.Size())
	r.glove.words.Refresh()
	canvas.Refresh(r.glove)
}

func (r *gloveRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.face, r.glove.words, r.ring}
}

func (r *gloveRenderer) Destroy() {}
