package model

import (
	"context"
	"errors"
	"slices"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Wood beside a river is taken at most so wide: heat does not reach farther in
// the days that matter.
const widestWood = 60 * unit.Millimetre

// beside simulates a layer across its section where it runs between wood; nil
// where it does not. The stage is that of the layer.
func (h *heat) beside(ctx context.Context, s *stage) (*Beside, error) {
	l := &h.layers[s.layer]
	r, ok := riverOf(h.plan, l.plan)
	if !ok || s.course.RunsAway && s.course.Ends < unit.Hour/4 {
		return nil, nil
	}
	section := h.acrossRiver(s, r)
	course, err := section.Run(ctx, cure.Options{Until: peakWithin, Limit: runawayLimit, Tolerance: 0.1})
	if errors.Is(err, cure.ErrUnusable) {
		return nil, nil
	}
	if err != nil {
		return nil, h.ended(ctx, err)
	}
	b := &Beside{Width: r.width, Peak: exact(course.Peak.T, simulated), PeakAfter: course.Peak.At}
	if n := course.Hottest; n >= 0 && n < len(course.Fields) {
		f := course.Fields[n]
		if r.bothWood {
			f = mirrored(f)
		}
		b.Field = &f
	}
	return b, nil
}

// widen gives the peak of a section the band of the pour without end: as many
// times the rise above the start. It is an estimate, since the section itself
// is reckoned once.
func (b *Beside) widen(endless Known[unit.Temperature], start unit.Temperature) {
	rise := float64(endless.Value - start)
	if b == nil || !(rise > 0.1) {
		return
	}
	of := func(end unit.Temperature) unit.Temperature {
		return start + unit.Temperature(float64(b.Peak.Value-start)*float64(end-start)/rise)
	}
	b.Peak.Low, b.Peak.High = min(b.Peak.Value, of(endless.Low)), max(b.Peak.Value, of(endless.High))
}

// acrossRiver lays the section out: resin from its middle to the wood where
// there is wood at both sides, else from the wall to the wood; then the wood.
// What is below the mold's floor and what was poured before runs right through.
func (h *heat) acrossRiver(s *stage, r river) *cure.Section {
	l := &h.layers[s.layer]
	side := r.wood[0]
	if side.thick == 0 || r.wood[1].thick > 0 && r.wood[1].thick < side.thick {
		side = r.wood[1]
	}
	width := r.width
	if r.bothWood {
		width /= 2
	}
	section := &cure.Section{
		Columns: []cure.Strip{
			{Width: width, Cells: cellsOf(width, 1.5*unit.Millimetre, 10, 40)},
			{Width: min(side.thick, widestWood), Cells: cellsOf(min(side.thick, widestWood), 4*unit.Millimetre, 6, 14)},
		},
		// What lies behind the wood may be another pour: no heat leaves there.
		Below: h.below, Above: cure.StillAir, Room: s.slab.Room,
	}
	if !r.bothWood { // the mold's wall, taken to be as its floor
		floor := h.ground[len(h.ground)-1]
		section.Left = unit.FilmCoefficient(1 / (1/float64(cure.StillAir) + float64(floor.Thickness)/float64(floor.Conductivity)))
	}
	for i := range h.ground {
		x := s.slab.Strata[i]
		b := cure.Block{Matter: x.Matter, From: mean(x)}
		section.Rows = append(section.Rows, cure.Strip{Width: x.Thickness, Cells: cellsOf(x.Thickness, 6*unit.Millimetre, 2, 5)})
		section.Blocks = append(section.Blocks, []cure.Block{b, b})
	}
	wood := cure.Block{Matter: cure.Wood(side.density), From: s.slab.Room.At(0)}
	levels := h.levels(s, side)
	for i := 1; i < len(levels); i++ {
		low, high := levels[i-1], levels[i]
		mid := (low + high) / 2
		resin := cure.Block{Open: true}
		if mid < l.plan.Top {
			resin = resinAt(s, mid)
		}
		beside := resin
		if mid > side.bottom && mid < side.top {
			beside = wood
		}
		section.Rows = append(section.Rows, cure.Strip{Width: high - low, Cells: cellsOf(high-low, unit.Millimetre, 3, 32)})
		section.Blocks = append(section.Blocks, []cure.Block{resin, beside})
	}
	return section
}

// levels are the heights at which the section changes, from the mold's floor
// to the top of resin and wood.
func (h *heat) levels(s *stage, side riverSide) []unit.Length {
	top := h.layers[s.layer].plan.Top
	list := []unit.Length{0, top}
	z := unit.Length(0)
	for _, x := range s.slab.Strata[s.first:s.stratum] {
		z += x.Thickness
		list = append(list, z)
	}
	for _, z := range []unit.Length{side.bottom, side.top} {
		if z > 0 && z < max(top, side.top)+1e-9 {
			list = append(list, z)
		}
	}
	slices.Sort(list)
	const hair = 0.2 * unit.Millimetre
	kept := list[:1]
	for _, z := range list[1:] {
		if z-kept[len(kept)-1] > hair {
			kept = append(kept, z)
		}
	}
	return kept
}

// resinAt gives the resin of a stage at a height above the mold's floor, as it
// is at the stage's start.
func resinAt(s *stage, z unit.Length) cure.Block {
	low := unit.Length(0)
	for i, x := range s.slab.Strata[s.first:] {
		if high := low + x.Thickness; z < high || i == len(s.slab.Strata[s.first:])-1 {
			b := cure.Block{Matter: x.Matter, Cure: x.Cure, From: mean(x), Done: x.Done}
			if x.Profile != nil {
				b.Done = 0
				for _, p := range x.Profile {
					b.Done += p.A / float64(len(x.Profile))
				}
			}
			return b
		}
		low += x.Thickness
	}
	return cure.Block{Open: true}
}

// mean gives the temperature of a stratum at its start, averaged over it.
func mean(x cure.Stratum) unit.Temperature {
	if x.Profile == nil {
		return x.From
	}
	sum := 0.0
	for _, p := range x.Profile {
		sum += float64(p.T)
	}
	return unit.Temperature(sum / float64(len(x.Profile)))
}

// mirrored puts the other half of a section to the left of a field.
func mirrored(f cure.Field) cure.Field {
	n := len(f.Y) - 1
	m := cure.Field{At: f.At, Z: f.Z}
	whole := f.Y[n]
	for j := n; j >= 1; j-- {
		m.Y = append(m.Y, whole-f.Y[j])
	}
	for j := range f.Y {
		m.Y = append(m.Y, whole+f.Y[j])
	}
	for i := range len(f.Z) - 1 {
		row := func(j int) int { return i*n + j }
		for j := n - 1; j >= 0; j-- {
			m.T, m.A, m.Resin = append(m.T, f.T[row(j)]), append(m.A, f.A[row(j)]), append(m.Resin, f.Resin[row(j)])
		}
		for j := range n {
			m.T, m.A, m.Resin = append(m.T, f.T[row(j)]), append(m.A, f.A[row(j)]), append(m.Resin, f.Resin[row(j)])
		}
	}
	return m
}
