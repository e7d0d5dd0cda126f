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
