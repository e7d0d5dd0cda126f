package drawing

import (
	"math"
	"slices"
)

// simplify drops the points of a ring that lie within tol of the line through
// their neighbours (Douglas and Peucker's method, from the two points that are
// farthest apart along it).
func simplify(ring []Pt, tol float64) []Pt {
	if len(ring) < 16 {
		return ring
	}
	far, best := 0, -1.0
	for i, p := range ring {
		if d := p.To(ring[0]); d > best {
			far, best = i, d
		}
	}
	keep := make([]bool, len(ring))
	keep[0], keep[far] = true, true
	type span struct{ a, b int }
	work := []span{{0, far}, {far, len(ring)}}
	for len(work) > 0 {
		s := work[len(work)-1]
		work = work[:len(work)-1]
		p, q := ring[s.a], ring[s.b%len(ring)]
		at, worst := -1, tol
		for i := s.a + 1; i < s.b; i++ {
			if d := fromSegment(ring[i], p, q); d > worst {
				at, worst = i, d
			}
		}
		if at >= 0 {
			keep[at] = true
			work = append(work, span{s.a, at}, span{at, s.b})
		}
	}
	out := ring[:0:0]
	for i, k := range keep {
		if k {
			out = append(out, ring[i])
		}
	}
	return out
}

// fromSegment gives the distance of p from the segment a to b.
func fromSegment(p, a, b Pt) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := dx*dx + dy*dy
	t := 0.0
	if l > 0 {
		t = math.Min(1, math.Max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return p.To(Pt{a.X + t*dx, a.Y + t*dy})
}

// inside tells whether p is inside rings by the even-odd rule.
func inside(p Pt, rings ...[]Pt) bool {
	in := false
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}

// withinRing gives a place well within a ring: on the level line through its
// middle, where that runs longest inside.
func withinRing(r []Pt) Pt {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range r {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	y := (lo + hi) / 2
	var xs []float64
	for i, a := range r {
		if b := r[(i+1)%len(r)]; (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	slices.Sort(xs)
	at, widest := r[0], 0.0
	for i := 0; i+1 < len(xs); i += 2 {
		if wide := xs[i+1] - xs[i]; wide > widest {
			at, widest = Pt{(xs[i] + xs[i+1]) / 2, y}, wide
		}
	}
	return at
}

// crossed tells whether a ring's line runs through a box.
func crossed(b Box, ring []Pt) bool {
	for i, p := range ring {
		if _, _, ok := b.clip(p, ring[(i+1)%len(ring)]); ok {
			return true
		}
	}
	return false
}

// twiceArea gives twice the signed area; positive when clockwise on screen.
func twiceArea(r []Pt) float64 {
	sum := 0.0
	for i, a := range r {
		b := r[(i+1)%len(r)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return sum
}

// centroid gives the middle of a ring's area, or of its box when it has none.
func centroid(r []Pt) Pt {
	var a, x, y float64
	for i, p := range r {
		q := r[(i+1)%len(r)]
		c := p.X*q.Y - q.X*p.Y
		a, x, y = a+c, x+(p.X+q.X)*c, y+(p.Y+q.Y)*c
	}
	if math.Abs(a) < 1e-9 {
		return BoxOf(r...).Centre()
	}
	return Pt{x / (3 * a), y / (3 * a)}
}

// circle gives a ring of n points around c.
func circle(c Pt, radius float64, n int) []Pt {
	r := make([]Pt, n)
	for i := range r {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r[i] = Pt{c.X + radius*cos, c.Y + radius*sin}
	}
	return r
}

// same tells whether two rings of world points cover each other on screen to
// within half a dp.
func same(a, b []Pt) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !near(a[i], b[i], 0.5) {
			return false
		}
	}
	return true
}
