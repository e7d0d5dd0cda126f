package model

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"meniscus/model/unit"
)

// listed joins words: "a, b and c", and of more than four "a, b, c and 9 more".
func listed(list []string) string {
	list = distinctWords(list)
	if n := len(list); n > 4 {
		list = append(list[:3:3], fmt.Sprintf("%d more", n-3))
	}
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}

// distinctWords leaves out a word that came before.
func distinctWords(list []string) []string {
	var out []string
	for _, s := range list {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

func massOf(kilograms float64) unit.Mass { return unit.Mass(kilograms) }

func (j *stageJob) floorOr(bottom float64) string {
	if bottom <= sameLevel {
		return "the floor"
	}
	return "a bottom at " + j.length(bottom)
}

// names of what stands on a seat.
func (s *stageSeat) names() []string {
	var list []string
	for i := range s.items {
		list = append(list, s.items[i].name)
	}
	return list
}

func (j *stageJob) insertNames() []string {
	var list []string
	for i := range j.seats {
		list = append(list, j.seats[i].names()...)
	}
	for i := range j.still {
		list = append(list, j.still[i].name)
	}
	return list
}

// layerWhy says of the k-th new layer how deep it is against its limit, what it
// holds, and what its top is for.
func (j *stageJob) layerWhy(path stagePath, k, band int) string {
	bottom, top := j.base, j.fill
	if k > 0 {
		bottom = path.lines[k-1].z
	}
	if k < len(path.lines) {
		top = path.lines[k].z
	}
	b := &j.bands[band]
	var list []string
	switch {
	case j.hot(bottom, b):
		list = append(list, fmt.Sprintf("%s deep, of %s that its heat allows", j.length(top-bottom), j.length(j.limit(bottom, b))))
	case b.sheetSays:
		allows := "that its data sheet allows"
		if b.warm {
			allows += " in so warm a room"
		}
		list = append(list, fmt.Sprintf("%s deep, of %s %s", j.length(top-bottom), j.length(b.most), allows))
	default:
		list = append(list, fmt.Sprintf("%s deep; how deep it may be is not known", j.length(top-bottom)))
	}
	if left, names := j.afloat(bottom, top); len(names) > 0 {
		what := names[0] + " lifts; it holds that once it has cured"
		if n := len(names); n > 1 {
			what = fmt.Sprintf("%s lifts, and %d more; it holds them once it has cured", names[0], n-1)
		}
		list = append(list, fmt.Sprintf("%s below where %s", j.length(left), what))
	}
	if k == len(path.lines) {
		list = append(list, "up to the fill line")
		return strings.Join(list, "; ")
	}
	line := &path.lines[k]
	if line.to > line.from {
		var names []string
		for i := line.from; i < line.to; i++ {
			names = append(names, j.seats[i].names()...)
		}
		list = append(list, listed(names)+" on its top")
	}
	for i := range j.musts {
		if m := &j.musts[i]; math.Abs(m.at-line.z) <= sameLevel {
			list = append(list, m.name+" on its top")
		}
	}
	if line.crosses {
		list = append(list, j.bounds[band].names[1]+" begins on it")
	}
	return strings.Join(list, "; ")
}

// afloat names the pieces that nothing holds in a pour, the first to lift first,
// and how much higher that pour could stand until it does.
func (j *stageJob) afloat(bottom, top float64) (left float64, names []string) {
	left = math.Inf(1)
	for i := range j.floats {
		f := &j.floats[i]
		if f.bottom < bottom-clearEnough || top <= f.bottom {
			continue
		}
		names = append(names, f.name)
		if d := f.bottom + f.lifts - top; d < left-sameLevel {
			left = d
			last := len(names) - 1
			names[0], names[last] = names[last], names[0]
		}
	}
	return left, names
}

// reasons says what a proposal changes and how near it comes to what it must
// keep to.
func (j *stageJob) reasons(path stagePath, s *StageProposal) []string {
	var list []string
	switch was := len(j.p.Layers); {
	case s.Same:
		list = append(list, fmt.Sprintf("%s, as planned", pours(s.Pours)))
	case s.Pours < was:
		list = append(list, fmt.Sprintf("%s instead of %d", pours(s.Pours), was))
	case s.Pours > was:
		list = append(list, fmt.Sprintf("%s instead of %d, so that every limit holds", pours(s.Pours), was))
	default:
		list = append(list, fmt.Sprintf("%s as before, at less risk", pours(s.Pours)))
	}
	moved := func(what string, from, to float64) {
		if math.Abs(to-from) > sameLevel {
			list = append(list, fmt.Sprintf("%s at %s instead of %s", what, j.length(to), j.length(from)))
		}
	}
	crossed := 0
	for _, line := range path.lines {
		if line.crosses {
			moved(j.bounds[crossed].names[1]+" begins", j.bounds[crossed].at, line.z)
			crossed++
		}
		for i := line.from; i < line.to; i++ {
			seat := &j.seats[i]
			moved(listed(seat.names())+": base", seat.at, line.z)
			list = append(list, fmt.Sprintf("%s of cover over %s after flattening; at least %s", j.length(j.fill-path.sink-j.offTop-line.z-seat.tall()), listed(seat.names()), j.length(max(0, j.cover))))
		}
	}
	return list
}

func pours(n int) string {
	if n == 1 {
		return "1 pour"
	}
	return fmt.Sprintf("%d pours", n)
}
