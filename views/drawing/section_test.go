package drawing

import (
	"math"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

func TestSectionFiguresKeepClear(t *testing.T) {
	for _, e := range examples() {
		for _, size := range []Pt{{760, 380}, {700, 500}, {520, 420}} {
			for _, live := range []bool{true, false} {
				st := styleOf(paper)
				st.Live = live
				r := record(t, size.X, size.Y)
				s := SectionScene{Plan: e.plan, Style: st}
				s.Paint(r, s.Fit(r.Bounds()))
				checkFigures(t, e.name, r, "outline", "piece", "level")
			}
		}
	}
}

func TestSectionSaysItsLevels(t *testing.T) {
	r := record(t, 760, 380)
	s := SectionScene{Plan: hexagon().plan, Style: styleOf(paper)}
	v := s.Fit(r.Bounds())
	s.Paint(r, v)
	for _, w := range []string{
		"Fill line 28.0 mm from floor · 12.0 mm down from rim", "16.0 mm", "Deep blue", "Freeboard", "12.0 mm", "22.0 mm",
		"heights drawn ×" + trimmed(stretch(v), 1),
	} {
		if !r.says(w) {
			t.Errorf("does not say %q", w)
		}
	}
	if stretch(v) < 2 {
		t.Errorf("a section of 320 by 40 mm is stretched %g times", stretch(v))
	}
}

func TestSectionTrueToScaleSaysNothingOfHeights(t *testing.T) {
	p := &model.Plan{}
	p.Mold.Depth, p.Mold.FillLine = 0.1, 0.08
	p.Layers = layers(model.LayerPlan{ID: "l1", Name: "One", Top: 0.08})
	section(p, 0.08, 0.08)
	r := record(t, 760, 480)
	s := SectionScene{Plan: p, Style: styleOf(paper)}
	v := s.Fit(r.Bounds())
	s.Paint(r, v)
	if stretch(v) != 1 || r.says("heights drawn") {
		t.Errorf("stretch %g", stretch(v))
	}
}

func TestSectionHandlesFanOut(t *testing.T) {
	for _, h := range []float64{200, 260, 380, 600} {
		box := Box{Max: Pt{760, h}}
		s := SectionScene{Plan: river().plan, Style: styleOf(paper)}
		hs := s.Handles(box, s.Fit(box))
		if len(hs) != 4 {
			t.Fatalf("%d handles, want 4", len(hs))
		}
		for i, a := range hs {
			for _, b := range hs[i+1:] {
				if math.Abs(a.At.X-b.At.X) < Target-1e-6 && math.Abs(a.At.Y-b.At.Y) < Target-1e-6 {
					t.Errorf("at a height of %g, %s and %s are %g dp apart", h, a.ID, b.ID, a.At.To(b.At))
				}
			}
			if !box.Contains(a.At) {
				t.Errorf("at a height of %g, %s is at %v", h, a.ID, a.At)
			}
		}
	}
}

func TestSectionHit(t *testing.T) {
	s := SectionScene{Plan: hexagon().plan, Style: styleOf(paper)}
	v := s.Fit(Box{Max: Pt{760, 380}})
	for _, c := range []struct {
		y, z float64
		want string
	}{{0, 0.01, "w1"}, {-0.1, 0.003, "l1"}, {0.12, 0.015, "l2"}, {0, 0.027, "l3"}, {0, 0.035, ""}} {
		p := sectionPainter{v: v}
		if got := s.Hit(p.place(c.y, c.z), v); got != c.want {
			t.Errorf("at %g, %g: %q, want %q", c.y, c.z, got, c.want)
		}
	}
}

func TestSectionPreviewTellsTheLevel(t *testing.T) {
	r := record(t, 760, 380)
	s := SectionScene{Plan: hexagon().plan, Style: styleOf(paper), Note: func(id string, l unit.Length) string { return id + " takes 1.42 L" }}
	s.Preview(r, s.Fit(r.Bounds()), Change{Kind: DragLevel, ID: "l2", To: 0.0245})
	if !r.says("24.5 mm · l2 takes 1.42 L") {
		t.Errorf("says %v", r.texts)
	}
}

func TestChartIsOnItsSurface(t *testing.T) {
	r := record(t, 560, 340)
	fillCurve().Paint(r, styleOf(paper))
	for _, w := range []string{"Level above the floor, mm", "Resin, ml", "fill line 28.0 mm, 2010 ml", "freeboard", "now", "1000", "30"} {
		if !r.says(w) {
			t.Errorf("does not say %q", w)
		}
	}
	for _, x := range r.texts {
		if !r.box.Holds(x.box) {
			t.Errorf("%q at %v is off the surface", x.text, x.box)
		}
	}
	for _, s := range r.lines("series") {
		for _, p := range s.path.Points {
			if p.X < 40 || p.X > 540 || p.Y < 30 || p.Y > 300 {
				t.Errorf("the line leaves the plot at %v", p)
			}
		}
	}
}

func TestStackedBandsOfWoodShareNoLine(t *testing.T) {
	// A face of 100 with a slot from 40 to 60 in its upper half.
	rings := [][]Pt{
		{{0, 100}, {100, 100}, {100, 50}, {0, 50}},
		{{0, 50}, {40, 50}, {40, 0}, {0, 0}},
		{{60, 50}, {100, 50}, {100, 0}, {60, 0}},
	}
	length := 0.0
	for _, p := range joined(rings, 0) {
		length += p.Points[0].To(p.Points[1])
	}
	// Around: 100 below, 2·100 at the sides, 2·40 on top, 2·50 and 20 in the slot.
	if length != 500 {
		t.Errorf("outline of %g, want 500", length)
	}
}

func TestFillNoteLeaderRunsSquare(t *testing.T) {
	for _, size := range []struct{ w, h float64 }{{760, 380}, {560, 380}, {420, 300}, {1200, 260}} {
		r := record(t, size.w, size.h)
		st := styleOf(paper)
		st.Live = true
		s := SectionScene{Plan: hexagon().plan, Style: st}
		p := sectionPainter{newDrafter(r, st), s, &s.Plan.Drawing.Section, s.Fit(r.Bounds())}
		p.fillLine()
		lines := r.lines("leader")
		if len(lines) == 0 {
			t.Fatalf("%v: no leader", size)
		}
		for _, l := range lines {
			for i := 1; i < len(l.path.Points); i++ {
				if a, b := l.path.Points[i-1], l.path.Points[i]; a.X != b.X && a.Y != b.Y {
					t.Errorf("%v: a slanted leader from %v to %v", size, a, b)
				}
			}
		}
	}
}
