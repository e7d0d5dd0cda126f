package app

import (
	"strings"

	"meniscus/model"
)

// Look is a look at a project as it is in a copy of the notebook.
type Look struct {
	Copy   model.Copy
	ID     string // of the project
	before string // of the one that was open before; "" where none was
}

// Back tells whether EndLook leads back to a project.
func (l *Look) Back() bool { return l != nil && l.before != "" }

// lookMark goes before the ID of a project that is looked at in a copy, so that
// no clock, card or saved state of the one in the notebook is taken for its own.
const lookMark = "copy:"

// LookAt shows a project as it is in a copy. It can be worked with as in a
// notebook that can only be read: nothing of it is kept. The look ends when a
// project of the notebook is opened.
func (s *Session) LookAt(c model.Copy, id string) {
	v, ok := s.store.(Vault)
	if !ok {
		return
	}
	s.inLine(waiting{do: func() {
		var p model.Project
		s.moveTo(func() (err error) {
			p, err = fromCopy(v, c.Path, id)
			return err
		}, nil, func() {
			look := &Look{Copy: c, ID: id}
			if s.open {
				look.before = s.project.ID
				if s.look != nil {
					look.before = s.look.before
				}
			}
			p.ID = lookMark + id
			s.show(loaded{project: p, look: look})
		})
	}})
}

// EndLook opens the project again that was open before the look.
func (s *Session) EndLook() {
	if s.look.Back() {
		s.Open(s.look.before)
	}
}

// travelling gives the open project as it goes to another machine: under its
// own ID, also when it is looked at in a copy.
func (s *Session) travelling() model.Project {
	p := s.project
	p.ID = strings.TrimPrefix(p.ID, lookMark)
	return p
}
