package app

import (
	"slices"

	"meniscus/model"
)

// A move makes another state of the open project the current one, or another
// project the open one. One is under way at a time; what comes meanwhile and
// cannot go beside it waits in line. While a project is being opened, edits go
// on in the one on the screen.

// waiting is something that waits for the end of a move.
type waiting struct {
	project string // it is for this project only; empty: for any
	edit    bool   // it need not wait while a project is opened
	do      func()
}

// inLine does w at once, or after the move under way and what waits before it.
func (s *Session) inLine(w waiting) {
	switch {
	case w.edit && s.turning, !w.edit && s.moving:
		s.line = append(s.line, w)
	case w.project == "" || w.project == s.project.ID:
		w.do()
	}
}

// moved ends a move and lets go on what waits in line.
func (s *Session) moved() {
	s.moving, s.turning = false, false
	line := s.line
	s.line = nil
	s.keepClock() // it may have come in meanwhile
	for _, w := range line {
		s.inLine(w)
	}
}

// atRest does f once every edit is on the disk. Where one cannot be kept, the
// move is given up: nothing leaves the screen that is nowhere else.
func (s *Session) atRest(f func()) { s.atRestOr(f, s.moved) }

// atRestOr is atRest, with what gives the move up.
func (s *Session) atRestOr(f, giveUp func()) {
	if len(s.saves) == 0 {
		f()
		return
	}
	s.rested, s.unrested = f, giveUp
	s.fly()
}

// rest goes on with what waited for the disk, or gives it up.
func (s *Session) rest(kept bool) {
	f := s.rested
	switch {
	case f == nil || kept && len(s.saves) > 0:
		return
	case !kept:
		f = s.unrested
	}
	s.rested, s.unrested = nil, nil
	f()
}

// Undo goes back one step. The journal stays: what happened, happened. In a
// notebook that can only be read it does nothing.
func (s *Session) Undo() {
	s.turn(func() (int, bool) {
		r, ok := s.revision(s.current)
		return r.After, ok && r.After != 0
	})
}

// Redo goes forward one step again. In a notebook that can only be read it does
// nothing.
func (s *Session) Redo() {
	s.turn(func() (int, bool) {
		r, ok := s.redoTo()
		return r.Number, ok
	})
}

// turn makes another saved state the current one, once all edits before it
// are on the disk.
func (s *Session) turn(to func() (int, bool)) {
	if !s.open || s.trying() {
		return
	}
	s.inLine(waiting{project: s.project.ID, do: func() {
		s.moving, s.turning = true, true
		s.atRest(func() { s.turnTo(to) })
	}})
}

// turnTo makes another saved state the current one. Where thinning has taken it
// meanwhile, the nearest that stayed is meant.
func (s *Session) turnTo(to func() (int, bool)) {
	number, ok := to()
	if !ok {
		s.moved()
		return
	}
	id, now := s.project.ID, s.clock.Now()
	s.jobs.InOrder(func() {
		p, err := s.store.At(id, number)
		var card model.Card
		var left []model.Revision
		if err == nil || usable(err) {
			card = cardOf(p, now)
			err = s.store.Turn(id, number, card)
		} else {
			left = s.leftWithout(id, number)
		}
		s.jobs.hand(func() {
			switch {
			case left != nil:
				s.revisions = left
				s.turnTo(to)
				return
			case err != nil:
				s.complain(err)
			default:
				s.project, s.current, s.lastKey = p, number, ""
				s.noteUses()
				s.putCard(card)
				s.replan()
			}
			s.moved()
		})
	})
}

// leftWithout lists the saved states of a project where the one of a number is
// not among them any more; else nil.
func (s *Session) leftWithout(id string, number int) []model.Revision {
	list, err := s.store.Revisions(id)
	if err != nil && !usable(err) || slices.ContainsFunc(list, func(r model.Revision) bool { return r.Number == number }) {
		return nil
	}
	return list
}

// Restore brings the project back as it was at a saved state, as one further
// step, so that nothing done since is lost.
func (s *Session) Restore(number int) {
	if !s.open {
		return
	}
	s.inLine(waiting{project: s.project.ID, do: func() {
		r, ok := s.revision(number)
		if !ok {
			return
		}
		s.moving, s.turning = true, true
		id := s.project.ID
		s.jobs.InOrder(func() {
			p, err := s.store.At(id, number)
			s.jobs.hand(func() {
				s.turning = false
				if err == nil || usable(err) {
					err = s.Edit("As it was on "+onDay(r.At, s.clock.Now())+r.At.Local().Format(", 15:04"), "", func(now *model.Project) error {
						journal := now.Journal
						*now = p.Clone()
						now.Journal = journal
						return nil
					})
				}
				if err != nil {
					s.complain(err)
				}
				s.moved()
			})
		})
	}})
}

// Open opens a project. Where its current state is damaged, the newest that can
// be read is opened and the snapshot says so. While edits of the project on
// the screen cannot be kept, it stays.
func (s *Session) Open(id string) {
	s.inLine(waiting{do: func() {
		if s.open && s.project.ID == id {
			return
		}
		var l loaded
		s.moveTo(func() (err error) {
			l, err = s.load(id)
			return err
		}, nil, func() { s.show(l) })
	}})
}

// moveTo does the store's part of a move behind the work, then, where it went well,
// what follows at once from it, if anything, and once every edit is on the disk
// shows what was moved to. Where it did not, the move is given up, and it is said.
func (s *Session) moveTo(behind func() error, landed, show func()) {
	s.moving = true
	s.jobs.InOrder(func() {
		err := behind()
		s.jobs.hand(func() {
			if err != nil {
				s.complain(err)
				s.moved()
				return
			}
			if landed != nil {
				landed()
			}
			s.atRest(func() {
				show()
				s.moved()
			})
		})
	})
}

// adopt keeps a new project and opens it. Where there is one of its ID already
// it gets another.
func (s *Session) adopt(p model.Project, label string) {
	s.inLine(waiting{do: func() {
		if s.cardAt(p.ID) >= 0 {
			p.ID = s.newID()
		}
		now := s.clock.Now()
		var card model.Card
		var rev model.Revision
		s.moveTo(func() (err error) {
			card = cardOf(p, now)
			rev, err = s.store.Save(p, card, 0, false, label, now)
			return err
		}, func() { s.putCard(card) }, func() {
			s.show(loaded{project: p, revisions: []model.Revision{rev}, current: rev.Number, kept: now})
		})
	}})
}

// late does an edit that had to wait for the end of a move. Nobody waits for
// its error any more, so that it is said to all.
func (s *Session) late(label, key string, change func(*model.Project) error) {
	s.inLine(waiting{project: s.project.ID, edit: true, do: func() {
		s.tell(label, s.Edit(label, key, change))
	}})
}
