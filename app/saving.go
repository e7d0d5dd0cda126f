package app

import (
	"cmp"
	"errors"
	"slices"
	"time"

	"meniscus/model"
)

// together is how long edits with the same key count as one step.
const together = 10 * time.Second

// continues tells whether an edit with this key goes on with the last step of the
// shelf, or of the project.
func (s *Session) continues(key string, shelf bool) bool {
	if key == "" {
		return false
	}
	if v := s.lastSave(shelf); v != nil {
		return v.key == key
	}
	last, at := s.lastKey, s.lastAt
	if shelf {
		last, at = s.shelf.lastKey, s.shelf.lastAt
	}
	since := s.clock.Now().Sub(at)
	return last == key && since < together && since >= 0
}

// enqueue puts a state on its way to the disk. One that goes on with a step
// that has not left yet takes its place.
func (s *Session) enqueue(v *save) {
	s.shot.Saved.Pending = true
	if v.label == "" { // it belongs to the step before
		v.label, v.key, v.dated = s.lastStep()
	}
	if old := s.lastSave(v.shelf != nil); old != nil && v.amend && !old.flying {
		v.amend = old.amend
		s.saves[slices.Index(s.saves, old)] = v
	} else {
		s.saves = append(s.saves, v)
	}
	s.fly()
}

// lastSave is the newest state in line of the shelf, or of the project; nil where
// there is none.
func (s *Session) lastSave(shelf bool) *save {
	for _, v := range slices.Backward(s.saves) {
		if (v.shelf != nil) == shelf {
			return v
		}
	}
	return nil
}

// lastStep gives the name, the key and the time of the newest step.
func (s *Session) lastStep() (label, key string, dated time.Time) {
	if v := s.lastSave(false); v != nil {
		return v.label, v.key, v.dated
	}
	r, _ := s.revision(s.current)
	return r.Label, s.lastKey, r.At
}

// fly sends the oldest state to the disk, one at a time.
func (s *Session) fly() {
	if len(s.saves) == 0 || s.saves[0].flying {
		return
	}
	v, after := s.saves[0], s.current
	v.flying, s.triedAt = true, s.clock.Now()
	s.jobs.InOrder(func() {
		if v.shelf != nil {
			v.kept, v.err = s.store.SaveShelf(*v.shelf, v.amend, v.label, v.dated)
			s.jobs.hand(func() { s.landed(v) })
			return
		}
		v.card = cardOf(v.project, v.at)
		v.kept, v.err = s.store.Save(v.project, v.card, after, v.amend, v.label, v.dated)
		if v.err == nil && v.kept.Number%listAgain == 0 {
			v.left, _ = s.store.Revisions(v.project.ID)
		}
		s.jobs.hand(func() { s.landed(v) })
	})
}

// listAgain is after how many saved states they are listed anew, since the
// notebook thins them.
const listAgain = 200

// cardOf makes the card of a project at a time.
func cardOf(p model.Project, at time.Time) model.Card {
	plan := model.Make(p)
	return model.NewCard(&p, &plan, at)
}

// landed notes how a state fared. One that failed stays first in line and is
// tried again with the next edit or move, by Retry, and by itself after a while;
// nothing is lost from memory.
func (s *Session) landed(v *save) {
	v.flying = false
	if v.err != nil {
		s.complain(v.err)
		s.rest(false)
		return
	}
	s.saves = s.saves[1:]
	if v.shelf != nil {
		s.shelfLanded(v)
	} else {
		s.current = v.kept.Number
		s.lastKey, s.lastAt = v.key, v.at
		if v.left != nil {
			s.revisions = v.left
		}
		s.noteRevision(v.kept)
		s.putCard(v.card)
	}
	s.shot.Saved = Saved{Pending: len(s.saves) > 0, At: v.at, Closed: s.trying()}
	s.keepClock()
	s.publish()
	s.fly()
	s.keepDaily(v.at)
	s.rest(true)
}

