package cure

import (
	"context"
	"math"

	"meniscus/model/unit"
)

// Defaults of a run.
const (
	defaultTolerance = 0.02
	defaultLimit     = 473.15
)

// Run lets a slab cure. It stops early where the resin comes to the limit, past
// which the peak would hang on the grid: the course then says that it runs
// away, and when. A slab that cannot be reckoned with is refused with an error
// that wraps ErrUnusable; a context that ends, ends the run with its error.
func (s *Slab) Run(ctx context.Context, o Options) (*Course, error) {
	if err := s.check(&o); err != nil {
		return nil, err
	}
	tolerance, limit := o.orDefaults()
	own := *s
	own.Room = s.Room.Logged(s.Room.Log)
	s = &own
	g := gridOf(s)
	t, a := g.start(s)
	w := newStepper(g, t, a)
	c := &Course{Owner: g.owner, slab: s}
	for _, z := range g.heights {
		c.Heights = append(c.Heights, unit.Length(z))
	}
	until := float64(o.Until)
	stops := append(g.room.knots(until), until)
	longest := until
	if s.Room.Swing != 0 {
		longest = float64(6 * unit.Hour)
	}
	c.note(w)
	h, power := w.first(tolerance), -1./stepOrder
	for len(stops) > 0 {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		left := stops[0] - w.now
		if left <= 1e-9*stops[0] {
			w.now, stops = stops[0], stops[1:]
			w.look()
			continue
		}
		step := toStop(min(h, longest), left)
		e := w.try(step, tolerance)
		if !(e <= 1) {
			if math.IsInf(e, 0) || math.IsNaN(e) {
				h = step / 4
			} else {
				h = step * max(0.2, 0.9*math.Pow(e, power))
			}
			if h < 1e-9 {
				return nil, unusable("the step shrank to nothing at %g s", w.now)
			}
			continue
		}
		w.take(step)
		grown := step * min(4, 0.9*math.Pow(max(e, 1e-6), power))
		if step == h || grown > h {
			h = grown
		}
		c.note(w)
		if c.hot(w, limit) {
			break
		}
	}
	c.finish()
	return c, nil
}

// orDefaults gives tolerance and limit in kelvin.
func (o *Options) orDefaults() (tolerance, limit float64) {
	tolerance, limit = float64(o.Tolerance), float64(o.Limit)
	if tolerance == 0 {
		tolerance = defaultTolerance
	}
	if limit == 0 {
		limit = defaultLimit
	}
	return tolerance, limit
}

// toStop shortens a step so that it does not pass a stop that is so far off.
// The last two steps to it are made alike, so that none is a sliver.
func toStop(step, left float64) float64 {
	switch {
	case step >= left:
		return left
	case step > left/2:
		return left / 2
	}
	return step
}

// first guesses the first step: short enough that nothing moves by more than
// the tolerance and that the cure's own acceleration is followed.
func (s *stepper) first(tolerance float64) float64 {
	h := 60.0
	for i := range s.ft {
		if v := math.Abs(s.ft[i]); v > 0 {
			h = min(h, tolerance/v)
		}
		if s.byA[i] > 0 {
			h = min(h, 0.1/(s.byA[i]*stepGamma))
		}
	}
	return max(h, 1e-6)
}
