package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
)

// rebuilt is a part in a scroller, with a button above it and below it.
func rebuilt(t *testing.T, part fyne.CanvasObject) fyne.Window {
	return show(t, container.NewVBox(NewButton("Above", nil), NewScroll(part), NewButton("Below", nil)), 500, 700)
}

// TestKeepFocus: where a part is built anew the focus goes to what is the same
// there, by path or by words, else to what stands where it stood, and stays where it
// is when it is not in the part or build leads it elsewhere.
func TestKeepFocus(t *testing.T) {
	part := container.NewVBox()
	win := rebuilt(t, part)
	c := win.Canvas()
	fill := func(objects ...fyne.CanvasObject) func() {
		return func() { part.Objects = objects; part.Refresh() }
	}
	button := func(label string) *Button { return NewButton(label, nil) }

	one, two, three := button("One"), NewToggle("Two", false, nil), button("Three")
	fill(one, two, three)()
	c.Focus(two)
	again := NewToggle("Two", true, nil)
	KeepFocus(part, fill(button("New"), button("One"), NewCard("In a card", again)))
	if c.Focused() != fyne.Focusable(again) || !again.focused {
		t.Errorf("beside a new one the focus is on %T, marked %v", c.Focused(), again.focused)
	}
	last := button("Other")
	KeepFocus(part, fill(button("One"), last))
	if c.Focused() != fyne.Focusable(last) {
		t.Errorf("of one that is gone the focus went to %T", c.Focused())
	}
	a, b := button("Take it out"), button("Take it out")
	fill(a, b)()
	c.Focus(b)
	x, y := button("Take it out"), button("Take it out")
	KeepFocus(part, fill(x, y))
	if c.Focused() != fyne.Focusable(y) {
		t.Error("of two by the same words it went to the other")
	}
	KeepFocus(part, fill(x, button("Before"), y))
	if c.Focused() != fyne.Focusable(y) {
		t.Error("it left what is still there")
	}
	gone := button("Take it out")
	gone.Disable()
	KeepFocus(part, fill(gone))
	if c.Focused() != nil {
		t.Errorf("it is on %T, which is not there or takes none", c.Focused())
	}

	fill(button("One"))()
	c.FocusNext()
	above := c.Focused()
	KeepFocus(part, fill(button("One")))
	if c.Focused() != above {
		t.Error("it left a control beside the part")
	}
	c.Focus(part.Objects[0].(*Button))
	KeepFocus(part, func() { fill(button("One"))(); c.Focus(above) })
	if c.Focused() != above {
		t.Error("it left what it was led to")
	}
}

// TestKeepFocusWhileTyping: an input that is built anew in the middle of a word goes
// on with it: the next letter is added, and what stands there is not selected.
func TestKeepFocusWhileTyping(t *testing.T) {
	form := NewForm()
	part := container.NewVBox(NewField(form, "mold/length", "Length", Length))
	win := rebuilt(t, part)
	form.Focus("mold/length")
	typeIn(win, "12")
	var drafts []string
	KeepFocus(part, func() {
		form.CommitAll()
		f := NewField(form, "mold/length", "Length", Length)
		f.OnDraft = func(text string) { drafts = append(drafts, text) }
		part.Objects = []fyne.CanvasObject{NewField(form, "mold/width", "Width", Length), f}
		part.Refresh()
	})
	typeIn(win, "5")
	if text, typing := form.Input("mold/length").Pending(); text != "125" || !typing {
		t.Errorf("it says %q, told %q", text, drafts)
	}
}

// TestKeepFocusOfATap: a focus that came from a finger is not shown afterwards
// either.
func TestKeepFocusOfATap(t *testing.T) {
	one := NewButton("One", nil)
	part := container.NewVBox(one)
	win := rebuilt(t, part)
	one.Tapped(nil)
	again := NewButton("One", nil)
	KeepFocus(part, func() { part.Objects = []fyne.CanvasObject{again}; part.Refresh() })
	if win.Canvas().Focused() != fyne.Focusable(again) || again.focused {
		t.Errorf("the focus is on %T, marked %v", win.Canvas().Focused(), again.focused)
	}
}

// TestHeldKeyDoesNothingMore: a key that is held while its button is built anew, and
// so repeats on the new one, does nothing there before it is pressed again.
func TestHeldKeyDoesNothingMore(t *testing.T) {
	taken := 0
	part := container.NewVBox()
	var build func()
	build = func() {
		take := func() { taken++; KeepFocus(part, build) }
		part.Objects = []fyne.CanvasObject{NewButton("Take it out", take), NewToggle("Measured", true, func(bool) { take() }), NewRow(NewText("A row", Body, Ink), take)}
		part.Refresh()
	}
	build()
	win := rebuilt(t, part)
	for i := range part.Objects {
		taken = 0
		win.Canvas().Focus(part.Objects[i].(fyne.Focusable))
		space := &fyne.KeyEvent{Name: fyne.KeySpace}
		for range 5 { // as a desktop repeats it
			win.Canvas().Focused().TypedKey(space)
		}
		if taken != 1 {
			t.Errorf("%T: held, it acted %d times", part.Objects[i], taken)
		}
		win.Canvas().Focused().(desktop.Keyable).KeyUp(space)
		win.Canvas().Focused().(desktop.Keyable).KeyDown(space)
		win.Canvas().Focused().TypedKey(space)
		if taken != 2 {
			t.Errorf("%T: pressed again, it acted %d times", part.Objects[i], taken)
		}
	}
}

// TestEscapeGoesToTheWindow: Escape in a control that means nothing by it does what
// it does where nothing has the focus, from inside a scroller and a card too; in an
// entry it first takes back what is typed.
func TestEscapeGoesToTheWindow(t *testing.T) {
	form := NewForm()
	left := 0
	f := NewField(form, "mold/length", "Length", Length)
	search := NewSearch("Look for", nil)
	own := NewButton("Own", nil)
	own.OnEscape = func() {}
	all := []fyne.Focusable{
		NewButton("Button", nil), NewToggle("Toggle", false, nil), NewChoice([]Option{{"a", "A"}}, "a", nil),
		NewSelect("Select", nil, nil), NewRow(NewText("Row", Body, Ink), nil), NewSlider("Slider", 0, 1, 0, nil),
		NewOpens("12 g", Body, nil), NewFindingRow(Check, "Finding", "", "", nil),
	}
	box := container.NewVBox(f, search, own)
	for _, w := range all {
		box.Add(w.(fyne.CanvasObject))
	}
	win := rebuilt(t, NewCard("Card", box))
	win.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyEscape {
			left++
		}
	})
	for i, w := range append(all, f.entry, search.entry) {
		win.Canvas().Focus(w)
		hit(win, fyne.KeyEscape)
		if left != i+1 {
			t.Errorf("%T: left %d times after %d keys", w, left, i+1)
			left = i + 1
		}
	}
	before := left
	typeIn(win, "x")
	hit(win, fyne.KeyEscape)
	if left != before {
		t.Error("Escape left with something to take back")
	}
	win.Canvas().Focus(own)
	hit(win, fyne.KeyEscape)
	if left != before {
		t.Error("Escape left where it means something else")
	}
}
