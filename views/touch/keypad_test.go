package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// padded makes a window with two fields of a kind and the keypad.
func padded(t *testing.T, kind Kind) (a, b *Field, pad *Keypad, win fyne.Window, log *[]string) {
	t.Helper()
	log = new([]string)
	form := NewForm()
	a, b = NewField(form, "a", "Depth", kind), NewField(form, "b", "Width", kind)
	a.OnCommit = func(text string) { *log = append(*log, text) }
	a.OnStep = func(dir int) { *log = append(*log, map[int]string{1: "up", -1: "down"}[dir]) }
	pad = NewKeypad(form)
	win = show(t, container.NewBorder(nil, pad, nil, nil, container.NewVBox(a, b)), 1000, 600)
	return a, b, pad, win, log
}

func pressKeys(t *testing.T, pad *Keypad, labels ...string) {
	t.Helper()
	for _, label := range labels {
		if !pad.Press(label) {
			t.Fatalf("the pad has no key %q", label)
		}
	}
}

func TestKeypadWritesAsAMakerDoes(t *testing.T) {
	for _, c := range []struct {
		kind Kind
		keys []string
		want string
	}{
		{Length, []string{"1", "0", "½"}, "10 1/2"},
		{Length, []string{"1", "0", "½", "⅛", "in"}, "10 5/8 in"},
		{Length, []string{"1", "0", "¾", "in", "⌫"}, "10 3/4"},
		{Length, []string{"5", "ft", "3", "in"}, "5 ft 3 in"},
		{Length, []string{"1⁄16", "⅛"}, "3/16"},
		{Length, []string{"2", "6", ".", "5", "cm", "mm"}, "26.5 mm"},
		{Length, []string{"4", "±"}, "-4"},
		{Length, []string{"1", "space", "5", "/", "8"}, "1 5/8"},
		{Mass, []string{"4", "1", "2", "g"}, "412 g"},
		{Temperature, []string{"2", "1", "°C"}, "21 °C"},
		{Volume, []string{"1", ".", "4", "L"}, "1.4 L"},
		{Time, []string{"1", "h", "3", "0", "min"}, "1 h 30 min"},
		{Percent, []string{"1", "2", "%", "⌫", "⌫"}, "1"},
		{Ratio, []string{"2", ":", "1"}, ""},
		{Number, []string{"7", "clear", "8"}, "8"},
	} {
		a, _, pad, win, _ := padded(t, c.kind)
		win.Canvas().Focus(a.entry)
		if c.kind == Ratio {
			c.want = "2:1"
		}
		pressKeys(t, pad, c.keys...)
		if a.Text() != c.want {
			t.Errorf("%q write %q, want %q", c.keys, a.Text(), c.want)
		}
		if win.Canvas().Focused() != a.entry {
			t.Errorf("%q took the focus away", c.keys)
		}
	}
}

func TestKeypadTellsOneDraftAKey(t *testing.T) {
	a, _, pad, win, _ := padded(t, Length)
	var drafts []string
	a.OnDraft = func(text string) { drafts = append(drafts, text) }
	win.Canvas().Focus(a.entry)
	pressKeys(t, pad, "1", "0", "½", "in")
	if len(drafts) != 4 || drafts[3] != "10 1/2 in" {
		t.Errorf("drafts %q", drafts)
	}
}

// The value stands selected when a field gets the focus: a digit or a fraction
// replaces it, a unit key changes its unit.
func TestKeypadOnASelectedValue(t *testing.T) {
	for key, want := range map[string]string{"8": "8", "½": "1/2", "in": "264 in", "⌫": ""} {
		a, _, pad, win, _ := padded(t, Length)
		a.SetText("264 mm")
		win.Canvas().Focus(a.entry)
		pressKeys(t, pad, key)
		if a.Text() != want {
			t.Errorf("%q makes %q, want %q", key, a.Text(), want)
		}
	}
}

