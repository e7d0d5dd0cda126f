package app

import (
	"time"

	"meniscus/model"
)

// What happened goes into the journal at the time that it happened: now where
// at is zero, or earlier where it is written down late. It is no step of undo.
// The errors of what cannot have happened are a *model.Problem.

// StartPour notes that the pour of a layer starts now. From this instant, kept
// on the disk, all its times follow.
func (s *Session) StartPour(layer string) error { return s.StartPourAt(layer, time.Time{}) }

// StartPourAt notes when the pour of a layer started.
func (s *Session) StartPourAt(layer string, at time.Time) error {
	return s.log(at, func(p *model.Project) (model.Entry, error) {
		return model.Entry{Kind: model.EntryPourStarted, Layer: layer, Room: p.Shop.Room}, nil
	})
}

// AddReading notes temperatures that were read, as typed: of the room, of the
// resin in the mold of a layer, or both. Empty text was not read; a reading of
// the room alone needs no layer.
func (s *Session) AddReading(layer, room, part string, at time.Time) error {
	return s.log(at, func(p *model.Project) (model.Entry, error) { return p.Reading(layer, room, part) })
}

// AddTack notes how the surface of a layer felt to a gloved finger.
func (s *Session) AddTack(layer string, feel model.Feel, at time.Time) error {
	return s.log(at, func(*model.Project) (model.Entry, error) {
		return model.Entry{Kind: model.EntryTack, Layer: layer, Feel: feel}, nil
	})
}

// AddProbe notes the hottest that a probe in a layer showed, as typed, and when
// it did.
func (s *Session) AddProbe(layer, hottest string, at time.Time) error {
	return s.log(at, func(p *model.Project) (model.Entry, error) { return p.Probe(layer, hottest) })
}

// AddWeighed notes what the scale read, as typed, once A or B was in the cup of
// a layer; afresh begins another cup.
func (s *Session) AddWeighed(layer string, kind model.EntryKind, gross string, afresh bool) error {
	return s.log(time.Time{}, func(p *model.Project) (model.Entry, error) { return p.WeighedEntry(layer, kind, gross, afresh) })
}

// DemoldFelt notes that the piece came out of the mold now, and how it felt.
func (s *Session) DemoldFelt(feel model.Feel) error {
	return s.log(time.Time{}, func(*model.Project) (model.Entry, error) {
		return model.Entry{Kind: model.EntryDemolded, Feel: feel}, nil
	})
}

// AddNote notes a few words with the time.
func (s *Session) AddNote(text string) error {
	return s.log(time.Time{}, func(*model.Project) (model.Entry, error) {
		return model.Entry{Kind: model.EntryNote, Text: text}, nil
	})
}

// Happened notes an act of one touch, now: mixing begun or done, a pour ended,
// an insert placed, a line of the checklist ticked, a picture kept, a pour that
// got too hot.
func (s *Session) Happened(e model.Entry) error {
	return s.log(time.Time{}, func(*model.Project) (model.Entry, error) { return e, nil })
}

// Withdraw takes an entry of the journal back by a further one.
func (s *Session) Withdraw(entry string) error {
	return s.log(time.Time{}, func(*model.Project) (model.Entry, error) {
		return model.Entry{Kind: model.EntryWithdrawn, Of: entry}, nil
	})
}

// Correct takes an entry back and writes it down again as change leaves it, so
// that all that follows from it is worked out anew. The old one stays in the
// journal, taken back.
func (s *Session) Correct(entry string, change func(*model.Entry)) error {
	now := s.instant()
	withdrawal, id := s.entryID(), s.entryID()
	return s.Edit("", "", func(p *model.Project) error {
		e, _ := p.Entry(entry)
		change(&e)
		e.ID = id
		return p.Correct(entry, withdrawal, e, now)
	})
}

// log adds an entry to the journal.
func (s *Session) log(at time.Time, entry func(p *model.Project) (model.Entry, error)) error {
	id, now := s.entryID(), s.instant()
	if at.IsZero() {
		at = now
	}
	return s.Edit("", "", func(p *model.Project) error {
		e, err := entry(p)
		if err != nil {
			return err
		}
		e.ID, e.At = id, at.UTC().Round(time.Millisecond)
		return p.Log(e, now)
	})
}

// entryID makes the ID of a new entry.
func (s *Session) entryID() string { return "e" + s.newID() }

// instant is now as the journal keeps it.
func (s *Session) instant() time.Time { return s.clock.Now().UTC().Round(time.Millisecond) }
