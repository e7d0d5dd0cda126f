package model

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// TestGritTable copies the mean sizes from the published charts of both series
// once more (finer than 8 µm, and the coarsest three of CAMI, values from memory)
// and looks that each series falls.
func TestGritTable(t *testing.T) {
	sizes := map[GritSeries]string{
		SeriesFEPA: "P12 1815, P16 1324, P20 1000, P24 764, P30 642, P36 538, P40 425, P50 336, P60 269, P80 201, P100 162, P120 125, P150 100, " +
			"P180 82, P220 68, P240 58.5, P280 52.2, P320 46.2, P360 40.5, P400 35.0, P500 30.2, P600 25.8, P800 21.8, P1000 18.3, P1200 15.3, P1500 12.6, P2000 10.3, P2500 8.4, P3000 7, P5000 5",
		SeriesCAMI: "12 1842, 16 1320, 20 905, 24 708, 30 632, 36 530, 40 425, 50 348, 60 265, 80 190, 100 140, 120 115, 150 92, 180 82, 220 68, 240 53.0, 320 36.0, 360 28.0, 400 23.0, 500 20.0, 600 16.0, 800 12.6, 1000 10.3",
	}
	for series, text := range sizes {
		rows := strings.Split(text, ", ")
		list := Grits(series)
		if len(list) != len(rows) {
			t.Fatalf("%s has %d grades, the chart %d", series, len(list), len(rows))
		}
		for i, row := range rows {
			var mark string
			var size float64
			fmt.Sscan(row, &mark, &size)
			g := list[i]
			if string(g.Mark) != mark || !close(float64(g.Grain), size*1e-6, 1e-12) {
				t.Errorf("%s is %v with %v, the chart says %s", series, g.Mark, g.Grain, row)
			}
			if memory := size < 8 || series == SeriesCAMI && size > 708; g.Source == "" || memory != (g.Source == gritsMemory) {
				t.Errorf("%s: source %q", g.Mark, g.Source)
			}
			// Neighbours of the P series lie 1.12 to 1.37 apart.
			if i > 0 {
				if r := list[i-1].Grain.Per(g.Grain); r <= 1 || series == SeriesFEPA && r > 1.45 {
					t.Errorf("%s after %s: %.3f", g.Mark, list[i-1].Mark, r)
				}
			}
		}
	}
}

// TestGritsAlike: which grades of the two series are alike by a published
// comparison of grits: 400 is P800, 600 is P1200, 320 is P400; to 180 and 220 they
// agree by number.
func TestGritsAlike(t *testing.T) {
	for cami, p := range map[GritMark]GritMark{"400": "P800", "600": "P1200", "320": "P400", "180": "P180", "220": "P220", "800": "P1500", "1000": "P2000"} {
		g, _ := GritOf(cami)
		if got := g.like(); got != p {
			t.Errorf("%s is like %s, want %s", cami, got, p)
		}
		h, _ := GritOf(p)
		if got := h.like(); got != cami {
			t.Errorf("%s is like %s, want %s", p, got, cami)
		}
	}
	if g, _ := GritOf("P5000"); g.like() != "" {
		t.Errorf("P5000 is like %s, and nothing of CAMI is so fine", g.like())
	}
}

// TestStepRatios: ratios of grains as worked out in the shop's notes.
func TestStepRatios(t *testing.T) {
	for _, c := range []struct {
		from, to GritMark
		want     float64
	}{{"P80", "P100", 1.241}, {"P120", "P150", 1.25}, {"P180", "P220", 1.206}, {"P240", "P280", 1.121}, {"P2000", "P2500", 1.226}, {"P80", "P120", 1.608}, {"P120", "P180", 1.524}, {"P220", "P320", 1.472}} {
		a, _ := GritOf(c.from)
		b, _ := GritOf(c.to)
		within(t, string(c.from+" to "+c.to), a.Grain.Per(b.Grain), c.want, 5e-4)
		if !byGrain(a, b) || byGrain(b, a) {
			t.Errorf("%s may follow %s, and never the other way round", c.to, c.from)
		}
	}
	for _, c := range [][2]GritMark{{"P80", "P150"}, {"P120", "P220"}, {"P400", "P800"}, {"P320", "P500"}, {"P150", "P240"}} {
		a, _ := GritOf(c[0])
		b, _ := GritOf(c[1])
		if byGrain(a, b) {
			t.Errorf("%s to %s is no step", c[0], c[1])
		}
	}
}

