package touch

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Search is a line of words that something is looked for by. It tells of every
// change; Escape empties it, Up and Down walk what was found, Enter takes the
// first of it.
type Search struct {
	widget.BaseWidget
	OnChange func(text string)
	OnMove   func(dir int) // Up (-1) and Down (+1)
	OnEnter  func()

	entry *entry
	ring  *canvas.Rectangle
}

var (
	_ fyne.Widget = (*Search)(nil)
	_ scrolled    = (*Search)(nil)
)

// NewSearch makes an empty line; prompt stands in it as long as it is empty.
func NewSearch(prompt string, change func(text string)) *Search {
	s := &Search{OnChange: change, ring: newRing()}
	s.entry = newEntry(s, 1)
	s.entry.SetPlaceHolder(prompt)
	s.entry.onDraft = func(text string) {
		if s.OnChange != nil {
			s.OnChange(text)
		}
	}
	s.entry.commit = func() {}
	s.entry.next = func() {
		if s.OnEnter != nil {
			s.OnEnter()
		}
	}
	s.entry.step = func(up int) {
		if s.OnMove != nil {
			s.OnMove(-up)
		}
	}
	s.entry.noted = func(gained bool) { showRing(s.ring, gained) }
	s.ExtendBaseWidget(s)
	return s
}

// Text is what is looked for.
func (s *Search) Text() string { return s.entry.Text }

// SetText looks for something else.
func (s *Search) SetText(text string) { s.entry.SetText(text) }

// Focus gives the line the focus.
func (s *Search) Focus() { takeFocus(s.entry) }

func (s *Search) within(in *Scroll) { s.entry.within(in) }

// CreateRenderer is used by the toolkit.
func (s *Search) CreateRenderer() fyne.WidgetRenderer { return &searchRenderer{s} }

type searchRenderer struct{ search *Search }

func (r *searchRenderer) Layout(size fyne.Size) {
	r.search.entry.Resize(size)
	r.search.ring.Move(fyne.NewPos(-3, -3))
	r.search.ring.Resize(size.AddWidthHeight(6, 6))
}

func (r *searchRenderer) MinSize() fyne.Size { return r.search.entry.MinSize() }

func (r *searchRenderer) Refresh() {
	r.search.entry.Refresh()
	r.search.ring.Refresh()
}

func (r *searchRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.search.entry, r.search.ring}
}

func (r *searchRenderer) Destroy() {}
