package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"meniscus/model/shape"
)

// deviation is the standard deviation of a sample.
func deviation(of []float64) float64 {
	mean, square := 0.0, 0.0
	for _, v := range of {
		mean += v / float64(len(of))
	}
	for _, v := range of {
		square += (v - mean) * (v - mean) / float64(len(of))
	}
	return math.Sqrt(square)
}

// TestScaleDoubtAgainstMonteCarlo draws what the marks may be off by and solves
// each time anew (JCGM 101:2008): the standard uncertainty must come out as the
// law of propagation has it, within 10 %.
func TestScaleDoubtAgainstMonteCarlo(t *testing.T) {
	const draws, touch, side = 4000, 3.0, 0.5e-3 // half-widths in pixels and metres
	slab := shape.RectangleRing(0.4, 0.2, 0.03).Moved(0.45, 0.2)
	eight := append(rectangle(0.6, 0.3), shape.Point{X: 0.3, Y: 0}, shape.Point{X: 0.6, Y: 0.15}, shape.Point{X: 0.3, Y: 0.3}, shape.Point{X: 0, Y: 0.15})
	for _, v := range []struct {
		name   string
		places shape.Ring
		tilt   float64
	}{
		{"four corners, straight down", eight[:4], 0},
		{"four corners, 40 degrees", eight[:4], 0.7},
		{"a small card, 20 degrees", rectangle(0.2, 0.1), 0.35},
		{"eight points, 30 degrees", eight, 0.52},
	} {
		random := rand.New(rand.NewPCG(5, 6))
		c := looking(shape.Point{X: 0.35, Y: 0.15}, 1.2, v.tilt, 1, 0.5)
		marks := c.marks(v.places...)
		pixels := make(shape.Ring, len(slab))
		for i, p := range slab {
			pixels[i] = c.shows(p, 0)
		}
		fit, err := Solve(marks)
		if err != nil {
			t.Fatal(err)
		}
		// The length that the places were measured along and the width.
		long, broad := make(Shift, len(marks)), make(Shift, len(marks))
		for i, p := range v.places {
			long[i].X, broad[i].Y = p.X/0.6*side/math.Sqrt(3), p.Y/0.3*side/math.Sqrt(3)
		}
		want := fit.ScaleDoubt(slab.Centroid(), touch/math.Sqrt(3), long, broad)
		areas := make([]float64, draws)
		for k := range areas {
			drawn := touched(marks, touch, random)
			l, b := side*(2*random.Float64()-1), side*(2*random.Float64()-1)
			for i := range drawn {
				drawn[i].Place.X += drawn[i].Place.X / 0.6 * l
				drawn[i].Place.Y += drawn[i].Place.Y / 0.3 * b
			}
			f, err := Solve(drawn)
			if err != nil {
				t.Fatal(err)
			}
			seen := make(shape.Ring, len(pixels))
			for i, p := range pixels {
				seen[i] = f.At(p)
			}
			areas[k] = seen.Signed() / slab.Signed()
		}
		got := deviation(areas)
		t.Logf("%s: propagated %.4f %%, drawn %.4f %%", v.name, 100*want, 100*got)
		if math.Abs(want/got-1) > 0.1 {
			t.Errorf("%s: propagated %.4f %%, drawn %.4f %%", v.name, 100*want, 100*got)
		}
	}
}

