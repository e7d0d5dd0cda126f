package model

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// applied takes the proposal for a project.
func applied(t *testing.T, p Project, lim StageLimits) (Project, StageProposal) {
	t.Helper()
	s := stagesOf(t, p, lim)
	next := p.Clone()
	if err := ApplyStages(&next, s); err != nil {
		t.Fatal(err)
	}
	return next, s
}

func TestApplyingWhatIsPlannedChangesNothing(t *testing.T) {
	p := demo(t, "poppy-stand")
	next, s := applied(t, p, StageLimits{})
	if !s.Same || !reflect.DeepEqual(p, next) {
		t.Errorf("same %v; was %+v, is %+v", s.Same, p.Layers, next.Layers)
	}
}

func TestApplyKeepsTheWayALevelWasGiven(t *testing.T) {
	next, _ := applied(t, demo(t, "breakfast-boards"), StageLimits{})
	one, two := next.Layers[0], next.Layers[1]
	if one.ID != "l7" || one.By != ToDepth || one.To.Written != "8 mm" || two.ID != "l8" || two.By != ToDepth || two.To.Written != "11 mm" || one.To.By != unit.Rule {
		t.Errorf("%+v, %+v", one, two)
	}
}

func TestApplyMergesLayers(t *testing.T) {
	p := block() // 30 mm in one pour is fine
	p.Layers = []Layer{
		{ID: "l1", Name: "a", By: ToDepth, To: mm(10), Sheet: "s1"},
		{ID: "l2", Name: "b", By: ToDepth, To: mm(10), Sheet: "s1"},
		{ID: "l3", Name: "c", By: ToDepth, To: mm(10), Sheet: "s1"},
	}
	p.Inserts = []Insert{{ID: "i1", Name: "heads", Count: 1, Kind: InsertStanding, Diameter: mm(20), Tall: mm(8), On: OnLayer, Layer: "l1"}}
	p.Drafts = []Draft{{Field: "layers/l2/to", Text: "1o"}, {Field: "mold/depth", Text: "x"}}
	next, s := applied(t, p, StageLimits{})
	if s.Pours != 2 || s.Same || len(next.Layers) != 2 || next.Layers[0].ID != "l1" || next.Layers[1].ID != "l3" {
		t.Fatalf("%d pours, layers %+v", s.Pours, next.Layers)
	}
	if l := next.Layers[1]; l.To.Value != 20*unit.Millimetre || l.To.Written != "20 mm" {
		t.Errorf("the merged layer is %+v", l.To)
	}
	if in := next.Inserts[0]; in.Layer != "l1" || in.On != OnLayer {
		t.Errorf("the heads stand on %+v", in)
	}
	if len(next.Drafts) != 1 || next.Drafts[0].Field != "mold/depth" {
		t.Errorf("drafts %+v", next.Drafts)
	}
}

func TestApplySplitsALayer(t *testing.T) {
	p := block()
	p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(16)}
	p.Layers[0].Lot, p.Layers[0].Additives = "7", []Additive{{ID: "a1", Name: "mica", Share: given(unit.Share(0.01))}}
	next, s := applied(t, p, StageLimits{})
	if s.Pours != 2 || len(next.Layers) != 2 {
		t.Fatalf("%+v", s)
	}
	low, top := next.Layers[0], next.Layers[1]
	if top.ID != "l1" || low.ID == "l1" || low.Name != "pour 2" || low.Lot != "7" || len(low.Additives) != 1 || low.Additives[0].ID == "a1" {
		t.Errorf("%+v below %+v", low, top)
	}
	if list := next.Validate(); len(list) > 0 {
		t.Error(list)
	}
	if len(p.Layers) != 1 || p.Layers[0].Additives[0].ID != "a1" {
		t.Errorf("the project it was planned for became %+v", p.Layers)
	}
}

// A mass of tint in a layer that is split is not stirred into both parts.
func TestApplySplitsTheTint(t *testing.T) {
	p := block()
	p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(16)}
	p.Layers[0].Tint.Mass = given(12 * unit.Gram)
	total := Make(p).Layers[0].Mix.Total
	next, _ := applied(t, p, StageLimits{})
	for i := range next.Layers {
		c := next.Layers[i].Tint
		if c.Mass.Given() || math.Abs(float64(c.Share.Value)-12/total.Grams()) > 1e-12 {
			t.Errorf("%+v of %v", c, total)
		}
	}
}

