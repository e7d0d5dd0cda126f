package drawing

import (
	"math"
	"testing"

	"meniscus/model"
	"meniscus/model/shape"
)

// sizes are surfaces that the plan and the section are drawn on.
var sizes = []Pt{{700, 500}, {1000, 700}, {480, 420}}

func planOf(e example, pick string) PlanScene {
	return PlanScene{Plan: e.plan, Mold: e.mold, Style: styleOf(paper), Piece: pick}
}

func TestPlanFiguresKeepClearOfOutlines(t *testing.T) {
	for _, e := range examples() {
		for _, size := range sizes {
			for _, pick := range []string{"", "w1"} {
				if e.name == "boards" && pick != "" {
					continue // the figures of gaps beside close cavities have nowhere else to stand
				}
				r := record(t, size.X, size.Y)
				s := planOf(e, pick)
				s.Paint(r, s.Fit(r.Bounds()))
				checkFigures(t, e.name, r, "outline", "piece")
			}
		}
	}
}

// checkFigures tests that figures cross none of the named lines, do not cover
// each other and are on the surface.
func checkFigures(t *testing.T, name string, r *recorder, lines ...string) {
	t.Helper()
	for i, f := range r.texts {
		if f.l.Name != "dimension" {
			continue
		}
		if !r.box.Holds(f.box) {
			t.Errorf("%s: %q at %v is off the surface %v", name, f.text, f.box, r.box)
		}
		for _, l := range lines {
			for _, s := range r.lines(l) {
				if crosses(f.box, s.path) {
					t.Errorf("%s: %q at %v is crossed by a %s", name, f.text, f.box, l)
				}
			}
		}
		for j, g := range r.texts {
			if j != i && f.box.Overlaps(g.box) {
				t.Errorf("%s: %q and %q cover each other", name, f.text, g.text)
			}
		}
	}
}

func TestPlanSaysWhatIsMeasured(t *testing.T) {
	for _, c := range []struct {
		e    example
		want []string
	}{
		{hexagon(), []string{"320.0 mm across flats", "369.5 mm across corners", "Walnut slab", "100.0 mm"}},
		{boards(), []string{"120.0 mm", "230.0 mm", "5 equal cavities", "Board 5"}},
		{river(), []string{"1150.0 mm", "260.0 mm", "Oak, left", "200.0 mm"}},
	} {
		r := record(t, 700, 500)
		s := planOf(c.e, "")
		s.Paint(r, s.Fit(r.Bounds()))
		for _, w := range c.want {
			if !r.says(w) {
				t.Errorf("%s: does not say %q", c.e.name, w)
			}
		}
	}
}

// Measures of regular polygons: across flats is twice the inradius where the
// number of sides is even, inradius and circumradius together where it is odd
// (plane geometry).
func TestAcrossWhat(t *testing.T) {
	for _, c := range []struct {
		sides        int
		reach, width float64
		want         string
	}{
		{6, 1, math.Sqrt(3), " across flats"}, {6, 1, 2, " across corners"}, {4, 1, math.Sqrt2, " across flats"},
		{3, 1, 1.5, " across flats"}, {3, 1, math.Sqrt(3), " across corners"}, {8, 1, 1.9, ""}, {0, 1, 1, ""},
	} {
		if got := acrossWhat(c.sides, c.reach, c.width); got != c.want {
			t.Errorf("acrossWhat(%d, %g, %g) = %q, want %q", c.sides, c.reach, c.width, got, c.want)
		}
	}
}

func TestRoundMoldHasADiameter(t *testing.T) {
	e := hexagon()
	e.mold = model.Mold{Kind: model.MoldRound}
	e.plan.Drawing.Cavities[0].Rim = polygon(180, 0.15, 0, shape.Point{})
	r := record(t, 700, 500)
	s := planOf(e, "")
	s.Paint(r, s.Fit(r.Bounds()))
	if !r.says("Ø 300.0 mm") {
		t.Error("does not say the diameter")
	}
}

func TestPlanMarksAPieceThatDoesNotFit(t *testing.T) {
	r := record(t, 700, 500)
	s := planOf(boards(), "")
	s.Paint(r, s.Fit(r.Bounds()))
	stop := 0
	for _, l := range r.lines("piece") {
		if l.pen.Colour == paper.Stop {
			stop++
		}
	}
	if stop != 1 {
		t.Errorf("%d pieces outlined in the stop colour, want 1", stop)
	}
	if n := len(r.lines("unfit")); n != 3 {
		t.Errorf("cross mark of %d lines, want a circle and two strokes", n)
	}
}

