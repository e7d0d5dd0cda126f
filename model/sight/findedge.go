package sight

import (
	"image"
	"math"
)

// field is how much each cell of a picture is wood, from 0 to 1; its edge lies
// at a half.
type field struct {
	wide, high, step int
	size             image.Point // of the picture
	at               []float32
}

// line is a colour's share in wood as a straight function of the colour, which
// holds near one place.
type line struct{ l, a, b, base float32 }

// reaching is how many cells the colours of an edge are looked at, on each side.
const reaching = 4

// refined draws the edge of the guess anew at a finer scale: near each cell of
// it the guess is fitted as a straight function of the colours, and the
// function is asked at the finer scale (the guided filter of He, Sun and Tang
// 2010, and its fast form of 2015). Cells away from the edge stay as they are.
func (s *search) refined(pic *image.RGBA, light *fall, step int) *field {
	rim, core := s.away(s.guess, false, reaching+2), s.away(s.guess, true, reaching+2)
	depth := func(i int) int { return int(rim[i]) + int(core[i]) } // 1 along the edge, on either side
	lines := make([]line, len(s.at))
	s.do(s.high, func(from, to int) {
		for i := from * s.wide; i < to*s.wide; i++ {
			if depth(i) <= reaching {
				lines[i] = s.fit(i%s.wide, i/s.wide)
			}
		}
	})
	// The mean of the lines around holds better than any one of them.
	steady := make([]line, len(s.at))
	s.do(s.high, func(from, to int) {
		for i := from * s.wide; i < to*s.wide; i++ {
			if depth(i) > 3 {
				continue
			}
			var m line
			n := float32(0)
			for _, j := range s.disc(i%s.wide, i/s.wide, 2) {
				if depth(j) <= reaching {
					l := lines[j]
					m = line{m.l + l.l, m.a + l.a, m.b + l.b, m.base + l.base}
					n++
				}
			}
			steady[i] = line{m.l / n, m.a / n, m.b / n, m.base / n}
		}
	})
	// cell gives the coarse cell of a fine one.
	size := pic.Rect.Size()
	cell := func(v, most int) int { return min(most-1, (v*step+step/2)/s.step) }
	near := func(x, y int) bool { return depth(cell(y, s.high)*s.wide+cell(x, s.wide)) <= 2 }
	f := &field{wide: (size.X + step - 1) / step, high: (size.Y + step - 1) / step, step: step, size: size}
	f.at = make([]float32, f.wide*f.high)
	s.do(f.high, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range f.wide {
				i := y*f.wide + x
				if near(x, y) {
					px := (float32(x)+0.5)*float32(step)/float32(s.step) - 0.5
					py := (float32(y)+0.5)*float32(step)/float32(s.step) - 0.5
					c := mean(pic, x, y, step)
					g := 1 / light.at(float64(x)+0.5, float64(y)+0.5, float64(f.wide), float64(f.high))
					f.at[i] = s.ask(steady, px, py, colour{c[0] * g, c[1] * g, c[2] * g})
				} else if s.guess[cell(y, s.high)*s.wide+cell(x, s.wide)] {
					f.at[i] = 1
				}
			}
		}
	})
	return f.smoothed(near, s.do)
}

// ask gives the share of wood of a colour at a place between cells.
func (s *search) ask(lines []line, x, y float32, c colour) float32 {
	x, y = min(max(x, 0), float32(s.wide-1)), min(max(y, 0), float32(s.high-1))
	x0, y0 := int(x), int(y)
	x1, y1 := min(x0+1, s.wide-1), min(y0+1, s.high-1)
	fx, fy := x-float32(x0), y-float32(y0)
	var v float32
	for _, k := range [4]struct {
		i int
		w float32
	}{{y0*s.wide + x0, (1 - fx) * (1 - fy)}, {y0*s.wide + x1, fx * (1 - fy)}, {y1*s.wide + x0, (1 - fx) * fy}, {y1*s.wide + x1, fx * fy}} {
		l := &lines[k.i]
		v += k.w * (l.l*c[0] + l.a*c[1] + l.b*c[2] + l.base)
	}
	return min(1, max(0, v))
}

