package app

import (
	"errors"
	"slices"

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
	r, ok := s.revision(s.current)
	behind := ok && r.After != 0 || slices.ContainsFunc(s.saves, func(v *save) bool { return v.shelf == nil && !v.amend })
	if !behind || s.trying() {
		return ""
	}
	label, _, _ := s.lastStep()
	return label
}

// redoLabel names what redo would bring back.
func (s *Session) redoLabel() string {
	if r, ok := s.redoTo(); ok && s.lastSave(false) == nil && !s.trying() {
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

// Revisions lists the saved states of the open project, oldest first.
func (s *Session) Revisions() []model.Revision { return slices.Clone(s.revisions) }

// Current is the number of the saved state that the project stands at.
func (s *Session) Current() int { return s.current }

var errNoProject = errors.New("no piece is open")
