package app

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model"
)

// beginnings are evenings before which and after which the clocks are changed
// somewhere (tz database), and one on which they are not.
var beginnings = []time.Time{
	time.Date(2026, 10, 24, 17, 40, 13, 0, time.UTC), // Europe/Berlin goes back at 2026-10-25 01:00 UTC
	time.Date(2027, 3, 27, 17, 40, 13, 0, time.UTC),  // and forward at 2027-03-28 01:00 UTC
	time.Date(2026, 10, 31, 22, 5, 59, 0, time.UTC),  // America/New_York goes back at 2026-11-01 06:00 UTC
	time.Date(2027, 3, 13, 22, 5, 59, 0, time.UTC),   // and forward at 2027-03-14 07:00 UTC
	time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC),
}

// demoOpened opens a new notebook in dir at an hour, with a demo job in it.
func demoOpened(dir string, at time.Time, simulated bool) (*shop, error) {
	demo, err := os.ReadFile("../testdata/demo-poppy-stand.json")
	if err != nil {
		return nil, err
	}
	s, err := opens(filepath.Join(dir, "n.db"), "k", at, simulated)
	if err != nil {
		return nil, err
	}
	return s, errors.Join(s.Import(demo), s.until("the demo is open", func() bool { return s.Snapshot().Open }), s.kept())
}

// TestNothingMovesAnInstant: whatever becomes of the clock, of the zone and of
// the program, a pour that has begun keeps its instants, also where its resin
// goes through colder nights.
func TestNothingMovesAnInstant(t *testing.T) {
	machine := time.Local
	defer func() { time.Local = machine }()
	rapid.Check(t, func(rt *rapid.T) {
		dir, err := os.MkdirTemp(t.TempDir(), "")
		if err != nil {
			rt.Fatal(err)
		}
		began := rapid.SampledFrom(beginnings).Draw(rt, "began")
		s, err := demoOpened(dir, began, false)
		if err != nil {
			rt.Fatal(err)
		}
		defer func() { _ = s.Close() }()
		s.Enter("shop/zone", rapid.SampledFrom([]string{"", "Europe/Berlin", "America/New_York"}).Draw(rt, "zone"))
		s.Enter("shop/night", "12 °C")
		if err := errors.Join(s.StartPour(s.project.Layers[0].ID), s.kept()); err != nil {
			rt.Fatal(err)
		}
		shot := s.Snapshot()
		want := dues(&shot)
		if len(want) < 3 {
			rt.Fatalf("instants: %q", want)
		}
		set := func(what string, low, high time.Duration) {
			s.clock.advance(time.Duration(rapid.Int64Range(int64(low), int64(high)).Draw(rt, what)))
		}
		restarts := 0
		rt.Repeat(map[string]func(*rapid.T){
			"tick":    func(*rapid.T) { s.clock.advance(time.Second); s.tick(s.clock.Now()) },
			"sleep":   func(*rapid.T) { set("sleep", time.Minute, 20*time.Hour) },
			"back":    func(*rapid.T) { set("back", -5*time.Hour, 0) },
			"forward": func(*rapid.T) { set("forward", 0, 5*time.Hour) },
			"note":    func(*rapid.T) { _ = s.AddNote("a note") },
			"zone": func(rt *rapid.T) {
				s.Enter("shop/zone", rapid.SampledFrom([]string{"", "Europe/Berlin", "America/New_York", "Asia/Kathmandu", "No/Where"}).Draw(rt, "zone"))
			},
			"restart": func(rt *rapid.T) {
				if restarts++; restarts > 3 {
					rt.Skip("often enough")
				}
				now := s.clock.Now()
				if err := s.Close(); err != nil {
					rt.Fatal(err)
				}
				// The machine's own zone is read when a program starts. Go's clock
				// reads it too, so that the race detector would not have it changed.
				zone := rapid.SampledFrom([]string{"UTC", "Asia/Tokyo", "America/New_York"}).Draw(rt, "machine")
				if place, err := time.LoadLocation(zone); err == nil && !raceDetector {
					time.Local = place
				}
				if s, err = opens(filepath.Join(dir, "n.db"), "k"+now.Format(time.RFC3339Nano), now, false); err != nil {
					rt.Fatal(err)
				}
				if !s.Reopen() {
					rt.Fatal("nothing to open again")
				}
			},
			"": func(rt *rapid.T) {
				if err := errors.Join(s.until("it is open", func() bool { return s.Snapshot().Open }), s.kept()); err != nil {
					rt.Fatal(err)
				}
				shot := s.Snapshot()
				if now := dues(&shot); strings.Join(now, "; ") != strings.Join(want, "; ") {
					rt.Fatalf("instants were\n%q\nand are\n%q", want, now)
				}
			},
		})
	})
}

// TestClockBehindThePour: on a machine whose clock was set back behind the start
// of a pour the touch that cannot have been is refused with what to do, and what
// stands in the journal at a later time is told.
func TestClockBehindThePour(t *testing.T) {
	s, err := demoOpened(t.TempDir(), beginnings[0], false)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	layer := s.project.Layers[0].ID
	if err := errors.Join(s.StartPour(layer), s.kept()); err != nil {
		t.Fatal(err)
	}
	s.clock.advance(-3 * time.Hour)
	shot := s.Snapshot()
	if ahead := shot.Project.Ahead(s.Now()); len(ahead) != 1 || ahead[0].Kind != model.EntryPourStarted {
		t.Errorf("ahead of the clock: %+v", ahead)
	}
	if err := s.AddTack(layer, model.FeelTape, time.Time{}); err == nil || !strings.Contains(err.Error(), "set the clock right") {
		t.Errorf("refused with %v", err)
	}
	if err := s.AddNote("the clock was wrong"); err != nil { // what needs no pour is taken
		t.Error(err)
	}
	s.clock.advance(3*time.Hour + time.Minute)
	if err := errors.Join(s.AddTack(layer, model.FeelTape, time.Time{}), s.kept()); err != nil {
		t.Error(err)
	}
	shot = s.Snapshot()
	if ahead := shot.Project.Ahead(s.Now()); len(ahead) != 0 || len(shot.Project.Journal) != 3 {
		t.Errorf("set right: %+v, %d entries", ahead, len(shot.Project.Journal))
	}
}
