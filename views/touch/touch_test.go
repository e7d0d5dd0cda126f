package touch

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// show puts content in a window of a size, with our own look.
func show(t *testing.T, content fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	win := test.NewTempWindow(t, content)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

// finger comes down on o, moves by (dx, dy) in steps, and goes up, as the
// desktop driver tells of it when body takes the drag.
func finger(o desktop.Mouseable, body *scrollBody, steps int, dx, dy float32) {
	at := fyne.NewPos(100, 100)
	ev := fyne.PointEvent{AbsolutePosition: at, Position: fyne.NewPos(10, 10)}
	o.MouseDown(&desktop.MouseEvent{PointEvent: ev, Button: desktop.MouseButtonPrimary})
	for range steps {
		at = at.AddXY(dx, dy)
		body.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{AbsolutePosition: at}, Dragged: fyne.NewDelta(dx, dy)})
	}
	body.MouseUp(&desktop.MouseEvent{})
	body.DragEnd()
}

// typeIn types into whatever has the focus.
func typeIn(win fyne.Window, text string) {
	for _, r := range text {
		win.Canvas().Focused().TypedRune(r)
	}
}

func hit(win fyne.Window, name fyne.KeyName) {
	win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

// everything makes one of each input.
func everything(form *Form) fyne.CanvasObject {
	f := NewField(form, "mold.depth", "Depth", Length)
	f.OnStep = func(int) {}
	f.SetInstruments([]Option{{"tape", "tape ±1 mm"}, {"rule", "rule ±0.5 mm"}}, "rule")
	f.SetHelp("Floor to rim.")
	bench := NewStyledButton("Pour is done", Primary, nil)
	bench.Bench = true
	return container.NewBorder(nil, NewKeypad(form), nil, nil, NewScroll(container.NewVBox(
		f,
		NewTextField(form, "name", "Name", 1),
		NewTextField(form, "note", "Note", 3),
		NewButton("+", nil), NewStyledButton("Less", Quiet, nil), NewStyledButton("Remove", Danger, nil), bench,
		NewChoice([]Option{{"a", "A"}, {"b", "B"}, {"c", "C"}}, "a", nil),
		NewSelect("Species", []Option{{"w", "Walnut"}, {"o", "Oak"}}, nil),
		NewToggle("Sealed", false, nil),
		NewRow(NewText("A board in a list", Body, Ink), nil),
		NewFindingRow(Stop, "Too thick.", "60 mm.", "Pour two layers.", nil),
		NewCard("Mix", NewText("412 g", Body, Ink), NewButton("Add", nil)),
	)))
}

func TestEveryTargetFitsAFinger(t *testing.T) {
	form := NewForm()
	win := show(t, everything(form), 900, 700)
	seen := 0
	for _, o := range test.LaidOutObjects(win.Content()) {
		switch o.(type) {
		case *Keypad, *scrollBody:
			continue
		case fyne.Tappable:
		default:
			continue
		}
		// The toolkit's scroll bar is a second way; a swipe anywhere scrolls.
		if !o.Visible() || strings.Contains(fmt.Sprintf("%T", o), "scrollBar") {
			continue
		}
		seen++
		if s := o.Size(); s.Width < look.Target || s.Height < look.Target {
			t.Errorf("%T is %v, want at least %.0f each way", o, s, look.Target)
		}
	}
	if seen < 35 {
		t.Errorf("saw only %d targets", seen)
	}
}

func TestBenchButtonFitsAGlove(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	b := NewButton("Done", nil)
	b.Bench = true
	if got := b.MinSize().Height; got < look.Bench {
		t.Errorf("a bench button is %.0f high, want %.0f", got, look.Bench)
	}
}

// Both lights draw everything; the pictures must differ, or the colours are
// not taken from the palette anew.
func TestEverythingFollowsTheLight(t *testing.T) {
	form := NewForm()
	win := show(t, everything(form), 900, 900)
	light := win.Canvas().Capture().At(450, 890)
	fyne.CurrentApp().Settings().SetTheme(look.New(look.Dark))
	win.Content().Refresh()
	if dark := win.Canvas().Capture().At(450, 890); light == dark {
		t.Errorf("the keypad's ground is %v in both lights", dark)
	}
}

func TestTabWalksInReadingOrder(t *testing.T) {
	form := NewForm()
	win := show(t, everything(form), 900, 700)
	want := []string{
		"*touch.entry", "*touch.Select", "*touch.entry", "*touch.entry",
		"*touch.Button", "*touch.Button", "*touch.Button", "*touch.Button",
		"*touch.Choice", "*touch.Select", "*touch.Toggle", "*touch.Row", "*touch.FindingRow", "*touch.Button",
		"*touch.entry",
	}
	for i, w := range want {
		test.FocusNext(win.Canvas())
		if got := fmt.Sprintf("%T", win.Canvas().Focused()); got != w {
			t.Fatalf("stop %d of the Tab key is %s, want %s", i+1, got, w)
		}
	}
}
