package views

import (
	"strings"
	"testing"

	"meniscus/model"
	"meniscus/model/unit"
)

// TestMixingMeasuresByVolume: the inputs of the cup are behind one touch, the
// marks are those of the plan, and what they leave open is said.
func TestMixingMeasuresByVolume(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	v := p.volume
	if v.unfolded || !v.shown.Hidden || !v.refused.Hidden {
		t.Fatal("it is open though no cup is given")
	}
	tapOn(t, v.root, "No scale?")
	if p.in.form.Field(vesselPath+"cupTall") == nil || p.in.form.Field(vesselPath+"lineStep") != nil {
		t.Fatal("the sizes stay folded")
	}
	for path, text := range map[string]string{"floorAcross": "80", "brimAcross": "110", "cupTall": "130"} {
		typeInto(t, b, mixingKey, vesselPath+path, text)
	}
	chooseIn(t, v.root, "", string(unit.InMillilitres))
	b.settle()
	typeInto(t, b, mixingKey, vesselPath+"lineStep", "10")
	b.settle()
	if !cureSays(v.root, "fill it with water to its line of") {
		t.Errorf("lines that were not checked: %q", v.also.Text())
	}
	typeInto(t, b, mixingKey, vesselPath+"lineReads", "500")
	typeInto(t, b, mixingKey, vesselPath+"lineWater", "499")
	b.settle()
	shot := b.Snapshot()
	l := p.chosen()
	c := shot.Project.CupMarks(l, &l.Mix)
	if !c.Ready || v.shown.Hidden || !v.refused.Hidden {
		t.Fatalf("%+v", c)
	}
	s := shot.Project.Style
	words := markWords(s, &shot.Project.Mixing.Vessel, &c, &c.Marks[1])
	if words[0] != "then B up to "+s.Length(c.Marks[1].Wall)+" up the wall" || !strings.Contains(strings.Join(words, " "), "its line of") {
		t.Errorf("%q", words)
	}
	for _, want := range []string{c.Words(s), "What is stirred in is weighed"} {
		if !shows(v.root, want) && !cureSays(v.root, want) {
			t.Errorf("no %q", want)
		}
	}
	moldLegible(t, "by volume", v.root)
	// A cup too small is refused, and leads to what would help.
	typeInto(t, b, mixingKey, vesselPath+"cupTall", "30")
	b.settle()
	if v.refused.Hidden || !v.shown.Hidden || v.field != "mixing/cupHolds" {
		t.Errorf("%q, %q", v.why.Text(), v.field)
	}
	// A finding opens the inputs that it points at.
	tapOn(t, v.root, "Fold")
	if p.in.form.Field(vesselPath+"cupTall") != nil {
		t.Error("folded inputs stay")
	}
	p.tabs.turn("day")
	if !p.focus(vesselPath+"floorAcross") || !v.unfolded || p.tabs.choice.Chosen() != "weigh" {
		t.Error("a finding does not lead to the cup")
	}
}

// TestMixingRefusesMarksWithoutDensities: a ratio by weight is not measured.
func TestMixingRefusesMarksWithoutDensities(t *testing.T) {
	b, p := mixingTurned(t, "poppy-stand", "weigh")
	if err := b.Edit("no densities", "", func(m *model.Project) error {
		m.Mixing.Vessel = model.Vessel{Floor: unit.Dim{Value: 0.08}, Tall: unit.Dim{Value: 0.13}}
		for i := range m.Sheets {
			m.Sheets[i].Weight = model.Ratio{A: unit.Taken[unit.Number]{Value: 100}, B: unit.Taken[unit.Number]{Value: 45}}
			m.Sheets[i].Volume = model.Ratio{}
			m.Sheets[i].DensityA, m.Sheets[i].DensityB = model.Figure[unit.Density]{}, model.Figure[unit.Density]{}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	b.settle()
	if p.volume.refused.Hidden || !strings.Contains(p.volume.why.Text(), "ratio is by weight") || !p.volume.shown.Hidden {
		t.Errorf("%q", p.volume.why.Text())
	}
}
