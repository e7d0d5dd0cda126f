package touch

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// logged makes a field that notes in log what it tells.
func logged(form *Form, path string, log *[]string) *Field {
	f := NewField(form, path, path, Length)
	f.OnCommit = func(text string) { *log = append(*log, path+"="+text) }
	return f
}

// two makes a window with two fields and a button.
func two(t *testing.T) (form *Form, a, b *Field, button *Button, win fyne.Window, log *[]string) {
	t.Helper()
	log = new([]string)
	form = NewForm()
	a, b = logged(form, "a", log), logged(form, "b", log)
	button = NewButton("Pour", func() { *log = append(*log, "pour") })
	win = show(t, container.NewVBox(a, b, button), 400, 400)
	return form, a, b, button, win, log
}

func wantLog(t *testing.T, log *[]string, want ...string) {
	t.Helper()
	if !slices.Equal(*log, want) {
		t.Errorf("told %q, want %q", *log, want)
	}
}

func TestEnterCommitsAndGoesOn(t *testing.T) {
	_, a, b, _, win, log := two(t)
	win.Canvas().Focus(a.entry)
	typeIn(win, "10 3/8 in")
	wantLog(t, log)
	hit(win, fyne.KeyReturn)
	wantLog(t, log, "a=10 3/8 in")
	if win.Canvas().Focused() != b.entry {
		t.Error("Enter does not go on to the next field")
	}
	hit(win, fyne.KeyEnter)
	wantLog(t, log, "a=10 3/8 in")
	if win.Canvas().Focused() != a.entry {
		t.Error("from the last field Enter does not go round to the first")
	}
}

// TestEnterStays: where one reading follows another Enter leaves the focus, and
// what is typed next stands in place of the last reading.
func TestEnterStays(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.Stays = true
	win.Canvas().Focus(a.entry)
	typeIn(win, "600 g")
	hit(win, fyne.KeyReturn)
	if win.Canvas().Focused() != a.entry {
		t.Fatal("Enter goes on to another field")
	}
	typeIn(win, "674 g")
	hit(win, fyne.KeyReturn)
	wantLog(t, log, "a=600 g", "a=674 g")
}

func TestButtonCommitsFirst(t *testing.T) {
	_, a, _, button, win, log := two(t)
	win.Canvas().Focus(a.entry)
	typeIn(win, "5")
	button.Tapped(nil)
	wantLog(t, log, "a=5", "pour")
}

func TestCommitAll(t *testing.T) {
	form, a, _, _, win, log := two(t)
	win.Canvas().Focus(a.entry)
	typeIn(win, "5")
	form.CommitAll()
	form.CommitAll()
	wantLog(t, log, "a=5")
	win.Canvas().Unfocus()
	wantLog(t, log, "a=5")
}

func TestTextIsSelectedOnFocus(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.SetText("264 mm")
	win.Canvas().Focus(a.entry)
	if got := a.entry.SelectedText(); got != "264 mm" {
		t.Errorf("selected %q", got)
	}
	typeIn(win, "8")
	win.Canvas().Unfocus()
	wantLog(t, log, "a=8")
}

func TestTapSelectsAllAndASecondPlacesTheCaret(t *testing.T) {
	_, a, _, _, win, _ := two(t)
	a.SetText("264 mm")
	tap := func() {
		a.entry.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
		a.entry.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	}
	tap()
	if win.Canvas().Focused() != a.entry || a.entry.SelectedText() != "264 mm" {
		t.Errorf("after a tap %q is selected", a.entry.SelectedText())
	}
	tap()
	if got := a.entry.SelectedText(); got != "" {
		t.Errorf("after a second tap %q is selected", got)
	}
}

func TestSetTextLeavesEditingAlone(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.SetText("264 mm")
	win.Canvas().Focus(a.entry)
	a.SetText("265 mm")
	if a.Text() != "265 mm" {
		t.Errorf("a focused field that is not being edited shows %q", a.Text())
	}
	typeIn(win, "9")
	a.SetText("270 mm")
	if !strings.HasSuffix(a.Text(), "9") {
		t.Errorf("typing was overwritten by %q", a.Text())
	}
	hit(win, fyne.KeyReturn)
	if len(*log) != 1 {
		t.Errorf("told %q", *log)
	}
	a.SetText("270 mm")
	if a.Text() != "270 mm" {
		t.Errorf("after the commit it shows %q", a.Text())
	}
}

func TestEscapeGoesBack(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.SetText("264 mm")
	win.Canvas().Focus(a.entry)
	typeIn(win, "1")
	hit(win, fyne.KeyEscape)
	if a.Text() != "264 mm" {
		t.Errorf("shows %q", a.Text())
	}
	win.Canvas().Unfocus()
	wantLog(t, log)
}

