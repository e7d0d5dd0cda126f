package views

import (
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/model"
)

// TypedRune types digits where a number is asked for, and words in a note.
func (b *benchLook) TypedRune(r rune) {
	if b.cover.lock != nil {
		return
	}
	digit := strings.ContainsRune("0123456789.,", r)
	if b.mode == benchActs && digit && b.weighs() {
		b.turn(benchKeys)
	}
	switch {
	case b.mode == benchNote && len(b.typed) < 200 && r >= ' ' && (r != ' ' || b.typed != ""):
	case (b.mode == benchKeys || b.mode == benchWarm) && len(b.typed) < 9 && (digit || b.mode == benchWarm && r == '-' && b.typed == ""):
	default:
		return
	}
	b.typed += string(r)
	b.said = ""
	b.show()
}

// weighs tells whether the moment asks for a reading of the scale.
func (b *benchLook) weighs() bool {
	return b.at.Number == model.NumberReads && len(b.at.Acts) > 0 || b.at.Number == model.NumberToGo
}

// KeyDown is used by the toolkit: once for each press, where TypedKey repeats.
func (b *benchLook) KeyDown(*fyne.KeyEvent) { b.fresh = true }

// KeyUp is used by the toolkit.
func (b *benchLook) KeyUp(*fyne.KeyEvent) {}

// TypedKey does everything: Space and Enter touch the marked button, the arrows
// move the mark, Escape leaves.
func (b *benchLook) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyEscape:
		if b.cover.lock != nil {
			b.cover.setLock(false)
			return
		}
		b.said = ""
		b.leave()
		if b.cover.bench == b {
			b.show()
		}
	case fyne.KeyBackspace, fyne.KeyDelete:
		b.erase()
	case fyne.KeyRight, fyne.KeyDown:
		b.move(1, ev.Name == fyne.KeyDown)
	case fyne.KeyLeft, fyne.KeyUp:
		b.move(-1, ev.Name == fyne.KeyUp)
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if !b.fresh || ev.Name == fyne.KeySpace && b.mode == benchNote && b.typed != "" {
			return
		}
		b.fresh = false
		if list := b.buttons(); b.mark >= 0 && b.mark < len(list) {
			list[b.mark].Tapped(nil)
		}
	}
}

// erase takes the last sign away.
func (b *benchLook) erase() {
	if r := []rune(b.typed); len(r) > 0 {
		b.typed = string(r[:len(r)-1])
		b.show()
	}
}

// FocusGained is used by the toolkit.
func (b *benchLook) FocusGained() {}

// FocusLost is used by the toolkit.
func (b *benchLook) FocusLost() {}