func TestApplyLeavesWhatHasBeenPoured(t *testing.T) {
	p := block()
	p.Sheets[0].MaxLayer = Figure[unit.Length]{Taken: mm(16)}
	p.Layers = []Layer{
		{ID: "l1", Name: "a", By: ToDepth, To: mm(5), Sheet: "s1"}, // alone it would not be
		{ID: "l2", Name: "b", By: ToDepth, To: mm(5), Sheet: "s1"},
		{ID: "l3", Name: "c", By: ToDepth, To: mm(10), Sheet: "s1"},
		{ID: "l4", Name: "d", By: ToDepth, To: mm(10), Sheet: "s1"},
	}
	p.Journal = []Entry{{ID: "e1", At: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), Kind: EntryPourStarted, Layer: "l1"}}
	next, s := applied(t, p, StageLimits{})
	if s.Pours != 3 || !s.Layers[0].Poured || s.Layers[0].ID != "l1" || next.Layers[0].To.Value != 5*unit.Millimetre {
		t.Errorf("%d pours: %+v", s.Pours, s.Layers)
	}
	for i := range p.Layers {
		p.Journal = append(p.Journal, Entry{ID: "f" + itoa(i), At: time.Date(2026, 3, 2+i, 9, 0, 0, 0, time.UTC), Kind: EntryPourStarted, Layer: p.Layers[i].ID})
	}
	if same, s := applied(t, p, StageLimits{}); !s.Same || s.Pours != 4 || !reflect.DeepEqual(same, p) {
		t.Errorf("with all poured: %+v", s)
	}
}

func TestApplyRefusesWhatNoLongerFits(t *testing.T) {
	p := demo(t, "poppy-stand")
	s := stagesOf(t, p, StageLimits{})
	started := func(p *Project, layer string) {
		p.Journal = append(p.Journal, Entry{ID: "e1", At: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), Kind: EntryPourStarted, Layer: layer})
	}
	for name, change := range map[string]func(p *Project, s *StageProposal){
		"a layer is gone":      func(p *Project, _ *StageProposal) { p.Layers = p.Layers[:1] },
		"an insert is gone":    func(p *Project, _ *StageProposal) { p.Inserts = nil },
		"a poured one is left": func(p *Project, s *StageProposal) { started(p, "l3"); s.Layers = s.Layers[1:] },
		"it is not possible":   func(_ *Project, s *StageProposal) { s.Possible = false },
		"no layers":            func(_ *Project, s *StageProposal) { s.Layers = nil },
		"an upside-down level": func(_ *Project, s *StageProposal) { s.Layers[0].Top, s.Layers[1].Top = 0.02, 0.01 },
	} {
		q, proposal := p.Clone(), s
		proposal.Layers = slices.Clone(s.Layers)
		change(&q, &proposal)
		before := q.Clone()
		err := ApplyStages(&q, proposal)
		var problem *Problem
		if !errors.As(err, &problem) || !reflect.DeepEqual(before, q) {
			t.Errorf("%s: %v, and changed %v", name, err, !reflect.DeepEqual(before, q))
		}
	}
}

// TestApplyIsExact holds that the levels of a project after a proposal are the
// proposal's, in whatever unit they are written.
func TestApplyIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, lim := randomStages(t)
		p.Style.Lengths = rapid.SampledFrom([]unit.LengthUnit{"", unit.InCentimetres, unit.InInches}).Draw(t, "unit")
		p.Layers[0].To.Value += unit.Length(rapid.Float64Range(0, 0.5e-3).Draw(t, "crooked"))
		pl := Make(p)
		s, err := ProposeStages(t.Context(), &p, &pl, lim)
		if err != nil || !s.Possible {
			return
		}
		if err := ApplyStages(&p, s); err != nil {
			t.Fatal(err)
		}
		after := Make(p)
		for k := range s.Layers {
			if d := float64(after.Layers[k].Top - s.Layers[k].Top); d > 1.1e-6 || d < -1.1e-6 {
				t.Fatalf("layer %d ends at %v, proposed %v (%q)", k, after.Layers[k].Top, s.Layers[k].Top, p.Layers[k].To.Written)
			}
		}
		for _, in := range s.Inserts {
			if p.Insert(in.ID).Layer != p.Layers[in.Layer].ID {
				t.Fatalf("%s stands on %s", in.ID, p.Insert(in.ID).Layer)
			}
		}
		again, err := ProposeStages(t.Context(), &p, &after, lim)
		if err != nil || !again.Possible || again.Pours > s.Pours {
			t.Fatalf("planned again: %v %+v", err, again)
		}
	})
}
