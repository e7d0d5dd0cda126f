package sight

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"meniscus/model/shape"
)

// nullVector solves the direct linear transformation of Hartley and Zisserman,
// algorithm 4.2, by the singular value decomposition of a general-purpose
// library for linear algebra: the right singular vector of the least singular
// value, about the middles of the marks and unscaled afterwards.
func nullVector(t *testing.T, marks []Mark) [9]float64 {
	t.Helper()
	normal := func(of func(Mark) shape.Point) (*mat.Dense, func(shape.Point) shape.Point) {
		var x, y, d float64
		n := float64(len(marks))
		for _, m := range marks {
			x, y = x+of(m).X/n, y+of(m).Y/n
		}
		for _, m := range marks {
			d += math.Hypot(of(m).X-x, of(m).Y-y) / n
		}
		s := math.Sqrt2 / d
		return mat.NewDense(3, 3, []float64{s, 0, -s * x, 0, s, -s * y, 0, 0, 1}),
			func(p shape.Point) shape.Point { return shape.Point{X: s * (p.X - x), Y: s * (p.Y - y)} }
	}
	tp, place := normal(func(m Mark) shape.Point { return m.Place })
	tq, pixel := normal(func(m Mark) shape.Point { return m.Pixel })
	a := mat.NewDense(max(9, 2*len(marks)), 9, nil)
	for i, m := range marks {
		p, q := place(m.Place), pixel(m.Pixel)
		a.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y, -q.X})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y, -q.Y})
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		t.Fatal("no decomposition")
	}
	var v mat.Dense
	svd.VTo(&v)
	g := mat.NewDense(3, 3, mat.Col(nil, 8, &v))
	var inverse, h mat.Dense
	if err := inverse.Inverse(tq); err != nil {
		t.Fatal(err)
	}
	h.Mul(&inverse, g)
	h.Mul(&h, tp)
	var out [9]float64
	for i := range 9 {
		out[i] = h.At(i/3, i%3) / h.At(2, 2)
	}
	return out
}

// leastByLibrary goes from a map to the least sum of squares in the picture by
// Gauss and Newton in the nine numbers of the map themselves, with slopes taken
// by differences and each step solved by the library.
func leastByLibrary(t *testing.T, marks []Mark, h [9]float64) [9]float64 {
	t.Helper()
	residual := func(h *[9]float64) []float64 {
		var r []float64
		for _, m := range marks {
			p := through(h, m.Place)
			r = append(r, p.X-m.Pixel.X, p.Y-m.Pixel.Y)
		}
		return r
	}
	for range 20 {
		r := residual(&h)
		a := mat.NewDense(len(r), 8, nil)
		for k := range 8 {
			step := 1e-6 * max(1e-3, math.Abs(h[k]))
			up, down := h, h
			up[k] += step
			down[k] -= step
			u, d := residual(&up), residual(&down)
			for i := range r {
				a.Set(i, k, (u[i]-d[i])/(2*step))
			}
		}
		var x mat.VecDense
		if err := x.SolveVec(a, mat.NewVecDense(len(r), r)); err != nil {
			if _, only := err.(mat.Condition); !only { // a warning of the scales, which differ by design
				t.Fatal(err)
			}
		}
		for k := range 8 {
			h[k] -= x.AtVec(k)
		}
	}
	return h
}

// TestAgainstALinearAlgebraLibrary holds the map of four marks to the null
// vector of the library, and that of more to the library's least squares.
func TestAgainstALinearAlgebraLibrary(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for range 100 {
		c := looking(shape.Point{X: 0.3, Y: 0.15}, 1+random.Float64(), random.Float64()*math.Pi/4, random.Float64()*7, random.Float64()*7)
		var places shape.Ring
		for _, p := range rectangle(0.6, 0.3) {
			places = append(places, jolted(p, 0.05, random))
		}
		for range 5 {
			places = append(places, shape.Point{X: 0.6 * random.Float64(), Y: 0.3 * random.Float64()})
		}
		for _, n := range []int{4, 5, 9} {
			marks := touched(c.marks(places[:n]...), 3, random)
			fit, err := Solve(marks)
			if err != nil {
				t.Fatal(err)
			}
			want := nullVector(t, marks)
			close := 1e-7
			if n > 4 {
				want, close = leastByLibrary(t, marks, want), 1e-6
			}
			for range 10 {
				p := shape.Point{X: 0.6 * random.Float64(), Y: 0.3 * random.Float64()}
				if d := apart(fit.Pixel(p), through(&want, p)); d > close*4000 {
					t.Fatalf("%d marks: %v is shown %g pixels from where the library has it", n, p, d)
				}
			}
			if n > 4 {
				sum := 0.0
				for _, m := range marks {
					d := apart(through(&want, m.Place), m.Pixel)
					sum += d * d
				}
				if got := fit.squares(); got > sum*(1+1e-9) {
					t.Fatalf("%d marks: sum of squares %.12g, the library's %.12g", n, got, sum)
				}
			}
		}
	}
}

