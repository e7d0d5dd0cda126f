package model

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// page writes a page of changes as a maker would read it.
func (s ReissueSheet) page() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", s.Lead, s.Headline)
	for _, part := range []struct {
		title string
		list  []Finding
	}{{"no longer allowed", s.Refused}, {"still not allowed", s.Still}, {"look after", s.Look}, {"mended", s.Mended}} {
		for _, f := range part.list {
			fmt.Fprintf(&b, "%s, %s: %s [%s] → %s (%s)\n", part.title, f.Level, f.What, f.Why, f.Do, f.Field)
		}
	}
	for _, c := range s.Changes {
		line := c.Group + " | " + c.Label + " | " + c.Was
		if !c.Same {
			line += " → " + c.Now + " " + c.Ratio
		}
		fmt.Fprintln(&b, strings.TrimSpace(line))
	}
	fmt.Fprintln(&b, s.Tested)
	return b.String()
}

// issued makes a project again and gives the page of changes, with the curing.
func issued(t *testing.T, past Project, how Reissue) (Project, ReissueSheet) {
	t.Helper()
	next, err := Again(&past, how)
	if err != nil {
		t.Fatal(err)
	}
	issue := func(p Project) Issue {
		p = p.Recipe()
		pl := Make(p)
		c, err := Simulate(t.Context(), &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		return Issue{Project: &p, Plan: &pl, Curing: &c}
	}
	return next, PageOfChanges(issue(past), issue(next))
}

// Each demo job, to another mold. The pages are read as a maker would before
// they are taken over: AGAIN_PAGES=1 writes them anew.
func TestDemosAgain(t *testing.T) {
	created := time.Date(2027, 3, 1, 9, 0, 0, 0, time.UTC)
	lot := "B-20"
	for name, how := range map[string]func(p *Project) Reissue{
		"poppy-stand": func(p *Project) Reissue { // to a smaller hexagon, the wood cut to it, another lot
			m := p.Mold
			m.Name, m.Span = "small hexagon", mm(260)
			return Reissue{Mold: &m, Wood: ScaleWood, Supplies: []Substitute{{Sheet: "s2", Lot: &lot}}}
		},
		"breakfast-boards": func(p *Project) Reissue { // in summer, to a deeper mold of three cavities
			m := p.Mold
			m.Name, m.Count, m.Depth = "mold of three", 3, mm(40)
			return Reissue{Mold: &m, Levels: WithDepth, Season: &Season{Room: given(unit.Celsius(27)), Night: given(unit.Celsius(22)), Humidity: given(unit.Share(0.6))}}
		},
		"hall-shelf": func(p *Project) Reissue { // to a shallower and shorter form, wood still to come
			m := p.Mold
			m.Name, m.Length, m.Depth = "short form", mm(800), mm(38)
			return Reissue{Mold: &m, Wood: RetraceWood}
		},
	} {
		t.Run(name, func(t *testing.T) {
			past := demo(t, name)
			h := how(&past)
			h.ID, h.Created = "again", created
			_, sheet := issued(t, past, h)
			file, got := "../testdata/again/"+name+".txt", sheet.page()
			if os.Getenv("AGAIN_PAGES") != "" {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("the page reads\n%s\nit should read\n%s", got, want)
			}
		})
	}
}
