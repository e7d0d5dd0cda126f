package app

import (
	"errors"
	"slices"
	"strings"
	"time"

	"meniscus/model"
)

// Vault keeps copies of the whole notebook. A Store need not be one.
type Vault interface {
	// KeepDaily makes the copy of the day where there is none yet.
	KeepDaily(at time.Time) (bool, error)
	// KeepAway does so in a second place, with the photos; with again also where
	// there is one.
	KeepAway(second string, at time.Time, again bool) (bool, error)
	// Copies lists all copies, newest first; second may be "".
	Copies(second string) ([]model.Copy, error)
	// OpenCopy opens a copy to be looked at.
	OpenCopy(path string) (model.Copied, error)
	// CarryPhotos brings along photos that lie with a copy only.
	CarryPhotos(path string) error
	// Restore puts a copy into the place of the notebook, and keeps what is there
	// now as a copy.
	Restore(path string, at time.Time) error
}

// secondPlace is the name under which the folder for second copies is kept.
const secondPlace = "second place"

// errNoCopies says that a notebook has no copies.
var errNoCopies = errors.New("no copies are made of this notebook")

// SecondPlace is the folder in which a second copy is made each day; "" where
// none was chosen.
func (s *Session) SecondPlace() string {
	if s.second == nil {
		var folder string
		s.Recall(secondPlace, &folder)
		s.second = &folder
	}
	return *s.second
}

// SetSecondPlace chooses the folder for second copies, "" for none, and has one
// made there at once; done is told what came of that.
func (s *Session) SetSecondPlace(folder string, done func(error)) {
	s.Remember(secondPlace, folder)
	s.second = &folder
	if folder == "" {
		done(nil)
		return
	}
	s.copyAway(folder, done)
}

// CopyAwayNow makes the second copy of the day anew.
func (s *Session) CopyAwayNow(done func(error)) { s.copyAway(s.SecondPlace(), done) }

// copyAway makes a copy in a second place.
func (s *Session) copyAway(folder string, done func(error)) {
	v, ok := s.store.(Vault)
	if !ok {
		done(errNoCopies)
		return
	}
	at := s.clock.Now()
	Newest(s.jobs, "second copy", func() error {
		_, err := v.KeepAway(folder, at, true)
		return err
	}, done)
}

// Copies lists the copies of the notebook in the background, newest first.
func (s *Session) Copies(done func([]model.Copy, error)) {
	v, ok := s.store.(Vault)
	if !ok {
		done(nil, errNoCopies)
		return
	}
	second := s.SecondPlace()
	var err error
	Newest(s.jobs, "list of copies", func() (list []model.Copy) {
		list, err = v.Copies(second)
		return list
	}, func(list []model.Copy) { done(list, err) })
}

// CompareCopy tells in the background how the projects of a copy stand to those
// of the notebook.
func (s *Session) CompareCopy(path string, done func([]model.Compared, error)) {
	v, ok := s.store.(Vault)
	if !ok {
		done(nil, errNoCopies)
		return
	}
	now := s.cards
	var err error
	Newest(s.jobs, "compare "+path, func() []model.Compared {
		var then []model.Card
		if err = within(v, path, func(c model.Copied) (err error) { then, err = c.Cards(); return err }); err != nil && !usable(err) {
			return nil
		}
		err = nil
		return model.CompareCards(now, then)
	}, func(list []model.Compared) { done(list, err) })
}

// within opens a copy for as long as a look takes.
func within(v Vault, path string, look func(model.Copied) error) error {
	c, err := v.OpenCopy(path)
	if err != nil {
		return err
	}
	return errors.Join(look(c), c.Close())
}

// fromCopy reads a project out of a copy.
func fromCopy(v Vault, path, id string) (p model.Project, err error) {
	err = within(v, path, func(c model.Copied) (err error) {
		p, _, err = c.Load(id)
		if usable(err) {
			err = nil
		}
		return err
	})
	return p, err
}

// RestoreCopy puts a copy into the place of the notebook once all that was
// entered is on the disk. What is there now becomes a copy itself, so that
// restoring that one undoes it. done is told when it went well; what went wrong
// is in the snapshot.
func (s *Session) RestoreCopy(c model.Copy, done func()) {
	v, ok := s.store.(Vault)
	if !ok || s.notebookSealed() {
		return
	}
	s.inLine(waiting{do: func() {
		s.moving, s.turning = true, true
		s.atRest(func() {
			now, id := s.clock.Now(), strings.TrimPrefix(s.project.ID, lookMark)
			s.jobs.InOrder(func() {
				err := v.Restore(c.Path, now)
				var cards []model.Card
				var l loaded
				if err == nil {
					cards, l, err = s.anew(id)
				}
				s.jobs.hand(func() {
					if err != nil {
						s.complain(err)
					} else {
						s.begin(cards, l)
						done()
					}
					s.moved()
				})
			})
		})
	}})
}

// anew reads the list of projects, and the one that is to be open: that of an
// id, or else the one touched last.
func (s *Session) anew(id string) ([]model.Card, loaded, error) {
	cards, err := s.store.Cards()
	if err != nil && !usable(err) {
		return nil, loaded{}, err
	}
	if len(cards) == 0 {
		return nil, loaded{}, nil
	}
	if !slices.ContainsFunc(cards, func(c model.Card) bool { return c.ID == id }) {
		id = cards[0].ID
	}
	l, err := s.load(id)
	return cards, l, err
}

// begin shows another notebook in place of the one before.
func (s *Session) begin(cards []model.Card, l loaded) {
	s.cards, s.unwound = cards, map[string]bool{}
	s.loadShelf()
	if len(cards) > 0 {
		s.show(l)
		return
	}
	s.open, s.project, s.revisions, s.current, s.look = false, model.Project{}, nil, 0, nil
	s.dropQuestions()
	s.callOff(true)
	s.shot.Edition++
	s.shot.Open, s.shot.Project, s.shot.Plan, s.shot.Curing = false, model.Project{}, model.Plan{}, model.Curing{}
	s.shot.Saved = Saved{Closed: s.trying()}
	s.publish()
}

// BringBack takes one project out of a copy: as a further step of the one that
// is in the notebook, which undo takes back, or as the one that it was where
// there is none any more. All that either journal knows stays. It is open then,
// and done is told.
func (s *Session) BringBack(c model.Copy, id string, done func()) {
	v, ok := s.store.(Vault)
	if !ok || s.notebookSealed() {
		return
	}
	s.inLine(waiting{do: func() {
		s.moving = true
		s.jobs.InOrder(func() {
			p, err := fromCopy(v, c.Path, id)
			if err == nil {
				err = v.CarryPhotos(c.Path)
			}
			s.jobs.hand(func() {
				s.moved()
				if err != nil {
					s.complain(err)
					return
				}
				s.putBack(p, "As it was in the copy of "+onDay(c.At, s.clock.Now()), done)
			})
		})
	}})
}

// putBack puts a project out of a copy into the notebook.
func (s *Session) putBack(then model.Project, label string, done func()) {
	if s.cardAt(then.ID) < 0 {
		s.adopt(then, label)
		s.inLine(waiting{project: then.ID, do: done})
		return
	}
	s.Open(then.ID)
	s.inLine(waiting{project: then.ID, do: func() {
		err := s.Edit(label, "", func(now *model.Project) error {
			*now = model.BroughtBack(*now, then)
			return nil
		})
		if err != nil {
			s.complain(err)
			return
		}
		done()
	}})
}
