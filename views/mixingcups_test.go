package views

import (
	"context"
	"slices"
	"testing"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
)

// cupsShown shows the cups of a demo's first layer as they are after a change of
// the project.
func cupsShown(t *testing.T, change func(*model.Project)) (*mixingPage, app.Snapshot, *model.CupPlan) {
	b, p := mixingTurned(t, "breakfast-boards", "weigh")
	if err := b.Edit("cups", "", func(m *model.Project) error { change(m); return nil }); err != nil {
		t.Fatal(err)
	}
	b.settle()
	shot := b.Snapshot()
	c, err := model.Simulate(context.Background(), &shot.Project, &shot.Plan)
	if err != nil {
		t.Fatal(err)
	}
	shot.Curing, shot.CuringFresh, shot.CuringTrouble = c, true, ""
	p.cups.see(&shot, &shot.Plan.Layers[0])
	return p, shot, c.Layers[0].Cups
}

func TestMixingShowsTheCups(t *testing.T) {
	p, shot, cups := cupsShown(t, func(m *model.Project) { m.Mixing.CupHolds = unit.Taken[unit.Mass]{Value: 225 * unit.Gram} })
	s, l := shot.Project.Style, &shot.Plan.Layers[0]
	if len(cups.Batches) < 2 {
		t.Fatalf("%+v", cups)
	}
	for i := range cups.Batches {
		b := &cups.Batches[i]
		for _, want := range []string{"A " + s.MassTo(b.A, l.Mix.Step) + ", B " + s.MassTo(b.B, l.Mix.Step), s.MassTo(b.Mass, l.Mix.Step), intoWords(s, l.Mix.Step, b)} {
			if !shows(p.cups.root, want) {
				t.Errorf("cup %d: no %q", i+1, want)
			}
		}
	}
	for _, want := range []string{cupsHead(s, l.Mix.Step, cups), "Not fewer, because of " + cups.Binds + ".", cups.Forgotten.Text, model.CupHabits(s)} {
		if !shows(p.cups.root, want) {
			t.Errorf("no %q", want)
		}
	}
	// Cups of a mix that has changed since are not shown beside it.
	shot.CuringFresh = false
	changed := *l
	changed.Mix.Total *= 1.1
	p.cups.see(&shot, &changed)
	if !shows(p.cups.root, "Being worked out…") || shows(p.cups.root, cups.Forgotten.Text) {
		t.Error("cups of another mix are shown")
	}
	p.cups.see(&shot, l)
	if !shows(p.cups.root, cups.Forgotten.Text) {
		t.Error("cups of this mix are gone while the bands are worked out")
	}
	// While they are poured one after the other they stay in sight; then they are gone.
	poured := *l
	poured.Status = model.Poured
	if p.cups.see(&shot, &poured); !shows(p.cups.root, cups.Forgotten.Text) {
		t.Error("cups of a pour that goes on are gone")
	}
	shot.Curing.Layers = slices.Clone(shot.Curing.Layers)
	shot.Curing.Layers[0].Cups = nil
	if p.cups.see(&shot, &poured); shows(p.cups.root, cups.Forgotten.Text) || !shows(p.cups.root, "has been poured.") {
		t.Error("cups of a pour that is done")
	}
	if p.cups.see(&shot, nil); shows(p.cups.root, "has been poured.") {
		t.Error("without a pour it tells of one")
	}
}

func TestMixingSaysWhyCupsCannotBePoured(t *testing.T) {
	p, _, cups := cupsShown(t, func(m *model.Project) { m.Sheets[0].WorkingTime.Value = 180 })
	for _, want := range []string{"It cannot be poured in time: " + cups.Why + ".", "The smallest change: " + cups.Change + "."} {
		if cups.Possible || !shows(p.cups.root, want) {
			t.Errorf("no %q", want)
		}
	}
}

func TestMixingCupInputsReachThePlan(t *testing.T) {
	b, p := mixingOn(t, "breakfast-boards")
	typeInto(t, b, mixingKey, "mixing/cupHolds", "1000")
	chooseIn(t, p.cups.root, "", "10 min")
	b.settle()
	m := b.Snapshot().Project.Mixing
	if m.CupHolds.Value != 1 || m.CupRest.Written != "10 min" {
		t.Errorf("%+v %+v", m.CupHolds, m.CupRest)
	}
	chooseIn(t, p.cups.root, "10 min", "")
	b.settle()
	if m := b.Snapshot().Project.Mixing; m.CupRest.Given() {
		t.Errorf("%+v", m.CupRest)
	}
}
