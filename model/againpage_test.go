package model

import (
	"slices"
	"strings"
	"testing"

	"meniscus/model/unit"
)

// pageOf makes a project again and gives the page, by the data sheets.
func pageOf(t *testing.T, past Project, how Reissue) (Project, ReissueSheet) {
	t.Helper()
	next, err := Again(&past, how)
	if err != nil {
		t.Fatal(err)
	}
	was := past.Recipe()
	a, b := Make(was), Make(next)
	return next, PageOfChanges(Issue{Project: &was, Plan: &a}, Issue{Project: &next, Plan: &b})
}

// twoLayers is a tray of 60 mm with two layers of 10 mm, and a board in it.
func twoLayers(thick float64) Project {
	p := tray(300, 200, 60, 10)
	p.Shop.Room = given(unit.Celsius(21))
	p.Layers[0].Name = "base"
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(10), Sheet: "s1"})
	p.Pieces = []Piece{{ID: "p1", Name: "board", Kind: PieceRectangle, Length: mm(100), Width: mm(80), Thickness: mm(thick), X: 0.05, Bedded: true, Sealed: true}}
	return p
}

// What stood out of the resin and goes under it leads the page, with where it
// stood, where it would lie and what to do; likewise what comes out of the resin,
// or ends in another layer. The fill line is at 20 mm and goes with the depth.
func TestPageTellsWhatMoved(t *testing.T) {
	for _, c := range []struct {
		slip         string
		thick, depth float64
		kind, why    string
		level        Level
	}{
		// 25 mm in 20 is 5 above; in 40 it is 15 below.
		{"a board goes under", 25, 120, "again.under", "its top stood 5 mm above the fill line and would lie 15 mm below the fill line, which goes from 20 mm to 40 mm", Stop},
		{"a flush board goes under", 20, 120, "again.under", "its top stood at the fill line and would lie 20 mm below the fill line, which goes from 20 mm to 40 mm", Stop},
		// 15 mm lies 5 below 20; the fill line comes to 10.
		{"a board comes out", 15, 30, "again.bare", "its top stood 5 mm below the fill line and would lie 5 mm above the fill line, which goes from 20 mm to 10 mm", Check},
		// 8 mm lies below both layers; the base comes to 5 mm.
		{"a board ends in another layer", 8, 30, "again.layer", "its top lay below base and top and would lie below top", Check},
		{"a board that stays below both", 8, 66, "", "", ""},
		{"a board that stays above both", 45, 66, "", "", ""},
	} {
		p := twoLayers(c.thick)
		m := p.Mold
		m.Depth = mm(c.depth)
		_, page := pageOf(t, p, Reissue{Mold: &m, Levels: WithDepth})
		at := slices.IndexFunc(page.Refused, func(f Finding) bool { return strings.HasPrefix(f.Kind, "again.") })
		switch {
		case c.kind == "" && at >= 0:
			t.Errorf("%s: %+v", c.slip, page.Refused[at])
		case c.kind == "":
		case at < 0:
			t.Errorf("%s: it is not told among %+v", c.slip, page.Refused)
		case page.Refused[at].Kind != c.kind || page.Refused[at].Level != c.level || page.Refused[at].Why != c.why || page.Refused[at].Do == "":
			t.Errorf("%s: %+v\nwant %s, %s", c.slip, page.Refused[at], c.kind, c.why)
		case c.level == Stop && (at != 0 || !strings.HasPrefix(page.Lead, "Do not pour it like this: Board goes under resin")):
			t.Errorf("%s: it leads with %q", c.slip, page.Lead)
		}
	}
	// Several of which the same is so are told of in one breath; inserts likewise.
	p := twoLayers(25)
	p.Pieces = append(p.Pieces, p.Pieces[0])
	p.Pieces[1].ID, p.Pieces[1].Name, p.Pieces[1].X = "p2", "lath", -0.06
	p.Inserts = []Insert{{ID: "i1", Name: "pins", Count: 3, Kind: InsertStanding, Diameter: mm(4), Tall: mm(30), On: OnFloor, Fixed: true}}
	m := p.Mold
	m.Depth = mm(120)
	_, page := pageOf(t, p, Reissue{Mold: &m, Levels: WithDepth})
	for i, want := range []string{"Board and lath go under resin", "Pins go under resin"} {
		if f := page.Refused[i]; f.What != want || !strings.HasPrefix(f.Why, "their tops stood ") {
			t.Errorf("finding %d reads %+v, want %s", i, f, want)
		}
	}
	// Wood that is kept in a longer mold lies elsewhere; scaled, it goes with it.
	for rule, told := range map[WoodRule]bool{KeepWood: true, ScaleWood: false} {
		p := twoLayers(25)
		m := p.Mold
		m.Length = mm(360)
		_, page := pageOf(t, p, Reissue{Mold: &m, Wood: rule})
		if got := slices.ContainsFunc(page.Refused, func(f Finding) bool { return f.Kind == "again.place" }); got != told {
			t.Errorf("by %q that it lies elsewhere is told: %v", rule, got)
		}
		// 50 mm of half 150 is 60 mm of half 180.
		if !slices.ContainsFunc(page.Changes, func(c Change) bool {
			return c.Label == "Board, its place" && strings.HasPrefix(c.Was, "50 mm along") && strings.HasPrefix(c.Now, "60 mm along")
		}) {
			t.Errorf("by %q its place is not among %+v", rule, page.Changes)
		}
	}
}

