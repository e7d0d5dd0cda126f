package model

import (
	"math"

	"meniscus/model/shape"
)

// onEdge is how near the slab's outline a blank's edge counts as part of it.
const onEdge = 1e-4 // m

// edges are the lines of outlines, sorted into upright strips so that what lies
// near a place is found without looking at all of them.
type edges struct {
	left, wide float64
	strips     [][][2]shape.Point
}

// newEdges sorts the outlines of regions.
func newEdges(regions ...shape.Region) edges {
	const strips = 256
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, region := range regions {
		for _, r := range region {
			for _, p := range r {
				lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
			}
		}
	}
	if !(hi > lo) {
		return edges{}
	}
	e := edges{left: lo - onEdge, wide: (hi - lo + 2*onEdge) / strips, strips: make([][][2]shape.Point, strips)}
	for _, region := range regions {
		for _, r := range region {
			for i, a := range r {
				b := r[(i+1)%len(r)]
				for k := e.strip(math.Min(a.X, b.X) - onEdge); k <= e.strip(math.Max(a.X, b.X)+onEdge); k++ {
					e.strips[k] = append(e.strips[k], [2]shape.Point{a, b})
				}
			}
		}
	}
	return e
}

// strip gives the strip of a place along x.
func (e *edges) strip(x float64) int {
	return min(max(int((x-e.left)/e.wide), 0), len(e.strips)-1)
}

// near tells whether a place lies on one of the lines.
func (e *edges) near(p shape.Point) bool {
	if len(e.strips) == 0 {
		return false
	}
	for _, s := range e.strips[e.strip(p.X)] {
		dx, dy := s[1].X-s[0].X, s[1].Y-s[0].Y
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = min(max(((p.X-s[0].X)*dx+(p.Y-s[0].Y)*dy)/l, 0), 1)
		}
		if math.Hypot(p.X-s[0].X-t*dx, p.Y-s[0].Y-t*dy) <= onEdge {
			return true
		}
	}
	return false
}

// split parts an outline into open runs that lie apart from the lines and runs
// that lie on them, by the middles of its edges. An outline that is all of one
// kind is one run that ends where it begins.
func (e *edges) split(r shape.Ring) (apart, on []shape.Ring) {
	n := len(r)
	if n < 2 {
		return nil, nil
	}
	is := make([]bool, n)
	start := -1
	for i, a := range r {
		b := r[(i+1)%n]
		is[i] = e.near(shape.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
	}
	for i := range is {
		if is[i] != is[(i+n-1)%n] {
			start = i
			break
		}
	}
	put := func(run shape.Ring, live bool) {
		if live {
			on = append(on, run)
		} else {
			apart = append(apart, run)
		}
	}
	if start < 0 {
		put(append(append(shape.Ring{}, r...), r[0]), is[0])
		return apart, on
	}
	run := shape.Ring{r[start]}
	for k := range n {
		i := (start + k) % n
		run = append(run, r[(i+1)%n])
		if next := (i + 1) % n; k == n-1 || is[next] != is[i] {
			put(run, is[i])
			run = shape.Ring{r[next]}
		}
	}
	return apart, on
}
