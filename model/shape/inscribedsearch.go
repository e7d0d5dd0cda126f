package shape

import (
	"cmp"
	"math"
	"slices"

	"meniscus/model/unit"
)

// thinRing is a ring with fewer points where it has very many: to a fiftieth of
// a millimetre it is the same.
func thinRing(r Ring) Ring {
	const many = 300
	if len(r) <= many {
		return r
	}
	return r.Simplified(unit.Millimetre / 50)
}

// searchRectangle finds the largest rectangle in all of the rings, along the
// axes or at any turn.
func searchRectangle(rings []Ring, anyTurn bool) Rectangle {
	if !anyTurn {
		return searchTurned(rings, 0, closest)
	}
	// All turns are tried by steps of 5°, without closing in; then nearer about
	// the best of them, and last as close as along the axes.
	const step = 5 * unit.Degree
	type tried struct {
		turn unit.Angle
		area unit.Area
	}
	var list []tried
	for k := range 18 {
		turn := step * unit.Angle(k)
		list = append(list, tried{turn, searchTurned(rings, turn, care{1, 0}).Area()})
	}
	slices.SortStableFunc(list, func(a, b tried) int { return cmp.Compare(b.area, a.area) })
	best := Rectangle{}
	for _, t := range list[:3] {
		near := searchTurned(rings, t.turn, closer)
		for around := step / 2; around > 0.01*unit.Degree; around /= 2 {
			from := near.Turn
			for _, try := range [2]unit.Angle{from - around, from + around} {
				if r := searchTurned(rings, try, closer); r.Area() > near.Area() {
					near = r
				}
			}
		}
		if r := searchTurned(rings, near.Turn, closest); r.Area() > best.Area() {
			best = r
		}
	}
	return best
}

// care is how much is done for one turn: how many rectangles on the coarse lines
// are narrowed down on, and by how many rounds.
type care struct{ kept, rounds int }

var (
	closer  = care{1, 5}
	closest = care{4, 12}
)

// searchTurned finds the largest rectangle whose length is turned so, first on
// coarse lines, and then on lines ever closer about its edges.
func searchTurned(rings []Ring, turn unit.Angle, c care) Rectangle {
	if turn != 0 {
		turned := make([]Ring, len(rings))
		for i, r := range rings {
			turned[i] = r.Turned(-turn)
		}
		rings = turned
	}
	lo, hi := Point{math.Inf(-1), math.Inf(-1)}, Point{math.Inf(1), math.Inf(1)}
	for _, r := range rings {
		l, h := r.Bounds()
		lo, hi = Point{max(lo.X, l.X), max(lo.Y, l.Y)}, Point{min(hi.X, h.X), min(hi.Y, h.Y)}
	}
	if !(hi.X > lo.X && hi.Y > lo.Y) {
		return Rectangle{Turn: turn}
	}
	const coarse = 48
	width := (hi.X - lo.X) / coarse
	lines := make([]float64, coarse+1)
	for i := range lines {
		lines[i] = lo.X + width*float64(i)
	}
	lines[coarse] = hi.X
	best := upright{}
	for _, u := range onLines(rings, lines, c.kept) {
		about := width
		for range c.rounds {
			if near := onLines(rings, linesAbout(u, about, lo.X, hi.X), 1); len(near) > 0 && near[0].area() > u.area() {
				u = near[0]
			}
			about /= 3
		}
		if u.area() > best.area() {
			best = u
		}
	}
	if best.area() <= 0 {
		return Rectangle{Turn: turn}
	}
	sin, cos := math.Sincos(float64(turn))
	x, y := (best.x0+best.x1)/2, (best.y0+best.y1)/2
	return Rectangle{Point{x*cos - y*sin, x*sin + y*cos}, unit.Length(best.x1 - best.x0), unit.Length(best.y1 - best.y0), turn}
}

// upright is a rectangle along the axes.
type upright struct{ x0, x1, y0, y1 float64 }

func (u upright) area() float64 { return (u.x1 - u.x0) * (u.y1 - u.y0) }

// linesAbout gives the lines about the two edges of a rectangle; what lies
// between the two is one strip.
func linesAbout(c upright, about, lo, hi float64) []float64 {
	const each = 6
	var lines []float64
	for _, x := range [2]float64{c.x0, c.x1} {
		for k := -each; k <= each; k++ {
			lines = append(lines, max(lo, min(hi, x+about*float64(k)/each)))
		}
	}
	slices.Sort(lines)
	return slices.Compact(lines)
}

