package model

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// The laws of the planner of pours: what it proposes keeps to every limit when
// it is planned anew; it is the best of all ways over the levels that it looks
// at; it never takes more pours than one who simply pours as deep as goes.

// randomStages draws a tray with a few colours, pieces of wood and inserts.
func randomStages(t *rapid.T) (Project, StageLimits) {
	half := func(lo, hi int, label string) float64 { return float64(rapid.IntRange(2*lo, 2*hi).Draw(t, label)) / 2 }
	p := tray(300, 200, 90, 10)
	p.Serial = 100
	s := &p.Sheets[0]
	s.MaxLayer = Figure[unit.Length]{Taken: mm(half(8, 40, "deepest"))}
	if rapid.Bool().Draw(t, "shallowest said") {
		s.MinLayer = Figure[unit.Length]{Taken: mm(half(1, 6, "shallowest"))}
	}
	if rapid.Bool().Draw(t, "working time said") {
		s.WorkingTime = Figure[unit.Span]{Taken: given(unit.Span(rapid.IntRange(20, 120).Draw(t, "minutes")) * unit.Minute), At: given(unit.Celsius(20))}
	}
	p.Shop.Room = given(unit.Celsius(20))
	p.Finish.Top, p.Finish.MinCover = mm(half(0, 2, "off the top")), mm(half(1, 3, "least cover"))
	p.Mixing.NoRefill = rapid.Bool().Draw(t, "no refill")
	p.Layers = nil
	z := 0.0
	for i := range rapid.IntRange(1, 4).Draw(t, "layers") {
		d := half(4, 14, "deep")
		z += d
		l := Layer{ID: fmt.Sprintf("l%d", i), Name: fmt.Sprintf("pour %d", i), By: rapid.SampledFrom([]LevelKind{ToDepth, ToLevel, ToBelow}).Draw(t, "given"), Sheet: "s1", Tint: Tint{Name: rapid.SampledFrom([]string{"smoke", "clear"}).Draw(t, "tint")}}
		switch l.By {
		case ToDepth:
			l.To = mm(d)
		case ToLevel:
			l.To = mm(z)
		default:
			l.To = mm(90 - z)
		}
		p.Layers = append(p.Layers, l)
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "pieces") {
		w := Piece{ID: fmt.Sprintf("p%d", i), Name: fmt.Sprintf("board %d", i), Kind: PieceRectangle, Length: mm(80), Width: mm(60), Y: unit.Length(0.05 * float64(2*i-1)),
			Thickness: mm(half(6, 30, "thick")), Height: mm(half(0, 12, "up")), Density: given(unit.Density(rapid.IntRange(400, 900).Draw(t, "weighs"))), Bedded: rapid.Bool().Draw(t, "bedded")}
		p.Pieces = append(p.Pieces, w)
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "inserts") {
		in := Insert{ID: fmt.Sprintf("i%d", i), Name: fmt.Sprintf("disc %d", i), Count: 2, Kind: InsertStanding, Diameter: mm(12), Tall: mm(half(1, 12, "tall")),
			On: rapid.SampledFrom([]RestKind{OnFloor, OnHeight, OnLayer, OnLayer}).Draw(t, "on"), Height: mm(half(0, 20, "rests at")), Fixed: rapid.Bool().Draw(t, "fixed")}
		in.Layer = p.Layers[rapid.IntRange(0, len(p.Layers)-1).Draw(t, "layer")].ID
		p.Inserts = append(p.Inserts, in)
	}
	if cup := rapid.SampledFrom([]unit.Mass{0, 0.12, 0.3, 1}).Draw(t, "cup"); cup > 0 {
		p.Mixing.CupHolds = given(cup)
	}
	var lim StageLimits
	if rapid.Bool().Draw(t, "by heat") {
		base, per := rapid.Float64Range(0.006, 0.03).Draw(t, "heat on the floor"), rapid.Float64Range(-0.3, 0.3).Draw(t, "heat per height")
		lim.Deepest = func(bottom, most unit.Length, _ string) unit.Length {
			return min(most, max(0.004, unit.Length(base+per*float64(bottom))))
		}
	}
	return p, lim
}

func TestStagesKeepToEveryLimit(t *testing.T) {
	possible, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p, lim := randomStages(t)
		pl := Make(p)
		s, err := ProposeStages(context.Background(), &p, &pl, lim)
		if err != nil {
			t.Fatal(err)
		}
		if all++; !s.Possible {
			if s.Change == "" || s.Binds == "" {
				t.Fatalf("impossible, and neither what binds nor what to change: %+v", s)
			}
			return
		}
		possible++
		next := p.Clone()
		if err := ApplyStages(&next, s); err != nil {
			t.Fatal(err)
		}
		if list := next.Validate(); len(list) > 0 {
			t.Fatalf("no document after it: %v", list)
		}
		for _, fault := range faultsOf(&p, &pl, &next, lim) {
			t.Errorf("%s", fault)
		}
		if t.Failed() {
			t.Fatalf("%+v", s)
		}
	})
	if possible*5 < all {
		t.Errorf("only %d of %d jobs were possible: the draw is too hard to show anything", possible, all)
	}
}

