package model

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

// brute is a way with its cost, worked out straight from what stagecost.go says
// of the risk, with no regard for speed.
type brute struct {
	pours int
	risk  float64
}

// bruteStages tries every choice of lines among the levels, with every way to
// put the seats and the colours on them. No pours means that there is no way.
func bruteStages(j *stageJob, levels []float64, lim StageLimits) brute {
	var best brute
	for mask := range 1 << len(levels) {
		var lines []float64
		for i, z := range levels {
			if mask>>i&1 == 1 {
				lines = append(lines, z)
			}
		}
		choose(len(lines), len(j.seats), true, func(seats []int) {
			choose(len(lines), len(j.bounds), false, func(bounds []int) {
				risk, ok := bruteRisk(j, lines, seats, bounds, lim)
				if b := (brute{len(lines) + 1, risk}); ok && (best.pours == 0 || b.pours < best.pours || b.pours == best.pours && b.risk < best.risk) {
					best = b
				}
			})
		})
	}
	return best
}

// choose calls do with every rising list of k places among n; places may repeat
// where same is set.
func choose(n, k int, same bool, do func([]int)) {
	var pick func(at []int, from int)
	pick = func(at []int, from int) {
		if len(at) == k {
			do(at)
			return
		}
		for i := from; i < n; i++ {
			next := i + 1
			if same {
				next = i
			}
			pick(append(slices.Clone(at), i), next)
		}
	}
	pick(nil, 0)
}

// bruteRisk is the risk of one way, and whether it keeps to everything.
func bruteRisk(j *stageJob, lines []float64, seats, bounds []int, lim StageLimits) (float64, bool) {
	risk := 0.0
	tops := append(slices.Clone(lines), j.fill)
	onLine := func(k int) (volume, tall float64) { // what stands on the line below layer k
		for i, at := range seats {
			if at == k-1 {
				for _, it := range j.seats[i].items {
					volume += it.volume
					tall = max(tall, it.tall)
				}
			}
		}
		return volume, tall
	}
	bottom := j.base
	var netLast float64
	for k, top := range tops {
		band := 0
		for _, at := range bounds {
			if at < k {
				band++
			}
		}
		b := &j.bands[band]
		most := b.most
		if lim.Deepest != nil {
			most = min(most, float64(lim.Deepest(unit.Length(bottom), unit.Length(b.most), b.sheet)))
		}
		if top-bottom > most+1e-6 || top-bottom < b.least-1e-6 {
			return 0, false
		}
		risk += math.Pow((top-bottom)/most, 4)
		for _, m := range j.musts {
			if m.at > bottom+1e-6 && m.at < top-1e-6 {
				return 0, false
			}
		}
		lift := 0.0
		for _, f := range j.floats {
			if f.bottom >= bottom-1e-4 && top > f.bottom {
				lift = max(lift, (top-f.bottom)/f.lifts)
			}
		}
		if lift >= 1 {
			return 0, false
		}
		risk += math.Pow(lift, 4)
		volume, tall := onLine(k)
		netLast = j.fluid(top) - j.fluid(bottom) - volume
		if !math.IsInf(b.working, 1) {
			mass := netLast * b.density * j.extra
			mass += max(j.cupLeast, mass*j.cupPart)
			cups := max(1, math.Ceil(mass/b.cup-1e-9))
			share := (cups*j.mix + mass*j.pour + j.each) / b.working
			if share > 1 {
				return 0, false
			}
			risk += math.Pow(share, 4)
		}
		if k < len(lines) && slices.Contains(seats, k-1) {
			if top < bottom+tall-1e-6 {
				return 0, false
			}
			risk += math.Pow(1e-3/(1e-3+max(0, top-bottom-tall)), 4)
		}
		bottom = top
	}
	total := j.fluid(j.fill)
	shrunk := netLast * j.bands[len(j.bands)-1].shrink
	if j.shrinkAll > 0 {
		for i := range j.seats {
			for _, it := range j.seats[i].items {
				total -= it.volume
			}
		}
		shrunk = total * j.shrinkAll
	}
	face := j.fill - max(0, shrunk)/j.open(j.fill) - j.offTop
	over := func(top float64) bool {
		left := face - top
		if left < j.cover-1e-6 {
			return false
		}
		risk += math.Pow(j.cover/left, 4)
		return true
	}
	for _, s := range j.still {
		if !over(s.bottom + s.tall) {
			return 0, false
		}
	}
	for i, at := range seats {
		s, z := &j.seats[i], lines[at]
		tall := 0.0
		for _, it := range s.items {
			tall = max(tall, it.tall)
		}
		lo, hi := j.window(s, j.fill-j.offTop-face)
		if z < lo-1e-6 || z > hi+1e-6 || !over(z+tall) {
			return 0, false
		}
		risk += 1000 * math.Abs(z-s.at)
	}
	for i, at := range bounds {
		b := &j.bounds[i]
		if math.Abs(lines[at]-b.at) > b.slack+1e-6 {
			return 0, false
		}
		risk += 1000 * math.Abs(lines[at]-b.at)
	}
	for _, z := range lines {
		if !slices.ContainsFunc(j.now, func(n float64) bool { return math.Abs(n-z) <= 1e-6 }) {
			risk += 0.02
		}
		edge := 0.0
		for _, e := range j.arrises {
			rests := slices.ContainsFunc(j.musts, func(m stageMust) bool { return m.id == "" && m.name == e.name && math.Abs(m.at-z) <= 1e-4 })
			if rests && math.Abs(e.at-z) <= 1e-4 {
				continue
			}
			if math.Abs(e.at-z) < 1e-3-1e-6 {
				return 0, false
			}
			edge = max(edge, math.Pow(1e-3/math.Abs(e.at-z), 4))
		}
		face := 0.0
		for _, s := range j.still {
			top := s.bottom + s.tall
			switch {
			case math.Abs(z-s.bottom) <= 1e-6:
			case z > s.bottom && z < top-1e-6:
				return 0, false
			default:
				face = max(face, math.Pow(1e-3/(1e-3+max(0, s.bottom-z, z-top)), 4))
			}
		}
		risk += edge + face
	}
	return risk, true
}

