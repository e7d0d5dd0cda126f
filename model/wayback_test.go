package model

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// spanOf is a span of hours with a band.
func spanOf(h, low, high float64) Known[unit.Span] {
	return Known[unit.Span]{Value: unit.Span(h) * unit.Hour, Low: unit.Span(low) * unit.Hour, High: unit.Span(high) * unit.Hour}
}

// curedPours is a simulation, made up by hand, of twoPours: the first poured at
// firstPour, the second one still to come.
func curedPours() Curing {
	return Curing{Project: "", Layers: []LayerCuring{
		{ID: "l1", Name: "pour", Ready: true, Start: firstPour, Working: spanOf(1, 1, 1), RecoatFrom: spanOf(5, 4, 7), RecoatBest: spanOf(6, 5, 8), RecoatTo: spanOf(9, 8, 12), Demold: spanOf(40, 30, 50), Sand: spanOf(30, 24, 40)},
		{ID: "l2", Name: "top", Ready: true, Assumed: true, Start: firstPour.Add(6 * time.Hour), Working: spanOf(1, 1, 1), RecoatFrom: spanOf(5, 4, 7), RecoatTo: spanOf(9, 8, 12), Demold: spanOf(36, 30, 44), Sand: spanOf(30, 24, 40)},
	}}
}

// timedPlan is the plan of a project by a simulation of it.
func timedPlan(p Project, c *Curing) Plan {
	plan := Make(p)
	c.Project = plan.Project
	c.Steps = p.steps(c.Timed(&plan).Layers)
	return c.Timed(&plan)
}

// The working by hand: poured Sat 25 Oct 2025, 14:30 UTC, hard enough to sand
// 30 h later, Sun 20:30; dry at 21:30, sanded 22:00, wiped 22:15, and out of
// the mold 36 h after that.
func TestWayBackGivesTheNewDates(t *testing.T) {
	c := curedPours()
	plan := timedPlan(pouredAt(twoPours(), "l1", firstPour), &c)
	steps := plan.WayBack(&c, "l2", firstPour.Add(10*time.Hour))
	if len(steps) != 6 {
		t.Fatalf("%d steps: %+v", len(steps), steps)
	}
	day := time.Date(2025, 10, 26, 0, 0, 0, 0, time.UTC)
	at := func(h, m int) time.Time { return day.Add(time.Duration(h)*time.Hour + time.Duration(m)*time.Minute) }
	for i, w := range []struct {
		do       string
		from, to time.Time
	}{
		{"Let pour cure", firstPour.Add(10 * time.Hour), at(20, 30)},
		{"Wash it", at(20, 30), at(21, 30)},
		{"80 to 120 grit", at(21, 30), at(22, 0)},
		{"dust", at(22, 0), at(22, 15)},
		{"Pour top", at(22, 15), time.Time{}},
		{"out of the mold", at(22+36, 15), time.Time{}},
	} {
		if s := steps[i]; !strings.Contains(s.Do, w.do) || !s.From.Equal(w.from) || !s.To.Equal(w.to) {
			t.Errorf("step %d: %+v, want %q from %v to %v", i+1, s, w.do, w.from, w.to)
		}
	}
	if s := steps[0]; !s.Soonest.Equal(at(14, 30)) || !s.Latest.Equal(at(14+16, 30)) {
		t.Errorf("hard enough to sand between %v and %v", s.Soonest, s.Latest)
	}
	if !strings.Contains(steps[0].Care, "allergy") {
		t.Errorf("no caution about sanding: %q", steps[0].Care)
	}
	// Two days later it can begin at once.
	now := firstPour.Add(48*time.Hour + time.Minute)
	if steps = plan.WayBack(&c, "l2", now); !steps[1].From.Equal(now.Add(4 * time.Minute)) {
		t.Errorf("late in the day it begins %v", steps[1].From)
	}
}

func TestWayBackOnlyAfterAMissedWindow(t *testing.T) {
	c := curedPours()
	p := pouredAt(twoPours(), "l1", firstPour)
	plan := timedPlan(p, &c)
	for name, layer := range map[string]string{"first": "l1", "gone": "l9"} {
		if s := plan.WayBack(&c, layer, firstPour.Add(100*time.Hour)); s != nil {
			t.Errorf("%s layer: %+v", name, s)
		}
	}
	if s := plan.WayBack(&c, "l2", firstPour.Add(9*time.Hour)); s != nil {
		t.Errorf("in the window: %+v", s)
	}
	done := Make(pouredAt(p, "l2", firstPour.Add(20*time.Hour)))
	if s := done.WayBack(&c, "l2", firstPour.Add(100*time.Hour)); s != nil {
		t.Errorf("poured all the same: %+v", s)
	}
}

func TestWayBackWithoutASimulationHasNoDates(t *testing.T) {
	plan := Make(pouredAt(twoPours(), "l1", firstPour))
	steps := plan.WayBack(&Curing{}, "l2", firstPour.Add(9*time.Hour))
	if len(steps) != 5 {
		t.Fatalf("%+v", steps)
	}
	for _, s := range steps[1:] {
		if !s.From.IsZero() || !s.To.IsZero() {
			t.Errorf("%+v", s)
		}
	}
	c := curedPours()
	c.Layers[0].Stall = &Stall{Text: "stays rubbery at 12 °C; warm it to 20"}
	if steps = plan.WayBack(&c, "l2", firstPour.Add(9*time.Hour)); !strings.Contains(steps[0].Care, "warm it to 20") {
		t.Errorf("a stalled layer below: %q", steps[0].Care)
	}
}

// The steps follow each other, and none lies before now.
func TestWayBackIsInOrder(t *testing.T) {
	c := curedPours()
	plan := timedPlan(pouredAt(twoPours(), "l1", firstPour), &c)
	rapid.Check(t, func(t *rapid.T) {
		now := firstPour.Add(9*time.Hour + time.Duration(rapid.Int64Range(1, int64(200*time.Hour)).Draw(t, "late")))
		before := now
		for _, s := range plan.WayBack(&c, "l2", now) {
			if s.From.Before(before) || !s.To.IsZero() && s.To.Before(s.From) {
				t.Fatalf("%+v after %v", s, before)
			}
			before = s.From
			if !s.To.IsZero() {
				before = s.To
			}
		}
	})
}
