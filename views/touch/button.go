package touch

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Style is how loudly a Button asks to be tapped.
type Style int

// The styles of a Button.
const (
	Plain   Style = iota // an outline
	Primary              // filled: the one thing to do next
	Quiet                // words only
	Danger               // takes something away
)

// Settle is a good Debounce for an act that must not happen twice.
const Settle = 300 * time.Millisecond

// Button does something when it is tapped, or when Space or Enter is pressed
// while it has the focus. Change its fields through the setters, or call
// Refresh afterwards.
type Button struct {
	control
	Label    string
	Icon     fyne.Resource
	Style    Style
	Bench    bool          // high enough for a gloved finger beside the mold
	Debounce time.Duration // a tap sooner after the last than this is dropped
	OnTapped func()
	OnEscape func() // while it has the focus; nil leaves it to the window

	trail   string  // a sign at the right end; the label then stands at the left
	left    bool    // the label stands at the left
	compact bool    // no room beside the label
	size    float32 // of the label; 0 is that of running text
	keeps   bool    // the focus stays where it is when this is tapped
	off     bool
	hovered bool
	last    time.Time
	now     func() time.Time
}

var (
	_ fyne.Tappable     = (*Button)(nil)
	_ fyne.Focusable    = (*Button)(nil)
	_ fyne.Disableable  = (*Button)(nil)
	_ desktop.Mouseable = (*Button)(nil)
	_ desktop.Hoverable = (*Button)(nil)
	_ pressable         = (*Button)(nil)
	_ scrolled          = (*Button)(nil)
)

// NewButton makes a plain button.
func NewButton(label string, tapped func()) *Button {
	return NewStyledButton(label, Plain, tapped)
}

// NewStyledButton makes a button of a style.
func NewStyledButton(label string, style Style, tapped func()) *Button {
	b := &Button{Label: label, Style: style, OnTapped: tapped}
	b.init(b)
	return b
}

// init readies the button, or the widget self that has it embedded.
func (b *Button) init(self tapped) {
	b.now = time.Now
	b.extend(self)
}

// SetLabel shows other words.
func (b *Button) SetLabel(label string) {
	if b.Label != label {
		b.Label = label
		b.Refresh()
	}
}

// SetStyle shows the button in another style.
func (b *Button) SetStyle(style Style) {
	if b.Style != style {
		b.Style = style
		b.Refresh()
	}
}

// Enable lets the button be tapped.
func (b *Button) Enable() { b.set(&b.off, false) }

// Disable greys the button out.
func (b *Button) Disable() { b.set(&b.off, true) }

// Disabled tells whether the button is greyed out.
func (b *Button) Disabled() bool { return b.off }

// Tapped takes the focus and does what the button is for.
func (b *Button) Tapped(*fyne.PointEvent) {
	pressed = press{}
	if b.off {
		return
	}
	if !b.keeps {
		b.take()
	}
	b.act()
}

// TypedKey taps on Space and Enter.
func (b *Button) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		if b.OnEscape != nil {
			b.OnEscape()
			return
		}
		unheard(b.self, ev)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !b.off && !b.held {
			b.act()
		}
	}
}

// MouseDown notes that the finger rests on the button.
func (b *Button) MouseDown(ev *desktop.MouseEvent) {
	if ev.Button == desktop.MouseButtonPrimary {
		b.control.MouseDown(ev)
	}
}

// MouseIn is used by the toolkit.
func (b *Button) MouseIn(*desktop.MouseEvent) { b.set(&b.hovered, true) }

// MouseMoved is used by the toolkit.
func (b *Button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is used by the toolkit.
func (b *Button) MouseOut() {
	b.letGo()
	b.set(&b.hovered, false)
}

// CreateRenderer is used by the toolkit.
func (b *Button) CreateRenderer() fyne.WidgetRenderer { return newButtonRenderer(b) }

// act does what the button is for, unless it was done a moment ago.
func (b *Button) act() {
	now := b.now()
	if b.Debounce > 0 && now.Sub(b.last) < b.Debounce {
		return
	}
	b.last = now
	if b.OnTapped != nil {
		b.OnTapped()
	}
}
