package model

import (
	"context"
	"slices"
	"strings"
	"testing"
	"time"

	"meniscus/model/unit"
)

// TestFindingsOfThePast follows the hall shelf, of which the wood floats and the
// river leaks, and the poppy stand, of which an insert floats, through their
// pours: what has set is warned of no more, nor is what a piece left behind with
// its mold; what is still to be done to it, and what it will do, stays.
func TestFindingsOfThePast(t *testing.T) {
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	kinds := func(p *Project) (list []string) {
		pl := Make(*p)
		c, err := Simulate(context.Background(), p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range c.Noticed(&pl) {
			list = append(list, f.Kind+" "+f.Field+": "+f.What)
		}
		return list
	}
	has := func(list []string, start string) bool {
		return slices.ContainsFunc(list, func(f string) bool { return strings.HasPrefix(f, start) })
	}
	for _, job := range []struct {
		name   string
		pours  [2]string
		first  []string // until the second pour stands on the first
		second []string // until it is out of its mold
		always []string
	}{
		{"hall-shelf", [2]string{"l4", "l5"}, []string{"leak.much", "piece.floats"}, nil, []string{"piece.moves", "price.hour"}},
		{"poppy-stand", [2]string{"l3", "l4"}, nil, []string{"insert.floats inserts/i6"}, []string{"piece.moves", "wood.their-air"}},
	} {
		p := demo(t, job.name)
		p.Journal = nil
		log := func(hours float64, e Entry) {
			e.ID, e.At = p.NewID("e"), at.Add(time.Duration(hours*float64(time.Hour)))
			if err := p.Log(e, e.At.Add(time.Minute)); err != nil {
				t.Fatal(err)
			}
		}
		expect := func(when string, first, second bool) []string {
			t.Helper()
			list := kinds(&p)
			for _, kind := range job.first {
				if has(list, kind) != first {
					t.Errorf("%s, %s: %s: %t", job.name, when, kind, !first)
				}
			}
			for _, kind := range job.second {
				if has(list, kind) != second {
					t.Errorf("%s, %s: %s: %t", job.name, when, kind, !second)
				}
			}
			for _, kind := range job.always {
				if !has(list, kind) {
					t.Errorf("%s, %s: %s is not told any more", job.name, when, kind)
				}
			}
			return list
		}
		expect("before", true, true)
		log(0, Entry{Kind: EntryPourStarted, Layer: job.pours[0]})
		expect("while the first is liquid", true, true)
		log(30, Entry{Kind: EntryPourStarted, Layer: job.pours[1]})
		expect("with the second on it", false, true)
		log(300, Entry{Kind: EntryDemolded})
		for _, f := range expect("out of its mold", false, false) {
			kind, _, _ := strings.Cut(f, " ")
			if !beginsWith(kind, afterCast) {
				t.Errorf("%s out of its mold: %s", job.name, f)
			}
		}
		log(301, Entry{Kind: EntryWithdrawn, Of: p.Journal[len(p.Journal)-1].ID})
		expect("in its mold after all", false, true)
		if list := kinds(&p); !slices.ContainsFunc(list, func(f string) bool { kind, _, _ := strings.Cut(f, " "); return !beginsWith(kind, afterCast) }) {
			t.Errorf("%s: nothing of the cast is told while it is in its mold", job.name)
		}
	}
}

// TestWoodInResinIsNotMoved: that wood is wet or does not fit ends with the pour
// about it.
func TestWoodInResinIsNotMoved(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Journal = nil
	p.Pieces[0].Nature.Moisture = given(unit.Share(0.25))
	p.Pieces[0].X = 400 * unit.Millimetre
	for _, kind := range []string{"piece.wet", "piece.fit"} {
		if finding(Make(p), kind).Level != Stop {
			t.Errorf("%s is not told before the pour", kind)
		}
	}
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	if err := p.Log(Entry{ID: "e1", At: at, Kind: EntryPourStarted, Layer: p.Layers[0].ID}, at.Add(time.Hour)); err != nil {
		t.Fatal(err)
	}
	for _, kind := range []string{"piece.wet", "piece.fit"} {
		if f := finding(Make(p), kind); f.Kind != "" {
			t.Errorf("with resin about it: %+v", f)
		}
	}
}
