package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Select is a button that shows one of many options and opens a list of all of
// them. Up and Down change the option without opening it.
type Select struct {
	Button
	OnChange func(id string)

	prompt   string // shown while nothing is selected
	options  []Option
	selected string
	popup    *widget.PopUp
}

var (
	_ fyne.Tappable  = (*Select)(nil)
	_ fyne.Focusable = (*Select)(nil)
	_ scrolled       = (*Select)(nil)
)

// NewSelect makes a chooser; prompt is shown while nothing is selected.
func NewSelect(prompt string, options []Option, change func(id string)) *Select {
	s := &Select{OnChange: change, prompt: prompt, options: options}
	s.trail, s.OnTapped = "▼", s.open
	s.init(s)
	s.SetSelected("")
	return s
}

// SetOptions offers other options.
func (s *Select) SetOptions(options []Option) {
	s.options = options
	s.SetSelected(s.selected)
	s.Refresh()
}

// Selected is the option that is shown, "" for none.
func (s *Select) Selected() string { return s.selected }

// SetSelected shows an option without telling of it.
func (s *Select) SetSelected(id string) {
	s.selected = id
	for _, o := range s.options {
		if o.ID == id {
			s.SetLabel(o.Label)
			return
		}
	}
	s.SetLabel(s.prompt)
}

// MinSize is wide enough for every option, but for those of a long name, so that
// choosing moves nothing.
func (s *Select) MinSize() fyne.Size {
	size := s.Button.MinSize()
	wide := func(label string) float32 { return look.Width(label, look.Body, fyne.TextStyle{}) }
	beside := size.Width - min(wide(s.Label), mostLabel)
	shown := min(wide(s.Label), mostOption)
	for _, o := range s.options {
		shown = max(shown, min(wide(o.Label), mostOption))
	}
	size.Width = beside + shown
	return size
}

// mostOption is what is asked for an option: a longer one ends in … where there is no
// more room, and is whole in the list.
const mostOption float32 = 260

// TypedKey steps through the options on Up and Down, and opens the list on
// Space and Enter.
func (s *Select) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		s.move(-1)
	case fyne.KeyDown:
		s.move(1)
	default:
		s.Button.TypedKey(ev)
	}
}

// move selects the option so many places on.
func (s *Select) move(by int) {
	at := -1
	for i, o := range s.options {
		if o.ID == s.selected {
			at = i
		}
	}
	if at < 0 && by < 0 {
		at = len(s.options)
	}
	if at += by; at >= 0 && at < len(s.options) {
		s.choose(s.options[at].ID)
	}
}

// choose selects an option and tells of it, if it is another one.
func (s *Select) choose(id string) {
	if id == s.selected {
		return
	}
	s.SetSelected(id)
	if s.OnChange != nil {
		s.OnChange(id)
	}
}

// stands tells where the button is among what its window shows; false where it is
// not there. The toolkit knows the canvas of what was taken away for a minute
// longer, and leaves the focus with it, so that a key would still open a list. It
// takes it to be in the very corner of the window, where no button stands.
func (s *Select) stands() (c fyne.Canvas, at fyne.Position, ok bool) {
	d := fyne.CurrentApp().Driver()
	if c = d.CanvasForObject(s); c == nil {
		return nil, at, false
	}
	at = d.AbsolutePositionForObject(s)
	corner, _ := c.InteractiveArea()
	return c, at, at.Add(corner) != fyne.Position{}
}

// open shows the list, below the button where there is room for it.
func (s *Select) open() {
	c, at, ok := s.stands()
	if !ok || len(s.options) == 0 {
		return
	}
	rows := container.NewVBox()
	var current *option
	for _, o := range s.options {
		row := newOption(o, o.ID == s.selected, func() { s.close(); s.choose(o.ID) }, s.close)
		if current == nil || o.ID == s.selected {
			current = row
		}
		rows.Add(row)
	}
	list := NewScroll(rows)
	s.popup = widget.NewPopUp(list, c)
	const edge = 24 // what the list keeps free for its frame
	room := c.Size()
	want := fyne.NewSize(min(max(s.Size().Width, list.MinSize().Width+edge, s.widest()+2*edge), room.Width), min(rows.MinSize().Height+edge, room.Height-edge))
	at.Y += s.Size().Height + 2
	if at.Y+want.Height > room.Height {
		at.Y = max(0, room.Height-want.Height)
	}
	at.X = max(0, min(at.X, room.Width-want.Width))
	s.popup.Resize(want)
	s.popup.ShowAtPosition(at)
	c.Focus(current)
	list.ScrollTo(current)
}

// widest is how wide the list is that shows every option whole.
func (s *Select) widest() (width float32) {
	for _, o := range s.options {
		width = max(width, look.Width(o.Label, look.Body, fyne.TextStyle{Bold: true}))
	}
	return width + 2*look.Gap
}

// close takes the list away.
func (s *Select) close() {
	if s.popup != nil {
		s.popup.Hide()
		s.popup = nil
	}
}

// option is one row of the list that a Select opens.
type option struct {
	Button
	leave func()
}

var _ fyne.Focusable = (*option)(nil)

func newOption(o Option, current bool, choose, leave func()) *option {
	row := &option{Button: Button{Label: o.Label, OnTapped: choose, keeps: true, left: true}, leave: leave}
	if current {
		row.Style = Primary
	} else {
		row.Style = Quiet
	}
	row.init(row)
	return row
}

// TypedKey walks the list on Up and Down and leaves it on Escape.
func (o *option) TypedKey(ev *fyne.KeyEvent) {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	switch {
	case ev.Name == fyne.KeyEscape:
		o.leave()
	case ev.Name == fyne.KeyDown && c != nil:
		c.FocusNext()
	case ev.Name == fyne.KeyUp && c != nil:
		c.FocusPrevious()
	default:
		o.Button.TypedKey(ev)
	}
}
