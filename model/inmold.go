package model

import "slices"

// LastPoured gives the topmost layer whose pour was started; nil for none.
func (pl *Plan) LastPoured() *LayerPlan {
	for i := len(pl.Layers) - 1; i >= 0; i-- {
		if pl.Layers[i].Status == Poured {
			return &pl.Layers[i]
		}
	}
	return nil
}

// CanDemold tells whether the last layer has been poured and the piece is still
// in the mold, known or not when it is ready to come out.
func (pl *Plan) CanDemold() bool {
	n := len(pl.Layers)
	return n > 0 && pl.Layers[n-1].Status == Poured && !pl.Out
}

// Demolded tells whether the piece is out of its mold.
func (pl *Plan) Demolded() bool { return pl.Out }

// InMold tells whether the piece is still in its mold, or yet to be poured there.
func (pl *Plan) InMold() bool {
	_, next := pl.NextPour()
	return next || pl.CanDemold()
}

// DemoldUnknown tells whether the piece is in its mold and nothing tells when it
// can come out: no resin is chosen for its last pour, or that one runs away.
func (pl *Plan) DemoldUnknown() bool {
	return pl.CanDemold() && !slices.ContainsFunc(pl.Steps, func(s Step) bool { return s.Kind == StepDemold })
}

// TryFirst is how a piece is tried before it is pulled. Common practice, no source.
const TryFirst = "Try it before you pull: if it bends or takes the mark of a thumbnail, leave it in the mold."