func marksOf(p SandPlan) string {
	var list []string
	for _, s := range p.Steps {
		list = append(list, string(s.Mark))
	}
	return strings.Join(list, " ")
}

// TestLadders: from what a tool leaves to a finish, all grits to be had.
func TestLadders(t *testing.T) {
	for _, c := range []struct {
		tool ToolKind
		want SurfaceKind
		by   SanderKind
		in   GritSeries
		out  string
	}{
		{ToolRouter, SurfaceSatin, SanderOrbit, "", "P80 P120 P180 P220"},
		{ToolPlaner, SurfaceSatin, SanderOrbit, "", "P100 P150 P220"},
		{ToolHand, SurfaceSatin, SanderOrbit, "", "P180 P220"},
		{ToolSaw, SurfaceSatin, SanderOrbit, "", "P60 P80 P120 P180 P220"},
		{ToolRouter, SurfaceSilk, SanderOrbit, "", "P80 P120 P180 P240 P320 P400 P600"},
		{ToolRouter, SurfaceSatin, SanderOrbit, SeriesCAMI, "80 100 150 220"}, /* 80 to 120 is 1.65 times there */
		{ToolRouter, SurfaceSatin, SanderBelt, "", "P80 P120 P150 P180 P220"},
		// A belt goes as far as the ladder needs one, and a disc goes on from the same
		// grit: P180 to P240 is 1.40 times, and 180 to 240 of CAMI 1.55 in the fine
		// half, which is one step more.
		{ToolRouter, SurfaceSilk, SanderBelt, "", "P80 P120 P150 P180 P180 P240 P320 P400 P600"},
		{ToolBelt, SurfaceSilk, SanderBelt, "", "P120 P150 P180 P180 P240 P320 P400 P600"},
		{ToolRouter, SurfaceSilk, SanderBelt, SeriesCAMI, "80 120 150 180 220 220 240 320 360"},
	} {
		p := tray(300, 200, 40, 28)
		p.Finish.Sand = Sand{Want: c.want, After: c.tool, Sander: c.by, Series: c.in}
		got := Make(p).Finish.Sand
		if marksOf(got) != c.out || len(got.Gaps) > 0 {
			t.Errorf("%s to %s, %s: %s with gaps %v, want %s", c.tool, c.want, c.by, marksOf(got), got.Gaps, c.out)
		}
	}
	p := tray(300, 200, 40, 28)
	p.Finish.Sand = Sand{Want: SurfaceClear}
	s := Make(p).Finish.Sand
	if last := s.Steps[len(s.Steps)-1]; last.Mark != "P3000" || !s.Polish {
		t.Errorf("to clear it ends with %s", last.Mark)
	}
	for _, step := range s.Steps {
		g, _ := GritOf(step.Mark)
		if step.Wet != (g.Grain < 46e-6) {
			t.Errorf("%s wet: %v; dry as far as 320", step.Mark, step.Wet)
		}
	}
}

