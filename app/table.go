package app

import (
	"os"

	"meniscus/model"
)

// Table gives a table of the open project as a CSV file; kind is one of
// model.TableKinds.
func (s *Session) Table(kind string) ([]byte, error) {
	if !s.shot.Open {
		return nil, errNoProject
	}
	return tableOf(kind, &s.shot.Project, &s.shot.Plan)
}

// tableOf writes a table of a project with its plan.
func tableOf(kind string, p *model.Project, plan *model.Plan) ([]byte, error) {
	t, err := model.TableOf(kind, p, plan)
	if err != nil {
		return nil, err
	}
	return t.CSV()
}

// tabled tells of a table that was written.
type tabled struct {
	File  string `json:"file"`
	Table string `json:"table"`
}

// writeTable writes a table of an exported project into a file.
func writeTable(kind, from, to string) (tabled, error) {
	p, err := readProject(from)
	if err != nil {
		return tabled{}, err
	}
	plan := model.Make(p)
	data, err := tableOf(kind, &p, &plan)
	if err != nil {
		return tabled{}, err
	}
	return tabled{to, kind}, os.WriteFile(to, data, 0o644)
}
