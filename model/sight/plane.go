package sight

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Plane maps the pixels of a photograph to places in a plane and back. Its
// zero value maps nothing; Solve makes one from marks. Pixels run to the right
// and down; places are in metres, seen from above, so that a face comes out as
// it lies and not mirrored.
type Plane struct{ to, back [9]float64 }

// At gives the place in the plane, in metres, that a pixel shows.
func (p *Plane) At(pixel shape.Point) shape.Point { return through(&p.to, pixel) }

// Pixel gives the pixel that shows a place in the plane.
func (p *Plane) Pixel(at shape.Point) shape.Point { return through(&p.back, at) }

// Nearness tells how near the lens is to what a pixel shows, against the
// middle of the marks: 1 there, less farther away, 0 on the vanishing line and
// negative beyond it, where a photo shows nothing of the plane.
func (p *Plane) Nearness(pixel shape.Point) float64 {
	return p.to[6]*pixel.X + p.to[7]*pixel.Y + p.to[8]
}

// Sees tells whether the photo shows a place of the plane at a pixel that can
// be used: before the vanishing line and not next to it.
func (p *Plane) Sees(pixel shape.Point) bool { return p.Nearness(pixel) > leastNearness }

// Grain gives the side of the square in the plane that has the area of the
// pixel there, in metres.
func (p *Plane) Grain(pixel shape.Point) unit.Length {
	j := slope(&p.to, pixel)
	return unit.Length(math.Sqrt(math.Abs(j.det())))
}

// Moved gives the plane with all places shifted by dx and dy in metres.
func (p *Plane) Moved(dx, dy float64) Plane {
	return p.after([9]float64{1, 0, dx, 0, 1, dy, 0, 0, 1}, [9]float64{1, 0, -dx, 0, 1, -dy, 0, 0, 1})
}

// Turned gives the plane with all places turned counterclockwise about the
// origin.
func (p *Plane) Turned(a unit.Angle) Plane {
	sin, cos := math.Sincos(float64(a))
	return p.after([9]float64{cos, -sin, 0, sin, cos, 0, 0, 0, 1}, [9]float64{cos, sin, 0, -sin, cos, 0, 0, 0, 1})
}

// Mirrored gives the plane as seen from its other side: turned over about the
// direction of y.
func (p *Plane) Mirrored() Plane {
	over := [9]float64{-1, 0, 0, 0, 1, 0, 0, 0, 1}
	return p.after(over, over)
}

// Drawn gives the plane with all places drawn towards a point, to so many
// times their distance from it.
func (p *Plane) Drawn(about shape.Point, times float64) Plane {
	towards := func(k float64) [9]float64 {
		return [9]float64{k, 0, (1 - k) * about.X, 0, k, (1 - k) * about.Y, 0, 0, 1}
	}
	return p.after(towards(times), towards(1/times))
}

// after gives the plane with its places moved by m, whose inverse is back.
func (p *Plane) after(m, back [9]float64) Plane {
	return Plane{product(&m, &p.to), product(&p.back, &back)}
}

func through(h *[9]float64, p shape.Point) shape.Point {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return shape.Point{X: (h[0]*p.X + h[1]*p.Y + h[2]) / w, Y: (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}

// square2 is a matrix of two rows, the derivative of one place by another.
type square2 struct{ xx, xy, yx, yy float64 }

func (s square2) det() float64 { return s.xx*s.yy - s.xy*s.yx }

func (s square2) by(p shape.Point) shape.Point {
	return shape.Point{X: s.xx*p.X + s.xy*p.Y, Y: s.yx*p.X + s.yy*p.Y}
}

// slope gives the derivative of through at p.
func slope(h *[9]float64, p shape.Point) square2 {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	q := through(h, p)
	return square2{
		(h[0] - h[6]*q.X) / w, (h[1] - h[7]*q.X) / w,
		(h[3] - h[6]*q.Y) / w, (h[4] - h[7]*q.Y) / w,
	}
}