// TestEveryLadder: whatever is wanted, after whatever tool, by whatever sander and
// in either series: where any grit can be had the ladder is whole, its belts end at
// 220 and are followed by a disc of the same grit; where not, each thing that is
// wrong is said with the grits that would mend it.
func TestEveryLadder(t *testing.T) {
	none := regexp.MustCompile(`get :|get ,|with ,|with :|to ,|%!`)
	check := func(t rapid.TB, p Project, whole bool) {
		s := p.Finish.Sand
		pl := Make(p)
		got := pl.Finish.Sand
		name := fmt.Sprintf("%s and %s after %s with %s in %s of %v", s.Want, s.Under, s.After, s.Sander, s.Series, s.Own)
		wanted := surfaceGrit(s.Want) != "" || surfaceGrit(s.Under) != ""
		if gaps := len(got.Gaps) > 0; wanted && len(got.Steps) == 0 && !gaps || whole && gaps || (finding(pl, "sand.gap").Kind != "") != gaps {
			t.Fatalf("%s: %s with gaps %v", name, marksOf(got), got.Gaps)
		}
		for _, g := range got.Gaps {
			if len(g.Want) == 0 || slices.Contains(g.Want, "") || g.From == "" || g.To == "" {
				t.Fatalf("%s: the gap %+v names nothing", name, g)
			}
		}
		for _, f := range pl.Findings {
			if f.Kind == "sand.gap" && (none.MatchString(f.Why) || none.MatchString(f.Do)) {
				t.Fatalf("%s: %+v", name, f)
			}
		}
		for i, step := range got.Steps {
			g, _ := GritOf(step.Mark)
			if step.Belt && (s.Sander != SanderBelt || g.Grain < 65e-6 || step.Wet) {
				t.Fatalf("%s: a belt of %s", name, step.Mark)
			}
			if i > 0 && got.Steps[i-1].Belt && !step.Belt && got.Steps[i-1].Mark != step.Mark {
				t.Fatalf("%s: after the belt %s a disc begins with %s", name, got.Steps[i-1].Mark, step.Mark)
			}
		}
		if end := endOf(s.Want, s.Series); whole && end.Mark != "" {
			top := ""
			for _, step := range got.Steps {
				if step.Top {
					top = string(step.Mark)
				}
			}
			if top != string(end.Mark) || !strings.Contains(s.Want.In(s.Series), top) {
				t.Fatalf("%s: the top ends with %s, and it says %q", name, top, s.Want.In(s.Series))
			}
		}
	}
	tools := []ToolKind{"", ToolRouter, ToolPlaner, ToolHand, ToolBelt, ToolSaw, ToolNone}
	surfaces := []SurfaceKind{"", SurfaceSatin, SurfaceSilk, SurfaceClear, SurfaceRaw}
	sanders := []SanderKind{"", SanderOrbit, SanderHand, SanderDisc, SanderBelt}
	series := []GritSeries{"", SeriesFEPA, SeriesCAMI}
	for _, tool := range tools {
		for _, want := range surfaces {
			for _, under := range surfaces {
				for _, by := range sanders {
					for _, in := range series {
						p := tray(300, 200, 40, 28)
						p.Finish.Sand = Sand{Want: want, Under: under, After: tool, Sander: by, Series: in}
						check(t, p, true)
					}
				}
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		p := tray(300, 200, 40, 28)
		s := &p.Finish.Sand
		s.Want, s.Under = rapid.SampledFrom(surfaces).Draw(t, "top"), rapid.SampledFrom(surfaces).Draw(t, "under")
		s.After, s.Sander, s.Series = rapid.SampledFrom(tools).Draw(t, "tool"), rapid.SampledFrom(sanders).Draw(t, "by"), rapid.SampledFrom(series).Draw(t, "series")
		all := GritsOnHand(s.Series)
		for range rapid.IntRange(0, 8).Draw(t, "grits") {
			p.OwnGrit(rapid.SampledFrom(all).Draw(t, "grit").Mark, true)
		}
		check(t, p, len(s.Own) == 0)
	})
}

// TestEveryStepCanBeBridged: between any two grits that a maker can have there are
// such as make every step short enough, by either rule.
func TestEveryStepCanBeBridged(t *testing.T) {
	for _, series := range []GritSeries{SeriesFEPA, SeriesCAMI} {
		all := GritsOnHand(series)
		for _, by := range []SanderKind{SanderOrbit, SanderBelt} {
			may, _ := ruleOf(by, series)
			for i := range all {
				for k := i + 1; k < len(all); k++ {
					if may(all[i], all[k]) {
						continue
					}
					list := []Grit{all[i]}
					for _, mark := range bridging(all[i], all[k], may) {
						g, _ := GritOf(mark)
						list = append(list, g)
					}
					list = append(list, all[k])
					for n := 1; n < len(list); n++ {
						if !may(list[n-1], list[n]) {
							t.Errorf("%s, %s to %s by %v: %s to %s", by, all[i].Mark, all[k].Mark, list, list[n-1].Mark, list[n].Mark)
						}
					}
				}
			}
		}
	}
}

// TestWordsOfCAMI: where discs are marked by CAMI, all that is said of them is in
// its marks. Dry as far as P320, of 46.2 µm, is as far as 240 there, of 53: the
// next, 320 of 36, is finer than P320. P600 of 25.8 µm is nearest to 360 of 28 by
// their ratio (1.085; to 400 of 23 it is 1.122).
func TestWordsOfCAMI(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Finish.Sand = Sand{Want: SurfaceSilk, Series: SeriesCAMI}
	p.Finish.Coat.Kind = CoatVarnish
	other := regexp.MustCompile(`\bP\d`)
	for _, by := range []SanderKind{SanderOrbit, SanderHand, SanderDisc, SanderBelt} {
		p.Finish.Sand.Sander = by
		pl := Make(p)
		s := pl.Finish.Sand
		words := append([]string{s.Rule, p.Finish.Sand.Want.In(SeriesCAMI)}, s.Advice...)
		for _, l := range s.Lines {
			if l.Label == "Finish" || l.Label == "Steps" || l.Label == "Begins after" {
				words = append(words, l.Value, l.Source)
			}
		}
		if u, _ := p.Usual("finish/sand/under"); u.Value != "" {
			words = append(words, u.Value)
		}
		for _, w := range words {
			if other.MatchString(w) {
				t.Errorf("%s: %q is in the other series", by, w)
			}
		}
		if !strings.Contains(strings.Join(s.Advice, " "), "Dry as far as 240, then") {
			t.Errorf("%s: %q", by, s.Advice)
		}
		for _, step := range s.Steps {
			if number, _ := strconv.Atoi(string(step.Mark)); step.Wet != (number > 240) {
				t.Errorf("%s wet: %v", step.Mark, step.Wet)
			}
		}
		if last := s.Steps[len(s.Steps)-1]; last.Mark != "360" || p.Finish.Sand.Want.In(SeriesCAMI) != "silk, to 360" {
			t.Errorf("it ends with %s, and is called %q", last.Mark, p.Finish.Sand.Want.In(SeriesCAMI))
		}
	}
	p.Finish.Sand.Series = SeriesFEPA
	if s := Make(p).Finish.Sand; !strings.Contains(strings.Join(s.Advice, " "), "Dry as far as P320, then") {
		t.Errorf("%q", s.Advice)
	}
	// Over polish varnish wants a matt resin, named in the same marks.
	p.Finish.Sand = Sand{Want: SurfaceClear, Series: SeriesCAMI}
	if l := Make(p).Finish.Coat.Lustre; !strings.Contains(l, "sand it to 360 and") {
		t.Error(l)
	}
}

// TestLadderIsTheShortest holds the ladder against all subsets of the grits on
// hand: no way from the first to the last has fewer steps that break the rule,
// and of those as good none has fewer steps or a shorter longest one.
func TestLadderIsTheShortest(t *testing.T) {
	all := Grits(SeriesFEPA)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 11).Draw(t, "grits")
		at := rapid.Permutation(all).Draw(t, "which")[:n]
		list := slices.Clone(at)
		slices.SortFunc(list, func(a, b Grit) int { return int(math.Copysign(1, float64(b.Grain-a.Grain))) })
		may, _ := ruleOf(rapid.SampledFrom([]SanderKind{SanderOrbit, SanderBelt}).Draw(t, "by"), SeriesFEPA)
		steps, broken := ladder(list, may)
		if steps[0] != list[0] || steps[len(steps)-1] != list[n-1] {
			t.Fatalf("from %s to %s it goes %v", list[0].Mark, list[n-1].Mark, steps)
		}
		longest := func(l []Grit) float64 {
			r := 0.0
			for i := 1; i < len(l); i++ {
				r = max(r, l[i-1].Grain.Per(l[i].Grain))
			}
			return r
		}
		for i := 1; i < len(steps); i++ {
			if steps[i].Grain >= steps[i-1].Grain {
				t.Fatalf("%s after %s", steps[i].Mark, steps[i-1].Mark)
			}
			if may(steps[i-1], steps[i]) == slices.Contains(broken, i) {
				t.Fatalf("step %d from %s to %s, broken are %v", i, steps[i-1].Mark, steps[i].Mark, broken)
			}
		}
		for set := range 1 << (n - 2) {
			way := []Grit{list[0]}
			for k := range n - 2 {
				if set>>k&1 == 1 {
					way = append(way, list[k+1])
				}
			}
			way = append(way, list[n-1])
			breaks, allowed := 0, true
			for i := 1; i < len(way); i++ {
				if !may(way[i-1], way[i]) {
					breaks++
					allowed = allowed && slices.Index(list, way[i]) == slices.Index(list, way[i-1])+1
				}
			}
			if !allowed {
				continue
			}
			if breaks < len(broken) || breaks == len(broken) && (len(way) < len(steps) || len(way) == len(steps) && longest(way) < longest(steps)-1e-9) {
				t.Fatalf("%v is better than %v", way, steps)
			}
		}
	})
}

