package sight

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Pose is where the lens stood.
type Pose struct {
	Focal  float64     // focal length in pixels
	Height unit.Length // of the lens above the plane
	Foot   shape.Point // the place in the plane below the lens
	Tilt   unit.Angle  // of the view from straight down
}

// focal gives the square of the focal length in pixels that makes the plane's
// two directions square to each other and alike in scale, with square pixels
// and the lens's axis through the middle of the picture (Hartley and Zisserman,
// 8.8; Zhang, A flexible new technique for camera calibration, 2000, 3.1).
// With the two directions as the real and the imaginary part of one number,
// both conditions are (a² + b²)/f² + c² = 0. Seen straight down c is 0, and
// nothing tells f.
func focal(g *[9]float64) float64 {
	a, b, c := complex(g[0], g[1]), complex(g[3], g[4]), complex(g[6], g[7])
	return real(-(a*a + b*b) / (c * c))
}

// about gives the map from places to pixels that are counted from the middle
// of the picture.
func (p *Plane) about(middle shape.Point) [9]float64 {
	shift := [9]float64{1, 0, -middle.X, 0, 1, -middle.Y, 0, 0, 1}
	return product(&shift, &p.back)
}

// Pose works out from the perspective where the lens stood, taking it that the
// pixels are square and that the picture was not cropped, so that the lens's
// axis goes through its middle. It tells false where the view is too straight
// for that.
func (p *Plane) Pose(middle shape.Point) (Pose, bool) {
	g := p.about(middle)
	square := focal(&g)
	if !(square > 1 && square < 1e12) {
		return Pose{}, false
	}
	pose := poseOf(&g, math.Sqrt(square))
	return pose, float64(pose.Height) > 0 && float64(pose.Height) < farLens
}

// PoseWith is as Pose for a lens of known focal length in pixels.
func (p *Plane) PoseWith(middle shape.Point, focal float64) Pose {
	g := p.about(middle)
	return poseOf(&g, focal)
}

// farLens is farther than any lens stands, in metres.
const farLens = 1e3

// poseOf splits the map from places to pixels into the camera's turn and
// place: its columns are f·[r1 r2 t] up to a factor.
func poseOf(g *[9]float64, f float64) Pose {
	column := func(k int) [3]float64 { return [3]float64{g[k] / f, g[3+k] / f, g[6+k]} }
	r1, r2, t := column(0), column(1), column(2)
	scale := 2 / (length(r1) + length(r2))
	for i := range 3 {
		r1[i], r2[i], t[i] = r1[i]*scale, r2[i]*scale, t[i]*scale
	}
	// r1 and r2 are square to each other but for the errors of the marks; the
	// two that are, and lie nearest, keep their sum and the direction of their
	// difference.
	r1, r2 = squared(r1, r2)
	r3 := [3]float64{r1[1]*r2[2] - r1[2]*r2[1], r1[2]*r2[0] - r1[0]*r2[2], r1[0]*r2[1] - r1[1]*r2[0]}
	return Pose{
		Focal:  f,
		Height: unit.Length(math.Abs(dot(r3, t))),
		Foot:   shape.Point{X: -dot(r1, t), Y: -dot(r2, t)},
		Tilt:   unit.Angle(math.Acos(min(1, math.Abs(r3[2])))),
	}
}

// squared gives the two unit vectors, square to each other, that lie as u and v
// do in their plane.
func squared(u, v [3]float64) (a, b [3]float64) {
	var sum, apart [3]float64
	for i := range 3 {
		sum[i], apart[i] = u[i]/length(u)+v[i]/length(v), u[i]/length(u)-v[i]/length(v)
	}
	s, d := length(sum)*math.Sqrt2, length(apart)*math.Sqrt2
	for i := range 3 {
		a[i], b[i] = sum[i]/s+apart[i]/d, sum[i]/s-apart[i]/d
	}
	return a, b
}

func dot(u, v [3]float64) float64 { return u[0]*v[0] + u[1]*v[1] + u[2]*v[2] }

func length(u [3]float64) float64 { return math.Sqrt(dot(u, u)) }

// axisDoubt is the standard uncertainty of where the lens's axis meets the
// picture, as a share of the picture's longer side (common practice, no
// source): lenses are not centred better, and a steadied picture is shifted.
const axisDoubt = 0.01

// HeightDoubt gives the standard uncertainty of the height that Pose tells, as
// a share of it, from the touch of the marks (see ScaleDoubt), the shifts of
// their places and the lens's axis. It tells false where one of these could
// leave the height untold.
func (f *Fit) HeightDoubt(middle shape.Point, side, touch float64, shifts ...Shift) (float64, bool) {
	best, ok := f.Pose(middle)
	if !ok {
		return 0, false
	}
	sum := 0.0
	add := func(p Plane, middle shape.Point) bool {
		got, ok := p.Pose(middle)
		sum = math.Hypot(sum, (float64(got.Height)/float64(best.Height)-1)/math.Sqrt2)
		return ok
	}
	for _, way := range [2]float64{1, -1} {
		for _, d := range f.root.directions() {
			if !add(f.shifted(d, way*touch), middle) {
				return 0, false
			}
		}
		for _, s := range shifts {
			if !add(f.shifted(f.answer(s), way), middle) {
				return 0, false
			}
		}
		off := way * axisDoubt * side
		if !add(f.Plane, shape.Point{X: middle.X + off, Y: middle.Y}) || !add(f.Plane, shape.Point{X: middle.X, Y: middle.Y + off}) {
			return 0, false
		}
	}
	return sum, true
}

// shifted gives the plane with so much of a motion made.
func (f *Fit) shifted(t vector, times float64) Plane {
	for i := range t {
		t[i] *= times
	}
	in, out, m := f.frame.enter(), f.frame.leave(), moved(&t)
	m = product(&m, &in)
	m = product(&out, &m)
	return f.Plane.after(m, adjoint(&m))
}

// Square tells how far the plane's directions are from being seen by a real
// lens as square to each other and alike in scale, from 0 for exactly so to
// about 1: the least over the focal lengths of usual lenses, from 0.5 to 3
// times the longer side of the picture. Of two ways to put the sides of a
// rectangle to its corners the right one has the lesser.
func (p *Plane) Square(middle shape.Point, side float64) float64 {
	g := p.about(middle)
	a, b, c := complex(g[0], g[1]), complex(g[3], g[4]), complex(g[6], g[7])
	least := math.Inf(1)
	const steps = 24
	for k := range steps + 1 {
		f := side * 0.5 * math.Pow(6, float64(k)/steps)
		z := (a*a+b*b)/complex(f*f, 0) + c*c
		whole := (g[0]*g[0]+g[1]*g[1]+g[3]*g[3]+g[4]*g[4])/(f*f) + g[6]*g[6] + g[7]*g[7]
		least = min(least, math.Hypot(real(z), imag(z))/whole)
	}
	return least
}