func TestDraftsAreToldAndKept(t *testing.T) {
	_, a, b, _, win, log := two(t)
	var drafts []string
	a.OnDraft = func(text string) { drafts = append(drafts, text) }
	a.SetText("3")
	win.Canvas().Focus(a.entry)
	typeIn(win, "1x")
	if !slices.Equal(drafts, []string{"1", "1x"}) {
		t.Errorf("drafts %q", drafts)
	}
	if text, ok := a.Pending(); !ok || text != "1x" {
		t.Errorf("pending %q, %v", text, ok)
	}
	hit(win, fyne.KeyEscape)
	b.Restore("7/")
	if text, ok := b.Pending(); !ok || text != "7/" {
		t.Errorf("restored %q, %v", text, ok)
	}
	wantLog(t, log)
}

func TestSteps(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.OnStep = func(dir int) { *log = append(*log, map[int]string{1: "up", -1: "down"}[dir]) }
	a.Refresh()
	if !a.less.Visible() || !a.more.Visible() {
		t.Error("no step keys")
	}
	win.Canvas().Focus(a.entry)
	typeIn(win, "4")
	a.more.Tapped(nil)
	if win.Canvas().Focused() != a.entry {
		t.Error("a step moved the focus")
	}
	hit(win, fyne.KeyDown)
	wantLog(t, log, "a=4", "up", "down")
}

func TestFieldShowsWhatIsSet(t *testing.T) {
	_, a, _, _, _, _ := two(t)
	before := a.MinSize().Height
	a.SetHelp("Wall to wall.")
	a.SetProblem("it is longer than the mold.")
	if a.MinSize().Height <= before+20 {
		t.Error("the help and the problem take no room")
	}
	if got := a.problem.words.Text(); got != "Stop: it is longer than the mold." || !a.problem.Visible() {
		t.Errorf("the problem reads %q", got)
	}
	a.SetProblem("")
	if a.problem.Visible() {
		t.Error("the problem stays")
	}
	a.SetUnit("mm")
	a.SetText("264")
	if !a.unit.Visible() {
		t.Error("a bare number shows no unit")
	}
	a.SetText("10 3/8 in")
	if a.unit.Visible() {
		t.Error("a stated unit is shown twice")
	}
	a.SetText("")
	a.SetPlaceholder("1.073 g/ml")
	if a.unit.Visible() {
		t.Error("the unit of a usual value is shown twice")
	}
	a.SetPlaceholder("")
	if !a.unit.Visible() {
		t.Error("an empty entry shows no unit")
	}
}

func TestInstrument(t *testing.T) {
	_, a, _, _, win, log := two(t)
	a.SetInstruments([]Option{{"tape", "tape ±1 mm"}, {"rule", "rule ±0.5 mm"}}, "tape")
	a.OnInstrument = func(id string) { *log = append(*log, id) }
	win.Canvas().Focus(a.instrument)
	hit(win, fyne.KeyDown)
	wantLog(t, log, "rule")
}

func TestFormFocusLeadsToTheField(t *testing.T) {
	form := NewForm()
	box := container.NewVBox()
	for _, path := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
		box.Add(NewField(form, path, path, Length))
	}
	s := NewScroll(box)
	var focused []string
	form.OnFocus = func(path string) { focused = append(focused, path) }
	win := show(t, s, 300, 160)
	if !form.Focus("h") {
		t.Fatal("the field is not there")
	}
	h := form.Field("h")
	if win.Canvas().Focused() != h.entry {
		t.Error("the field has not the focus")
	}
	if top := h.Position().Y - s.Offset(); top < 0 || top+h.Size().Height > 160 {
		t.Errorf("the field is at %.0f, out of view", top)
	}
	if !slices.Equal(focused, []string{"h"}) {
		t.Errorf("told of the focus on %q", focused)
	}
	if form.Focus("nowhere") {
		t.Error("found a field that is not there")
	}
	form.Remove("h")
	if form.Field("h") != nil || form.Focus("h") || len(form.Paths()) != 7 {
		t.Error("a removed field is still there")
	}
}

func TestTextFieldCommits(t *testing.T) {
	var told []string
	form := NewForm()
	name, note := NewTextField(form, "name", "Name", 1), NewTextField(form, "note", "Note", 3)
	name.OnCommit = func(text string) { told = append(told, text) }
	note.OnCommit = name.OnCommit
	win := show(t, container.NewVBox(name, note), 400, 400)
	win.Canvas().Focus(name.entry)
	typeIn(win, "Walnut")
	hit(win, fyne.KeyReturn)
	if win.Canvas().Focused() != note.entry {
		t.Error("Enter does not go on to the note")
	}
	typeIn(win, "dry")
	hit(win, fyne.KeyReturn)
	typeIn(win, "flat")
	test.FocusPrevious(win.Canvas())
	if !slices.Equal(told, []string{"Walnut", "dry\nflat"}) {
		t.Errorf("told %q", told)
	}
}
