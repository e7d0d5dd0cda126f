package sight

import (
	"image"
	"math"
)

// colour is a colour in OKLab (B. Ottosson, A perceptual color space for image
// processing, 2020): lightness from 0 to 1 and two opponent hues. Light that
// falls off, as in a shadow, scales all three alike, since they are cube roots
// of light: the shadows of a colour lie on its line towards black.
type colour [3]float32

func (c colour) minus(d colour) colour { return colour{c[0] - d[0], c[1] - d[1], c[2] - d[2]} }

// square gives the square of the length.
func (c colour) square() float32 { return c[0]*c[0] + c[1]*c[1] + c[2]*c[2] }

// light is the light that a byte of a picture stands for (IEC 61966-2-1).
var light = func() (t [256]float32) {
	for i := range t {
		v := float64(i) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		t[i] = float32(v)
	}
	return t
}()

// okLab gives the colour of linear sRGB light.
func okLab(r, g, b float32) colour {
	l := cubeRoot(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := cubeRoot(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := cubeRoot(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	return colour{
		0.2104542553*l + 0.7936177850*m - 0.0040720468*s,
		1.9779984951*l - 2.4285922050*m + 0.4505937099*s,
		0.0259040371*l + 0.7827717662*m - 0.8086757660*s,
	}
}

func cubeRoot(x float32) float32 { return float32(math.Cbrt(float64(x))) }

// reduced is a picture at a smaller scale: each of its cells is the mean light
// of step × step pixels, fewer along the right and lower edges.
type reduced struct {
	wide, high, step int
	at               []colour
}

// reduce makes a picture smaller.
func reduce(pic *image.RGBA, step int, do rows) *reduced {
	size := pic.Rect.Size()
	r := &reduced{wide: (size.X + step - 1) / step, high: (size.Y + step - 1) / step, step: step}
	r.at = make([]colour, r.wide*r.high)
	do(r.high, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range r.wide {
				r.at[y*r.wide+x] = mean(pic, x, y, step)
			}
		}
	})
	return r
}

// mean gives the colour of the mean light of the pixels of one cell.
func mean(pic *image.RGBA, x, y, step int) colour {
	x0, y0 := x*step, y*step
	x1, y1 := min(x0+step, pic.Rect.Dx()), min(y0+step, pic.Rect.Dy())
	var r, g, b float32
	for y := y0; y < y1; y++ {
		line := pic.Pix[y*pic.Stride+4*x0 : y*pic.Stride+4*x1]
		for i := 0; i+3 < len(line); i += 4 {
			r += light[line[i]]
			g += light[line[i+1]]
			b += light[line[i+2]]
		}
	}
	n := 1 / float32((x1-x0)*(y1-y0))
	return okLab(r*n, g*n, b*n)
}

// halved makes a reduced picture smaller by a whole number of cells.
func (r *reduced) halved(by int) *reduced {
	h := &reduced{wide: (r.wide + by - 1) / by, high: (r.high + by - 1) / by, step: r.step * by}
	h.at = make([]colour, h.wide*h.high)
	for y := range h.high {
		for x := range h.wide {
			var sum colour
			n := float32(0)
			for j := y * by; j < min(y*by+by, r.high); j++ {
				for i := x * by; i < min(x*by+by, r.wide); i++ {
					c := r.at[j*r.wide+i]
					sum = colour{sum[0] + c[0], sum[1] + c[1], sum[2] + c[2]}
					n++
				}
			}
			h.at[y*h.wide+x] = colour{sum[0] / n, sum[1] / n, sum[2] / n}
		}
	}
	return h
}

// rows shares n rows out as stretches.
type rows func(n int, work func(from, to int))

// stripes is the number of stretches that rows are shared out in. It must not
// change what comes out, whoever does the work.
const stripes = 8

func sharing(split func(n int, work func(part int))) rows {
	if split == nil {
		return func(n int, work func(from, to int)) { work(0, n) }
	}
	return func(n int, work func(from, to int)) {
		split(stripes, func(k int) { work(n*k/stripes, n*(k+1)/stripes) })
	}
}
