package model

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// wavy is an outline of n points about the origin with a wandering edge.
func wavy(n int, long, wide, wander, phase float64) shape.Ring {
	r := make(shape.Ring, n)
	for i := range r {
		a := 2 * math.Pi * float64(i) / float64(n)
		out := 1 + wander*(math.Sin(5*a+phase)+math.Sin(17*a)/3)
		r[i] = shape.Point{X: long / 2 * out * math.Cos(a), Y: wide / 2 * out * math.Sin(a)}
	}
	return r
}

// reversed is a ring the other way round: a hole.
func reversed(r shape.Ring) shape.Ring { return r.Scaled(-1, 1) }

// onSlab puts a slab of some thickness into a project and its faces into the
// plan, as if they had been traced; the under face may be nil.
func onSlab(p *Project, thick float64, upper, under shape.Region, l Layup) Plan {
	l.ID, l.Name = "y1", "here"
	p.Slabs = []Slab{{ID: "b1", Name: "slab", Thickness: mm(thick), Layups: []Layup{l}}}
	pl := Make(*p)
	s := &pl.Slabs[0]
	face := func(r shape.Region) FacePlan {
		return FacePlan{Shot: true, Solved: true, Region: r, Area: Estimate[unit.Area]{Value: r.Area(), Sigma: r.Area().Times(0.004)}}
	}
	s.Upper = face(upper)
	if s.Under = s.Upper; under != nil {
		s.Under = face(under)
	} else {
		s.Under.Shot = false
	}
	return pl
}

// randomSlab draws a slab with holes, whose under face may differ.
func randomSlab(t *rapid.T) (upper, under shape.Region) {
	n := rapid.IntRange(8, 300).Draw(t, "slab points")
	long, wide := rapid.Float64Range(0.15, 1.2).Draw(t, "slab long"), rapid.Float64Range(0.1, 0.6).Draw(t, "slab wide")
	outer := wavy(n, long, wide, 0.08, rapid.Float64Range(0, 6).Draw(t, "wander"))
	upper = shape.Region{outer}
	if rapid.Bool().Draw(t, "hole") {
		upper = append(upper, reversed(wavy(24, long/5, wide/5, 0.1, 1)).Moved(0, 0.05*wide))
	}
	if rapid.Bool().Draw(t, "other face") {
		k := rapid.Float64Range(0.85, 1.1).Draw(t, "lean")
		for _, r := range upper {
			under = append(under, r.Scaled(k, 1.02*k).Moved(0.003, -0.002))
		}
	}
	return upper, under
}

// randomLayup draws a place and a saw.
func randomLayup(t *rapid.T) Layup {
	return Layup{
		X: unit.Length(rapid.Float64Range(-.4, .4).Draw(t, "lay x")), Y: unit.Length(rapid.Float64Range(-.2, .2).Draw(t, "lay y")),
		Turn: unit.Angle(rapid.Float64Range(-3.1, 3.1).Draw(t, "lay turn")),
		Gap:  mm(rapid.Float64Range(0, 4).Draw(t, "gap")), Kerf: mm(rapid.Float64Range(0, 4).Draw(t, "kerf")), Trim: mm(rapid.Float64Range(0, 5).Draw(t, "trim")),
		Bevelled: rapid.Bool().Draw(t, "tilted"),
	}
}

