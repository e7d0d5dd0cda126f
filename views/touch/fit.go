package touch

import (
	"image/color"
	"sort"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Fit is words as large as their room allows, up to a size and in so many lines
// at most. It asks for no room of its own.
type Fit struct {
	widget.BaseWidget
	Most  float32 // the largest size
	Least float32 // the smallest, at which the words may be cut off below
	Lines int     // 0 counts as 1
	Bold  bool
	Align fyne.TextAlign
	Top   bool // the lines stand at the top of the room, not in its middle

	text  string
	as    string // what the size is chosen for; "" for the words themselves
	ink   color.Color
	lines []*canvas.Text
	size  fyne.Size // that the lines are broken for
	cut   bool      // they are more or larger than their room
}

// NewFit makes bold words in ink.
func NewFit(most, least float32, lines int) *Fit {
	f := &Fit{Most: most, Least: least, Lines: lines, Bold: true}
	f.ExtendBaseWidget(f)
	return f
}

// Text is the words shown.
func (f *Fit) Text() string { return f.text }

// TextSize is the size at which they are drawn.
func (f *Fit) TextSize() float32 {
	if len(f.lines) == 0 {
		return 0
	}
	return f.lines[0].TextSize
}

// Cut tells whether the words are more than fit at the smallest size.
func (f *Fit) Cut() bool { return f.cut }

// HeightIn is how high the words are in a room, at the size that they have there.
func (f *Fit) HeightIn(room fyne.Size) float32 {
	f.fit(room)
	high := float32(len(f.lines)) * lineOf(f.TextSize(), fyne.TextStyle{Bold: f.Bold})
	f.fit(f.Size()) // the lines stay where they are until it is resized
	return high
}

// SetText shows other words.
func (f *Fit) SetText(text string) { f.SetLike(text, "") }

// SetLike shows words as large as others would be, so that digits that change
// change no sizes.
func (f *Fit) SetLike(text, as string) {
	if f.text != text || f.as != as {
		f.text, f.as = text, as
		f.Refresh()
	}
}

// SetInk draws the words in a colour; nil is the ink of the light.
func (f *Fit) SetInk(c color.Color) {
	if f.ink != c {
		f.ink = c
		f.Refresh()
	}
}

// Refresh breaks the lines anew and redraws them.
func (f *Fit) Refresh() {
	f.fit(f.Size())
	f.BaseWidget.Refresh()
}

// CreateRenderer is used by the toolkit.
func (f *Fit) CreateRenderer() fyne.WidgetRenderer { return &fitRenderer{f} }

// fit chooses the size and breaks the lines for a room.
func (f *Fit) fit(room fyne.Size) {
	f.size = room
	style := fyne.TextStyle{Bold: f.Bold}
	as := f.as
	if as == "" {
		as = f.text
	}
	most := max(f.Lines, 1)
	var parts []string
	fits := func(size float32) bool {
		measure := func(s string) float32 { return fyne.MeasureText(s, size, style).Width }
		parts = wrap(as, room.Width, measure)
		high := float32(len(parts)) * lineOf(size, style)
		return len(parts) <= most && widestWord(as, measure) <= room.Width && high <= room.Height
	}
	sizes := f.sizes()
	// What fits at a size fits at all below it.
	n := sort.Search(len(sizes)-1, func(i int) bool { return fits(sizes[i]) })
	size := sizes[n]
	f.cut = !fits(size)
	if f.as != "" {
		parts = []string{f.text}
	}
	if f.text == "" {
		parts = nil
	}
	if len(parts) > most {
		parts = parts[:most]
	}
	ink := f.ink
	if ink == nil {
		ink = look.Current().Ink
	}
	for len(f.lines) < len(parts) {
		f.lines = append(f.lines, canvas.NewText("", color.Transparent))
	}
	f.lines = f.lines[:len(parts)]
	high := lineOf(size, style)
	y := (room.Height - high*float32(len(parts))) / 2
	if f.Top {
		y = 0
	}
	for i, part := range parts {
		line := f.lines[i]
		line.Text, line.Color, line.TextSize, line.TextStyle, line.Alignment = part, ink, size, style, f.Align
		line.Move(fyne.NewPos(0, y+float32(i)*high))
		line.Resize(fyne.NewSize(room.Width, high))
	}
}

// sizes are those that the words can have, the largest first.
func (f *Fit) sizes() []float32 {
	list := []float32{f.Most}
	for size := f.Most; size > f.Least; {
		size = max(size*0.96, f.Least)
		list = append(list, size)
	}
	return list
}

// lineOf is the height of a line at a size.
func lineOf(size float32, style fyne.TextStyle) float32 {
	return fyne.MeasureText("Mg", size, style).Height
}

type fitRenderer struct{ fit *Fit }

func (r *fitRenderer) Layout(size fyne.Size) {
	if r.fit.size != size {
		r.fit.fit(size)
	}
}

func (r *fitRenderer) MinSize() fyne.Size { return fyne.Size{} }

func (r *fitRenderer) Refresh() {
	r.fit.fit(r.fit.Size())
	for _, line := range r.fit.lines {
		line.Refresh()
	}
	canvas.Refresh(r.fit)
}

func (r *fitRenderer) Objects() []fyne.CanvasObject {
	objects := make([]fyne.CanvasObject, len(r.fit.lines))
	for i, line := range r.fit.lines {
		objects[i] = line
	}
	return objects
}

func (r *fitRenderer) Destroy() {}
