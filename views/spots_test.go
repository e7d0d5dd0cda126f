package views

import (
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"meniscus/views/touch"
)

// area is a rectangle in a window.
type area struct{ x0, y0, x1, y1 float32 }

func (a area) meet(b area) area {
	return area{max(a.x0, b.x0), max(a.y0, b.y0), min(a.x1, b.x1), min(a.y1, b.y1)}
}

// more tells by how much an area is larger than nothing in both directions.
func (a area) more() float32 { return min(a.x1-a.x0, a.y1-a.y0) }

// beyond tells by how much an area reaches past another.
func (a area) beyond(b area) float32 {
	return max(b.x0-a.x0, b.y0-a.y0, a.x1-b.x1, a.y1-b.y1)
}

// spot is something that a window shows, and where.
type spot struct {
	o      fyne.CanvasObject
	parent *spot
	area   area
	clip   area // that it must keep to: what stands in a scroller may go on below
	seen   area // that is to be seen of it
}

// spotsOf lists what a window of a size shows, each behind what it stands in.
func spotsOf(root fyne.CanvasObject, size fyne.Size) (list []*spot) {
	all := area{0, 0, size.Width, size.Height}
	var walk func(o fyne.CanvasObject, at fyne.Position, parent *spot, clip, seen area)
	walk = func(o fyne.CanvasObject, at fyne.Position, parent *spot, clip, seen area) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		s := &spot{o: o, parent: parent, clip: clip, area: area{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}}
		s.seen = s.area.meet(seen)
		list = append(list, s)
		if entry(o) {
			return // its words scroll within it
		}
		if _, ok := o.(*container.Scroll); ok {
			clip, seen = clip.meet(s.area), seen.meet(s.area)
			clip.y0, clip.y1 = -math.MaxFloat32, math.MaxFloat32
		}
		switch w := o.(type) {
		case *fyne.Container:
			for _, child := range w.Objects {
				walk(child, at, s, clip, seen)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(w).Objects() {
				walk(child, at, s, clip, seen)
			}
		}
	}
	walk(root, fyne.Position{}, nil, all, all)
	return list
}

// layOut lays out everything that a window shows, as the toolkit does at each frame
// until nothing asks for another size, which the one of the tests does not.
func layOut(o fyne.CanvasObject) {
	if o == nil || !o.Visible() {
		return
	}
	switch w := o.(type) {
	case *fyne.Container:
		if w.Layout != nil {
			w.Layout.Layout(w.Objects, w.Size())
		}
		for _, child := range w.Objects {
			layOut(child)
		}
	case fyne.Widget:
		r := test.WidgetRenderer(w)
		r.Layout(w.Size())
		for _, child := range r.Objects() {
			layOut(child)
		}
	}
}

// entry tells whether something is a line that is typed into.
func entry(o fyne.CanvasObject) bool {
	_, ok := o.(interface{ SelectedText() string })
	return ok
}

// in tells whether a spot stands in another.
func (s *spot) in(other *spot) bool {
	for ; s != nil; s = s.parent {
		if s == other {
			return true
		}
	}
	return false
}

// within tells whether a spot stands in something of a type, by its name.
func (s *spot) within(name string) bool {
	for ; s != nil; s = s.parent {
		if strings.Contains(fmt.Sprintf("%T", s.o), name) {
			return true
		}
	}
	return false
}

// target tells whether something is there to be touched. The toolkit's scroll bar is
// a second way, since a swipe anywhere scrolls, and what lies under a notice, a pad
// or a scroller only takes in touches that miss.
func (s *spot) target() bool {
	if _, ok := s.o.(fyne.Tappable); !ok {
		return false
	}
	for _, name := range []string{"scrollBar", "scrollBody", "touch.Keypad", "noticeGround"} {
		if strings.HasSuffix(fmt.Sprintf("%T", s.o), name) || strings.Contains(fmt.Sprintf("%T", s.o), "scrollBar") {
			return false
		}
	}
	return true
}

// drawn is the area that words are drawn on, which may be more than they were given.
func (s *spot) drawn() (area, bool) {
	text, ok := s.o.(*canvas.Text)
	if !ok || strings.TrimSpace(text.Text) == "" {
		return area{}, false
	}
	need, a := text.MinSize(), s.area
	switch spare := s.o.Size().Width - need.Width; text.Alignment {
	case fyne.TextAlignCenter:
		a.x0 += spare / 2
	case fyne.TextAlignTrailing:
		a.x0 += spare
	}
	a.x1 = a.x0 + need.Width
	const ink = 0.37 // of a line's height on either side of its middle: the rest is empty
	mid := (a.y0 + a.y1) / 2
	a.y0, a.y1 = mid-ink*need.Height, mid+ink*need.Height
	return a, true
}

// String names a spot in a failed test.
func (s *spot) String() string {
	words := ""
	for up := s; up != nil && words == ""; up = up.parent {
		words = brief(strings.Join(texts(up.o), " "), 50)
	}
	switch x := s.o.(type) {
	case *touch.Button:
		words = x.Label
	case *canvas.Text:
		words = x.Text
	}
	return fmt.Sprintf("%T %q at %.0f, %.0f, %.0f × %.0f", s.o, words, s.area.x0, s.area.y0, s.area.x1-s.area.x0, s.area.y1-s.area.y0)
}
