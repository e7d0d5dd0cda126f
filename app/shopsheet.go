package app

import (
	"errors"
	"os"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
)

// ShopSheet gives the shop sheet of the open project as a PDF of one page, with
// the times that the windows show.
func (s *Session) ShopSheet() ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	_, file, err := s.shot.shopSheet(s.painter, s.clock.Now())
	return file, err
}

// shopSheet makes the shop sheet of a snapshot: what is on it, and the PDF.
func (s *Snapshot) shopSheet(by paper.Painter, now time.Time) (model.ShopSheet, []byte, error) {
	timed := s.Timed()
	sheet := model.NewShopSheet(&s.Project, &timed, &s.Curing, now)
	file, err := paper.ShopSheet(sheet, by, &s.Project, &timed, now)
	return sheet, file, err
}

// Drawing gives the open project's mold from above, its section, or both, as an
// SVG in millimetres, true to the scale that is written in it.
func (s *Session) Drawing(above, section bool) ([]byte, error) {
	switch {
	case !s.shot.Open:
		return nil, errNoProject
	case s.painter == nil:
		return nil, errNoPainter
	}
	return s.painter.SVG(&s.shot.Project, &s.shot.Plan, above, section)
}

// FinishDrawing gives the open project's casting with what comes off it and what
// is screwed on, from above or in section, as an SVG in millimetres, true to the
// scale that is written in it.
func (s *Session) FinishDrawing(section bool) ([]byte, error) {
	switch {
	case !s.shot.Open:
		return nil, errNoProject
	case s.painter == nil:
		return nil, errNoPainter
	}
	return s.painter.FinishSVG(&s.shot.Project, &s.shot.Plan, section)
}

// errNoPainter says that nothing is there to draw with.
var errNoPainter = errors.New("this program was started without its drawings")

// sheeted tells of a shop sheet.
type sheeted struct {
	File  string          `json:"file"`
	Sheet model.ShopSheet `json:"sheet"` // what is on it
}

// writeSheet writes the shop sheet of an exported project into a file.
func writeSheet(from, to string, by paper.Painter, now time.Time) (sheeted, error) {
	shot, err := exported(from)
	if err != nil {
		return sheeted{}, err
	}
	sheet, file, err := shot.shopSheet(by, now)
	if err != nil {
		return sheeted{}, err
	}
	return sheeted{to, sheet}, os.WriteFile(to, file, 0o644)
}

// drawn tells of a drawing.
type drawn struct {
	File string `json:"file"`
	Name string `json:"name"` // of the project
}

// writeDrawing writes the mold from above and its section into one SVG.
func writeDrawing(from, to string, by paper.Painter) (drawn, error) {
	p, err := readProject(from)
	if err != nil {
		return drawn{}, err
	}
	if by == nil {
		return drawn{}, errNoPainter
	}
	plan := model.Make(p)
	file, err := by.SVG(&p, &plan, true, true)
	if err != nil {
		return drawn{}, err
	}
	return drawn{to, p.Name}, os.WriteFile(to, file, 0o644)
}
