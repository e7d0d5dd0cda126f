package touch

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Option is one of several things to choose from: what it is called by the
// program, and what it is called on screen.
type Option struct {
	ID    string
	Label string
}

// Field is one value with its name: the name above, the entry with a step at
// either side, the instrument it was read with, and below it what to measure
// and, where there is one, what is wrong. The text is the maker's own; the
// caller reads it when it is committed: on Enter, when the focus leaves, on
// the keypad's Next, on a step, and by Form.CommitAll.
type Field struct {
	widget.BaseWidget
	OnCommit     func(text string)
	OnDraft      func(text string) // told of every change while typing
	OnStep       func(dir int)     // +1 or -1; without it there are no step keys
	OnInstrument func(id string)
	Said         string // its name by the keypad, where its label alone says little; "" is the label
	Stays        bool   // on Enter the focus stays, with the line selected for the next reading

	path       string
	kind       Kind
	form       *Form
	label      *Text
	echo       *Text
	help       *Text
	unit       *Text
	problem    *badge
	entry      *entry
	veil       *veil
	less, more *key
	instrument *Select
	glow       *canvas.Rectangle
	ring       *canvas.Rectangle
}

var (
	_ fyne.Widget = (*Field)(nil)
	_ Input       = (*Field)(nil)
	_ scrolled    = (*Field)(nil)
)

// NewField makes a field and adds it to the form. The path names the value as
// findings and drafts do, such as "mold/length".
func NewField(form *Form, path, label string, kind Kind) *Field {
	f := &Field{
		path: path, kind: kind, form: form,
		label:   NewText(label, Strong, Ink),
		echo:    NewLine("", Small, Faint),
		help:    NewText("", Small, Faint),
		unit:    NewLine("", Body, Faint),
		problem: newBadge(Stop, ""),
		glow:    canvas.NewRectangle(color.Transparent),
		ring:    newRing(),
	}
	f.glow.CornerRadius = corner
	f.entry = newEntry(f, 1)
	f.veil = newVeil(f.entry)
	f.entry.ActionItem = newInset(f.unit)
	f.entry.commit, f.entry.next, f.entry.step = f.Commit, f.next, f.step
	f.entry.onDraft = f.typed
	f.entry.kept = func() bool { return f.OnDraft != nil }
	f.entry.noted = func(gained bool) {
		showRing(f.ring, gained)
		form.noteFocus(f, gained)
	}
	f.less = newKey("−", func() { f.step(-1) })
	f.more = newKey("+", func() { f.step(1) })
	f.instrument = NewSelect("", nil, func(id string) {
		if f.OnInstrument != nil {
			f.OnInstrument(id)
		}
	})
	f.instrument.Hide()
	f.ExtendBaseWidget(f)
	form.Add(f)
	return f
}

// next goes on to the next input, unless the field stays.
func (f *Field) next() {
	if f.Stays {
		f.entry.selectLine()
		return
	}
	f.form.Next()
}

// Path names the value.
func (f *Field) Path() string { return f.path }

// Kind is what sort of value the field takes.
func (f *Field) Kind() Kind { return f.kind }

// Label is the field's name on screen.
func (f *Field) Label() string { return f.label.Text() }

// SetLabel shows another name.
func (f *Field) SetLabel(label string) { f.put(f.label, label) }

// SetHelp shows what to measure, below the entry.
func (f *Field) SetHelp(help string) { f.put(f.help, help) }

// SetEcho shows the value in the other family of units.
func (f *Field) SetEcho(echo string) { f.put(f.echo, echo) }

// SetUnit shows the unit that a bare number has. It stands in the entry as
// long as no unit is written there.
func (f *Field) SetUnit(unit string) {
	f.unit.text = unit
	f.hint()
}

// SetPlaceholder shows a text in the empty entry, such as a usual value.
func (f *Field) SetPlaceholder(text string) {
	if f.entry.PlaceHolder != text {
		f.entry.SetPlaceHolder(text)
		f.hint()
	}
}

// SetText shows the value as it was written. An entry that the maker is
// editing is left alone.
func (f *Field) SetText(written string) {
	f.entry.show(written)
	f.hint()
}

// Text is what stands in the entry now.
func (f *Field) Text() string { return f.entry.Text }

// SetProblem shows what is wrong with the value, with the sign that stops the
// pour; no text takes it away.
func (f *Field) SetProblem(text string) {
	if f.problem.set(Stop, text) {
		f.Refresh()
	}
}

// SetInstruments offers the instruments to choose from, each with its ±, and
// shows the current one. No options hide the chooser.
func (f *Field) SetInstruments(options []Option, current string) {
	f.instrument.SetOptions(options)
	f.instrument.SetSelected(current)
	if len(options) == 0 {
		f.instrument.Hide()
	} else {
		f.instrument.Show()
	}
	f.Refresh()
}

// Commit hands over what has been typed.
func (f *Field) Commit() { f.entry.handOver(f.OnCommit) }

// Pending is the text typed and not committed.
func (f *Field) Pending() (string, bool) { return f.entry.Text, f.entry.edited() }

// Restore puts back a text that was pending.
func (f *Field) Restore(text string) { f.entry.draft(text) }

// CreateRenderer is used by the toolkit.
func (f *Field) CreateRenderer() fyne.WidgetRenderer { return &fieldRenderer{field: f} }

func (f *Field) target() fyne.Focusable { return f.entry }

// flash lights the field up for a moment.
func (f *Field) flash() { flash(f.glow) }

func (f *Field) within(s *Scroll) {
	f.entry.within(s)
	f.instrument.within(s)
}

// step commits what was typed and moves the value by one step.
func (f *Field) step(dir int) {
	f.Commit()
	if f.OnStep != nil {
		f.OnStep(dir)
	}
}

// typed is told of every change of the entry.
func (f *Field) typed(text string) {
	f.hint()
	if f.OnDraft != nil {
		f.OnDraft(text)
	}
}

// hint hides the unit where the text, or the usual value that stands in its
// place, states one.
func (f *Field) hint() {
	text := f.entry.Text
	if text == "" {
		text = f.entry.PlaceHolder
	}
	_, tail := splitUnit(text)
	stated := unitWritten(tail)
	if f.unit.Hidden != stated {
		f.unit.Hidden = stated
	}
	f.unit.Refresh()
}

// unitWritten tells whether the tail of a text, behind its last digit, holds a
// unit.
func unitWritten(tail string) bool {
	for _, r := range tail {
		switch r {
		case ' ', '.', ',', '/', '-', '−', ':', '±':
		default:
			return true
		}
	}
	return false
}

func (f *Field) put(t *Text, words string) {
	if t.Text() != words {
		t.SetText(words)
		f.Refresh()
	}
}

// flash fades the accent out of a rectangle behind an input; where nothing is to
// move it stays for as long and is gone at once.
func flash(glow *canvas.Rectangle) {
	from := look.Current().Accent
	to := from
	from.A, to.A = 0x90, 0
	show := canvas.NewColorRGBAAnimation(from, to, 1200*time.Millisecond, func(c color.Color) {
		if glow.FillColor != c {
			glow.FillColor = c
			glow.Refresh()
		}
	})
	if look.Still() {
		show.Curve = steady
	}
	show.Start()
}

// steady is the curve of what does not move until it is over.
func steady(done float32) float32 { return float32(int(done)) }
