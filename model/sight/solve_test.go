package sight

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"meniscus/model/shape"
	"pgregory.net/rapid"
)

// TestWorkedHomography holds the solution to a worked example: the unit square
// seen as (100,100) (900,150) (850,700) (150,600). Its numbers follow from the
// eight equations of Heckbert, Fundamentals of texture mapping, 1989, 2.2.3;
// that the middle of the square lies where the diagonals of the picture meet
// holds for any perspective.
func TestWorkedHomography(t *testing.T) {
	marks := []Mark{
		{shape.Point{X: 100, Y: 100}, shape.Point{X: 0, Y: 0}}, {shape.Point{X: 900, Y: 150}, shape.Point{X: 1, Y: 0}},
		{shape.Point{X: 850, Y: 700}, shape.Point{X: 1, Y: 1}}, {shape.Point{X: 150, Y: 600}, shape.Point{X: 0, Y: 1}},
	}
	fit, err := Solve(marks)
	if err != nil {
		t.Fatal(err)
	}
	if !fit.Flipped {
		t.Error("touched clockwise on the screen the second direction must be taken the other way")
	}
	for _, c := range []struct{ x, y, px, py float64 }{
		{0.5, 0.5, 478.571429, 402.857143},
		{0.25, 0.75, 304.708520, 507.174888},
	} {
		if p := fit.Pixel(shape.Point{X: c.x, Y: -c.y}); apart(p, shape.Point{X: c.px, Y: c.py}) > 1e-5 {
			t.Errorf("(%g, %g) is shown at %v, want (%g, %g)", c.x, c.y, p, c.px, c.py)
		}
	}
	want := [9]float64{696.153846, 70.1923077, 100, 32.6923077, 580.769231, 100, -.115384615, .134615385, 1}
	for i, w := range want {
		got := fit.back[i] / fit.back[8]
		if i%3 == 1 {
			got = -got // for the second direction taken the other way
		}
		if math.Abs(got-w) > 1e-5*max(1, math.Abs(w)/100) {
			t.Errorf("number %d of the map is %.9g, want %.9g", i, got, w)
		}
	}
}

// TestPinholeCamera recovers corners and other points of a plane from what a
// camera shows of it without noise, at up to 45 degrees.
func TestPinholeCamera(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := looking(shape.Point{X: rapid.Float64Range(0, 0.6).Draw(t, "x"), Y: rapid.Float64Range(0, 0.3).Draw(t, "y")},
			rapid.Float64Range(0.8, 2.5).Draw(t, "distance"), rapid.Float64Range(0, math.Pi/4).Draw(t, "tilt"),
			rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "towards"), rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "roll"))
		marks := c.marks(rectangle(0.6, 0.3)...)
		more := c.marks(shape.Point{X: 0.3, Y: 0.31}, shape.Point{X: 0.11, Y: -0.02}, shape.Point{X: 0.7, Y: 0.1})
		for _, list := range [][]Mark{marks, append(marks, more...)} {
			fit, err := Solve(list)
			if err != nil {
				t.Fatalf("%d marks: %v", len(list), err)
			}
			if fit.Flipped {
				t.Fatal("seen from above nothing is to be taken the other way")
			}
			for range 20 {
				p := shape.Point{X: rapid.Float64Range(-0.2, 0.8).Draw(t, "px"), Y: rapid.Float64Range(-0.2, 0.5).Draw(t, "py")}
				pixel := c.shows(p, 0)
				if d := apart(fit.At(pixel), p); d > 1e-9 {
					t.Fatalf("%d marks: %v came out %g m away", len(list), p, d)
				}
				if d := apart(fit.Pixel(p), pixel); d > 1e-9*4000 {
					t.Fatalf("%d marks: %v is shown %g pixels away", len(list), p, d)
				}
			}
			for _, m := range list {
				if d := apart(fit.At(m.Pixel), m.Place); d > 1e-9*0.6 {
					t.Fatalf("a mark came out %g m away", d)
				}
			}
			if fit.Residual > 1e-9 {
				t.Fatalf("residual %g without noise", fit.Residual)
			}
		}
	})
}

