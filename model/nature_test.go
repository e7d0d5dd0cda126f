package model

import (
	"math"
	"strings"
	"testing"
	"time"
	"unicode"

	"pgregory.net/rapid"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// board is a tray with a piece of white oak in it, 178 mm across the grain.
func board() (Project, *Piece) {
	p := tray(400, 200, 30, 25)
	p.Shop.Room, p.Shop.Humidity = given(unit.Celsius(21)), given(unit.Share(.45))
	p.Pieces = []Piece{{ID: "p1", Name: "board", Species: "white oak", Kind: PieceRectangle, Length: mm(300), Width: mm(178), Thickness: mm(20), Bedded: true, Density: given(unit.Density(735))}}
	return p, &p.Pieces[0]
}

// natureOf plans a project and tells of its first piece.
func natureOf(t testing.TB, p Project) NaturePlan {
	t.Helper()
	pl := Make(p)
	n, ok := pl.Nature(&p, p.Pieces[0].ID)
	if !ok {
		t.Fatal("nothing is told of the piece")
	}
	return n
}

// TestNatureOfBoard: white oak 178 mm wide at 11.5 % goes to a room at 21 °C and
// 45 %, where it comes to 8.46 %: 178 · 0.00365 · 3.04 = 1.98 mm.
func TestNatureOfBoard(t *testing.T) {
	p, w := board()
	w.Nature.Moisture = given(unit.Share(.115))
	p.Shop.Theirs = Climate{given(unit.Celsius(21)), given(unit.Share(.45))}
	n := natureOf(t, p)
	within(t, "theirs", n.Theirs.Value.Percent(), 8.5, .05)
	within(t, "moves", n.Moves.Value.Millimetres(), -1.975, .005)
	// The meter's ±1.5, the hygrometer's ±4 % and the 15 % that trees differ by:
	// 1.645 · √((0.65·√(0.866² + 0.37²))² + (0.15·1.98)²) = 1.12 mm.
	within(t, "least", n.Moves.Low.Millimetres(), -3.09, .02)
	within(t, "most", n.Moves.High.Millimetres(), -.86, .02)
	if n.Dry != DryNotYet || n.Words != "It will shrink by 2 mm across" || !strings.Contains(n.AtBond, "far edge comes in by 2 mm") || n.Settles != "It still dries in your shop." {
		t.Errorf("it says %q, %q, %q, %q", n.Dry, n.Words, n.AtBond, n.Settles)
	}
	within(t, "at rest", n.AtRest.Value.Percent(), 62.3, .5)
	if !strings.Contains(n.AtRest.Source, "equation 4-5") {
		t.Errorf("the humidity at which it rests is from %q", n.AtRest.Source)
	}
	w.Nature.Bond = BondBoth
	if n := natureOf(t, p); !strings.Contains(n.AtBond, "a gap of up to 2 mm at one bond or 1 mm at each") {
		t.Errorf("held at both edges it says %q", n.AtBond)
	}
	w.Nature.Sawn = SawnQuarter
	within(t, "quarter-sawn", natureOf(t, p).Moves.Value.Millimetres(), -1.975*.0018/.00365, .005)
	w.Nature.Crosswise, w.Nature.Sawn = true, SawnFlat
	within(t, "crosswise", natureOf(t, p).Width.Millimetres(), 300, 1e-9)
	w.Nature.Width = mm(120)
	within(t, "as said", natureOf(t, p).Width.Millimetres(), 120, 1e-9)
}

// TestOwnFigures: a wood that the table does not have moves by what the maker
// gives, and only the way that counts is asked for.
func TestOwnFigures(t *testing.T) {
	p, w := board()
	w.Species, w.Nature.Moisture = "ipe", given(unit.Share(.12))
	if n := natureOf(t, p); !n.Moves.Absent || n.Species != nil {
		t.Errorf("an unknown wood moves by %v", n.Moves)
	}
	w.Nature.Tangential = given(unit.Share(.08))
	n := natureOf(t, p)
	within(t, "own", n.Moves.Value.Millimetres(), 178*(7-12)/(30/.08-30+12), 1e-9)
	if !n.Moves.Typical {
		t.Error("with no room named it is not marked as typical")
	}
	w.Nature.Sawn = SawnQuarter
	if !natureOf(t, p).Moves.Absent {
		t.Error("it moves radially by its tangential figure")
	}
	w.Species, w.Nature.Sawn = "white oak", SawnFlat
	within(t, "own before the table", natureOf(t, p).Moves.Value.Millimetres(), 178*(7-12)/(30/.08-30+12), 1e-9)
}

// TestShelfAfterTwelveWeeks: the shelf of the shop's notes, two slabs that are
// together 260 - 2·1.5 - 73.2 = 183.8 mm wide in the mean, of oak at 10 %, in a
// room of 35 %: 183.8 · 0.00365 · (6.9 - 10) = -2.1 mm; with 6.945 % unrounded it
// is -2.05. Each at its widest, as the plan has it, moves a little more.
func TestShelfAfterTwelveWeeks(t *testing.T) {
	theirs, _ := Equilibrium(unit.Celsius(21), .35)
	oak := speciesBy(t, "white oak")
	within(t, "notes", oak.Shrinkage(SawnFlat).Moves(183.8*unit.Millimetre, .10, theirs).Millimetres(), -2.05, .005)
	within(t, "notes, rounded", oak.Shrinkage(SawnFlat).Moves(183.8*unit.Millimetre, .10, .069).Millimetres(), -2.1, .03)
	p := demo(t, "hall-shelf")
	p.Shop.Theirs = Climate{given(unit.Celsius(21)), given(unit.Share(.35))}
	sum := 0.0
	for i := range p.Pieces {
		p.Pieces[i].Nature.Moisture = given(unit.Share(.10))
	}
	pl := Make(p)
	for i := range p.Pieces {
		n, _ := pl.Nature(&p, p.Pieces[i].ID)
		sum += n.Moves.Value.Millimetres()
	}
	if !(sum < -2.1 && sum > -2.6) {
		t.Errorf("both at their widest move by %.2f mm", sum)
	}
}

// TestAirOfMaple: 991 cm³ of maple of 0.654 g/ml that warms by 3 °C pushes out
// 991 · (1 - 0.654/1.5) · 3/294 = 5.7 cm³, which is 5.70/(π/6 · 0.05³) = 87,000
// bubbles of 0.5 mm; as it cools by as much it draws as much in.
func TestAirOfMaple(t *testing.T) {
	out := WoodBreath(991*unit.Millilitre, 654, unit.Celsius(21), unit.Celsius(24))
	within(t, "out", out.Millilitres(), 5.7, .05)
	within(t, "bubbles", BubblesIn(out, unit.Millimetre/2), 87000, 500)
	in := WoodBreath(991*unit.Millilitre, 654, unit.Celsius(24), unit.Celsius(21))
	within(t, "in", in.Millilitres(), -5.64, .02)
	if WoodBreath(1, 1600, unit.Celsius(20), unit.Celsius(30)) != 0 || WoodBreath(1, 600, 0, unit.Celsius(30)) != 0 || BubblesIn(1, 0) != 0 {
		t.Error("wood without pores, or of no temperature, breathes")
	}
	if got := ManyBubbles(87131); got != "87,000" {
		t.Errorf("written as %s", got)
	}
}

// TestWhenToPour: while the wood cools, never while it warms.
func TestWhenToPour(t *testing.T) {
	at := func(hour int, c float64) Entry {
		return Entry{ID: "e" + itoa(hour), Kind: EntryReading, At: time.Date(2026, 1, 2, hour, 0, 0, 0, time.UTC), Room: given(unit.Celsius(c))}
	}
	for _, c := range []struct {
		name  string
		want  Breath
		moves float64 // sign
		make  func(p *Project, w *Piece)
	}{
		{"sealed", BreathSealed, 0, func(p *Project, w *Piece) { w.Sealed = true; p.Shop.Wood = given(unit.Celsius(15)) }},
		{"colder than the room", BreathOut, 1, func(p *Project, w *Piece) { p.Shop.Wood = given(unit.Celsius(18)) }},
		{"warmer than the room", BreathIn, -1, func(p *Project, w *Piece) { p.Shop.Wood = given(unit.Celsius(26)) }},
		{"a cold night to come", BreathIn, -1, func(p *Project, w *Piece) { p.Shop.Night = given(unit.Celsius(17)) }},
		{"a room that warms", BreathOut, 1, func(p *Project, w *Piece) { p.Journal = []Entry{at(8, 17), at(10, 19), at(12, 21)} }},
		{"a room that cools", BreathIn, -1, func(p *Project, w *Piece) { p.Journal = []Entry{at(8, 26), at(10, 24), at(12, 21)} }},
		{"readings a day apart", BreathSteady, 0, func(p *Project, w *Piece) { p.Journal = []Entry{at(1, 17), at(12, 21)} }},
		{"an even room", BreathSteady, 0, func(p *Project, w *Piece) {}},
		{"a room not read", BreathUnknown, 0, func(p *Project, w *Piece) { p.Shop.Room = unit.Taken[unit.Temperature]{} }},
	} {
		p, w := board()
		c.make(&p, w)
		a := natureOf(t, p).Air
		if a.Breath != c.want || a.When == "" {
			t.Errorf("%s: %+v", c.name, a)
		}
		if s := float64(a.Moves); s*c.moves < 0 || (s == 0) != (c.moves == 0) {
			t.Errorf("%s: moves %v", c.name, a.Moves)
		}
	}
}

// TestSealCoat: a board of 300 × 178 × 20 mm has 1,068 cm² of faces, 120 cm² of
// edges along the grain and 71.2 cm² of end grain. At 0.10 and 0.6 mm that is
// 11.88 + 4.27 ml, of a resin of 1.0933 g/ml 13.0 + 4.7 g.
func TestSealCoat(t *testing.T) {
	p, w := board()
	n := natureOf(t, p)
	s := n.Seal
	rho := 145 / (100/1.13 + 45/1.02)
	within(t, "faces", s.FaceArea.SquareMillimetres(), 2*300*178+2*300*20, 1e-6)
	within(t, "ends", s.EndArea.SquareMillimetres(), 2*178*20, 1e-6)
	within(t, "on faces", s.Face.Value.Grams(), 11.88*rho, 1e-2)
	within(t, "on ends", s.End.Value.Grams(), 4.272*rho, 1e-2)
	within(t, "least", s.Total.Low.Grams(), (5.94+2.136)*rho, 1e-2)
	within(t, "most", s.Total.High.Grams(), (17.82+7.12)*rho, 1e-2)
	if !s.Needed || s.Product != "resin s1" {
		t.Errorf("oak is open-pored: %+v", s)
	}
	w.Nature.Pores = PoresPunky
	if s := natureOf(t, p).Seal; s.FaceArea != 0 || !close(s.EndArea.SquareMillimetres(), 2*300*178+2*300*20+2*178*20, 1e-9) {
		t.Errorf("punky wood drinks everywhere: %+v", s)
	}
	w.Nature.Pores, w.Species = "", "hard maple"
	if natureOf(t, p).Seal.Needed {
		t.Error("maple is fine-pored")
	}
	p.Pieces = append(p.Pieces, p.Pieces[0])
	p.Pieces[1].ID = "p2"
	if s := natureOf(t, p).Seal; !close(float64(s.All.Value), 2*float64(s.Total.Value), 1e-12) {
		t.Errorf("two alike take %v, one %v", s.All.Value, s.Total.Value)
	}
}

// TestEdgesByGrain: side and end add up to the edge, and turn into each other
// with the grain.
func TestEdgesByGrain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var r shape.Ring
		n := rapid.IntRange(3, 30).Draw(t, "points")
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := rapid.Float64Range(.02, .5).Draw(t, "far")
			r = append(r, shape.Point{X: d * math.Cos(a), Y: d * math.Sin(a)})
		}
		side, end := splitEdges(r, true)
		if !close(float64(side+end), float64(r.Perimeter()), 1e-12) {
			t.Fatalf("%v and %v of %v", side, end, r.Perimeter())
		}
		if s, e := splitEdges(r, false); !close(float64(s), float64(end), 1e-12) || !close(float64(e), float64(side), 1e-12) {
			t.Fatalf("across: %v and %v", s, e)
		}
	})
}

