package model

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// relevel puts the layers, and what rests at heights of its own, where the rule
// says. pl is the plan of the recipe as it was.
func (p *Project) relevel(was *Project, pl *Plan, how Reissue) error {
	switch how.Levels {
	case KeepLevels:
		p.scaleLevels(was, 1)
	case WithDepth:
		if !was.Mold.Depth.Given() || !p.Mold.Depth.Given() {
			return &Problem{"mold/depth", "to scale the heights with the mold, the depth of both molds is needed"}
		}
		p.scaleLevels(was, p.Mold.Depth.Value.Per(was.Mold.Depth.Value))
	case ToFinished:
		return p.toFinished(was, pl, how.Finished)
	default:
		return &Problem{"reissue/levels", fmt.Sprintf("“%s” is no way to lay the heights", clip(string(how.Levels)))}
	}
	return nil
}

// toFinished scales the heights so that after sink and finishing so much is
// left. The sink is not quite in proportion, so the scale is put right until a
// hundredth of a millimetre is left.
func (p *Project) toFinished(was *Project, pl *Plan, finished unit.Dim) error {
	const at = "reissue/finished"
	off := was.Finish.Top.Value + was.Finish.Bottom.Value
	stands := pl.Mold.FillLine - pl.Mold.Sink
	switch {
	case !finished.Given() || finished.Value <= 0:
		return &Problem{at, "say how thick the finished piece is to be"}
	case stands <= 0 || pl.Mold.Finished <= 0:
		return &Problem{at, "the past piece has no finished thickness to go by: measure its mold and layers"}
	}
	k := (finished.Value + off).Per(stands)
	for range 6 {
		p.scaleLevels(was, k)
		m := Make(*p).Mold
		short := finished.Value - m.Finished
		if p.Finish.Thickness.Given() {
			p.Finish.Thickness = finished // that is what is promised now
		}
		if m.Resin <= 0 || math.Abs(float64(short)) < float64(unit.Millimetre)/100 {
			return nil
		}
		k *= (finished.Value + off).Per(m.FillLine - m.Sink)
	}
	return nil
}

// scaleLevels lays the heights of the layers, of what rests at a height and of
// the undersides of the wood at k times what they were. Nothing is touched that
// stays the same.
func (p *Project) scaleLevels(was *Project, k float64) {
	if math.Abs(k-1) < 1e-9 {
		k = 1
	}
	depth, before := p.Mold.Depth.Value, was.Mold.Depth.Value
	for i := range p.Layers {
		l, old := &p.Layers[i], &was.Layers[i]
		l.By, l.To = old.By, asScaled(old.To, k)
		if old.By != ToBelow || !old.To.Given() || k == 1 && depth == before {
			continue
		}
		level := (before - old.To.Value).Times(k)
		if l.To = (unit.Dim{Value: depth - level, By: old.To.By}); l.To.Value < unit.Length(someLength.low) {
			// It would reach the rim: it is a level then, for the plan to find.
			l.By, l.To.Value = ToLevel, level
		}
	}
	p.Finish.Thickness = asScaled(was.Finish.Thickness, k)
	for i := range p.Inserts {
		s := &p.Inserts[i]
		s.Height = asScaled(was.Insert(s.ID).Height, k)
	}
	for i := range p.Pieces {
		w := &p.Pieces[i]
		w.Height = asScaled(was.Piece(w.ID).Height, k)
	}
}

// asScaled is a length as taken, k times: nobody wrote that, so it is shown as the
// project writes lengths.
func asScaled(d unit.Dim, k float64) unit.Dim {
	if k == 1 || !d.Given() || d.Value == 0 {
		return d
	}
	return unit.Dim{Value: d.Value.Times(k), By: d.By}
}
