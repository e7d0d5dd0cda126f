package views

import (
	"fmt"
	"image/color"
	"testing"

	"fyne.io/fyne/v2/canvas"

	"meniscus/views/look"
	"meniscus/views/touch"
)

// TestEverythingIsLegible measures, in every part of every window and in both lights,
// the contrast of all words and of the edges of inputs with what lies below them: 4.5:1,
// and 3:1 for words of 24 pixels, or of 18.66 where they are bold, and for edges (WCAG
// 2.2, 1.4.3 and 1.4.11, which leave out what cannot be used).
func TestEverythingIsLegible(t *testing.T) {
	onlyDrawn(t)
	b := longest(t)
	all := stops(b)
	for _, mode := range []look.Mode{look.Light, look.Dark} {
		b.desk.setMode(mode)
		for _, s := range all {
			s.turn()
			b.settle()
			spots := b.spots(s.key, screens[0])
			for i, x := range spots {
				where := fmt.Sprintf("%s in the light %q", s.name, mode)
				if _, ok := x.drawn(); ok && !x.off() {
					text := x.o.(*canvas.Text)
					least := 4.5
					if text.TextSize >= 24 || text.TextStyle.Bold && text.TextSize >= 18.66 {
						least = 3
					}
					if got := look.Contrast(text.Color, below(spots[:i], x)); got < least {
						t.Errorf("%s: %v has %.2f:1", where, x, got)
					}
				}
				if entry(x.o) {
					if got := look.Contrast(look.Current().Line, below(spots[:i], x)); got < 3 {
						t.Errorf("%s: the edge of %v has %.2f:1", where, x, got)
					}
				}
			}
		}
	}
}

// off tells whether a spot stands in something that cannot be used now.
func (s *spot) off() bool {
	for ; s != nil; s = s.parent {
		if x, ok := s.o.(*touch.Button); ok && x.Disabled() {
			return true
		}
	}
	return false
}

// below gives the colour of what was painted last where a spot has its middle, else
// that of the ground.
func below(painted []*spot, s *spot) color.Color {
	ground := look.Current().Ground
	a, _ := s.drawn()
	if a == (area{}) {
		a = s.area
	}
	x, y := (a.x0+a.x1)/2, (a.y0+a.y1)/2
	for _, p := range painted {
		var fill color.Color
		switch o := p.o.(type) {
		case *canvas.Rectangle:
			fill = o.FillColor
		case *canvas.Polygon:
			fill = o.FillColor
		case *canvas.Circle:
			fill = o.FillColor
		}
		room := p.area
		if p.scroller() != s.scroller() {
			room = p.seen
		}
		if fill == nil || x < room.x0 || x > room.x1 || y < room.y0 || y > room.y1 {
			continue
		}
		over := color.NRGBAModel.Convert(fill).(color.NRGBA)
		mix := func(under, over, share uint8) uint8 {
			return uint8((int(under)*(255-int(share)) + int(over)*int(share)) / 255)
		}
		ground = color.NRGBA{mix(ground.R, over.R, over.A), mix(ground.G, over.G, over.A), mix(ground.B, over.B, over.A), 255}
	}
	return ground
}
