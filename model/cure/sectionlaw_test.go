package cure

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"meniscus/model/unit"
)

// drawSection draws a small section that can be reckoned with.
func drawSection(t *rapid.T) *Section {
	k := rapid.SampledFrom([]Kinetics{SlowAmine(), FastAmine(), unslowed(SlowAmine()), unslowed(FastAmine())}).Draw(t, "kinetics")
	strips := func(name string) (list []Strip) {
		for range rapid.IntRange(1, 3).Draw(t, name) {
			list = append(list, Strip{unit.Length(rapid.Float64Range(0.002, 0.04).Draw(t, "width")), rapid.IntRange(1, 6).Draw(t, "cells")})
		}
		return list
	}
	s := &Section{Columns: strips("columns"), Rows: strips("rows")}
	for _, f := range []*unit.FilmCoefficient{&s.Below, &s.Above, &s.Left, &s.Right} {
		*f = rapid.SampledFrom([]unit.FilmCoefficient{0, Underneath, StillAir, 25}).Draw(t, "film")
	}
	s.Room = Room{Mean: unit.Celsius(rapid.Float64Range(10, 30).Draw(t, "room")), Swing: unit.TempRise(rapid.Float64Range(0, 5).Draw(t, "swing"))}
	for range s.Rows {
		var row []Block
		for range s.Columns {
			b := Block{Matter: rapid.SampledFrom([]Matter{Hardwood, Board, Silicone, Aluminium, Resin}).Draw(t, "matter"), From: unit.Celsius(rapid.Float64Range(5, 40).Draw(t, "from"))}
			switch rapid.IntRange(0, 4).Draw(t, "kind") {
			case 0:
				b = Block{Open: true}
			case 1, 2:
				b.Matter, b.Cure, b.Done = Resin, &k, rapid.Float64Range(0, 1).Draw(t, "done")
			}
			row = append(row, b)
		}
		s.Blocks = append(s.Blocks, row)
	}
	s.Blocks[0][0] = Block{Matter: Resin, Cure: &k, From: unit.Celsius(22)}
	return s
}

func TestSectionLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSection(t)
		c, err := s.Run(context.Background(), Options{Until: unit.Day, Tolerance: 0.005})
		if err != nil {
			t.Fatal(err)
		}
		e := c.Energy
		// What comes and goes with the room counts as well as what is set free.
		// Factoring costs most in lumps of metal of one cell.
		size, part := math.Abs(e.Released), 0.005
		for r, row := range s.Blocks {
			for c, b := range row {
				if b.Conductivity == Aluminium.Conductivity {
					part = 0.02
				}
				if !b.Open {
					size += float64(b.Density) * float64(b.Matter.Heat) * float64(s.Columns[c].Width) * float64(s.Rows[r].Width) * math.Abs(float64(b.From-s.Room.Mean))
				}
			}
		}
		if math.Abs(e.Released-e.Stored-e.Lost) > part*size {
			t.Fatalf("energy %+v of %v", e, size)
		}
		for i, f := range c.Fields {
			for j, a := range f.A {
				if !(a >= 0 && a <= 1) || !(f.T[j] > 250 && f.T[j] < 500) {
					t.Fatalf("field %d cell %d: conversion %v, temperature %v", i, j, a, f.T[j])
				}
				if i > 0 && a < c.Fields[i-1].A[j]-1e-9 {
					t.Fatalf("field %d cell %d: conversion falls to %v", i, j, a)
				}
			}
		}
		if c.RunsAway != (c.Ends < unit.Day) || c.Peak.At > c.Ends {
			t.Fatalf("runs away %v, ends at %v, peak at %v", c.RunsAway, c.Ends, c.Peak.At)
		}
	})
}

