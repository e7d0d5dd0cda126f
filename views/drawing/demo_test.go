package drawing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"meniscus/model"
)

// demoJobs gives the invented jobs that come with the program, and their names.
func demoJobs(t *testing.T) (list []*model.Project, names []string) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "demo-*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no demo jobs: %v", err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		p, err := model.Import(data)
		if err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		list, names = append(list, &p), append(names, strings.TrimSuffix(filepath.Base(f), ".json"))
	}
	return list, names
}

// demos gives the plans of the demo jobs.
func demos(t *testing.T) (list []example) {
	t.Helper()
	jobs, names := demoJobs(t)
	for i, p := range jobs {
		plan := model.Make(*p)
		pick := ""
		if len(p.Pieces) > 0 {
			pick = p.Pieces[0].ID
		}
		list = append(list, example{names[i], &plan, p.Mold, pick})
	}
	return list
}

func TestDemoSectionsKeepClear(t *testing.T) {
	for _, e := range demos(t) {
		r := record(t, 760, 400)
		s := SectionScene{Plan: e.plan, Style: styleOf(paper)}
		s.Paint(r, s.Fit(r.Bounds()))
		checkFigures(t, e.name, r, "outline", "piece", "level")
		if len(s.Handles(r.Bounds(), s.Fit(r.Bounds()))) != len(e.plan.Layers) {
			t.Errorf("%s: not a handle for each of %d layers", e.name, len(e.plan.Layers))
		}
	}
}

func TestDemoPlansKeepClear(t *testing.T) {
	for _, e := range demos(t) {
		r := record(t, 800, 560)
		s := planOf(e, "")
		s.Paint(r, s.Fit(r.Bounds()))
		checkFigures(t, e.name, r, "outline", "piece")
		v := s.Fit(r.Bounds())
		for _, c := range e.plan.Drawing.Cavities {
			for _, p := range c.Pieces {
				if got := s.Hit(v.ToScreen(p.Centre), v); got != p.ID {
					t.Errorf("%s: the middle of %s hits %q", e.name, p.ID, got)
				}
			}
		}
	}
}
