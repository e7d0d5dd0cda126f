package views

import (
	"context"
	"sync"

	"meniscus/model"
)

// curings keeps what was simulated: most tests begin with the same few projects,
// and a simulation follows from the project alone.
type curings struct {
	mu    sync.Mutex
	known map[string]model.Curing // by the project as a file
	work  func(context.Context, *model.Project, *model.Plan, func(int, func(int))) (model.Curing, error)
}

var (
	simulations = curings{known: map[string]model.Curing{}, work: func(ctx context.Context, p *model.Project, pl *model.Plan, _ func(int, func(int))) (model.Curing, error) {
		return model.Simulate(ctx, p, pl)
	}}
	bands = curings{known: map[string]model.Curing{}, work: model.Widen}
)

func (c *curings) simulate(ctx context.Context, p *model.Project, pl *model.Plan) (model.Curing, error) {
	return c.widen(ctx, p, pl, nil)
}

func (c *curings) widen(ctx context.Context, p *model.Project, pl *model.Plan, do func(int, func(int))) (model.Curing, error) {
	state, err := model.Export(*p)
	if err != nil {
		return c.work(ctx, p, pl, do)
	}
	c.mu.Lock()
	known, ok := c.known[string(state)]
	c.mu.Unlock()
	if ok {
		return known, ctx.Err()
	}
	curing, err := c.work(ctx, p, pl, do)
	if err == nil {
		c.mu.Lock()
		c.known[string(state)] = curing
		c.mu.Unlock()
	}
	return curing, err
}
