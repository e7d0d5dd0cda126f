package cure

import (
	"math"
	"sort"

	"meniscus/model/unit"
)

// note keeps the state of a stepper as a frame.
func (c *Course) note(w *stepper) {
	const chunk = 32
	n := w.n
	if len(c.pool) < 4*n {
		c.pool = make([]float64, 4*n*chunk)
	}
	take := func(from []float64) []float64 {
		v := c.pool[:n:n]
		c.pool = c.pool[n:]
		copy(v, from)
		return v
	}
	c.Frames = append(c.Frames, Frame{At: unit.Span(w.now), T: take(w.t), A: take(w.a), dT: take(w.ft), dA: take(w.fa)})
}

// hot tells whether the resin has come to the limit, and ends the course at
// the first instant at which any of it did.
func (c *Course) hot(w *stepper, limit float64) bool {
	last := len(c.Frames) - 1
	first := c.Frames[last].At
	for _, r := range w.runs {
		for i := r.from; i < r.to; i++ {
			if w.t[i] >= limit {
				c.RunsAway = true
				first = min(first, c.crossing(last, i, limit, false))
			}
		}
	}
	if c.RunsAway {
		c.Frames[last] = c.at(last, float64(first))
	}
	return c.RunsAway
}

// hermite gives the cubic through two values with their slopes, at the fraction
// u of a step of h.
func hermite(y0, y1, d0, d1, h, u float64) float64 {
	v := 1 - u
	return y0*v*v*(1+2*u) + y1*u*u*(3-2*u) + h*u*v*(d0*v-d1*u)
}

// at gives the state between frame k-1 and frame k.
func (c *Course) at(k int, t float64) Frame {
	p, q := &c.Frames[k-1], &c.Frames[k]
	h := float64(q.At - p.At)
	u := (t - float64(p.At)) / h
	n := len(p.T)
	all := make([]float64, 4*n)
	f := Frame{At: unit.Span(t), T: all[:n:n], A: all[n : 2*n : 2*n], dT: all[2*n : 3*n : 3*n], dA: all[3*n:]}
	for i := range n {
		f.T[i] = hermite(p.T[i], q.T[i], p.dT[i], q.dT[i], h, u)
		f.A[i] = min(max(hermite(p.A[i], q.A[i], p.dA[i], q.dA[i], h, u), p.A[i]), max(p.A[i], q.A[i]))
		f.dT[i] = p.dT[i]*(1-u) + q.dT[i]*u
		f.dA[i] = p.dA[i]*(1-u) + q.dA[i]*u
	}
	return f
}

// after gives the number of the first frame at or after a time, at least 1.
func (c *Course) after(t unit.Span) int {
	k := sort.Search(len(c.Frames), func(k int) bool { return c.Frames[k].At >= t })
	return min(max(k, 1), len(c.Frames)-1)
}

// At gives the slab at a time; before the start and after the end it is that
// of the start and the end.
func (c *Course) At(t unit.Span) Frame {
	if last := c.Frames[len(c.Frames)-1]; t >= last.At || len(c.Frames) == 1 {
		return last
	}
	if t <= 0 {
		return c.Frames[0]
	}
	return c.at(c.after(t), float64(t))
}

// crossing gives the time between frame k-1 and frame k at which a cell comes
// to a value, of its conversion or else of its temperature.
func (c *Course) crossing(k, cell int, value float64, conversion bool) unit.Span {
	p, q := &c.Frames[k-1], &c.Frames[k]
	h := float64(q.At - p.At)
	y0, y1, d0, d1 := p.T[cell], q.T[cell], p.dT[cell], q.dT[cell]
	if conversion {
		y0, y1, d0, d1 = p.A[cell], q.A[cell], p.dA[cell], q.dA[cell]
	}
	low, high := 0.0, 1.0
	rising := y1 > y0
	for range 40 {
		mid := (low + high) / 2
		if (hermite(y0, y1, d0, d1, h, mid) < value) == rising {
			low = mid
		} else {
			high = mid
		}
	}
	return p.At + unit.Span(h*(low+high)/2)
}

// Reached gives when a cell came to a conversion; false when it never did.
func (c *Course) Reached(cell int, a float64) (unit.Span, bool) {
	k := sort.Search(len(c.Frames), func(k int) bool { return c.Frames[k].A[cell] >= a })
	switch k {
	case len(c.Frames):
		return 0, false
	case 0:
		return c.Frames[0].At, true
	}
	return c.crossing(k, cell, a, true), true
}

