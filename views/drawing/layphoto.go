package drawing

import (
	"math"

	"meniscus/model/shape"
)

// LayPhoto is a photo that is shown straightened, in the plane of a slab.
type LayPhoto struct {
	Levels     Levels
	Wide, High int // of the photo in whose pixels Pixel speaks
	// Pixel gives the pixel that shows a place.
	Pixel func(shape.Point) shape.Point
}

// shown tells whether there is a picture.
func (f *LayPhoto) shown() bool {
	return f != nil && f.Levels != nil && f.Pixel != nil && f.Wide > 0 && f.High > 0 && f.Levels.Level(0) != nil
}

// paint draws the photo over the whole of an image, each of whose pixels takes
// the four nearest ones of the photo by their shares, from the step of the photo
// that is nearest to the view's own resolution. Where the photo shows nothing
// the image stays as it is.
func (f *LayPhoto) paint(on *Image, v View) {
	w, h := on.RGBA.Rect.Dx(), on.RGBA.Rect.Dy()
	world := func(x, y float64) shape.Point { return v.ToWorld(Pt{x / on.scale, y / on.scale}) }
	whole := f.Levels.Level(0)
	kx, ky := float64(whole.Rect.Dx())/float64(f.Wide), float64(whole.Rect.Dy())/float64(f.High)
	src, step := levelFor(f.Levels, f.scale(world, float64(w)/2, float64(h)/2)/kx)
	if src == nil || src.Rect.Dx() < 2 || src.Rect.Dy() < 2 {
		return
	}
	kx, ky = kx/step, ky/step
	right, foot := float64(src.Rect.Dx()-1), float64(src.Rect.Dy()-1)
	for y := range h {
		out := on.RGBA.Pix[y*on.RGBA.Stride:]
		for x := range w {
			at := f.Pixel(world(float64(x)+0.5, float64(y)+0.5))
			px, py := at.X*kx-0.5, at.Y*ky-0.5
			if !(px >= -0.5 && py >= -0.5 && px <= right+0.5 && py <= foot+0.5) {
				continue
			}
			px, py = min(max(px, 0), right-1e-6), min(max(py, 0), foot-1e-6)
			i, j := int(px), int(py)
			fx, fy := uint32((px-float64(i))*256), uint32((py-float64(j))*256)
			a := src.Pix[j*src.Stride+4*i:]
			b := src.Pix[(j+1)*src.Stride+4*i:]
			for c := range 3 {
				upper := uint32(a[c])*(256-fx) + uint32(a[4+c])*fx
				lower := uint32(b[c])*(256-fx) + uint32(b[4+c])*fx
				out[4*x+c] = uint8((upper*(256-fy) + lower*fy) >> 16)
			}
			out[4*x+3] = 255
		}
	}
}

// scale gives how many pixels of the image show a pixel of the photo around a
// place.
func (f *LayPhoto) scale(world func(x, y float64) shape.Point, x, y float64) float64 {
	p, q, r := f.Pixel(world(x, y)), f.Pixel(world(x+1, y)), f.Pixel(world(x, y+1))
	step := math.Max(math.Hypot(q.X-p.X, q.Y-p.Y), math.Hypot(r.X-p.X, r.Y-p.Y))
	if !(step > 0) {
		return 1
	}
	return 1 / step
}
