package sight

import (
	"math"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Mark is a pixel whose place in the plane is known.
type Mark struct{ Pixel, Place shape.Point }

// Fit is a plane solved from marks, with how well they agree.
type Fit struct {
	Plane
	Marks    []Mark        // as they were used
	Flipped  bool          // the second direction of the places was taken the other way
	Off      []unit.Length // how far the pixel of each mark shows from its place
	Residual unit.Length   // root mean square of Off; nothing with four marks
	Scatter  float64       // pixels by which one coordinate of a mark is off, going by what is left over; 0 with four marks

	frame frame // in which the eight motions are counted
	root  triangle
}

// Solve finds the plane in which marks lie as they do in the photo. Four marks
// give it exactly. With more it is the one that leaves the least sum of
// squares in the photo, between each touched pixel and the pixel that shows the
// mark's place: it is the touch that errs, everywhere by about as many pixels,
// while a millimetre is fewer pixels the farther away it lies (Hartley and
// Zisserman, Multiple View Geometry, 2nd ed., 4.2.3 and 4.3).
//
// A photo shows a plane from above. Where the places would lie mirrored, as
// with corners that were touched the other way round, their second direction
// is taken the other way.
//
// The start is a direct linear solution in coordinates about the middle of the
// marks (Hartley and Zisserman, 4.1 and 4.4; Heckbert, Fundamentals of texture
// mapping, 1989, 2.2.3). The error is a *Fault.
func Solve(marks []Mark) (Fit, error) {
	f := Fit{Marks: slices.Clone(marks)}
	if fault := f.check(); fault != nil {
		return Fit{}, fault
	}
	photo := frameOf(f.Marks, func(m *Mark) shape.Point { return m.Pixel })
	f.frame = frameOf(f.Marks, func(m *Mark) shape.Point { return m.Place })
	g, ok := direct(f.Marks, &photo, &f.frame)
	if !ok {
		return Fit{}, linedUp()
	}
	f.set(g, &photo)
	if f.mirrored() {
		f.Flipped = true
		for i := range f.Marks {
			f.Marks[i].Place.Y = -f.Marks[i].Place.Y
		}
		f.frame.middle.Y = -f.frame.middle.Y
		flip := [9]float64{1, 0, 0, 0, -1, 0, 0, 0, 1}
		f.Plane = f.Plane.after(flip, flip)
	}
	if !f.inFront() {
		return Fit{}, misplaced()
	}
	if !f.refine() || !f.inFront() || f.root.lean() < leanest {
		return Fit{}, linedUp()
	}
	f.judge()
	return f, nil
}

// leanest is how little the marks may tell of one of the eight motions against
// another; less is what marks in a line tell when they are touched a pixel off.
const leanest = 1e-3

// frame is a middle and a size, about which coordinates are counted so that
// they are all of the order of one.
type frame struct {
	middle shape.Point
	size   float64
}

func frameOf(marks []Mark, of func(*Mark) shape.Point) frame {
	var f frame
	n := float64(len(marks))
	for i := range marks {
		p := of(&marks[i])
		f.middle.X, f.middle.Y = f.middle.X+p.X/n, f.middle.Y+p.Y/n
	}
	for i := range marks {
		p := of(&marks[i])
		f.size += math.Hypot(p.X-f.middle.X, p.Y-f.middle.Y) / (n * math.Sqrt2)
	}
	return f
}

func (f *frame) in(p shape.Point) shape.Point {
	return shape.Point{X: (p.X - f.middle.X) / f.size, Y: (p.Y - f.middle.Y) / f.size}
}

// enter and leave give the maps into the frame and out of it.
func (f *frame) enter() [9]float64 {
	return [9]float64{1 / f.size, 0, -f.middle.X / f.size, 0, 1 / f.size, -f.middle.Y / f.size, 0, 0, 1}
}

func (f *frame) leave() [9]float64 {
	return [9]float64{f.size, 0, f.middle.X, 0, f.size, f.middle.Y, 0, 0, 1}
}

// direct solves for the map from places to pixels, both in their frames, whose
// last number is 1: the middle of the marks lies in front of the lens, so that
// it cannot be 0.
func direct(marks []Mark, photo, plane *frame) (g [9]float64, ok bool) {
	list := make([]equation, 0, 2*len(marks))
	for i := range marks {
		p, q := plane.in(marks[i].Place), photo.in(marks[i].Pixel)
		list = append(list,
			equation{p.X, p.Y, 1, 0, 0, 0, -p.X * q.X, -p.Y * q.X, q.X},
			equation{0, 0, 0, p.X, p.Y, 1, -p.X * q.Y, -p.Y * q.Y, q.Y})
	}
	x, _, ok := leastSquares(list)
	copy(g[:], x[:])
	g[8] = 1
	return g, ok
}

// set takes over a map from places to pixels that is counted in frames.
func (f *Fit) set(g [9]float64, photo *frame) {
	out, in := photo.leave(), f.frame.enter()
	g = product(&out, &g)
	f.back = product(&g, &in)
	f.settle()
}

// settle gives the map from pixels the inverse of that to pixels, with a
// nearness of 1 at the middle of the marks.
func (f *Fit) settle() {
	f.to = adjoint(&f.back)
	w := f.Nearness(f.Pixel(f.frame.middle))
	for i := range f.to {
		f.to[i] /= w
	}
}

// mirrored tells whether the plane is seen from below. Pixels run down and
// places up, so that the map between them turns the way round about.
func (f *Fit) mirrored() bool {
	j := slope(&f.to, f.Pixel(f.frame.middle))
	return j.det() > 0
}

// inFront tells whether all marks lie before the vanishing line.
func (f *Fit) inFront() bool {
	for i := range f.Marks {
		if !f.Sees(f.Marks[i].Pixel) {
			return false
		}
	}
	return true
}

// leastNearness is how near the vanishing line a mark or a traced point may
// come: what it shows is then fifty times as far from the lens as the middle
// of the marks, and a pixel there as long as thousands.
const leastNearness = 0.02

// motion gives what the eight ways in which the plane can move do at a place
// of its frame: the equations, without right sides, of the place's two
// coordinates. The move is
//
//	(a + bx + cy + x(gx+hy), d + ex + fy + y(gx+hy)),
//
// the first order of moved; these eight are all that a map between planes can
// be off by.
func motion(p shape.Point) (x, y equation) {
	return equation{1, p.X, p.Y, 0, 0, 0, p.X * p.X, p.X * p.Y},
		equation{0, 0, 0, 1, p.X, p.Y, p.X * p.Y, p.Y * p.Y}
}

// moved gives the map of the frame onto itself that has the motion t.
func moved(t *vector) [9]float64 {
	return [9]float64{1 + t[1], t[2], t[0], t[4], 1 + t[5], t[3], -t[6], -t[7], 1}
}

// motions sets up how the eight motions move the pixels of the marks' places,
// with how far those are from the touched ones as right sides.
func (f *Fit) motions() []equation {
	list := make([]equation, 0, 2*len(f.Marks))
	for i := range f.Marks {
		m := &f.Marks[i]
		x, y := motion(f.frame.in(m.Place))
		k, shown := slope(&f.back, m.Place), f.Pixel(m.Place)
		var u, v equation
		for j := range unknowns {
			q := k.by(shape.Point{X: x[j], Y: y[j]})
			u[j], v[j] = q.X*f.frame.size, q.Y*f.frame.size
		}
		u[unknowns], v[unknowns] = shown.X-m.Pixel.X, shown.Y-m.Pixel.Y
		list = append(list, u, v)
	}
	return list
}

// squares is the sum of squares that the fit is to make least, in pixels.
func (f *Fit) squares() float64 {
	sum := 0.0
	for i := range f.Marks {
		p, q := f.Pixel(f.Marks[i].Place), f.Marks[i].Pixel
		sum += (p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y)
	}
	return sum
}

// refine goes to the least sum of squares by Gauss and Newton, a step halved
// until it helps, and keeps the last triangle for the uncertainty.
func (f *Fit) refine() bool {
	const (
		most   = 50
		still  = 1e-13
		halves = 12
	)
	in, out := f.frame.enter(), f.frame.leave()
	for range most {
		step, root, ok := leastSquares(f.motions())
		if !ok {
			return false
		}
		f.root = root
		if len(f.Marks) == 4 {
			return true // exact as it is
		}
		before, old := f.squares(), f.Plane
		length := 0.0
		for _, s := range step {
			length = math.Hypot(length, s)
		}
		helped := false
		for range halves {
			m := moved(&step)
			m = product(&m, &in)
			m = product(&out, &m)
			back := adjoint(&m)
			f.back = product(&old.back, &back)
			f.settle()
			if f.squares() <= before {
				helped = true
				break
			}
			for i := range step {
				step[i] /= 2
			}
		}
		if !helped {
			f.Plane = old
			return true
		}
		if length < still {
			return true
		}
	}
	return true
}

// judge tells how far the marks are off.
func (f *Fit) judge() {
	n := len(f.Marks)
	f.Off = make([]unit.Length, n)
	if n == 4 {
		return // four are met exactly
	}
	sum := 0.0
	for i := range f.Marks {
		p, q := f.At(f.Marks[i].Pixel), f.Marks[i].Place
		d := math.Hypot(p.X-q.X, p.Y-q.Y)
		f.Off[i], sum = unit.Length(d), sum+d*d
	}
	f.Residual = unit.Length(math.Sqrt(sum / float64(n)))
	f.Scatter = math.Sqrt(f.squares() / float64(2*n-unknowns))
}