func TestSectionSymmetry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := drawSection(t)
		half.Right = 0
		o := Options{Until: 12 * unit.Hour, Limit: unit.Celsius(150)}
		// The whole section: the half and its image in the right side.
		whole := *half
		whole.Right = half.Left
		whole.Columns = append(slices.Clone(half.Columns), reversed(half.Columns)...)
		whole.Blocks = nil
		for _, row := range half.Blocks {
			whole.Blocks = append(whole.Blocks, append(slices.Clone(row), reversed(row)...))
		}
		a, err := half.Run(context.Background(), o)
		if err != nil {
			t.Fatal(err)
		}
		b, err := whole.Run(context.Background(), o)
		if err != nil {
			t.Fatal(err)
		}
		if a.RunsAway != b.RunsAway || math.Abs(float64(a.Peak.T-b.Peak.T)) > 0.01 {
			t.Fatalf("half %+v, whole %+v", a.Peak, b.Peak)
		}
		f := b.Fields[len(b.Fields)-1]
		n := len(f.Y) - 1
		for i := range f.T {
			if mirror := i/n*n + n - 1 - i%n; math.Abs(f.T[i]-f.T[mirror]) > 1e-5 || math.Abs(f.A[i]-f.A[mirror]) > 1e-7 {
				t.Fatalf("cell %d is at %v, its image at %v", i, f.T[i], f.T[mirror])
			}
		}
	})
}