// TestLayUpLaws holds lay-ups of random slabs in random molds, with other wood
// and inserts in them, to what must be so.
func TestLayUpLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Serial = 100
		l := randomLayup(t)
		l.Cavity = rapid.IntRange(0, p.Mold.Cavities()).Draw(t, "lay cavity")
		upper, under := randomSlab(t)
		pl := onSlab(&p, rapid.Float64Range(5, 60).Draw(t, "slab thick"), upper, under, l)
		table := pl.LayTable("b1")
		if table == nil {
			t.Skip("the mold cannot be")
		}
		got := table.At(l)
		c := p.cavityIndex(l.Cavity)
		fill, line := pl.Drawing.Fill, min(pl.Mold.FillLine, pl.Mold.Depth)
		room := fill.cavity.VolumeBelow(line)
		others := room - fill.in(c, line)
		if !close(float64(got.Resin+got.Volume+others), float64(room), 1e-12) {
			t.Fatalf("resin %v, wood %v and others %v are not %v", got.Resin, got.Volume, others, room)
		}
		if most := min(upper.Area(), max(fill.cavity.AreaAt(0), fill.cavity.AreaAt(pl.Mold.Depth))); got.Upper.Area() > most.Times(1+1e-9) {
			t.Fatalf("the piece has %v of %v", got.Upper.Area(), most)
		}
		if total := got.Upper.Perimeter(); got.Live < 0 || got.AtWall < 0 || got.Live+got.AtWall > total+1e-9 {
			t.Fatalf("live %v and cut %v of %v", got.Live, got.AtWall, total)
		}
		if sum := got.Blank.Area() + got.Left + got.Sawdust; sum > table.whole.Area()+1e-9 {
			t.Fatalf("blank %v, left %v and sawdust %v of %v", got.Blank.Area(), got.Left, got.Sawdust, table.whole.Area())
		}
		if piece := got.Upper.Without(got.Blank).Area(); piece > 1e-9 {
			t.Fatalf("%v of the piece lies outside the blank", piece)
		}

		far := l
		far.X += 30
		if f := table.At(far); f.Pieces != 0 || f.Volume != 0 || f.Area != 0 || f.Cut != 0 || len(f.Blank) != 0 || !close(float64(f.Resin), float64(room-others), 1e-12) {
			t.Fatalf("far off it gives %+v", figures(f))
		}

		turn, dx, dy := unit.Angle(rapid.Float64Range(-3, 3).Draw(t, "turned")), rapid.Float64Range(-1, 1).Draw(t, "dx"), rapid.Float64Range(-1, 1).Draw(t, "dy")
		moved := l
		at := shape.Ring{{X: float64(l.X), Y: float64(l.Y)}}.Turned(turn).Moved(dx, dy)[0]
		moved.X, moved.Y, moved.Turn = unit.Length(at.X), unit.Length(at.Y), l.Turn+turn
		if under != nil {
			under = under.Turned(turn).Moved(dx, dy)
		}
		other := onSlab(&p, p.Slabs[0].Thickness.Value.Millimetres(), upper.Turned(turn).Moved(dx, dy), under, moved)
		same := other.LayTable("b1").At(moved)
		// A grid of 1e-12 m rounds the outlines. The body between faces that
		// differ hangs a little on where the pairing of their points begins,
		// which is in the direction of x.
		share, sliver := 1e-8, 1e-12
		if under != nil || l.Bevelled {
			share, sliver = 2e-2, 1e-6
		}
		sameVolume := math.Abs(float64(same.Volume-got.Volume)) <= share*float64(got.Volume)+sliver
		if same.Pieces != got.Pieces || !sameVolume || !close(float64(same.Area), float64(got.Area), 1e-8) ||
			math.Abs(float64(same.Live-got.Live)) > 1e-7 || math.Abs(float64(same.Cut-got.Cut)) > 1e-7 || math.Abs(float64(same.Left-got.Left)) > 1e-8 {
			t.Fatalf("turned together\n%+v\nis not\n%+v", figures(same), figures(got))
		}
	})
}

// figures is a lay-up without its outlines.
func figures(l LayPlan) LayPlan {
	l.Floor, l.Rim, l.Upper, l.Under, l.Blank, l.Walls = nil, nil, nil, nil, nil, nil
	return l
}

