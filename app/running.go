package app

import (
	"context"
	"slices"
	"time"

	"meniscus/model"
)

// keyClocks is the key of the work on the clocks of closed projects.
const keyClocks = "clocks"

// PieceClock is the clock of a piece, open or closed.
type PieceClock struct {
	ID   string
	Name string
	Open bool // it is the open project
	Hold bool // its instants may be about to change: nothing rings by them yet
	model.Running
}

// Alarms lists the steps of the piece that have come due by now and that nothing
// has overtaken, in order.
func (c *PieceClock) Alarms(now time.Time) []model.Alarm {
	list := model.Alarms(c.ID, c.Steps, now)
	for i := range list {
		list[i].Piece = c.Name
	}
	return list
}

// MixAlarms lists what the mixing of the piece's cups has come to by now.
func (c *PieceClock) MixAlarms(now time.Time) []model.Alarm {
	return c.Running.MixAlarms(c.ID, c.Name, now)
}

// Clocks gives the clock of every piece that has a step with an instant, or a cup
// that is being mixed, and is not archived: that of the open one as the windows
// show it, those of the others as the notebook keeps them.
func (s *Snapshot) Clocks() []PieceClock {
	var list []PieceClock
	for i := range s.Cards {
		if c, ok := s.clockOf(&s.Cards[i]); ok && len(c.Steps)+len(c.Stirring) > 0 {
			list = append(list, c)
		}
	}
	return list
}

// clockOf gives the clock of the piece of a card; false when it has none.
func (s *Snapshot) clockOf(card *model.Card) (PieceClock, bool) {
	if s.Open && card.ID == s.Project.ID {
		if s.Project.Archived {
			return PieceClock{}, false
		}
		plan := s.Plan
		plan.Steps = s.Steps()
		ready := s.settled()
		return PieceClock{ID: card.ID, Name: s.Project.Name, Open: true, Hold: !ready, Running: *model.NewRunning(&s.Project, &plan, ready)}, true
	}
	if card.Archived || card.Running == nil {
		return PieceClock{}, false
	}
	return PieceClock{ID: card.ID, Name: card.Name, Hold: !card.Running.Settled, Running: *card.Running}, true
}

// Clock gives the clock of a piece by its ID; false when it has none.
func (s *Snapshot) Clock(id string) (PieceClock, bool) {
	for i := range s.Cards {
		if s.Cards[i].ID == id {
			return s.clockOf(&s.Cards[i])
		}
	}
	return PieceClock{}, false
}

// Ticking gives the clocks that run: of the pieces with a step to come that are
// still in the mold. The one due soonest comes first.
func (s *Snapshot) Ticking(now time.Time) []PieceClock {
	type soon struct {
		clock PieceClock
		due   time.Time
	}
	var list []soon
	for _, c := range s.Clocks() {
		if step, ok := c.Next(now); ok {
			list = append(list, soon{c, step.Due})
		}
	}
	slices.SortStableFunc(list, func(a, b soon) int { return a.due.Compare(b.due) })
	clocks := make([]PieceClock, len(list))
	for i := range list {
		clocks[i] = list[i].clock
	}
	return clocks
}

// settled tells whether the curing is as well known as it will be.
func (s *Snapshot) settled() bool { return s.CuringFresh || s.CuringTrouble != "" }

// NextStep gives the first step of the open project at or after now that is not
// overtaken, at the time that the windows show.
func (s *Snapshot) NextStep(now time.Time) (model.Step, bool) {
	plan := model.Plan{Steps: s.Steps()}
	return plan.NextStep(now)
}

// Missed lists the steps of the open project that are due and not overtaken,
// oldest first, at the times that the windows show.
func (s *Snapshot) Missed(now time.Time) []model.Step {
	plan := model.Plan{Steps: s.Steps()}
	return plan.Missed(now)
}

// Wound tells whether the instants of all clocks are known as well as they will
// be. Until then nothing is said of what came due while no one was here.
func (s *Snapshot) Wound() bool {
	for i := range s.Cards {
		c := &s.Cards[i]
		if s.Open && c.ID == s.Project.ID {
			if !s.settled() {
				return false
			}
		} else if unsettled(c) {
			return false
		}
	}
	return true
}

// unsettled tells whether the clock of a closed project has still to be worked
// out by the simulation.
func unsettled(c *model.Card) bool {
	return !c.Archived && (c.Running == nil || !c.Running.Settled)
}

// keepClock keeps the clock of the open project as the simulation has it, once
// the state that it is of is on the disk, and only where that moves something.
func (s *Session) keepClock() {
	if !s.open || len(s.saves) > 0 || s.moving || s.planOf != s.states || !s.shot.settled() {
		return
	}
	plan := s.shot.Plan
	plan.Steps = s.shot.Steps()
	s.setClock(s.project.ID, model.NewRunning(&s.project, &plan, true), true)
}

// setClock puts what runs into the card of a project, and on the disk where it
// is to be kept. Where the disk does not take it nothing is lost: it follows
// from the project, and the next start works it out again.
func (s *Session) setClock(id string, r *model.Running, keep bool) {
	i := s.cardAt(id)
	if i < 0 || s.cards[i].Running.Like(r) {
		return
	}
	s.cards = slices.Clone(s.cards) // a snapshot has the old ones
	s.cards[i].Running = r
	if keep && !s.notebookSealed() {
		s.jobs.InOrder(func() { _ = s.store.PutRunning(id, *r) })
	}
}

// wind has the clocks of closed projects worked out that the notebook does not
// have by the simulation: of a notebook from before clocks were kept, or of a
// project that was left before its simulation was in. One is under way at a
// time.
func (s *Session) wind() {
	if s.winding {
		return
	}
	i := slices.IndexFunc(s.cards, func(c model.Card) bool {
		return unsettled(&c) && !s.unwound[c.ID] && !(s.open && c.ID == s.project.ID)
	})
	if i < 0 {
		return
	}
	s.winding = true
	id, touched := s.cards[i].ID, s.cards[i].Touched
	Replace(s.jobs, keyClocks, func(ctx context.Context) (*model.Running, error) {
		if !pause(ctx, s.calm) {
			return nil, ctx.Err()
		}
		return s.clockFor(ctx, id)
	}, func(r *model.Running, err error) {
		s.winding = false
		now := s.cardAt(id)
		switch {
		case now < 0 || !s.cards[now].Touched.Equal(touched) || s.open && s.project.ID == id:
			// It has been worked on since.
		case r == nil:
			s.unwound[id] = true
			s.setClock(id, &model.Running{Settled: true}, false)
		default:
			s.unwound[id] = err != nil
			s.setClock(id, r, err == nil)
		}
		s.publish()
		s.wind()
	})
}

// clockFor works out the clock of a closed project. Where only its simulation
// fails, it goes by the data sheets.
func (s *Session) clockFor(ctx context.Context, id string) (*model.Running, error) {
	p, _, err := s.store.Load(id)
	if err != nil && !usable(err) {
		return nil, err
	}
	plan := model.Make(p)
	r := model.NewRunning(&p, &plan, false)
	if r.Settled {
		return r, nil
	}
	curing, err := s.reckon.Simulate(ctx, &p, &plan)
	if err == nil {
		plan.Steps = curing.StepsOf(&plan)
	}
	return model.NewRunning(&p, &plan, true), err
}
