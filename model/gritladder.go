package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// How much finer the next grit may be (custom, not a standard): by 1.62 in the
// size of its grains down to P240 and by 1.5 below, so that P80, P120, P180,
// P240 and P400, P600, P800 are no step too long, and P120 to P240 is one. A
// wide belt goes by the grades: after the first belts at most two further in the
// series, among the fine ones the very next (as a trade magazine
// has it).
const (
	stepCoarse = 1.62
	stepFine   = 1.5
	fineFrom   = unit.Length(58e-6)
	beltFine   = unit.Length(110e-6) // P150 and finer count as fine belts
)

const (
	ruleByGrain = "no step finer than 1.62 times in grain down to P240 and 1.5 times below: custom of the trade, not a standard"
	ruleByBelt  = "a belt at most two grades finer than the one before, among fine belts the very next: as a trade magazine has it for wide belts"
)

// mayFollow tells whether a grit may come after another in a series.
type mayFollow func(from, to Grit) bool

// byGrain is the rule for discs and hands.
func byGrain(from, to Grit) bool {
	most := stepCoarse
	if to.Grain < fineFrom {
		most = stepFine
	}
	return to.Grain < from.Grain && from.Grain.Per(to.Grain) <= most+1e-9
}

// byBelt is the rule for wide belts; grades are counted in their own series.
func byBelt(from, to Grit) bool {
	list := Grits(from.Series)
	i, j := placeOf(list, from), placeOf(list, to)
	if i < 0 || j < 0 || j <= i {
		return false
	}
	if to.Grain < beltFine {
		return j == i+1
	}
	return j <= i+2
}

func placeOf(list []Grit, g Grit) int {
	for i := range list {
		if list[i].Mark == g.Mark {
			return i
		}
	}
	return -1
}

// ruleOf gives the rule for a sander, and its words.
func ruleOf(s SanderKind) (mayFollow, string) {
	if s == SanderBelt {
		return byBelt, ruleByBelt
	}
	return byGrain, ruleByGrain
}

// ladder finds the fewest grits from the first to the last of a list, the
// coarsest first, of which each may follow the one before; among as few, those
// whose longest step is shortest, and of these the ones whose last steps are. Where the list leaves a step that no grit on
// it can bridge, it takes the shortest there is and goes on; those steps are in
// broken, by the place of the grit that they end at.
func ladder(list []Grit, may mayFollow) (steps []Grit, broken []int) {
	if len(list) == 0 {
		return nil, nil
	}
	type way struct {
		breaks, steps int
		longest       float64
		before        int
	}
	best := make([]way, len(list))
	better := func(a, b way) bool {
		switch {
		case a.breaks != b.breaks:
			return a.breaks < b.breaks
		case a.steps != b.steps:
			return a.steps < b.steps
		}
		return a.longest < b.longest-1e-12
	}
	for j := 1; j < len(list); j++ {
		best[j] = way{breaks: math.MaxInt, before: -1}
		for i := j - 1; i >= 0; i-- {
			w := way{best[i].breaks, best[i].steps + 1, max(best[i].longest, list[i].Grain.Per(list[j].Grain)), i}
			if !may(list[i], list[j]) {
				if i != j-1 {
					continue
				}
				w.breaks++ // to the very next one on the list, for want of another
			}
			if better(w, best[j]) {
				best[j] = w
			}
		}
	}
	var back []int
	for j := len(list) - 1; j > 0; j = best[j].before {
		back = append(back, j)
	}
	steps = append(steps, list[0])
	for k := len(back) - 1; k >= 0; k-- {
		if !may(steps[len(steps)-1], list[back[k]]) {
			broken = append(broken, len(steps))
		}
		steps = append(steps, list[back[k]])
	}
	return steps, broken
}

// surfaceLeft is the grit to begin with after a tool (common practice, no
// source).
func surfaceLeft(tool ToolKind) GritMark {
	switch tool {
	case ToolSaw:
		return "P60"
	case ToolRouter, ToolNone:
		return "P80"
	case ToolPlaner:
		return "P100"
	case ToolBelt:
		return "P120"
	case ToolHand:
		return "P180"
	}
	return "P80"
}

// surfaceGrit is the last grit of a finish, by its P number; empty where the
// face is not sanded.
func surfaceGrit(s SurfaceKind) GritMark {
	switch s {
	case SurfaceSatin:
		return "P220"
	case SurfaceSilk:
		return "P600"
	case SurfaceClear:
		return "P3000"
	}
	return ""
}

// wetFinerThan is the grain from which water is used: dry up to 320 and wet from
// there (common practice, no source). 320 itself is sanded dry.
const wetFinerThan = unit.Length(46e-6)

// gritsFor gives the grits to choose from, from the first after a tool to the
// last of a finish, of what is on hand. Where the last or the first is not on
// hand the nearest on hand stands for it, and missing says so. A series that
// ends coarser than the finish goes on in the P series.
func (s *Sand) gritsFor(first, last GritMark) (list []Grit, missing []GritMark) {
	series := s.Series
	if series == "" {
		series = SeriesFEPA
	}
	from, _ := GritOf(first)
	to, _ := GritOf(last)
	if series != SeriesFEPA {
		from = nearestGrit(series, from.Grain)
		if like := nearestGrit(series, to.Grain); like.Grain.Per(to.Grain) < 1.3 {
			to = like
		}
	}
	owned := map[GritMark]bool{}
	for _, m := range s.Own {
		owned[m] = true
	}
	has := func(g Grit) bool {
		if len(s.Own) == 0 {
			return g.usual() || g.Mark == from.Mark || g.Mark == to.Mark
		}
		return owned[g.Mark]
	}
	all := Grits(series)
	if to.Series != series {
		for _, g := range Grits(SeriesFEPA) {
			if g.Grain < all[len(all)-1].Grain {
				all = append(all, g)
			}
		}
	}
	for _, g := range all {
		if g.Grain <= from.Grain && g.Grain >= to.Grain && has(g) {
			list = append(list, g)
		}
	}
	if !has(from) {
		missing = append(missing, from.Mark)
	}
	if !has(to) && to.Mark != from.Mark {
		missing = append(missing, to.Mark)
	}
	return list, missing
}

// bridging gives the fewest grits of a series between two that make every step
// short enough.
func bridging(from, to Grit, may mayFollow) []GritMark {
	var between []Grit
	all := Grits(from.Series)
	if to.Series != from.Series {
		all = append(all, Grits(to.Series)...)
	}
	for _, g := range all {
		if g.Grain < from.Grain && g.Grain > to.Grain && g.usual() {
			between = append(between, g)
		}
	}
	between = append(append([]Grit{from}, between...), to)
	steps, _ := ladder(between, may)
	var want []GritMark
	for _, g := range steps[1 : len(steps)-1] {
		want = append(want, g.Mark)
	}
	return want
}

// gapWords words a step that is too long.
func gapWords(g GritGap) string {
	from, _ := GritOf(g.From)
	to, _ := GritOf(g.To)
	return fmt.Sprintf("from %s to %s is %.2f times finer", g.From, g.To, from.Grain.Per(to.Grain))
}