func reversed[E any](list []E) []E {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

func TestSectionRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*Section, *Options){
		"no columns":       func(s *Section, _ *Options) { s.Columns = nil },
		"no rows":          func(s *Section, _ *Options) { s.Rows, s.Blocks = nil, nil },
		"no width":         func(s *Section, _ *Options) { s.Columns[1].Width = 0 },
		"no depth":         func(s *Section, _ *Options) { s.Rows[1].Width = unit.Length(nan) },
		"huge depth":       func(s *Section, _ *Options) { s.Rows[1].Width = 21 },
		"no cells":         func(s *Section, _ *Options) { s.Rows[1].Cells = -1 },
		"too many cells":   func(s *Section, _ *Options) { s.Rows[1].Cells = math.MaxInt },
		"too many by far":  func(s *Section, _ *Options) { s.Columns[0].Cells, s.Rows[0].Cells = 30000, 30000 },
		"a row missing":    func(s *Section, _ *Options) { s.Blocks = s.Blocks[:1] },
		"a block missing":  func(s *Section, _ *Options) { s.Blocks[1] = s.Blocks[1][:2] },
		"nothing but air":  func(s *Section, _ *Options) { s.Rows, s.Blocks = s.Rows[:1], [][]Block{make([]Block, 3)}; open(s) },
		"no matter":        func(s *Section, _ *Options) { s.Blocks[1][0].Matter = Matter{} },
		"frozen stiff":     func(s *Section, _ *Options) { s.Blocks[1][1].From = 0 },
		"no start":         func(s *Section, _ *Options) { s.Blocks[1][1].From = unit.Temperature(nan) },
		"no kinetics":      func(s *Section, _ *Options) { s.Blocks[1][1].Cure = &Kinetics{A1: nan} },
		"a film below 0":   func(s *Section, _ *Options) { s.Left = -1 },
		"no film":          func(s *Section, _ *Options) { s.Above = unit.FilmCoefficient(nan) },
		"no room":          func(s *Section, _ *Options) { s.Room = Room{} },
		"no time":          func(_ *Section, o *Options) { o.Until = 0 },
		"no end":           func(_ *Section, o *Options) { o.Until = unit.Span(inf) },
		"tolerance":        func(_ *Section, o *Options) { o.Tolerance = unit.TempRise(nan) },
		"a rate past all":  func(s *Section, _ *Options) { s.Blocks[1][1].Cure = &Kinetics{A1: 1e300, Heat: 1e300} },
		"hardly any store": func(s *Section, _ *Options) { s.Blocks[1][1].Matter = Matter{"", 5e-324, 5e-324, 1e308, ""} },
	} {
		s, o := river(SlowAmine(), 0.06, 0.015, 8, 4), Options{Until: unit.Hour}
		spoil(s, &o)
		if c, err := s.Run(context.Background(), o); c != nil || !errors.Is(err, ErrUnusable) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// open leaves nothing but air in a section.
func open(s *Section) {
	for _, row := range s.Blocks {
		for c := range row {
			row[c] = Block{Open: true}
		}
	}
}

func TestSectionWithoutHeat(t *testing.T) {
	k := SlowAmine()
	k.Heat = 0
	c := sectionCourse(t, river(k, 0.06, 0.015, 8, 4), Options{Until: 4 * unit.Day})
	if e := c.Energy; e.Released != 0 || c.RunsAway || c.Peak.T > unit.Celsius(24.1) {
		t.Errorf("%+v, peak %v", e, c.Peak)
	}
	// It cures as at one temperature.
	x := standing(isothermal(k, unit.Celsius(22)), 2)
	want := course(t, isothermal(SlowAmine(), unit.Celsius(22)), Options{Until: unit.Day, Tolerance: 0.001})
	got := sectionCourse(t, x, Options{Until: unit.Day})
	near(t, "conversion", got.Fields[len(got.Fields)-1].A[0], want.At(unit.Day).A[0], 1e-3)
}

func FuzzSection(f *testing.F) {
	f.Add(0.06, 0.015, 4, 295.0, 293.0, 0.0, 0.2, 1e5, 60e3, 0.3, 1.6, 4.5e5, 8.0, 86400.0, 0.05, 0.0)
	f.Add(0.0, 1e9, -1, -5.0, 1e9, -0.5, 0.0, 1e300, 0.0, 0.0, 0.0, 0.0, math.Inf(1), 1e300, 0.0, -1e300)
	f.Add(1e-300, 20.0, 9, 999.0, 1.0, 2.0, 1e300, 5e-324, 1e300, 10.0, 10.0, 1e300, 1e-300, 3e7, 1e-9, 1e300)
	f.Add(math.NaN(), 0.1, 1, 300.0, 300.0, math.NaN(), math.Inf(1), math.NaN(), 1.0, 0.5, 0.5, 1.0, 0.0, 3600.0, 0.1, math.NaN())
	f.Add(0.3, 0.63, 4, 714.0, 235.0, -5.0, 0.07, 25e3, 60e3, 0.3, 1.6, 4.5e5, 8.0, 86400.0, 1093.5, 2322.0)
	f.Fuzz(func(t *testing.T, width, depth float64, cells int, from, room, done, conducts, rate, energy, m, n, heat, air, until, tolerance, logged float64) {
		k := SlowAmine()
		k.A2, k.E2, k.M, k.N, k.Heat = rate, unit.MolarEnergy(energy), m, n, unit.SpecificEnergy(heat)
		stuff := Resin
		stuff.Conductivity = unit.Conductivity(conducts)
		cells %= 9
		s := &Section{
			Columns: []Strip{{unit.Length(width), cells}, {0.02, 2}},
			Rows:    []Strip{{unit.Length(depth), cells}, {0.01, 1}},
			Blocks: [][]Block{
				{{Matter: stuff, Cure: &k, From: unit.Temperature(from), Done: done}, {Matter: Hardwood, From: 293}},
				{{Open: true}, {Matter: stuff, From: 293}},
			},
			Below: unit.FilmCoefficient(air), Above: 8, Left: 0, Right: unit.FilmCoefficient(air),
			Room: Room{Mean: unit.Temperature(room), Log: []Reading{{unit.Span(logged), unit.Temperature(from)}, {0, unit.Temperature(logged)}, {100, 280}}},
		}
		ctx, cancel := context.WithTimeout(context.Background(), 200*time.Millisecond)
		defer cancel()
		c, err := s.Run(ctx, Options{Until: unit.Span(until), Tolerance: unit.TempRise(tolerance)})
		if err != nil {
			if c != nil || !errors.Is(err, ErrUnusable) && !errors.Is(err, context.DeadlineExceeded) {
				t.Fatal(err)
			}
			return
		}
		for _, f := range c.Fields {
			for i := range f.T {
				if math.IsNaN(f.T[i]) || math.IsInf(f.T[i], 0) || !(f.A[i] >= 0 && f.A[i] <= 1) || math.IsNaN(float64(f.At)) {
					t.Fatalf("at %v cell %d: %v K, conversion %v", f.At, i, f.T[i], f.A[i])
				}
			}
		}
		for _, v := range []float64{float64(c.Peak.T), float64(c.Peak.At), float64(c.Ends), c.Energy.Lost, c.Energy.Released, c.Energy.Stored} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v", c)
			}
		}
	})
}
