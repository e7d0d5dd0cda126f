package touch

import (
	"testing"

	"fyne.io/fyne/v2"
)

// What leads to an input selects what stands there, also where the input has
// the focus already, so that typing replaces it; what is being typed stays.
func TestFocusSelects(t *testing.T) {
	form, a, _, _, win, _ := two(t)
	a.SetText("264 mm")
	win.Canvas().Focus(a.entry)
	a.entry.toEnd()
	if !form.Ready(a.Path()) || !form.Focus(a.Path()) || a.entry.SelectedText() != "264 mm" {
		t.Errorf("selected is %q", a.entry.SelectedText())
	}
	a.entry.draft("26")
	if form.Focus(a.Path()); a.entry.SelectedText() != "" {
		t.Errorf("what is being typed is selected: %q", a.entry.SelectedText())
	}
	if form.Ready("nowhere") {
		t.Error("an input that is not there is ready")
	}
}

// The Tab key is not typed into words of several lines: the keyboard would not
// get past them.
func TestTabLeavesANote(t *testing.T) {
	form := NewForm()
	note := NewTextField(form, "note", "Note", 3)
	if tab, ok := note.target().(fyne.Tabbable); !ok || tab.AcceptsTab() {
		t.Error("a note keeps the Tab key")
	}
}
