package touch

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

func TestRowTapsThroughASlipAndLeavesSwipesAlone(t *testing.T) {
	taps := 0
	row := NewRow(NewBrief("Tray", Strong, Ink), func() { taps++ })
	tall := container.NewVBox(row)
	for range 30 {
		tall.Add(NewRow(NewBrief("Other", Body, Ink), nil))
	}
	scroll := NewScroll(tall)
	show(t, scroll, 300, 200)
	finger(row, scroll.body, 3, 1, 2)
	if taps != 1 || scroll.Offset() != 0 {
		t.Errorf("a slip: %d taps, scrolled by %v", taps, scroll.Offset())
	}
	finger(row, scroll.body, 10, 0, -8)
	if taps != 1 || scroll.Offset() == 0 {
		t.Errorf("a swipe: %d taps, scrolled by %v", taps, scroll.Offset())
	}
}

func TestRowByKeyboard(t *testing.T) {
	taps, moved := 0, 0
	row := NewRow(NewBrief("Tray", Strong, Ink), func() { taps++ })
	row.OnMove = func(dir int) { moved += dir }
	win := show(t, row, 300, 100)
	row.Focus()
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeySpace, fyne.KeyDown, fyne.KeyDown, fyne.KeyUp} {
		hit(win, key)
	}
	if taps != 2 || moved != 1 {
		t.Errorf("%d taps, moved by %d", taps, moved)
	}
}

func TestBriefShortens(t *testing.T) {
	measure := func(s string) float32 { return float32(len([]rune(s))) }
	for _, c := range []struct {
		text  string
		width float32
		want  string
	}{
		{"shelf", 5, "shelf"},
		{"shelves", 5, "shel…"},
		{"Übung", 3, "Üb…"},
		{"ab", 0, "…"},
		{"", 0, ""},
	} {
		if got := shorten(c.text, c.width, measure); got != c.want {
			t.Errorf("%q in %v: %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestSearchTellsOfEachChange(t *testing.T) {
	var seen []string
	s := NewSearch("Search", func(text string) { seen = append(seen, text) })
	moved, entered := 0, 0
	s.OnMove = func(dir int) { moved += dir }
	s.OnEnter = func() { entered++ }
	win := show(t, s, 300, 100)
	s.Focus()
	typeIn(win, "oak")
	hit(win, fyne.KeyDown)
	hit(win, fyne.KeyReturn)
	if len(seen) != 3 || seen[2] != "oak" || moved != 1 || entered != 1 {
		t.Errorf("told of %q, moved %d, entered %d", seen, moved, entered)
	}
	hit(win, fyne.KeyEscape)
	if s.Text() != "" || seen[len(seen)-1] != "" {
		t.Errorf("after Escape %q", s.Text())
	}
}