// onLines gives the largest rectangles whose edges left and right lie on two of
// the lines, at most so many that lie well apart, the largest first.
func onLines(rings []Ring, lines []float64, most int) []upright {
	free := make([][]Interval, len(lines)-1)
	for k, r := range rings {
		for i, strip := range r.strips(lines) {
			if k == 0 {
				free[i] = strip
			} else {
				free[i] = meetAll(free[i], strip)
			}
		}
	}
	var list []upright
	for i := range free {
		best := upright{}
		now := free[i]
		for j := i; j < len(free) && len(now) > 0; j++ {
			if j > i {
				now = meetAll(now, free[j])
			}
			for _, y := range now {
				if c := (upright{lines[i], lines[j+1], y.Lo, y.Hi}); c.area() > best.area() {
					best = c
				}
			}
		}
		if best.area() > 0 {
			list = append(list, best)
		}
	}
	slices.SortStableFunc(list, func(a, b upright) int { return cmp.Compare(b.area(), a.area()) })
	apart := (lines[len(lines)-1] - lines[0]) / 12
	var kept []upright
	for _, c := range list {
		alike := false
		for _, k := range kept {
			alike = alike || math.Abs(k.x0-c.x0)+math.Abs(k.x1-c.x1)+math.Abs(k.y0-c.y0)+math.Abs(k.y1-c.y1) < apart
		}
		if !alike {
			kept = append(kept, c)
		}
		if len(kept) == most {
			break
		}
	}
	return kept
}

// meetAll gives what two lists of intervals, each in order, have in common.
func meetAll(a, b []Interval) []Interval {
	var out []Interval
	for i, j := 0, 0; i < len(a) && j < len(b); {
		if lo, hi := max(a[i].Lo, b[j].Lo), min(a[i].Hi, b[j].Hi); hi > lo {
			out = append(out, Interval{lo, hi})
		}
		if a[i].Hi < b[j].Hi {
			i++
		} else {
			j++
		}
	}
	return out
}

// strips gives, for each strip between two neighbouring upright lines, the
// heights at which one can cross it from line to line without leaving the ring:
// those that no edge passes through within the strip, and that lie inside.
func (r Ring) strips(lines []float64) [][]Interval {
	m := len(lines) - 1
	walls := make([][]Interval, m)
	cross := make([][]float64, m)
	for i := range r {
		p, q := r[i], r[r.next(i)]
		if p.X > q.X {
			p, q = q, p
		}
		first, exact := slices.BinarySearch(lines, p.X)
		if !exact {
			first--
		}
		for k := max(0, first); k < m && (lines[k] < q.X || p.X == q.X && lines[k] <= p.X); k++ {
			a, b := lines[k], lines[k+1]
			if p.X >= b {
				continue
			}
			from, to := p, q
			if p.X < a {
				from = p.toward(q, (a-p.X)/(q.X-p.X))
			}
			if q.X > b {
				to = p.toward(q, (b-p.X)/(q.X-p.X))
			}
			if p.X == q.X && p.X == a {
				continue // it lies on the line itself
			}
			walls[k] = append(walls[k], Interval{min(from.Y, to.Y), max(from.Y, to.Y)})
			if mid := (a + b) / 2; p.X <= mid && mid < q.X {
				cross[k] = append(cross[k], p.Y+(q.Y-p.Y)*(mid-p.X)/(q.X-p.X))
			}
		}
	}
	out := make([][]Interval, m)
	for k := range out {
		out[k] = gaps(walls[k], cross[k])
	}
	return out
}

// gaps gives the intervals between walls that lie inside, which is where an odd
// number of edges has been crossed from below.
func gaps(walls []Interval, cross []float64) []Interval {
	slices.SortFunc(walls, func(a, b Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	slices.Sort(cross)
	var out []Interval
	top := math.Inf(-1)
	n := 0
	for _, w := range walls {
		if w.Lo > top && !math.IsInf(top, -1) {
			for n < len(cross) && cross[n] < (top+w.Lo)/2 {
				n++
			}
			if n%2 == 1 {
				out = append(out, Interval{top, w.Lo})
			}
		}
		top = max(top, w.Hi)
	}
	return out
}