// TestTypicalDensity: a piece that was neither weighed nor given a density keeps
// none, and what is typical of its species stands beside it, marked so.
func TestTypicalDensity(t *testing.T) {
	p, w := board()
	w.Density = unit.Taken[unit.Density]{}
	plan := Make(p).Pieces[0]
	if plan.Density != 0 || plan.LiftsAt != 0 || !plan.Typical.Typical || plan.Typical.Source != "typical of white oak" {
		t.Errorf("%+v", plan)
	}
	within(t, "typical", float64(plan.Typical.Value), 738.2, .1) // at 10 %
	if why := finding(Make(p), "piece.lift-unknown").Why; !strings.Contains(why, "typical of white oak it would be 0.738 g/ml") {
		t.Errorf("it says %q", why)
	}
	w.Weight = given(780 * unit.Gram)
	if plan := Make(p).Pieces[0]; plan.Typical.Value != 0 || plan.Density == 0 {
		t.Errorf("weighed: %+v", plan)
	}
}

// TestWoodSlips makes slips with the wood and looks for the finding that names
// each.
func TestWoodSlips(t *testing.T) {
	for _, c := range []struct {
		slip, kind string
		level      Level
		make       func(p *Project, w *Piece)
	}{
		{"wood fresh from the yard", "piece.wet", Stop, func(p *Project, w *Piece) { w.Nature.Moisture = given(unit.Share(.18)) }},
		{"wood from a damp store", "piece.wet", Check, func(p *Project, w *Piece) { w.Nature.Moisture = given(unit.Share(.135)) }},
		{"a meter that shows nothing", "piece.moisture-odd", Check, func(p *Project, w *Piece) { w.Nature.Moisture = unit.Taken[unit.Share]{Written: "0 %"} }},
		{"a meter beyond its range", "piece.moisture-odd", Check, func(p *Project, w *Piece) { w.Nature.Moisture = given(unit.Share(.36)) }},
		{"a wide board for a dry room", "piece.moves", Check, func(p *Project, w *Piece) {
			w.Nature.Moisture = given(unit.Share(.11))
			p.Shop.Theirs = Climate{given(unit.Celsius(21)), given(unit.Share(.35))}
		}},
		{"a dry board for a damp room", "piece.moves", Check, func(p *Project, w *Piece) {
			w.Nature.Moisture = given(unit.Share(.07))
			p.Shop.Theirs = Climate{given(unit.Celsius(18)), given(unit.Share(.65))}
		}},
		{"a wide board for nobody knows where", "piece.moves", Note, func(p *Project, w *Piece) { w.Nature.Moisture = given(unit.Share(.11)) }},
		{"a room that nobody asked about", "wood.their-air", Note, func(p *Project, w *Piece) { w.Nature.Moisture = given(unit.Share(.09)) }},
		{"a shop whose air was not read", "wood.shop-air", Note, func(p *Project, w *Piece) {
			w.Nature.Moisture = given(unit.Share(.09))
			p.Shop.Humidity = unit.Taken[unit.Share]{}
		}},
		{"a wood that no table has", "piece.shrinkage", Check, func(p *Project, w *Piece) { w.Species, w.Nature.Moisture = "ipe", given(unit.Share(.09)) }},
		{"frozen wood", "wood.frozen", Check, func(p *Project, w *Piece) {
			w.Nature.Moisture, p.Shop.Wood = given(unit.Share(.09)), given(unit.Celsius(-3))
		}},
		{"open pores left bare", "piece.bare", Check, func(p *Project, w *Piece) { w.Sealed = false }},
		{"punky wood left bare", "piece.bare", Check, func(p *Project, w *Piece) {
			w.Sealed, w.Species, w.Nature.Pores = false, "hard maple", PoresPunky
		}},
		{"wood a little colder than the room", "piece.warms", Check, func(p *Project, w *Piece) { w.Sealed, p.Shop.Wood = false, given(unit.Celsius(19)) }},
		{"a room that warms in the morning", "piece.warms", Check, func(p *Project, w *Piece) {
			w.Sealed = false
			for i, c := range []float64{17, 19, 21} {
				p.Journal = append(p.Journal, Entry{ID: "e" + itoa(i), Kind: EntryReading, At: p.Created.Add(time.Duration(i) * time.Hour), Room: given(unit.Celsius(c))})
			}
		}},
		{"a density of another wood", "piece.density-species", Check, func(p *Project, w *Piece) { w.Density = given(unit.Density(400)) }},
		{"oily wood", "piece.oily", Note, func(p *Project, w *Piece) { w.Species, w.Density = "olive", given(unit.Density(950)) }},
	} {
		p, w := board()
		w.Sealed = true
		if f := finding(Make(p), c.kind); f.Kind != "" {
			t.Errorf("%s: %s stands without the slip: %+v", c.slip, c.kind, f)
		}
		c.make(&p, w)
		f := finding(Make(p), c.kind)
		if f.Level != c.level || f.Subject != OfMold || f.Field == "" || f.Why == "" {
			t.Errorf("%s: want %s at %s, got %+v", c.slip, c.kind, c.level, f)
			continue
		}
		if !unicode.IsUpper([]rune(f.What)[0]) && !strings.HasPrefix(f.What, "board") {
			t.Errorf("%s: the finding does not speak: %+v", c.slip, f)
		}
		t.Logf("%s: %s. %s. %s", c.slip, f.What, f.Why, f.Do)
	}
}

