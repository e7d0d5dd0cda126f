package touch

import (
	"testing"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// TestTakeBack: typing that nothing keeps yet is taken back and brought back; an
// input that hands over each key leaves that to who keeps it.
func TestTakeBack(t *testing.T) {
	form := NewForm()
	plain := NewField(form, "plain", "Plain", Number)
	kept := NewField(form, "kept", "Kept", Number)
	kept.OnDraft = func(string) {}
	words := NewTextField(form, "words", "Words", 1)
	search := NewSearch("", nil)
	foreign := widget.NewEntry()
	win := show(t, container.NewVBox(plain, kept, words, search, foreign), 600, 600)
	for name, c := range map[string]struct {
		focus func()
		text  func() string
		takes bool
	}{
		"a field":            {func() { form.Focus("plain") }, plain.Text, true},
		"a field that hands": {func() { form.Focus("kept") }, kept.Text, false},
		"words":              {func() { form.Focus("words") }, words.Text, true},
		"a search":           {search.Focus, search.Text, true},
		"a foreign entry":    {func() { win.Canvas().Focus(foreign) }, func() string { return foreign.Text }, true},
	} {
		c.focus()
		typeIn(win, "12")
		if got := TakeBack(win.Canvas()); got != c.takes || (c.text() == "") != c.takes {
			t.Errorf("%s: taken back %v, left %q", name, got, c.text())
		}
		if got := BringBack(win.Canvas()); got != c.takes || c.text() != "12" {
			t.Errorf("%s: brought back %v, there is %q", name, got, c.text())
		}
	}
	win.Canvas().Unfocus()
	if TakeBack(win.Canvas()) {
		t.Error("something is taken back where nothing has the focus")
	}
}

// TestFlashIsStillWhereAsked is the curve of a glow that does not fade.
func TestFlashIsStillWhereAsked(t *testing.T) {
	for at, want := range map[float32]float32{0: 0, 0.5: 0, 0.99: 0, 1: 1} {
		if got := steady(at); got != want {
			t.Errorf("at %v: %v", at, got)
		}
	}
}
