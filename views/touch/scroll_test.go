package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// tall is a scroller over thirty buttons, and how often the first was tapped.
func tall(t *testing.T) (*Scroll, []*Button, *int) {
	t.Helper()
	taps := new(int)
	var buttons []*Button
	box := container.NewVBox()
	for range 30 {
		b := NewButton("Layer", nil)
		buttons = append(buttons, b)
		box.Add(b)
	}
	buttons[0].OnTapped = func() { *taps++ }
	s := NewScroll(box)
	show(t, s, 300, 400)
	return s, buttons, taps
}

func TestJitterIsATap(t *testing.T) {
	for _, c := range []struct {
		name   string
		steps  int
		dx, dy float32
		taps   int
		scroll bool
	}{
		{"3 px", 1, 0, 3, 1, false},
		{"6 px sideways", 6, 1, 0, 1, false},
		{"13 px", 13, 0, -1, 1, false},
		{"there and nothing", 1, 0, 2, 1, false},
		{"14 px scroll", 14, 0, -1, 0, true},
		{"a swipe", 40, 0, -5, 0, true},
		{"a sideways swipe", 40, 5, 0, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, buttons, taps := tall(t)
			finger(buttons[0], s.body, c.steps, c.dx, c.dy)
			if *taps != c.taps {
				t.Errorf("%d taps, want %d", *taps, c.taps)
			}
			if (s.Offset() > 0) != c.scroll {
				t.Errorf("scrolled to %.0f, scrolling is %v", s.Offset(), c.scroll)
			}
			if buttons[0].down {
				t.Error("the button still looks pressed")
			}
		})
	}
}

func TestSwipeScrollsByItsLength(t *testing.T) {
	s, buttons, _ := tall(t)
	finger(buttons[3], s.body, 40, 0, -5)
	if s.Offset() != 200 {
		t.Errorf("a swipe of 200 scrolled to %.0f", s.Offset())
	}
	finger(buttons[3], s.body, 100, 0, 5)
	if s.Offset() != 0 {
		t.Errorf("a swipe past the top stopped at %.0f", s.Offset())
	}
	finger(buttons[3], s.body, 1000, 0, -5)
	if most := s.body.MinSize().Height - 400; s.Offset() != most {
		t.Errorf("a swipe past the end stopped at %.0f, want %.0f", s.Offset(), most)
	}
}

// A press on nothing that can be tapped leaves no earlier press behind to tap.
func TestPressOnNothingTapsNothing(t *testing.T) {
	s, buttons, taps := tall(t)
	buttons[0].MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	finger(s.body, s.body, 2, 0, 1)
	if *taps != 0 {
		t.Error("a slip beside the button tapped it")
	}
}

func TestDragThatBeganElsewhereTapsNothing(t *testing.T) {
	s, buttons, taps := tall(t)
	buttons[0].MouseDown(&desktop.MouseEvent{
		PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(10, 10)}, Button: desktop.MouseButtonPrimary,
	})
	s.body.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: fyne.NewPos(200, 203)}, Dragged: fyne.NewDelta(0, 3)})
	s.body.DragEnd()
	if *taps != 0 {
		t.Error("a slip far from the button tapped it")
	}
}

func TestWheelScrolls(t *testing.T) {
	s, _, _ := tall(t)
	test.Scroll(fyne.CurrentApp().Driver().CanvasForObject(s), fyne.NewPos(50, 50), 0, -60)
	if s.Offset() != 60 {
		t.Errorf("the wheel scrolled to %.0f, want 60", s.Offset())
	}
}

func TestScrollToBringsIntoView(t *testing.T) {
	s, buttons, _ := tall(t)
	for _, i := range []int{29, 0, 15, 16, 14} {
		s.ScrollTo(buttons[i])
		top := buttons[i].Position().Y + edgeRoom - s.Offset()
		if top < 0 || top+buttons[i].Size().Height > 400 {
			t.Errorf("button %d is at %.0f", i, top)
		}
	}
	before := s.Offset()
	s.ScrollTo(buttons[15])
	if s.Offset() != before {
		t.Error("what was in view already moved")
	}
}

// Tab to a button out of view brings it into view.
func TestFocusBringsIntoView(t *testing.T) {
	s, buttons, _ := tall(t)
	fyne.CurrentApp().Driver().CanvasForObject(s).Focus(buttons[29])
	if s.Offset() == 0 {
		t.Error("the last button has the focus out of view")
	}
}

func TestSwipeOverAnEntryScrolls(t *testing.T) {
	form := NewForm()
	box := container.NewVBox()
	var first *Field
	for _, path := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		f := NewField(form, path, path, Length)
		if first == nil {
			first = f
		}
		box.Add(f)
	}
	s := NewScroll(box)
	win := show(t, s, 300, 200)
	e := first.entry
	e.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	for range 20 {
		e.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(0, -4)})
	}
	e.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	e.DragEnd()
	if s.Offset() != 80 {
		t.Errorf("scrolled to %.0f, want 80", s.Offset())
	}
	if win.Canvas().Focused() != nil {
		t.Error("the swipe moved the focus")
	}

	e.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	e.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(3, 2)})
	e.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	e.DragEnd()
	if win.Canvas().Focused() != e {
		t.Error("a tap with a slip did not give the entry the focus")
	}
}

func TestWhatHasTheFocusStaysInViewWhenTheRoomShrinks(t *testing.T) {
	s, buttons, _ := tall(t)
	s.ScrollTo(buttons[7])
	s.Resize(fyne.NewSize(300, 160))
	if !s.inView(buttons[7]) {
		t.Errorf("it is out of view at %.0f, scrolled to %.0f", s.topOf(buttons[7]), s.Offset())
	}
	// What was scrolled away by hand does not come back.
	s.SetOffset(900)
	s.Resize(fyne.NewSize(300, 120))
	if s.Offset() < 800 {
		t.Errorf("scrolled back to %.0f", s.Offset())
	}
}
