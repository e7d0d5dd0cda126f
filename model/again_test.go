package model

import (
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// afterARun is a project with a run behind it.
func afterARun(p Project) Project {
	at := time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)
	p.Demo, p.Archived, p.Shop.Planned = true, true, at
	p.Drafts = []Draft{{"mold/depth", "x", "no"}}
	p.Slabs = []Slab{{ID: "b9", Name: "slab", Upper: Tracing{Photo: "abc"}}}
	if len(p.Layers) > 0 {
		p.Journal = []Entry{{ID: "e1", At: at, Kind: EntryPourStarted, Layer: p.Layers[0].ID}}
	}
	if len(p.Sheets) > 0 {
		p.Sheets[0].LeftA = given(unit.Mass(1))
	}
	return p
}

// A recipe that is taken to its own mold is itself, bit for bit but for its ID,
// its date and where it comes from, whatever the rules say.
func TestAgainInItsOwnMold(t *testing.T) {
	same := func(t interface {
		Helper()
		Fatalf(string, ...any)
	}, p Project) {
		t.Helper()
		past := afterARun(p)
		plan := Make(past.Recipe())
		for _, how := range []Reissue{
			{}, {Mold: &past.Mold}, {Mold: &past.Mold, Levels: WithDepth, Wood: ScaleWood},
			{Levels: ToFinished, Finished: unit.Dim{Value: plan.Mold.Finished}, Wood: ScaleWood},
		} {
			if how.Levels == ToFinished && plan.Mold.Finished <= 0 {
				continue
			}
			how.ID, how.Revision = "again", 7
			next, err := Again(&past, how)
			if err != nil {
				t.Fatalf("%+v: %v", how, err)
			}
			want := past.Recipe()
			want.ID, want.Created, want.Made = "again", how.Created, Origin{past.ID, past.Name, 7}
			if !reflect.DeepEqual(next, want) {
				t.Fatalf("by %+v it became %v", how, Compare(&want, &next, nil, nil))
			}
			if len(next.Journal)+len(next.Drafts)+len(next.Slabs) > 0 || next.Demo || !next.Shop.Planned.IsZero() || next.Sheets[0].LeftA.Given() {
				t.Fatalf("something of the run came along")
			}
		}
		if len(past.Journal) == 0 || len(past.Slabs) == 0 {
			t.Fatalf("the past project was changed")
		}
	}
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		same(t, demo(t, name))
	}
	rapid.Check(t, func(t *rapid.T) { same(t, randomProject(t)) })
}

// There and back is the same: every measure to a billionth; counts to their
// rounding, and exactly where none was rounded.
func TestAgainThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Inserts = nil
		p = p.Recipe()
		other := randomMold(t)
		other.Count = p.Mold.Count
		how := Reissue{
			ID: p.ID, Name: p.Name, Created: p.Created, Mold: &other,
			Levels: rapid.SampledFrom([]LevelRule{KeepLevels, WithDepth}).Draw(t, "levels"),
			Wood:   rapid.SampledFrom([]WoodRule{KeepWood, ScaleWood}).Draw(t, "wood"),
		}
		there, err := Again(&p, how)
		if err != nil {
			t.Fatal(err)
		}
		how.Mold = &p.Mold
		back, err := Again(&there, how)
		if err != nil {
			t.Fatal(err)
		}
		if d := Compare(&p, &back, nil, nil); len(d) > 0 {
			t.Fatalf("it came back with %+v", d)
		}
	})
	t.Run("counts", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			p := tray(300, 200, 30, 10)
			n := rapid.IntRange(1, 200).Draw(t, "many")
			p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: n, Kind: InsertStanding, Diameter: mm(8), Tall: mm(3), On: OnFloor}}
			l, w := rapid.IntRange(100, 900).Draw(t, "long"), rapid.IntRange(100, 600).Draw(t, "wide")
			m := p.Mold
			m.Length, m.Width = mm(float64(l)), mm(float64(w))
			there, _ := Again(&p, Reissue{Mold: &m})
			back, _ := Again(&there, Reissue{Mold: &p.Mold})
			r := float64(l*w) / (300 * 200)
			exact := float64(n) * r
			if got := there.Inserts[0].Count; math.Abs(float64(got)-max(1, exact)) > 0.5+1e-9 || got < 1 {
				t.Fatalf("%d became %d, with %.3f times the area", n, got, r)
			}
			if got := back.Inserts[0].Count; math.Abs(float64(got-n)) > 0.5/r+0.5+1e-9 && exact >= 1 {
				t.Fatalf("%d came back as %d, by %d", n, got, there.Inserts[0].Count)
			}
			if got := back.Inserts[0].Count; exact == math.Trunc(exact) && exact >= 1 && got != n {
				t.Fatalf("%d came back as %d though none was rounded", n, got)
			}
		})
	})
}