// TestPouredWoodIsPast: what was poured upon cannot be sealed any more.
func TestPouredWoodIsPast(t *testing.T) {
	p, w := board()
	w.Nature.Pores = PoresOpen
	p.Journal = []Entry{{ID: "e1", Kind: EntryPourStarted, Layer: "l1", At: p.Created}}
	if f := finding(Make(p), "piece.bare"); f.Kind != "" {
		t.Errorf("%+v", f)
	}
}

// TestNatureOfAnything: nothing is infinite and nothing panics, whatever the
// wood is said to be.
func TestNatureOfAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		share := func(name string) unit.Taken[unit.Share] {
			return given(unit.Share(rapid.Float64Range(0, 1).Draw(t, name)))
		}
		p.Shop.Humidity, p.Shop.Theirs.Humidity = share("shop"), share("theirs")
		p.Shop.Theirs.Temperature = given(unit.Celsius(rapid.Float64Range(-20, 60).Draw(t, "warm")))
		for i := range p.Pieces {
			w := &p.Pieces[i]
			w.Species = rapid.SampledFrom([]string{"", "oak", "olive", "ipe", "black willow"}).Draw(t, "species")
			w.Nature = Nature{Moisture: share("moisture"), Sawn: rapid.SampledFrom([]SawnKind{"", SawnFlat, SawnQuarter, SawnRift}).Draw(t, "sawn"), Crosswise: rapid.Bool().Draw(t, "crosswise")}
		}
		pl := Make(p)
		for i := range p.Pieces {
			n, ok := pl.Nature(&p, p.Pieces[i].ID)
			if !ok {
				continue
			}
			for _, v := range []float64{float64(n.Moves.Value), float64(n.Moves.Low), float64(n.Moves.High), float64(n.Theirs.Value), float64(n.Air.Moves), n.Air.Bubbles, float64(n.Seal.Total.High), n.Rate} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", n)
				}
			}
			if n.Moves.Low > n.Moves.Value || n.Moves.High < n.Moves.Value || n.Theirs.Low > n.Theirs.Value || n.Theirs.High < n.Theirs.Value {
				t.Fatalf("a band that does not hold its value: %+v", n)
			}
		}
	})
}