// TestOutlineDoubtAgainstMonteCarlo shifts the stretches of an outline as the
// assumption has it, and single points where they lie far apart.
func TestOutlineDoubtAgainstMonteCarlo(t *testing.T) {
	const draws, touch = 4000, 3.0
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.2, 0.5, 1, 0.5)
	fit, err := Solve(c.marks(rectangle(0.6, 0.3)...))
	if err != nil {
		t.Fatal(err)
	}
	dense := shape.EllipseRing(0.5, 0.2)
	sparse := shape.PolygonRing(9, 0.25)
	for _, ring := range []shape.Ring{dense, sparse} {
		var pixels shape.Ring
		for _, p := range ring {
			pixels = append(pixels, c.shows(shape.Point{X: p.X + 0.3, Y: p.Y + 0.15}, 0))
		}
		random := rand.New(rand.NewPCG(7, 8))
		length := float64(pixels.Perimeter()) / stretches
		areas := make([]float64, draws)
		for k := range areas {
			seen := make(shape.Ring, len(pixels))
			run, off := math.Inf(1), shape.Point{}
			for i, p := range pixels {
				if run >= length*(1-1e-9) {
					off, run = jolted(shape.Point{}, touch, random), 0
				}
				seen[i] = fit.At(shape.Point{X: p.X + off.X, Y: p.Y + off.Y})
				q := pixels[(i+1)%len(pixels)]
				run += apart(p, q)
			}
			areas[k] = seen.Signed()
		}
		got, want := deviation(areas), fit.OutlineDoubt(pixels, touch/math.Sqrt(3))
		t.Logf("%d points: propagated %.3f mm², drawn %.3f mm²", len(ring), 1e6*want, 1e6*got)
		if math.Abs(want/got-1) > 0.1 {
			t.Errorf("%d points: propagated %g m², drawn %g m²", len(ring), want, got)
		}
	}
}

// TestLensFromPerspective recovers where the camera stood, and how surely,
// against a Monte Carlo.
func TestLensFromPerspective(t *testing.T) {
	const touch = 1.0
	for _, tilt := range []float64{0.2, 0.4, math.Pi / 4} {
		c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.1, tilt, 0.7, 0.4)
		marks := c.marks(rectangle(0.6, 0.3)...)
		fit, err := Solve(marks)
		if err != nil {
			t.Fatal(err)
		}
		middle := shape.Point{X: c.cx, Y: c.cy}
		pose, ok := fit.Pose(middle)
		if !ok || math.Abs(pose.Focal/3000-1) > 1e-6 || math.Abs(float64(pose.Height)/c.at[2]-1) > 1e-6 ||
			apart(pose.Foot, shape.Point{X: c.at[0], Y: c.at[1]}) > 1e-6 || math.Abs(float64(pose.Tilt)-tilt) > 1e-6 {
			t.Errorf("tilted by %g: %+v, want it at %v", tilt, pose, c.at)
		}
		if p := fit.PoseWith(middle, 3000); math.Abs(float64(p.Height)/c.at[2]-1) > 1e-9 {
			t.Errorf("with the focal length: %+v", p)
		}
		want, ok := fit.HeightDoubt(middle, 4000, touch/math.Sqrt(3))
		if !ok {
			t.Errorf("tilted by %g the height is not told", tilt)
			continue
		}
		random := rand.New(rand.NewPCG(9, 10))
		var drawn []float64
		for range 2000 {
			f, err := Solve(touched(marks, touch, random))
			if err != nil {
				t.Fatal(err)
			}
			off := func() float64 { return axisDoubt * 4000 * math.Sqrt(3) * (2*random.Float64() - 1) }
			if p, ok := f.Pose(shape.Point{X: middle.X + off(), Y: middle.Y + off()}); ok {
				drawn = append(drawn, float64(p.Height)/c.at[2])
			}
		}
		got := deviation(drawn)
		t.Logf("tilted by %.0f°: height within %.1f %%, drawn %.1f %%", tilt*180/math.Pi, 100*want, 100*got)
		if math.Abs(want/got-1) > 0.15 {
			t.Errorf("tilted by %g: propagated %g, drawn %g", tilt, want, got)
		}
	}
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0, 0, 0)
	fit, _ := Solve(touched(c.marks(rectangle(0.6, 0.3)...), 1, rand.New(rand.NewPCG(1, 1))))
	if u, ok := fit.HeightDoubt(shape.Point{X: 1500, Y: 2000}, 4000, 1); ok && u < 0.5 {
		t.Errorf("straight down nothing tells the height, and yet it is within %g", u)
	}
}

