package views

import (
	"strings"
	"testing"

	"meniscus/model"
)

func TestNatureSaysWhatTheShelfWillDo(t *testing.T) {
	b, p := moldOn(t, "hall-shelf")
	p.pane.show(moldNature)
	for _, words := range []string{"not yet", "wetter than it will be", "10 %, give or take 1.5", "6.9 % (6.3 to 7.6)", "It will shrink by 1.2 mm across.", "0.5 and 1.9 mm", "Taken as white oak", "Seal it first", "Pour in the evening"} {
		if !shows(p.pane.root, words) {
			t.Errorf("it does not say %q: %q", words, texts(p.pane.root))
		}
	}
	b.Enter("pieces/p1/nature/moisture", "7 %")
	b.Enter("pieces/p1/sealed", "yes")
	b.settle()
	for _, words := range []string{"yes", "Sealed all round: it neither blows nor drinks."} {
		if !shows(p.pane.root, words) {
			t.Errorf("dried and sealed it does not say %q: %q", words, texts(p.pane.root))
		}
	}
	if shows(p.pane.root, "Seal it first") {
		t.Error("it asks to seal what is sealed")
	}
}

// TestNatureInputs: every field of a piece's nature and of the two rooms has its
// input in the section, and what is entered there reaches the project.
func TestNatureInputs(t *testing.T) {
	b, p := moldOn(t, "poppy-stand")
	p.pane.show(moldNature)
	for path, text := range map[string]string{
		"pieces/p1/nature/moisture": "8.5 %", "pieces/p1/nature/width": "150 mm", "pieces/p1/nature/radial": "4 %", "pieces/p1/nature/tangential": "8 %",
		"shop/humidity": "48 %", "shop/theirs/temperature": "20 °C", "shop/theirs/humidity": "40 %", "shop/wood": "22 °C", "shop/room": "23 °C",
	} {
		f := p.in.form.Field(path)
		if f == nil {
			t.Errorf("there is no input for %s", path)
			continue
		}
		f.Restore(text)
		f.Commit()
		b.settle()
		shot := b.Snapshot()
		if got, _ := model.Show(&shot.Project, path); got != text {
			t.Errorf("%s became %q, want %q", path, got, text)
		}
	}
	for _, field := range []string{"pieces/p1/nature/sawn", "pieces/p1/nature/bond", "pieces/p1/nature/crosswise", "pieces/p1/nature/pores"} {
		if p.pane.marks[field] == nil {
			t.Errorf("nothing stands for %s", field)
		}
	}
	for _, field := range []string{"pieces/p1/nature/moisture", "shop/theirs/humidity"} {
		p.pane.show(moldSizes)
		b.desk.goTo(model.Finding{Field: field, Subject: model.OfMold})
		if p.pane.section != moldNature {
			t.Errorf("a finding about %s leads to %s", field, p.pane.section)
		}
	}
}

// TestNatureStaysOpen: choosing a piece in the drawing changes whose moisture is
// shown, not what is shown of it.
func TestNatureStaysOpen(t *testing.T) {
	_, p := moldOn(t, "hall-shelf")
	p.pane.show(moldNature)
	p.selectPiece("p2")
	if p.pane.section != moldNature || p.piece != "p2" {
		t.Errorf("it shows %s of %s", p.pane.section, p.piece)
	}
}

// TestMoistureChart: both rooms lie on the curve, and the meter's line inside
// the chart however wet the wood.
func TestMoistureChart(t *testing.T) {
	b, _ := moldOn(t, "hall-shelf")
	for _, typed := range []string{"10 %", "45 %", "2 %"} {
		b.Enter("pieces/p1/nature/moisture", typed)
		b.settle()
		shot := b.Snapshot()
		n, ok := shot.Plan.Nature(&shot.Project, "p1")
		if !ok {
			t.Fatal("nothing is told")
		}
		c := moistureChart(&n)
		if len(c.Marks) != 3 || len(c.Series[0].Points) < 30 {
			t.Fatalf("%d marks, %d points", len(c.Marks), len(c.Series[0].Points))
		}
		for _, m := range c.Marks {
			if m.Y < c.Y.Min || m.Y > c.Y.Max || strings.TrimSpace(m.Text) == "" {
				t.Errorf("%s: %q lies at %g", typed, m.Text, m.Y)
			}
		}
	}
}
