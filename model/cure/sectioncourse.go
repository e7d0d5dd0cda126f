package cure

import (
	"math"
	"slices"

	"meniscus/model/unit"
)

// A course keeps fields at equal spaces of time. The space is doubled whenever
// there would be more than mostFields, so that a run which ends early has its
// share of them.
const (
	mostFields  = 49
	firstFields = 6144 // spaces that a whole run is cut into at first
)

// watch follows the run of a section and keeps what its course is made of.
type watch struct {
	*plane
	resin   []bool
	t0, a0  []float64
	rim     []face
	fields  []Field
	space   float64 // of time between two fields
	hottest Field   // at the end of the step at which the resin was hottest
	peak    Spot
	top     int     // the cell that was hottest, -1 while none is resin
	raw     Reading // it, at that time
	before  Reading // it, a step before
	pending bool    // the step after is yet to come
	steps   int
	lost    float64
	away    bool
}

func newWatch(p *plane, t, a []float64, resin []bool, until float64) *watch {
	c := &watch{plane: p, resin: resin, t0: slices.Clone(t), a0: slices.Clone(a), rim: p.rim(), space: until / firstFields}
	c.fields = append(c.fields, c.field(0, slices.Clone(t), slices.Clone(a)))
	c.hottest = c.field(0, slices.Clone(t), slices.Clone(a))
	if c.top = c.warmest(t); c.top >= 0 {
		c.raw = Reading{T: unit.Temperature(t[c.top])}
		c.peak = c.spot(c.raw)
	}
	return c
}

// warmest gives the hottest cell of the resin, -1 where there is none.
func (c *watch) warmest(t []float64) int {
	top, hot := -1, math.Inf(-1)
	for i, is := range c.resin {
		if is && t[i] > hot {
			top, hot = i, t[i]
		}
	}
	return top
}

// field makes a field of a state; what is open is as warm as the room.
func (c *watch) field(at float64, t, a []float64) Field {
	air := float64(c.room.At(unit.Span(at)))
	for i, row := range c.cells {
		for k, x := range c.columns {
			for j := x.from; row[k].open && j < x.to; j++ {
				t[i*c.ny+j] = air
			}
		}
	}
	return Field{At: unit.Span(at), Y: c.y, Z: c.z, T: t, A: a, Resin: c.resin}
}

// spot is a reading at the middle of the hottest cell.
func (c *watch) spot(r Reading) Spot {
	j, i := c.top%c.ny, c.top/c.ny
	return Spot{r.T, r.At, unit.Length((c.y[j] + c.y[j+1]) / 2), unit.Length((c.z[i] + c.z[i+1]) / 2)}
}

// within gives a value at the fraction x of a step that began at y and moved
// to next, its first slope times the step being hk: the parabola that they make.
func within(y, hk, next, x float64) float64 { return y + x*(hk+x*(next-y-hk)) }

// crossing gives the fraction of the step of h that w tried at which the resin
// comes to the limit; 1 when it does not.
func (c *watch) crossing(w *sweeper, h, limit float64) float64 {
	top := c.warmest(w.nextT)
	if top < 0 || w.nextT[top] < limit {
		return 1
	}
	low, high := 0.0, 1.0
	for range 40 {
		if x := (low + high) / 2; within(w.t[top], h*w.kt[top], w.nextT[top], x) < limit {
			low = x
		} else {
			high = x
		}
	}
	return min(high, 1-1e-12)
}

// step keeps what is wanted of the step of h that w tried.
func (c *watch) step(w *sweeper, h float64) {
	c.steps++
	end := w.now + h
	c.lose(w, h)
	c.rise(w, end)
	for {
		at := float64(len(c.fields)) * c.space
		if at > end*(1+1e-12) {
			return
		}
		if len(c.fields) == mostFields {
			c.thin()
			continue
		}
		t, a := make([]float64, len(w.t)), make([]float64, len(w.a))
		x := min((at-w.now)/h, 1)
		for i := range t {
			t[i] = within(w.t[i], h*w.kt[i], w.nextT[i], x)
			a[i] = min(max(within(w.a[i], h*w.ka[i], w.nextA[i], x), 0), 1)
		}
		c.fields = append(c.fields, c.field(at, t, a))
	}
}

