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
	s.setClocks(map[string]wound{s.project.ID: {running: model.NewRunning(&s.project, &plan, true)}})
}

// wound is the clock of a project as it was worked out.
type wound struct {
	touched time.Time // when the project had last been worked on
	running *model.Running
	err     error // why the simulation says nothing of it; then it is not kept
}

// setClocks puts what runs into the cards of projects, by ID, and on the disk
// where it is to be kept. Where the disk does not take it nothing is lost: it
// follows from the project, and the next start works it out again.
func (s *Session) setClocks(of map[string]wound) {
	var cards []model.Card // of their own, since a snapshot has the old ones
	keep := map[string]model.Running{}
	for i := range s.cards {
		id := s.cards[i].ID
		w, ok := of[id]
		if !ok || s.cards[i].Running.Like(w.running) {
			continue
		}
		if cards == nil {
			cards = slices.Clone(s.cards)
		}
		cards[i].Running = w.running
		if w.err == nil {
			keep[id] = *w.running
		}
	}
	if cards != nil {
		s.cards = cards
	}
	if len(keep) > 0 && !s.notebookSealed() {
		s.jobs.InOrder(func() { _ = s.store.PutRunning(keep) })
	}
}

// windAtOnce is how many clocks are shown and written together at most: each time
// costs a look at every card, and a write to the disk.
const windAtOnce = 200

// wind has the clocks of closed projects worked out that the notebook does not
// have by the simulation: of a notebook from before clocks were kept, or of a
// project that was left before its simulation was in. One after the other is
// under way, up to the first that has to be simulated.
func (s *Session) wind() {
	if s.winding {
		return
	}
	var due []model.Card
	for i := range s.cards {
		if c := &s.cards[i]; unsettled(c) && !s.unwound[c.ID] && !(s.open && c.ID == s.project.ID) {
			if due = append(due, *c); len(due) == windAtOnce {
				break
			}
		}
	}
	if len(due) == 0 {
		return
	}
	s.winding = true
	Replace(s.jobs, keyClocks, func(ctx context.Context) (map[string]wound, error) {
		list := map[string]wound{}
		if !pause(ctx, s.calm) {
			return list, ctx.Err()
		}
		for i := range due {
			w, simulated := s.clockFor(ctx, due[i].ID)
			w.touched = due[i].Touched
			list[due[i].ID] = w
			if simulated || ctx.Err() != nil {
				break
			}
		}
		return list, nil
	}, func(list map[string]wound, _ error) {
		s.winding = false
		for i := range s.cards {
			c := &s.cards[i]
			if w, ok := list[c.ID]; !ok {
				continue
			} else if !c.Touched.Equal(w.touched) || s.open && s.project.ID == c.ID {
				delete(list, c.ID) // it has been worked on since
			} else {
				s.unwound[c.ID] = w.err != nil
			}
		}
		s.setClocks(list)
		s.publish()
		s.wind()
	})
}

// clockFor works out the clock of a closed project, and tells whether that took a
// simulation. Where only that fails, it goes by the data sheets; where the project
// cannot be read, nothing runs.
func (s *Session) clockFor(ctx context.Context, id string) (w wound, simulated bool) {
	p, _, err := s.store.Load(id)
	if err != nil && !usable(err) {
		return wound{running: &model.Running{Settled: true}, err: err}, false
	}
	plan := model.Make(p)
	if r := model.NewRunning(&p, &plan, false); r.Settled {
		return wound{running: r}, false
	}
	curing, err := s.reckon.Simulate(ctx, &p, &plan)
	if err == nil {
		plan.Steps = curing.StepsOf(&plan)
	}
	return wound{running: model.NewRunning(&p, &plan, true), err: err}, true
}
