package app

import (
	"context"
	"time"

	"meniscus/model"
)

// The keys of the work on Snapshot.Curing.
const (
	keyCuring = "curing"
	keyBands  = "bands"
)

// bandsAfter is how many times as long as the best estimate its bands wait for
// the keys to rest.
const bandsAfter = 2

// pause waits, and tells whether it was not called off meanwhile.
func pause(ctx context.Context, wait time.Duration) bool {
	timer := time.NewTimer(wait)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
		return true
	}
}

// callOff ends the work on the curing of a state that is about to be replaced,
// by one that is kept or by one that a finger drags past. While it drags, the
// best estimate under way goes on to its end, so that it moves with the finger.
func (s *Session) callOff(kept bool) {
	s.reckoned = nil
	s.jobs.Drop(keyBands)
	if kept {
		s.jobs.Drop(keyCuring)
	}
}

// reckonedFor tells whether the curing of a state, with its bands, is there
// already or under way, since no resin feels what it differs by from the one
// before.
func (s *Session) reckonedFor(p *model.Project, kept bool) bool {
	return kept && s.reckoned != nil && s.reckoned.SameHeat(p)
}

// cure has the curing of a project and its plan worked out, which have just
// come onto the screen: the best estimate first, and the bands of a state that
// is kept behind it. What is shown meanwhile is that of the plan before; that
// of another project is never shown.
func (s *Session) cure(p model.Project, plan model.Plan, kept bool) {
	s.planned++
	if s.reckonedFor(&p, kept) {
		return
	}
	s.callOff(kept)
	if kept {
		s.reckoned = &p
	}
	s.cures++
	number := s.cures
	s.shot.CuringFresh = false
	if s.shot.Curing.Project != p.ID {
		s.shot.Curing, s.shot.CuringTrouble = model.Curing{}, ""
	}
	start := Follow[model.Curing]
	if kept {
		start = Replace[model.Curing]
	}
	start(s.jobs, keyCuring, func(ctx context.Context) (model.Curing, error) {
		if kept && !pause(ctx, s.calm) {
			return model.Curing{}, ctx.Err()
		}
		return s.reckon.Simulate(ctx, &p, &plan)
	}, func(c model.Curing, err error) {
		if err != nil {
			c = model.Curing{Project: p.ID}
		}
		fresh := number == s.cures
		if err == nil && kept && fresh {
			s.widen(p, plan, c)
		}
		s.cured(c, fresh, err)
	})
}

// widen has the bands of the curing on the screen worked out.
func (s *Session) widen(p model.Project, plan model.Plan, c model.Curing) {
	Replace(s.jobs, keyBands, func(ctx context.Context) (model.Curing, error) {
		if !pause(ctx, bandsAfter*s.calm) {
			return model.Curing{}, ctx.Err()
		}
		return s.reckon.Widen(ctx, &p, &plan, s.jobs.Split)
	}, func(wide model.Curing, err error) {
		if err != nil {
			wide = c
		}
		s.cured(wide, true, err)
	})
}

// cured shows a curing, fresh where it is that of the plan on the screen, and
// what went wrong with it.
func (s *Session) cured(c model.Curing, fresh bool, err error) {
	s.shot.Edition++
	s.shot.Curing, s.shot.CuringFresh, s.shot.CuringTrouble = c, fresh, ""
	if err != nil {
		s.shot.CuringTrouble = err.Error()
	}
	s.keepClock()
	s.publish()
}