// TestMissingGrit: with 80, 120 and 220 on hand the step from 120 to 220 is 1.84
// times, and 180 or 150 would close it.
func TestMissingGrit(t *testing.T) {
	p := tray(300, 200, 40, 28)
	for _, m := range []GritMark{"P220", "P80", "P120"} {
		p.OwnGrit(m, true)
	}
	if fmt.Sprint(p.Finish.Sand.Own) != "[P80 P120 P220]" {
		t.Errorf("on hand: %v", p.Finish.Sand.Own)
	}
	p.Finish.Sand.Want = SurfaceSatin
	pl := Make(p)
	g := pl.Finish.Sand.Gaps
	if len(g) != 1 || g[0].From != "P120" || g[0].To != "P220" || len(g[0].Want) != 1 || g[0].Want[0] != "P180" && g[0].Want[0] != "P150" {
		t.Fatalf("gaps %+v", g)
	}
	if f := finding(pl, "sand.gap"); f.Level != Check || !strings.Contains(f.Why, "1.84 times") {
		t.Errorf("%+v", f)
	}
	p.OwnGrit(g[0].Want[0], true)
	if pl = Make(p); len(pl.Finish.Sand.Gaps) > 0 {
		t.Errorf("with it there is still %+v", pl.Finish.Sand.Gaps)
	}
	p.OwnGrit("P80", false)
	if g = Make(p).Finish.Sand.Gaps; len(g) != 1 || g[0].From != "P80" || g[0].Want[0] != "P80" {
		t.Errorf("without the first: %+v", g)
	}
	p.OwnGrit("P80", true)
	p.OwnGrit("P220", false)
	if g = Make(p).Finish.Sand.Gaps; len(g) != 1 || g[0].To != "P220" || g[0].Want[len(g[0].Want)-1] != "P220" {
		t.Errorf("without the last: %+v", g)
	}
}

