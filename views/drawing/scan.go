package drawing

import (
	"image"
	"image/color"
	"math"
	"math/bits"
)

// scanner fills outlines with antialiasing by exact area coverage: each edge
// leaves its signed area in the pixels it crosses and the sum along a row is
// the coverage (the accumulation method of font rasterisers). Rows remember
// which blocks of pixels were crossed, so that large outlines cost only their
// edges.
type scanner struct {
	w, h   int
	stride int
	words  int
	acc    []float32
	mark   []uint64
	lo, hi int  // rows touched
	odd    bool // what two outlines cover is left free; else all that any covers is painted
}

const block = 16 // pixels

func newScanner(w, h int) *scanner {
	s := &scanner{w: w, h: h, stride: (w/block + 2) * block}
	s.words = (s.stride/block + 63) / 64
	s.acc = make([]float32, s.stride*h)
	s.mark = make([]uint64, s.words*h)
	s.lo, s.hi = h, 0
	return s
}

// loop adds a closed outline, in pixels.
func (s *scanner) loop(points []Pt) {
	for i, p := range points {
		q := points[(i+1)%len(points)]
		s.edge(p.X, p.Y, q.X, q.Y)
	}
}

// edge adds one edge, cut to the image. What lies to the left of the image
// still covers its rows.
func (s *scanner) edge(x0, y0, x1, y1 float64) {
	if y0 == y1 {
		return
	}
	dir := float32(1)
	if y0 > y1 {
		x0, y0, x1, y1, dir = x1, y1, x0, y0, -1
	}
	if y1 <= 0 || y0 >= float64(s.h) {
		return
	}
	k := (x1 - x0) / (y1 - y0)
	if y0 < 0 {
		x0, y0 = x0-y0*k, 0
	}
	if h := float64(s.h); y1 > h {
		x1, y1 = x1-(y1-h)*k, h
	}
	s.across(x0, y0, x1, y1, 0, float64(s.w), dir)
}

// across splits an edge at the left and right sides.
func (s *scanner) across(x0, y0, x1, y1, left, right float64, dir float32) {
	for _, side := range [2]float64{left, right} {
		if (x0 < side) != (x1 < side) && x0 != side && x1 != side {
			t := (side - x0) / (x1 - x0)
			ym := y0 + t*(y1-y0)
			s.across(x0, y0, side, ym, left, right, dir)
			s.across(side, ym, x1, y1, left, right, dir)
			return
		}
	}
	x0, x1 = min(max(x0, left), right), min(max(x1, left), right)
	s.rows(float32(x0), float32(y0), float32(x1), float32(y1), dir)
}

// rows adds an edge that lies within the image, y0 above y1.
func (s *scanner) rows(x0, y0, x1, y1, dir float32) {
	if y1 <= y0 {
		return
	}
	k := (x1 - x0) / (y1 - y0)
	x := x0
	first, last := int(y0), min(int(math.Ceil(float64(y1))), s.h)
	s.lo, s.hi = min(s.lo, first), max(s.hi, last)
	limit := float32(s.w)
	for y := first; y < last; y++ {
		dy := min(float32(y+1), y1) - max(float32(y), y0)
		next := min(max(x+dy*k, 0), limit)
		d := dy * dir
		a, b := x, next
		if a > b {
			a, b = b, a
		}
		s.cells(y, a, b, d)
		x = next
	}
}

// cells leaves the area of one edge within one row.
func (s *scanner) cells(y int, a, b, d float32) {
	row := s.acc[y*s.stride : (y+1)*s.stride]
	i := int(a)
	j := int(math.Ceil(float64(b)))
	s.touch(y, i, max(j, i+1))
	if j <= i+1 {
		m := 0.5*(a+b) - float32(i)
		row[i] += d - d*m
		row[i+1] += d * m
		return
	}
	per := 1 / (b - a)
	af := a - float32(i)
	a0 := 0.5 * per * (1 - af) * (1 - af)
	bf := b - float32(j) + 1
	am := 0.5 * per * bf * bf
	row[i] += d * a0
	if j == i+2 {
		row[i+1] += d * (1 - a0 - am)
	} else {
		a1 := per * (1.5 - af)
		row[i+1] += d * (a1 - a0)
		for n := i + 2; n < j-1; n++ {
			row[n] += d * per
		}
		a2 := a1 + float32(j-i-3)*per
		row[j-1] += d * (1 - a2 - am)
	}
	row[j] += d * am
}

func (s *scanner) touch(y, i, j int) {
	row := s.mark[y*s.words : (y+1)*s.words]
	for b := i / block; b <= j/block; b++ {
		row[b/64] |= 1 << (b % 64)
	}
}

// paint colours what was added on an opaque image and forgets it.
func (s *scanner) paint(dst *image.RGBA, c color.NRGBA) {
	const least = 1.0 / 512
	alpha := float32(c.A) / 255
	for y := s.lo; y < s.hi; y++ {
		acc := s.acc[y*s.stride : (y+1)*s.stride]
		pix := dst.Pix[y*dst.Stride : y*dst.Stride+4*s.w]
		sum := float32(0)
		from := 0 // pixels before it are done
		for w, word := range s.mark[y*s.words : (y+1)*s.words] {
			for word != 0 {
				b := w*64 + bits.TrailingZeros64(word)
				word &= word - 1
				if sum > least || sum < -least {
					span(pix, from, min(b*block, s.w), c, alpha*s.cover(sum))
				}
				for x := b * block; x < (b+1)*block; x++ {
					sum += acc[x]
					acc[x] = 0
					if x < s.w && (sum > least || sum < -least) {
						blend(pix[4*x:4*x+4:4*x+4], c, alpha*s.cover(sum))
					}
				}
				from = (b + 1) * block
			}
			s.mark[y*s.words+w] = 0
		}
		if sum > least || sum < -least {
			span(pix, from, s.w, c, alpha*s.cover(sum))
		}
	}
	s.lo, s.hi = s.h, 0
}

// cover tells how much of a pixel is painted, of how often it is covered.
func (s *scanner) cover(sum float32) float32 {
	if sum < 0 {
		sum = -sum
	}
	if s.odd && sum > 1 {
		if sum -= float32(int(sum/2)) * 2; sum > 1 {
			sum = 2 - sum
		}
		return sum
	}
	return min(sum, 1)
}

func span(pix []uint8, from, to int, c color.NRGBA, a float32) {
	if a > 0.999 {
		for x := from; x < to; x++ {
			p := pix[4*x : 4*x+4 : 4*x+4]
			p[0], p[1], p[2], p[3] = c.R, c.G, c.B, 255
		}
		return
	}
	for x := from; x < to; x++ {
		blend(pix[4*x:4*x+4:4*x+4], c, a)
	}
}

func blend(p []uint8, c color.NRGBA, a float32) {
	k := int32(a*65536 + 0.5)
	p[0] += uint8((int32(c.R) - int32(p[0])) * k >> 16)
	p[1] += uint8((int32(c.G) - int32(p[1])) * k >> 16)
	p[2] += uint8((int32(c.B) - int32(p[2])) * k >> 16)
}