// A window that would open only once it has closed is none, and says what to do.
func TestWindowThatIsNone(t *testing.T) {
	h := func(hours float64) Known[unit.Span] { return Known[unit.Span]{Value: unit.Span(hours) * unit.Hour} }
	const none = "none: let it cure through, sand and clean it first"
	for _, c := range []struct {
		from, to Known[unit.Span]
		want     string
	}{
		{h(4), h(9), "4 h to 9 h"}, {h(4), h(4), none}, {h(5), h(4), none},
		{Known[unit.Span]{Absent: true}, h(4), "not known"}, {h(4), Known[unit.Span]{Absent: true}, "not known"},
	} {
		if got := window(unit.Style{}, c.from, c.to); got != c.want {
			t.Errorf("%v to %v reads %q, want %q", c.from, c.to, got, c.want)
		}
	}
	// The page and the run both go by it: a sheet of which it closes first.
	p := twoLayers(25)
	p.Sheets[0].RecoatFrom = Figure[unit.Span]{Taken: given(9 * unit.Hour), At: given(unit.Celsius(21))}
	p.Sheets[0].RecoatTo = Figure[unit.Span]{Taken: given(9 * unit.Hour), At: given(unit.Celsius(21))}
	_, page := pageOf(t, p, Reissue{})
	var got []string
	for _, c := range page.Changes {
		if c.Label == "Recoat window" {
			got = append(got, c.Group+": "+c.Now)
		}
	}
	if len(got) != 1 || got[0] != "base: "+none { // of the last layer there is none to tell
		t.Errorf("the windows read %q", got)
	}
}

// While the wood is still to be traced no figure that hangs on it is shown: what
// is left are the mold's sizes, the heights that were chosen and the counts.
func TestNothingFollowsFromWoodNotTraced(t *testing.T) {
	past := demo(t, "hall-shelf")
	m := past.Mold
	m.Length = mm(800)
	_, page := issued(t, past, Reissue{Mold: &m, Wood: RetraceWood})
	chosen := []string{"Mold", "Form", "Cavities", "Area", "Depth", "Fill line", "Slate pebbles", "Resin", "Lot", "What is known of its lot"}
	told := 0
	for _, c := range page.Changes {
		hangs := !slices.Contains(chosen, c.Label) && c.Group != "room" && c.Group != "wood"
		if hangs && (c.Now != untilTraced || c.Same || c.Ratio != "") {
			t.Errorf("%s of %s reads %q %q", c.Label, c.Group, c.Now, c.Ratio)
		}
		if hangs {
			told++
		}
		if c.Group == "wood" && c.Now != "still to be traced" {
			t.Errorf("%s reads %q", c.Label, c.Now)
		}
	}
	if told < 15 {
		t.Errorf("only %d figures are told of", told)
	}
	if !strings.Contains(page.Lead, "still to be traced") || !strings.Contains(page.Headline, "resin 4323 g → "+untilTraced) {
		t.Errorf("it leads with %q, %q", page.Lead, page.Headline)
	}
	for _, f := range page.Mended {
		if !strings.HasPrefix(f.Field, "shop/") && !strings.HasPrefix(f.Field, "sheets/") {
			t.Errorf("it counts as mended: %+v", f)
		}
	}
	// Above the rim nobody knows how much would run over, either.
	m.Depth = mm(38)
	_, page = issued(t, past, Reissue{Mold: &m, Wood: RetraceWood})
	if f := page.Refused[0]; f.Kind != "mold.overflow" || f.Why != "4 mm above it" { // 42 mm in 38
		t.Errorf("it refuses %+v", f)
	}
}

