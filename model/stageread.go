package model

import (
	"cmp"
	"math"
	"slices"

	"meniscus/model/unit"
)

// readPieces takes the edges of the wood, what rests on a line, and what floats.
// A piece is held where it is bedded, or once a layer that has cured reaches
// above its underside.
func (j *stageJob) readPieces() {
	for i := range j.pl.Pieces {
		w := &j.pl.Pieces[i]
		bottom, top := float64(w.Bottom), float64(w.Top)
		piece := j.p.Piece(w.ID)
		if piece == nil || bottom >= j.fill {
			continue
		}
		for _, z := range []float64{bottom, top} {
			if z > j.base+sameLevel && z < j.fill-sameLevel {
				j.arrises = append(j.arrises, stageEdge{z, w.Name})
			}
		}
		for _, line := range j.now {
			if math.Abs(line-bottom) <= clearEnough {
				j.musts = append(j.musts, stageMust{at: line, name: w.Name})
			}
		}
		held := piece.Bedded || bottom < j.base-clearEnough
		switch {
		case held:
		case w.LiftsAt > 0:
			j.floats = append(j.floats, stageFloat{bottom, float64(w.LiftsAt), w.Name})
		case w.Density <= 0:
			j.notes = append(j.notes, "whether "+w.Name+" floats is not known: weigh it, or hold it down")
		}
	}
}

// readInserts divides the inserts into those that go with a line and those that
// stay where they are.
func (j *stageJob) readInserts() {
	s := compile(j.p)
	seats := map[int]*stageSeat{} // by layer
	for i := range j.p.Inserts {
		in := &j.p.Inserts[i]
		if in.Count == 0 || i >= len(j.pl.Inserts) {
			continue
		}
		if s.insert[i] == none {
			j.notes = append(j.notes, "the sizes of "+in.Name+" are not known, so the lines take no heed of them")
			continue
		}
		plan := &j.pl.Inserts[i]
		item := stageItem{in.ID, in.Name, float64(plan.Top - plan.Bottom), float64(plan.Total)}
		if k := j.p.LayerIndex(in.Layer); in.On == OnLayer && k >= j.first {
			if seats[k] == nil {
				seats[k] = &stageSeat{at: float64(j.pl.Layers[k].Top), slack: wantMoves}
			}
			seats[k].items = append(seats[k].items, item)
			continue
		}
		still := stageStill{item, float64(plan.Bottom)}
		j.still = append(j.still, still)
		if in.On == OnHeight && !in.Fixed && !j.carried(still.bottom) {
			j.musts = append(j.musts, stageMust{still.bottom, in.Name, in.ID})
		}
	}
	for _, seat := range seats {
		j.seats = append(j.seats, *seat)
	}
	slices.SortFunc(j.seats, func(a, b stageSeat) int { return cmp.Compare(a.at, b.at) })
}

// carried tells whether something else than a line to come carries what rests
// at a height: the floor, what has been poured, the top of the wood, or the
// floor of a void.
func (j *stageJob) carried(z float64) bool {
	if z <= j.base+clearEnough || z >= j.fill {
		return true
	}
	for i := range j.pl.Pieces {
		w := &j.pl.Pieces[i]
		if math.Abs(float64(w.Top)-z) <= clearEnough {
			return true
		}
		piece := j.p.Piece(w.ID)
		for v := 0; piece != nil && v < len(piece.Voids); v++ {
			deep := piece.Voids[v].Depth
			if deep.Given() && math.Abs(float64(w.Top-deep.Value)-z) <= clearEnough {
				return true
			}
		}
	}
	return false
}

// readFill compiles the mold with nothing on the seats, so that the resin below
// any level is known wherever the inserts come to stand, and takes from the plan
// how much more is mixed than the net: what the wood takes, spread over all
// pours, the refill of what sank, and the film in the cup.
func (j *stageJob) readFill() {
	j.cupPart, j.cupLeast = j.p.Mixing.filmOfPoured(), float64(j.p.Mixing.CupLeast.Or(typicalCupLeast))
	net, wood, shrink := 0.0, 0.0, 0.0
	for k := range j.pl.Layers {
		l := &j.pl.Layers[k]
		if k >= j.first {
			net += float64(l.Net)
			for _, kind := range []AllowanceKind{AllowSoak, AllowCreep} {
				if a, ok := l.Allowance(kind); ok {
					wood += float64(a.Volume)
				}
			}
		}
		shrink = max(shrink, float64(shrinkOf(j.p.Sheet(l.Sheet)).Value))
	}
	j.extra = 1
	if net > 0 {
		j.extra += wood / net
	}
	if !j.p.Mixing.NoRefill {
		j.extra += shrink
	}
	if j.p.Mixing.NoRefill {
		j.shrinkAll = shrink
	}
	s := compile(j.p)
	var f Fill
	if s.fill(s.in.values(), &f) != nil {
		j.notes = append(j.notes, "how much each pour takes is not known until the mold is measured")
		return
	}
	moves := map[int]bool{}
	for i := range j.seats {
		for _, it := range j.seats[i].items {
			if k := slices.IndexFunc(j.p.Inserts, func(in Insert) bool { return in.ID == it.id }); k >= 0 {
				moves[s.insert[k]] = true
			}
		}
	}
	var stay []placed
	for k := range f.parts {
		if !moves[k] {
			stay = append(stay, f.parts[k])
		}
	}
	f.parts = stay
	known := map[float64]float64{}
	j.fluid = func(z float64) float64 {
		v, ok := known[z]
		if !ok {
			v = float64(f.Below(unit.Length(z)))
			known[z] = v
		}
		return v
	}
	opened := map[float64]float64{}
	j.open = func(z float64) float64 {
		a, ok := opened[z]
		if !ok {
			a = float64(f.Surface(unit.Length(z - 1e-9)))
			opened[z] = a
		}
		return a
	}
}
