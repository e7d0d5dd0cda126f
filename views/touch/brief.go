package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Brief is words on one line that end in … where there is no room for all of
// them, so that a long name never widens what it stands in.
type Brief struct {
	widget.BaseWidget
	role Role
	tone Tone
	text string
	line *canvas.Text
}

var _ fyne.Widget = (*Brief)(nil)

// NewBrief makes a line of words.
func NewBrief(text string, role Role, tone Tone) *Brief {
	b := &Brief{role: role, tone: tone, text: text, line: canvas.NewText("", color.Transparent)}
	b.line.TextSize, b.line.TextStyle = role.size(), role.style()
	b.ExtendBaseWidget(b)
	return b
}

// Text is the whole of the words.
func (b *Brief) Text() string { return b.text }

// SetText shows other words. A line without words takes no room.
func (b *Brief) SetText(text string) {
	if b.text != text {
		b.text = text
		b.Refresh()
	}
}

// SetTone shows the words in another colour.
func (b *Brief) SetTone(tone Tone) {
	if b.tone != tone {
		b.tone = tone
		b.Refresh()
	}
}

// CreateRenderer is used by the toolkit.
func (b *Brief) CreateRenderer() fyne.WidgetRenderer { return &briefRenderer{brief: b} }

// shorten cuts text at the end until it has room in width, with … for what
// was cut.
func shorten(text string, width float32, measure func(string) float32) string {
	if measure(text) <= width {
		return text
	}
	runes := []rune(text)
	low, high := 0, len(runes) // so many runes have room, and have none
	for low+1 < high {
		if n := (low + high) / 2; measure(string(runes[:n])+"…") <= width {
			low = n
		} else {
			high = n
		}
	}
	return string(runes[:low]) + "…"
}

type briefRenderer struct{ brief *Brief }

func (r *briefRenderer) Layout(size fyne.Size) {
	b := r.brief
	b.line.Text = shorten(b.text, size.Width, func(s string) float32 {
		return look.Width(s, b.line.TextSize, b.line.TextStyle)
	})
	b.line.Color = b.tone.in(look.Current())
	b.line.Resize(size)
}

func (r *briefRenderer) MinSize() fyne.Size {
	b := r.brief
	if b.text == "" {
		return fyne.Size{}
	}
	return fyne.NewSize(look.Target, fyne.MeasureText("Mg", b.line.TextSize, b.line.TextStyle).Height+2)
}

func (r *briefRenderer) Refresh() {
	r.Layout(r.brief.Size())
	r.brief.line.Refresh()
	canvas.Refresh(r.brief)
}

func (r *briefRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.brief.line} }

func (r *briefRenderer) Destroy() {}
