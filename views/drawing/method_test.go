package drawing

import (
	"image/color"
	"testing"
)

// TestPaintMethod: each method names what is measured, in the least room, in the room
// of a narrow window and in a wide one; none of its words runs out of the drawing or
// over another, and no line is drawn beyond the drawing's edge.
func TestPaintMethod(t *testing.T) {
	for x, names := range map[Method][]string{
		MethodLayer:   {"Level", "Depth", "this pour", "layer below", "in the middle", "not at the wall"},
		MethodMix:     {"empty", "cup + A", "cup + A + B", "A, resin", "B, hardener", "no zeroing"},
		MethodBottle:  {"as it is", "empty", "what is in it", "lot"},
		MethodLeft:    {"poured out", "clean", "what stayed"},
		MethodWarmth:  {"room", "probe", "bottles", "lowest", "sun"},
		MethodCasting: {"A", "B", "C", "D", "M", "caliper", "straightedge", "thickness"},
		MethodSheet:   {"mixing ratio", "density", "working time", "deepest", "next pour", "full cure"},
	} {
		for _, size := range [][2]float64{{MethodWide, MethodHigh}, {412, 230}, {640, 300}, {900, 500}} {
			r := record(t, size[0], size[1])
			PaintMethod(r, x, styleOf(paper))
			for _, words := range names {
				if !r.says(words) {
					t.Errorf("method %d at %v: no %q", x, size, words)
				}
			}
			for i, a := range r.texts {
				if !r.box.Holds(a.box) {
					t.Errorf("method %d at %v: %q runs out: %v", x, size, a.text, a.box)
				}
				for _, b := range r.texts[:i] {
					if a.box.Overlaps(b.box) {
						t.Errorf("method %d at %v: %q and %q overlap", x, size, a.text, b.text)
					}
				}
			}
			for _, l := range r.strokes {
				if l.pen.Name != "hatch" && !r.box.Holds(BoxOf(l.path.Points...)) {
					t.Errorf("method %d at %v: a line of %q runs out: %v", x, size, l.pen.Name, l.path.Points)
				}
			}
		}
		small := record(t, MethodWide-2, MethodHigh)
		PaintMethod(small, x, styleOf(paper))
		if len(small.texts)+len(small.strokes)+len(small.fills) > 0 {
			t.Errorf("method %d is drawn where its words have no room", x)
		}
	}
}

// TestMethodsNeedNoColour: with every colour but the ground's one and the same, each
// method has the same words and lines, and what is hatched is told apart by the run of
// its lines.
func TestMethodsNeedNoColour(t *testing.T) {
	ink := color.NRGBA{A: 255}
	r := record(t, MethodWide, MethodHigh)
	PaintMethod(r, MethodMix, styleOf(Palette{Ink: ink, Faint: ink, Line: ink, Resin: ink, Dimension: ink}))
	turns := map[bool]bool{}
	for _, l := range r.lines("hatch") {
		p, q := l.path.Points[0], l.path.Points[1]
		turns[(q.X-p.X)*(q.Y-p.Y) > 0] = true
	}
	if len(turns) != 2 {
		t.Error("A and B in the cup are hatched one way")
	}
}
