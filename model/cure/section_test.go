package cure

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"meniscus/model/unit"
)

// river is a pour between two pieces of wood on a board, in ny cells across
// and nz up.
func river(k Kinetics, width, depth unit.Length, ny, nz int) *Section {
	from := unit.Celsius(22)
	wood := Block{Matter: Hardwood, From: from}
	pour := Block{Matter: Resin, Cure: &k, From: from}
	base := Block{Matter: Board, From: from}
	side, under := ny/4, nz/4
	return &Section{
		Columns: []Strip{{40 * unit.Millimetre, side}, {width, ny - 2*side}, {40 * unit.Millimetre, side}},
		Rows:    []Strip{{18 * unit.Millimetre, under}, {depth, nz - under}},
		Blocks:  [][]Block{{base, base, base}, {wood, pour, wood}},
		Below:   Underneath, Above: StillAir, Left: StillAir, Right: StillAir,
		Room: Room{Mean: from, Swing: 2, Warmest: 4 * unit.Hour},
	}
}

func sectionCourse(t testing.TB, s *Section, o Options) *SectionCourse {
	t.Helper()
	c, err := s.Run(context.Background(), o)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// standing gives a slab as a section that is alike across, in so many columns.
func standing(s *Slab, columns int) *Section {
	x := &Section{Columns: []Strip{{0.1, columns}}, Below: s.Below, Above: s.Above, Room: s.Room}
	for _, layer := range s.Strata {
		x.Rows = append(x.Rows, Strip{layer.Thickness, layer.Cells})
		x.Blocks = append(x.Blocks, []Block{{Matter: layer.Matter, Cure: layer.Cure, From: layer.From, Done: layer.Done}})
	}
	return x
}

// lying gives a slab as a section on its side, its bottom to the left.
func lying(s *Slab, rows int) *Section {
	x := &Section{Rows: []Strip{{0.1, rows}}, Left: s.Below, Right: s.Above, Room: s.Room, Blocks: [][]Block{nil}}
	for _, layer := range s.Strata {
		x.Columns = append(x.Columns, Strip{layer.Thickness, layer.Cells})
		x.Blocks[0] = append(x.Blocks[0], Block{Matter: layer.Matter, Cure: layer.Cure, From: layer.From, Done: layer.Done})
	}
	return x
}

func TestSectionAlikeAcrossIsASlab(t *testing.T) {
	slow, fast := SlowAmine(), FastAmine()
	for name, s := range map[string]*Slab{
		"slow on a board": {Strata: []Stratum{
			{Matter: Board, Thickness: 0.018, Cells: 6, From: unit.Celsius(18)},
			{Matter: Resin, Thickness: 0.014, Cells: 20, Cure: &slow, From: unit.Celsius(24)},
		}, Below: Underneath, Above: StillAir, Room: Room{Mean: unit.Celsius(21), Swing: 3, Warmest: 6 * unit.Hour}},
		"fast on a cured layer": {Strata: []Stratum{
			{Matter: HDPE, Thickness: 0.012, Cells: 4, From: unit.Celsius(20)},
			{Matter: Resin, Thickness: 0.006, Cells: 6, Cure: &fast, From: unit.Celsius(20), Done: 0.6},
			{Matter: Resin, Thickness: 0.005, Cells: 10, Cure: &fast, From: unit.Celsius(22)},
		}, Below: Underneath, Above: StillAir, Room: Steady(unit.Celsius(20)).Logged([]Reading{{unit.Hour, 293}, {3 * unit.Hour, 297}})},
		"faces held": {Strata: []Stratum{{Matter: Resin, Thickness: 0.03, Cells: 30, Cure: &slow, From: unit.Celsius(30)}},
			Below: unit.FilmCoefficient(math.Inf(1)), Above: unit.FilmCoefficient(math.Inf(1)), Room: Steady(unit.Celsius(22))},
	} {
		o := Options{Until: 30 * unit.Hour, Tolerance: 0.003}
		want := course(t, s, Options{Until: o.Until, Tolerance: 0.001})
		for way, x := range map[string]*Section{"standing": standing(s, 3), "lying": lying(s, 2)} {
			got := sectionCourse(t, x, o)
			n := len(want.Heights)
			for _, f := range got.Fields {
				w := want.At(f.At)
				for i := range f.T {
					j := i / 3
					if way == "lying" {
						j = i % n
					}
					if math.Abs(f.T[i]-w.T[j]) > 0.02 || math.Abs(f.A[i]-w.A[j]) > 1e-3 {
						t.Fatalf("%s %s at %.2f h cell %d: %.4f K and %.5f, the slab %.4f and %.5f", name, way, f.At.Hours(), j, f.T[i], f.A[i], w.T[j], w.A[j])
					}
				}
			}
			near(t, name+" "+way+" peak", float64(got.Peak.T), float64(want.Peak.T), 0.02)
			near(t, name+" "+way+" hour", got.Peak.At.Hours(), want.Peak.At.Hours(), 0.01*want.Peak.At.Hours())
			length := 0.1
			near(t, name+" heat lost", got.Energy.Lost/length, want.Energy.Lost, 0.002*math.Abs(want.Energy.Released))
			near(t, name+" heat released", got.Energy.Released/length, want.Energy.Released, 0.001*want.Energy.Released)
		}
	}
}

func TestSectionBar(t *testing.T) {
	// A long bar cools by the product of two plane walls (Incropera and DeWitt,
	// section 5.8, value from memory). The wall of Bi = 1: 50 mm, 0.20 W/(m K),
	// 1150 kg/m³, 1400 J/(kg K), 8 W/(m² K), from 80 into 20 °C; middle and
	// surface recomputed with scipy from the eigenvalues.
	m := Matter{"bar", 1150, 1400, 0.20, "test"}
	const cells, dx = 60, 0.025 / 60
	// A quarter of the bar: two sides lie on its lines of symmetry.
	s := &Section{
		Columns: []Strip{{0.025, cells}}, Rows: []Strip{{0.025, cells}},
		Blocks: [][]Block{{{Matter: m, From: unit.Celsius(80)}}},
		Right:  8, Above: 8, Room: Steady(unit.Celsius(20)),
	}
	for _, c := range []struct{ s, middle, surface float64 }{
		{600, 79.249, 62.268}, {1800, 71.390, 53.736}, {3600, 59.537, 45.789}, {7200, 43.282, 35.184}, {14400, 28.072, 25.265},
	} {
		run := sectionCourse(t, s, Options{Until: unit.Span(c.s), Tolerance: 0.002})
		f := run.Fields[len(run.Fields)-1]
		if f.At != unit.Span(c.s) {
			t.Fatalf("the last field is at %v", f.At)
		}
		// From the middle of a cell to its face: the film and half a cell are in
		// series.
		face := func(v float64) float64 { return (v*0.20/(dx/2) + 8*293.15) / (0.20/(dx/2) + 8) }
		middle, surface := (c.middle-20)/60, (c.surface-20)/60
		near(t, "heart", f.T[0], 293.15+60*middle*middle, .06)
		near(t, "middle of a face", face(f.T[cells-1]), 293.15+60*middle*surface, .06)
		near(t, "middle of the other", face(f.T[cells*(cells-1)]), 293.15+60*middle*surface, .06)
	}
}

func TestSectionExplosion(t *testing.T) {
	// The critical number of Frank-Kamenetskii for a square rod, half its side
	// the length in it, faces held: 1.700 (value from memory). Arrhenius's own
	// source shifts it by 1 + 1.07 RT/E, as for the slab.
	const energy, room, half = 200e3, 300.0, 0.01
	m := Matter{"source", 1000, 1000, 0.2, "test"}
	away := func(delta float64) bool {
		delta *= 1 + 1.07*GasConstant*room/energy
		const heat = 1e12
		rate := delta * GasConstant * room * room / energy * 0.2 / (half * half) / (1000 * heat)
		k := Kinetics{A1: rate * math.Exp(energy/(GasConstant*room)), E1: energy, Heat: heat}
		held := unit.FilmCoefficient(math.Inf(1))
		s := &Section{
			Columns: []Strip{{half, 24}}, Rows: []Strip{{half, 24}},
			Blocks: [][]Block{{{Matter: m, Cure: &k, From: room}}},
			Right:  held, Above: held, Room: Steady(room),
		}
		return sectionCourse(t, s, Options{Until: 20 * unit.Hour, Limit: room + 40}).RunsAway
	}
	for _, c := range []struct {
		delta float64
		away  bool
	}{{1.700 * 0.99, false}, {1.700 * 1.01, true}} {
		if got := away(c.delta); got != c.away {
			t.Errorf("at δ = %.4f it runs away: %v", c.delta, got)
		}
	}
}

func TestSectionBetweenWood(t *testing.T) {
	// Wood at the sides takes heat away that a slab keeps; the wider the river,
	// the closer it comes to the slab.
	k := SlowAmine()
	slab := &Slab{Strata: []Stratum{
		{Matter: Board, Thickness: 0.018, Cells: 8, From: unit.Celsius(22)},
		{Matter: Resin, Thickness: 0.013, Cells: 24, Cure: &k, From: unit.Celsius(22)},
	}, Below: Underneath, Above: StillAir, Room: Room{Mean: unit.Celsius(22), Swing: 2, Warmest: 4 * unit.Hour}}
	want := course(t, slab, Options{Until: unit.Day}).Peak
	last := 0.0
	for _, mm := range []float64{20, 60, 300} {
		got := sectionCourse(t, river(k, unit.Length(mm/1000), 0.013, 64, 32), Options{Until: unit.Day})
		switch {
		case got.Peak.T >= want.T:
			t.Errorf("%v mm: %.2f, the slab %.2f °C", mm, got.Peak.T.Celsius(), want.T.Celsius())
		case float64(got.Peak.T) <= last:
			t.Errorf("%v mm is no hotter than a narrower river", mm)
		case got.Peak.Y < 0.04 || got.Peak.Y > unit.Length(0.04+mm/1000) || got.Peak.Z < 0.018 || got.Peak.Z > 0.031:
			t.Errorf("%v mm: the peak lies in the wood, at %v, %v", mm, got.Peak.Y, got.Peak.Z)
		}
		last = float64(got.Peak.T)
	}
	near(t, "a wide river", last, float64(want.T), 0.3)
}

func TestSectionOrder(t *testing.T) {
	// Fixed steps: halving them divides the error by 4 or more, whichever γ is
	// taken; with 1/2 by nearer 8 until the error is small.
	for _, gamma := range []float64{gammaAlike, gammaMetal} {
		end := func(steps int) []float64 {
			s := river(SlowAmine(), 0.04, 0.012, 16, 8)
			s.Blocks[1][1].Done = 0.05
			p := planeOf(s)
			temps, done, _ := p.start(s)
			w := newSweeper(p, temps, done)
			w.gamma = gamma
			h := float64(10*unit.Hour) / float64(steps)
			for range steps {
				if w.try(h) == math.Inf(1) {
					t.Fatal("a step could not be taken")
				}
				w.take(h)
			}
			return w.t
		}
		exact := end(6400)
		off := func(steps int) float64 {
			worst := 0.0
			for i, v := range end(steps) {
				worst = max(worst, math.Abs(v-exact[i]))
			}
			return worst
		}
		e1, e2, e3 := off(100), off(200), off(400)
		for _, ratio := range []float64{e1 / e2, e2 / e3} {
			near(t, "order in time, 2 to the", math.Log2(ratio), 2.5, .6)
		}
	}
}

func TestSectionInAMetalMold(t *testing.T) {
	// Metal beside resin: the usual tolerance holds, in no more steps than wood
	// takes.
	k := SlowAmine()
	for _, m := range []Matter{Aluminium, Steel, Glazing} {
		wall, pour := Block{Matter: m, From: unit.Celsius(15)}, Block{Matter: Resin, Cure: &k, From: unit.Celsius(28)}
		s := &Section{
			Columns: []Strip{{0.005, 3}, {0.06, 20}, {0.005, 3}}, Rows: []Strip{{0.005, 3}, {0.015, 12}},
			Blocks: [][]Block{{wall, wall, wall}, {wall, pour, wall}},
			Below:  Underneath, Above: StillAir, Left: StillAir, Right: StillAir,
			Room: Room{Mean: unit.Celsius(22), Swing: 3},
		}
		usual, tight := sectionCourse(t, s, Options{Until: 2 * unit.Day}), sectionCourse(t, s, Options{Until: 2 * unit.Day, Tolerance: 0.002})
		near(t, m.Name+" peak", float64(usual.Peak.T), float64(tight.Peak.T), .1)
		near(t, m.Name+" hour", usual.Peak.At.Hours(), tight.Peak.At.Hours(), .01*tight.Peak.At.Hours())
		near(t, m.Name+" balance", (usual.Energy.Released-usual.Energy.Stored-usual.Energy.Lost)/usual.Energy.Released, 0, .005)
		if usual.Steps > 400 || tight.Steps > 4000 {
			t.Errorf("%s: %d steps, and %d", m.Name, usual.Steps, tight.Steps)
		}
	}
}

func TestSectionConverges(t *testing.T) {
	k := SlowAmine()
	at := func(n int, tolerance unit.TempRise) Spot {
		return sectionCourse(t, river(k, 0.06, 0.016, 16*n, 8*n), Options{Until: unit.Day, Tolerance: tolerance}).Peak
	}
	tight := at(2, 0.001)
	usual := at(2, 0)
	near(t, "peak at the usual tolerance", float64(usual.T), float64(tight.T), .1)
	near(t, "its hour", usual.At.Hours(), tight.At.Hours(), .01*tight.At.Hours())
	if a, b, c := at(1, 0.002).T, at(2, 0.002).T, at(4, 0.002).T; math.Abs(float64(a-b)) > 1 || math.Abs(float64(b-c)) > math.Abs(float64(a-b))/2 {
		t.Errorf("finer cells move the peak by %v, then %v", b-a, c-b)
	}
}

func TestSectionRunsAway(t *testing.T) {
	s := river(FastAmine(), 0.08, 0.03, 40, 24)
	usual := sectionCourse(t, s, Options{Until: 4 * unit.Day})
	tight := sectionCourse(t, s, Options{Until: 4 * unit.Day, Tolerance: 0.002})
	if !usual.RunsAway || !tight.RunsAway {
		t.Fatal("it does not run away")
	}
	near(t, "hour", usual.Ends.Hours(), tight.Ends.Hours(), .01*tight.Ends.Hours())
	near(t, "end", float64(usual.Peak.T), defaultLimit, .05)
	if usual.Peak.At != usual.Ends || usual.Hottest != len(usual.Fields)-1 || usual.Fields[usual.Hottest].At != usual.Ends {
		t.Errorf("the peak at %v, the end at %v, field %d of %d", usual.Peak.At, usual.Ends, usual.Hottest, len(usual.Fields))
	}
	if n := len(usual.Fields); n < mostFields/2 {
		t.Errorf("%d fields", n)
	}
	// One that is over the limit from the start ends there.
	s.Blocks[1][1].From = unit.Celsius(210)
	if hot := sectionCourse(t, s, Options{Until: unit.Hour}); !hot.RunsAway || hot.Ends > 1 {
		t.Errorf("it ends at %v", hot.Ends)
	}
}

func TestSectionFields(t *testing.T) {
	s := river(SlowAmine(), 0.06, 0.015, 24, 12)
	c := sectionCourse(t, s, Options{Until: 2 * unit.Day})
	if n := len(c.Fields); n < 25 || n > 60 || c.Fields[0].At != 0 || c.Fields[n-1].At != c.Ends || c.Ends != 2*unit.Day {
		t.Errorf("%d fields from %v to %v", n, c.Fields[0].At, c.Fields[n-1].At)
	}
	for i, f := range c.Fields {
		if i > 0 && f.At <= c.Fields[i-1].At {
			t.Errorf("field %d is at %v", i, f.At)
		}
		if len(f.Y) != 25 || len(f.Z) != 13 || len(f.T) != 24*12 || len(f.A) != len(f.T) || len(f.Resin) != len(f.T) {
			t.Fatalf("field %d has %d edges across, %d up, %d cells", i, len(f.Y), len(f.Z), len(f.T))
		}
		for j, is := range f.Resin {
			y, z := (f.Y[j%24]+f.Y[j%24+1])/2, (f.Z[j/24]+f.Z[j/24+1])/2
			if want := y > 0.04 && y < 0.10 && z > 0.018; is != want {
				t.Fatalf("at %v, %v resin is %v", y, z, is)
			}
			if is && f.T[j] > float64(c.Peak.T)+1e-9 {
				t.Errorf("field %d is hotter than the peak: %v", i, f.T[j])
			}
		}
	}
	near(t, "energy left over", (c.Energy.Released-c.Energy.Stored-c.Energy.Lost)/c.Energy.Released, 0, .001)
	hot := c.Fields[c.Hottest]
	near(t, "hottest field", hot.At.Hours(), c.Peak.At.Hours(), .1)
	best := 0.0
	for j, is := range hot.Resin {
		if is {
			best = max(best, hot.T[j])
		}
	}
	near(t, "its heat", best, float64(c.Peak.T), .05)
	if again := sectionCourse(t, s, Options{Until: 2 * unit.Day}); !reflect.DeepEqual(c, again) {
		t.Error("the same section has two courses")
	}
}

func TestSectionOpenToTheAir(t *testing.T) {
	k := SlowAmine()
	pour, open := Block{Matter: Resin, Cure: &k, From: 295}, Block{Open: true}
	room := Room{Mean: 294, Swing: 3}
	low := &Section{Columns: []Strip{{0.05, 8}}, Rows: []Strip{{0.015, 12}}, Blocks: [][]Block{{pour}}, Below: 6, Above: 8, Left: 8, Right: 2, Room: room}
	// The same with a shaft of air over it and one at its left.
	high := &Section{Columns: []Strip{{0.03, 3}, {0.05, 8}}, Rows: []Strip{{0.015, 12}, {0.02, 3}}, Blocks: [][]Block{{open, pour}, {open, open}}, Below: 6, Above: 8, Left: 5, Right: 2, Room: room}
	a, b := sectionCourse(t, low, Options{Until: unit.Day}), sectionCourse(t, high, Options{Until: unit.Day})
	near(t, "peak", float64(b.Peak.T), float64(a.Peak.T), 1e-9)
	near(t, "lost", b.Energy.Lost, a.Energy.Lost, 1e-6*a.Energy.Lost)
	for _, f := range b.Fields {
		if want := float64(room.At(f.At)); f.T[0] != want || f.T[len(f.T)-1] != want {
			t.Fatalf("the air at %v is at %v and %v, the room at %v", f.At, f.T[0], f.T[len(f.T)-1], want)
		}
	}
}

func TestSectionStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if c, err := river(SlowAmine(), 0.06, 0.015, 16, 8).Run(ctx, Options{Until: unit.Day}); c != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("%v, %v", c, err)
	}
}

func TestSectionAllocates(t *testing.T) {
	s := river(SlowAmine(), 0.06, 0.015, 16, 8)
	p := planeOf(s)
	temps, done, _ := p.start(s)
	w := newSweeper(p, temps, done)
	if n := testing.AllocsPerRun(20, func() { w.try(10); w.take(10) }); n != 0 {
		t.Errorf("%v allocations a step", n)
	}
}

func BenchmarkSection(b *testing.B) {
	for _, n := range [][2]int{{50, 20}, {100, 40}, {200, 80}} {
		b.Run(fmt.Sprintf("%dx%d", n[0], n[1]), func(b *testing.B) {
			s := river(SlowAmine(), 80*unit.Millimetre, 22*unit.Millimetre, n[0], n[1])
			var c *SectionCourse
			for b.Loop() {
				c = sectionCourse(b, s, Options{Until: 4 * unit.Day})
			}
			b.ReportMetric(float64(c.Steps), "steps")
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(c.Steps*n[0]*n[1]), "ns/cellstep")
		})
	}
}
