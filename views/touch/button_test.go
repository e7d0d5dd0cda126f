package touch

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
)

func TestButtonKeys(t *testing.T) {
	taps := 0
	b := NewButton("Pour", func() { taps++ })
	win := show(t, container.NewVBox(b), 200, 200)
	win.Canvas().Focus(b)
	for _, k := range []fyne.KeyName{fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter, fyne.KeyA} {
		hit(win, k)
	}
	if taps != 3 {
		t.Errorf("%d taps, want 3", taps)
	}
	b.Disable()
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	test.Tap(b)
	if taps != 3 {
		t.Error("a disabled button did something")
	}
	b.Enable()
	test.Tap(b)
	if taps != 4 {
		t.Error("an enabled button did nothing")
	}
}

func TestFocusShowsForTheKeyboardOnly(t *testing.T) {
	b := NewButton("Pour", nil)
	win := show(t, container.NewVBox(b), 200, 200)
	ring := test.WidgetRenderer(b).(*buttonRenderer).ring
	test.Tap(b)
	if win.Canvas().Focused() != b || ring.Visible() {
		t.Errorf("after a tap: focus %v, ring %v", win.Canvas().Focused() == b, ring.Visible())
	}
	win.Canvas().Unfocus()
	test.FocusNext(win.Canvas())
	if !ring.Visible() {
		t.Error("the ring does not show after Tab")
	}
	if got := look3(ring.StrokeColor); got < 3 {
		t.Errorf("the ring has %.1f:1 against the ground", got)
	}
}

func TestDebounceDropsTheSecondTap(t *testing.T) {
	taps, now := 0, time.Unix(1000, 0)
	b := NewButton("Pour", func() { taps++ })
	b.Debounce, b.now = Settle, func() time.Time { return now }
	show(t, b, 200, 60)
	b.Tapped(nil)
	now = now.Add(299 * time.Millisecond)
	b.Tapped(nil)
	if taps != 1 {
		t.Errorf("%d taps within 300 ms, want 1", taps)
	}
	now = now.Add(time.Millisecond)
	b.Tapped(nil)
	if taps != 2 {
		t.Errorf("%d taps after 300 ms, want 2", taps)
	}
}

func TestPressShowsAndLetsGo(t *testing.T) {
	b := NewButton("Pour", nil)
	b.Icon = theme.ContentAddIcon()
	show(t, b, 200, 60)
	r := test.WidgetRenderer(b).(*buttonRenderer)
	before := r.face.FillColor
	b.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	if r.face.FillColor == before {
		t.Error("nothing shows that the button is pressed")
	}
	b.MouseUp(&desktop.MouseEvent{})
	if r.face.FillColor != before {
		t.Error("the button stays pressed")
	}
}

func TestSelect(t *testing.T) {
	var told []string
	s := NewSelect("Species", []Option{{"w", "Black walnut"}, {"o", "Oak"}}, func(id string) { told = append(told, id) })
	win := show(t, container.NewPadded(container.NewVBox(s)), 400, 400)
	if s.Label != "Species" {
		t.Errorf("shows %q", s.Label)
	}
	s.SetSelected("o")
	if s.Label != "Oak" || len(told) != 0 {
		t.Errorf("shows %q, told %v", s.Label, told)
	}
	win.Canvas().Focus(s)
	hit(win, fyne.KeyUp)
	hit(win, fyne.KeyUp)
	if s.Selected() != "w" || len(told) != 1 {
		t.Errorf("selected %q, told %v", s.Selected(), told)
	}
	hit(win, fyne.KeySpace)
	if win.Canvas().Overlays().Top() == nil {
		t.Fatal("no list opened")
	}
	if o, ok := win.Canvas().Focused().(*option); !ok || o.Label != "Black walnut" {
		t.Fatalf("the focus is on %T", win.Canvas().Focused())
	}
	hit(win, fyne.KeyEscape)
	if win.Canvas().Overlays().Top() != nil {
		t.Error("Escape left the list open")
	}
	s.Tapped(nil)
	hit(win, fyne.KeyDown)
	hit(win, fyne.KeyReturn)
	if s.Selected() != "o" || win.Canvas().Overlays().Top() != nil {
		t.Errorf("selected %q", s.Selected())
	}
}

// TestSelectThatIsGoneOpensNothing: a key that comes to a list which was taken away
// meanwhile, and has the focus still, opens nothing.
func TestSelectThatIsGoneOpensNothing(t *testing.T) {
	s := NewSelect("Species", []Option{{"w", "Black walnut"}, {"o", "Oak"}}, nil)
	box := container.NewVBox(s)
	win := show(t, container.NewPadded(box), 400, 400)
	win.Canvas().Focus(s)
	box.RemoveAll()
	box.Add(NewSelect("Another", nil, nil))
	hit(win, fyne.KeySpace)
	s.Tapped(nil)
	if win.Canvas().Overlays().Top() != nil {
		t.Error("a list that is gone opened")
	}
}

func TestSelectIsWideEnoughForEveryOption(t *testing.T) {
	s := NewSelect("", []Option{{"a", "A"}, {"b", "A very much longer option"}}, nil)
	show(t, s, 300, 60)
	s.SetSelected("a")
	short := s.MinSize()
	s.SetSelected("b")
	if got := s.MinSize(); got.Width-short.Width > 1 || short.Width-got.Width > 1 {
		t.Errorf("the width changes from %v to %v", short, got)
	}
}
