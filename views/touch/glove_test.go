package touch

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"meniscus/views/look"
)

// TestGloveLeavesTheFocus: what holds the focus keeps it while a button is
// touched, and Tab passes the button by.
func TestGloveLeavesTheFocus(t *testing.T) {
	touched := 0
	g := NewGlove("B is in", Primary, 58, func() { touched++ })
	if !g.Disabled() || !g.Primary() || g.Marked() {
		t.Error("it takes part in the focus")
	}
	if s := g.MinSize(); s.Width < look.Glove || s.Height < look.Glove {
		t.Errorf("it is %v at least", s)
	}
	g.SetMarked(true)
	g.Tapped(&fyne.PointEvent{})
	if touched != 1 || !g.Marked() {
		t.Errorf("touched %d times", touched)
	}
	for _, wide := range []float32{90, 200, 700} {
		g.Resize(fyne.NewSize(wide, look.Glove))
		test.WidgetRenderer(g).Layout(g.Size())
		if g.words.Cut() {
			t.Errorf("the words are cut off at %v", wide)
		}
	}
}

// TestFitUsesItsRoom: as large as the room allows, never wider or higher, in no
// more lines than told.
func TestFitUsesItsRoom(t *testing.T) {
	text := "Touch the smoke-grey base with a gloved finger"
	was := float32(0)
	for _, room := range []fyne.Size{{Width: 300, Height: 60}, {Width: 600, Height: 90}, {Width: 1200, Height: 160}} {
		f := NewFit(200, 8, 2)
		f.SetText(text)
		f.Resize(room)
		test.WidgetRenderer(f).Layout(room)
		if f.Cut() || f.TextSize() <= was || len(f.lines) > 2 {
			t.Errorf("in %v: size %v, %d lines, cut off: %v", room, f.TextSize(), len(f.lines), f.Cut())
		}
		was = f.TextSize()
		high := float32(0)
		for _, line := range f.lines {
			if line.MinSize().Width > room.Width {
				t.Errorf("in %v: %q is %v wide", room, line.Text, line.MinSize().Width)
			}
			high += line.MinSize().Height
		}
		if high > room.Height {
			t.Errorf("in %v: %v high", room, high)
		}
	}
	// Digits that change leave the size as it is.
	f := NewFit(200, 8, 1)
	f.Resize(fyne.NewSize(400, 300))
	f.SetLike("1:11", "0:00")
	size := f.TextSize()
	f.SetLike("8:58", "0:00")
	if f.TextSize() != size {
		t.Errorf("%v, then %v", size, f.TextSize())
	}
	// Measured for another room, they stay where they are.
	was, at := f.HeightIn(fyne.NewSize(400, 100)), f.lines[0].Position()
	if high := f.HeightIn(fyne.NewSize(400, 900)); high < was || f.lines[0].Position() != at || f.size != f.Size() {
		t.Errorf("measured: %v high, at %v", high, f.lines[0].Position())
	}
	f.Least = 100
	f.SetText(strings.Repeat("wide ", 20))
	if !f.Cut() {
		t.Error("it does not tell that it is cut off")
	}
}