// TestSpreadAgainstALinearAlgebraLibrary holds the triangle's covariance to the
// library's inverse of the normal equations.
func TestSpreadAgainstALinearAlgebraLibrary(t *testing.T) {
	c := looking(shape.Point{X: 0.3, Y: 0.15}, 1.2, 0.5, 1, 0.2)
	fit, err := Solve(c.marks(append(rectangle(0.6, 0.3), shape.Point{X: 0.2, Y: 0.2}, shape.Point{X: 0.4, Y: 0.1})...))
	if err != nil {
		t.Fatal(err)
	}
	list := fit.motions()
	a := mat.NewDense(len(list), 8, nil)
	for i, e := range list {
		a.SetRow(i, e[:8])
	}
	var normal, cov mat.Dense
	normal.Mul(a.T(), a)
	if err := cov.Inverse(&normal); err != nil {
		t.Fatal(err)
	}
	functional := vector{1, -2, 0.5, 3, 0.1, 1, 0.7, -0.3}
	v := mat.NewVecDense(8, functional[:])
	var cv mat.VecDense
	cv.MulVec(&cov, v)
	if got, want := fit.root.spread(functional), math.Sqrt(mat.Dot(v, &cv)); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("spread %g, the library has %g", got, want)
	}
	sum := mat.NewDense(8, 8, nil)
	for _, d := range fit.root.directions() {
		var outer mat.Dense
		u := mat.NewVecDense(8, d[:])
		outer.Outer(1, u, u)
		sum.Add(sum, &outer)
	}
	if !mat.EqualApprox(sum, &cov, 1e-9*mat.Norm(&cov, 2)) {
		t.Error("the eight directions do not make the covariance")
	}
}

// FuzzSolve gives whatever numbers as marks: it solves or says why not, and
// what it solves takes every mark to a finite place.
func FuzzSolve(f *testing.F) {
	f.Add(100.0, 100.0, 900.0, 150.0, 850.0, 700.0, 150.0, 600.0, 0.0, 0.0, 1.0, 0.0, 1.0, 1.0, 0.0, 1.0, 500.0, 400.0, 0.5, 0.5)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e8, 1.0, math.Inf(1), 1.0, 1e-300, 2.0, 5.0, math.NaN(), 1.0, 1.0, 2.0, 2.0, 3.0, 3.0, 4.0, 4.0, 5.0, 5.0, 6.0, 6.0)
	f.Fuzz(func(t *testing.T, ax, ay, bx, by, cx, cy, dx, dy, au, av, bu, bv, cu, cv, du, dv, ex, ey, eu, ev float64) {
		at := func(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }
		marks := []Mark{{at(ax, ay), at(au, av)}, {at(bx, by), at(bu, bv)}, {at(cx, cy), at(cu, cv)}, {at(dx, dy), at(du, dv)}, {at(ex, ey), at(eu, ev)}}
		for _, list := range [][]Mark{marks[:4], marks} {
			fit, err := Solve(list)
			if err != nil {
				if err.Error() == "" {
					t.Fatal("refused without a word")
				}
				continue
			}
			for _, m := range list {
				p := fit.At(m.Pixel)
				if !(math.Abs(p.X) <= math.MaxFloat64 && math.Abs(p.Y) <= math.MaxFloat64) {
					t.Fatalf("%v comes out at %v", m, p)
				}
			}
			fit.ScaleDoubt(at(0, 0), 1, Shift{at(1, 0)})
			fit.HeightDoubt(at(1500, 2000), 4000, 1, Shift{at(1, 0)})
			fit.OutlineDoubt(shape.Ring{at(ax, ay), at(bx, by), at(ex, ey)}, 1)
			fit.Square(at(1500, 2000), 4000)
		}
	})
}
