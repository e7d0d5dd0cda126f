package app

import (
	"errors"
	"time"

	"meniscus/model"
)

// together is how long edits with the same key count as one step.
const together = 10 * time.Second

// continues tells whether an edit with this key goes on with the last step.
func (s *Session) continues(key string) bool {
	if key == "" {
		return false
	}
	if n := len(s.saves); n > 0 {
		return s.saves[n-1].key == key
	}
	return s.lastKey == key && s.clock.Now().Sub(s.lastAt) < together && s.clock.Now().Sub(s.lastAt) >= 0
}

// enqueue puts a state on its way to the disk. One that goes on with a step
// that has not left yet takes its place.
func (s *Session) enqueue(v *save) {
	s.shot.Saved.Pending = true
	if v.label == "" { // it belongs to the step before
		v.label, v.key = s.lastLabel(), s.lastKey
	}
	if n := len(s.saves); n > 0 && v.amend && !s.saves[n-1].flying {
		v.amend = s.saves[n-1].amend
		s.saves[n-1] = v
	} else {
		s.saves = append(s.saves, v)
	}
	s.fly()
}

// lastLabel names the newest step.
func (s *Session) lastLabel() string {
	if n := len(s.saves); n > 0 {
		return s.saves[n-1].label
	}
	r, _ := s.revision(s.current)
	return r.Label
}

// fly sends the oldest state to the disk, one at a time.
func (s *Session) fly() {
	if len(s.saves) == 0 || s.saves[0].flying {
		return
	}
	s.saves[0].flying = true
	v, after := s.saves[0], s.current
	s.jobs.InOrder(func() {
		s.write(v, after)
		s.jobs.post(func() { s.landed(v) })
	})
}

// write keeps one state. It runs in the background, or at the end in Close.
func (s *Session) write(v *save, after int) {
	plan := model.Make(v.project)
	v.kept, v.err = s.store.Save(v.project, model.NewCard(&v.project, &plan, v.at), after, v.amend && after != 0, v.label, v.at)
	if day := v.at.Format(time.DateOnly); v.err == nil && day != s.copied {
		s.copied = day
		if k, ok := s.store.(interface {
			KeepDaily(time.Time) (bool, error)
		}); ok {
			_, v.uncopied = k.KeepDaily(v.at)
		}
	}
}

// landed notes how a state fared. One that failed stays first in line and is
// tried again with the next edit, or by Retry; nothing is lost from memory.
func (s *Session) landed(v *save) {
	if len(s.saves) == 0 || s.saves[0] != v {
		return
	}
	if v.err != nil {
		v.flying = false
		s.shot.Saved.What, s.shot.Saved.Do = trouble(v.err)
		s.publish()
		return
	}
	s.saves = s.saves[1:]
	s.current = v.kept.Number
	s.lastKey, s.lastAt = v.key, v.at
	s.noteRevision(v.kept)
	s.noteCard(v)
	s.shot.Saved = Saved{Pending: len(s.saves) > 0, At: v.at, Closed: s.shot.Saved.Closed}
	if v.uncopied != nil {
		s.shot.Saved.What, s.shot.Saved.Do = trouble(v.uncopied)
	}
	s.publish()
	s.fly()
	s.turnOn()
}

// Retry tries again to keep what could not be kept.
func (s *Session) Retry() { s.fly() }

// noteRevision adds a saved state to the list, or replaces the one amended.
func (s *Session) noteRevision(rev model.Revision) {
	for i := range s.revisions {
		if s.revisions[i].Number == rev.Number {
			s.revisions[i] = rev
			return
		}
	}
	s.revisions = append(s.revisions, rev)
}

// noteCard brings the list of projects up to date.
func (s *Session) noteCard(v *save) {
	plan := s.shot.Plan
	if v.project.ID != plan.Project {
		plan = model.Make(v.project)
	}
	s.putCard(model.NewCard(&v.project, &plan, v.at))
}

// putCard puts a card first in the list.
func (s *Session) putCard(c model.Card) {
	list := make([]model.Card, 0, len(s.cards)+1)
	list = append(list, c)
	for _, old := range s.cards {
		if old.ID != c.ID {
			list = append(list, old)
		}
	}
	s.cards = list
}

// troubled is an error of the store in the maker's words.
type troubled interface {
	error
	Words() (what, do string) // what happened, and what to do
	Usable() bool             // a usable result was returned beside it
}

// trouble gives what went wrong and what to do, in words.
func trouble(err error) (what, do string) {
	var t troubled
	if errors.As(err, &t) {
		return t.Words()
	}
	return err.Error(), "Your changes are still here; export the project to a file to be safe."
}

// usable tells whether an error left a result that can be worked with.
func usable(err error) bool {
	var t troubled
	return errors.As(err, &t) && t.Usable()
}
