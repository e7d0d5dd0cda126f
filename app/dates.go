package app

import (
	"os"
	"time"

	"meniscus/model"
)

// Agenda lists the steps that have an instant, in order: those of the pours
// that have been started, and those of the next one as it is planned.
func (s *Snapshot) Agenda(now time.Time) []model.Step {
	timed := s.Timed()
	return timed.Agenda(s.Project.Shop.Planned, now)
}

// Dates gives the steps of the open project that have an instant as an
// iCalendar file, with the times that the windows show. It is an error when
// none has one.
func (s *Session) Dates() ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	now := s.clock.Now()
	return model.Calendar(s.shot.Agenda(now), s.shot.Project.ID, s.shot.Project.Name, now)
}

// AllDates gives the steps of all pieces whose clock runs as one iCalendar file,
// under the UIDs that Dates gives them: of the open piece also those that are only
// planned, of the others those that have an instant. It is an error when none
// runs.
func (s *Session) AllDates() ([]byte, error) {
	now := s.clock.Now()
	var pieces []model.Dated
	for _, c := range s.shot.Ticking(now) {
		d := model.Dated{Project: c.ID, Name: c.Name, Steps: c.Steps}
		if c.Open {
			d.Steps = s.shot.Agenda(now)
		}
		pieces = append(pieces, d)
	}
	return model.Calendars(pieces, now)
}

// written tells of a calendar file.
type written struct {
	File  string       `json:"file"`
	Steps []model.Step `json:"steps"` // those in it
}

// exported gives the project in a file as the windows would show it, planned and
// simulated.
func exported(from string) (Snapshot, error) {
	p, err := readProject(from)
	if err != nil {
		return Snapshot{}, err
	}
	curing, err := cureProject(&p)
	return Snapshot{Project: p, Plan: model.Make(p), Curing: curing}, err
}

// writeDates writes the dates of an exported project into a calendar file.
func writeDates(from, to string, now time.Time) (written, error) {
	shot, err := exported(from)
	if err != nil {
		return written{}, err
	}
	steps := shot.Agenda(now)
	file, err := model.Calendar(steps, shot.Project.ID, shot.Project.Name, now)
	if err != nil {
		return written{}, err
	}
	return written{to, steps}, os.WriteFile(to, file, 0o644)
}
