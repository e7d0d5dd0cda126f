package model

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
)

// stageRule is one thing that the lines must keep to.
type stageRule int

// The rules, in the order in which they are named where several bind.
const (
	ruleFloat stageRule = iota
	ruleDeep
	ruleHeat
	ruleCover
	ruleStand
	ruleColour
	ruleTime
	ruleInsert
	ruleThin
	ruleArris
	stageRules
)

// copied is a job that can be changed without changing this one.
func (j *stageJob) copied() *stageJob {
	c := *j
	c.bands, c.bounds, c.still = slices.Clone(j.bands), slices.Clone(j.bounds), slices.Clone(j.still)
	c.musts, c.floats, c.seats = slices.Clone(j.musts), slices.Clone(j.floats), slices.Clone(j.seats)
	for i := range c.seats {
		c.seats[i].items = slices.Clone(c.seats[i].items)
	}
	return &c
}

// without is the job as it would be if a rule did not hold.
func (j *stageJob) without(rules ...stageRule) *stageJob {
	c := j.copied()
	for _, r := range rules {
		switch r {
		case ruleColour:
			c.oneBand()
		case ruleStand:
			for len(c.seats) > 0 {
				c.fix(0)
			}
			c.musts = nil
		case ruleDeep:
			for i := range c.bands {
				c.bands[i].most = math.Inf(1)
			}
		case ruleHeat:
			c.heat = nil
		case ruleFloat:
			c.floats = nil
		case ruleInsert:
			c.throughs = false
		case ruleCover:
			c.cover = math.Inf(-1)
		case ruleTime:
			for i := range c.bands {
				c.bands[i].working = math.Inf(1)
			}
		case ruleThin:
			c.thinRule = false
		case ruleArris:
			c.arrises = nil
		}
	}
	return c
}

// oneBand makes all bands one, with the tightest limit of each kind.
func (j *stageJob) oneBand() {
	all := j.bands[0]
	for i := range j.bands {
		b := &j.bands[i]
		all.most, all.asked, all.least = min(all.most, b.most), min(all.asked, b.asked), max(all.least, b.least)
		all.working, all.cup = min(all.working, b.working), min(all.cup, b.cup)
		all.density, all.shrink = max(all.density, b.density), b.shrink
	}
	j.bands, j.bounds = []stageBand{all}, nil
}

// fix turns a seat into inserts that hold by themselves where they are.
func (j *stageJob) fix(seat int) {
	for _, it := range j.seats[seat].items {
		j.still = append(j.still, stageStill{it, j.seats[seat].at})
	}
	j.seats = slices.Delete(j.seats, seat, seat+1)
}

// binds names what keeps a way from being fewer pours.
func (j *stageJob) binds(ctx context.Context, best stagePath) (string, error) {
	if best.pours < 2 {
		return "nothing asks for more than one pour", nil
	}
	return j.blamed(func(c *stageJob) (bool, error) {
		path, found, err := c.solve(ctx)
		return found && path.pours < best.pours, err
	})
}

// blamed names a fewest of rules without which a job would be better: of all
// that apply, those that it is not better with.
func (j *stageJob) blamed(better func(*stageJob) (bool, error)) (string, error) {
	var gone []stageRule
	for r := range stageRules {
		if j.applies(r) {
			gone = append(gone, r)
		}
	}
	if ok, err := better(j.without(gone...)); !ok || err != nil {
		return "several limits at once", err
	}
	for _, r := range slices.Backward(slices.Clone(gone)) {
		rest := slices.DeleteFunc(slices.Clone(gone), func(o stageRule) bool { return o == r })
		ok, err := better(j.without(rest...))
		if err != nil {
			return "", err
		}
		if ok {
			gone = rest
		}
	}
	var list []string
	for _, r := range gone {
		list = append(list, j.says(r))
	}
	return strings.Join(list, "; "), nil
}

