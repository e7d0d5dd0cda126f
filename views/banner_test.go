package views

import (
	"testing"

	"fyne.io/fyne/v2"
)

// TestNoticeMovesNothing: what can be touched stays where it is while a notice
// comes and goes.
func TestNoticeMovesNothing(t *testing.T) {
	b, p, v := traceOn(t)
	where := func() fyne.Position {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(v.surface)
	}
	before := where()
	b.desk.sayBriefly("The cutting sheet is saved in some place", "Print it at 100 %, not fit to page.")
	b.settle()
	if !shows(p.frame.banner.over, "Print it") || where() != before {
		t.Errorf("the photo moves from %v to %v", before, where())
	}
	over, acts := p.frame.banner.over, p.frame.acts
	end := fyne.CurrentApp().Driver().AbsolutePositionForObject(over).X + over.Size().Width
	if over.Size().Height < 20 || end > fyne.CurrentApp().Driver().AbsolutePositionForObject(acts).X {
		t.Errorf("the notice is %v wide and high and ends at %v, over undo", over.Size(), end)
	}
	b.desk.hush()
	if where() != before || len(over.Objects) != 0 {
		t.Error("the notice does not go")
	}
}
