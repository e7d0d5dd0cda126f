package model

import (
	"context"
	"testing"
)

// stagesOf proposes the pours of a project.
func stagesOf(t testing.TB, p Project, lim StageLimits) StageProposal {
	t.Helper()
	pl := Make(p)
	s, err := ProposeStages(context.Background(), &p, &pl, lim)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestXShow(t *testing.T) {
	for _, n := range []string{"poppy-stand", "breakfast-boards", "hall-shelf"} {
		s := stagesOf(t, demo(t, n), StageLimits{})
		t.Logf("%s %+v", n, s)
	}
	p := demo(t, "poppy-stand")
	p.Inserts[1].Tall = mm(15)
	t.Logf("%+v", stagesOf(t, p, StageLimits{}))
	p = demo(t, "poppy-stand")
	p.Inserts[1].Tall = mm(13.5)
	t.Logf("%+v", stagesOf(t, p, StageLimits{}))
}
