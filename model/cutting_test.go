package model

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// boardOf is a board of some metres with wavy long edges, about the origin.
func boardOf(long, wide float64) shape.Region {
	const n = 200
	var r shape.Ring
	for i := range n {
		x := long * (float64(i)/(n-1) - 0.5)
		r = append(r, shape.Point{X: x, Y: -wide/2 + 0.05*wide*math.Sin(20*x)})
	}
	for i := range n {
		x := long * (0.5 - float64(i)/(n-1))
		r = append(r, shape.Point{X: x, Y: wide/2 + 0.04*wide*math.Sin(13*x)})
	}
	return shape.Region{r}
}

// laidOut is a project with a slab and a lay-up, and a plan of it made by hand:
// a cavity of some metres laid over the slab.
func laidOut(l Layup, long, wide float64) (Project, Plan) {
	p := Blank("1", "Test")
	l.ID, l.Name = "y1", "Across the fork"
	p.Slabs = []Slab{{ID: "b1", Name: "beech", Thickness: unit.Dim{Value: 0.032}, Layups: []Layup{l}}}
	slab := boardOf(1.2, 0.4)
	x, y := long/2, wide/2
	box := shape.Region{{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}}.Turned(l.Turn).Moved(float64(l.X), float64(l.Y))
	blank := slab.And(box)
	lay := LayPlan{ID: "y1", Rim: box, Floor: box, Upper: blank, Under: blank, Blank: blank, Pieces: 1, Cut: 0.5}
	return p, Plan{Slabs: []SlabPlan{{ID: "b1", Upper: FacePlan{Region: slab}, Under: FacePlan{Region: slab}, Lay: []LayPlan{lay}}}}
}

