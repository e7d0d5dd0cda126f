package drawing

import (
	"encoding/binary"
	"image"
	"math"
)

// Levels is a photo in steps, each half as wide as the one before: level 0 is
// the photo itself. Images are opaque and begin at (0, 0); a level past the last
// gives the last or nil.
type Levels interface {
	Level(k int) *image.RGBA
}

// levelFor gives the smallest level that has no fewer pixels than are shown,
// with k the pixels shown to a pixel of level 0, and how many of its own make
// one of theirs. A level's odd last row or column stands for less than the
// others, so the step is a power of two and no ratio of sizes.
func levelFor(levels Levels, k float64) (level *image.RGBA, step float64) {
	whole := levels.Level(0)
	if whole == nil || whole.Rect.Empty() {
		return nil, 1
	}
	if k > 0 && k < 1 {
		for n := int(math.Log2(1 / k)); n > 0; n-- {
			if m := levels.Level(n); m != nil && !m.Rect.Empty() {
				return m, math.Exp2(math.Round(math.Log2(float64(whole.Rect.Dx()) / float64(m.Rect.Dx()))))
			}
		}
	}
	return whole, 1
}

// paintPhoto draws the photo, or the ground where there is none.
func (p *Photo) paintPhoto(on *Image, v photoView) {
	on.Clear(p.palette.Ground)
	if p.levels == nil || p.scene.Wide <= 0 || p.scene.High <= 0 {
		return
	}
	whole := p.levels.Level(0)
	if whole == nil || whole.Rect.Empty() {
		return
	}
	kx := v.k * on.scale * float64(p.scene.Wide) / float64(whole.Rect.Dx())
	ky := v.k * on.scale * float64(p.scene.High) / float64(whole.Rect.Dy())
	from, step := levelFor(p.levels, kx)
	sample(on.RGBA, from, Pt{v.o.X * on.scale, v.o.Y * on.scale}, kx*step, ky*step)
}

// tap is where along one direction a pixel takes its colour from: two pixels
// and the share of the second in 256ths.
type tap struct {
	a, b int
	f    uint32
}

// taps gives them for the pixels of a row or column that the picture covers,
// and the first of these. A picture of n pixels begins at o, each k wide.
func taps(wide, n int, o, k float64) (list []tap, first int) {
	first = max(int(math.Ceil(o-0.5)), 0)
	last := min(int(math.Floor(o+k*float64(n)-0.5)), wide-1)
	for x := first; x <= last; x++ {
		at := (float64(x)+0.5-o)/k - 0.5
		i := math.Floor(at)
		f := uint32((at - i) * 256)
		list = append(list, tap{min(max(int(i), 0), n-1), min(max(int(i)+1, 0), n-1), f})
	}
	return list, first
}

// sample draws a picture with its corner at o and pixels kx by ky large,
// weighing the four nearest pixels for each (bilinear interpolation).
func sample(dst, src *image.RGBA, o Pt, kx, ky float64) {
	across, left := taps(dst.Rect.Dx(), src.Rect.Dx(), o.X, kx)
	down, top := taps(dst.Rect.Dy(), src.Rect.Dy(), o.Y, ky)
	const even, all = 0x00ff00ff, 0xff000000
	for j, ty := range down {
		upper := src.Pix[ty.a*src.Stride:]
		lower := src.Pix[ty.b*src.Stride:]
		out := dst.Pix[(top+j)*dst.Stride+4*left:]
		g1 := ty.f
		g0 := 256 - g1
		for i := range across {
			t := &across[i]
			a0, b0 := binary.LittleEndian.Uint32(upper[4*t.a:]), binary.LittleEndian.Uint32(upper[4*t.b:])
			a1, b1 := binary.LittleEndian.Uint32(lower[4*t.a:]), binary.LittleEndian.Uint32(lower[4*t.b:])
			f1 := t.f
			f0 := 256 - f1
			// Two channels at a time: 255 times 256 fits into 16 bits.
			r0 := (a0&even*f0 + b0&even*f1) >> 8 & even
			r1 := (a1&even*f0 + b1&even*f1) >> 8 & even
			h0 := (a0>>8&even*f0 + b0>>8&even*f1) >> 8 & even
			h1 := (a1>>8&even*f0 + b1>>8&even*f1) >> 8 & even
			rb := (r0*g0 + r1*g1) >> 8 & even
			gh := (h0*g0 + h1*g1) & (even << 8)
			binary.LittleEndian.PutUint32(out[4*i:], rb|gh|all)
		}
	}
}