// TestStockRemoval: what the published examples take off at most and the table's
// least (a trade magazine's table for belts, 2014).
func TestStockRemoval(t *testing.T) {
	for _, c := range []struct {
		mark, before GritMark
		inch         float64
	}{{"P60", "", .015}, {"P80", "P60", .008}, {"P100", "P80", .006}, {"P120", "P80", .004}, {"P150", "P120", .002}, {"P180", "P120", .001}, {"P220", "P180", .0005}, {"P40", "", .015}} {
		g, _ := GritOf(c.mark)
		b, _ := GritOf(c.before)
		got, source := leastRemoval(g, b)
		within(t, string(c.mark), got.Inches(), c.inch, 1e-9)
		if source != stockSource {
			t.Errorf("%s: %s", c.mark, source)
		}
	}
	// Of the published sequences, 120-150-180 takes up to 0.016 in: what 120 and 150
	// take at most. For 100-150-180 and 80-120-180 the text prints 0.002 in more
	// than such a sum, so they are no check.
	most := map[int]float64{}
	for _, row := range stockTable {
		most[row.number] = row.most
		if row.least >= row.most {
			t.Errorf("%d takes at least %v and at most %v", row.number, row.least, row.most)
		}
	}
	within(t, "120-150", most[120]+most[150], .016, 1e-9)
	// Finer it falls with the grain before, without a jump at the table's end.
	g, _ := GritOf("P240")
	b, _ := GritOf("P220")
	got, source := leastRemoval(g, b)
	within(t, "P240 after P220 in µm", float64(got)*1e6, 12.7*68/82, 1e-9)
	if source != stockCarried {
		t.Error(source)
	}
	for i, list := 1, Grits(SeriesFEPA); i < len(list); i++ {
		before := list[max(0, i-2)]
		now, _ := leastRemoval(list[i], list[i-1])
		was, _ := leastRemoval(list[i-1], before)
		if now > was+1e-12 {
			t.Errorf("%s takes %v, more than %s with %v", list[i].Mark, now, list[i-1].Mark, was)
		}
	}
}

