package model

import (
	"testing"
	"time"
)

// A tray with two pours, step by step: what was poured last, and whether the piece
// is in its mold, are what the journal tells.
func TestInMold(t *testing.T) {
	p := twoPours()
	layers := []string{p.Layers[0].ID, p.Layers[1].ID}
	for _, c := range []struct {
		did                 func()
		last                string
		can, demolded, stay bool
	}{
		{func() {}, "", false, false, true},
		{func() { p = pouredAt(p, layers[0], firstPour) }, layers[0], false, false, true},
		{func() { p = pouredAt(p, layers[1], firstPour.Add(6*time.Hour)) }, layers[1], true, false, true},
		{func() {
			p.Journal = append(p.Journal, Entry{ID: "out", At: firstPour.Add(72 * time.Hour), Kind: EntryDemolded})
		}, layers[1], false, true, false},
	} {
		c.did()
		plan := Make(p)
		last := ""
		if l := plan.LastPoured(); l != nil {
			last = l.ID
		}
		if last != c.last || plan.CanDemold() != c.can || plan.Demolded() != c.demolded || plan.InMold() != c.stay {
			t.Errorf("after %d entries: last %q, can %v, demolded %v, in mold %v; want %+v", len(p.Journal), last, plan.CanDemold(), plan.Demolded(), plan.InMold(), c)
		}
	}
}

// Where no data sheet says when a piece can come out of its mold, or the pour runs
// away, it can be taken out all the same, and that nothing tells when is known.
func TestInMoldWithoutATime(t *testing.T) {
	p := twoPours()
	for i := range p.Layers {
		p.Layers[i].Sheet = ""
		p = pouredAt(p, p.Layers[i].ID, firstPour.Add(time.Duration(i)*6*time.Hour))
	}
	plan := Make(p)
	if !plan.CanDemold() || !plan.DemoldUnknown() || plan.Demolded() {
		t.Errorf("without a resin: can %v, unknown %v, demolded %v", plan.CanDemold(), plan.DemoldUnknown(), plan.Demolded())
	}
	ask := BenchAsk{Now: firstPour.Add(20 * time.Hour)}
	m := plan.Moment(&p, &Curing{}, ask)
	if m.More != TryFirst || len(m.Acts) != 2 || m.Acts[0].Entry.Kind != EntryDemolded {
		t.Errorf("at the bench: %+v", m)
	}
	p.Journal = append(p.Journal, Entry{ID: "out", At: firstPour.Add(72 * time.Hour), Kind: EntryDemolded})
	if plan = Make(p); plan.CanDemold() || plan.DemoldUnknown() || !plan.Demolded() {
		t.Error("taken out, it is not known to be")
	}

	p = twoPours()
	for i := range p.Layers {
		p = pouredAt(p, p.Layers[i].ID, firstPour.Add(time.Duration(i)*6*time.Hour))
	}
	plan = Make(p)
	if plan.DemoldUnknown() {
		t.Error("with a sheet, or what usually is so in its place, nothing is told")
	}
	hot := Curing{Project: p.ID}
	for _, l := range plan.Layers {
		hot.Layers = append(hot.Layers, LayerCuring{ID: l.ID, Ready: true, RunsAway: true})
	}
	hot.Steps = p.steps(hot.Timed(&plan).Layers)
	if timed := hot.Timed(&plan); !timed.CanDemold() || !timed.DemoldUnknown() {
		t.Errorf("running away: can %v, unknown %v", timed.CanDemold(), timed.DemoldUnknown())
	}
}