// TestChooseLaws: what is chosen is planned as it was seen, chosen twice it is
// the same, and no other piece is lost.
func TestChooseLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Serial = 100
		l := randomLayup(t)
		l.Cavity = rapid.IntRange(0, p.Mold.Cavities()).Draw(t, "lay cavity")
		upper, under := randomSlab(t)
		thick := rapid.Float64Range(5, 60).Draw(t, "slab thick")
		pl := onSlab(&p, thick, upper, under, l)
		table := pl.LayTable("b1")
		if table == nil {
			t.Skip("the mold cannot be")
		}
		want := table.At(l)
		before := p.Clone()
		ids, err := pl.Choose(&p, "b1", "y1")
		if (err != nil) != (want.Pieces == 0) || len(ids) != want.Pieces {
			t.Fatalf("%d pieces and %v, of %d", len(ids), err, want.Pieces)
		}
		if err != nil {
			if !reflect.DeepEqual(p, before) {
				t.Fatal("refused, it changed the project")
			}
			return
		}
		for i, w := range before.Pieces {
			if !reflect.DeepEqual(p.Pieces[i], w) {
				t.Fatalf("%s is no longer as it was entered", w.ID)
			}
		}
		if list := p.Validate(); len(list) > 0 {
			t.Fatalf("what was chosen is refused: %v", list)
		}
		// One face of the piece where it lies is the face that was seen.
		placed := shape.Region{}
		for _, id := range ids {
			w := p.Piece(id)
			face := w.Top.Outline
			if len(face) == 0 {
				face = w.Outline
			}
			placed = append(placed, placedRing(w, face))
		}
		var seen shape.Region
		for _, r := range want.Upper {
			if r.Signed() > 0 {
				seen = append(seen, r)
			}
		}
		seen = seen.Moved(-float64(l.X), -float64(l.Y)).Turned(-l.Turn)
		if a, b := shape.NewRegion(placed...), shape.NewRegion(seen...); a.Without(b).Area()+b.Without(a).Area() > 1e-10 {
			t.Fatal("the piece does not lie where it was seen")
		}
		after := onSlabAgain(p, upper, under)
		fill, line := after.Drawing.Fill, min(after.Mold.FillLine, after.Mold.Depth)
		c := p.cavityIndex(l.Cavity)
		if got := fill.in(c, line); math.Abs(float64(got-want.Resin)) > 1e-9*float64(fill.cavity.VolumeBelow(line)) {
			t.Fatalf("planned it takes %v of resin and not %v", got, want.Resin)
		}
		wood := unit.Volume(0)
		for k, part := range fill.parts {
			if slicesHas(ids, compile(&p).parts[k].id) {
				wood += part.solid.VolumeBelow(line).Times(part.count)
			}
		}
		if !close(float64(wood), float64(want.Volume), 1e-9) {
			t.Fatalf("planned it has %v of wood and not %v", wood, want.Volume)
		}
		once := p.Clone()
		again, err := after.Choose(&p, "b1", "y1")
		if err != nil || !reflect.DeepEqual(again, ids) || !reflect.DeepEqual(p, once) {
			t.Fatalf("chosen twice it is another one: %v, %v", again, err)
		}
	})
}

// onSlabAgain plans a project anew with the same faces.
func onSlabAgain(p Project, upper, under shape.Region) Plan {
	q := p.Clone()
	pl := onSlab(&q, p.Slabs[0].Thickness.Value.Millimetres(), upper, under, p.Slabs[0].Layups[0])
	faces := pl.Slabs[0]
	pl = Make(p)
	pl.Slabs[0].Upper, pl.Slabs[0].Under = faces.Upper, faces.Under
	return pl
}

func slicesHas(list []string, s string) bool {
	for _, v := range list {
		if v == s {
			return true
		}
	}
	return false
}

// TestLayUpByHand holds a lay-up to figures worked by hand: a straight board of
// 400 by 100 by 20 mm laid along the middle of a tray of 300 by 200 by 30 mm
// that is filled to 10 mm.
func TestLayUpByHand(t *testing.T) {
	board := shape.Region{shape.RectangleRing(0.4, 0.1, 0)}
	p := tray(300, 200, 30, 10)
	l := Layup{Gap: mm(1), Trim: mm(2), Kerf: mm(3)}
	pl := onSlab(&p, 20, board, nil, l)
	got := pl.LayTable("b1").At(l)
	// The piece is 298 by 100; of it 10 mm lie in the resin.
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"pieces", float64(got.Pieces), 1},
		{"area", float64(got.Area), 0.298 * 0.1},
		{"wood", float64(got.Volume), 0.298 * 0.1 * 0.01},
		{"resin", float64(got.Resin), (0.3*0.2 - 0.298*0.1) * 0.01},
		{"share", got.Share, 0.298 * 0.1 / (0.3 * 0.2)},
		{"at the walls", float64(got.AtWall), 0.2},
		{"live", float64(got.Live), 2 * 0.298},
		{"blank", float64(got.Blank.Area()), 0.302 * 0.1},
		{"cut", float64(got.Cut), 0.2},
		{"sawdust", float64(got.Sawdust), 2 * 0.003 * 0.1},
		{"left", float64(got.Left), (0.2 - 0.154) * 0.1},
		{"mass", float64(got.Mass), float64(got.Resin) * float64(pl.Layers[0].Density.Value)},
	} {
		if !close(c.got, c.want, 1e-9) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
	if len(got.Walls) != 2 || math.Abs(float64(got.Walls[0].Along())-0.1) > 1e-12 {
		t.Errorf("walls: %v", got.Walls)
	}
	// Across, the board is cut by both long walls and lies wholly in the mold's
	// length; with a hole of 20 by 20 mm right through.
	l.Turn = 90 * unit.Degree
	pl = onSlab(&p, 20, append(board, reversed(shape.RectangleRing(0.02, 0.02, 0))), nil, l)
	got = pl.LayTable("b1").At(l)
	if want := (0.198*0.1 - 0.0004) * 0.01; !close(float64(got.Volume), want, 1e-9) || !close(float64(got.Live), 2*0.198, 1e-9) {
		t.Errorf("across: %v of wood, want %v; %v live", got.Volume, want, got.Live)
	}
}

