package picture

import (
	"image"
	"math"
)

// MostTraced is how many pixels of a picture are worked on at most.
const MostTraced = 16_000_000

// Raster is a picture to trace in: upright, opaque, with no more pixels than are
// worked on, and halves of it for showing it from afar. Nothing in it is ever
// changed.
type Raster struct {
	Image *image.RGBA
	Scale float64 // pixels of the picture for one of Image, 1 or more
	Wide  int     // pixels of the whole picture, upright
	High  int

	halves []*image.RGBA // Level(1), Level(2), ...
}

// Trace decodes a picture to be traced in.
func Trace(data []byte) (*Raster, error) {
	one.Lock()
	defer one.Unlock()
	p, h, err := decode(data)
	if err != nil {
		return nil, err
	}
	scale := traceScale(h.Wide, h.High)
	r := &Raster{Image: flat(p, h.turn, scale), Scale: scale, Wide: h.Wide, High: h.High}
	for last := r.Image; max(last.Rect.Dx(), last.Rect.Dy()) > smallest; {
		last = half(last)
		r.halves = append(r.halves, last)
	}
	return r, nil
}

// traceScale is by how much a picture is made smaller to be worked on: as little as
// will do, and so that both its sides come out whole, or as near as makes no odds,
// since places are handed to and fro by this one number.
func traceScale(wide, high int) float64 {
	n := float64(wide) * float64(high)
	if n <= MostTraced {
		return 1
	}
	most := float64(wide) / math.Sqrt(n/MostTraced)
	best, off := 1.0, math.Inf(1)
	for k := math.Floor(most); k >= max(1, math.Floor(most*0.95)); k-- {
		scale := float64(wide) / k
		side := float64(high) / scale
		if o := math.Abs(side - math.Round(side)); o < off-1e-9 {
			best, off = scale, o
		}
	}
	return best
}

// smallest is the longer side below which there is no smaller half.
const smallest = 64

// Levels is how many levels there are: Level(0) to Level(Levels()-1).
func (r *Raster) Levels() int { return 1 + len(r.halves) }

// Level gives the picture halved k times either way: Level(0) is Image. Below
// the last level it gives the last. A pixel of it stands for Scale·2^k pixels of
// the picture a side; where a side is odd its last row or column stands for what
// is left.
func (r *Raster) Level(k int) *image.RGBA {
	if k <= 0 || len(r.halves) == 0 {
		return r.Image
	}
	return r.halves[min(k, len(r.halves))-1]
}

// half makes a picture half as large, each pixel the mean of those that it
// stands for.
func half(p *image.RGBA) *image.RGBA {
	w, h := p.Rect.Dx(), p.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, (w+1)/2, (h+1)/2))
	for y := range out.Rect.Dy() {
		upper := p.Pix[2*y*p.Stride:]
		lower := p.Pix[min(2*y+1, h-1)*p.Stride:]
		row := out.Pix[y*out.Stride : y*out.Stride+4*out.Rect.Dx()]
		for x := 0; x < len(row); x += 4 {
			left := 2 * x
			right := min(left+4, 4*(w-1))
			for c := range 4 {
				row[x+c] = uint8((int(upper[left+c]) + int(upper[right+c]) + int(lower[left+c]) + int(lower[right+c]) + 2) / 4)
			}
		}
	}
	return out
}
