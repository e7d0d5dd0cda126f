package cure

import (
	"context"
	"fmt"
	"math"
	"testing"

	"meniscus/model/unit"
)

// reference is testdata/cure/reference.json: the castings of the book solved by
// scipy's LSODA at a tolerance of 1e-10, which its Radau bears out to 1e-4 K.
type reference struct {
	Slabs, Sections []struct {
		Name string
		Peak struct {
			T, At float64
			Cell  int
		}
		RunsAway, GelFirst, GelLast *float64
		Released, Stored            float64
		Times                       []float64
		Cells                       []int
		T, A                        [][]float64 // by cell, then by time
	}
	Edges []struct {
		Slab        string
		Depth, Room float64
	}
}

// What a run may differ by from the reference.
const (
	peakWithin       = 0.3   // K
	hourWithin       = 0.01  // of itself
	conversionWithin = 0.003 //
	energyWithin     = 0.005 // of the heat released
	depthWithin      = 0.01  // of itself
	roomWithin       = 0.2   // K
)

// off complains where got is not within a tolerance of want.
func off(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.6g, reference %.6g, off by %.3g, allowed %.3g", what, got, want, math.Abs(got-want), within)
	}
}

func balanced(t *testing.T, e Energy, released float64) {
	t.Helper()
	off(t, "heat released", e.Released, released, energyWithin*released)
	off(t, "heat stored and lost", e.Stored+e.Lost, e.Released, energyWithin*e.Released)
}

func TestSlabsAgainstReference(t *testing.T) {
	b, ref := readBook(t), reference{}
	readData(t, "reference.json", &ref)
	if len(ref.Slabs) != len(b.Slabs) || len(ref.Slabs) < 8 {
		t.Fatalf("%d slabs for %d", len(ref.Slabs), len(b.Slabs))
	}
	for _, r := range ref.Slabs {
		t.Run(r.Name, func(t *testing.T) {
			s, until := b.slab(t, r.Name)
			c, err := s.Run(context.Background(), Options{Until: until})
			if err != nil {
				t.Fatal(err)
			}
			if c.RunsAway != (r.RunsAway != nil) {
				t.Fatalf("runs away %v, peak %.1f °C", c.RunsAway, c.Peak.T.Celsius())
			}
			off(t, "peak", float64(c.Peak.T), r.Peak.T, peakWithin)
			off(t, "time of the peak", float64(c.Peak.At), r.Peak.At, hourWithin*r.Peak.At)
			if c.RunsAway {
				off(t, "time at which it runs away", float64(c.Ends), *r.RunsAway, hourWithin**r.RunsAway)
			}
			balanced(t, c.Energy, r.Released)
			for i, cell := range r.Cells {
				for j, at := range r.Times {
					f := c.At(unit.Span(at))
					place := fmt.Sprintf("cell %d at %.2f h", cell, at/3600)
					// A curve that climbs a cliff is as near as its hour is.
					climb := math.Abs(f.dT[cell]) * at / 1000
					off(t, "temperature of "+place, f.T[cell], r.T[i][j], peakWithin+climb)
					off(t, "conversion of "+place, f.A[cell], r.A[i][j], conversionWithin)
				}
			}
			first, last, all := gels(c, s)
			if r.GelFirst != nil {
				off(t, "first gel", float64(first), *r.GelFirst, hourWithin**r.GelFirst)
			}
			if all != (r.GelLast != nil) {
				t.Errorf("all of it gels: %v", all)
			} else if all {
				off(t, "last gel", float64(last), *r.GelLast, hourWithin**r.GelLast)
			}
			for _, f := range c.Frames {
				for i, a := range f.A {
					if !(a >= 0 && a <= 1) || !(f.T[i] > 0) {
						t.Fatalf("cell %d has conversion %g and temperature %g", i, a, f.T[i])
					}
				}
			}
		})
	}
}

// gels gives when the first and the last resin of a slab gelled, and whether
// all of it did.
func gels(c *Course, s *Slab) (first, last unit.Span, all bool) {
	first, all = unit.Span(math.Inf(1)), true
	for cell, owner := range c.Owner {
		k := s.Strata[owner].Cure
		if k == nil {
			continue
		}
		at, ok := c.Reached(cell, k.Gel)
		if !ok {
			all = false
			continue
		}
		first, last = min(first, at), max(last, at)
	}
	return first, last, all
}

