package app

import (
	"os"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
)

// PourCard gives the pour card of the open project as a PDF, with the times
// that the windows show.
func (s *Session) PourCard() ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	_, file, err := s.shot.pourCard(s.clock.Now())
	return file, err
}

// pourCard makes the pour card of a snapshot: what is on it, and the PDF.
func (s *Snapshot) pourCard(now time.Time) (model.PourCard, []byte, error) {
	timed := s.Timed()
	card := model.NewPourCard(&s.Project, &timed, &s.Curing, now)
	file, err := paper.Card(card, now)
	return card, file, err
}

// printed tells of a pour card.
type printed struct {
	File string         `json:"file"`
	Card model.PourCard `json:"card"` // what is on it
}

// writeCard writes the pour card of an exported project into a file.
func writeCard(from, to string, now time.Time) (printed, error) {
	shot, err := exported(from)
	if err != nil {
		return printed{}, err
	}
	card, file, err := shot.pourCard(now)
	if err != nil {
		return printed{}, err
	}
	return printed{to, card}, os.WriteFile(to, file, 0o644)
}
