package drawing

import (
	"math"

	"meniscus/model/shape"
)

// photoView turns pixels of a photo into dp on the widget.
type photoView struct {
	k float64 // dp to a pixel
	o Pt      // of the photo's upper left corner
}

// fitPhoto gives the view that shows the whole of a photo, below or beside the
// buttons where they would lie on it: its corners are what is touched first.
func fitPhoto(wide, high int, box Box) photoView {
	const edge = 8
	v, shown := fitIn(wide, high, box.Grown(-edge))
	if buttons := buttonBox(Closer, box).And(buttonBox(Whole, box)); shown.Overlaps(buttons) {
		below, beside := box.Grown(-edge), box.Grown(-edge)
		below.Min.Y, beside.Max.X = buttons.Max.Y+edge, buttons.Min.X-edge
		v, _ = fitIn(wide, high, below)
		if left, _ := fitIn(wide, high, beside); left.k > v.k {
			v = left
		}
	}
	return v
}

// fitIn gives the view that shows a photo as large as a box allows, and where.
func fitIn(wide, high int, box Box) (photoView, Box) {
	w, h := float64(max(wide, 1)), float64(max(high, 1))
	k := math.Max(math.Min(box.W()/w, box.H()/h), 1e-4)
	c := box.Centre()
	o := Pt{c.X - k*w/2, c.Y - k*h/2}
	return photoView{k, o}, Box{o, o.Add(k*w, k*h)}
}

func (v photoView) toScreen(p shape.Point) Pt { return Pt{v.o.X + v.k*p.X, v.o.Y + v.k*p.Y} }

func (v photoView) toPhoto(p Pt) shape.Point {
	return shape.Point{X: (p.X - v.o.X) / v.k, Y: (p.Y - v.o.Y) / v.k}
}

// about gives the view k times as large, with a place held still.
func (v photoView) about(p Pt, k float64) photoView { return photoView{v.k * k, p.Lerp(v.o, k)} }

func (v photoView) shifted(by Pt) photoView { return photoView{v.k, v.o.Add(by.X, by.Y)} }
