package model

import (
	"context"
	"encoding/json"
	"math"
	"testing"
	"time"

	"meniscus/model/unit"
)

// FuzzSimulate hands the simulation documents that no field would take: it must
// say why, and never give what is not a number, nor fall over.
func FuzzSimulate(f *testing.F) {
	f.Add(293.15, 0.02, 86400.0, 295.15, 290e3, 55e3, 328.15, 0.04, 3600.0, 288.15, int64(7200), uint8(0))
	f.Add(250.0, 0.0, 1.0, 250.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, int64(-7200), uint8(1))
	f.Add(333.0, 19.0, 1e9, 400.0, 1e9, 2e5, 1000.0, 20.0, -5.0, 1e300, int64(1)<<40, uint8(2))
	f.Add(300.0, 1e-4, 1e-3, 470.0, 60e3, 1.0, 280.0, 1e-5, 1e8, 299.0, int64(0), uint8(7))
	f.Add(263.15, 0.05, 3000.0, 293.15, 450e3, 90e3, 310.0, 0.03, 600.0, 258.15, int64(3600), uint8(255))
	f.Fuzz(func(t *testing.T, room, depth, gel, gelAt, heat, activation, softening, most, working, night float64, later int64, odd uint8) {
		for _, v := range []float64{room, depth, gel, gelAt, heat, activation, softening, most, working, night} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Skip("no document can hold it")
			}
		}
		for _, v := range []float64{room, gelAt, night} {
			if v < 200 || v > 480 {
				t.Skip("no field for a temperature takes it")
			}
		}
		if activation < 0 || activation > 200e3 {
			t.Skip("nor does that of an activation energy")
		}
		p := plainPour(20, "20 mm")
		s := &p.Sheets[0]
		p.Shop.Room.Value = unit.Temperature(room)
		p.Layers[0].To.Value = unit.Length(depth)
		s.Gel.Value, s.Gel.At.Value = unit.Span(gel), unit.Temperature(gelAt)
		s.Heat.Value, s.Heat.Written = unit.SpecificEnergy(heat), "x"
		s.Activation.Value, s.Activation.Written = unit.MolarEnergy(activation), "x"
		s.Softening.Value = unit.Temperature(softening)
		s.MaxLayer.Value = unit.Length(most)
		s.WorkingTime = Figure[unit.Span]{Taken: unit.Taken[unit.Span]{Value: unit.Span(working), Written: "x"}}
		p.Shop.Night = unit.Taken[unit.Temperature]{Value: unit.Temperature(night), Written: "x"}
		start := time.Date(2026, 10, 24, 20, 0, 0, 0, time.UTC)
		reading := func(id string, after int64, v float64) Entry {
			return Entry{ID: id, At: start.Add(time.Duration(after) * time.Second), Kind: EntryReading, Layer: p.Layers[0].ID,
				Room: unit.Taken[unit.Temperature]{Value: unit.Temperature(v), Written: "x"}, Part: unit.Taken[unit.Temperature]{Value: unit.Temperature(v), Written: "x"}}
		}
		if odd&1 != 0 {
			p.Journal = append(p.Journal, Entry{ID: "a", At: start, Kind: EntryPourStarted, Layer: p.Layers[0].ID})
		}
		if odd&2 != 0 {
			p.Journal = append(p.Journal, reading("b", later, night), reading("c", later/2, room), reading("d", later, room))
		}
		if odd&4 != 0 {
			p.Journal = append(p.Journal, Entry{ID: "e", At: start.Add(time.Duration(later) * time.Second), Kind: EntryTack, Layer: p.Layers[0].ID, Feel: FeelTape})
		}
		if odd&8 != 0 {
			p.Layers[0].Sheet = "gone"
		}
		if odd&16 != 0 {
			p.Mold.Thick = unit.Dim{Value: unit.Length(depth), Written: "x"}
			p.Mold.Floor, p.Shop.Bench = "cheese", "clouds"
		}
		pl := Make(p)
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		defer cancel()
		c, err := Simulate(ctx, &p, &pl)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := json.Marshal(c); err != nil {
			t.Fatal(err)
		}
		for _, l := range c.Layers {
			if l.Ready == (l.Why != "") {
				t.Fatalf("ready %v, why %q", l.Ready, l.Why)
			}
			for _, v := range []float64{float64(l.Peak.Value), float64(l.PeakAfter.Value), float64(l.RecoatFrom.Value), float64(l.Gradient.Value)} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("a figure that is none: %v", v)
				}
			}
		}
		for _, frame := range c.Trace.Frames {
			for _, cell := range frame.Cells {
				if !(cell.State.A >= 0 && cell.State.A <= 1) || math.IsNaN(float64(cell.State.T)) {
					t.Fatalf("a cell at %v, cured %v", cell.State.T, cell.State.A)
				}
			}
		}
		if a, err := Ask(ctx, &p, &pl, p.Layers[0].ID, WhatIf{Room: unit.TempRise(night - room), Depth: unit.Length(most), Ratio: gel}); err == nil && math.IsNaN(float64(a.Peak)) {
			t.Fatal("what if: a peak that is none")
		}
		if _, err := Starts(ctx, &p, &pl, start); err != nil {
			t.Fatal(err)
		}
		if _, err := Propose(ctx, &p, &pl); err != nil {
			t.Fatal(err)
		}
	})
}
