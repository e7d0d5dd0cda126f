package drawing

import (
	"image"
	"image/color"
	"image/draw"
)

// Image is a Surface of pixels. It may be cleared and painted on again; it is
// for one goroutine at a time.
type Image struct {
	RGBA  *image.RGBA // opaque, bounds from (0, 0)
	scale float64
	fonts *Fonts
	scan  *scanner
}

// NewImage makes a surface of w by h pixels with scale pixels to a dp.
func NewImage(w, h int, scale float64, fonts *Fonts) *Image {
	return &Image{
		RGBA:  image.NewRGBA(image.Rect(0, 0, w, h)),
		scale: scale,
		fonts: fonts,
		scan:  newScanner(w, h),
	}
}

// Clear covers the whole image with one colour.
func (m *Image) Clear(c color.NRGBA) {
	c.A = 255
	draw.Draw(m.RGBA, m.RGBA.Bounds(), image.NewUniform(c), image.Point{}, draw.Src)
}

// CopyOf makes the image the same as another of the same size.
func (m *Image) CopyOf(other *Image) { copy(m.RGBA.Pix, other.RGBA.Pix) }

// Bounds gives the visible part in dp.
func (m *Image) Bounds() Box {
	b := m.RGBA.Bounds()
	return Box{Max: Pt{float64(b.Dx()) / m.scale, float64(b.Dy()) / m.scale}}
}

// Stroke draws lines. A line thinner than a pixel is drawn one pixel wide and
// paler.
func (m *Image) Stroke(pen Pen, paths ...Path) {
	width, c := pen.Width*m.scale, pen.Colour
	if width < 1 {
		c = Fade(c, float64(c.A)/255*max(width, 0.4))
		width = 1
	}
	visible := m.Bounds().Grown(40)
	for _, p := range paths {
		dashes(p, pen.Dash, visible, func(points []Pt, closed bool) {
			outline(m.pixels(points), closed, width, m.scan.loop)
		})
	}
	m.scan.paint(m.RGBA, c)
}

// Fill colours the inside of rings: what lies in an odd number of them, as the
// drawing on paper does. Each ring is led round against the one that it lies in,
// so that edges which two have in common leave no line.
func (m *Image) Fill(_ string, c color.NRGBA, rings ...[]Pt) {
	for i, r := range rings {
		if len(r) < 3 {
			continue
		}
		// Its own points may lie on the edge of another.
		depth, at := 0, withinRing(r)
		for j, o := range rings {
			if i != j && inside(at, o) {
				depth++
			}
		}
		p := m.pixels(r)
		if (twiceArea(r) < 0) != (depth%2 == 1) {
			reverse(p)
		}
		m.scan.loop(p)
	}
	m.scan.odd = true
	m.scan.paint(m.RGBA, c)
	m.scan.odd = false
}

// Text writes one line of text.
func (m *Image) Text(at Pt, text string, l Lettering) {
	lead := 0.0
	switch l.Anchor {
	case Middle:
		lead = m.Measure(text, l) / 2
	case End:
		lead = m.Measure(text, l)
	}
	em := l.Size * m.scale
	m.fonts.each(text, l.Bold, func(loops [][]Pt, pos float64) {
		for _, loop := range loops {
			p := make([]Pt, len(loop))
			for i, q := range loop {
				along, down := (q.X+pos)*em-lead*m.scale, q.Y*em
				if l.Up {
					p[i] = Pt{at.X*m.scale + down, at.Y*m.scale - along}
				} else {
					p[i] = Pt{at.X*m.scale + along, at.Y*m.scale + down}
				}
			}
			m.scan.loop(p)
		}
	})
	m.scan.paint(m.RGBA, l.Colour)
}

// Measure gives the width of a text in dp.
func (m *Image) Measure(text string, l Lettering) float64 {
	return m.fonts.Measure(text, l.Size, l.Bold)
}

func (m *Image) pixels(points []Pt) []Pt {
	out := make([]Pt, len(points))
	for i, p := range points {
		out[i] = Pt{p.X * m.scale, p.Y * m.scale}
	}
	return out
}
