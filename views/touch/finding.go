package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"meniscus/views/look"
)

// FindingRow is one thing that the plan noticed: its level in a shape and a
// word, what it is, why, and what to do. What it is and why share a line where both
// have room in it. Tapping it leads to its input.
type FindingRow struct {
	control
	OnTap func()

	level         Level
	sign          *Sign
	what, why, do *Text
}

var (
	_ fyne.Tappable     = (*FindingRow)(nil)
	_ fyne.Focusable    = (*FindingRow)(nil)
	_ desktop.Mouseable = (*FindingRow)(nil)
	_ pressable         = (*FindingRow)(nil)
	_ scrolled          = (*FindingRow)(nil)
)

// NewFindingRow makes a row; why and do may be empty.
func NewFindingRow(level Level, what, why, do string, tap func()) *FindingRow {
	f := &FindingRow{
		OnTap: tap,
		level: level,
		sign:  NewSign(level, 30),
		what:  NewSigned("", Strong, level.tone()),
		why:   NewText("", Body, Ink),
		do:    NewText("", Body, Ink),
	}
	f.extend(f)
	f.Set(level, what, why, do)
	return f
}

// Set shows another finding in the row.
func (f *FindingRow) Set(level Level, what, why, do string) {
	f.level = level
	f.sign.SetLevel(level)
	f.what.Tone = level.tone()
	f.what.SetText(level.Word() + ": " + what)
	f.why.SetText(why)
	if do != "" {
		do = "→ " + do
	}
	f.do.SetText(do)
	f.Refresh()
}

// Tapped leads to the finding's input.
func (f *FindingRow) Tapped(*fyne.PointEvent) {
	pressed = press{}
	f.take()
	if f.OnTap != nil {
		f.OnTap()
	}
}

// TypedKey leads to the input on Space and Enter.
func (f *FindingRow) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		unheard(f, ev)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if f.OnTap != nil {
			f.OnTap()
		}
	}
}

// CreateRenderer is used by the toolkit.
func (f *FindingRow) CreateRenderer() fyne.WidgetRenderer {
	r := &findingRenderer{row: f, face: canvas.NewRectangle(color.Transparent), edge: canvas.NewRectangle(color.Transparent), ring: newRing()}
	r.face.CornerRadius = corner
	r.style()
	return r
}

type findingRenderer struct {
	row   *FindingRow
	face  *canvas.Rectangle
	edge  *canvas.Rectangle // the level's colour at the left
	ring  *canvas.Rectangle
	width float32
}

func (r *findingRenderer) style() {
	p := look.Current()
	r.face.FillColor = p.Panel
	if r.row.down {
		r.face.FillColor = p.Press
	}
	r.face.StrokeColor, r.face.StrokeWidth = p.Hair, 1
	r.edge.FillColor = r.row.level.tone().in(p)
	showRing(r.ring, r.row.focused)
}

// place moves everything where it goes at a width, if move is set, and gives
// the height of all.
func (r *findingRenderer) place(width float32, move bool) float32 {
	f, pad := r.row, float32(10)
	x := pad + 5 + f.sign.side + pad
	y, room := pad, width-x-pad
	put := func(words *Text, x, y, width float32) float32 {
		h := words.HeightFor(width)
		if move {
			words.Move(fyne.NewPos(x, y))
			words.Resize(fyne.NewSize(width, h))
		}
		return h
	}
	rest := []*Text{f.what, f.why, f.do}
	if head := f.what.LineWidth() + 2*look.Gap; f.why.text != "" && head+f.why.LineWidth() <= room {
		h := put(f.what, x, y, head)
		put(f.why, x+head, y+h-f.why.HeightFor(room-head), room-head)
		y, rest = y+h, rest[2:]
	}
	for _, words := range rest {
		y += put(words, x, y, room)
	}
	return max(look.Bench, y+pad)
}

func (r *findingRenderer) Layout(size fyne.Size) {
	r.width = size.Width
	r.place(size.Width, true)
	r.face.Resize(size)
	r.edge.Resize(fyne.NewSize(5, size.Height))
	r.ring.Move(fyne.NewPos(-2, -2))
	r.ring.Resize(size.AddWidthHeight(4, 4))
	side := r.row.sign.side
	r.row.sign.Move(fyne.NewPos(15, 10))
	r.row.sign.Resize(fyne.NewSquareSize(side))
}

func (r *findingRenderer) MinSize() fyne.Size {
	const least = 220
	return fyne.NewSize(least, r.place(max(r.width, least), false))
}

func (r *findingRenderer) Refresh() {
	r.style()
	r.Layout(r.row.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.row)
}

func (r *findingRenderer) Objects() []fyne.CanvasObject {
	f := r.row
	return []fyne.CanvasObject{r.face, r.edge, f.sign, f.what, f.why, f.do, r.ring}
}

func (r *findingRenderer) Destroy() {}
