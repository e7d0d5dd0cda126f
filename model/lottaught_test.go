package model

import (
	"math"
	"testing"
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// What a run told of its lot comes along to the next project that pours it: the
// simulation without a journal then knows as much of it as the one with. What is
// waited for is never sooner than by the sheet, and a pour never cooler.
func TestLotComesAlong(t *testing.T) {
	past := poppyRun(t)
	for i := range past.Journal { // set like tape six hours sooner than it did: a fast lot
		if past.Journal[i].Feel == FeelTape {
			past.Journal[i].At = past.Journal[i].At.Add(-9 * time.Hour)
		}
		if past.Journal[i].Feel == FeelStrings {
			past.Journal[i].At = past.Journal[i].At.Add(-15 * time.Hour)
		}
	}
	pl := Make(past)
	c, err := Simulate(t.Context(), &past, &pl)
	if err != nil {
		t.Fatal(err)
	}
	taught := c.Layers[0].Taught
	if taught.Runs == 0 || taught.Scale <= 1 {
		t.Fatalf("the run taught %+v", taught)
	}
	simulated := func(how Reissue) (Project, LayerCuring) {
		t.Helper()
		how.ID = "again"
		next, err := Again(&past, how)
		if err != nil {
			t.Fatal(err)
		}
		pl := Make(next)
		c, err := Simulate(t.Context(), &next, &pl)
		if err != nil {
			t.Fatal(err)
		}
		return next, c.Layers[0]
	}
	next, with := simulated(Reissue{Curing: &c})
	_, without := simulated(Reissue{})
	if len(next.Lots) != 1 || next.Lots[0].Lot != "A-17" || next.Lots[0].Runs != taught.Runs {
		t.Fatalf("along came %+v", next.Lots)
	}
	if with.Taught != taught || without.Taught.Runs != 0 {
		t.Errorf("it knows %+v, want %+v; without %+v", with.Taught, taught, without.Taught)
	}
	if with.RecoatFrom.Value >= without.RecoatFrom.Value {
		t.Errorf("a fast lot opens after %v h, the sheet after %v h", with.RecoatFrom.Value.Hours(), without.RecoatFrom.Value.Hours())
	}
	if with.Demold.Value < without.Demold.Value-1 || with.Peak.Value < without.Peak.Value-0.01 {
		t.Errorf("learning loosened it: demold %v and %v, peak %v and %v", with.Demold.Value, without.Demold.Value, with.Peak.Value, without.Peak.Value)
	}
	if bad := next.Validate(); len(bad) > 0 {
		t.Errorf("it is not whole: %v", bad)
	}
	lot := "B-20"
	if other, fresh := simulated(Reissue{Curing: &c, Supplies: []Substitute{{Sheet: "s2", Lot: &lot}}}); len(other.Lots) > 0 || fresh.Taught.Runs != 0 {
		t.Errorf("another lot knows %+v", other.Lots)
	}
	// And once more, from the one that was made again: nothing counts twice.
	further, err := Again(&next, Reissue{})
	if err != nil || len(further.Lots) != 1 || further.Lots[0] != next.Lots[0] {
		t.Errorf("further it is %+v (%v)", further.Lots, err)
	}
}

// Two lists of runs tell the same together as one after the other: with the
// sheet's word for two runs, n runs of the logarithm x draw the pace to
// x·n/(n+2).
func TestLotAfterEarlierRuns(t *testing.T) {
	of := func(n int, x float64) cure.Learned {
		return cure.Learned{Scale: math.Exp(x * float64(n) / float64(n+2)), Heat: 1, Runs: n}
	}
	got, want := of(3, 0.2).After(of(1, 0.4)), math.Exp((3*0.2+1*0.4)/(4+2))
	if !close(got.Scale, want, 1e-12) || got.Runs != 4 || got.Heat != 1 {
		t.Errorf("together they say %+v, want %.6f", got, want)
	}
	if l := of(2, 0.3); l.After(cure.Learned{}) != l {
		t.Error("nothing known earlier changes something")
	}
}

// A pace from a file that no lot can have teaches nothing.
func TestLotOutOfRange(t *testing.T) {
	p := tray(300, 200, 30, 10)
	p.Lots = []LotTaught{{ID: "t1", Sheet: "s1", Pace: given(unit.Number(50)), Heat: given(unit.Number(1)), Runs: 3}}
	if len(p.lotsTold()) > 0 || len(p.Validate()) == 0 {
		t.Errorf("it is taken: %+v, %v", p.lotsTold(), p.Validate())
	}
}
