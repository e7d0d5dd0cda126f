package shape

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"testing"

	"meniscus/model/unit"
)

// draw is Knuth's MMIX generator, its upper 31 bits, as in
// testdata/clip/reference.py.
type draw uint64

func (d *draw) below(n int) int {
	*d = *d*6364136223846793005 + 1442695040888963407
	return int(uint64(*d) >> 33 % uint64(n))
}

// cell is a corner in units of 1/8192 m.
type cell struct{ x, y int }

func (p cell) half() int {
	if p.y > 0 || p.y == 0 && p.x > 0 {
		return 0
	}
	return 1
}

// order sorts by direction.
func (p cell) order(q cell) int {
	if p.half() != q.half() {
		return p.half() - q.half()
	}
	return q.x*p.y - q.y*p.x
}

func (d *draw) star(holed bool) [][]cell {
	var rays []cell
	for range 5 + d.below(40) {
		x := d.below(401) - 200
		y := d.below(401) - 200
		if x != 0 || y != 0 {
			rays = append(rays, cell{8 * x, 8 * y})
		}
	}
	cx := d.below(1601)
	cy := d.below(1601)
	slices.SortStableFunc(rays, cell.order)
	var ring []cell
	for _, p := range rays {
		if len(ring) == 0 || ring[len(ring)-1].order(p) != 0 {
			ring = append(ring, p)
		}
	}
	for _, p := range []cell{{2400, 8}, {-8, 2400}, {-2400, -8}, {8, -2400}} {
		at := slices.IndexFunc(ring, func(q cell) bool { return p.order(q) <= 0 })
		switch {
		case at < 0:
			ring = append(ring, p)
		case p.order(ring[at]) == 0:
			ring[at] = p
		default:
			ring = slices.Insert(ring, at, p)
		}
	}
	place := func(k int) []cell {
		out := make([]cell, len(ring))
		for i, p := range ring {
			out[i] = cell{p.x*k/8 + cx, p.y*k/8 + cy}
		}
		return out
	}
	if holed {
		return [][]cell{place(8), place(3), place(1)}
	}
	return [][]cell{place(8)}
}

func (d *draw) comb(upright bool) [][]cell {
	teeth := 2 + d.below(8)
	x := d.below(400)
	left := x
	var top []cell
	for range teeth {
		wide := 60 + d.below(200)
		gap := 1 + d.below(120)
		tall := 700 + d.below(1500)
		top = append(top, cell{x, tall}, cell{x + wide, tall}, cell{x + wide, 500}, cell{x + wide + gap, 500})
		x += wide + gap
	}
	foot := d.below(300)
	slices.Reverse(top)
	rings := [][]cell{
		append([]cell{{left, foot}, {x, foot}}, top...),
		{{left + 10, foot + 20}, {x - 30, foot + 20}, {x - 30, 480}, {left + 10, 480}},
	}
	if upright {
		for _, r := range rings {
			for i, p := range r {
				r[i] = cell{p.y, p.x}
			}
		}
	}
	return rings
}

func (d *draw) skyline(down bool) [][]cell {
	n := 4 + d.below(6)
	x := 256 * d.below(3)
	left := x
	var ring []cell
	for range n {
		tall := 256 * (2 + d.below(5))
		ring = append(ring, cell{x, tall}, cell{x + 256, tall})
		x += 256
	}
	rings := [][]cell{
		append(ring, cell{x, 0}, cell{left, 0}),
		{{left + 256, 128}, {left + 256, 384}, {left + 512, 384}, {left + 512, 128}},
	}
	if down {
		for _, r := range rings {
			for i, p := range r {
				r[i].y = 1792 - p.y
			}
		}
	}
	return rings
}

func (d *draw) pair(k int) (a, b [][]cell) {
	switch {
	case k < 600:
		a = d.star(k%3 > 0)
		return a, d.star(k%2 > 0)
	case k < 800:
		a = d.comb(false)
		return a, d.comb(k%2 > 0)
	}
	a = d.skyline(false)
	return a, d.skyline(k%2 > 0)
}

func regionOf(rings [][]cell) Region {
	var list []Ring
	for _, r := range rings {
		ring := make(Ring, len(r))
		for i, p := range r {
			ring[i] = Point{float64(p.x) / 8192, float64(p.y) / 8192}
		}
		list = append(list, ring)
	}
	return NewRegion(list...)
}

// TestClippingAgainstGEOS holds 1,000 pairs of polygons with holes and islands,
// some of which share edges, to the areas that GEOS gives (testdata/clip). What
// is grown is held more loosely, for GEOS cuts its arcs elsewhere.
func TestClippingAgainstGEOS(t *testing.T) {
	data, err := os.ReadFile("../../testdata/clip/reference.json")
	if err != nil {
		t.Fatal(err)
	}
	var book struct {
		By   string
		Rows [][7]float64
	}
	if err := json.Unmarshal(data, &book); err != nil {
		t.Fatal(err)
	}
	if len(book.Rows) != 1000 {
		t.Fatalf("%d pairs, want 1,000", len(book.Rows))
	}
	d, worst, round := draw(20261201), 0.0, 0.0
	for k, row := range book.Rows {
		ra, rb := d.pair(k)
		a, b := regionOf(ra), regionOf(rb)
		larger := max(row[0], row[1])
		for i, got := range []unit.Area{a.Area(), b.Area(), a.And(b).Area(), a.Or(b).Area(), a.Without(b).Area()} {
			off := math.Abs(float64(got)-row[i]) / larger
			worst = max(worst, off)
			if off > 1e-9 {
				t.Errorf("pair %d, figure %d: %.15g, %s says %.15g", k, i, float64(got), book.By, row[i])
			}
		}
		for i, by := range []unit.Length{4 * unit.Millimetre, -4 * unit.Millimetre} {
			g := a.Grown(by)
			if err := g.Validate(); err != nil {
				t.Errorf("pair %d grown by %v: %v", k, by, err)
			}
			// Chords lie within 0.01 mm of their arcs here and 0.0003 mm there.
			off := math.Abs(float64(g.Area())-row[5+i]) / (float64(a.Perimeter()) * roundTo)
			round = max(round, off)
			if off > 1 {
				t.Errorf("pair %d grown by %v: %.15g, %s says %.15g", k, by, float64(g.Area()), book.By, row[5+i])
			}
		}
	}
	t.Logf("at most %.2g of the larger area off; grown, %.2g of what chords may take", worst, round)
}
