package model

import (
	"context"
	"testing"
	"time"

	"meniscus/model/unit"
)

// zonesOfTheWorld are as far apart as clocks go, and some change theirs.
var zonesOfTheWorld = []string{"", "UTC", "Europe/Berlin", "America/New_York", "Asia/Kathmandu", "Pacific/Kiritimati", "Pacific/Pago_Pago"}

// TestZoneMovesNoInstant: a pour that has begun keeps its instants, by the data
// sheet and by the simulation, when the shop's zone is changed, also where the
// shop has a night that it goes through. The machine's own zone stands in where
// none is named.
func TestZoneMovesNoInstant(t *testing.T) {
	was := time.Local
	defer func() { time.Local = was }()
	for _, begin := range []string{"2026-10-24T16:00:00Z", "2027-03-27T16:00:00Z"} {
		p := demo(t, "poppy-stand")
		p.Shop.Zone = "Europe/Berlin"
		p.Shop.Night = unit.Taken[unit.Temperature]{Value: p.Shop.Room.Value - 9, Written: "night"}
		at, err := time.Parse(time.RFC3339, begin)
		if err != nil {
			t.Fatal(err)
		}
		if err := p.Log(Entry{ID: "e1", At: at, Kind: EntryPourStarted, Layer: p.Layers[0].ID, Room: p.Shop.Room}, at); err != nil {
			t.Fatal(err)
		}
		dues := func(p Project) (list []Step) {
			pl := Make(p)
			c, err := Simulate(context.Background(), &p, &pl)
			if err != nil || len(c.Steps) == 0 {
				t.Fatalf("no simulation: %v", err)
			}
			return append(append(list, pl.Steps...), c.Steps...)
		}
		want := dues(p)
		for i, zone := range zonesOfTheWorld {
			machine := []string{"Asia/Tokyo", "America/New_York"}[i%2]
			if time.Local, err = time.LoadLocation(machine); err != nil {
				t.Skip("no time zone data on this machine")
			}
			p.Shop.Zone = zone
			for i, s := range dues(p) {
				if !s.Due.Equal(want[i].Due) {
					t.Errorf("begun %s, in %q on a machine in %s: %s moved from %v to %v", begin, zone, machine, s.Label, want[i].Due, s.Due)
				}
			}
		}
		// The night does count, or nothing would be shown by this.
		p.Journal[0].Clock = "04:00"
		moved := false
		for i, s := range dues(p) {
			moved = moved || !s.Due.Equal(want[i].Due)
		}
		if !moved {
			t.Error("the hour at which the pour began makes no difference")
		}
	}
}

// TestStartKeepsTheClock: with the start of a pour goes what the clock showed,
// also when it is corrected.
func TestStartKeepsTheClock(t *testing.T) {
	p := demo(t, "poppy-stand")
	p.Shop.Zone = "Europe/Berlin"
	at := time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC) // 02:30 for the first time
	e := Entry{ID: "e1", At: at, Kind: EntryPourStarted, Layer: p.Layers[0].ID}
	if err := p.Log(e, at); err != nil || p.Journal[0].Clock != "02:30" {
		t.Fatalf("%q, %v", p.Journal[0].Clock, err)
	}
	e = p.Journal[0]
	e.ID, e.At = "e3", at.Add(-90*time.Minute)
	if err := p.Correct("e1", "e2", e, at); err != nil {
		t.Fatal(err)
	}
	if start, _ := p.PourStart(e.Layer); start.Clock != "01:00" {
		t.Errorf("corrected to %q", start.Clock)
	}
}
