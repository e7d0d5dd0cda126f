package touch

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"meniscus/views/look"
)

// Stepper is a count between two bounds, changed one at a time by the keys at
// its sides, or by Up, Down, + and - on a keyboard.
type Stepper struct {
	widget.BaseWidget
	OnChange func(n int)

	label      *Text
	n          int
	low, high  int
	less, more *key
	focused    bool
	scroll     *Scroll
}

var (
	_ fyne.Focusable = (*Stepper)(nil)
	_ scrolled       = (*Stepper)(nil)
)

// NewStepper makes a count from low to high.
func NewStepper(label string, n, low, high int, change func(n int)) *Stepper {
	s := &Stepper{label: NewText(label, Strong, Ink), n: n, low: low, high: high, OnChange: change}
	s.less = newKey("−", func() { s.step(-1) })
	s.more = newKey("+", func() { s.step(1) })
	s.ExtendBaseWidget(s)
	s.bound()
	return s
}

// Count is the count now.
func (s *Stepper) Count() int { return s.n }

// SetCount shows a count without telling of it.
func (s *Stepper) SetCount(n int) {
	if s.n != n {
		s.n = n
		s.Refresh()
	}
}

// TypedKey steps on Up and Down.
func (s *Stepper) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp, fyne.KeyRight:
		s.step(1)
	case fyne.KeyDown, fyne.KeyLeft:
		s.step(-1)
	}
}

// TypedRune steps on + and -.
func (s *Stepper) TypedRune(r rune) {
	switch r {
	case '+':
		s.step(1)
	case '-', '−':
		s.step(-1)
	}
}

// FocusGained is used by the toolkit.
func (s *Stepper) FocusGained() {
	if s.scroll != nil {
		s.scroll.ScrollTo(s)
	}
	s.focused = true
	s.Refresh()
}

// FocusLost is used by the toolkit.
func (s *Stepper) FocusLost() {
	s.focused = false
	s.Refresh()
}

func (s *Stepper) within(scroll *Scroll) { s.scroll = scroll }

func (s *Stepper) step(by int) {
	n := max(s.low, min(s.n+by, s.high))
	if n == s.n {
		return
	}
	s.n = n
	s.Refresh()
	if s.OnChange != nil {
		s.OnChange(n)
	}
}

// bound greys out the key that would leave the bounds.
func (s *Stepper) bound() {
	s.less.set(&s.less.off, s.n <= s.low)
	s.more.set(&s.more.off, s.n >= s.high)
}

// Refresh redraws the stepper.
func (s *Stepper) Refresh() {
	s.bound()
	s.BaseWidget.Refresh()
}

// CreateRenderer is used by the toolkit.
func (s *Stepper) CreateRenderer() fyne.WidgetRenderer {
	r := &stepperRenderer{stepper: s, value: canvas.NewText("", color.Transparent), ring: newRing()}
	r.value.TextStyle.Bold, r.value.TextSize, r.value.Alignment = true, look.Title, fyne.TextAlignCenter
	r.style()
	return r
}

type stepperRenderer struct {
	stepper *Stepper
	value   *canvas.Text
	ring    *canvas.Rectangle
}

func (r *stepperRenderer) style() {
	r.value.Text, r.value.Color = strconv.Itoa(r.stepper.n), look.Current().Ink
	showRing(r.ring, r.stepper.focused)
}

// countWidth is the room for the number between the keys.
const countWidth float32 = 64

func (r *stepperRenderer) Layout(size fyne.Size) {
	s := r.stepper
	name := s.label.HeightFor(size.Width)
	s.label.Resize(fyne.NewSize(size.Width, name))
	y := name + 3
	s.less.Move(fyne.NewPos(0, y))
	s.less.Resize(fyne.NewSquareSize(look.Target))
	x := look.Target + look.Gap
	height := r.value.MinSize().Height
	r.value.Move(fyne.NewPos(x, y+(look.Target-height)/2))
	r.value.Resize(fyne.NewSize(countWidth, height))
	r.ring.Move(fyne.NewPos(x, y))
	r.ring.Resize(fyne.NewSize(countWidth, look.Target))
	s.more.Move(fyne.NewPos(x+countWidth+look.Gap, y))
	s.more.Resize(fyne.NewSquareSize(look.Target))
}

func (r *stepperRenderer) MinSize() fyne.Size {
	width := 2*(look.Target+look.Gap) + countWidth
	return fyne.NewSize(width, r.stepper.label.HeightFor(max(width, r.stepper.Size().Width))+3+look.Target)
}

func (r *stepperRenderer) Refresh() {
	r.style()
	r.Layout(r.stepper.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *stepperRenderer) Objects() []fyne.CanvasObject {
	s := r.stepper
	return []fyne.CanvasObject{s.label, s.less, r.value, s.more, r.ring}
}

func (r *stepperRenderer) Destroy() {}
