package touch

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// TextField is words with a name: what a project is called, a note. It commits
// as a Field does; where it has several lines, Enter starts a new one, and the
// words are committed when the focus leaves.
type TextField struct {
	widget.BaseWidget
	OnCommit func(text string)
	OnDraft  func(text string)

	path    string
	label   *Text
	help    *Text
	problem *badge
	entry   *entry
	veil    *veil
	glow    *canvas.Rectangle
	ring    *canvas.Rectangle
}

var (
	_ fyne.Widget = (*TextField)(nil)
	_ Input       = (*TextField)(nil)
	_ scrolled    = (*TextField)(nil)
)

// NewTextField makes a text field of so many lines and adds it to the form.
func NewTextField(form *Form, path, label string, lines int) *TextField {
	f := &TextField{
		path:    path,
		label:   NewText(label, Strong, Ink),
		help:    NewText("", Small, Faint),
		problem: newBadge(Stop, ""),
		glow:    canvas.NewRectangle(color.Transparent),
		ring:    newRing(),
	}
	f.glow.CornerRadius = corner
	f.entry = newEntry(f, lines)
	f.veil = newVeil(f.entry)
	f.entry.commit, f.entry.next = f.Commit, form.Next
	f.entry.kept = func() bool { return f.OnDraft != nil }
	f.entry.onDraft = func(text string) {
		if f.OnDraft != nil {
			f.OnDraft(text)
		}
	}
	f.entry.noted = func(gained bool) {
		showRing(f.ring, gained)
		form.noteFocus(f, gained)
	}
	f.ExtendBaseWidget(f)
	form.Add(f)
	return f
}

// Path names the value.
func (f *TextField) Path() string { return f.path }

// SetText shows words, unless the maker is editing them.
func (f *TextField) SetText(text string) { f.entry.show(text) }

// Text is what stands in the entry now.
func (f *TextField) Text() string { return f.entry.Text }

// SetHelp shows a line below the entry.
func (f *TextField) SetHelp(help string) {
	f.help.SetText(help)
	f.Refresh()
}

// SetPlaceholder shows a text in the empty entry.
func (f *TextField) SetPlaceholder(text string) { f.entry.SetPlaceHolder(text) }

// SetProblem shows what is wrong; no text takes it away.
func (f *TextField) SetProblem(text string) {
	if f.problem.set(Stop, text) {
		f.Refresh()
	}
}

// Commit hands over what has been typed.
func (f *TextField) Commit() { f.entry.handOver(f.OnCommit) }

// Pending is the text typed and not committed.
func (f *TextField) Pending() (string, bool) { return f.entry.Text, f.entry.edited() }

// Restore puts back a text that was pending.
func (f *TextField) Restore(text string) { f.entry.draft(text) }

// CreateRenderer is used by the toolkit.
func (f *TextField) CreateRenderer() fyne.WidgetRenderer { return &textFieldRenderer{field: f} }

func (f *TextField) target() fyne.Focusable { return f.entry }

func (f *TextField) flash() { flash(f.glow) }

func (f *TextField) within(s *Scroll) { f.entry.within(s) }

type textFieldRenderer struct {
	field *TextField
	width float32
}

// place moves everything where it goes at a width, if move is set, and gives
// the height of all.
func (r *textFieldRenderer) place(width float32, move bool) float32 {
	f, y := r.field, float32(0)
	put := func(o fyne.CanvasObject, h float32) {
		if move {
			o.Move(fyne.NewPos(0, y))
			o.Resize(fyne.NewSize(width, h))
		}
		y += h
	}
	put(f.label, f.label.HeightFor(width))
	y += 3
	put(f.entry, max(look.Target, f.entry.MinSize().Height))
	y += 3
	put(f.help, f.help.HeightFor(width))
	put(f.problem, f.problem.HeightFor(width))
	return y
}

func (r *textFieldRenderer) Layout(size fyne.Size) {
	r.width = size.Width
	r.place(size.Width, true)
	r.field.veil.Move(r.field.entry.Position())
	r.field.veil.Resize(r.field.entry.Size())
	r.field.ring.Move(r.field.entry.Position().SubtractXY(3, 3))
	r.field.ring.Resize(r.field.entry.Size().AddWidthHeight(6, 6))
	r.field.glow.Move(fyne.NewPos(-4, -4))
	r.field.glow.Resize(size.AddWidthHeight(8, 8))
}

func (r *textFieldRenderer) MinSize() fyne.Size {
	return fyne.NewSize(leastEntry, r.place(max(r.width, leastEntry), false))
}

func (r *textFieldRenderer) Refresh() {
	r.Layout(r.field.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
	canvas.Refresh(r.field)
}

func (r *textFieldRenderer) Objects() []fyne.CanvasObject {
	f := r.field
	return []fyne.CanvasObject{f.glow, f.label, f.entry, f.veil, f.help, f.problem, f.ring}
}

func (r *textFieldRenderer) Destroy() {}