// With upright walls, no wood and the heights kept, the volumes go with the
// area, and the heat stays: it is ruled by the depths alone.
func TestHeightsRuleHeatAreaRulesVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 60, rapid.Float64Range(8, 40).Draw(t, "deep"))
		p.Shop.Room = given(unit.Celsius(21))
		p.Sheets[0].WorkingTime = Figure[unit.Span]{Taken: given(2 * unit.Hour), At: given(unit.Celsius(22))}
		p.Sheets[0].Gel = Figure[unit.Span]{Taken: given(20 * unit.Hour), At: given(unit.Celsius(22))}
		m := p.Mold
		m.Length, m.Width = mm(rapid.Float64Range(100, 1500).Draw(t, "long")), mm(rapid.Float64Range(100, 900).Draw(t, "wide"))
		next, err := Again(&p, Reissue{Mold: &m})
		if err != nil {
			t.Fatal(err)
		}
		a, b := Make(p), Make(next)
		ratio := b.Mold.FloorArea.Per(a.Mold.FloorArea)
		if got := b.Layers[0].Net.Per(a.Layers[0].Net); !close(got, ratio, 1e-9) {
			t.Fatalf("%.9f times the volume on %.9f times the area", got, ratio)
		}
		x, err := Simulate(t.Context(), &p, &a)
		if err != nil {
			t.Fatal(err)
		}
		y, err := Simulate(t.Context(), &next, &b)
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(float64(x.Layers[0].Peak.Value - y.Layers[0].Peak.Value)); !x.Layers[0].Ready || off > 0.01 {
			t.Fatalf("the peak moved by %.3f K (%s)", off, x.Layers[0].Why)
		}
	})
}

// The shop's own example: the hexagon of 320 mm across its flats to 260. The
// area of a regular polygon goes with the square of its size: (260/320)² =
// 0.66016. 14 washers times that are 9.24, 18 halves are 11.88.
func TestHexagonAgain(t *testing.T) {
	p := demo(t, "poppy-stand")
	m := p.Mold
	m.Span = mm(260)
	next, err := Again(&p, Reissue{ID: "x", Mold: &m, Wood: ScaleWood})
	if err != nil {
		t.Fatal(err)
	}
	a, b := Make(p.Recipe()), Make(next)
	if r := b.Mold.FloorArea.Per(a.Mold.FloorArea); !close(r, 0.66015625, 1e-9) {
		t.Errorf("the area goes by %.5f", r)
	}
	if w, h := next.Insert("i5").Count, next.Insert("i6").Count; w != 9 || h != 12 {
		t.Errorf("%d washers and %d halves, want 9 and 12", w, h)
	}
	if !reflect.DeepEqual(next.Layers, p.Layers) {
		t.Errorf("the layers became %+v", next.Layers)
	}
	// The density of the wood stays, since its weight goes with its area.
	if x, y := a.Piece("p1").Density, b.Piece("p1").Density; !close(float64(x), float64(y), 1e-9) {
		t.Errorf("the wood's density went from %v to %v", x, y)
	}
	// With the same board it does not fit, and fewer find room beside it.
	kept, _ := Again(&p, Reissue{ID: "x", Mold: &m})
	if plan := Make(kept); !slices.ContainsFunc(plan.Findings, func(f Finding) bool { return f.Kind == "piece.fit" && f.Level == Stop }) {
		t.Errorf("the board of 354 mm fits a mold of 260 mm: %v", plan.Findings)
	}
	if n := kept.Insert("i5").Count; n >= 9 {
		t.Errorf("%d washers beside the whole board", n)
	}
}

// Heights that are given down from the rim stay where they were above the
// floor; where the new rim is lower than that, the plan finds it.
func TestAgainBelowRim(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToBelow, To: mm(12), Sheet: "s1"})
	for _, c := range []struct {
		depth float64
		rule  LevelRule
		by    LevelKind
		to    float64
		over  bool
	}{
		{50, KeepLevels, ToBelow, 22, false}, {30, KeepLevels, ToBelow, 2, false},
		{25, KeepLevels, ToLevel, 28, true}, {20, WithDepth, ToBelow, 6, false},
	} {
		m := p.Mold
		m.Depth = mm(c.depth)
		next, err := Again(&p, Reissue{Mold: &m, Levels: c.rule})
		if err != nil {
			t.Fatal(err)
		}
		l := next.Layers[1]
		if l.By != c.by || !close(l.To.Value.Millimetres(), c.to, 1e-9) {
			t.Errorf("in %g mm, %q: %s %v, want %s %g", c.depth, c.rule, l.By, l.To.Value.Millimetres(), c.by, c.to)
		}
		pl := Make(next)
		if over := slices.ContainsFunc(pl.Findings, func(f Finding) bool { return f.Kind == "mold.overflow" }); over != c.over {
			t.Errorf("in %g mm, %q: above the rim is %v", c.depth, c.rule, over)
		}
	}
}