// noGap is a gap of nothing that the maker asked for.
var noGap = unit.Dim{Written: "0"}

// TestLayUpBeginsWithUsualValues: where neither gap nor kerf is given the usual
// ones are counted with and marked, and the lay-up keeps nothing of them.
func TestLayUpBeginsWithUsualValues(t *testing.T) {
	p := tray(300, 200, 30, 20)
	pl := onSlab(&p, 20, shape.Region{shape.RectangleRing(1, 1, 0)}, nil, Layup{})
	table := pl.LayTable("b1")
	bare := table.At(Layup{})
	given := table.At(Layup{Gap: mm(1.5), Kerf: mm(3.2)})
	if bare.Sawdust <= 0 || bare.Sawdust != given.Sawdust || bare.Area != given.Area || !bare.Gap.Typical || !bare.Kerf.Typical || given.Gap.Typical || given.Kerf.Typical {
		t.Errorf("%+v\nand with the same values given\n%+v", figures(bare), figures(given))
	}
	if flush := table.At(Layup{Gap: noGap, Kerf: mm(3.2)}); flush.Area <= bare.Area || flush.Gap.Typical {
		t.Errorf("a gap of nothing that is asked for gives %+v", figures(flush))
	}
}

// TestLayUpLeans: with walls that lean the narrowest section governs an upright
// saw, whichever end that is, and a tilted saw follows both.
func TestLayUpLeans(t *testing.T) {
	board := shape.Region{shape.RectangleRing(1, 1, 0)}
	for _, c := range []struct {
		at        End
		far       float64 // length at the other end
		tilted    bool
		under, up float64 // lengths of the piece
	}{
		{AtRim, 280, false, 0.280, 0.280}, {AtFloor, 280, false, 0.280 + 0.02/3, 0.280 + 0.02/3},
		{AtRim, 280, true, 0.280, 0.280 + 0.04/3}, {AtFloor, 280, true, 0.3, 0.280 + 0.02/3},
	} {
		p := tray(300, 200, 30, 20)
		p.Mold.At, p.Mold.Draft = c.at, Lean{Kind: LeanSizes, Length: mm(c.far), Width: mm(200)}
		l := Layup{Gap: noGap, Bevelled: c.tilted}
		pl := onSlab(&p, 20, board, nil, l)
		got := pl.LayTable("b1").At(l)
		if !close(float64(got.Under.Area()), c.under*0.2, 1e-9) || !close(float64(got.Upper.Area()), c.up*0.2, 1e-9) {
			t.Errorf("%s, tilted %v: %v and %v", c.at, c.tilted, got.Under.Area(), got.Upper.Area())
		}
	}
}