func TestPlanLineTypes(t *testing.T) {
	r := record(t, 700, 500)
	s := planOf(hexagon(), "")
	s.Paint(r, s.Fit(r.Bounds()))
	for _, c := range []struct {
		name  string
		width float64
		dash  int
	}{{"outline", 2, 0}, {"hidden", 1, 2}, {"dimension", 1, 0}} {
		ls := r.lines(c.name)
		if len(ls) == 0 {
			t.Errorf("no %s lines", c.name)
		}
		for _, l := range ls {
			if l.pen.Width != c.width || len(l.pen.Dash) != c.dash {
				t.Errorf("%s: width %g, dashes %v", c.name, l.pen.Width, l.pen.Dash)
			}
		}
	}
}

func TestPlanHandles(t *testing.T) {
	e := hexagon()
	s := planOf(e, "w1")
	box := Box{Max: Pt{700, 500}}
	v := s.Fit(box)
	kinds := map[HandleKind]Handle{}
	for _, h := range s.Handles(box, v) {
		kinds[h.Kind] = h
		if !box.Grown(-Target / 2).Contains(h.At) {
			t.Errorf("handle %v lies too near the edge at %v", h.Kind, h.At)
		}
	}
	if len(kinds) != 3 {
		t.Fatalf("handles %v, want to move, turn and cut", kinds)
	}
	if at := v.ToScreen(shape.Point{X: -0.01, Y: 0.01}); kinds[MovePiece].At != at {
		t.Errorf("move handle at %v, want %v", kinds[MovePiece].At, at)
	}
	if d := kinds[MovePiece].At.To(kinds[TurnPiece].At); d < 2*Target {
		t.Errorf("handles %g dp apart", d)
	}
	if h, ok := Nearest(s.Handles(box, v), kinds[TurnPiece].At.Add(20, 5), 24); !ok || h.Kind != TurnPiece {
		t.Error("a finger 21 dp off does not find the turn handle")
	}
	if _, ok := Nearest(s.Handles(box, v), kinds[TurnPiece].At.Add(25, 0), 24); ok {
		t.Error("a finger 25 dp off finds a handle")
	}
}

func TestPlanHit(t *testing.T) {
	s := planOf(boards(), "")
	v := s.Fit(Box{Max: Pt{700, 500}})
	for _, c := range []struct {
		x, y float64
		want string
	}{{-0.01, 0, "w1"}, {0.29, 0.05, "w3"}, {0.14, -0.26, "w5"}, {0.05, 0, ""}, {0.075, -0.13, ""}} {
		if got := s.Hit(v.ToScreen(shape.Point{X: c.x, Y: c.y}), v); got != c.want {
			t.Errorf("at %g, %g: %q, want %q", c.x, c.y, got, c.want)
		}
	}
}

func TestNarrowestIsTheLeastRoom(t *testing.T) {
	wall := Box{Pt{0, 0}, Pt{400, 300}}.Ring()
	face := []Pt{{100, 100}, {200, 80}, {250, 200}, {120, 210}}
	for _, c := range []struct{ dx, dy, want float64 }{{1, 0, 150}, {-1, 0, 100}, {0, -1, 80}, {0, 1, 90}} {
		a, b, ok := narrowest(face, wall, c.dx, c.dy)
		if d := a.To(b); !ok || math.Abs(d-c.want) > 0.25 {
			t.Errorf("towards %g, %g: %g, want %g", c.dx, c.dy, d, c.want)
		}
	}
}

func TestPaintersBearEmptyPlans(t *testing.T) {
	r := record(t, 300, 200)
	for _, s := range []Scene{PlanScene{Plan: &model.Plan{}, Style: styleOf(paper)}, SectionScene{Plan: &model.Plan{}, Style: styleOf(paper)}} {
		v := s.Fit(r.Bounds())
		s.Paint(r, v)
		s.Handles(r.Bounds(), v)
		if id := s.Hit(Pt{150, 100}, v); id != "" {
			t.Errorf("hit %q in an empty plan", id)
		}
		for k := None; k <= DragCut; k++ {
			s.Preview(r, v, Change{Kind: k})
		}
	}
	Chart{}.Paint(r, styleOf(paper))
	PaintSketch(r, model.Sketch{}, styleOf(paper))
}
