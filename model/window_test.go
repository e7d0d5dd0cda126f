package model

import (
	"testing"
	"time"

	"meniscus/model/unit"
)

// twoPours is a tray with two layers of a product whose window, at 20 °C in a
// room at 20 °C, is 4 to 8 h.
func twoPours() Project {
	p := tray(300, 200, 40, 10)
	p.Layers = append(p.Layers, Layer{ID: "l2", Name: "top", By: ToDepth, To: mm(8), Sheet: "s1"})
	s := &p.Sheets[0]
	hours := func(h float64) Figure[unit.Span] {
		return Figure[unit.Span]{Taken: given(unit.Span(h) * unit.Hour), At: given(unit.Celsius(20))}
	}
	s.WorkingTime, s.RecoatFrom, s.RecoatTo, s.Demold, s.FullCure = hours(1), hours(4), hours(8), hours(48), hours(168)
	p.Shop.Room = given(unit.Celsius(20))
	return p
}

var firstPour = time.Date(2025, 10, 25, 14, 30, 0, 0, time.UTC)

func pouredAt(p Project, layer string, at time.Time) Project {
	p = p.Clone()
	p.Journal = append(p.Journal, Entry{ID: "e" + layer, At: at, Kind: EntryPourStarted, Layer: layer})
	return p
}

func TestRecoatHoldsAPourAgainstTheWindowBelow(t *testing.T) {
	for _, c := range []struct {
		name  string
		after time.Duration
		state RecoatState
		off   time.Duration
	}{
		{"early", 3 * time.Hour, RecoatEarly, time.Hour},
		{"at its opening", 4 * time.Hour, RecoatOpen, 0},
		{"within", 6 * time.Hour, RecoatOpen, 0},
		{"at its end", 8 * time.Hour, RecoatOpen, 0},
		{"late", 9 * time.Hour, RecoatLate, time.Hour},
	} {
		p := pouredAt(twoPours(), "l1", firstPour)
		at := firstPour.Add(c.after)
		plan := Make(p)
		asked := plan.Recoat("l2", at)
		plan = Make(pouredAt(p, "l2", at))
		done := plan.Recoat("l2", at.Add(100*time.Hour))
		for _, w := range []RecoatWindow{asked, done} {
			if w.State != c.state || w.Off != c.off || !w.At.Equal(at) || w.Below != "pour" {
				t.Errorf("%s: %+v", c.name, w)
			}
		}
		if asked.Done || !done.Done {
			t.Errorf("%s: asked before and after the pour, done is %v and %v", c.name, asked.Done, done.Done)
		}
	}
}

func TestRecoatWithoutAWindow(t *testing.T) {
	p := twoPours()
	plan := Make(p)
	if w := plan.Recoat("l2", firstPour); w.State != RecoatFree {
		t.Errorf("nothing poured below: %v", w.State)
	}
	p = pouredAt(p, "l1", firstPour)
	plan = Make(p)
	if w := plan.Recoat("l1", firstPour); w.State != RecoatFree {
		t.Errorf("the first layer: %v", w.State)
	}
	p.Sheets[0].RecoatTo = Figure[unit.Span]{}
	plan = Make(p)
	if w := plan.Recoat("l2", firstPour.Add(5*time.Hour)); w.State != RecoatUnknown {
		t.Errorf("no end given: %v", w.State)
	}
	if w := plan.Recoat("l2", firstPour.Add(time.Hour)); w.State != RecoatEarly {
		t.Errorf("too early is known without an end: %v", w.State)
	}
}

func TestNextPour(t *testing.T) {
	p := twoPours()
	for _, want := range []string{"l1", "l2", ""} {
		plan := Make(p)
		l, ok := plan.NextPour()
		if l.ID != want || ok != (want != "") {
			t.Errorf("next pour %q, want %q", l.ID, want)
		}
		p = pouredAt(p, want, firstPour)
	}
}

func TestTimelinePutsPoursToComeIntoTheWindow(t *testing.T) {
	p := twoPours()
	plan := Make(p)
	lives := plan.Timeline(firstPour)
	if len(lives) != 2 || !lives[0].Assumed || !lives[0].Start.Equal(firstPour) || !lives[1].Start.Equal(firstPour.Add(4*time.Hour)) {
		t.Fatalf("%+v", lives)
	}
	if b := lives[0].Bars; len(b) != 2 || b[1].Kind != BarRecoat || !b[1].From.Equal(firstPour.Add(4*time.Hour)) || !b[1].To.Equal(firstPour.Add(8*time.Hour)) {
		t.Errorf("first layer %+v", b)
	}
	if b := lives[1].Bars; len(b) != 3 || b[2].Kind != BarCure || !b[2].To.Equal(firstPour.Add(172*time.Hour)) {
		t.Errorf("last layer %+v", b)
	}
	// Once poured, the instants stay where they are as time goes by.
	plan = Make(pouredAt(p, "l1", firstPour))
	lives = plan.Timeline(firstPour.Add(6 * time.Hour))
	if lives[0].Assumed || !lives[0].Start.Equal(firstPour) || !lives[1].Start.Equal(firstPour.Add(6*time.Hour)) {
		t.Errorf("poured: %+v", lives)
	}
}

func TestTimelineWithoutAWindowIsUnsure(t *testing.T) {
	p := twoPours()
	p.Sheets[0].RecoatFrom = Figure[unit.Span]{}
	plan := Make(p)
	lives := plan.Timeline(firstPour)
	if lives[0].Unsure || !lives[1].Unsure {
		t.Errorf("%+v", lives)
	}
	plan = Make(pouredAt(pouredAt(p, "l1", firstPour), "l2", firstPour.Add(time.Hour)))
	if lives = plan.Timeline(firstPour); lives[1].Unsure || lives[1].Assumed {
		t.Errorf("poured all the same: %+v", lives[1])
	}
}
