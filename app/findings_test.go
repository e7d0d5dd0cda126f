package app

import (
	"testing"

	"meniscus/model"
)

func TestFindingsHoldThoseOfTheSimulation(t *testing.T) {
	s := Snapshot{Plan: model.Plan{Project: "p", Findings: []model.Finding{{Kind: "a", Level: model.Check, Subject: model.OfMold}, {Kind: "b", Level: model.Note, Subject: model.OfCure}}}}
	s.Curing = model.Curing{Project: "p", Findings: []model.Finding{{Kind: "hot", Level: model.Stop, Subject: model.OfCure}}}
	kinds := func(list []model.Finding) (text string) {
		for _, f := range list {
			text += f.Kind + " "
		}
		return text
	}
	if got := kinds(s.Findings()); got != "hot a b " {
		t.Errorf("all: %q", got)
	}
	if got := kinds(s.Findings(model.OfCure)); got != "hot b " {
		t.Errorf("of the cure: %q", got)
	}
	s.Curing.Project = "another"
	if got := kinds(s.Findings()); got != "a b " {
		t.Errorf("with another project's: %q", got)
	}
}
