package views

import (
	"fyne.io/fyne/v2"

	"meniscus/views/look"
)

// obeyDesktop has things move on the screen as the desktop was told, as long as
// the maker says nothing else.
func (d *Desk) obeyDesktop(a fyne.App) {
	d.asked = !a.Settings().ShowAnimations()
	if calm, ok := a.(*look.App); ok {
		calm.Obey(d.still)
	}
	d.session.AskForStill(func(still bool) {
		if still && !d.asked {
			d.asked = true
			d.remenu()
		}
	})
}

// still tells whether nothing is to move on the screen: as the maker said, else
// as the desktop was told.
func (d *Desk) still() bool {
	switch d.motion {
	case look.LessMotion:
		return true
	case look.WholeMotion:
		return false
	}
	return d.asked
}

// turnMotion has less move on the screen, or all again.
func (d *Desk) turnMotion() {
	if d.still() {
		d.motion = look.WholeMotion
	} else {
		d.motion = look.LessMotion
	}
	d.remenu()
	d.redraw()
	d.remember()
}