// TestCuttingSheetParts: the blank's outline is parted into what is sawn and
// what is the slab's own edge, and both together are all of it.
func TestCuttingSheetParts(t *testing.T) {
	length := func(runs []shape.Ring) (sum float64) {
		for _, r := range runs {
			for i := range len(r) - 1 {
				sum += math.Hypot(r[i+1].X-r[i].X, r[i+1].Y-r[i].Y)
			}
		}
		return sum
	}
	rapid.Check(t, func(t *rapid.T) {
		l := Layup{X: unit.Length(rapid.Float64Range(-0.4, 0.4).Draw(t, "x")), Y: unit.Length(rapid.Float64Range(-0.2, 0.2).Draw(t, "y")), Turn: unit.Angle(rapid.Float64Range(-3.1, 3.1).Draw(t, "turn"))}
		p, pl := laidOut(l, 0.5, 0.3)
		c, err := NewCuttingSheet(&p, &pl, "b1", "y1", time.Time{})
		if err != nil {
			t.Fatal(err)
		}
		all := float64(c.Blank.Perimeter())
		cuts, live := length(c.Cuts), length(c.Live)
		if math.Abs(cuts+live-all) > 1e-9 {
			t.Fatalf("%v m are sawn and %v m live, of %v m", cuts, live, all)
		}
		// What is sawn lies along the cavity's straight walls.
		for _, r := range c.Cuts {
			for i := range len(r) - 1 {
				at := shape.Point{X: (r[i].X + r[i+1].X) / 2, Y: (r[i].Y + r[i+1].Y) / 2}
				home := shape.Ring{at}.Turned(l.Turn).Moved(-float64(l.X), -float64(l.Y)).Turned(-l.Turn)[0]
				if math.Abs(math.Abs(home.X)-0.25) > 1e-6 && math.Abs(math.Abs(home.Y)-0.15) > 1e-6 {
					t.Fatalf("%v is sawn and lies along no wall", home)
				}
			}
		}
		if a, b := float64(c.Blank.Area()), float64(pl.Slabs[0].Lay[0].Blank.Area()); math.Abs(a-b) > 1e-9 {
			t.Fatalf("turned, the blank has %v m² and not %v", a, b)
		}
	})
	// A blank from the middle of the slab has no live edge, and in the cavity's
	// axes it is as large as the cavity.
	p, pl := laidOut(Layup{Turn: 30 * unit.Degree}, 0.2, 0.15)
	c, err := NewCuttingSheet(&p, &pl, "b1", "y1", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	lo, hi := c.Bounds()
	if len(c.Live) != 0 || len(c.Cuts) != 1 || math.Abs(hi.X-lo.X-0.2) > 1e-9 || math.Abs(hi.Y-lo.Y-0.15) > 1e-9 {
		t.Errorf("%d live, %d sawn, %v to %v", len(c.Live), len(c.Cuts), lo, hi)
	}
	if len(c.Under) != 0 || len(c.Upper) != 0 || slices.ContainsFunc(c.Lines, func(l CutLine) bool { return l.Kind == LineFinished || l.Kind == LineUnder }) {
		t.Error("faces that lie on the cut line are drawn, or told of, once more")
	}
	lay := &pl.Slabs[0].Lay[0]
	lay.Blank = lay.Blank.Grown(2 * unit.Millimetre)
	if c, err = NewCuttingSheet(&p, &pl, "b1", "y1", time.Time{}); err != nil || len(c.Upper) != 1 || !slices.ContainsFunc(c.Lines, func(l CutLine) bool { return l.Kind == LineFinished }) {
		t.Errorf("with something to trim there is no finished line: %v", err)
	}
}

// TestCuttingSheetSays: the words that a sheet must have, by what is known, and
// the paper by the units.
func TestCuttingSheetSays(t *testing.T) {
	p, pl := laidOut(Layup{Kerf: unit.Dim{Value: 0.003, Written: "3"}, Trim: unit.Dim{Value: 0.002, Written: "2"}, Y: -0.15}, 0.5, 0.3)
	say := func() string {
		c, err := NewCuttingSheet(&p, &pl, "b1", "y1", time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		return c.Title + "\n" + c.Made + "\n" + strings.Join(c.Facts, "\n") + "\n" + strings.Join(c.Printing, "\n") + "\n" + strings.Join(c.Cautions, "\n") + "\n" + c.Measures
	}
	for _, want := range []string{"Across the fork", "1 Dec 2026", "beech, 32", "Kerf 3", "outside", "trim on a cut edge: 2", "stands upright", "Print at 100 %, not fit to page", "push stick", "manual", "100 mm"} {
		if text := say(); !strings.Contains(text, want) {
			t.Errorf("%q is not said in:\n%s", want, text)
		}
	}
	for _, want := range []string{"Test, beech, Across the fork", "wall of the mold: 1.5 mm (usual, not given)"} {
		if text := say(); !strings.Contains(text, want) {
			t.Errorf("%q is not said in:\n%s", want, text)
		}
	}
	p.Slabs[0].Layups[0].Kerf = unit.Dim{}
	if text := say(); !strings.Contains(text, "Kerf 3.2 mm (usual, not given; measure yours)") {
		t.Errorf("the usual kerf is not marked in:\n%s", text)
	}
	p.Style.Lengths = unit.InInches
	p.Slabs[0].Layups[0].Bevelled = true
	for _, want := range []string{"4 in", "lean of the walls"} {
		if text := say(); !strings.Contains(text, want) {
			t.Errorf("%q is not said in:\n%s", want, text)
		}
	}
	pl.Slabs[0].Lay[0].Blank = nil
	if _, err := NewCuttingSheet(&p, &pl, "b1", "y1", time.Time{}); err == nil {
		t.Error("a sheet of nothing")
	}
	if _, err := NewCuttingSheet(&p, &pl, "b9", "y1", time.Time{}); err == nil {
		t.Error("a sheet of no slab")
	}
}

// TestAxisOf: the longer direction and the middle of a rectangle, turned and
// moved, with a hole in its middle (second moments of a rectangle: b·h³/12).
func TestAxisOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-1.5, 1.5).Draw(t, "turn")
		dx, dy := rapid.Float64Range(-9, 9).Draw(t, "x"), rapid.Float64Range(-9, 9).Draw(t, "y")
		r := shape.Region{
			{{X: -2, Y: -1}, {X: 2, Y: -1}, {X: 2, Y: 1}, {X: -2, Y: 1}},
			{{X: -0.5, Y: 0.5}, {X: 0.5, Y: 0.5}, {X: 0.5, Y: -0.5}, {X: -0.5, Y: -0.5}},
		}.Turned(unit.Angle(turn)).Moved(dx, dy)
		middle, along := axisOf(r)
		if off := math.Remainder(float64(along)-turn, math.Pi); math.Abs(off) > 1e-9 || math.Hypot(middle.X-dx, middle.Y-dy) > 1e-9 {
			t.Fatalf("turned by %v it lies along %v about %v", turn, along, middle)
		}
	})
	if _, along := axisOf(nil); along != 0 {
		t.Error("nothing lies along something")
	}
}

// TestSuggestLayup: a new lay-up begins on the middle of the wood, its longer
// side along it, whichever way the cavity is measured.
func TestSuggestLayup(t *testing.T) {
	for _, c := range []struct{ long, wide, want float64 }{{0.5, 0.3, 35}, {0.3, 0.5, -55}} {
		p, pl := laidOut(Layup{}, c.long, c.wide)
		pl.Slabs[0].Upper.Region = boardOf(1.2, 0.4).Turned(35*unit.Degree).Moved(0.1, -0.05)
		pl.Drawing.Cavities = []CavityDrawing{{Rim: pl.Slabs[0].Lay[0].Rim[0]}}
		l := &p.Slabs[0].Layups[0]
		if !pl.SuggestLayup("b1", l) || math.Abs(l.Turn.Degrees()-c.want) > 1 || math.Abs(float64(l.X)-0.1) > 0.01 || math.Abs(float64(l.Y)+0.05) > 0.01 {
			t.Errorf("%v by %v: it begins at %v, %v turned by %v°", c.long, c.wide, l.X, l.Y, l.Turn.Degrees())
		}
		if pl.SuggestLayup("b9", l) {
			t.Error("a place over no slab")
		}
	}
	if l := (Layup{Turn: 170 * unit.Degree}).Moved(1, -1, 20*unit.Degree); l.X != 1 || l.Y != -1 || math.Abs(l.Turn.Degrees()+170) > 1e-9 {
		t.Errorf("%+v", l)
	}
}