// To a finished thickness the heights go in proportion, and that much is left.
func TestAgainToAFinishedThickness(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		p := demo(t, name)
		m := p.Mold
		m.Depth = mm(80)
		next, err := Again(&p, Reissue{Mold: &m, Levels: ToFinished, Finished: mm(32)})
		if err != nil {
			t.Fatal(err)
		}
		pl, was := Make(next), Make(p.Recipe())
		if got := pl.Mold.Finished.Millimetres(); math.Abs(got-32) > 0.011 {
			t.Errorf("%s: %.3f mm are left, want 32", name, got)
		}
		if a, b := was.Layers[0].Top.Per(was.Mold.FillLine), pl.Layers[0].Top.Per(pl.Mold.FillLine); !close(a, b, 1e-9) {
			t.Errorf("%s: the first layer went from %.4f to %.4f of the fill", name, a, b)
		}
	}
}

// What cannot be done is refused by its field.
func TestAgainRefuses(t *testing.T) {
	p := tray(300, 200, 40, 10)
	flat := p.Mold
	flat.Depth = unit.Dim{}
	for field, how := range map[string]Reissue{
		"mold/depth":       {Mold: &flat, Levels: WithDepth},
		"reissue/finished": {Levels: ToFinished},
		"reissue/supplies": {Supplies: []Substitute{{Sheet: "s9"}}},
		"reissue/levels":   {Levels: "by eye"},
	} {
		_, err := Again(&p, how)
		problem, ok := err.(*Problem)
		if !ok || problem.Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// Another resin takes the place and the ID of the one before; tints that were
// weighed become shares where another mass is mixed, and are left where not.
func TestAgainWithAnotherResin(t *testing.T) {
	p := tray(300, 200, 40, 10)
	p.Layers[0].Tint.Mass, p.Layers[0].Lot = given(10*unit.Gram), "one"
	if next, _ := Again(&p, Reissue{}); next.Layers[0].Tint.Mass.Value != 10*unit.Gram {
		t.Errorf("the tint became %+v", next.Layers[0].Tint)
	}
	was := Make(p)
	resin := sheetBy("s7", 30)
	resin.DensityA.Value = 1200
	next, err := Again(&p, Reissue{Supplies: []Substitute{{Sheet: "s1", New: &resin}}})
	if err != nil {
		t.Fatal(err)
	}
	if s := next.Sheet("s1"); s == nil || s.Name != "resin s7" || next.Layers[0].Lot != "" {
		t.Errorf("the resin is %+v of lot %q", s, next.Layers[0].Lot)
	}
	now := Make(next)
	share := func(pl *Plan) float64 { return pl.Layers[0].Mix.Tint.Per(pl.Layers[0].Mix.Total) }
	if !close(share(&was), share(&now), 1e-9) || next.Layers[0].Tint.Mass.Given() {
		t.Errorf("the tint went from %.4f to %.4f of the mix", share(&was), share(&now))
	}
	season := Season{Room: given(unit.Celsius(8))}
	cold, _ := Again(&p, Reissue{Season: &season})
	page := PageOfChanges(Issue{Project: &p, Plan: &was}, Issue{Project: &cold, Plan: ptr(Make(cold))})
	if !slices.ContainsFunc(page.Changes, func(c Change) bool { return c.Group == "room" && c.Now == "8 °C" }) {
		t.Errorf("the page is silent about the room: %+v", page.Changes)
	}
}

// Each thing that the page notices by itself, by the slip that makes it.
func TestPageNotices(t *testing.T) {
	base := func() Project {
		p := tray(300, 200, 30, 10)
		p.Shop.Room = given(unit.Celsius(21))
		p.Layers[0].Lot = "one"
		p.Mold.Count = 2
		p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Cavity: 2, Length: mm(100), Width: mm(80), Thickness: mm(8), Bedded: true, Sealed: true}}
		p.Inserts = []Insert{{ID: "i1", Name: "disc", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(3), On: OnFloor, Cavity: 2}}
		return p
	}
	lot := ""
	for _, c := range []struct {
		slip, kind string
		how        func(m *Mold) Reissue
		list       func(s *ReissueSheet) []Finding
	}{
		{"fewer cavities", "again.left", func(m *Mold) Reissue { m.Count = 1; return Reissue{Mold: m} }, func(s *ReissueSheet) []Finding { return s.Look }},
		{"more cavities", "again.cavities", func(m *Mold) Reissue { m.Count = 3; return Reissue{Mold: m} }, func(s *ReissueSheet) []Finding { return s.Look }},
		{"another board", "again.wood", func(m *Mold) Reissue { return Reissue{} }, func(s *ReissueSheet) []Finding { return s.Look }},
		{"a lot that is not named", "again.lot", func(m *Mold) Reissue { return Reissue{Supplies: []Substitute{{Sheet: "s1", Lot: &lot}}} }, func(s *ReissueSheet) []Finding { return s.Look }},
		{"wood to be traced", "missing", func(m *Mold) Reissue { return Reissue{Wood: RetraceWood} }, func(s *ReissueSheet) []Finding { return s.Look }},
		{"a mold shallower than the layers", "mold.overflow", func(m *Mold) Reissue { m.Depth = mm(8); return Reissue{Mold: m} }, func(s *ReissueSheet) []Finding { return s.Refused }},
		{"a mold that the board does not fit", "piece.fit", func(m *Mold) Reissue { m.Length = mm(90); return Reissue{Mold: m} }, func(s *ReissueSheet) []Finding { return s.Refused }},
		{"a sheet without a ratio", "mix.ratio", func(m *Mold) Reissue { return Reissue{Supplies: []Substitute{{Sheet: "s1", New: &Sheet{Name: "new"}}}} }, func(s *ReissueSheet) []Finding { return s.Refused }},
	} {
		p := base()
		m := p.Mold
		next, err := Again(&p, c.how(&m))
		if err != nil {
			t.Fatal(c.slip, err)
		}
		page := func(was, now Project) ReissueSheet {
			a, b := Make(was), Make(now)
			return PageOfChanges(Issue{Project: &was, Plan: &a}, Issue{Project: &now, Plan: &b})
		}
		s := page(p, next)
		list := c.list(&s)
		if !slices.ContainsFunc(list, func(f Finding) bool { return f.Kind == c.kind && f.What != "" }) {
			t.Errorf("%s: no %s in %+v", c.slip, c.kind, list)
		}
		// What is refused once is only reported as still so the next time.
		again := page(next, next)
		if len(again.Refused) > 0 || len(again.Mended) > 0 {
			t.Errorf("%s: against itself the page refuses %+v and mends %+v", c.slip, again.Refused, again.Mended)
		}
		for _, f := range s.Refused {
			if f.Level == Stop && !slices.Contains(again.Still, f) {
				t.Errorf("%s: %s is forgotten", c.slip, f.Kind)
			}
		}
	}
}