// fit gives the line that tells the guess from the colours around a cell, by
// least squares with a little held back for noise.
func (s *search) fit(x, y int) line {
	var n, su float64
	var sc, scu [3]float64
	var v [6]float64
	for j := max(0, y-reaching); j <= min(s.high-1, y+reaching); j++ {
		for i := max(0, x-reaching); i <= min(s.wide-1, x+reaching); i++ {
			k := j*s.wide + i
			p, q, r := float64(s.at[k][0]), float64(s.at[k][1]), float64(s.at[k][2])
			n++
			for m, t := range [3]float64{p, q, r} {
				sc[m] += t
				if s.guess[k] {
					scu[m] += t
				}
			}
			if s.guess[k] {
				su++
			}
			for m, t := range [6]float64{p * p, q * q, r * r, p * q, p * r, q * r} {
				v[m] += t
			}
		}
	}
	mid := [3]float64{sc[0] / n, sc[1] / n, sc[2] / n}
	const noise = 0.01 * 0.01
	a := v[0]/n - mid[0]*mid[0] + noise
	b := v[1]/n - mid[1]*mid[1] + noise/4
	c := v[2]/n - mid[2]*mid[2] + noise/4
	d := v[3]/n - mid[0]*mid[1]
	e := v[4]/n - mid[0]*mid[2]
	f := v[5]/n - mid[1]*mid[2]
	u := su / n
	g := [3]float64{scu[0]/n - mid[0]*u, scu[1]/n - mid[1]*u, scu[2]/n - mid[2]*u}
	minor := [6]float64{b*c - f*f, a*c - e*e, a*b - d*d, e*f - d*c, d*f - e*b, d*e - a*f}
	det := a*minor[0] + d*minor[3] + e*minor[4]
	k := [3]float64{
		(minor[0]*g[0] + minor[3]*g[1] + minor[4]*g[2]) / det,
		(minor[3]*g[0] + minor[1]*g[1] + minor[5]*g[2]) / det,
		(minor[4]*g[0] + minor[5]*g[1] + minor[2]*g[2]) / det,
	}
	return line{float32(k[0]), float32(k[1]), float32(k[2]), float32(u - k[0]*mid[0] - k[1]*mid[1] - k[2]*mid[2])}
}

// smoothed gives the field with the grain and noise of single cells taken off.
func (f *field) smoothed(near func(x, y int) bool, do rows) *field {
	g := &field{wide: f.wide, high: f.high, step: f.step, size: f.size, at: make([]float32, len(f.at))}
	do(f.high, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range f.wide {
				i := y*f.wide + x
				g.at[i] = f.at[i]
				if !near(x, y) {
					continue
				}
				var sum, n float32
				for j := max(0, y-1); j <= min(f.high-1, y+1); j++ {
					for k := max(0, x-1); k <= min(f.wide-1, x+1); k++ {
						w := float32((2 - abs(j-y)) * (2 - abs(k-x)))
						sum, n = sum+w*f.at[j*f.wide+k], n+w
					}
				}
				g.at[i] = sum / n
			}
		}
	})
	return g
}

func abs(a int) int { return max(a, -a) }

// clarity tells how clearly wood and ground differ along the edge of the guess:
// the mean over the edge of the part in which the colours a little inside and a
// little outside do not mix, as normal distributions of their spread would.
func (s *search) clarity() float64 {
	rim, core := s.away(s.guess, false, 5), s.away(s.guess, true, 5)
	sum, n := 0.0, 0
	for i := range s.at {
		if core[i] != 1 {
			continue
		}
		var in, out []colour
		x, y := i%s.wide, i/s.wide
		for _, j := range s.disc(x, y, 4) {
			if rim[j] >= 2 && rim[j] <= 4 {
				out = append(out, s.at[j])
			} else if core[j] >= 2 && core[j] <= 4 {
				in = append(in, s.at[j])
			}
		}
		if len(in) < 3 || len(out) < 3 {
			continue
		}
		n++
		a, b := average(in), average(out)
		v, w := spread(in), spread(out)
		// Along the line from one mean to the other.
		d := a.minus(b)
		long := math.Sqrt(float64(d.square()))
		if long == 0 {
			continue
		}
		sum += math.Erf(long / (math.Sqrt2 * (math.Sqrt(along(v, d)) + math.Sqrt(along(w, d)))))
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// along gives the variance in the direction of d.
func along(v [6]float64, d colour) float64 {
	x, y, z := float64(d[0]), float64(d[1]), float64(d[2])
	return (v[0]*x*x + v[1]*y*y + v[2]*z*z + 2*(v[3]*x*y+v[4]*x*z+v[5]*y*z)) / (x*x + y*y + z*z)
}