// greedyStages pours as deep as goes from one wanted level to the next, each
// where it is wanted; ok is false where it gets stuck or breaks a limit.
func greedyStages(j *stageJob, lim StageLimits) (pours int, ok bool) {
	var stops []float64
	for i := range j.seats {
		stops = append(stops, j.seats[i].at)
	}
	for i := range j.bounds {
		stops = append(stops, j.bounds[i].at)
	}
	for i := range j.musts {
		stops = append(stops, j.musts[i].at)
	}
	stops = append(distinct(stops), j.fill)
	var lines []float64
	bottom, levels := j.base, j.levels()
	for _, stop := range stops {
		for bottom < stop-1e-6 {
			band := 0
			for i := range j.bounds {
				if j.bounds[i].at <= bottom+1e-6 {
					band++
				}
			}
			most := j.bands[band].most
			if lim.Deepest != nil {
				most = min(most, float64(lim.Deepest(unit.Length(bottom), unit.Length(most), j.bands[band].sheet)))
			}
			top := bottom
			for _, z := range append(slices.Clone(levels), stop) {
				if z > top && z <= stop+1e-6 && z-bottom <= most {
					top = z
				}
			}
			if top <= bottom+1e-6 {
				return 0, false
			}
			if bottom = top; bottom < j.fill-1e-6 {
				lines = append(lines, bottom)
			}
		}
	}
	at := func(z float64) int {
		return slices.IndexFunc(lines, func(l float64) bool { return math.Abs(l-z) <= 1e-6 })
	}
	var seats, bounds []int
	for i := range j.seats {
		seats = append(seats, at(j.seats[i].at))
	}
	for i := range j.bounds {
		bounds = append(bounds, at(j.bounds[i].at))
	}
	if slices.Contains(seats, none) || slices.Contains(bounds, none) {
		return 0, false
	}
	_, ok = bruteRisk(j, lines, seats, bounds, lim)
	return len(lines) + 1, ok
}
