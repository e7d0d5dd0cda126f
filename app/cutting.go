package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"

	"meniscus/app/paper"
	"meniscus/model"
)

// CuttingSheet gives the cutting sheet of a lay-up of the open project as a
// PDF.
func (s *Session) CuttingSheet(slab, layup string) ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	now := s.clock.Now()
	sheet, err := model.NewCuttingSheet(&s.shot.Project, &s.shot.Plan, slab, layup, now)
	if err != nil {
		return nil, err
	}
	return paper.Cutting(sheet, now)
}

// CuttingDrawing gives the same as an SVG drawing in millimetres.
func (s *Session) CuttingDrawing(slab, layup string) ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	sheet, err := model.NewCuttingSheet(&s.shot.Project, &s.shot.Plan, slab, layup, s.clock.Now())
	if err != nil {
		return nil, err
	}
	return paper.CuttingDrawing(sheet), nil
}

// sawn tells of a cutting sheet.
type sawn struct {
	File  string             `json:"file"`
	Sheet model.CuttingSheet `json:"sheet"` // what is on it
}

// errNoLayup says that there is no lay-up to make a sheet of.
var errNoLayup = errors.New("the piece has no lay-up: lay the mold's cavity over a traced slab first")

// writeCutting writes the cutting sheet of an exported project into a file: of
// the lay-up that was chosen last, else of its first one.
func writeCutting(from, to string, now time.Time) (sawn, error) {
	ending := strings.ToLower(filepath.Ext(to))
	if ending != ".pdf" && ending != ".svg" {
		return sawn{}, errors.New(to + ": a cutting sheet is written as .pdf or .svg")
	}
	p, err := readProject(from)
	if err != nil {
		return sawn{}, err
	}
	slab, layup, ok := p.Chosen()
	for i := 0; !ok && i < len(p.Slabs); i++ {
		if s := &p.Slabs[i]; len(s.Layups) > 0 {
			slab, layup, ok = s.ID, s.Layups[0].ID, true
		}
	}
	if !ok {
		return sawn{}, errNoLayup
	}
	plan := model.Make(p)
	sheet, err := model.NewCuttingSheet(&p, &plan, slab, layup, now)
	if err != nil {
		return sawn{}, err
	}
	data := paper.CuttingDrawing(sheet)
	if ending == ".pdf" {
		if data, err = paper.Cutting(sheet, now); err != nil {
			return sawn{}, err
		}
	}
	return sawn{to, sheet}, os.WriteFile(to, data, 0o644)
}
