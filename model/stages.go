package model

import (
	"context"
	"fmt"
	"math"

	"meniscus/model/unit"
)

// StageLimits is what a planner of pours keeps to beyond the project itself.
// The zero StageLimits keeps to the data sheets.
type StageLimits struct {
	// Deepest gives the deepest pour that stays cool enough on a bottom at such
	// a height above the floor: at most most, which is the data sheet's. It is
	// asked once for a bottom and a sheet, and only where a layer may begin. Nil
	// means that only the data sheet tells; then a warmer room than its own
	// takes its part of the depth, as the plan's own check does.
	Deepest func(bottom, most unit.Length, sheet string) unit.Length
}

// What is usual of hands and cups (common practice, no source).
const (
	usualMix       = 6 * unit.Minute // to weigh and mix one cup
	usualPour      = 5 * unit.Minute // to pour out a kilogram
	usualCavity    = 3 * unit.Minute // more for each cavity
	usualCupExcess = 1.5             // times the mass that the working time holds for
)

// WorkingPart is what mixing and pouring may take of the working time (common
// practice, no source).
const WorkingPart = 0.7

// mostPours is more than anyone pours on one another.
const mostPours = 200

// StageProposal is where the levels of the layers would best be, or what would
// have to change for there to be such levels.
type StageProposal struct {
	Possible bool
	Layers   []StageLayer  // from the floor up, those that have been poured with them
	Inserts  []StageInsert // those that stand on a layer
	Pours    int           // layers in all
	Risk     float64       // see stagecost.go; only for comparing proposals
	Same     bool          // it is what is planned now
	Binds    string        // what keeps it from being fewer pours, or from being possible
	Why      []string      // what else speaks for it, and what is not known
	Change   string        // the smallest change that would make it possible
}

// StageLayer is one layer of a proposal.
type StageLayer struct {
	ID          string // of the layer that continues; empty for a new one
	Bottom, Top unit.Length
	Sheet       string
	Tint        Tint
	From        string // ID of the layer whose product, colour and additives it takes
	Poured      bool   // it has been poured, so it stays
	Why         string
}

// StageInsert is where an insert that stands on a layer would stand.
type StageInsert struct {
	ID    string
	Layer int // index of the layer that it stands on, in StageProposal.Layers
}

// ProposeStages finds the levels of the layers with the fewest pours and then
// the least risk. What is wanted is read off the project as it stands: the fill
// line is the top of its last layer; adjacent layers of one product, tint and
// additives are one band of colour, whose ends may move by 2 mm; an insert that
// stands on a layer wants a line at its base, which may move by 2 mm and farther
// down where the cover over it asks for that. What has been poured stays. A
// missing limit of a data sheet is never taken to allow more than was planned
// by hand. The error is the context's.
func ProposeStages(ctx context.Context, p *Project, pl *Plan, lim StageLimits) (StageProposal, error) {
	if err := ctx.Err(); err != nil {
		return StageProposal{}, err
	}
	j, asks := newStageJob(p, pl, lim)
	if asks != "" {
		return StageProposal{Change: asks, Why: j.notes}, nil
	}
	if len(j.bands) == 0 {
		s := StageProposal{Possible: true, Same: true, Pours: len(p.Layers), Layers: j.pouredLayers(), Why: []string{"every layer has been poured"}}
		return s, nil
	}
	if b := j.tightest(func(b *stageBand) float64 { return b.most }); j.fill-j.base > mostPours*b.most {
		return StageProposal{Binds: j.says(ruleDeep), Change: fmt.Sprintf("use a resin that may be poured deeper: this would take more than %d pours", mostPours), Why: j.notes}, nil
	}
	best, found, err := j.solve(ctx)
	if err != nil {
		return StageProposal{}, err
	}
	if !found {
		s := StageProposal{Why: j.notes}
		s.Binds, s.Change, err = j.mend(ctx)
		return s, err
	}
	s := j.proposal(best)
	s.Binds, err = j.binds(ctx, best)
	return s, err
}

// proposal turns the lines that were found into layers.
func (j *stageJob) proposal(best stagePath) StageProposal {
	s := StageProposal{Possible: true, Risk: best.risk, Layers: j.pouredLayers()}
	first := len(s.Layers)
	bottom, band := j.base, 0
	for k := 0; k <= len(best.lines); k++ {
		top := j.fill
		if k < len(best.lines) {
			top = best.lines[k].z
		}
		from := j.nearest(band, top)
		l := &j.p.Layers[from]
		s.Layers = append(s.Layers, StageLayer{
			Bottom: unit.Length(bottom), Top: unit.Length(top), Sheet: l.Sheet, Tint: l.Tint, From: l.ID,
			Why: j.layerWhy(best, k, band),
		})
		if k < len(best.lines) {
			line := &best.lines[k]
			for i := line.from; i < line.to; i++ {
				for _, it := range j.seats[i].items {
					s.Inserts = append(s.Inserts, StageInsert{ID: it.id, Layer: first + k})
				}
			}
			if line.crosses {
				band++
			}
		}
		bottom = top
	}
	j.keepIDs(s.Layers)
	s.Pours = len(s.Layers)
	s.Same = j.same(&s)
	s.Why = append(j.reasons(best, &s), j.notes...)
	return s
}

// pouredLayers are the layers that stay since they have been poured.
func (j *stageJob) pouredLayers() []StageLayer {
	var list []StageLayer
	for k := range j.first {
		l, lp := &j.p.Layers[k], &j.pl.Layers[k]
		list = append(list, StageLayer{ID: l.ID, Bottom: lp.Bottom, Top: lp.Top, Sheet: l.Sheet, Tint: l.Tint, From: l.ID, Poured: true, Why: "it has been poured"})
	}
	return list
}

// nearest gives the layer of a band whose top lies nearest to a level, the
// lower of two.
func (j *stageJob) nearest(band int, top float64) int {
	best := j.bands[band].layers[0]
	for _, k := range j.bands[band].layers {
		if math.Abs(float64(j.pl.Layers[k].Top)-top) < math.Abs(float64(j.pl.Layers[best].Top)-top)-sameLevel {
			best = k
		}
	}
	return best
}

// keepIDs lets each layer of the project continue as the proposed one that lies
// nearest to it of those that take after it.
func (j *stageJob) keepIDs(list []StageLayer) {
	for i := 0; i < len(list); {
		end := i + 1
		for end < len(list) && list[end].From == list[i].From {
			end++
		}
		was := j.pl.Layer(list[i].From).Top
		keep := i
		for k := i + 1; k < end; k++ {
			if math.Abs(float64(list[k].Top-was)) <= math.Abs(float64(list[keep].Top-was)) {
				keep = k
			}
		}
		list[keep].ID = list[keep].From
		i = end
	}
}

// same tells whether a proposal is what is planned.
func (j *stageJob) same(s *StageProposal) bool {
	if len(s.Layers) != len(j.p.Layers) {
		return false
	}
	for k := range s.Layers {
		if l := &s.Layers[k]; l.ID != j.p.Layers[k].ID || math.Abs(float64(l.Top-j.pl.Layers[k].Top)) > sameLevel {
			return false
		}
	}
	for _, in := range s.Inserts {
		if s.Layers[in.Layer].ID != j.p.Insert(in.ID).Layer {
			return false
		}
	}
	return true
}
