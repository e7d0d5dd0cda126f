package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// What the toolkit finds to drag over an entry must be ours: its own entry has
// an inside that takes drags past it.
func TestTheToolkitDragsTheVeil(t *testing.T) {
	form := NewForm()
	box := container.NewVBox()
	for _, path := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		box.Add(NewField(form, path, path, Length))
	}
	box.Add(NewTextField(form, "note", "Note", 6))
	s := NewScroll(box)
	show(t, s, 300, 200)
	d := fyne.CurrentApp().Driver()
	c := d.CanvasForObject(s)
	e := form.Field("b").entry
	at := d.AbsolutePositionForObject(e).AddXY(20, 20)
	e.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{AbsolutePosition: at}, Button: desktop.MouseButtonPrimary})
	test.Drag(c, at, 0, -60)
	if s.Offset() < 40 {
		t.Errorf("a swipe of 60 over an entry scrolled by %.0f", s.Offset())
	}
	if c.Focused() != nil {
		t.Error("a swipe gave the entry the focus")
	}
	s.SetOffset(0)
	// A press that slips a little is still a tap.
	e.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{AbsolutePosition: at}, Button: desktop.MouseButtonPrimary})
	test.Drag(c, at, 0, 4)
	if s.Offset() != 0 || e.down != nil {
		t.Errorf("a slip scrolled by %.0f, or the press is still on", s.Offset())
	}
}
