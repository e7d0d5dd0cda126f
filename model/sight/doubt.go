package sight

import (
	"math"

	"meniscus/model/shape"
)

// Shift is one thing that the places of the marks hang on, such as the side of
// a card: how far the place of each mark moves, in metres, when it is off by
// one standard uncertainty.
type Shift []shape.Point

// ScaleDoubt gives the standard uncertainty of an area in the plane, as a
// share of it, that comes from the marks: touch is the standard uncertainty of
// one pixel coordinate of a mark, each mark errs by itself, and so does each
// shift. The area's middle is its centroid.
//
// A small error of the map moves the plane by one of eight motions (see
// motion). What that adds to an area is the integral of the motion's
// divergence, b + f + 3(gx + hy), over it, and so hangs on its size and middle
// alone.
func (f *Fit) ScaleDoubt(middle shape.Point, touch float64, shifts ...Shift) float64 {
	m := f.frame.in(middle)
	grows := vector{1: 1, 5: 1, 6: 3 * m.X, 7: 3 * m.Y}
	sum := touch * f.root.spread(grows)
	for _, s := range shifts {
		t := f.answer(s)
		d := 0.0
		for i := range grows {
			d += grows[i] * t[i]
		}
		sum = math.Hypot(sum, d)
	}
	return sum
}

// answer gives the motion that the plane makes when the places of the marks
// shift.
func (f *Fit) answer(s Shift) vector {
	list := f.motions()
	for i := range f.Marks {
		var d shape.Point
		if i < len(s) {
			d = s[i]
		}
		if f.Flipped {
			d.Y = -d.Y
		}
		q := slope(&f.back, f.Marks[i].Place)
		d = q.by(d)
		list[2*i][unknowns], list[2*i+1][unknowns] = d.X, d.Y
	}
	t, _, _ := leastSquares(list)
	return t
}

// stretches is into how many stretches of one length an outline that was
// followed by hand is taken to err, each as a whole and by itself (common
// practice, no source).
const stretches = 16

// OutlineDoubt gives the standard uncertainty, in m², of the area inside an
// outline of pixels that was followed by hand, when touch is that of one pixel
// coordinate. A hand that follows an edge is off for a while: the outline is
// taken to err along stretches of a sixteenth of its length, each shifted as a
// whole and all apart from each other. Where its points lie farther apart than
// that each errs by itself.
func (p *Plane) OutlineDoubt(pixels shape.Ring, touch float64) float64 {
	n := len(pixels)
	if n < 3 {
		return 0
	}
	places := make(shape.Ring, n)
	for i, q := range pixels {
		places[i] = p.At(q)
	}
	length := float64(pixels.Perimeter()) / stretches
	sum, run := 0.0, 0.0
	var pull shape.Point // what shifting the stretch by a pixel adds to the area
	for i, q := range pixels {
		a, b := places[(i+n-1)%n], places[(i+1)%n]
		j := slope(&p.to, q)
		gx, gy := (b.Y-a.Y)/2, (a.X-b.X)/2
		pull.X += gx*j.xx + gy*j.yx
		pull.Y += gx*j.xy + gy*j.yy
		next := pixels[(i+1)%n]
		run += math.Hypot(next.X-q.X, next.Y-q.Y)
		if run >= length*(1-1e-9) || i == n-1 {
			sum += pull.X*pull.X + pull.Y*pull.Y
			pull, run = shape.Point{}, 0
		}
	}
	return touch * math.Sqrt(sum)
}