// thin drops every other field.
func (c *watch) thin() {
	kept := 0
	for i := 0; i < len(c.fields); i += 2 {
		c.fields[kept] = c.fields[i]
		kept++
	}
	clear(c.fields[kept:])
	c.fields = c.fields[:kept]
	c.space *= 2
}

// lose adds what flows to the room in a step of h, by the same rule as the
// step itself: so the balance of heat shows what the factoring of its matrix
// costs, and what a slip anywhere would.
func (c *watch) lose(w *sweeper, h float64) {
	first, second, gh := 0.0, 0.0, w.gh
	air, turn := w.room.at(w.now)
	then, _ := w.room.at(w.now + h)
	air, then = air+gh*turn, then-gh*turn
	for _, f := range c.rim {
		i := f.cell
		first += f.conduct * (w.t[i] + gh*w.kt[i] - air)
		second += f.conduct * (w.midT[i] + gh*w.u[i] - then)
	}
	c.lost += h / 2 * (first + second)
}

// rise follows the peak: it is where the resin was hottest at the end of a
// step, set right by the parabola through that cell's steps before and after.
func (c *watch) rise(w *sweeper, end float64) {
	if c.top < 0 {
		return
	}
	if c.pending {
		c.pending = false
		if r, ok := summit(c.before, c.raw, Reading{unit.Span(end), unit.Temperature(w.nextT[c.top])}); ok && r.T > c.peak.T {
			c.peak = c.spot(r)
		}
	}
	top := c.warmest(w.nextT)
	if t := unit.Temperature(w.nextT[top]); t > c.raw.T {
		c.top, c.raw, c.pending = top, Reading{unit.Span(end), t}, true
		c.before = Reading{unit.Span(w.now), unit.Temperature(w.t[top])}
		c.peak = c.spot(c.raw)
		copy(c.hottest.T, w.nextT)
		copy(c.hottest.A, w.nextA)
		c.hottest.At = c.raw.At
	}
}

// summit gives the top of the parabola through three readings in order; false
// when it does not lie between the first and the last.
func summit(a, b, c Reading) (Reading, bool) {
	h, g := float64(b.At-a.At), float64(c.At-b.At)
	up, down := float64(b.T-a.T)/h, float64(c.T-b.T)/g
	bend := (down - up) / (h + g)
	if !(h > 0 && g > 0 && bend < 0) {
		return Reading{}, false
	}
	slope := (up*g + down*h) / (h + g) // at b
	x := -slope / (2 * bend)
	if !(x > -h && x < g) {
		return Reading{}, false
	}
	return Reading{b.At + unit.Span(x), b.T + unit.Temperature(slope*x+bend*x*x)}, true
}

// course makes the course of a run that has ended.
func (c *watch) course(w *sweeper) *SectionCourse {
	stored, released := c.held(w.t, w.a, c.t0, c.a0)
	out := &SectionCourse{
		Fields: c.fields, Peak: c.peak, RunsAway: c.away, Ends: unit.Span(w.now), Steps: c.steps,
		Energy: Energy{Released: released, Stored: stored, Lost: c.lost},
	}
	last := out.Fields[len(out.Fields)-1].At
	if math.Abs(float64(out.Ends-last)) > 1e-9*float64(out.Ends) {
		out.Fields = append(out.Fields, c.field(w.now, slices.Clone(w.t), slices.Clone(w.a)))
	}
	at, found := slices.BinarySearchFunc(out.Fields, c.hottest.At, func(f Field, t unit.Span) int { return compare(f.At, t) })
	if !found {
		out.Fields = slices.Insert(out.Fields, at, c.field(float64(c.hottest.At), c.hottest.T, c.hottest.A))
	}
	out.Hottest = at
	return out
}
