package app

import (
	"errors"
	"slices"
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
	r, ok := s.revision(s.current)
	behind := ok && r.After != 0 || slices.ContainsFunc(s.saves, func(v *save) bool { return !v.amend })
	if !behind || s.shot.Saved.Closed {
		return ""
	}
	label, _, _ := s.lastStep()
	return label
}

// redoLabel names what redo would bring back.
func (s *Session) redoLabel() string {
	if r, ok := s.redoTo(); ok && len(s.saves) == 0 && !s.shot.Saved.Closed {
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
	id, at := "e"+s.newID(), s.clock.Now().UTC().Round(time.Millisecond)
	return s.Edit("", "", func(p *model.Project) error {
		e := entry(p)
		e.ID, e.At = id, at
		p.Journal = append(p.Journal, e)
		return nil
	})
}
