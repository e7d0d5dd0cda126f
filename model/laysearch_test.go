package model

import (
	"context"
	"math"
	"testing"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// seeking is a tray of 250 by 150 mm and a slab of 700 by 300 mm with one live
// edge, traced in a photo from straight above of two pixels a millimetre.
func seeking() (Project, Plan) {
	p := tray(250, 150, 40, 26)
	s := Slab{ID: "b1", Name: "slab", Thickness: mm(26)}
	f := &s.Upper
	f.Wide, f.High, f.By, f.Touch = 2000, 1200, ByCard, 1
	f.Long, f.Broad = mm(300), mm(200)
	for i, at := range [][2]float64{{600, 400}, {1200, 400}, {1200, 800}, {600, 800}} {
		f.Marks = append(f.Marks, Mark{ID: "k" + itoa(i), X: at[0], Y: at[1]})
	}
	ring := shape.Ring{{X: 300, Y: 300}, {X: 1700, Y: 300}}
	for i := range 60 {
		x := 1700 - 1400*float64(i)/59
		ring = append(ring, shape.Point{X: x, Y: 860 + 40*math.Sin(x/130)})
	}
	f.Rings = []TracedRing{{ID: "r1", Kind: RingWood, Points: ring}}
	s.Layups = []Layup{{ID: "y1", Name: "here", X: 0.2, Y: -0.14, Turn: 25 * unit.Degree}}
	p.Slabs = []Slab{s}
	return p, Make(p)
}

// TestFindLayup: the place that is found is no worse than any of many others,
// keeps what it is to keep, and is the same each time.
func TestFindLayup(t *testing.T) {
	p, pl := seeking()
	from := p.Slabs[0].Layups[0]
	table := pl.LayTable("b1")
	if table == nil {
		t.Fatal("the slab is not laid out")
	}
	here := table.At(from)
	for want, worth := range map[LayWant]func(LayPlan) float64{
		WantResin: func(l LayPlan) float64 { return -float64(l.Resin) },
		WantLive:  func(l LayPlan) float64 { return float64(l.Live) },
		WantLeft:  func(l LayPlan) float64 { return float64(l.Left) },
	} {
		to, err := pl.FindLayup(context.Background(), "b1", from, want)
		if err != nil {
			t.Fatal(want, err)
		}
		got := table.At(to)
		if worth(got) < worth(here) || got.Share < leastWood || want == WantLeft && got.Resin > here.Resin {
			t.Errorf("%s: %+v gives %+v, %+v before", want, to, got, here)
		}
		for i := range 200 { // places of a low-discrepancy sequence over the slab
			frac := func(x float64) float64 { return x - math.Floor(x) }
			l := from
			l.X, l.Y = unit.Length(0.7*(frac(float64(i)*0.8191725134)-0.5)), unit.Length(0.3*(frac(float64(i)*0.6710436067)-0.5))
			l.Turn = unit.Angle(math.Pi * frac(float64(i)*0.5497004779))
			o := table.At(l)
			if o.Pieces > 0 && o.Share >= leastWood && (want != WantLeft || o.Resin <= here.Resin) && worth(o) > worth(got)*(1+0.02*math.Copysign(1, worth(got)))+1e-9 {
				t.Errorf("%s: %+v at %+v is better than %+v", want, o, l, got)
			}
		}
		if again, err := pl.FindLayup(context.Background(), "b1", from, want); err != nil || again != to {
			t.Errorf("%s: once %+v, once %+v, %v", want, to, again, err)
		}
		if to.ID != from.ID || to.Name != from.Name || math.Abs(math.Remainder(float64(to.X), 0.001)) > 1e-9 || math.Abs(math.Remainder(to.Turn.Degrees(), 0.5)) > 1e-9 {
			t.Errorf("%s: found is %+v", want, to)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if to, err := pl.FindLayup(ctx, "b1", from, WantResin); err == nil || to != from {
		t.Errorf("called off it gives %+v, %v", to, err)
	}
	if _, err := pl.FindLayup(context.Background(), "b9", from, WantResin); err == nil {
		t.Error("a place over no slab")
	}
}

// BenchmarkFindLayup is a whole search, which runs in the background.
func BenchmarkFindLayup(b *testing.B) {
	p, pl := seeking()
	for b.Loop() {
		if _, err := pl.FindLayup(context.Background(), "b1", p.Slabs[0].Layups[0], WantLive); err != nil {
			b.Fatal(err)
		}
	}
}
