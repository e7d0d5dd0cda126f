package model

import (
	"fmt"
	"math"
	"slices"
	"time"

	"meniscus/model/unit"
)

// stageChange is one thing that a maker could change, by so much of it.
type stageChange struct {
	costs  float64 // what the smallest of it counts as, in millimetres of the fill line
	each   float64 // what one step more counts
	most   int     // steps
	gaps   bool    // more of it does not always help more, so that every step has to be tried
	apply  func(j *stageJob, n int)
	saying func(n int) string
}

// What changes count as, in millimetres that the fill line is raised by: what
// costs a maker no more than a different figure comes first, then what asks for
// hands, then what asks for another product (common practice, no source).
const (
	handsCost   = 2.0
	cupCost     = 3.0
	productCost = 5.0
	farthest    = 20e-3 // metres by which anything would be moved
)

// changes lists what could be changed.
func (j *stageJob) changes() []stageChange {
	step := j.grain
	if j.p.Style.LengthUnit() != unit.InInches {
		step = 1e-4
	}
	steps := func(l float64) int { return int(math.Floor(min(l, farthest)/step + 1e-6)) }
	mm := step * 1000
	list := []stageChange{{each: mm, most: steps(j.rim - j.fill), gaps: true,
		apply:  func(j *stageJob, n int) { j.fill += float64(n) * step },
		saying: func(n int) string { return "raise the fill line by " + j.length(float64(n)*step) },
	}, {each: mm, most: steps(j.offTop),
		apply:  func(j *stageJob, n int) { j.offTop -= float64(n) * step },
		saying: func(n int) string { return "take " + j.length(float64(n)*step) + " less off the top" },
	}}
	list = append(list, j.levelChanges(step)...)
	list = append(list, j.insertChanges(step)...)
	for i := range j.floats {
		name := j.floats[i].name
		list = append(list, stageChange{costs: handsCost, most: 1,
			apply: func(j *stageJob, _ int) {
				j.floats = slices.DeleteFunc(j.floats, func(f stageFloat) bool { return f.name == name })
			},
			saying: func(int) string { return "hold " + name + " down" },
		})
	}
	return append(list, j.productChanges()...)
}

// levelChanges are those of a level that was wanted.
func (j *stageJob) levelChanges(step float64) []stageChange {
	var list []stageChange
	most := int(math.Floor(farthest/step + 1e-6))
	for i := range j.bounds {
		b := &j.bounds[i]
		list = append(list, stageChange{costs: wantMoves * 1000, each: step * 1000, most: most,
			apply: func(j *stageJob, n int) { j.bounds[i].slack += float64(n) * step },
			saying: func(n int) string {
				return fmt.Sprintf("let %s begin %s away from %s", b.names[1], j.length(b.slack+float64(n)*step), j.length(b.at))
			},
		})
	}
	for i := range j.seats {
		s := &j.seats[i]
		list = append(list, stageChange{costs: wantMoves * 1000, each: step * 1000, most: most,
			apply: func(j *stageJob, n int) { j.seats[i].slack += float64(n) * step },
			saying: func(n int) string {
				return fmt.Sprintf("let %s stand %s away from %s", listed(s.names()), j.length(s.slack+float64(n)*step), j.length(s.at))
			},
		})
	}
	for i := range j.musts {
		m := j.musts[i]
		for _, way := range []float64{1, -1} {
			list = append(list, stageChange{each: step * 1000, most: most, gaps: true,
				apply: func(j *stageJob, n int) { j.shift(m, way*float64(n)*step) },
				saying: func(n int) string {
					return fmt.Sprintf("let %s rest at %s", m.name, j.length(m.at+way*float64(n)*step))
				},
			})
		}
	}
	return list
}

// seatOf finds the seat on which an insert stands.
func (j *stageJob) seatOf(id string) int {
	return slices.IndexFunc(j.seats, func(s stageSeat) bool {
		return slices.ContainsFunc(s.items, func(it stageItem) bool { return it.id == id })
	})
}

// shift moves what rests at a level, and all that goes with it.
func (j *stageJob) shift(m stageMust, by float64) {
	for i := range j.musts {
		if o := &j.musts[i]; o.id == m.id && o.name == m.name && o.at == m.at {
			o.at += by
		}
	}
	if m.id != "" {
		for i := range j.still {
			if s := &j.still[i]; s.id == m.id {
				s.bottom += by
			}
		}
		return
	}
	j.arrises = slices.Clone(j.arrises)
	for i := range j.arrises {
		if e := &j.arrises[i]; e.name == m.name {
			e.at += by
		}
	}
	for i := range j.floats {
		if f := &j.floats[i]; f.name == m.name {
			f.bottom += by
		}
	}
}

