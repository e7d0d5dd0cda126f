package model

import (
	"testing"
	"time"

	"meniscus/model/unit"
)

func TestTimedGoesByTheSimulation(t *testing.T) {
	p := pouredAt(twoPours(), "l1", firstPour)
	c := curedPours()
	c.Layers[0].RecoatTo = Known[unit.Span]{Absent: true}
	timed := timedPlan(p, &c)
	sheets := Make(p)
	first := timed.Layers[0].Times
	if first.RecoatFrom != c.Layers[0].RecoatFrom || first.Demold != c.Layers[0].Demold || first.FullCure != sheets.Layers[0].Times.FullCure {
		t.Errorf("times %+v", first)
	}
	if first.RecoatTo != sheets.Layers[0].Times.RecoatTo {
		t.Errorf("what the simulation does not tell is %+v, not the sheet's", first.RecoatTo)
	}
	if w := timed.Recoat("l2", firstPour.Add(4*time.Hour+time.Minute)); w.State != RecoatEarly || w.Off != 59*time.Minute {
		t.Errorf("against the simulation's window: %+v", w)
	}
	if len(sheets.Layers[0].Times.RecoatFrom.Source) == 0 || sheets.Layers[0].Times.RecoatFrom == first.RecoatFrom {
		t.Error("the plan itself was changed")
	}
}

// A simulation of another project, and one that was worked out before the pour
// was started, does not decide what is due.
func TestTimedLeavesAnOlderSimulationsSteps(t *testing.T) {
	p := twoPours()
	c := curedPours()
	c.Steps = []Step{{Kind: StepPour, Layer: "l1", Label: "of another time"}}
	c.Layers[0].Assumed = true
	plan := Make(pouredAt(p, "l1", firstPour))
	c.Project = plan.Project
	if timed := c.Timed(&plan); timed.Steps[0].Label == "of another time" {
		t.Error("steps from before the pour")
	}
	before := Make(p)
	if timed := c.Timed(&before); timed.Steps[0].Label != "of another time" {
		t.Error("the simulation's own steps are left out")
	}
	c.Project = "another"
	if timed := c.Timed(&before); timed.Steps[0].Label == "of another time" || timed.Layers[0].Times != before.Layers[0].Times {
		t.Error("the simulation of another project")
	}
}

func TestTimelineShowsHowSureItsEndsAre(t *testing.T) {
	c := curedPours()
	plan := timedPlan(pouredAt(twoPours(), "l1", firstPour), &c)
	after := func(h float64) time.Time { return firstPour.Add(unit.Span(h * float64(unit.Hour)).Duration()) }
	b := plan.Timeline(firstPour)[0].Bars[1]
	want := Bar{Kind: BarRecoat, From: after(5), To: after(9), Early: after(4), SureFrom: after(7), SureTo: after(8), Late: after(12)}
	if b != want {
		t.Errorf("%+v, want %+v", b, want)
	}
	plain := Make(twoPours())
	if b := plain.Timeline(firstPour)[0].Bars[1]; !b.Early.Equal(b.From) || !b.SureFrom.Equal(b.From) || !b.SureTo.Equal(b.To) || !b.Late.Equal(b.To) {
		t.Errorf("without a band: %+v", b)
	}
}
