package model

import (
	"math"
	"slices"
)

// mostLevels bounds how many levels a line may be put at.
const mostLevels = 400

// levels lists the levels at which a line may be, between what has been poured
// and the fill line, rising: a grid, the lines as planned, all that is wanted
// with the ends of where it may move to, and the levels that a limit reaches to
// from one of these, to the graduation that lengths are written to.
func (j *stageJob) levels() []float64 {
	var list []float64
	add := func(z float64) {
		if z > j.base+sameLevel && z < j.fill-sameLevel {
			list = append(list, z)
		}
	}
	either := func(z float64) { // a level that is not on the graduation: the next to it on either side
		if math.IsInf(z, 0) || math.IsNaN(z) {
			return
		}
		steps := z / j.grain
		if near := math.Round(steps); math.Abs(steps-near) < 1e-3 {
			add(near * j.grain)
			return
		}
		add(math.Floor(steps) * j.grain)
		add(math.Ceil(steps) * j.grain)
	}
	for _, depth := range j.depths() { // one on the other, for a deep mold in which the grid is coarse
		for k := 1; k < mostLevels && j.base+float64(k)*depth < j.fill && depth > 2*j.grid; k++ {
			add(j.base + float64(k)*depth)
		}
	}
	step := j.grid
	for (j.fill-j.base)/step > mostLevels/2 {
		step *= 2
	}
	for k := math.Ceil(j.base / step); k*step < j.fill; k++ {
		add(k * step)
	}
	fixed := slices.Concat([]float64{j.base, j.fill}, j.now)
	for i := range j.musts {
		fixed = append(fixed, j.musts[i].at)
	}
	for i := range j.bounds {
		b := &j.bounds[i]
		fixed = append(fixed, b.at)
		either(b.at - b.slack)
		either(b.at + b.slack)
	}
	for i := range j.seats {
		s := &j.seats[i]
		fixed = append(fixed, s.at, s.at+s.tall())
		lo, hi := j.window(s, j.sink(j.base, 0, 0))
		either(lo)
		either(hi)
		either(hi + s.tall())
	}
	for i := range j.still {
		fixed = append(fixed, j.still[i].bottom, j.still[i].bottom+j.still[i].tall)
	}
	for _, z := range fixed {
		add(z)
	}
	for i := range j.floats {
		f := &j.floats[i]
		either(f.bottom + liftMargin*f.lifts)
		either(f.bottom + f.lifts - j.grain)
	}
	for i := range j.arrises {
		either(j.arrises[i].at - arrisClear)
		either(j.arrises[i].at + arrisClear)
	}
	if len(list) < mostLevels {
		for _, depth := range j.depths() {
			for _, z := range fixed {
				either(z - depth)
				either(z + depth)
			}
			if len(list) > 2*mostLevels {
				break
			}
		}
	}
	return distinct(list)
}

// depths lists the limits of depth of all bands, each once.
func (j *stageJob) depths() []float64 {
	var list []float64
	for i := range j.bands {
		for _, d := range []float64{j.bands[i].most, j.bands[i].least} {
			if !math.IsInf(d, 0) && d > 0 {
				list = append(list, d)
			}
		}
	}
	return distinct(list)
}

// distinct sorts levels and leaves out those that lie on another.
func distinct(list []float64) []float64 {
	slices.Sort(list)
	return slices.CompactFunc(list, func(a, b float64) bool { return math.Abs(b-a) <= sameLevel })
}