// TestChooseAgain: pieces that were cut before are made anew in place, with what
// the maker knows of them; surplus ones go, those entered otherwise stay.
func TestChooseAgain(t *testing.T) {
	// Two legs with a bar across their ends, which the cavity does not reach.
	legs := shape.Region{shape.RectangleRing(0.06, 0.4, 0).Moved(-0.08, 0)}.
		Or(shape.Region{shape.RectangleRing(0.05, 0.4, 0).Moved(0.08, 0)}).
		Or(shape.Region{shape.RectangleRing(0.22, 0.05, 0).Moved(0, 0.2)})
	p := tray(300, 200, 30, 10)
	p.AddPiece(PieceRectangle)
	mine := p.Pieces[0]
	l := Layup{}
	pl := onSlab(&p, 20, legs, nil, l)
	first, err := pl.Choose(&p, "b1", "y1")
	if err != nil || len(first) != 2 || p.Pieces[1].Name != "slab" || p.Pieces[2].Name != "slab 2" {
		t.Fatalf("%v, %v: %+v", first, err, p.Pieces)
	}
	if a, b := p.Piece(first[0]).Outline.Area(), p.Piece(first[1]).Outline.Area(); a <= b {
		t.Errorf("the larger part does not come first: %v, %v", a, b)
	}
	w := p.Piece(first[0])
	w.Name, w.Species, w.Sealed, w.Bedded, w.Height, w.Density, w.Weight = "left leg", "ash", true, true, mm(2), given(unit.Density(690)), given(unit.Mass(0.7))
	w.Voids = append(w.Voids, Void{ID: p.NewID("v"), Name: "bore", Kind: VoidRound, Diameter: mm(10), Depth: mm(15), Count: 1})
	p.Slabs[0].Layups = append(p.Slabs[0].Layups, Layup{ID: "y2", Name: "there", Turn: 90 * unit.Degree, X: -0.08})
	pl = onSlabAgain(p, legs, nil)
	want := pl.LayTable("b1").At(p.Slabs[0].Layups[1])
	second, err := pl.Choose(&p, "b1", "y2")
	if err != nil || len(second) != 1 || second[0] != first[0] || len(p.Pieces) != 2 || !reflect.DeepEqual(p.Pieces[0], mine) {
		t.Fatalf("%v, %v: %+v", second, err, p.Pieces)
	}
	w = p.Piece(second[0])
	if w.Name != "left leg" || w.Species != "ash" || !w.Sealed || !w.Bedded || w.Height != mm(2) || w.Density.Value != 690 || w.Weight.Given() || len(w.Voids) != 1 || w.From != "b1/y2" {
		t.Errorf("made anew it is %+v", w)
	}
	if !p.Slabs[0].Layups[1].Chosen || p.Slabs[0].Layups[0].Chosen {
		t.Error("not the one place is in use")
	}
	after := onSlabAgain(p, legs, nil)
	if got := after.Mold.Resin; !close(float64(got), float64(want.Resin), 1e-9) {
		t.Errorf("with its bore it takes %v and not %v", got, want.Resin)
	}
	if after.StaleLayup(&p, "b1", "y2") {
		t.Error("just chosen it is out of date")
	}
	w.Weight = given(unit.Mass(0.5))
	if _, err := after.Choose(&p, "b1", "y2"); err != nil || !p.Piece(second[0]).Weight.Given() {
		t.Error("cut as before, its weight is forgotten")
	}
	p.Slabs[0].Layups[1].X += 0.004
	if after = onSlabAgain(p, legs, nil); !after.StaleLayup(&p, "b1", "y2") {
		t.Error("moved it is not out of date")
	}
	p.Slabs[0].Thickness = unit.Dim{}
	if _, err := after.Choose(&p, "b1", "y2"); err == nil {
		t.Error("chosen without a thickness")
	}
	if _, err := after.Choose(&p, "b1", "y9"); err == nil {
		t.Error("chosen from nowhere")
	}
}

// BenchmarkLayUp tells a lay-up over a slab in a mold with leaning walls and
// rounded corners, as it is dragged.
func BenchmarkLayUp(b *testing.B) {
	for _, v := range []struct {
		name   string
		points int
		two    bool
		tilted bool
	}{
		{"one face", 500, false, false}, {"one face", 5000, false, false}, {"one face", 20_000, false, false},
		{"two faces", 5000, true, false}, {"two faces, tilted", 5000, true, true},
	} {
		b.Run(fmt.Sprintf("points=%d/%s", v.points, v.name), func(b *testing.B) {
			p := tray(500, 300, 40, 30)
			p.Mold.Corner, p.Mold.Draft = mm(20), Lean{Kind: LeanAngle, Angle: given(3 * unit.Degree)}
			upper := shape.Region{wavy(v.points, 0.9, 0.35, 0.05, 0), reversed(wavy(60, 0.05, 0.04, 0.1, 0))}
			var under shape.Region
			if v.two {
				under = shape.Region{wavy(v.points, 0.92, 0.36, 0.05, 0.2), reversed(wavy(60, 0.04, 0.04, 0.1, 0))}
			}
			l := Layup{Gap: mm(1), Trim: mm(3), Kerf: mm(3), Bevelled: v.tilted}
			pl := onSlab(&p, 30, upper, under, l)
			t := pl.LayTable("b1")
			for i := 0; b.Loop(); i++ {
				l.X, l.Turn = unit.Length(i%50)*unit.Millimetre, unit.Angle(i%90)*unit.Degree
				if t.At(l).Pieces == 0 {
					b.Fatal("no wood")
				}
			}
		})
	}
}
