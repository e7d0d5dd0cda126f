package model

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// tracedPours is a trace worked by hand: a pour of two cells, and a second of one
// cell on top of it from hour 10 on.
func tracedPours() Trace {
	cell := func(layer int, bottom, top, celsius, done float64) TraceCell {
		return TraceCell{Layer: layer, Bottom: unit.Length(bottom), Top: unit.Length(top), State: cure.State{T: unit.Celsius(celsius), A: done}, Softening: unit.Celsius(100*done - 40)}
	}
	return Trace{Frames: []TraceFrame{
		{At: 0, Room: unit.Celsius(20), Cells: []TraceCell{cell(0, 0, 0.01, 20, 0), cell(0, 0.01, 0.02, 20, 0)}},
		{At: 4 * unit.Hour, Room: unit.Celsius(22), Cells: []TraceCell{cell(0, 0, 0.01, 40, 0.5), cell(0, 0.01, 0.02, 36, 0.4)}},
		{At: 10 * unit.Hour, Room: unit.Celsius(20), Cells: []TraceCell{cell(0, 0, 0.01, 30, 0.7), cell(0, 0.01, 0.02, 26, 0.6)}},
		{At: 10 * unit.Hour, Room: unit.Celsius(20), Cells: []TraceCell{cell(0, 0, 0.01, 30, 0.7), cell(0, 0.01, 0.02, 26, 0.6), cell(1, 0.02, 0.03, 20, 0)}},
		{At: 20 * unit.Hour, Room: unit.Celsius(18), Cells: []TraceCell{cell(0, 0, 0.01, 32, 0.8), cell(0, 0.01, 0.02, 38, 0.7), cell(1, 0.02, 0.03, 45, 0.5)}},
	}}
}

func TestTraceBetweenItsFrames(t *testing.T) {
	tr := tracedPours()
	for _, c := range []struct {
		hours      float64
		cells      int
		room, t, a float64 // of the lowest cell
	}{
		{-1, 2, 20, 20, 0}, {0, 2, 20, 20, 0}, {1, 2, 20.5, 25, 0.125}, {4, 2, 22, 40, 0.5}, {7, 2, 21, 35, 0.6},
		{10, 3, 20, 30, 0.7}, {15, 3, 19, 31, 0.75}, {20, 3, 18, 32, 0.8}, {99, 3, 18, 32, 0.8},
	} {
		f := tr.At(unit.Hour.Times(c.hours))
		if len(f.Cells) != c.cells {
			t.Errorf("hour %g has %d cells, want %d", c.hours, len(f.Cells), c.cells)
			continue
		}
		s := f.Cells[0].State
		if math.Abs(f.Room.Celsius()-c.room) > 1e-9 || math.Abs(s.T.Celsius()-c.t) > 1e-9 || math.Abs(s.A-c.a) > 1e-12 {
			t.Errorf("hour %g: room %g, %g °C, %g", c.hours, f.Room.Celsius(), s.T.Celsius(), s.A)
		}
		if want := 100*s.A - 40; math.Abs(f.Cells[0].Softening.Celsius()-want) > 1e-9 {
			t.Errorf("hour %g: softens at %g °C, want %g", c.hours, f.Cells[0].Softening.Celsius(), want)
		}
	}
	if f := tr.At(12 * unit.Hour); f.Cells[2].State.T != unit.Celsius(25) {
		t.Errorf("a fifth of the way from 20 to 45 °C is %v", f.Cells[2].State.T.Celsius())
	}
}

func TestTraceOfNothing(t *testing.T) {
	var tr Trace
	if _, _, ok := tr.Ends(); ok || len(tr.At(unit.Hour).Cells) != 0 {
		t.Error("a trace without frames has ends, or resin")
	}
	if _, _, ok := tr.Range(); ok {
		t.Error("a trace without frames has a range")
	}
	for _, course := range [][]TracePoint{tr.HottestCourse(0), tr.HeartCourse(0), tr.SurfaceCourse(0), tr.CourseAt(0, 0)} {
		if len(course) != 0 {
			t.Errorf("a course of nothing has %d points", len(course))
		}
	}
	tr = Trace{Frames: []TraceFrame{{Room: unit.Celsius(20)}}}
	if _, ok := tr.Frames[0].Hottest(-1); ok {
		t.Error("a frame without resin has a hottest place")
	}
	if _, _, ok := tr.Range(); ok {
		t.Error("a frame without resin has a range")
	}
}