// TestNeverMirrored touches the corners of a rectangle in every order that goes
// round: the face must come out the same way round and of the same size.
func TestNeverMirrored(t *testing.T) {
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.2, 0.4, 1, 0.3)
	ring := rectangle(0.6, 0.3)
	hook := shape.Ring{{X: 0.1, Y: 0.1}, {X: 0.4, Y: 0.1}, {X: 0.4, Y: 0.15}, {X: 0.15, Y: 0.15}, {X: 0.15, Y: 0.25}, {X: 0.1, Y: 0.25}}
	for first := range 4 {
		for _, way := range []int{1, 3} {
			places := rectangle(0.6, 0.3)
			if first%2 == 1 {
				places = rectangle(0.3, 0.6) // the side touched first is the short one
			}
			var marks []Mark
			for k := range 4 {
				marks = append(marks, Mark{c.shows(ring[(first+way*k)%4], 0), places[k]})
			}
			if way == 3 {
				for k := range marks { // the other way round the first side is the other one
					marks[k].Place.X, marks[k].Place.Y = marks[k].Place.Y, marks[k].Place.X
				}
				marks[1].Place, marks[3].Place = marks[3].Place, marks[1].Place
			}
			fit, err := Solve(marks)
			if err != nil {
				t.Fatalf("from corner %d: %v", first+1, err)
			}
			var seen shape.Ring
			for _, p := range hook {
				seen = append(seen, fit.At(c.shows(p, 0)))
			}
			if got, want := seen.Signed(), hook.Signed(); math.Abs(got-want) > 1e-12 {
				t.Errorf("from corner %d by %d: area %g, want %g", first+1, way, got, want)
			}
		}
	}
}

// TestDegenerateMarksAreRefused holds every way in which marks cannot
// straighten a photo to a word that says what to do.
func TestDegenerateMarksAreRefused(t *testing.T) {
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.2, 0.4, 1, 0)
	at := func(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }
	good := func() []Mark { return c.marks(rectangle(0.6, 0.3)...) }
	swap := func(i, j int) func(m []Mark) []Mark {
		return func(m []Mark) []Mark { m[i].Pixel, m[j].Pixel = m[j].Pixel, m[i].Pixel; return m }
	}
	for _, v := range []struct {
		name string
		make func(m []Mark) []Mark
		kind FaultKind
		say  string
	}{
		{"none", func([]Mark) []Mark { return nil }, TooFew, "a photo is straightened by four marks or more, and there are 0; touch 4 more"},
		{"three", func(m []Mark) []Mark { return m[:3] }, TooFew, "a photo is straightened by four marks or more, and there are 3; touch 1 more"},
		{"not a number", func(m []Mark) []Mark { m[2].Pixel.X = math.NaN(); return m }, NotFinite, "the place of mark 3 is not a number that can be used; touch it again, or measure its place again"},
		{"endless", func(m []Mark) []Mark { m[0].Place.Y = math.Inf(1); return m }, NotFinite, "the place of mark 1 is not a number that can be used; touch it again, or measure its place again"},
		{"two on one spot", func(m []Mark) []Mark { m[3].Pixel = at(m[1].Pixel.X+0.5, m[1].Pixel.Y); return m }, SameSpot, "marks 2 and 4 are on one spot of the photo; move one of them to where it belongs"},
		{"two places alike", func(m []Mark) []Mark { m[3].Place = m[1].Place; return m }, SameSpot, "marks 2 and 4 have the same place; measure the place of one of them again"},
		{"three in a line", func(m []Mark) []Mark { return c.marks(at(0, 0), at(0.3, 0), at(0.6, 0), at(0, 0.3)) }, InLine, "marks 1, 2 and 3 lie in a line in the photo; move one of them well off that line"},
		{"the last two swapped", swap(2, 3), Crossing, "the lines from mark to mark cross: the marks do not follow each other round; swap marks 3 and 4"},
		{"the middle two swapped", swap(1, 2), Crossing, "the lines from mark to mark cross: the marks do not follow each other round; swap marks 2 and 3"},
		{"one inside the others", func(m []Mark) []Mark { m[2].Pixel = c.shows(at(0.2, 0.1), 0); return m }, Unlike, "the marks do not lie in the photo as their places lie in the plane; check that each mark sits on the point that was measured, and its two sizes"},
		{"five, of which four lie in a line", func(m []Mark) []Mark { return c.marks(at(0, 0), at(0.2, 0), at(0.4, 0), at(0.6, 0), at(0.3, 0.3)) }, InLine, "too many of the marks lie in one line; add marks that lie well off it"},
		{"the same, touched by hand", func(m []Mark) []Mark {
			return touched(c.marks(at(0, 0), at(0.2, 0), at(0.3, 0.3), at(0.4, 0), at(0.6, 0)), 2, rand.New(rand.NewPCG(1, 1)))
		}, InLine, "too many of the marks lie in one line; add marks that lie well off it"},
	} {
		_, err := Solve(v.make(good()))
		var fault *Fault
		if !errors.As(err, &fault) || fault.Kind != v.kind || fault.Error() != v.say {
			t.Errorf("%s: %v, want %s: %s", v.name, err, v.kind, v.say)
		}
	}
	// Two marks side by side are in no line with the others.
	near := c.marks(at(0, 0), at(0.005, 0.003), at(0.6, 0), at(0.6, 0.3), at(0, 0.3))
	if _, err := Solve(near); err != nil {
		t.Errorf("two marks side by side: %v", err)
	}
	// What is said helps: after the swap that is asked for it solves.
	for i := range 4 {
		for j := range i {
			m := swap(i, j)(good())
			_, err := Solve(m)
			var fault *Fault
			if !errors.As(err, &fault) {
				continue // two corners over the diagonal: still round, the other way
			}
			if _, err := Solve(swap(fault.Marks[0], fault.Marks[1])(m)); err != nil {
				t.Errorf("corners %d and %d swapped: what is asked for does not mend it: %v", j+1, i+1, err)
			}
		}
	}
}

