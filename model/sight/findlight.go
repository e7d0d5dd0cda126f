package sight

import (
	"math"
	"slices"
)

// fall is how light falls off over a picture, as a factor on colours: a
// quadratic of the place, 1 on the whole.
type fall [6]float64

// terms of the quadratic at a place, which runs from -1 to 1 over the picture.
func terms(x, y float64) [6]float64 { return [6]float64{1, x, y, x * x, x * y, y * y} }

// at gives the factor at a place in pixels of a picture so wide and high. It
// never leaves what lamps and lenses do.
func (f *fall) at(x, y, wide, high float64) float32 {
	v := 0.0
	for k, t := range terms(2*x/wide-1, 2*y/high-1) {
		v += f[k] * t
	}
	return float32(min(1.6, max(0.5, v)))
}

// evenly finds how light falls off over the cells that may be ground, most of
// which should be of one colour. Cells that stand off, such as shadows and
// things lying about, lose their say (least squares with the weights of Beaton
// and Tukey 1974). Where no such fall explains most of them, nothing is taken.
func (r *reduced) evenly(use []bool) fall {
	none := fall{1}
	var cells []int
	for i, is := range use {
		if is {
			cells = append(cells, i)
		}
	}
	if len(cells) < 200 {
		return none
	}
	shade := make([]float64, len(cells))
	for k, i := range cells {
		shade[k] = float64(r.at[i][0])
	}
	middle := slices.Sorted(slices.Values(shade))[len(shade)/2]
	if middle < 0.05 {
		return none
	}
	off := make([]float64, len(cells))
	var f fall
	f[0] = middle
	before := 0.0
	for round := range 12 {
		for k, i := range cells {
			v := shade[k]
			x, y := r.place(i)
			for m, t := range terms(x, y) {
				v -= f[m] * t
			}
			off[k] = math.Abs(v)
		}
		spread := max(0.004, slices.Sorted(slices.Values(off))[len(off)/2])
		if round == 0 {
			before = spread
		} else if round == 11 && spread > 0.75*before {
			return none
		}
		var a [6][7]float64
		for k, i := range cells {
			q := off[k] / (6 * spread)
			if q >= 1 {
				continue
			}
			w := (1 - q*q) * (1 - q*q)
			x, y := r.place(i)
			t := terms(x, y)
			for m := range 6 {
				for n := range 6 {
					a[m][n] += w * t[m] * t[n]
				}
				a[m][6] += w * t[m] * shade[k]
			}
		}
		solved, ok := solve6(a)
		if !ok {
			return none
		}
		f = solved
	}
	for k := range f {
		f[k] /= middle
	}
	return f
}

// clearOf gives the cells that lie well clear of a guess.
func (r *reduced) clearOf(guess []bool) []bool {
	margin := r.margin()
	away := r.away(guess, false, margin+1)
	clear := make([]bool, len(guess))
	for i, d := range away {
		clear[i] = int(d) > margin
	}
	return clear
}

// place gives where a cell lies, from -1 to 1 over the picture.
func (r *reduced) place(i int) (x, y float64) {
	return (2*float64(i%r.wide)+1)/float64(r.wide) - 1, (2*float64(i/r.wide)+1)/float64(r.high) - 1
}

// flattened gives the picture with the fall of light taken off.
func (r *reduced) flattened(f *fall) *reduced {
	flat := &reduced{wide: r.wide, high: r.high, step: r.step, at: make([]colour, len(r.at))}
	for i, c := range r.at {
		g := 1 / f.at(float64(i%r.wide)+0.5, float64(i/r.wide)+0.5, float64(r.wide), float64(r.high))
		flat.at[i] = colour{c[0] * g, c[1] * g, c[2] * g}
	}
	return flat
}

// solve6 solves six equations by elimination with the largest pivot.
func solve6(a [6][7]float64) (x fall, ok bool) {
	for k := range 6 {
		p := k
		for i := k + 1; i < 6; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[p][k]) {
				p = i
			}
		}
		if math.Abs(a[p][k]) < 1e-6 {
			return x, false
		}
		a[k], a[p] = a[p], a[k]
		for i := k + 1; i < 6; i++ {
			q := a[i][k] / a[k][k]
			for j := k; j < 7; j++ {
				a[i][j] -= q * a[k][j]
			}
		}
	}
	for k := 5; k >= 0; k-- {
		x[k] = a[k][6]
		for j := k + 1; j < 6; j++ {
			x[k] -= a[k][j] * x[j]
		}
		x[k] /= a[k][k]
	}
	return x, true
}