// TestSandingTime: 300 by 200 mm with 28 mm edges is 6 + 2.8 dm² on top and edges
// and 6 below; at 40 s a dm² that is 9 min 52 s a grit, and one disc of 15 min.
func TestSandingTime(t *testing.T) {
	p := tray(300, 200, 40, 28)
	p.Sheets[0].Shrink = Figure[unit.Share]{Taken: given(unit.Share(1e-12))}
	p.Finish.Flatten.Tool = ToolNone
	p.Finish.Sand = Sand{Want: SurfaceSatin, Pace: given(40 * unit.Second), Lasts: given(15 * unit.Minute)}
	s := Make(p).Finish.Sand
	// 0.686 mm less thickness by sanding: the edge is 27.314 mm high.
	within(t, "area", s.Steps[0].Area.SquareMillimetres(), 2*60000+1000*27.3142, 1)
	within(t, "time", float64(s.Steps[0].Time), 40*14.73142, 0.01)
	if s.Steps[0].Discs != 1 || s.Discs != 4 {
		t.Errorf("discs %d, %d", s.Steps[0].Discs, s.Discs)
	}
	p.Finish.Sand.Under = SurfaceRaw
	s = Make(p).Finish.Sand
	if s.Under != 0 || s.Steps[0].Under {
		t.Errorf("the underside is left alone, and yet %v comes off", s.Under)
	}
	// π · 0.150 m · 10,000/min = 78.54 m/s (worked out in the shop's notes).
	p.Finish.Sand.Sander, p.Finish.Sand.Disc, p.Finish.Sand.Turns = SanderDisc, mm(150), 10000
	pl := Make(p)
	within(t, "speed", pl.Finish.Sand.Speed, 78.54, 0.005)
	if finding(pl, "sand.fast").Level != Check {
		t.Error("78 m/s is not told of")
	}
	p.Finish.Sand.Sander = SanderOrbit
	if pl := Make(p); pl.Finish.Sand.TooFast || math.Abs(pl.Finish.Sand.Speed-math.Pi*0.005*10000/60) > 1e-9 {
		t.Errorf("a random orbit goes at %v m/s", pl.Finish.Sand.Speed)
	}
}

// TestOneGritIsBoughtOnce: a grit that a belt and then a disc have is asked for
// once and counted together.
func TestOneGritIsBoughtOnce(t *testing.T) {
	s := SandPlan{Steps: []SandStep{{Mark: "P180", Discs: 2, Belt: true}, {Mark: "P180", Discs: 1}, {Mark: "P240", Discs: 1}}}
	lines, none := s.DiscLines(func(m GritMark) (unit.Money, bool) { return unit.Money{}, m == "P180" })
	if len(lines) != 1 || lines[0].Count != 3 || fmt.Sprint(none) != "[P240]" || s.Grits() != "2 grits" {
		t.Errorf("%+v, %v, %s", lines, none, s.Grits())
	}
}
