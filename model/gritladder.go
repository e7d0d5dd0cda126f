package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// How much finer the next grit may be (custom, not a standard): by 1.62 in the
// size of its grains down to P240 and by 1.5 below, so that P80, P120, P180,
// P240 and P400, P600, P800 are no step too long, and P120 to P240 is one. A
// wide belt goes by the grades: after the first belts at most two further in the
// series, among the fine ones the very next (as a trade magazine
// has it). Its table of belts ends at P220, and so do belts here: a finer one
// loads with resin and burns it (common practice, no source).
const (
	stepCoarse = 1.62
	stepFine   = 1.5
	fineFrom   = unit.Length(58e-6)
	beltFine   = unit.Length(110e-6) // P150 and finer count as fine belts
	beltEnd    = unit.Length(65e-6)  // P220 is the last belt
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
// Finer than the last belt a disc or the hand goes on.
func byBelt(from, to Grit) bool {
	if to.Grain < beltEnd {
		return byGrain(from, to)
	}
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

// ruleOf gives the rule for a sander, and its words in the marks of a series.
func ruleOf(s SanderKind, series GritSeries) (mayFollow, string) {
	grains := fmt.Sprintf("no step finer than 1.62 times in grain down to %s and 1.5 times below: custom of the trade, not a standard", lastCoarserThan(series, fineFrom))
	if s == SanderBelt {
		return byBelt, fmt.Sprintf("a belt at most two grades finer than the one before, among fine belts the very next: as a trade magazine has it for wide belts. "+
			"No belt finer than %s (common practice, no source); from there, by disc or by hand, %s", lastCoarserThan(series, beltEnd), grains)
	}
	return byGrain, grains
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

// endOf gives the grade that ends a finish where abrasives are marked by a
// series: the nearest of it, or where it ends too coarse the P grade itself.
func endOf(s SurfaceKind, series GritSeries) Grit {
	end, _ := GritOf(surfaceGrit(s))
	if like := nearestGrit(series, end.Grain); end.Grain > 0 && like.Grain.Per(end.Grain) < 1.3 {
		return like
	}
	return end
}

// In words a finish with the mark of its last grit in a series.
func (s SurfaceKind) In(series GritSeries) string {
	before, _, _ := strings.Cut(string(s), ", to ")
	switch end := endOf(s, series).Mark; {
	case end == "":
		return string(s)
	case s == SurfaceClear:
		return fmt.Sprintf("%s, to %s and polish", before, end)
	default:
		return fmt.Sprintf("%s, to %s", before, end)
	}
}

// wetFinerThan is the grain from which water is used: dry up to P320 and wet from
// there (common practice, no source). P320 itself is sanded dry.
const wetFinerThan = unit.Length(46e-6)

// ladderBy is the ladder that goes by each of the ends on its way, the coarser
// first.
func ladderBy(list, ends []Grit, may mayFollow) (steps []Grit, broken []int) {
	for _, end := range ends {
		shared := min(1, len(steps))
		part := slices.Clone(steps[len(steps)-shared:])
		for _, g := range list {
			if g.Grain >= end.Grain && (shared == 0 || g.Grain < part[0].Grain) {
				part = append(part, g)
			}
		}
		way, bad := ladder(part, may)
		for _, i := range bad {
			broken = append(broken, len(steps)-shared+i)
		}
		steps = append(steps, way[min(shared, len(way)):]...)
	}
	return steps, broken
}

// gritsFor gives the grits to choose from, from the first after a tool to the
// last of the finishes, of what is on hand; missing names of these those that are
// not.
func (s *Sand) gritsFor(from Grit, ends []Grit) (list []Grit, missing []GritMark) {
	asked := append([]Grit{from}, ends...)
	has := func(g Grit) bool {
		if len(s.Own) > 0 {
			return slices.Contains(s.Own, g.Mark)
		}
		return g.usual() || slices.Contains(asked, g)
	}
	for _, g := range GritsOnHand(s.Series) {
		if g.Grain <= from.Grain && g.Grain >= ends[len(ends)-1].Grain && has(g) {
			list = append(list, g)
		}
	}
	for i, g := range asked {
		if !has(g) && !slices.Contains(asked[:i], g) {
			missing = append(missing, g.Mark)
		}
	}
	return list, missing
}

// bridging gives the fewest grits of a series between two that make every step
// short enough: of those that are sold everywhere where these suffice, else of
// all.
func bridging(from, to Grit, may mayFollow) []GritMark {
	var steps []Grit
	for _, any := range []bool{false, true} {
		list := []Grit{from}
		for _, g := range GritsOnHand(from.Series) {
			if g.Grain < from.Grain && g.Grain > to.Grain && (any || g.usual()) {
				list = append(list, g)
			}
		}
		var broken []int
		if steps, broken = ladder(append(list, to), may); len(broken) == 0 {
			break
		}
	}
	var want []GritMark
	for _, g := range steps[1 : len(steps)-1] {
		want = append(want, g.Mark)
	}
	return want
}

// gapWords words what the ladder lacks: its first grit, its last one, or a step
// between.
func (p *SandPlan) gapWords(g GritGap) string {
	from, _ := GritOf(g.From)
	to, _ := GritOf(g.To)
	switch {
	case len(p.Steps) == 0:
		return fmt.Sprintf("none of the grits on hand lies between %s, with which it begins, and %s, with which it ends", g.From, g.To)
	case g.Want[0] == g.From:
		return fmt.Sprintf("on the surface as it is it begins with %s, and with what is on hand it begins with %s", g.From, g.To)
	case g.Want[len(g.Want)-1] == g.To:
		return fmt.Sprintf("the finish wanted ends with %s, and with what is on hand it ends with %s", g.To, g.From)
	}
	return fmt.Sprintf("from %s to %s is %.2f times finer", g.From, g.To, from.Grain.Per(to.Grain))
}
