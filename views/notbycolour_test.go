package views

import (
	"image/color"
	"testing"
	"time"

	"fyne.io/fyne/v2/canvas"

	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// TestNothingIsToldByColourAlone: in every part of every window, before the first pour
// and after it, whatever is written or drawn in a colour that stands for something has
// the sign of that beside it: an octagon, a triangle or a tick (WCAG 2.2, 1.4.1). What
// a button is for stands on it in words.
func TestNothingIsToldByColourAlone(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	all := stops(b)
	b.resize(screens[0])
	met := map[touch.Level]int{}
	walk := func() {
		for _, s := range all {
			s.turn()
			b.settle()
			spots := b.spots(s.key, screens[0])
			for _, x := range spots {
				if twice(spots, x) {
					t.Errorf("%s: %v has two signs", s.name, x.parent)
				}
				level, ok := x.tells()
				if !ok || x.within("touch.Sign") || x.within("touch.Button") {
					continue
				}
				met[level]++
				if !hasSign(spots, x, level) {
					t.Errorf("%s: %v is told by its colour alone", s.name, x)
				}
			}
		}
	}
	walk()
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	b.clock.advance(time.Minute)
	rested(b)
	walk()
	for _, level := range []touch.Level{touch.Stop, touch.Check, touch.Fine} {
		if met[level] < 10 {
			t.Errorf("only %d of level %d were to be seen", met[level], level)
		}
	}
}

// tells gives what the colour of a spot stands for; false where for nothing.
func (s *spot) tells() (touch.Level, bool) {
	p := look.Current()
	for level, c := range map[touch.Level]color.NRGBA{touch.Stop: p.Stop, touch.Check: p.Check, touch.Fine: p.Good} {
		is := func(colours ...color.Color) bool {
			for _, x := range colours {
				if x == color.Color(c) {
					return true
				}
			}
			return false
		}
		told := false
		switch o := s.o.(type) {
		case *canvas.Text:
			told = o.Text != "" && is(o.Color)
		case *canvas.Rectangle:
			told = is(o.FillColor) || o.StrokeWidth > 0 && is(o.StrokeColor)
		case *canvas.Circle:
			told = is(o.FillColor) || o.StrokeWidth > 0 && is(o.StrokeColor)
		case *canvas.Polygon:
			told = is(o.FillColor)
		case *canvas.Line:
			told = is(o.StrokeColor)
		}
		if told {
			return level, true
		}
	}
	return 0, false
}

// hasSign tells whether the sign of a level stands beside a spot: in the same text, or at
// its height in the same line.
func hasSign(spots []*spot, s *spot, level touch.Level) bool {
	const apart = 4
	if _, ok := s.parent.o.(*touch.Text); ok {
		s = s.parent // with all its lines
	}
	for _, x := range spots {
		if o, ok := x.o.(*touch.Sign); ok && o.Level() == level {
			beside := x.area.y0 < s.area.y1+apart && x.area.y1 > s.area.y0-apart
			if x.near(s, 1) || beside && x.near(s, 5) {
				return true
			}
		}
	}
	return false
}

// twice tells whether a spot is the sign that a text has of its own, and another of its
// level stands before that line already.
func twice(spots []*spot, s *spot) bool {
	own := func(s *spot) bool { _, ok := s.parent.o.(*touch.Text); return ok }
	sign, ok := s.o.(*touch.Sign)
	if !ok || !own(s) {
		return false
	}
	for _, x := range spots {
		if o, ok := x.o.(*touch.Sign); ok && !own(x) && o.Level() == sign.Level() && x.area.y0 < s.area.y1 && x.area.y1 > s.area.y0 && x.near(s, 5) {
			return true
		}
	}
	return false
}

// near tells whether a spot stands in something that another stands in as well, so many
// steps up at most.
func (s *spot) near(other *spot, up int) bool {
	for ; other != nil && up >= 0; other, up = other.parent, up-1 {
		if s.in(other) {
			return true
		}
	}
	return false
}

// TestChartsAreReadWithoutColour: lines of one chart that differ in colour differ in
// their names, dashes or thickness too, and what is marked or shaded in a colour that
// stands for something says in words what it is.
func TestChartsAreReadWithoutColour(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	if err := b.StartPour(b.Snapshot().Plan.Layers[0].ID); err != nil {
		t.Fatal(err)
	}
	b.clock.advance(time.Minute)
	rested(b)
	stops(b)
	shot := b.Snapshot()
	l := b.desk.pages[layersKey].(*layersPage)
	l.open(layersHeat)
	b.settle()
	charts := map[string]drawing.Chart{
		"heat":    l.heat.chart.chart,
		"level":   moldChart(&shot.Plan, shot.Project.Style),
		"lessons": usedChart(&model.Lessons{}),
	}
	if n, ok := shot.Plan.Nature(&shot.Project, shot.Project.Pieces[0].ID); ok {
		charts["moisture"] = moistureChart(&n)
	}
	for i := range shot.Plan.Float.Things {
		field := shot.Plan.Float.Things[i].Field
		charts["lift of "+field] = moldLiftChart(&shot, field)
	}
	several := 0
	for name, c := range charts {
		if len(c.Series) > 1 {
			several++
		}
		for i := range c.Series {
			for _, y := range c.Series[i+1:] {
				x := c.Series[i]
				hue := x.Role != y.Role || x.Colour != y.Colour
				alike := x.Name == y.Name && x.Dashed == y.Dashed && (x.Role == drawing.Main) == (y.Role == drawing.Main)
				if hue && alike {
					t.Errorf("%s: the lines %q are told apart by their colour alone", name, x.Name)
				}
			}
		}
		stands := func(r drawing.Role) bool { return r == drawing.Warn || r == drawing.Halt || r == drawing.Well }
		for _, m := range c.Marks {
			if stands(m.Role) && m.Text == "" {
				t.Errorf("%s: the mark at %v, %v has no words", name, m.X, m.Y)
			}
		}
		for _, x := range c.Bands {
			if stands(x.Role) && x.Text == "" {
				t.Errorf("%s: what is shaded from %v has no words", name, x.From)
			}
		}
	}
	if several < 3 {
		t.Errorf("only %d charts have several lines", several)
	}
}
