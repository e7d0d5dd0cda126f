package cure

import (
	"context"
	"math"

	"meniscus/model/unit"
)

// mostSteps bounds the steps that a section may take between two corners of
// the room's temperature. A run that is any good takes some hundreds.
const mostSteps = 100000

// coarsest bounds the tolerance of a step, K: beyond it a run tells nothing.
const coarsest = 5

// Run lets a section cure. It stops early where the resin comes to the limit,
// past which the peak would hang on the grid: the course then says that it runs
// away, and when. A section that cannot be reckoned with is refused with an
// error that wraps ErrUnusable; a context that ends, ends the run with its
// error.
func (s *Section) Run(ctx context.Context, o Options) (*SectionCourse, error) {
	if err := s.check(&o); err != nil {
		return nil, err
	}
	tolerance, limit := o.orDefaults()
	tolerance = min(tolerance, coarsest)
	p := planeOf(s)
	t, a, resin := p.start(s)
	c := newWatch(p, t, a, resin, float64(o.Until))
	w := newSweeper(p, t, a)
	until := float64(o.Until)
	stops := append(p.room.knots(until), until)
	longest := until
	if s.Room.Swing != 0 {
		longest = float64(2 * unit.Hour)
	}
	h := min(1, until)
	for tries := mostSteps; len(stops) > 0; {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		left := stops[0] - w.now
		if left <= 1e-9*stops[0] {
			w.now, stops, tries = max(w.now, stops[0]), stops[1:], mostSteps
			continue
		}
		step := toStop(min(h, longest), left)
		e := w.try(step) / tolerance
		if tries--; tries < 0 || !(e <= 1) && step < 1e-9 {
			return nil, unusable("it moves too fast to follow at %g s", w.now)
		}
		if !(e <= 1) {
			h = step * max(0.2, 0.9*math.Pow(e, w.power))
			continue
		}
		if grown := step * min(4, 0.9*math.Pow(max(e, 1e-6), w.power)); step == h || grown > h {
			h = grown
		}
		if x := c.crossing(w, step, limit); x < 1 {
			step *= x
			w.try(step)
			c.away = true
		}
		c.step(w, step)
		w.take(step)
		if c.away {
			break
		}
	}
	return c.course(w), nil
}
