package drawing

import (
	"testing"

	"meniscus/model"
)

// TestPaintMoldMeasure: each form has the names of the sizes that are asked for
// with it, none runs out of the drawing or over another, and the one that is
// being entered alone is behind an arrow and in ink.
func TestPaintMoldMeasure(t *testing.T) {
	for form, names := range map[model.MoldKind]map[string]string{
		model.MoldRectangle: {"length": "Length", "width": "Width", "corner": "Corner radius", "depth": "Depth", "angle": "lean"},
		model.MoldRound:     {"diameter": "Diameter", "depth": "Depth"},
		model.MoldOval:      {"length": "Length", "width": "Width", "depth": "Depth"},
		model.MoldPolygon:   {"span": "Size across flats", "depth": "Depth"},
		model.MoldOutline:   {"": "x, y of each corner, all the way round", "depth": "Depth"},
	} {
		for lit, name := range names {
			for _, size := range [][2]float64{{740, 352}, {1300, 700}, {480, 420}} {
				r := record(t, size[0], size[1])
				PaintMoldMeasure(r, MoldMeasure{Form: form, Lit: lit, Floor: size[0] > 1000}, styleOf(paper))
				for _, words := range names {
					if !r.says(words) {
						t.Errorf("%s at %v: no %q", form, size, words)
					}
				}
				for i, a := range r.texts {
					if want := lit != "" && a.text == "→ "+name; want != (a.l.Colour == paper.Ink) {
						t.Errorf("%s, %q entered: %q is in %v", form, lit, a.text, a.l.Colour)
					}
					if !r.box.Holds(a.box) {
						t.Errorf("%s at %v: %q runs out: %v", form, size, a.text, a.box)
					}
					for _, b := range r.texts[:i] {
						if a.box.Overlaps(b.box) {
							t.Errorf("%s at %v: %q and %q overlap", form, size, a.text, b.text)
						}
					}
				}
			}
		}
	}
}

// TestPaintWoodMeasure: what is measured on a piece of wood is named, and none of
// it runs out of the drawing.
func TestPaintWoodMeasure(t *testing.T) {
	r := record(t, 415, 220)
	PaintWoodMeasure(r, styleOf(evening))
	for _, words := range []string{"distance", "width", "length", "thickness"} {
		if !r.says(words) {
			t.Errorf("no %q", words)
		}
	}
	for i, a := range r.texts {
		if !r.box.Holds(a.box) {
			t.Errorf("%q runs out: %v", a.text, a.box)
		}
		for _, b := range r.texts[:i] {
			if a.box.Overlaps(b.box) {
				t.Errorf("%q and %q overlap", a.text, b.text)
			}
		}
	}
}
