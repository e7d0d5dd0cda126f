package sight

import "meniscus/model/shape"

// Plane maps the pixels of a photograph to places in a plane and back.
type Plane struct{ to, back [9]float64 }

// At gives the place in the plane, in metres, that a pixel shows.
func (p *Plane) At(pixel shape.Point) shape.Point { return through(&p.to, pixel) }

// Pixel gives the pixel that shows a place in the plane.
func (p *Plane) Pixel(at shape.Point) shape.Point { return through(&p.back, at) }

func through(h *[9]float64, p shape.Point) shape.Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return shape.Point{X: (h[0]*p.X + h[1]*p.Y + h[2]) / w, Y: (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}
