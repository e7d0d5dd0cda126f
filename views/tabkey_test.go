package views

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/drawing"
	"meniscus/views/look"
)

// TestTabGoesAsRead: in every part of every window the Tab key comes to all that can
// have the focus, once each, from top to bottom and from left to right, and round to
// the first again; and what has the focus is marked.
func TestTabGoesAsRead(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	all := stops(b)
	size := screens[0]
	for _, key := range everyWindow {
		b.desk.windows.Window(key).Resize(size)
	}
	for _, s := range all {
		s.turn()
		b.settle()
		checkTab(t, s.name, b.desk.windows.Window(s.key).Canvas(), b.spots(s.key, size))
	}
}

func checkTab(t *testing.T, where string, c fyne.Canvas, spots []*spot) {
	t.Helper()
	at := map[fyne.Focusable]*spot{}
	for _, s := range spots {
		f, ok := s.o.(fyne.Focusable)
		if off, can := s.o.(fyne.Disableable); ok && !(can && off.Disabled()) {
			at[f] = s
		}
	}
	c.Unfocus()
	bare := ringsOf(spots)
	c.FocusNext()
	first := c.Focused()
	seen := map[fyne.Focusable]bool{}
	var before *spot
	for f := first; f != nil && !seen[f]; f = c.Focused() {
		s := at[f]
		if s == nil {
			t.Errorf("%s: the Tab key comes to a %T that is not to be seen", where, f)
			break
		}
		if seen[f] = true; before != nil && back(before, s) {
			t.Errorf("%s: the Tab key goes back from %v to %v", where, before, s)
		}
		if _, drawn := s.o.(*drawing.Canvas); !drawn && ringsOf(spots) <= bare {
			t.Errorf("%s: %v has the focus and no mark", where, s)
		}
		before = s
		c.FocusNext()
	}
	if c.Focused() != first {
		t.Errorf("%s: the Tab key does not come round", where)
	}
	for f, s := range at {
		if !seen[f] {
			t.Errorf("%s: the Tab key never comes to %v", where, s)
		}
	}
	c.Unfocus()
}

// back tells whether what is read after something stands before it: above it and not
// in a column to the right, or to the left of it in the same line.
func back(from, to *spot) bool {
	a, b := from.area, to.area
	if x, y := from.scroller(), to.scroller(); x != y {
		a, b = a.into(x), b.into(y)
	}
	const slack = 2
	above := b.y1 <= a.y0+slack && b.x0 < a.x1-slack
	left := b.x1 <= a.x0+slack && b.y0 < a.y1-slack && a.y0 < b.y1-slack
	return above || left
}

// ringsOf counts the frames in ink that stand out 3:1 from any ground (WCAG 2.2,
// 1.4.11 and 2.4.7).
func ringsOf(spots []*spot) (n int) {
	p := look.Current()
	for _, s := range spots {
		for _, o := range parts(s.o) {
			if r, ok := o.(*canvas.Rectangle); ok && r.Visible() && r.StrokeWidth >= 2 && look.Contrast(r.StrokeColor, p.Ground) >= 3 && look.Contrast(r.StrokeColor, p.Panel) >= 3 {
				n++
			}
		}
	}
	return n
}

// parts are what a widget is drawn of.
func parts(o fyne.CanvasObject) []fyne.CanvasObject {
	if w, ok := o.(fyne.Widget); ok {
		return test.WidgetRenderer(w).Objects()
	}
	return nil
}

// scroller gives the scroller that a spot stands in; nil for none.
func (s *spot) scroller() *spot {
	for s = s.parent; s != nil; s = s.parent {
		if _, ok := s.o.(*container.Scroll); ok {
			return s
		}
	}
	return nil
}

// into gives an area as it is once it is scrolled into view.
func (a area) into(s *spot) area {
	if s != nil {
		a.y0, a.y1 = min(max(a.y0, s.area.y0), s.area.y1), min(max(a.y1, s.area.y0), s.area.y1)
	}
	return a
}
