package model

import (
	"testing"
	"time"
)

// TestAlarms walks through the life of two pours on the second: each step comes
// due once, at its instant, in whatever zone it is asked and on both nights of
// changed clocks; what a later pour has overtaken does not.
func TestAlarms(t *testing.T) {
	place, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Skip("this machine has no time zone data")
	}
	for _, start := range []time.Time{
		time.Date(2026, 3, 28, 20, 15, 30, 0, place),  // forward at 01:00
		time.Date(2026, 10, 24, 20, 15, 30, 0, place), // back at 02:00
	} {
		for pours := 1; pours <= 2; pours++ {
			p := calendarDemo(t, "poppy-stand", start, pours)
			steps := Make(p).Steps
			seen := map[string]bool{}
			for _, s := range steps {
				due := !s.Due.IsZero() && !s.Past && s.Kind != StepPour
				if s.Due.IsZero() {
					continue
				}
				before, at := Alarms(p.ID, steps, s.Due.Add(-time.Second).In(place)), Alarms(p.ID, steps, s.Due.In(place))
				if has := rings(at, s); has != due || rings(before, s) {
					t.Errorf("%s at its instant: %v, a second before: %v; want %v, false", s.Label, has, rings(before, s), due)
				}
				for _, a := range at {
					seen[a.Key] = true
				}
			}
			all := Alarms(p.ID, steps, start.AddDate(1, 0, 0))
			if len(all) != len(seen) || len(all) < 2 {
				t.Errorf("%d pours: %d alarms, %d keys", pours, len(all), len(seen))
			}
		}
	}
}

func rings(list []Alarm, s Step) bool {
	for _, a := range list {
		if a.Layer == s.Layer && a.Kind == s.Kind {
			return true
		}
	}
	return false
}

// TestAlarmKeys: a step that moves is the same alarm; a pour that is started
// anew has alarms of its own.
func TestAlarmKeys(t *testing.T) {
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	steps := func(start time.Time, after time.Duration) []Step {
		return []Step{{Kind: StepPour, Layer: "a", Due: start}, {Kind: StepPour, Layer: "b", Due: at}, {Kind: StepRecoat, Layer: "a", Due: start.Add(after)}}
	}
	key := func(project string, s []Step) string { return Alarms(project, s, at.AddDate(0, 0, 9))[0].Key }
	first := key("p", steps(at, time.Hour))
	if key("p", steps(at, 2*time.Hour)) != first {
		t.Error("a step that has moved rings twice")
	}
	if key("p", steps(at.Add(time.Minute), time.Hour)) == first || key("q", steps(at, time.Hour)) == first {
		t.Error("another pour has the same key")
	}
}
