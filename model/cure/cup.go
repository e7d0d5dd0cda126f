package cure

import (
	"context"
	"math"

	"meniscus/model/unit"
)

// Cup is mixed resin left in its mixing cup, as one lump: a plain cylinder as
// tall as it is wide, open at the top, in still air all round and under it. No
// heat is stored in its wall. The lump's temperature is the mean of the resin;
// heat comes from within to the surface as it does in a ball of that width,
// through width/10k (Glueckauf's linear driving force, Trans. Faraday Soc. 51
// (1955) 1540, from memory), so that the heart is somewhat hotter.
type Cup struct {
	Mass   unit.Mass
	Matter Matter // the mixed resin
	Cure   *Kinetics
	Start  unit.Temperature // of the resin
	Room   Room
}

// The wall of a mixing cup: 1 mm of plastic. Common practice, no source.
const (
	cupWall         = unit.Millimetre
	cupConductivity = unit.Conductivity(0.2)
)

// Width gives the inside width of the cup, which is also the depth of the resin
// in it.
func (c *Cup) Width() unit.Length {
	return unit.Length(math.Cbrt(4 * float64(c.Mass.Over(c.Matter.Density)) / math.Pi))
}

// Loss gives how much heat the cup gives to the room, in watts per kelvin.
func (c *Cup) Loss() float64 {
	d := float64(c.Width())
	within := d / 10 / float64(c.Matter.Conductivity)
	top := math.Pi / 4 * d * d
	air := 1 / float64(StillAir)
	return top/(air+within) + 5*top/(air+float64(cupWall)/float64(cupConductivity)+within)
}

// CupCourse is what became of a cup. When it stopped early, at a conversion
// that it was asked for, it knows nothing of what comes later.
type CupCourse struct {
	Peak   unit.Temperature
	PeakAt unit.Span
	Ends   unit.Span // how far it was followed
	pieces []piece
}

// Run follows the cup for a time. It refuses what cannot be reckoned with.
func (c *Cup) Run(ctx context.Context, until unit.Span) (*CupCourse, error) {
	return c.run(ctx, until, math.Inf(1))
}

// WhenCured gives how long the cup takes to come to a conversion, or false when
// it does not within so long.
func (c *Cup) WhenCured(ctx context.Context, a float64, within unit.Span) (unit.Span, bool, error) {
	course, err := c.run(ctx, within, a)
	if err != nil {
		return 0, false, err
	}
	at, ok := course.Reached(a)
	return at, ok, nil
}

// run follows the cup until a time, or until it comes to a conversion.
func (c *Cup) run(ctx context.Context, until unit.Span, stop float64) (*CupCourse, error) {
	switch {
	case !(c.Mass > 0) || c.Mass > 1000:
		return nil, unusable("a cup of %g kg", float64(c.Mass))
	case !c.Matter.usable() || c.Cure == nil || !c.Cure.usable():
		return nil, unusable("the resin in a cup")
	case !(c.Start > 0 && c.Start < 1000) || !c.Room.usable():
		return nil, unusable("a cup with no temperature")
	case !(until > 0) || until > longest:
		return nil, unusable("a time of %g s", float64(until))
	}
	course := &CupCourse{Peak: c.Start, Ends: until}
	r := paceOf(c.Cure, c.Matter.Heat)
	cools := c.Loss() / (float64(c.Mass) * float64(c.Matter.Heat))
	f := func(at float64, y place) place {
		air, _ := c.Room.at(at)
		rate := r.at(y.t, y.a)
		return place{r.warms*rate - cools*(y.t-air), rate}
	}
	y := place{float64(c.Start), Seed}
	err := march(ctx, f, y, 0, float64(until), c.Room.knots(float64(until)), func(p *piece) bool {
		course.pieces = append(course.pieces, *p)
		if t, at := p.summit(); t > float64(course.Peak) {
			course.Peak, course.PeakAt = unit.Temperature(t), unit.Span(at)
		}
		course.Ends = unit.Span(p.from + p.h)
		return p.end.a < stop
	})
	return course, err
}

// Reached gives when the cup came to a conversion.
func (c *CupCourse) Reached(a float64) (unit.Span, bool) {
	for i := range c.pieces {
		if at, ok := c.pieces[i].cured(a); ok {
			return unit.Span(at), true
		}
	}
	return 0, false
}

// At gives the cup at a time. Before its start it is as at its start, and after
// its end as at its end.
func (c *CupCourse) At(t unit.Span) State {
	var y place
	for i := range c.pieces {
		p := &c.pieces[i]
		u := min(max((float64(t)-p.from)/p.h, 0), 1)
		y = p.at(u)
		if u < 1 {
			break
		}
	}
	return State{unit.Temperature(y.t), y.a}
}
