package model

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"meniscus/model/unit"
)

// spread is an output with its standard uncertainty and what makes it. Where
// the output bends, as when a pour rises over the top of the wood and floods
// it, it spreads farther to one side than to the other: up and down are the
// root sums of squares of the changes towards more and towards less. Where it
// does not bend both are sigma.
type spread struct {
	value, sigma, up, down float64
	parts                  []contribution // largest first
}

// contribution is what one input does to an output: the change over one
// standard uncertainty of the input.
type contribution struct {
	input int
	size  float64
}

// propagate applies the law of propagation of uncertainty (JCGM 100:2008, 5.1.2
// with the numerical sensitivities of 5.1.3, note 2: half the difference of the
// outputs at one standard uncertainty above and below). The inputs are
// independent. outputs fills its second argument from its first.
func propagate(in *inputs, n int, outputs func(x, out []float64)) []spread {
	x := in.values()
	result := make([]spread, n)
	base, up, down := make([]float64, n), make([]float64, n), make([]float64, n)
	outputs(x, base)
	for k := range result {
		result[k].value = base[k]
	}
	for i, v := range in.list {
		if v.sigma == 0 {
			continue
		}
		x[i] = v.value + v.sigma
		outputs(x, up)
		x[i] = v.value - v.sigma
		outputs(x, down)
		x[i] = v.value
		for k := range result {
			r, a, b := &result[k], up[k]-base[k], down[k]-base[k]
			more, less := max(a, b, 0), max(-a, -b, 0)
			r.up, r.down = r.up+more*more, r.down+less*less
			if d := (a - b) / 2; d != 0 {
				r.sigma += d * d
				r.parts = append(r.parts, contribution{i, math.Abs(d)})
			}
		}
	}
	for k := range result {
		r := &result[k]
		r.sigma, r.up, r.down = math.Sqrt(r.sigma), math.Sqrt(r.up), math.Sqrt(r.down)
		slices.SortStableFunc(result[k].parts, func(a, b contribution) int { return cmp.Compare(b.size, a.size) })
	}
	return result
}

// quantile5 is the 95 % point of the standard normal distribution.
const quantile5 = 1.6448536269514722

// normal gives the point that a standard normal variable stays below with
// probability q, 0 < q < 1.
func normal(q float64) float64 { return math.Sqrt2 * math.Erfinv(2*q-1) }

// estimate makes an Estimate of a spread.
func estimate[Q unit.Quantity](s spread) Estimate[Q] {
	return Estimate[Q]{Q(s.value), Q(s.sigma), Q(s.value - quantile5*s.down), Q(s.value + quantile5*s.up)}
}

// Drawn is the outcome of a Monte Carlo for one layer.
type Drawn struct {
	Mean, Sigma        unit.Mass
	P05, P50, P80, P95 unit.Mass
}

// MonteCarlo draws the inputs of a project (each rectangular about its value)
// so many times from the seed and tells how the mass of each layer spreads. It
// is the check on the law of propagation that JCGM 101:2008 describes. The
// result is empty while the mold is not measured.
func MonteCarlo(p Project, seed uint64, draws int) []Drawn {
	s := compile(&p)
	random := rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	x := s.in.values()
	var f Fill
	if draws < 1 || s.fill(x, &f) != nil {
		return nil
	}
	sample := make([][]float64, len(s.layers))
	for k := range sample {
		sample[k] = make([]float64, 0, draws)
	}
	out := make([]taking, len(s.layers))
	for range draws {
		for i, v := range s.in.list {
			if v.sigma != 0 {
				x[i] = v.value + v.sigma*sqrt3*(2*random.Float64()-1)
			}
		}
		if s.fill(x, &f) != nil {
			continue // a drawn size that no mold can have
		}
		s.takings(x, &f, out)
		for k := range out {
			sample[k] = append(sample[k], float64(out[k].mass))
		}
	}
	result := make([]Drawn, len(sample))
	for k, m := range sample {
		result[k] = summarise(m)
	}
	return result
}

func summarise(m []float64) Drawn {
	slices.Sort(m)
	mean, square := 0.0, 0.0
	for _, v := range m {
		mean += v / float64(len(m))
	}
	for _, v := range m {
		square += (v - mean) * (v - mean) / float64(len(m))
	}
	at := func(q float64) unit.Mass { return unit.Mass(m[min(len(m)-1, int(q*float64(len(m))))]) }
	return Drawn{unit.Mass(mean), unit.Mass(math.Sqrt(square)), at(0.05), at(0.5), at(0.8), at(0.95)}
}
