package cure

import (
	"context"
	"math"

	"meniscus/model/unit"
)

// place is a lump of resin at one time: temperature in kelvin and conversion.
type place struct{ t, a float64 }

// piece is one step in the course of a lump. Between its ends the course is the
// cubic through both with their slopes.
type piece struct {
	from, h          float64 // s
	start, end       place
	leaving, turning place // slopes at start and end, per second
}

// at gives the lump so far into the step, 0 to 1.
func (p *piece) at(u float64) place {
	return place{
		hermite(p.start.t, p.end.t, p.leaving.t, p.turning.t, p.h, u),
		hermite(p.start.a, p.end.a, p.leaving.a, p.turning.a, p.h, u),
	}
}

// cured gives the time at which the lump comes to a conversion within the step.
func (p *piece) cured(a float64) (float64, bool) {
	if p.start.a >= a {
		return p.from, true
	}
	if p.end.a < a {
		return 0, false
	}
	low, high := 0.0, 1.0
	for range 50 {
		if u := (low + high) / 2; p.at(u).a < a {
			low = u
		} else {
			high = u
		}
	}
	return p.from + high*p.h, true
}

// summit gives the highest temperature within the step and its time.
func (p *piece) summit() (t, at float64) {
	t, at = p.start.t, p.from
	if p.end.t > t {
		t, at = p.end.t, p.from+p.h
	}
	if !(p.leaving.t > 0 && p.turning.t < 0) {
		return t, at
	}
	// The slope of the cubic is a parabola that falls through zero once.
	rise := (p.end.t - p.start.t) / p.h
	a, b := 3*(p.leaving.t+p.turning.t-2*rise), 2*(3*rise-2*p.leaving.t-p.turning.t)
	root := math.Sqrt(max(b*b-4*a*p.leaving.t, 0))
	u := 2 * p.leaving.t / (root - b)
	if top := p.at(u).t; u > 0 && u < 1 && top > t {
		return top, p.from + u*p.h
	}
	return t, at
}

// Steps of march hold these to within, in kelvin and conversion.
const (
	marchT = 2e-3
	marchA = 1e-6
)

// march follows a lump in time by the explicit method of Dormand and Prince of
// order 5 with an estimate of order 4 (J. Comput. Appl. Math. 6 (1980) 19), from
// a time to another, both in seconds. A lump is not stiff, and an explicit
// method takes no harm from the rate law's endless slope near conversion 0. It
// hands every step to see, until that says no. No step passes a knot.
func march(ctx context.Context, f func(at float64, y place) place, y place, from, to float64, knots []float64, see func(*piece) bool) error {
	t, h, k1 := from, min(10, to-from), f(from, y)
	for steps := 0; t < to; steps++ {
		if steps%64 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		if steps > 200000 {
			return unusable("a lump that changes too often")
		}
		end := to
		for _, k := range knots {
			if k > t && k < end {
				end = k
			}
		}
		last := t+h >= end-1e-9*(1+end)
		if last {
			h = end - t
		}
		next, k7, off := dormandPrince(f, y, k1, t, h)
		if off > 1 && h > 1e-9 {
			h *= max(0.2, 0.9*math.Pow(off, -0.2))
			continue
		}
		if math.IsNaN(off) {
			return unusable("a lump with no temperature")
		}
		next.a = min(next.a, 1)
		p := piece{t, h, y, next, k1, k7}
		if t += h; last {
			t = end
		}
		y, k1 = next, k7
		if !see(&p) {
			return nil
		}
		h *= min(5, 0.9*math.Pow(max(off, 1e-8), -0.2))
	}
	return nil
}

// dormandPrince takes one step. It gives the place at its end, the slope there,
// and the estimated error over what is allowed.
func dormandPrince(f func(float64, place) place, y, k1 place, t, h float64) (next, k7 place, off float64) {
	at := func(a1, a2, a3, a4, a5, a6 float64, k2, k3, k4, k5, k6 place) place {
		return place{
			y.t + h*(a1*k1.t+a2*k2.t+a3*k3.t+a4*k4.t+a5*k5.t+a6*k6.t),
			y.a + h*(a1*k1.a+a2*k2.a+a3*k3.a+a4*k4.a+a5*k5.a+a6*k6.a),
		}
	}
	var o place
	k2 := f(t+h/5, at(1./5, 0, 0, 0, 0, 0, o, o, o, o, o))
	k3 := f(t+h*3/10, at(3./40, 9./40, 0, 0, 0, 0, k2, o, o, o, o))
	k4 := f(t+h*4/5, at(44./45, -56./15, 32./9, 0, 0, 0, k2, k3, o, o, o))
	k5 := f(t+h*8/9, at(19372./6561, -25360./2187, 64448./6561, -212./729, 0, 0, k2, k3, k4, o, o))
	k6 := f(t+h, at(9017./3168, -355./33, 46732./5247, 49./176, -5103./18656, 0, k2, k3, k4, k5, o))
	next = at(35./384, 0, 500./1113, 125./192, -2187./6784, 11./84, k2, k3, k4, k5, k6)
	k7 = f(t+h, next)
	miss := func(k1, k3, k4, k5, k6, k7 float64) float64 {
		return math.Abs(h * (71./57600*k1 - 71./16695*k3 + 71./1920*k4 - 17253./339200*k5 + 22./525*k6 - 1./40*k7))
	}
	off = max(miss(k1.t, k3.t, k4.t, k5.t, k6.t, k7.t)/marchT, miss(k1.a, k3.a, k4.a, k5.a, k6.a, k7.a)/marchA)
	return next, k7, off
}

// pace is a rate law made quick for a lump: logarithms taken, energies over R.
type pace struct{ rates }

// paceOf makes kinetics ready. The heat capacity is in J/(kg K).
func paceOf(k *Kinetics, heat unit.SpecificHeat) pace { return pace{ratesOf(k, float64(heat))} }

// at gives da/dt in 1/s.
func (r *pace) at(t, a float64) float64 { return r.one(a, t) }

// Along gives the conversion at each of the times, in order and in seconds from
// the start, of resin so thin that it keeps the temperature of a room, such as
// one that was logged. It starts at conversion from. It refuses kinetics or a
// room that cannot be reckoned with.
func (k *Kinetics) Along(ctx context.Context, room Room, from float64, times []unit.Span) ([]float64, error) {
	if !k.usable() || !room.usable() {
		return nil, unusable("the kinetics or the room of a thin layer")
	}
	list := make([]float64, len(times))
	until := 0.0
	for _, x := range times {
		if !(x <= longest) {
			return nil, unusable("a time of %g s", float64(x))
		}
		until = max(until, float64(x))
	}
	r := paceOf(k, Resin.Heat)
	f := func(at float64, y place) place {
		_, slope := room.at(at)
		return place{slope, r.at(y.t, y.a)}
	}
	start, _ := room.at(0)
	y := place{start, min(max(from, Seed), 1)}
	for i := range list {
		list[i] = y.a
	}
	err := march(ctx, f, y, 0, until, room.knots(until), func(p *piece) bool {
		for i, x := range times {
			if u := (float64(x) - p.from) / p.h; u > 0 && u <= 1 {
				list[i] = p.at(u).a
			}
		}
		return true
	})
	return list, err
}
