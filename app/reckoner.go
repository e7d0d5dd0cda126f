package app

import (
	"context"
	"time"

	"meniscus/model"
	"meniscus/model/sight"
)

// Reckoner does the long calculations on a project and its plan, and on its
// photos. Those that have a context stop soon once it is done. What a Reckoner lacks is the model's own;
// tests set theirs.
type Reckoner struct {
	Simulate func(context.Context, *model.Project, *model.Plan) (model.Curing, error)
	Widen    func(ctx context.Context, p *model.Project, pl *model.Plan, do func(n int, f func(i int))) (model.Curing, error)
	Ask      func(ctx context.Context, p *model.Project, pl *model.Plan, layer string, w model.WhatIf) (model.WhatIfAnswer, error)
	Propose  func(context.Context, *model.Project, *model.Plan) (model.StageProposal, error)
	Starts   func(ctx context.Context, p *model.Project, pl *model.Plan, now time.Time) (model.CalendarAnswer, error)
	Find     func(sight.Seek) (sight.Found, error)
}

// orModel gives the reckoner with the model's own for what it lacks.
func (r Reckoner) orModel() Reckoner {
	if r.Simulate == nil {
		r.Simulate = model.Simulate
	}
	if r.Widen == nil {
		r.Widen = model.Widen
	}
	if r.Ask == nil {
		r.Ask = model.Ask
	}
	if r.Propose == nil {
		r.Propose = model.Propose
	}
	if r.Starts == nil {
		r.Starts = model.Starts
	}
	if r.Find == nil {
		r.Find = sight.Find
	}
	return r
}
