package views

import (
	"strings"
	"testing"

	"meniscus/model/unit"
)

func TestReachWords(t *testing.T) {
	b, _ := moldOn(t, "breakfast-boards")
	shot := b.Snapshot()
	s, fill := shot.Project.Style, shot.Plan.Drawing.Fill
	half := fill.Depth() / 2
	// Half the depth's own volume comes back to half the depth.
	text := s.Volume(fill.Below(half))
	words, problem := reachWords(&shot, text)
	if problem != "" || !strings.HasPrefix(words, s.Length(half)+" from the floor, ") {
		t.Errorf("%s reaches %q, %q; want %s", text, words, problem, s.Length(half))
	}
	for text, want := range map[string]string{"": "", "900 l": "too much: ", "0": s.Length(0) + " from the floor"} {
		if words, problem := reachWords(&shot, text); !strings.Contains(words, want) || problem != "" {
			t.Errorf("%q: %q, %q", text, words, problem)
		}
	}
	for _, text := range []string{"abc", "-3 ml"} {
		if words, problem := reachWords(&shot, text); words != "" || problem == "" {
			t.Errorf("%q: %q, %q", text, words, problem)
		}
	}
}

func TestReachIsAskedInTheCurveOnly(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	before := b.Snapshot().Undo
	if p.draw.reach.root.Visible() {
		t.Error("it is asked beside the plan")
	}
	p.draw.pick(moldCurve)
	if !p.draw.reach.root.Visible() {
		t.Fatal("it is not asked beside the curve")
	}
	p.pane.show(moldWood) // builds the inputs anew
	p.draw.see(&p.shot)
	if !p.in.form.Focus(reachPath) {
		t.Fatal("the question has left the form")
	}
	p.draw.reach.ask("900 ml")
	b.settle()
	want := b.Snapshot().Project.Style.Length(b.Snapshot().Plan.Drawing.Fill.Level(900 * unit.Millilitre))
	if !strings.HasPrefix(p.draw.reach.said.Text(), want+" from the floor") {
		t.Errorf("said %q, want %s", p.draw.reach.said.Text(), want)
	}
	if b.Snapshot().Undo != before {
		t.Error("the question was kept")
	}
}