// TestNoiseOfOnePixel traces a slab of 480 x 180 mm in a picture of 3000 x 4000
// by marks that are each off by up to a pixel.
func TestNoiseOfOnePixel(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	slab := shape.RectangleRing(0.48, 0.18, 0.02).Moved(0.3, 0.15)
	eight := append(rectangle(0.6, 0.3), shape.Point{X: 0.3, Y: 0}, shape.Point{X: 0.6, Y: 0.15}, shape.Point{X: 0.3, Y: 0.3}, shape.Point{X: 0, Y: 0.15})
	for _, n := range []int{4, 8} {
		worst := 0.0
		for range 500 {
			c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.1, random.Float64()*math.Pi/4, random.Float64()*7, random.Float64()*7)
			fit, err := Solve(touched(c.marks(eight[:n]...), 1, random))
			if err != nil {
				t.Fatal(err)
			}
			seen := make(shape.Ring, len(slab))
			for i, p := range slab {
				seen[i] = fit.At(jolted(c.shows(p, 0), 1, random))
			}
			worst = max(worst, math.Abs(seen.Signed()/slab.Signed()-1))
		}
		t.Logf("%d marks: area within %.3f %%", n, 100*worst)
		if worst > 0.005 {
			t.Errorf("%d marks: area off by %.3f %%, want at most 0.5 %%", n, 100*worst)
		}
	}
}

// TestCardTouchedByHand straightens by a card of 200 x 100 mm at 15 degrees in a
// picture that is 0.9 m high, with touches that are off by up to 2 of its 4000
// pixels, half a millimetre: what a fingertip with a loupe does (common
// practice, no source).
func TestCardTouchedByHand(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	card := rectangle(0.2, 0.1)
	inner := shape.Ring{{X: 0.01, Y: 0.01}, {X: 0.19, Y: 0.01}, {X: 0.19, Y: 0.09}, {X: 0.01, Y: 0.09}}
	off := make([]float64, 0, 400)
	for range cap(off) {
		c := looking(shape.Point{X: 0.1, Y: 0.05}, 0.67, 15*math.Pi/180, random.Float64()*7, random.Float64()*7)
		fit, err := Solve(touched(c.marks(card...), 2, random))
		if err != nil {
			t.Fatal(err)
		}
		seen := make(shape.Ring, len(inner))
		for i, p := range inner {
			seen[i] = fit.At(jolted(c.shows(p, 0), 2, random))
		}
		off = append(off, seen.Signed()/inner.Signed()-1)
	}
	sum, worst := 0.0, 0.0
	for _, d := range off {
		sum, worst = sum+d*d, max(worst, math.Abs(d))
	}
	rms := math.Sqrt(sum / float64(len(off)))
	t.Logf("off by %.2f %% root mean square, %.2f %% at most", 100*rms, 100*worst)
	if worst > 0.015 {
		t.Errorf("the area was off by %.2f %%, want at most 1.5 %%", 100*worst)
	}
}
