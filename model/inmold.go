package model

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
// in the mold.
func (pl *Plan) CanDemold() bool {
	s, ok := pl.demolding()
	return ok && !s.Due.IsZero() && !s.Past
}

// Demolded tells whether the piece is out of its mold.
func (pl *Plan) Demolded() bool {
	s, ok := pl.demolding()
	return ok && s.Past
}

// InMold tells whether the piece is still in its mold, or yet to be poured there.
func (pl *Plan) InMold() bool {
	_, next := pl.NextPour()
	return next || pl.CanDemold()
}

// demolding gives the step of taking the piece out of its mold; false where none
// is planned.
func (pl *Plan) demolding() (Step, bool) {
	for _, s := range pl.Steps {
		if s.Kind == StepDemold {
			return s, true
		}
	}
	return Step{}, false
}