// Whatever is made again from whatever, each finding of the page that is not the
// plan's own says why and what to do, and none says neither.
func TestNoReasonIsEmpty(t *testing.T) {
	for _, name := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		past := full(t, name)
		for _, wood := range []WoodRule{KeepWood, ScaleWood, RetraceWood} {
			for _, count := range []int{1, 2, 7} {
				for _, deep := range []float64{12, 30, 90} {
					m := past.Mold
					m.Depth, m.Count = mm(deep), count
					_, s := pageOf(t, past, Reissue{Mold: &m, Wood: wood, Levels: WithDepth, Supplies: []Substitute{{Sheet: past.Sheets[0].ID, New: &Sheet{Name: "new"}}}})
					for _, f := range slices.Concat(s.Refused, s.Still, s.Look, s.Mended) {
						own := strings.HasPrefix(f.Kind, "again.") || f.Kind == "missing"
						if f.What == "" || f.Why+f.Do == "" || own && (f.Why == "" || f.Do == "") {
							t.Fatalf("%s, %q, %d cavities of %g mm: %+v", name, wood, count, deep, f)
						}
					}
					if s.Lead == "" || s.Headline == "" || s.Tested == "" {
						t.Fatalf("it leads with %q, %q, %q", s.Lead, s.Headline, s.Tested)
					}
				}
			}
		}
	}
}

// The first lines say what was chosen to be another, and what stands in the way.
func TestPageLeads(t *testing.T) {
	p := twoLayers(25)
	p.Layers[0].Lot, p.Layers[1].Lot = "one", "one"
	lot := "two"
	warm := Season{Room: given(unit.Celsius(25))}
	m := p.Mold
	m.Name, m.Length = "long tray", mm(360)
	_, page := pageOf(t, p, Reissue{Mold: &m, Season: &warm, Supplies: []Substitute{{Sheet: "s1", Lot: &lot}}})
	const causes = "Long tray in place of one without a name, room at 25 °C in place of 21 °C, lot two in place of one: area × 1.200, "
	if !strings.HasPrefix(page.Headline, causes) {
		t.Errorf("the headline is %q", page.Headline)
	}
	if page.Lead != "Settle first: Board lies elsewhere in the mold." {
		t.Errorf("it leads with %q", page.Lead)
	}
	if _, page = pageOf(t, p, Reissue{}); page.Lead != "Nothing new stands in the way. Look after: Board is another board than last time." || !strings.HasPrefix(page.Headline, "Same area, ") {
		t.Errorf("the same once more leads with %q, %q", page.Lead, page.Headline)
	}
	p.Pieces = nil
	if _, page = pageOf(t, p, Reissue{}); page.Lead != "Nothing stands in the way." {
		t.Errorf("without wood it leads with %q", page.Lead)
	}
}

// What the shelf lacks for it is refused, though the past piece had it: that was
// poured from fuller bottles. Without the wood's masses nothing is said of it.
func TestPageTellsOfTheShelf(t *testing.T) {
	p := twoLayers(25)
	short := Finding{"stock.short", Check, OfMixing, "sheets/s1", "Not enough of A is left", "it needs 1 g more", "buy some"}
	for _, rule := range []WoodRule{KeepWood, RetraceWood} {
		next, err := Again(&p, Reissue{Wood: rule})
		if err != nil {
			t.Fatal(err)
		}
		a, b := Make(p), Make(next)
		page := PageOfChanges(Issue{Project: &p, Plan: &a}, Issue{Project: &next, Plan: &b, Stock: []Finding{short}, Stocked: true})
		if got := slices.Contains(page.Refused, short); got != (rule == KeepWood) {
			t.Errorf("by %q that the shelf lacks it is refused: %v", rule, got)
		}
	}
}

// A fill test holds for the sizes that it was made in; another mold brings its
// own. What was measured across the grain goes with the wood.
func TestMeasuredOfTheOldSizes(t *testing.T) {
	p := twoLayers(25)
	p.Mold.FillTest = FillTest{Water: given(unit.Mass(3.6)), Level: mm(60)}
	p.Pieces[0].Nature.Width, p.Pieces[0].TraceErr = mm(80), given(unit.Share(0.01))
	m := p.Mold
	m.Width = mm(300) // of 200: half as wide again
	next, _ := pageOf(t, p, Reissue{Mold: &m, Wood: ScaleWood})
	if next.Mold.FillTest != (FillTest{}) || !close(next.Pieces[0].Nature.Width.Value.Millimetres(), 120, 1e-9) {
		t.Errorf("the fill test is %+v, the width %v", next.Mold.FillTest, next.Pieces[0].Nature.Width)
	}
	if next, _ = pageOf(t, p, Reissue{Mold: &p.Mold}); next.Mold.FillTest != p.Mold.FillTest {
		t.Error("in its own mold the fill test is lost")
	}
	m.FillTest.Water = given(unit.Mass(5.4))
	if next, _ = pageOf(t, p, Reissue{Mold: &m, Wood: RetraceWood}); next.Mold.FillTest != m.FillTest {
		t.Error("the fill test of another mold is lost")
	}
	if w := next.Pieces[0]; w.Nature.Width.Given() || w.TraceErr.Given() {
		t.Errorf("wood to be traced keeps %+v, %+v", w.Nature.Width, w.TraceErr)
	}
}
