package cure

import (
	"math"

	"meniscus/model/unit"
)

// The points and weights of Gauss and Legendre's rule of order 10 on (-1, 1);
// Abramowitz and Stegun, table 25.4.
var (
	gaussAt = [5]float64{0.1488743389816312, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717}
	gaussBy = [5]float64{0.2955242247147529, 0.2692667193099963, 0.2190863625159820, 0.1494513491505806, 0.0666713443086881}
)

func gauss(f func(float64) float64, a, b float64) float64 {
	mid, half := (a+b)/2, (b-a)/2
	sum := 0.0
	for i, x := range gaussAt {
		sum += gaussBy[i] * (f(mid-half*x) + f(mid+half*x))
	}
	return sum * half
}

// TimeTo gives how long a cure at the temperature t takes from conversion from
// to conversion to: the integral of da over the rate. Less than Seed counts as
// Seed. It is 0 when to does not lie above from, and infinite when the cure
// never comes there.
func (k *Kinetics) TimeTo(t unit.Temperature, from, to float64) unit.Span {
	from = max(from, Seed)
	switch {
	case !(to > from):
		return 0
	case to >= 1 || !(t > 0):
		return unit.Span(math.Inf(1))
	}
	r := paceOf(k, Resin.Heat)
	// Near 0 the rate is all but a fractional power of the conversion: in its
	// eighth root it is smooth. Near 1 its logarithm is.
	const turn = 0.15
	sum := 0.0
	if from < turn {
		f := func(w float64) float64 {
			w4 := w * w * w * w
			return 8 * w4 * w * w * w / r.at(float64(t), w4*w4)
		}
		a, b := math.Pow(from, 0.125), math.Pow(min(to, turn), 0.125)
		const parts = 3
		for i := range parts {
			sum += gauss(f, a+(b-a)*float64(i)/parts, a+(b-a)*float64(i+1)/parts)
		}
	}
	if to > turn {
		f := func(v float64) float64 {
			g := math.Exp(-v)
			return g / r.at(float64(t), 1-g)
		}
		a, b := -math.Log1p(-max(from, turn)), -math.Log1p(-to)
		parts := math.Ceil((b - a) / 0.4)
		for i := range int(parts) {
			sum += gauss(f, a+(b-a)*float64(i)/parts, a+(b-a)*float64(i+1)/parts)
		}
	}
	if math.IsNaN(sum) {
		sum = math.Inf(1)
	}
	return unit.Span(sum)
}

// CuredAfter gives the conversion that a cure at the temperature t comes to
// from conversion from in a time: the inverse of TimeTo.
func (k *Kinetics) CuredAfter(t unit.Temperature, from float64, after unit.Span) float64 {
	from = max(from, Seed)
	if !(after > 0) || !(t > 0) {
		return from
	}
	r := paceOf(k, Resin.Heat)
	// Newton's steps in v = -ln(1-a), in which the time bends gently, held
	// between the best bounds so far.
	low, high := -math.Log1p(-from), 27.
	v := min(low+0.5, high)
	for range 60 {
		a := -math.Expm1(-v)
		off := float64(k.TimeTo(t, from, a) - after)
		if off > 0 {
			high = v
		} else {
			low = v
		}
		next := v - off*r.at(float64(t), a)/math.Exp(-v)
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-v) < 1e-12*(1+v) {
			v = next
			break
		}
		v = next
	}
	return -math.Expm1(-v)
}

// Activation gives the one activation energy that the two of the rate law come
// to near the temperature t, by how the time to conversion a changes there,
// leaving the slowing towards glass out.
func (k *Kinetics) Activation(t unit.Temperature, a float64) unit.MolarEnergy {
	free := *k
	free.Steep = 0
	const step = 1
	long, short := free.TimeTo(t-step, 0, a), free.TimeTo(t+step, 0, a)
	return between(long, t-step, short, t+step)
}

// between gives the activation energy at which a time a that holds at the
// temperature ta and a time b that holds at tb are the same cure.
func between(a unit.Span, ta unit.Temperature, b unit.Span, tb unit.Temperature) unit.MolarEnergy {
	return unit.MolarEnergy(GasConstant * math.Log(a.Per(b)) / (1/float64(ta) - 1/float64(tb)))
}
