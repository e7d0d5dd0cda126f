package touch

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
)

// key is a button that never has the focus and leaves it where it is: a key of
// the keypad, or a step beside an input. The toolkit keeps the focus when what
// is pressed could take it, and Tab passes over what is disabled; a key says
// that it is both, and so is neither in the way of a finger nor of Tab.
type key struct {
	Button
}

var (
	_ fyne.Tappable    = (*key)(nil)
	_ fyne.Focusable   = (*key)(nil)
	_ fyne.Disableable = (*key)(nil)
)

// newKey makes a key with a label; a single sign is drawn large.
func newKey(label string, tapped func()) *key {
	k := &key{Button{Label: label, OnTapped: tapped, keeps: true, compact: true}}
	if utf8.RuneCountInString(label) == 1 {
		k.size = 22
	}
	k.init(k)
	return k
}

// Disabled keeps Tab away from the key. Whether it can be tapped is told by
// the button's own state.
func (k *key) Disabled() bool { return true }
