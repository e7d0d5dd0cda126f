package drawing

import (
	"math"
	"testing"

	"meniscus/model/unit"
)

// tumbler is a tapered cup with the marks of a mix of two parts.
func tumbler() Cup {
	return Cup{Floor: 0.060, Brim: 0.080, Tall: 0.100, Size: func(l unit.Length) string { return unit.Style{}.Length(l) }, Marks: []CupMark{
		{Part: "A", Tall: 0.052, Words: []string{"A up to 52 mm", "straight up 52 mm", "its line of 200 ml"}},
		{Part: "B", Tall: 0.074, Words: []string{"then B up to 74 mm", "straight up 74 mm", "its line of 300 ml"}},
	}}
}

// TestPaintCup: the cup has its true proportions, its marks lie at their heights
// between the walls, one dashed and one not, and no words run out or into each
// other or into the cup.
func TestPaintCup(t *testing.T) {
	for _, p := range []Palette{paper, evening} {
		for _, size := range [][2]float64{{420, 280}, {560, 320}, {340, 260}} {
			r := record(t, size[0], size[1])
			PaintCup(r, tumbler(), styleOf(p))
			wall := r.lines("outline")[0].path.Points
			floor, brim, tall := wall[2].X-wall[1].X-cupWall, wall[3].X-wall[0].X-cupWall, wall[1].Y-cupWall/2-wall[0].Y
			if math.Abs(brim/floor-8.0/6) > 1e-9 || math.Abs(tall/floor-10.0/6) > 1e-9 {
				t.Errorf("%v: %v %v %v", size, floor, brim, tall)
			}
			marks := r.lines("mark")
			if len(marks) != 2 || len(marks[0].pen.Dash) == 0 || len(marks[1].pen.Dash) != 0 {
				t.Fatalf("%+v", marks)
			}
			for i, want := range []float64{52, 74} {
				line := marks[i].path.Points
				if up := (wall[1].Y - cupWall/2 - line[0].Y) / tall * 100; math.Abs(up-want) > 1e-6 {
					t.Errorf("%v: mark %d at %v", size, i, up)
				}
				if wide := (line[1].X - line[0].X) / floor * 60; math.Abs(wide-60-20*want/100) > 1e-6 {
					t.Errorf("%v: mark %d is %v wide", size, i, wide)
				}
			}
			for i, a := range r.texts {
				if a.box.Min.X < 0 || a.box.Max.X > size[0] || a.box.Min.Y < 0 || a.box.Max.Y > size[1] {
					t.Errorf("%v: %q runs out: %v", size, a.text, a.box)
				}
				if a.l.Name == "mark" && a.box.Min.X < wall[3].X {
					t.Errorf("%v: %q stands in the cup", size, a.text)
				}
				for _, b := range r.texts[:i] {
					if a.box.Overlaps(b.box) {
						t.Errorf("%v: %q and %q overlap", size, a.text, b.text)
					}
				}
			}
			for _, words := range []string{"A", "B", "its line of 300 ml", "60 mm", "80 mm, 100 mm tall"} {
				if !r.says(words) {
					t.Errorf("%v: no %q", size, words)
				}
			}
		}
	}
	// The words of a narrow cup do not run out either.
	narrow := tumbler()
	narrow.Floor, narrow.Brim, narrow.Tall = 0.02, 0.02, 0.25
	n := record(t, 420, 280)
	PaintCup(n, narrow, styleOf(paper))
	for _, a := range n.texts {
		if a.box.Min.X < 0 || a.box.Max.X > 420 || a.box.Min.Y < 0 || a.box.Max.Y > 280 {
			t.Errorf("%q of a narrow cup runs out: %v", a.text, a.box)
		}
	}
	// Nothing is drawn of a cup that is not measured.
	r := record(t, 400, 300)
	PaintCup(r, Cup{}, styleOf(paper))
	if len(r.strokes) != 0 {
		t.Error("a cup of no size")
	}
}