func TestSectionsAgainstReference(t *testing.T) {
	b, ref := readBook(t), reference{}
	readData(t, "reference.json", &ref)
	if len(ref.Sections) < 2 {
		t.Fatalf("%d sections", len(ref.Sections))
	}
	for _, r := range ref.Sections {
		t.Run(r.Name, func(t *testing.T) {
			s, until := b.section(t, r.Name)
			c, err := s.Run(context.Background(), Options{Until: until})
			if err != nil {
				t.Fatal(err)
			}
			if c.RunsAway != (r.RunsAway != nil) {
				t.Fatalf("runs away %v, peak %.1f °C", c.RunsAway, c.Peak.T.Celsius())
			}
			off(t, "peak", float64(c.Peak.T), r.Peak.T, peakWithin)
			off(t, "time of the peak", float64(c.Peak.At), r.Peak.At, hourWithin*r.Peak.At)
			if c.RunsAway {
				off(t, "time at which it runs away", float64(c.Ends), *r.RunsAway, hourWithin**r.RunsAway)
			}
			balanced(t, c.Energy, r.Released)
			for j, at := range r.Times {
				// A run's own fields lie at other times: one that ends then.
				part, err := s.Run(context.Background(), Options{Until: unit.Span(at)})
				if err != nil {
					t.Fatal(err)
				}
				f := &part.Fields[len(part.Fields)-1]
				for i, cell := range r.Cells {
					// The reference counts column by column, a field row by row.
					nz, ny := len(f.Z)-1, len(f.Y)-1
					here := cell%nz*ny + cell/nz
					place := fmt.Sprintf("cell %d at %.2f h", cell, at/3600)
					off(t, "temperature of "+place, f.T[here], r.T[i][j], peakWithin+climbing(r.T[i], r.Times, j))
					off(t, "conversion of "+place, f.A[here], r.A[i][j], conversionWithin)
				}
				for i, a := range f.A {
					if !(a >= 0 && a <= 1) || !(f.T[i] > 0) {
						t.Fatalf("cell %d has conversion %g and temperature %g", i, a, f.T[i])
					}
				}
			}
		})
	}
}

// climbing gives how far a curve that was read at some times moves in a
// thousandth of the time that has passed.
func climbing(curve, times []float64, j int) float64 {
	if j == 0 {
		return 0
	}
	return math.Abs(curve[j]-curve[j-1]) / (times[j] - times[j-1]) * times[j] / 1000
}

func TestEdgesAgainstReference(t *testing.T) {
	b, ref := readBook(t), reference{}
	readData(t, "reference.json", &ref)
	if len(ref.Edges) < 2 || len(ref.Edges) != len(b.Edges) {
		t.Fatalf("%d edges for %d", len(ref.Edges), len(b.Edges))
	}
	for i, e := range b.Edges {
		t.Run(e.Slab, func(t *testing.T) {
			edge := func(span [2]float64, change func(s *Slab, x float64)) float64 {
				low, high := span[0], span[1]
				for range 14 {
					s, until := b.slab(t, e.Slab)
					mid := (low + high) / 2
					change(s, mid)
					c, err := s.Run(context.Background(), Options{Until: until})
					if err != nil {
						t.Fatal(err)
					}
					if c.RunsAway {
						high = mid
					} else {
						low = mid
					}
				}
				return (low + high) / 2
			}
			depth := edge(e.Depth, func(s *Slab, x float64) { s.Strata[len(s.Strata)-1].Thickness = unit.Length(x) })
			off(t, "depth at which it runs away", depth, ref.Edges[i].Depth, depthWithin*ref.Edges[i].Depth)
			room := edge(e.Room, func(s *Slab, x float64) {
				s.Room.Mean = unit.Temperature(x)
				for i := range s.Strata {
					s.Strata[i].From = unit.Temperature(x)
				}
			})
			off(t, "room in which it runs away", room, ref.Edges[i].Room, roomWithin)
		})
	}
}
