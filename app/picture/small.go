package picture

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/draw"
)

// Small decodes a picture and makes it no larger than side pixels either way, in
// its own proportions and upright.
func Small(data []byte, side int) (*image.RGBA, error) {
	one.Lock()
	defer one.Unlock()
	p, h, err := decode(data)
	if err != nil {
		return nil, err
	}
	scale := 1.0
	if long := max(h.Wide, h.High); long > side {
		scale = float64(long) / float64(side)
	}
	return flat(p, h.turn, scale), nil
}

// flat makes a picture smaller by a scale of 1 or more, lays it on white where
// it can be seen through, and turns it upright.
func flat(p image.Image, turn int, scale float64) *image.RGBA {
	from := p.Bounds()
	to := image.Rect(0, 0, shrunk(from.Dx(), scale), shrunk(from.Dy(), scale))
	out := image.NewRGBA(to)
	op := draw.Src
	if o, ok := p.(interface{ Opaque() bool }); ok && !o.Opaque() {
		draw.Draw(out, to, image.NewUniform(color.White), image.Point{}, draw.Src)
		op = draw.Over
	}
	if to.Size() == from.Size() {
		draw.Draw(out, to, p, from.Min, op)
	} else {
		draw.ApproxBiLinear.Scale(out, to, p, from, op, nil)
	}
	return upright(out, turn)
}

// shrunk is a side made smaller, 1 at least.
func shrunk(side int, scale float64) int { return max(int(math.Round(float64(side)/scale)), 1) }
