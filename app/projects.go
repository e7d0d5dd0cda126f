package app

import (
	"time"

	"meniscus/model"
)

// opened is the name under which the last open project is kept.
const opened = "open project"

// Open opens a project. The one open before is already on the disk, or on its
// way there.
func (s *Session) Open(id string) {
	if s.turning {
		return
	}
	s.turning = true
	closed := s.shot.Saved.Closed
	s.waiting = func() {
		s.jobs.InOrder(func() {
			p, rev, err := s.store.Load(id)
			var revs []model.Revision
			if err == nil || usable(err) {
				warned := err
				if revs, err = s.store.Revisions(id); err == nil {
					err = warned
				}
			}
			if err == nil && !closed {
				err = s.store.PutSetting(opened, id)
			}
			s.jobs.post(func() {
				s.turned(func() {
					if err == nil || usable(err) {
						s.show(p, revs, rev.Number)
					}
					if err != nil {
						s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
						s.publish()
					}
				})
			})
		})
	}
	s.turnOn()
}

// show makes p the open project.
func (s *Session) show(p model.Project, revs []model.Revision, current int) {
	s.open, s.project, s.revisions, s.current = true, p, revs, current
	s.lastKey = ""
	s.shot.Saved = Saved{Closed: s.shot.Saved.Closed}
	s.replan()
}

// Reopen opens the project that was open last; false when there was none.
func (s *Session) Reopen() bool {
	var id string
	if ok, err := s.store.Setting(opened, &id); !ok || err != nil {
		return false
	}
	for _, c := range s.cards {
		if c.ID == id {
			s.Open(id)
			return true
		}
	}
	return false
}

// Create makes a new project and opens it. It has the units, the room and the
// data sheets of the one that is open; of an invented demo only the units.
func (s *Session) Create(name string) {
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
	s.adopt(p, "New project")
}

// Copy makes a new project of the open one, without its journal.
func (s *Session) Copy() {
	if !s.open {
		return
	}
	p := s.project.Clone()
	p.ID, p.Name, p.Demo, p.Archived, p.Journal = s.newID(), p.Name+" (copy)", false, false, nil
	p.Created = s.clock.Now().UTC().Round(time.Second)
	s.adopt(p, "Copied from "+s.project.Name)
}

// Import takes in a project from a file of ours. Where the notebook has one of
// that id already, it comes in beside it under a new one. The error is a
// *model.ImportError that names the field; nothing has changed then.
func (s *Session) Import(data []byte) error {
	p, err := model.Import(data)
	if err != nil {
		return err
	}
	for _, c := range s.cards {
		if c.ID == p.ID {
			p.ID = s.newID()
			break
		}
	}
	s.adopt(p, "Imported")
	return nil
}

// Export gives the open project as a file of ours.
func (s *Session) Export() ([]byte, error) {
	if !s.open {
		return nil, errNoProject
	}
	return model.Export(s.project)
}

// adopt keeps a new project and opens it.
func (s *Session) adopt(p model.Project, label string) {
	if s.turning {
		s.after = append(s.after, func() { s.adopt(p, label) })
		return
	}
	s.turning = true
	s.waiting = func() {
		now := s.clock.Now()
		s.jobs.InOrder(func() {
			plan := model.Make(p)
			card := model.NewCard(&p, &plan, now)
			rev, err := s.store.Save(p, card, 0, false, label, now)
			if err == nil {
				err = s.store.PutSetting(opened, p.ID)
			}
			s.jobs.post(func() {
				s.turned(func() {
					if err != nil {
						s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
						s.publish()
						return
					}
					s.putCard(card)
					s.show(p, []model.Revision{rev}, rev.Number)
				})
			})
		})
	}
	s.turnOn()
}

// Archive puts the open project away, or takes it out again. It stays in the
// notebook.
func (s *Session) Archive(away bool) {
	label := "Archive"
	if !away {
		label = "Take out of the archive"
	}
	_ = s.Edit(label, "", func(p *model.Project) error {
		if p.Archived == away {
			return errSame
		}
		p.Archived = away
		return nil
	})
}

// Remember keeps a small value, such as which windows are open, under a name.
func (s *Session) Remember(name string, value any) {
	if s.shot.Saved.Closed {
		return
	}
	s.jobs.InOrder(func() {
		if err := s.store.PutSetting(name, value); err != nil {
			s.jobs.post(func() {
				s.shot.Saved.What, s.shot.Saved.Do = trouble(err)
				s.publish()
			})
		}
	})
}

// Recall reads what was kept under a name; false when there is nothing.
func (s *Session) Recall(name string, into any) bool {
	ok, err := s.store.Setting(name, into)
	return ok && err == nil
}