// When gives the first time at or after from at which what holds says holds
// true; it must be false before and true after within a step. False when it
// never does.
func (c *Course) When(from unit.Span, holds func(Frame) bool) (unit.Span, bool) {
	if first := c.At(from); holds(first) {
		return max(from, 0), true
	}
	for k := c.after(from); k < len(c.Frames); k++ {
		if c.Frames[k].At < from || !holds(c.Frames[k]) {
			continue
		}
		low, high := max(from, c.Frames[k-1].At), c.Frames[k].At
		for range 24 {
			if mid := low + (high-low)/2; holds(c.at(k, float64(mid))) {
				high = mid
			} else {
				low = mid
			}
		}
		return high, true
	}
	return 0, false
}

// Cells gives the cells of a stratum: from the first up to, not including, the
// second.
func (c *Course) Cells(stratum int) (from, to int) {
	from = sort.SearchInts(c.Owner, stratum)
	return from, sort.SearchInts(c.Owner, stratum+1)
}

// Hottest gives the peak of the resin of one stratum.
func (c *Course) Hottest(stratum int) Peak {
	from, to := c.Cells(stratum)
	best := Peak{Cell: -1}
	frame := 0
	for k := range c.Frames {
		for i := from; i < to; i++ {
			if t := unit.Temperature(c.Frames[k].T[i]); best.Cell < 0 || t > best.T {
				best, frame = Peak{T: t, At: c.Frames[k].At, Height: c.Heights[i], Cell: i}, k
			}
		}
	}
	if best.Cell < 0 {
		return Peak{}
	}
	for k := max(1, frame); k <= min(frame+1, len(c.Frames)-1); k++ {
		for i := max(from, best.Cell-1); i <= min(best.Cell+1, to-1); i++ {
			if t, at, ok := c.summit(k, i); ok && t > best.T {
				best.T, best.At, best.Height, best.Cell = t, at, c.Heights[i], i
			}
		}
	}
	return best
}

// summit gives the highest point of a cell's course between frame k-1 and k.
func (c *Course) summit(k, cell int) (unit.Temperature, unit.Span, bool) {
	p, q := &c.Frames[k-1], &c.Frames[k]
	d0, d1 := p.dT[cell], q.dT[cell]
	if !(d0 > 0 && d1 < 0) {
		return 0, 0, false
	}
	h, rise := float64(q.At-p.At), q.T[cell]-p.T[cell]
	// The slope of the cubic is d0 + 2 b u + 3 a u² over h.
	b, a := 3*rise/h-2*d0-d1, d0+d1-2*rise/h
	u := d0 / (d0 - d1)
	if root := b*b - 3*a*d0; root >= 0 {
		u = d0 / (-b + math.Sqrt(root))
	}
	if !(u >= 0 && u <= 1) {
		return 0, 0, false
	}
	return unit.Temperature(hermite(p.T[cell], q.T[cell], d0, d1, h, u)), p.At + unit.Span(h*u), true
}

// finish works out what follows from the whole course.
func (c *Course) finish() {
	c.pool = nil
	c.Ends = c.Frames[len(c.Frames)-1].At
	for i := range c.slab.Strata {
		if c.slab.Strata[i].Cure == nil {
			continue
		}
		if p := c.Hottest(i); p.T > c.Peak.T {
			c.Peak = p
		}
	}
	c.Energy = c.energy()
}

// energy sums the heat up. What is lost is the flow through both faces summed
// over time, so that the balance is a check on the run and not a tautology.
func (c *Course) energy() Energy {
	s, first, last := c.slab, &c.Frames[0], &c.Frames[len(c.Frames)-1]
	g := gridOf(s)
	var e Energy
	for i := range g.n {
		e.Stored += g.store[i] * (last.T[i] - first.T[i])
		e.Released += g.store[i] * g.warms[i] * (last.A[i] - first.A[i])
	}
	flow := func(f *Frame) (q, slope float64) {
		air, turn := s.Room.at(float64(f.At))
		top := g.n - 1
		return g.below*(f.T[0]-air) + g.above*(f.T[top]-air), g.below*(f.dT[0]-turn) + g.above*(f.dT[top]-turn)
	}
	q0, d0 := flow(first)
	for k := 1; k < len(c.Frames); k++ {
		h := float64(c.Frames[k].At - c.Frames[k-1].At)
		q1, d1 := flow(&c.Frames[k])
		e.Lost += h/2*(q0+q1) + h*h/12*(d0-d1)
		q0, d0 = q1, d1
	}
	return e
}

// After gives the slab of a course as it is at a time, to go on from there.
func (s *Slab) After(c *Course, t unit.Span) Slab {
	f := c.At(t)
	next := Slab{Below: s.Below, Above: s.Above, Room: s.Room.Shifted(t)}
	cell := 0
	for _, x := range s.Strata {
		x.Profile = make([]State, x.Cells)
		for j := range x.Cells {
			x.Profile[j] = State{unit.Temperature(f.T[cell]), f.A[cell]}
			cell++
		}
		next.Strata = append(next.Strata, x)
	}
	return next
}
