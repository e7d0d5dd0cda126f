package app

import (
	"errors"
	"time"

	"meniscus/model"
)

// revision gives a saved state of the open project by its number.
func (s *Session) revision(number int) (model.Revision, bool) {
	for _, r := range s.revisions {
		if r.Number == number {
			return r, true
		}
	}
	return model.Revision{}, false
}

// undoLabel names what undo would take back.
func (s *Session) undoLabel() string {
	if n := len(s.saves); n > 0 {
		return s.saves[n-1].label
	}
	if r, ok := s.revision(s.current); ok && r.After != 0 {
		return r.Label
	}
	return ""
}

// redoLabel names what redo would bring back.
func (s *Session) redoLabel() string {
	if r, ok := s.redoTo(); ok && len(s.saves) == 0 {
		return r.Label
	}
	return ""
}

// redoTo is the newest state made from the current one.
func (s *Session) redoTo() (model.Revision, bool) {
	var best model.Revision
	for _, r := range s.revisions {
		if r.After == s.current && s.current != 0 && r.Number > best.Number {
			best = r
		}
	}
	return best, best.Number != 0
}

// Undo goes back one step. The journal stays: what happened, happened.
func (s *Session) Undo() {
	s.turn(func() (int, bool) {
		r, ok := s.revision(s.current)
		return r.After, ok && r.After != 0
	})
}

// Redo goes forward one step again.
func (s *Session) Redo() {
	s.turn(func() (int, bool) {
		r, ok := s.redoTo()
		return r.Number, ok
	})
}

// turn makes another saved state the current one, once all edits before it
// are on the disk.
func (s *Session) turn(to func() (int, bool)) {
	if !s.open || s.turning {
		return
	}
	s.turning = true
	s.waiting = func() {
		number, ok := to()
		if !ok {
			s.turned(nil)
			return
		}
		id, now := s.project.ID, s.clock.Now()
		s.jobs.InOrder(func() {
			p, err := s.store.At(id, number)
			var card model.Card
			if err == nil || usable(err) {
				plan := model.Make(p)
				card = model.NewCard(&p, &plan, now)
				err = s.store.Turn(id, number, card)
			}
			s.jobs.post(func() {
				s.turned(func() {
					if err != nil {
						s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
						s.publish()
						return
					}
					s.project, s.current, s.lastKey = p, number, ""
					s.putCard(card)
					s.replan()
				})
			})
		})
	}
	s.turnOn()
}

// turnOn starts what waits for the last save.
func (s *Session) turnOn() {
	if s.waiting != nil && len(s.saves) == 0 {
		f := s.waiting
		s.waiting = nil
		f()
	}
}

// turned ends a turn and lets the edits that waited go on.
func (s *Session) turned(finish func()) {
	s.turning = false
	if finish != nil {
		finish()
	}
	after := s.after
	s.after = nil
	for _, f := range after {
		f()
	}
}

// Revisions lists the saved states of the open project, oldest first.
func (s *Session) Revisions() []model.Revision { return append([]model.Revision(nil), s.revisions...) }

// Current is the number of the saved state that the project stands at.
func (s *Session) Current() int { return s.current }

// Restore brings the project back as it was at a saved state, as one further
// step, so that nothing done since is lost.
func (s *Session) Restore(number int) {
	r, ok := s.revision(number)
	if !ok || !s.open || s.turning {
		return
	}
	id := s.project.ID
	s.turning = true
	s.waiting = func() {
		s.jobs.InOrder(func() {
			p, err := s.store.At(id, number)
			s.jobs.post(func() {
				s.turned(func() {
					if err != nil && !usable(err) {
						s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
						s.publish()
						return
					}
					_ = s.Edit("As it was on "+r.At.Local().Format("Monday 2 January, 15:04"), "", func(now *model.Project) error {
						journal := now.Journal
						*now = p.Clone()
						now.Journal = journal
						return nil
					})
				})
			})
		})
	}
	s.turnOn()
}

var errNoProject = errors.New("no project is open")

// StartPour notes that the pour of a layer starts now. From this instant, kept
// on the disk, all its times follow.
func (s *Session) StartPour(layer string) error {
	return s.log(func(p *model.Project) model.Entry {
		return model.Entry{Kind: model.EntryPourStarted, Layer: layer, Room: p.Shop.Room}
	})
}

// Demold notes that the piece came out of the mold now.
func (s *Session) Demold() error {
	return s.log(func(*model.Project) model.Entry { return model.Entry{Kind: model.EntryDemolded} })
}

// AddNote notes a few words with the time.
func (s *Session) AddNote(text string) error {
	return s.log(func(*model.Project) model.Entry { return model.Entry{Kind: model.EntryNote, Text: text} })
}

// Withdraw takes an entry of the journal back by a further one.
func (s *Session) Withdraw(entry string) error {
	return s.log(func(*model.Project) model.Entry { return model.Entry{Kind: model.EntryWithdrawn, Of: entry} })
}

// log adds an entry to the journal. It is no step of undo.
func (s *Session) log(entry func(p *model.Project) model.Entry) error {
	if !s.open {
		return errNoProject
	}
	return s.edit("", "", true, func(p *model.Project) error {
		e := entry(p)
		e.ID = "e" + s.newID()
		e.At = s.clock.Now().UTC().Round(time.Millisecond)
		p.Journal = append(p.Journal, e)
		return nil
	})
}