// faultsOf holds a project after a proposal against everything that was wanted
// of it, by the figures of its own plan.
func faultsOf(was *Project, before *Plan, p *Project, lim StageLimits) []string {
	var list []string
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	pl := Make(*p)
	const hair = 2e-6
	if math.Abs(float64(pl.Mold.FillLine-before.Mold.FillLine)) > hair {
		say("the fill line went from %v to %v", before.Mold.FillLine, pl.Mold.FillLine)
	}
	var lines []float64
	for k := range pl.Layers {
		l := &pl.Layers[k]
		sheet := p.Sheet(l.Sheet)
		if l.Depth > sheet.MaxLayer.Value+hair || sheet.MinLayer.Given() && l.Depth < sheet.MinLayer.Value-hair || l.Depth <= 0 {
			say("%s is %v deep, of %v to %v", l.Name, l.Depth, sheet.MinLayer.Value, sheet.MaxLayer.Value)
		}
		if lim.Deepest != nil && l.Depth > lim.Deepest(l.Bottom, sheet.MaxLayer.Value, l.Sheet)+hair {
			say("%s is %v deep, too hot", l.Name, l.Depth)
		}
		if w := l.Times.Working; !w.Absent {
			cups := 1.0
			if own := p.Mixing.CupHolds; own.Given() {
				cups = math.Ceil(l.Mix.At50.Per(own.Value))
			}
			// The allowances of one pour are not those of all together.
			if took := cups*360 + float64(l.Mix.At50)*300 + 180; took > 1.1*0.7*float64(w.Value)+360 {
				say("%s takes %v s of %v", l.Name, took, w.Value)
			}
		}
		if k < len(pl.Layers)-1 {
			lines = append(lines, float64(l.Top))
		}
	}
	on := func(z float64) bool {
		return slices.ContainsFunc(lines, func(l float64) bool { return math.Abs(l-z) <= 1.1e-4 })
	}
	for i := range pl.Pieces {
		w := &pl.Pieces[i]
		rested := false
		for k := range before.Layers {
			rested = rested || math.Abs(float64(before.Layers[k].Top-w.Bottom)) < 1e-4
		}
		for _, z := range lines {
			if d := math.Abs(z - float64(w.Top)); d < 1e-3-hair {
				say("a line at %v by the top of %s at %v", z, w.Name, w.Top)
			}
			if d := math.Abs(z - float64(w.Bottom)); d < 1e-3-hair && !(rested && d < 1e-4) {
				say("a line at %v by the underside of %s at %v", z, w.Name, w.Bottom)
			}
		}
		if w.LiftsAt > 0 && !p.Pieces[i].Bedded {
			for k := range pl.Layers {
				if l := &pl.Layers[k]; l.Bottom <= w.Bottom+1e-4 && l.Top-w.Bottom >= w.LiftsAt {
					say("%s floats in %s", w.Name, l.Name)
				}
			}
		}
	}
	for i := range pl.Inserts {
		in, wanted := &pl.Inserts[i], &before.Inserts[i]
		for _, z := range lines {
			if z > float64(in.Bottom)+hair && z < float64(in.Top)-hair {
				say("a line at %v through %s", z, in.Name)
			}
		}
		if in.Cover < p.Finish.MinCover.Value-hair {
			say("%v of cover over %s", in.Cover, in.Name)
		}
		switch set := &was.Inserts[i]; set.On {
		case OnLayer:
			if up := in.Bottom - wanted.Bottom; up > 2e-3+hair || !on(float64(in.Bottom)) {
				say("%s went up by %v to %v", in.Name, up, in.Bottom)
			} else if up < -4e-3-hair && leastCover(before, wanted.Bottom) > p.Finish.MinCover.Value+2e-3 {
				say("%s went down by %v with cover enough", in.Name, -up)
			}
		case OnHeight:
			resting := slices.ContainsFunc(pl.Pieces, func(w PiecePlan) bool { return math.Abs(float64(w.Top-in.Bottom)) < 1e-4 })
			if !set.Fixed && in.Bottom > 1e-4 && !resting && !on(float64(in.Bottom)) {
				say("nothing carries %s at %v", in.Name, in.Bottom)
			}
		}
	}
	if a, b := mixesOf(was, before), mixesOf(p, &pl); len(a) != len(b) {
		say("%d colours became %d", len(a), len(b))
	} else {
		for i := range a {
			if a[i].tint != b[i].tint || math.Abs(a[i].top-b[i].top) > 2e-3+hair {
				say("the colour %v became %v", a[i], b[i])
			}
		}
	}
	return list
}

