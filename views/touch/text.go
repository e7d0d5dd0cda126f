package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Role is what a piece of text is for; it decides its size and weight.
type Role int

// The roles of text.
const (
	Body      Role = iota // running text
	Strong                // a name or a value within running text
	Small                 // help below an input
	Title                 // the name of a section
	Question              // the one question of a window
	Reading               // a number to be read at 1.5 m
	Countdown             // a number to be read across the shop
)

// Tone is the colour of a piece of text.
type Tone int

// The tones of text.
const (
	Ink Tone = iota
	Faint
	Touchable
	StopTone
	CheckTone
	GoodTone
)

// Text is words without padding. They wrap at the width given to them, unless
// Whole is set, which keeps them on one line.
type Text struct {
	widget.BaseWidget
	Role  Role
	Tone  Tone
	Align fyne.TextAlign
	Whole bool
	Lines int // for which room is kept, also while the words take fewer

	text  string
	width float32 // that the lines are broken at
	lines []*canvas.Text

	high, wide, word, line known // measures taken
}

var _ fyne.Widget = (*Text)(nil)

// NewText makes wrapped text.
func NewText(text string, role Role, tone Tone) *Text {
	t := &Text{Role: role, Tone: tone, text: text}
	t.ExtendBaseWidget(t)
	t.breakLines()
	return t
}

// NewLine makes text that stays on one line, for numbers and names.
func NewLine(text string, role Role, tone Tone) *Text {
	t := NewText(text, role, tone)
	t.Whole = true
	return t
}

// Text is the words shown.
func (t *Text) Text() string { return t.text }

// SetText shows other words.
func (t *Text) SetText(text string) {
	if t.text == text {
		return
	}
	t.text = text
	t.Refresh()
}

// SetTone shows the words in another colour.
func (t *Text) SetTone(tone Tone) {
	if t.Tone == tone {
		return
	}
	t.Tone = tone
	t.Refresh()
}

// Refresh breaks the lines anew and redraws them.
func (t *Text) Refresh() {
	t.high, t.wide, t.word, t.line = known{}, known{}, known{}, known{} // the type may have changed
	t.breakLines()
	t.BaseWidget.Refresh()
}

// HeightFor is the height that the words need at a width.
func (t *Text) HeightFor(width float32) float32 {
	if t.text == "" {
		return 0
	}
	if t.Whole {
		width = 0
	}
	if key := (measured{t.text, t.Role, width}); t.high.of != key {
		t.high.of, t.high.is = key, float32(len(wrap(t.text, width, t.measure)))*t.lineHeight()
	}
	return t.high.is
}

// LineWidth is the width of the words on one line.
func (t *Text) LineWidth() float32 {
	if key := (measured{t.text, t.Role, 0}); t.wide.of != key {
		var widest float32
		for _, line := range wrap(t.text, 0, t.measure) {
			widest = max(widest, t.measure(line))
		}
		t.wide.of, t.wide.is = key, widest
	}
	return t.wide.is
}

// measured is what a measure of the words hangs on.
type measured struct {
	text  string
	role  Role
	width float32
}

// known is a measure that was taken, so that laying out a window does not
// measure the same words at every frame.
type known struct {
	of measured
	is float32
}

// CreateRenderer is used by the toolkit.
func (t *Text) CreateRenderer() fyne.WidgetRenderer { return &textRenderer{text: t} }

// breakLines makes one canvas text for each line.
func (t *Text) breakLines() {
	var parts []string
	switch {
	case t.text == "":
	case t.Whole:
		parts = wrap(t.text, 0, t.measure)
	default:
		parts = wrap(t.text, t.width, t.measure)
	}
	for len(t.lines) < len(parts) {
		t.lines = append(t.lines, canvas.NewText("", color.Transparent))
	}
	t.lines = t.lines[:len(parts)]
	for i, part := range parts {
		line := t.lines[i]
		line.Text, line.Color, line.Alignment = part, t.Tone.in(look.Current()), t.Align
		line.TextSize, line.TextStyle = t.Role.size(), t.Role.style()
	}
}

func (t *Text) measure(s string) float32 {
	return look.Width(s, t.Role.size(), t.Role.style())
}

func (t *Text) lineHeight() float32 {
	if key := (measured{"Mg", t.Role, 0}); t.line.of != key {
		t.line.of, t.line.is = key, fyne.MeasureText("Mg", t.Role.size(), t.Role.style()).Height+2
	}
	return t.line.is
}

func (r Role) size() float32 {
	switch r {
	case Small:
		return look.Small
	case Title:
		return look.Title
	case Question:
		return look.Question
	case Reading:
		return look.Read
	case Countdown:
		return look.Count
	}
	return look.Body
}

func (r Role) style() fyne.TextStyle {
	return fyne.TextStyle{Bold: r != Body && r != Small}
}

// in is the colour of the tone in a palette.
func (t Tone) in(p look.Palette) color.NRGBA {
	switch t {
	case Faint:
		return p.Faint
	case Touchable:
		return p.AccentText
	case StopTone:
		return p.Stop
	case CheckTone:
		return p.Check
	case GoodTone:
		return p.Good
	}
	return p.Ink
}

type textRenderer struct{ text *Text }

func (r *textRenderer) Layout(size fyne.Size) {
	t := r.text
	if t.width != size.Width {
		t.width = size.Width
		t.breakLines()
	}
	for i, line := range t.lines {
		line.Move(fyne.NewPos(0, float32(i)*t.lineHeight()))
		line.Resize(fyne.NewSize(size.Width, t.lineHeight()))
	}
}

func (r *textRenderer) MinSize() fyne.Size {
	t := r.text
	if t.text == "" && t.Lines == 0 {
		return fyne.Size{}
	}
	height := float32(max(len(t.lines), t.Lines)) * t.lineHeight()
	if t.Whole {
		return fyne.NewSize(t.LineWidth(), height)
	}
	if key := (measured{t.text, t.Role, 0}); t.word.of != key {
		t.word.of, t.word.is = key, widestWord(t.text, t.measure)
	}
	return fyne.NewSize(t.word.is, height)
}

func (r *textRenderer) Refresh() {
	r.Layout(r.text.Size())
	for _, line := range r.text.lines {
		line.Refresh()
	}
	canvas.Refresh(r.text)
}

func (r *textRenderer) Objects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(r.text.lines))
	for i, line := range r.text.lines {
		objects[i] = line
	}
	return objects
}

func (r *textRenderer) Destroy() {}