// TestRiseAgainstTheCamera traces a face that lies above the plane of the marks
// and one below: drawn towards the point below the lens by (H-r)/H they must
// come out as they are.
func TestRiseAgainstTheCamera(t *testing.T) {
	for _, rise := range []float64{0.042, -0.03} {
		for _, tilt := range []float64{0, 0.3, math.Pi / 4} {
			c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.1, tilt, 2, 0.4)
			fit, err := Solve(c.marks(rectangle(0.6, 0.3)...))
			if err != nil {
				t.Fatal(err)
			}
			foot, h := shape.Point{X: c.at[0], Y: c.at[1]}, c.at[2]
			raised := fit.Plane.Drawn(foot, (h-rise)/h)
			for _, p := range rectangle(0.5, 0.2) {
				if d := apart(raised.At(c.shows(p, rise)), p); d > 1e-9 {
					t.Errorf("rise %g, tilt %g: %v comes out %g m away", rise, tilt, p, d)
				}
				if d := apart(raised.Pixel(p), c.shows(p, rise)); d > 1e-5 {
					t.Errorf("rise %g, tilt %g: %v is shown %g pixels away", rise, tilt, p, d)
				}
			}
		}
	}
}

// TestMovesOfAPlane holds moving, turning, mirroring and drawing of places to
// their words, both ways.
func TestMovesOfAPlane(t *testing.T) {
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.1, 0.5, 2, 0.4)
	fit, err := Solve(c.marks(rectangle(0.6, 0.3)...))
	if err != nil {
		t.Fatal(err)
	}
	p := shape.Point{X: 0.1, Y: 0.2}
	pixel := c.shows(p, 0)
	for _, v := range []struct {
		name  string
		plane Plane
		want  shape.Point
	}{
		{"moved", fit.Plane.Moved(1, -2), shape.Point{X: 1.1, Y: -1.8}},
		{"turned", fit.Plane.Turned(math.Pi / 2), shape.Point{X: -0.2, Y: 0.1}},
		{"mirrored", fit.Plane.Mirrored(), shape.Point{X: -0.1, Y: 0.2}},
		{"drawn", fit.Plane.Drawn(shape.Point{X: 0.3, Y: 0}, 0.5), shape.Point{X: 0.2, Y: 0.1}},
	} {
		if d := apart(v.plane.At(pixel), v.want); d > 1e-9 {
			t.Errorf("%s: %v, want %v", v.name, v.plane.At(pixel), v.want)
		}
		if d := apart(v.plane.Pixel(v.want), pixel); d > 1e-6 {
			t.Errorf("%s back: %v, want %v", v.name, v.plane.Pixel(v.want), pixel)
		}
		if n := v.plane.Nearness(c.shows(shape.Point{X: 0.3, Y: 0.15}, 0)); math.Abs(n-1) > 1e-9 {
			t.Errorf("%s: the middle of the marks is %g times as near as itself", v.name, n)
		}
	}
	if n := fit.Nearness(c.shows(shape.Point{X: 1e7 * math.Cos(2), Y: 1e7 * math.Sin(2)}, 0)); math.Abs(n) > 1e-4 {
		t.Errorf("the vanishing line is %g times as near", n)
	}
	g := float64(fit.Grain(pixel))
	q := fit.At(shape.Point{X: pixel.X + 0.5, Y: pixel.Y - 0.5})
	r := fit.At(shape.Point{X: pixel.X - 0.5, Y: pixel.Y - 0.5})
	s := fit.At(shape.Point{X: pixel.X - 0.5, Y: pixel.Y + 0.5})
	if area := math.Abs(shape.Ring{q, r, s}.Signed()) * 2; math.Abs(g*g/area-1) > 1e-2 {
		t.Errorf("a pixel covers %g m², and its grain is %g m", area, g)
	}
}
