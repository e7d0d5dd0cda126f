package app

import (
	"context"

	"meniscus/model"
)

// FindLayup has the best place for the cavity looked for over a slab, from a
// lay-up on, and hands it to done on the interface's goroutine; the error says
// why there is none. A later request takes its place.
func (s *Session) FindLayup(slab string, from model.Layup, want model.LayWant, done func(model.Layup, error)) {
	ask(s, "lay-up", Replace, func(ctx context.Context, _ *model.Project, pl *model.Plan) (model.Layup, error) {
		return pl.FindLayup(ctx, slab, from, want)
	}, done)
}
