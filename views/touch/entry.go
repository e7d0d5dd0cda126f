package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// entry is the line that is typed into, in a Field or a TextField. It knows
// which text was last set or committed, so a draft is what differs from that.
// A tap selects all, so that typing replaces; a finger drawn up or down over
// it scrolls; Enter commits and goes on, Escape goes back to the last text.
type entry struct {
	widget.Entry
	owner   fyne.CanvasObject // brought into view when the entry has the focus
	onDraft func(text string)
	commit  func()
	next    func()
	step    func(dir int)
	noted   func(gained bool) // told of the focus
	kept    func() bool       // what is typed is handed over at every key; nil where it is not

	base    string // the text last set or committed
	held    bool   // changes are not reported now
	focused bool
	scroll  *Scroll

	down    *desktop.MouseEvent // a press that has not become a tap or a drag
	moved   fyne.Delta
	drag    dragKind
	wasIdle bool // the press found the entry without the focus
}

// dragKind is what a drag over an entry turned out to be.
type dragKind int

const (
	dragUnknown dragKind = iota
	dragSelects
	dragScrolls
)

var (
	_ fyne.Focusable    = (*entry)(nil)
	_ fyne.Draggable    = (*entry)(nil)
	_ fyne.Shortcutable = (*entry)(nil)
	_ fyne.Tabbable     = (*entry)(nil)
	_ desktop.Mouseable = (*entry)(nil)
	_ scrolled          = (*entry)(nil)
)

func newEntry(owner fyne.CanvasObject, lines int) *entry {
	e := &entry{owner: owner}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	if lines > 1 {
		e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
	}
	e.ExtendBaseWidget(e)
	if lines > 1 {
		e.SetMinRowsVisible(lines)
	}
	e.OnChanged = func(text string) {
		if !e.held && e.onDraft != nil {
			e.onDraft(text)
		}
	}
	return e
}

// Typing is what stands in the entry, also while it is typed into.
func (e *entry) Typing() string { return e.Text }

// edited tells whether the text differs from the one last set or committed.
func (e *entry) edited() bool { return e.Text != e.base }

// handOver gives the text to take, where there is one, if it was edited; it
// then counts as committed.
func (e *entry) handOver(take func(text string)) {
	if !e.edited() {
		return
	}
	e.base = e.Text
	if take != nil {
		take(e.Text)
	}
}

// show sets the text, unless the maker is in the middle of editing it.
func (e *entry) show(text string) {
	if e.focused && e.edited() {
		return
	}
	e.base = text
	if e.Text == text {
		return
	}
	e.quietly(func() { e.SetText(text) })
	if e.focused {
		e.toEnd()
	}
}

// draft puts a text in as if it had been typed.
func (e *entry) draft(text string) {
	e.quietly(func() {
		if e.Text != "" {
			e.TypedShortcut(&fyne.ShortcutSelectAll{})
			e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace})
		}
		for _, r := range text {
			e.TypedRune(r)
		}
	})
	if e.onDraft != nil {
		e.onDraft(e.Text)
	}
}

// quietly does something without reporting changes of the text.
func (e *entry) quietly(do func()) {
	e.held = true
	do()
	e.held = false
}

// toEnd puts the caret behind the text with nothing selected.
func (e *entry) toEnd() {
	e.quietly(func() { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd}) })
}

// TypedKey is used by the toolkit.
func (e *entry) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if !e.MultiLine {
			e.commit()
			e.next()
			return
		}
	case fyne.KeyEscape:
		if e.edited() {
			e.draft(e.base)
		} else {
			unheard(e, ev)
		}
		return
	case fyne.KeyUp, fyne.KeyDown:
		if e.step != nil {
			e.step(map[fyne.KeyName]int{fyne.KeyUp: 1, fyne.KeyDown: -1}[ev.Name])
			return
		}
	}
	e.Entry.TypedKey(ev)
}

// selectLine selects what stands in the entry, so that typing replaces it; words
// of several lines are left as they are.
func (e *entry) selectLine() {
	if !e.MultiLine {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// AcceptsTab is used by the toolkit: the Tab key leaves words of several lines
// too, or the keyboard would not get past them.
func (e *entry) AcceptsTab() bool { return false }

// FocusGained is used by the toolkit.
func (e *entry) FocusGained() {
	e.focused = true
	e.Entry.FocusGained()
	e.selectLine()
	if e.scroll != nil {
		e.scroll.ScrollTo(e.owner)
	}
	e.noted(true)
}

// FocusLost is used by the toolkit; it commits.
func (e *entry) FocusLost() {
	e.focused = false
	e.Entry.FocusLost()
	e.commit()
	e.noted(false)
}

// MouseDown keeps the press until it is known to be a tap or a drag, so that a
// swipe over the entry does not move the focus.
func (e *entry) MouseDown(ev *desktop.MouseEvent) {
	pressed = press{}
	e.down, e.moved, e.drag, e.wasIdle = ev, fyne.Delta{}, dragUnknown, !e.focused
}

// MouseUp is used by the toolkit.
func (e *entry) MouseUp(ev *desktop.MouseEvent) {
	if e.drag == dragScrolls {
		return
	}
	tapped := e.begin()
	e.Entry.MouseUp(ev)
	if tapped && e.wasIdle && !e.MultiLine && ev.Button == desktop.MouseButtonPrimary {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// Dragged is used by the toolkit: up and down scrolls, sideways selects.
func (e *entry) Dragged(ev *fyne.DragEvent) {
	e.moved.DX += ev.Dragged.DX
	e.moved.DY += ev.Dragged.DY
	dy := ev.Dragged.DY
	if e.drag == dragUnknown {
		if length(e.moved) < Slop {
			return
		}
		e.drag = dragSelects
		if e.scroll != nil && e.moved.DY*e.moved.DY > e.moved.DX*e.moved.DX {
			e.drag, dy = dragScrolls, e.moved.DY
		}
	}
	if e.drag == dragScrolls {
		e.scroll.SetOffset(e.scroll.Offset() - dy)
		return
	}
	e.begin()
	e.Entry.Dragged(ev)
}

// DragEnd is used by the toolkit.
func (e *entry) DragEnd() {
	if e.drag == dragSelects {
		e.Entry.DragEnd()
	}
	e.drag, e.down = dragUnknown, nil
}

// begin hands the press on to the toolkit's entry, once; it tells whether it
// was still to be handed on.
func (e *entry) begin() bool {
	if e.down == nil {
		return false
	}
	down := e.down
	e.down = nil
	e.Entry.MouseDown(down)
	return true
}

func (e *entry) within(s *Scroll) { e.scroll = s }
