package app

import (
	"context"

	"meniscus/model"
)

// Propose has the levels of the layers worked out that would be best, and hands
// them to done on the interface's goroutine. A later request takes its place.
func (s *Session) Propose(done func(model.StageProposal, error)) {
	ask(s, "stages", Replace, s.reckon.Propose, done)
}

// Calendar looks for times to start the first pour at from now on, and hands
// them to done on the interface's goroutine. A later request takes its place.
func (s *Session) Calendar(done func(model.CalendarAnswer, error)) {
	now := s.clock.Now()
	ask(s, "calendar", Replace, func(ctx context.Context, p *model.Project, pl *model.Plan) (model.CalendarAnswer, error) {
		return s.reckon.Starts(ctx, p, pl, now)
	}, done)
}

// Ask has worked out what would become of a layer, and hands it to done on the
// interface's goroutine; the error says what keeps it from being told. It can
// be asked as fast as a finger moves: an answer that is under way is handed on,
// and of what is asked meanwhile the newest is answered behind it.
func (s *Session) Ask(layer string, w model.WhatIf, done func(model.WhatIfAnswer, error)) {
	ask(s, "what if", Follow, func(ctx context.Context, p *model.Project, pl *model.Plan) (model.WhatIfAnswer, error) {
		return s.reckon.Ask(ctx, p, pl, layer, w)
	}, done)
}

// question is something that a window asked about the open project and that is
// not answered yet. put has it answered for the plan on the screen.
type question struct{ put func() }

// manner is Replace or Follow.
type manner[T any] func(*Jobs, string, func(context.Context) (T, error), func(T, error))

// ask has a question about the project and plan on the screen answered in the
// background. The newest question under a key wins. One that is not answered
// when the plan changes is put again about the new one; when another project is
// opened it is dropped. Without an open project, and while another one comes
// up, nothing is asked.
func ask[T any](s *Session, key string, start manner[T], work func(context.Context, *model.Project, *model.Plan) (T, error), done func(T, error)) {
	if !s.shot.Open || s.shot.Project.ID != s.project.ID {
		return
	}
	q := &question{}
	q.put = func() {
		p, plan, number := s.shot.Project, s.shot.Plan, s.planned
		start(s.jobs, key, func(ctx context.Context) (T, error) { return work(ctx, &p, &plan) }, func(answer T, err error) {
			if s.questions[key] == q && number == s.planned {
				delete(s.questions, key)
			}
			done(answer, err)
		})
	}
	s.questions[key] = q
	q.put()
}

// askAgain puts what is not answered about the plan that has just come.
func (s *Session) askAgain() {
	for _, q := range s.questions {
		q.put()
	}
}

// dropQuestions drops what is not answered.
func (s *Session) dropQuestions() {
	for key := range s.questions {
		s.jobs.Drop(key)
	}
	clear(s.questions)
}
