package drawing

import (
	"testing"

	"meniscus/model/shape"
)

// TestCorners: each corner has its letter on its own side of the floor, and words
// and a mark only where there is a shim; on a narrow floor none lies on another.
func TestCorners(t *testing.T) {
	for _, wide := range []float64{0.6, 0.26, 0.05} {
		r := record(t, 320, 150)
		c := Corners{
			Floor: shape.Ring{{X: -.5, Y: -wide / 2}, {X: .5, Y: -wide / 2}, {X: .5, Y: wide / 2}, {X: -.5, Y: wide / 2}},
			Names: [4]string{"A", "B", "C", "D"}, Words: [4]string{"", "shim 2.2 mm", "shim 3 mm", "shim 0.8 mm"},
		}
		copy(c.At[:], c.Floor)
		PaintCorners(r, c, styleOf(paper))
		at, marks := map[string]Box{}, 0
		for i, w := range r.texts {
			at[w.text] = w.box
			if w.box.Min.X < 0 || w.box.Min.Y < 0 || w.box.Max.X > 320 || w.box.Max.Y > 150 {
				t.Errorf("%g wide: %q stands off the picture", wide, w.text)
			}
			for _, v := range r.texts[:i] {
				if w.box.Min.X < v.box.Max.X && v.box.Min.X < w.box.Max.X && w.box.Min.Y < v.box.Max.Y-1 && v.box.Min.Y < w.box.Max.Y-1 {
					t.Errorf("%g wide: %q lies on %q", wide, w.text, v.text)
				}
			}
		}
		for _, f := range r.fills {
			if f.name == "corner" && f.c == paper.Check {
				marks++
			}
		}
		left, right, near, far := at["A"].Max.X < at["B"].Min.X, at["D"].Max.X < at["C"].Min.X, at["A"].Min.Y > at["D"].Min.Y, at["B"].Min.Y > at["C"].Min.Y
		if len(r.texts) != 7 || marks != 3 || !left || !right || !near || !far {
			t.Errorf("%g wide: %d words, %d marks, the corners at %v", wide, len(r.texts), marks, at)
		}
	}
	r := record(t, 320, 150)
	PaintCorners(r, Corners{}, styleOf(paper))
	if len(r.texts) != 0 {
		t.Error("nothing to draw, and it draws")
	}
}
