package model

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

// TestFinishAnswer: of the tray of TestTrimByHand 196.6 by 146.6 by 37 mm are
// left. The length is known to 0.5685 mm as a standard uncertainty, which is 1.645
// times as much between 5 and 95 %: 0.935 either way.
func TestFinishAnswer(t *testing.T) {
	p := draftTray()
	pl := Make(p)
	within(t, "give or take", pl.Finish.Trim.GiveOrTake().Millimetres(), 0.935, 1e-3)
	for _, c := range []struct {
		style unit.Style
		want  string
	}{
		{unit.Style{}, "196.6 × 146.6 × 37 mm, give or take 0.9 mm"},
		{unit.Style{Lengths: unit.InInches, Grain: unit.Sixteenth}, "7 3/4 × 5 3/4 × 1 7/16 in, give or take 1/32 in"},
	} {
		if got := pl.Finish.Answer(c.style); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	p.Finish.Trim.Shape = TrimCircle
	pl = Make(p)
	if got := pl.Finish.Answer(unit.Style{}); !strings.HasPrefix(got, "146.6 mm across, 37 mm thick, give or take ") {
		t.Errorf("a circle: %q", got)
	}
	p.Finish.Trim.Extra = mm(90)
	pl = Make(p)
	if got := pl.Finish.Answer(unit.Style{}); got != "Nothing is left inside the edges" {
		t.Errorf("with nothing left: %q", got)
	}
	pl = Make(Project{})
	if got := pl.Finish.Answer(unit.Style{}); !strings.HasPrefix(got, "Not known yet") {
		t.Errorf("of nothing: %q", got)
	}
}

// TestDrillsInTurn: the wide and shallow first; what is mounted gets its own hole
// where it is there that the thread bites, or that the screw passes.
func TestDrillsInTurn(t *testing.T) {
	p := draftTray()
	handle := p.AddMount(MountHandle)
	foot := p.AddMount(MountFoot)
	p.Mount(foot).Thickness = mm(6)
	pl := Make(p)
	for id, want := range map[string]string{
		handle: "Counterbore, Clearance hole",
		foot:   "Pilot hole, Hole in what is mounted",
	} {
		m := pl.Finish.Mount(id)
		var list []string
		for _, d := range m.Drills(unit.Style{}) {
			list = append(list, d.What)
			if !strings.HasSuffix(d.Wide, " mm") && !strings.HasSuffix(d.Wide, " in)") {
				t.Errorf("%s of %s is %q wide", d.What, m.Name, d.Wide)
			}
		}
		if got := strings.Join(list, ", "); got != want {
			t.Errorf("%s: %s, want %s", m.Name, got, want)
		}
	}
	p.Mount(handle).Long = mm(6)
	pl = Make(p)
	m := pl.Finish.Mount(handle)
	if m.Drills(unit.Style{}) != nil || m.ScrewWords() != "M4 × 6 mm does not work" {
		t.Errorf("a screw that does not reach: %q, %v", m.ScrewWords(), m.Drills(unit.Style{}))
	}
}
