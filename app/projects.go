package app

import (
	"errors"
	"slices"
	"time"

	"meniscus/model"
)

// opened is the name under which the last open project is kept.
const opened = "open project"

// loaded is a project as it was read from the notebook.
type loaded struct {
	project   model.Project
	revisions []model.Revision
	current   int       // number of the revision that project is
	kept      time.Time // when that was made safe, where it was just now
	flaw      error     // what could not be read; nil when all could
	look      *Look     // it is looked at in a copy; nil when it is of the notebook
}

// load reads a project with its saved states: the current one, or the newest
// that can be read. It runs in the background.
func (s *Session) load(id string) (loaded, error) {
	p, rev, err := s.store.Load(id)
	l := loaded{project: p, current: rev.Number, flaw: err}
	list, flaw := s.store.Revisions(id)
	if flaw != nil && !usable(flaw) {
		return loaded{}, errors.Join(err, flaw)
	}
	l.revisions = list
	if err == nil {
		l.flaw = flaw
	}
	if err == nil || usable(err) {
		return l, nil
	}
	for _, r := range slices.Backward(list) {
		if p, bad := s.store.At(id, r.Number); bad == nil || usable(bad) {
			l.project, l.current, l.flaw = p, r.Number, olderError{err, r, s.clock.Now()}
			return l, nil
		}
	}
	return loaded{}, err
}

// olderError says that an older state was opened in place of a damaged one.
type olderError struct {
	error
	opened model.Revision
	now    time.Time
}

// Words says what is damaged and what was opened instead.
func (e olderError) Words() (what, do string) {
	what, _ = trouble(e.error)
	return what, "Opened is the newest state that can be read, “" + e.opened.Label + "” of " + onDay(e.opened.At, e.now) + e.opened.At.Local().Format(", 15:04") + ". Look through it before you go on."
}

// onDay writes the day of an instant as the shop has it, with the year where that
// is not this one.
func onDay(at, now time.Time) string {
	at = at.Local()
	if at.Year() != now.Local().Year() {
		return at.Format("Monday 2 January 2006")
	}
	return at.Format("Monday 2 January")
}

// Usable tells that there is something to work with.
func (e olderError) Usable() bool { return true }

// show makes what was read the open project.
func (s *Session) show(l loaded) {
	if s.open { // else what was wrong with the list is still to be read
		s.shot.Saved = Saved{}
	}
	if !l.kept.IsZero() {
		s.shot.Saved.At = l.kept
	}
	s.look, s.shot.Look = l.look, l.look
	s.shot.Saved.Closed = s.trying()
	s.open, s.project, s.revisions, s.current = true, l.project, l.revisions, l.current
	s.lastKey = ""
	s.endTrying()
	s.noteUses()
	if l.flaw != nil {
		s.shot.Saved.What, s.shot.Saved.Do = trouble(l.flaw)
	}
	if l.look == nil {
		s.Remember(opened, s.project.ID)
	}
	s.dropQuestions()
	s.replan()
	s.wind()
}

// Reopen opens the project that was open last; false when there was none.
func (s *Session) Reopen() bool {
	var id string
	if ok, err := s.store.Setting(opened, &id); !ok || err != nil {
		return false
	}
	if s.cardAt(id) < 0 {
		return false
	}
	s.Open(id)
	return true
}

// Create makes a new project and opens it. It has the units, the room and the
// data sheets of the one that is open; of an invented demo only the units. The
// maker's own losses that are kept for new pieces go in as a step of their own,
// which undo takes back. In a notebook that can only be read it does nothing, and
// the snapshot says so.
func (s *Session) Create(name string) {
	if s.notebookSealed() {
		s.complain(errClosed)
		return
	}
	p := model.Blank(s.newID(), name)
	p.Created = s.clock.Now().UTC().Round(time.Second)
	if s.open {
		p.Style = s.project.Style
	}
	if s.open && !s.project.Demo {
		p.Serial = s.project.Serial
		p.Sheets = append([]model.Sheet(nil), s.project.Sheets...)
		p.Shop = model.Shop{Room: s.project.Shop.Room, Humidity: s.project.Shop.Humidity, Zone: s.project.Shop.Zone}
		p.Mixing = s.project.Mixing
	}
	s.adopt(p, "New piece")
	if own := s.shelf.now.Losses; own.Given() {
		s.inLine(waiting{project: p.ID, do: func() {
			if err := s.Edit("Own losses", "", func(p *model.Project) error {
				own.Apply(p)
				return nil
			}); err != nil {
				s.complain(err)
			}
		}})
	}
}

// Copy makes a new project of the open one, without its journal. In a notebook
// that can only be read it does nothing, and the snapshot says so.
func (s *Session) Copy() {
	switch {
	case !s.open:
		return
	case s.notebookSealed():
		s.complain(errClosed)
		return
	}
	p := s.project.Clone()
	p.ID, p.Name, p.Demo, p.Archived = s.newID(), p.Name+" (copy)", false, false
	p.Recast()
	p.Created = s.clock.Now().UTC().Round(time.Second)
	s.adopt(p, "Copied from "+s.project.Name)
}

// Import takes in a project from a file of ours. Where the notebook has one of
// that id already, it comes in beside it under a new one. The error is that of
// model.Import, which names the field, or says that the notebook can only be
// read; nothing has changed then. What goes wrong on the disk comes later, in
// a snapshot.
func (s *Session) Import(data []byte) error {
	p, err := model.Import(data)
	if err != nil {
		return err
	}
	if s.notebookSealed() {
		return errClosed
	}
	s.adopt(p, "Imported")
	return nil
}

// Export gives the open project as a file of ours.
func (s *Session) Export() ([]byte, error) {
	if !s.open {
		return nil, errNoProject
	}
	return model.Export(s.travelling())
}

// Archive puts the open project away, or takes it out again. It stays in the
// notebook.
func (s *Session) Archive(away bool) {
	label := "Archive"
	if !away {
		label = "Take out of the archive"
	}
	s.tell(label, s.Edit(label, "", func(p *model.Project) error {
		if p.Archived == away {
			return ErrSame
		}
		p.Archived = away
		return nil
	}))
}

// Remember keeps a small value, such as which windows are open, under a name.
func (s *Session) Remember(name string, value any) {
	if s.notebookSealed() {
		return
	}
	s.jobs.InOrder(func() {
		if err := s.store.PutSetting(name, value); err != nil {
			s.jobs.hand(func() { s.complain(err) })
		}
	})
}

// Recall reads what was kept under a name; false when there is nothing.
func (s *Session) Recall(name string, into any) bool {
	ok, err := s.store.Setting(name, into)
	return ok && err == nil
}