// insertChanges are shorter inserts, and inserts that hold by themselves.
func (j *stageJob) insertChanges(step float64) []stageChange {
	var list []stageChange
	for _, it := range j.everyItem() {
		most := int(math.Floor(min(it.tall-step, farthest)/step + 1e-6))
		list = append(list, stageChange{each: step * 1000, most: most,
			apply: func(j *stageJob, n int) { j.shorten(it.id, float64(n)*step) },
			saying: func(n int) string {
				return fmt.Sprintf("use %s no taller than %s", it.name, j.length(it.tall-float64(n)*step))
			},
		})
	}
	for i := range j.seats {
		s := &j.seats[i]
		list = append(list, stageChange{costs: handsCost, most: 1,
			apply: func(j *stageJob, _ int) {
				if k := j.seatOf(s.items[0].id); k != none {
					j.fix(k)
				}
			},
			saying: func(int) string {
				return fmt.Sprintf("fix %s at %s, so that no line has to carry them", listed(s.names()), j.length(s.at))
			},
		})
	}
	for i := range j.musts {
		m := j.musts[i]
		if m.id == "" {
			continue
		}
		list = append(list, stageChange{costs: handsCost, most: 1,
			apply: func(j *stageJob, _ int) {
				j.musts = slices.DeleteFunc(j.musts, func(o stageMust) bool { return o.id == m.id })
			},
			saying: func(int) string {
				return fmt.Sprintf("fix %s at %s, so that no line has to carry them", m.name, j.length(m.at))
			},
		})
	}
	return list
}

// everyItem lists the kinds of insert.
func (j *stageJob) everyItem() []stageItem {
	var list []stageItem
	for i := range j.seats {
		list = append(list, j.seats[i].items...)
	}
	for i := range j.still {
		list = append(list, j.still[i].stageItem)
	}
	return list
}

// shorten takes some off the height of one kind of insert.
func (j *stageJob) shorten(id string, by float64) {
	for i := range j.seats {
		for k := range j.seats[i].items {
			if it := &j.seats[i].items[k]; it.id == id {
				it.tall -= by
			}
		}
	}
	for i := range j.still {
		if s := &j.still[i]; s.id == id {
			s.tall -= by
		}
	}
}

// productChanges are another product, or another cup.
func (j *stageJob) productChanges() []stageChange {
	var list []stageChange
	round := unit.Millimetre
	if j.p.Style.LengthUnit() == unit.InInches {
		round = unit.Inch / 16
	}
	whole := float64(round)
	seen := map[string]bool{}
	for i := range j.bands {
		b := j.bands[i]
		if seen[b.sheet] {
			continue
		}
		seen[b.sheet] = true
		each := func(j *stageJob, do func(*stageBand)) {
			for i := range j.bands {
				if j.bands[i].sheet == b.sheet {
					do(&j.bands[i])
				}
			}
		}
		from := math.Floor(b.most/whole + 1e-6)
		if j.heat != nil {
			_, _, deep := j.hottest()
			from = math.Floor(min(b.most, deep)/whole + 1e-6)
		}
		list = append(list, stageChange{costs: productCost, each: whole * 1000, most: int(math.Ceil(j.fill/whole-from)) + 1,
			apply: func(j *stageJob, n int) {
				j.heat = nil
				each(j, func(b *stageBand) { b.most = (from + float64(n)) * whole })
			},
			saying: func(n int) string {
				return fmt.Sprintf("use a resin that may be poured %s deep in this room", j.length((from+float64(n))*whole))
			},
		}, stageChange{costs: productCost, each: whole * 1000, most: int(b.least / whole),
			apply: func(j *stageJob, n int) {
				each(j, func(b *stageBand) { b.least = max(whole, b.least-float64(n)*whole) })
			},
			saying: func(n int) string {
				return fmt.Sprintf("use a resin that may be poured as shallow as %s", j.length(max(whole, b.least-float64(n)*whole)))
			},
		})
		if math.IsInf(b.working, 1) {
			continue
		}
		const longer = 5 * 60 // seconds
		at := math.Ceil(b.working / WorkingPart / longer)
		list = append(list, stageChange{costs: productCost, each: 0.1, most: 12 * 24,
			apply: func(j *stageJob, n int) {
				each(j, func(b *stageBand) { b.working = WorkingPart * longer * (at + float64(n)) })
			},
			saying: func(n int) string {
				return fmt.Sprintf("use a resin with a working time of %s in this room", j.p.Style.Span(unit.SpanOf(time.Duration(longer*(at+float64(n)))*time.Second)))
			},
		})
		if math.IsInf(b.cup, 1) {
			continue
		}
		list = append(list, stageChange{costs: cupCost, each: 0.1, most: 200,
			apply: func(j *stageJob, n int) {
				each(j, func(b *stageBand) { b.cup += float64(n) * 0.05 })
			},
			saying: func(n int) string {
				return "mix up to " + j.p.Style.Mass(massOf(b.cup+float64(n)*0.05)) + " in one cup"
			},
		})
	}
	return list
}