// awayAgain is how long it takes until a second copy that could not be made is
// tried again.
const awayAgain = time.Hour

// keepDaily has the notebook make its copies of the day, beside the work on the
// notebook itself. One that fails is said once a day. That beside the notebook
// is tried again the next day; the second one in another place, whose disk may
// be put in meanwhile, with a save an hour later.
func (s *Session) keepDaily(at time.Time) {
	v, ok := s.store.(Vault)
	day := at.UTC().Format(time.DateOnly)
	first := day != s.copied
	late := !s.awayAt.IsZero() && at.Sub(s.awayAt) >= awayAgain
	if !ok || !first && !late {
		return
	}
	s.copied = day
	second := s.SecondPlace()
	var away error
	Newest(s.jobs, "copy of the day", func() error {
		_, err := v.KeepDaily(at)
		if second != "" {
			_, away = v.KeepAway(second, at, false)
		}
		return err
	}, func(err error) {
		s.awayAt = time.Time{}
		if away != nil {
			s.awayAt = at
		}
		if err = cmp.Or(err, away); err != nil && first {
			s.complain(err)
		}
	})
}

// Retry tries again to keep what could not be kept. With all edits kept it puts
// away what was said of anything else.
func (s *Session) Retry() {
	if len(s.saves) == 0 {
		s.shot.Saved.What, s.shot.Saved.Do = "", ""
		s.publish()
	}
	s.fly()
}

// retryAfter is how long what could not be kept waits to be tried again by
// itself: at the bench no hand is free for it.
const retryAfter = 10 * time.Second

// tryAgain sends to the disk what could not be kept, once it has waited long
// enough, also by a clock that was set back.
func (s *Session) tryAgain(now time.Time) {
	if waited := now.Sub(s.triedAt); len(s.saves) > 0 && (waited >= retryAfter || waited < 0) {
		s.fly()
	}
}

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

// cardAt gives where the card of a project stands in the list; -1 where it has
// none.
func (s *Session) cardAt(id string) int {
	return slices.IndexFunc(s.cards, func(c model.Card) bool { return c.ID == id })
}

// putCard puts a card first in the list.
func (s *Session) putCard(c model.Card) {
	at := s.cardAt(c.ID)
	if at < 0 {
		s.cards = slices.Concat([]model.Card{c}, s.cards)
		return
	}
	s.cards = slices.Concat([]model.Card{c}, s.cards[:at], s.cards[at+1:]) // a snapshot has the old list
}

// troubled is an error of the store in the maker's words.
type troubled interface {
	error
	Words() (what, do string) // what happened, and what to do
	Usable() bool             // a usable result was returned beside it
}

// complain says what went wrong to every window.
func (s *Session) complain(err error) {
	s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
	s.publish()
}

// tell says to every window that a change was refused, where nobody who asked for
// it is there to be answered: it came by a field, or waited for the end of a move.
// What would change nothing is not said, nor that no piece is open.
func (s *Session) tell(label string, err error) {
	if err == nil || errors.Is(err, ErrSame) || errors.Is(err, errNoProject) {
		return
	}
	why := err.Error()
	if p := (*model.Problem)(nil); errors.As(err, &p) {
		why = p.Message
	}
	s.shot.Saved.What = "Not done, and nothing has changed"
	if label != "" {
		s.shot.Saved.What += ": " + label
	}
	s.shot.Saved.Do = "Why: " + why + ". Look at what is there now, and make the change again if it is still wanted."
	s.publish()
}

// trouble gives what went wrong and what to do, in words.
func trouble(err error) (what, do string) {
	var t troubled
	if errors.As(err, &t) {
		return t.Words()
	}
	return err.Error(), "Your changes are still here; export the piece to a file to be safe."
}

// usable tells whether an error left a result that can be worked with.
func usable(err error) bool {
	var t troubled
	return errors.As(err, &t) && t.Usable()
}
