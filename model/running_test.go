package model

import (
	"context"
	"slices"
	"testing"
	"time"
)

// TestRunning follows a piece of two layers by the clock: what is kept of it,
// what comes next, what has come due, and what that leaves to do.
func TestRunning(t *testing.T) {
	start := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	p := calendarDemo(t, "poppy-stand", start, 1)
	pl := Make(p)
	r := NewRunning(&p, &pl, false)
	if r.Settled || r.Out || len(r.Steps) < 4 || r.Steps[0].Kind != StepPour {
		t.Fatalf("%+v", r)
	}
	work, open, shut := r.Steps[1], r.Steps[2], r.Steps[3]
	if work.Kind != StepWorkEnds || open.Kind != StepRecoat || shut.Kind != StepRecoatEnd {
		t.Fatalf("%+v", r.Steps)
	}
	for _, c := range []struct {
		now  time.Time
		next StepKind
	}{
		{start, StepWorkEnds}, {work.Due, StepWorkEnds}, {work.Due.Add(time.Second), StepRecoat}, {open.Due.Add(time.Second), StepRecoatEnd}, {shut.Due.Add(time.Second), ""},
	} {
		s, ok := r.Next(c.now)
		if s.Kind != c.next || ok != (c.next != "") {
			t.Errorf("at %v: next %q, want %q", c.now, s.Kind, c.next)
		}
	}
	if got := r.CameDue(start, open.Due); len(got) != 2 || got[0] != work || got[1] != open {
		t.Errorf("up to the opening, on the second: %+v", got)
	}
	if got := r.CameDue(work.Due, open.Due.Add(-time.Second)); len(got) != 0 {
		t.Errorf("between two: %+v", got)
	}
	do, until := r.Leaves(open, open.Due.Add(time.Minute))
	if do != "you can still pour the next layer" || !until.Equal(shut.Due) {
		t.Errorf("of an open window: %q until %v", do, until)
	}
	if do, _ := r.Leaves(open, shut.Due); do != "" {
		t.Errorf("of a window that has closed: %q", do)
	}
	if do, _ := r.Leaves(shut, shut.Due); do != "let it cure and sand it before the next pour" {
		t.Errorf("of its end: %q", do)
	}
	if (*Running)(nil).CameDue(start, shut.Due) != nil {
		t.Error("a clock that is not known has steps")
	}
}

// TestRunningOfNoPour: with nothing poured there is nothing for the simulation
// to say.
func TestRunningOfNoPour(t *testing.T) {
	p := calendarDemo(t, "poppy-stand", time.Time{}, 0)
	pl := Make(p)
	if r := NewRunning(&p, &pl, false); !r.Settled || len(r.Steps) != 0 {
		t.Errorf("%+v", r)
	}
}

// TestRunningOut: out of its mold a piece has no clock that runs, though its
// full cure is still to come.
func TestRunningOut(t *testing.T) {
	start := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	p := calendarDemo(t, "poppy-stand", start, 2)
	out := start.AddDate(0, 0, 4)
	if err := p.Log(Entry{ID: "out", Kind: EntryDemolded, At: out}, out); err != nil {
		t.Fatal(err)
	}
	pl := Make(p)
	r := NewRunning(&p, &pl, true)
	if s, ok := r.Next(start); ok || !r.Out {
		t.Errorf("next is %+v", s)
	}
	if got := r.CameDue(start, start.AddDate(1, 0, 0)); len(got) != 1 || got[0].Kind != StepCured {
		t.Errorf("still to come due: %+v", got)
	}
}

// TestBandsMoveNoStep: the clock of a piece may be kept before its bands are
// known.
func TestBandsMoveNoStep(t *testing.T) {
	p := calendarDemo(t, "hall-shelf", time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC), 1)
	pl := Make(p)
	c, err := Simulate(context.Background(), &p, &pl)
	if err != nil {
		t.Fatal(err)
	}
	wide, err := Widen(context.Background(), &p, &pl, func(n int, f func(int)) {
		for i := range n {
			f(i)
		}
	})
	if err != nil || !slices.Equal(c.Steps, wide.Steps) || len(c.Steps) == 0 {
		t.Errorf("%v: %+v\nwant %+v", err, wide.Steps, c.Steps)
	}
}

// TestRunningLike: it is kept anew where an instant moves by more than a second
// or anything else is different.
func TestRunningLike(t *testing.T) {
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	kept := func(change func(*Running)) *Running {
		r := &Running{Steps: []Step{{Kind: StepPour, Layer: "a", Due: at, Past: true}, {Kind: StepRecoat, Layer: "a", Label: "opens", After: 3600, Due: at.Add(time.Hour)}}, Zone: "Europe/Lisbon", Settled: true}
		change(r)
		return r
	}
	same := kept(func(*Running) {})
	for _, c := range []struct {
		name string
		like bool
		o    *Running
	}{
		{"the same", true, kept(func(*Running) {})},
		{"a second on", true, kept(func(r *Running) { r.Steps[1].Due = r.Steps[1].Due.Add(time.Second); r.Steps[1].After++ })},
		{"more than a second on", false, kept(func(r *Running) { r.Steps[1].Due = r.Steps[1].Due.Add(1001 * time.Millisecond) })},
		{"before", false, kept(func(r *Running) { r.Steps[1].Due = r.Steps[1].Due.Add(-2 * time.Second) })},
		{"overtaken", false, kept(func(r *Running) { r.Steps[1].Past = true })},
		{"of another name", false, kept(func(r *Running) { r.Steps[1].Label = "opens soon" })},
		{"fewer", false, kept(func(r *Running) { r.Steps = r.Steps[:1] })},
		{"another zone", false, kept(func(r *Running) { r.Zone = "" })},
		{"not by the simulation", false, kept(func(r *Running) { r.Settled = false })},
		{"out of the mold", false, kept(func(r *Running) { r.Out = true })},
		{"nothing", false, nil},
	} {
		if same.Like(c.o) != c.like || c.o.Like(same) != c.like {
			t.Errorf("%s: like %v", c.name, !c.like)
		}
	}
}