func TestKeypadGoesOnAndBack(t *testing.T) {
	a, b, pad, win, log := padded(t, Length)
	win.Canvas().Focus(a.entry)
	pressKeys(t, pad, "3", "4", "Next")
	wantLog(t, log, "34")
	if win.Canvas().Focused() != b.entry || pad.field != b || pad.caption.Text() != "Width" {
		t.Error("Next does not go on")
	}
	pressKeys(t, pad, "Previous")
	if win.Canvas().Focused() != a.entry {
		t.Error("Previous does not go back")
	}
}

func TestKeypadFindsItsFieldAgain(t *testing.T) {
	a, _, pad, win, _ := padded(t, Length)
	win.Canvas().Focus(a.entry)
	win.Canvas().Unfocus()
	pressKeys(t, pad, "5")
	if a.Text() != "5" || win.Canvas().Focused() != a.entry {
		t.Errorf("wrote %q", a.Text())
	}
}

// A window that comes to the front gives the focus back to what had it: where that
// has left the form meanwhile, the pad does not turn to it again.
func TestKeypadForgetsWhatHasLeft(t *testing.T) {
	a, b, pad, _, _ := padded(t, Length)
	a.Said = "Width, at"
	a.form.noteFocus(a, true)
	if pad.field != a || pad.caption.Text() != "Width, at" {
		t.Errorf("the pad is at %q", pad.caption.Text())
	}
	a.form.Remove(a.Path())
	a.form.noteFocus(a, true)
	if pad.field != nil || pad.caption.Text() != "Touch a value to enter it" {
		t.Errorf("the pad is at %q, which is gone", pad.caption.Text())
	}
	b.form.noteFocus(b, true)
	if pad.field != b {
		t.Error("the pad does not turn to what is there")
	}
}

func TestKeypadWithoutAField(t *testing.T) {
	_, _, pad, _, _ := padded(t, Length)
	pressKeys(t, pad, "5", "⌫", "clear")
	for _, c := range pad.columns {
		for _, b := range c.keys {
			if !b.off {
				t.Fatalf("the key %q looks as if it would write", b.Label)
			}
		}
	}
}

func TestKeypadFitsAScreen(t *testing.T) {
	_, _, pad, win, _ := padded(t, Length)
	for kind := Number; kind <= Clock; kind++ {
		pad.SetKind(kind)
		win.Canvas().Capture()
		size := pad.MinSize()
		if size.Height > 260 || size.Width > 960 {
			t.Errorf("kind %d: the pad needs %v", kind, size)
		}
		keys := append(pad.nav, pad.fold)
		for _, c := range pad.columns {
			keys = append(keys, c.keys...)
		}
		for i, k := range keys {
			if k.Size().Width < 64 || k.Size().Height < 52 {
				t.Errorf("kind %d: key %q is %v", kind, k.Label, k.Size())
			}
			for _, other := range keys[:i] {
				if near(k, other) {
					t.Errorf("kind %d: %q and %q are closer than %v", kind, k.Label, other.Label, look.Gap)
				}
			}
			if label := test.WidgetRenderer(k).(*buttonRenderer).label.MinSize(); label.Width > k.Size().Width-4 {
				t.Errorf("kind %d: %q does not fit on its key", kind, k.Label)
			}
		}
	}
}

// near tells whether two objects are closer than the gap between targets.
func near(a, b fyne.CanvasObject) bool {
	gap := look.Gap - 0.5
	p, q, s, u := a.Position(), b.Position(), a.Size(), b.Size()
	return p.X < q.X+u.Width+gap && q.X < p.X+s.Width+gap && p.Y < q.Y+u.Height+gap && q.Y < p.Y+s.Height+gap
}

func TestKeypadFolds(t *testing.T) {
	_, _, pad, _, _ := padded(t, Length)
	pressKeys(t, pad, "Hide keys")
	if !pad.folded || pad.MinSize().Height > 60 {
		t.Errorf("folded it needs %v", pad.MinSize())
	}
	pressKeys(t, pad, "Show keys")
	if pad.folded {
		t.Error("it stays folded")
	}
}