// applies tells whether a rule has anything to say in this job.
func (j *stageJob) applies(r stageRule) bool {
	switch r {
	case ruleColour:
		return len(j.bounds) > 0
	case ruleStand:
		return len(j.seats)+len(j.musts) > 0
	case ruleHeat:
		return j.heat != nil
	case ruleFloat:
		return len(j.floats) > 0
	case ruleInsert, ruleCover:
		return len(j.seats)+len(j.still) > 0
	case ruleTime:
		return j.fluid != nil
	case ruleArris:
		return len(j.arrises) > 0
	}
	return true
}

// says words a rule with its numbers.
func (j *stageJob) says(r stageRule) string {
	switch r {
	case ruleColour:
		var at []string
		for i := range j.bounds {
			at = append(at, j.length(j.bounds[i].at))
		}
		return "another mix begins at " + listed(at)
	case ruleStand:
		return j.saysStand()
	case ruleDeep:
		b := j.tightest(func(b *stageBand) float64 { return b.most })
		return fmt.Sprintf("a layer of %s may be %s deep at most (%s)", b.product, j.length(b.most), b.whose())
	case ruleHeat:
		bottom, b, deep := j.hottest()
		return fmt.Sprintf("by its heat a layer of %s on %s may be %s deep at most in this room", b.product, j.floorOr(bottom), j.length(deep))
	case ruleFloat:
		f := j.floats[0]
		for _, g := range j.floats {
			if g.bottom+g.lifts < f.bottom+f.lifts {
				f = g
			}
		}
		return fmt.Sprintf("%s, held by nothing, lifts when a pour stands %s above its underside", f.name, j.length(f.lifts))
	case ruleInsert:
		return "a line may not go through " + listed(j.insertNames())
	case ruleCover:
		return fmt.Sprintf("%s of cover have to stay over %s after flattening", j.length(j.cover), listed(j.insertNames()))
	case ruleTime:
		b := j.tightest(func(b *stageBand) float64 { return j.mostMass(b) })
		return fmt.Sprintf("no more than %s of %s can be mixed and poured within seven tenths of its working time", j.p.Style.Mass(massOf(j.mostMass(b))), b.product)
	case ruleThin:
		b := j.tightest(func(b *stageBand) float64 { return -b.least })
		return fmt.Sprintf("a layer of %s may be %s deep at least", b.product, j.length(b.least))
	}
	var names []string
	for i := range j.arrises {
		names = append(names, j.arrises[i].name)
	}
	return fmt.Sprintf("a line keeps %s away from the edges of %s", j.length(arrisClear), listed(names))
}

func (j *stageJob) saysStand() string {
	var list []string
	for i := range j.seats {
		list = append(list, fmt.Sprintf("%s stand on a line at %s", listed(j.seats[i].names()), j.length(j.seats[i].at)))
	}
	for i := range j.musts {
		list = append(list, fmt.Sprintf("%s rests on a line at %s", j.musts[i].name, j.length(j.musts[i].at)))
	}
	return listed(list)
}

// tightest is the band with the least of a figure.
func (j *stageJob) tightest(of func(*stageBand) float64) *stageBand {
	best := &j.bands[0]
	for i := range j.bands {
		if of(&j.bands[i]) < of(best) {
			best = &j.bands[i]
		}
	}
	return best
}

// hottest is where heat allows the least depth of what was asked.
func (j *stageJob) hottest() (bottom float64, band *stageBand, deep float64) {
	band, deep = &j.bands[0], math.Inf(1)
	for i := range j.bands {
		for key, d := range j.heat.known {
			if key.sheet == j.bands[i].sheet && (d < deep || d == deep && key.bottom < bottom) {
				bottom, band, deep = key.bottom, &j.bands[i], d
			}
		}
	}
	return bottom, band, min(deep, band.most)
}

// mostMass is what can be mixed and poured in time.
func (j *stageJob) mostMass(b *stageBand) float64 {
	lo, hi := 0.0, 1e4
	if j.pourTime(hi, b) <= b.working {
		return hi
	}
	for range 50 {
		if mid := (lo + hi) / 2; j.pourTime(mid, b) <= b.working {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// whose tells where the deepest layer of a band comes from.
func (b *stageBand) whose() string {
	switch {
	case b.warm:
		return "its data sheet, in so warm a room"
	case b.sheetSays:
		return "its data sheet"
	}
	return "as you planned it; its data sheet does not say"
}