// TestAgainPaysForItsMold: what a mold cost and how many casts it lasts goes with
// that mold: to the same one it stays, another has none, and one of the shelf
// brings its own, but where a line of the project's covers that or the price is
// in another currency.
func TestAgainPaysForItsMold(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Money = Costing{Currency: "EUR", Mold: eur(4000), Lasts: 20}
	other := p.Mold
	other.Length = mm(500)
	named := p.Mold
	named.Name = "the other tray"
	shelf := &ShelfMold{ID: "m1", Mold: other, Price: eur(9000), Lasts: 50}
	dollars := *shelf
	dollars.Price.Currency = "USD"
	for _, c := range []struct {
		what  string
		how   Reissue
		own   bool
		mold  unit.Money
		lasts int
	}{
		{"as it is", Reissue{}, false, eur(4000), 20},
		{"its own mold", Reissue{Mold: &p.Mold}, false, eur(4000), 20},
		{"another size", Reissue{Mold: &other}, false, unit.Money{}, 0},
		{"another of that size", Reissue{Mold: &named}, false, unit.Money{}, 0},
		{"one of the shelf", Reissue{Mold: &other, Shelf: shelf}, false, eur(9000), 50},
		{"one in dollars", Reissue{Mold: &other, Shelf: &dollars}, false, unit.Money{}, 0},
		{"covered by a line", Reissue{Mold: &other, Shelf: shelf}, true, unit.Money{}, 0},
	} {
		past := p.Clone()
		past.Money.Own = c.own
		next, err := Again(&past, c.how)
		if err != nil || next.Money.Mold != c.mold || next.Money.Lasts != c.lasts {
			t.Errorf("%s: %s, %d casts, %v", c.what, next.Money.Mold, next.Money.Lasts, err)
		}
	}
}
