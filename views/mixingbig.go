package views

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// bigNumber is one line of bold text as large as its room allows, to be read at
// arm's length and beyond.
type bigNumber struct {
	widget.BaseWidget
	text   *canvas.Text
	least  float32 // size that it never goes below
	most   float32
	beside *bigNumber // one of the same size, or nil
}

func newBigNumber(least, most float32) *bigNumber {
	b := &bigNumber{text: canvas.NewText("", color.Transparent), least: least, most: most}
	b.text.TextStyle.Bold = true
	b.ExtendBaseWidget(b)
	return b
}

// set shows another number.
func (b *bigNumber) set(text string) {
	if b.text.Text != text {
		b.text.Text = text
		b.Refresh()
	}
}

// CreateRenderer is used by the toolkit.
func (b *bigNumber) CreateRenderer() fyne.WidgetRenderer { return &bigRenderer{big: b} }

// sizeFor is the largest size at which the text, and the one beside it, is no
// wider than width.
func (b *bigNumber) sizeFor(width float32) float32 {
	const unit = 100
	wide := look.Width(b.text.Text, unit, b.text.TextStyle)
	if b.beside != nil {
		wide = max(wide, look.Width(b.beside.text.Text, unit, b.text.TextStyle))
	}
	if wide <= 0 {
		return b.most
	}
	return max(b.least, min(b.most, unit*width/wide))
}

type bigRenderer struct {
	big   *bigNumber
	width float32 // at the last layout
}

func (r *bigRenderer) Layout(size fyne.Size) {
	b := r.big
	r.width = size.Width
	b.text.TextSize = b.sizeFor(size.Width)
	b.text.Color = look.Current().Ink
	least := b.text.MinSize()
	b.text.Move(fyne.NewPos(0, (size.Height-least.Height)/2))
	b.text.Resize(least)
}

func (r *bigRenderer) MinSize() fyne.Size {
	b := r.big
	const tight = 0.82 // of the line height, which leaves room for accents that no number has
	return fyne.NewSize(look.Width(b.text.Text, b.least, b.text.TextStyle), fyne.MeasureText("0", b.sizeFor(r.width), b.text.TextStyle).Height*tight)
}

func (r *bigRenderer) Refresh() {
	r.Layout(r.big.Size())
	r.big.text.Refresh()
}

func (r *bigRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.big.text} }

func (r *bigRenderer) Destroy() {}