func TestTraceRangeAndHottest(t *testing.T) {
	tr := tracedPours()
	low, high, ok := tr.Range()
	if !ok || low != unit.Celsius(20) || high != unit.Celsius(45) {
		t.Errorf("from %v to %v °C", low.Celsius(), high.Celsius())
	}
	f := tr.Frames[4]
	for layer, want := range map[int]float64{-1: 45, 0: 38, 1: 45} {
		if c, ok := f.Hottest(layer); !ok || c.State.T.Celsius() != want {
			t.Errorf("layer %d is hottest at %v °C, want %v", layer, c.State.T.Celsius(), want)
		}
	}
	if _, ok := f.Hottest(2); ok {
		t.Error("a layer that is not there has a hottest place")
	}
}

func TestTracePouredAt(t *testing.T) {
	tr := tracedPours()
	for layer, want := range []unit.Span{0, 10 * unit.Hour} {
		if at, ok := tr.PouredAt(layer); !ok || at != want {
			t.Errorf("layer %d is poured at %v, %v", layer, at, ok)
		}
	}
	if _, ok := tr.PouredAt(2); ok {
		t.Error("a layer that is not there is poured")
	}
}

func TestTraceCourses(t *testing.T) {
	tr := tracedPours()
	for name, c := range map[string]struct {
		course []TracePoint
		want   []float64
	}{
		"the hottest place of the first pour": {tr.HottestCourse(0), []float64{20, 40, 30, 30, 32}},
		"its surface":                         {tr.SurfaceCourse(0), []float64{20, 36, 26, 26, 38}},
		"its heart, the boundary belongs up":  {tr.HeartCourse(0), []float64{20, 36, 26, 26, 38}},
		"below its floor":                     {tr.CourseAt(0, -1), []float64{20, 40, 30, 30, 32}},
		"the second pour":                     {tr.HottestCourse(1), []float64{20, 45}},
		"none":                                {tr.SurfaceCourse(2), nil},
	} {
		var got []float64
		for _, p := range c.course {
			got = append(got, p.State.T.Celsius())
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// TestTraceStaysBetweenItsFrames: nothing is hotter, colder or farther cured
// than the frames on either side of it.
func TestTraceStaysBetweenItsFrames(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var tr Trace
		at := unit.Span(0)
		for range rapid.IntRange(1, 6).Draw(r, "frames") {
			at += unit.Span(rapid.Float64Range(0, 1e5).Draw(r, "step"))
			f := TraceFrame{At: at}
			for k := range rapid.IntRange(0, 4).Draw(r, "cells") {
				f.Cells = append(f.Cells, TraceCell{Bottom: unit.Length(k), Top: unit.Length(k + 1),
					State: cure.State{T: unit.Temperature(rapid.Float64Range(250, 450).Draw(r, "t")), A: rapid.Float64Range(0, 1).Draw(r, "a")}})
			}
			tr.Frames = append(tr.Frames, f)
		}
		when := unit.Span(rapid.Float64Range(-10, float64(at)+10).Draw(r, "when"))
		f := tr.At(when)
		for i, c := range f.Cells {
			lowT, highT, lowA, highA := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
			for k := range tr.Frames {
				if i < len(tr.Frames[k].Cells) {
					s := tr.Frames[k].Cells[i].State
					lowT, highT = min(lowT, float64(s.T)), max(highT, float64(s.T))
					lowA, highA = min(lowA, s.A), max(highA, s.A)
				}
			}
			if s := c.State; float64(s.T) < lowT-1e-9 || float64(s.T) > highT+1e-9 || s.A < lowA-1e-12 || s.A > highA+1e-12 {
				r.Fatalf("cell %d at %v: %+v is outside %v to %v, %v to %v", i, when, s, lowT, highT, lowA, highA)
			}
		}
	})
}

func BenchmarkTraceAt(b *testing.B) {
	var tr Trace
	for i := range 3000 {
		f := TraceFrame{At: unit.Minute.Times(float64(i)), Cells: make([]TraceCell, 120)}
		for k := range f.Cells {
			f.Cells[k] = TraceCell{Bottom: unit.Length(k), Top: unit.Length(k + 1)}
		}
		tr.Frames = append(tr.Frames, f)
	}
	for b.Loop() {
		tr.At(1000.5 * unit.Minute)
	}
}