// leastCover is the least cover over the inserts that stand at a height, which
// go down together where one of them has too little.
func leastCover(pl *Plan, bottom unit.Length) unit.Length {
	least := unit.Length(math.Inf(1))
	for i := range pl.Inserts {
		if in := &pl.Inserts[i]; math.Abs(float64(in.Bottom-bottom)) < 1e-4 {
			least = min(least, in.Cover)
		}
	}
	return least
}

type mixed struct {
	tint string
	top  float64
}

// mixesOf lists the bands of colour with their tops.
func mixesOf(p *Project, pl *Plan) []mixed {
	var list []mixed
	for k := range p.Layers {
		m := mixed{p.Layers[k].Tint.Name, float64(pl.Layers[k].Top)}
		if n := len(list); n > 0 && list[n-1].tint == m.tint {
			list[n-1] = m
			continue
		}
		list = append(list, m)
	}
	return list
}

func TestStagesAreTheBestOfAll(t *testing.T) {
	found := 0
	check := func(t *rapid.T) {
		p, lim := randomStages(t)
		pl := Make(p)
		j, asks := newStageJob(&p, &pl, lim)
		if asks != "" {
			t.Fatal(asks)
		}
		levels := fewLevels(t, j)
		got, ok, err := j.solveOver(context.Background(), levels)
		if err != nil {
			t.Fatal(err)
		}
		want := bruteStages(j, levels, lim)
		if ok != (want.pours > 0) {
			t.Fatalf("found %v, and by trying all %+v; levels %v", ok, want, levels)
		}
		if !ok {
			return
		}
		found++
		if got.pours != want.pours || math.Abs(got.risk-want.risk) > 1e-6*(1+want.risk) {
			t.Fatalf("%d pours at %.9g, and by trying all %d at %.9g\n%+v", got.pours, got.risk, want.pours, want.risk, got)
		}
	}
	for range 10 { // until there were enough, however few cases are drawn at a time
		if found < 10 {
			rapid.Check(t, check)
		}
	}
	if found < 10 {
		t.Errorf("only %d jobs had a way", found)
	}
}

// fewLevels draws at most nine of the levels of a job, those that are wanted
// among them.
func fewLevels(t *rapid.T, j *stageJob) []float64 {
	list := slices.Clone(j.now)
	for i := range j.musts {
		list = append(list, j.musts[i].at)
	}
	all := j.levels()
	for range 6 {
		if len(all) > 0 {
			list = append(list, rapid.SampledFrom(all).Draw(t, "level"))
		}
	}
	list = distinct(list)
	list = slices.DeleteFunc(list, func(z float64) bool { return z <= j.base+sameLevel || z >= j.fill-sameLevel })
	return list[:min(9, len(list))]
}

// TestStagesTakeAnyProject holds that whatever a project is like, there is a
// proposal or a change to make, and that a proposal can be taken.
func TestStagesTakeAnyProject(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := randomProject(t)
		p.Serial = 100
		if rapid.Bool().Draw(t, "no product") {
			p.Sheets, p.Layers[0].Sheet = nil, ""
		}
		if rapid.Bool().Draw(t, "no mold") {
			p.Mold = Mold{}
		}
		wild := rapid.SampledFrom([]float64{1, 0, -1, math.NaN(), math.Inf(1)}).Draw(t, "wild")
		pl := Make(p)
		s, err := ProposeStages(context.Background(), &p, &pl, StageLimits{Deepest: func(_, most unit.Length, _ string) unit.Length { return most.Times(wild) }})
		switch {
		case err != nil:
			t.Fatal(err)
		case s.Possible:
			if err := ApplyStages(&p, s); err != nil {
				t.Fatal(err)
			}
		case s.Change == "":
			t.Fatalf("%+v", s)
		}
	})
}

func TestStagesOfADeepMold(t *testing.T) {
	p := tray(4000, 1000, 4000, 1900)
	p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(11)}
	if s := stagesOf(t, p, StageLimits{}); !s.Possible || s.Pours != 173 { // 1900 / 11 = 172.7
		t.Errorf("%v, %d pours, %q", s.Possible, s.Pours, s.Change)
	}
	p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(1)}
	if s := stagesOf(t, p, StageLimits{}); s.Possible || s.Change == "" {
		t.Errorf("%+v", s)
	}
}

func TestStagesNeverTakeMoreThanAGreedyHand(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		p, lim := randomStages(t)
		pl := Make(p)
		j, asks := newStageJob(&p, &pl, lim)
		if asks != "" {
			t.Fatal(asks)
		}
		greedy, ok := greedyStages(j, lim)
		if !ok {
			return
		}
		compared++
		if got, found, err := j.solve(context.Background()); err != nil || !found || got.pours > greedy {
			t.Fatalf("%d pours (%v, %v), a greedy hand takes %d", got.pours, found, err, greedy)
		}
	})
	if compared == 0 {
		t.Error("no job could be poured greedily")
	}
}
