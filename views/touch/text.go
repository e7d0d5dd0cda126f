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

// The tones of text. The last three stand for something, and text in them has the
// sign of that before its first line.
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

	text   string
	width  float32 // that the lines are broken at
	lines  []*canvas.Text
	sign   *Sign // of its tone
	signed bool  // the sign stands beside the text, and is none of its own

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

// NewSigned makes wrapped text beside which the sign of its tone stands already.
func NewSigned(text string, role Role, tone Tone) *Text {
	t := &Text{Role: role, Tone: tone, text: text, signed: true}
	t.ExtendBaseWidget(t)
	t.breakLines()
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
		t.high.of, t.high.is = key, float32(len(wrap(t.text, t.beside(width), t.measure)))*t.lineHeight()
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
		t.wide.of, t.wide.is = key, widest+t.lead()
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
		parts = wrap(t.text, t.beside(t.width), t.measure)
	}
	if t.lead() > 0 {
		if t.sign == nil {
			t.sign = NewSign(t.Tone.level(), t.signSide())
		}
		t.sign.SetLevel(t.Tone.level())
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

// signGap is the room between a sign and its words.
const signGap float32 = 6

// mostSign is the largest that a sign is drawn, before a large figure.
const mostSign float32 = 28

// signSide is how large the sign of the tone is.
func (t *Text) signSide() float32 { return min(t.Role.size()*1.2, mostSign) }

// lead is the room that the sign takes before the lines.
func (t *Text) lead() float32 {
	if t.signed || t.text == "" || t.Tone.level() == Note {
		return 0
	}
	return t.signSide() + signGap
}

// beside is what of a width is left to the lines; 0 where there is no end to it.
func (t *Text) beside(width float32) float32 {
	if width <= 0 {
		return 0
	}
	return max(1, width-t.lead())
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

// level is what a tone stands for; Note where it stands for nothing.
func (t Tone) level() Level {
	switch t {
	case StopTone:
		return Stop
	case CheckTone:
		return Check
	case GoodTone:
		return Fine
	}
	return Note
}

type textRenderer struct{ text *Text }

func (r *textRenderer) Layout(size fyne.Size) {
	t := r.text
	if t.width != size.Width {
		t.width = size.Width
		t.breakLines()
	}
	lead, wide := t.lead(), float32(0)
	for i, line := range t.lines {
		line.Move(fyne.NewPos(lead, float32(i)*t.lineHeight()))
		line.Resize(fyne.NewSize(size.Width-lead, t.lineHeight()))
		wide = max(wide, t.measure(line.Text))
	}
	if lead == 0 {
		return
	}
	side, x := t.signSide(), float32(0)
	switch spare := size.Width - lead - wide; t.Align {
	case fyne.TextAlignTrailing:
		x = spare
	case fyne.TextAlignCenter:
		x = spare / 2
	}
	t.sign.Move(fyne.NewPos(max(0, x), (t.lineHeight()-side)/2))
	t.sign.Resize(fyne.NewSquareSize(side))
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
		t.word.of, t.word.is = key, widestWord(t.text, t.measure)+t.lead()
	}
	return fyne.NewSize(t.word.is, height)
}

func (r *textRenderer) Refresh() {
	r.Layout(r.text.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.text)
}

func (r *textRenderer) Objects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(r.text.lines), len(r.text.lines)+1)
	for i, line := range r.text.lines {
		objects[i] = line
	}
	if r.text.lead() > 0 {
		objects = append(objects, r.text.sign)
	}
	return objects
}

func (r *textRenderer) Destroy() {}
