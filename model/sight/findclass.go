package sight

import (
	"math"
	"slices"
)

// mixture is a set of colours as a sum of Gaussian clouds.
type mixture []cloud

// cloud is one Gaussian of a mixture.
type cloud struct {
	middle  colour
	inverse [6]float32 // of the covariance: 00 11 22 01 02 12
	weight  float64
	top     float32 // logarithm of its weight and of its density at the middle
}

// Colours spread at least so far: the noise of a reduced picture.
const (
	leastShade = 0.012
	leastHue   = 0.006
)

// learn fits a mixture of at most n clouds to colours: the clouds are those of
// nearest means (Lloyd 1982), started from the mean and ever the colour that is
// farthest from all before, so that nothing is left to chance.
func learn(from []colour, n int) mixture {
	if len(from) == 0 {
		return nil
	}
	middles := []colour{average(from)}
	near := make([]float32, len(from))
	for i, c := range from {
		near[i] = c.minus(middles[0]).square()
	}
	for len(middles) < n {
		far := 0
		for i, d := range near {
			if d > near[far] {
				far = i
			}
		}
		if near[far] < leastShade*leastShade {
			break
		}
		middles = append(middles, from[far])
		for i, c := range from {
			near[i] = min(near[i], c.minus(from[far]).square())
		}
	}
	lot := make([][]colour, len(middles))
	for range 8 {
		for k := range lot {
			lot[k] = lot[k][:0]
		}
		for _, c := range from {
			best, at := float32(math.Inf(1)), 0
			for k, m := range middles {
				if d := c.minus(m).square(); d < best {
					best, at = d, k
				}
			}
			lot[at] = append(lot[at], c)
		}
		for k := range lot {
			if len(lot[k]) > 0 {
				middles[k] = average(lot[k])
			}
		}
	}
	var m mixture
	for _, l := range lot {
		if len(l) > 0 {
			m = append(m, newCloud(average(l), spread(l), float64(len(l))/float64(len(from))))
		}
	}
	return m
}

func average(of []colour) colour {
	var s [3]float64
	for _, c := range of {
		for k := range s {
			s[k] += float64(c[k])
		}
	}
	n := float64(len(of))
	return colour{float32(s[0] / n), float32(s[1] / n), float32(s[2] / n)}
}

// spread gives the covariance of colours: 00 11 22 01 02 12.
func spread(of []colour) (v [6]float64) {
	mid := average(of)
	for _, c := range of {
		d := c.minus(mid)
		x, y, z := float64(d[0]), float64(d[1]), float64(d[2])
		for k, p := range [6]float64{x * x, y * y, z * z, x * y, x * z, y * z} {
			v[k] += p / float64(len(of))
		}
	}
	v[0] += leastShade * leastShade
	v[1] += leastHue * leastHue
	v[2] += leastHue * leastHue
	return v
}

func newCloud(middle colour, v [6]float64, weight float64) cloud {
	a, b, c, d, e, f := v[0], v[1], v[2], v[3], v[4], v[5]
	minor := [6]float64{b*c - f*f, a*c - e*e, a*b - d*d, e*f - d*c, d*f - e*b, d*e - a*f}
	det := a*minor[0] + d*minor[3] + e*minor[4]
	g := cloud{middle: middle, weight: weight, top: float32(math.Log(weight) - 0.5*math.Log(det) - 1.5*math.Log(2*math.Pi))}
	for k := range minor {
		g.inverse[k] = float32(minor[k] / det)
	}
	return g
}

// log gives the logarithm of the density of the cloud that says most to c.
func (m mixture) log(c colour) float32 {
	best := float32(-1e9)
	for i := range m {
		g := &m[i]
		x, y, z := c[0]-g.middle[0], c[1]-g.middle[1], c[2]-g.middle[2]
		v := &g.inverse
		q := v[0]*x*x + v[1]*y*y + v[2]*z*z + 2*(v[3]*x*y+v[4]*x*z+v[5]*y*z)
		best = max(best, g.top-0.5*q)
	}
	return best
}

// lighter gives the mixture with less weight.
func (m mixture) lighter(share float64) mixture {
	for i := range m {
		m[i].weight *= share
		m[i].top += float32(math.Log(share))
	}
	return m
}

// common gives the clouds of a mixture that have at least a share of it.
func (m mixture) common(share float64) mixture {
	return slices.DeleteFunc(m, func(g cloud) bool { return g.weight < share })
}

// known gives the clouds of a mixture whose middle another has too.
func (m mixture) known(to mixture) (k mixture) {
	for _, g := range m {
		if to.log(g.middle) > unknown {
			k = append(k, g)
		}
	}
	return k
}

// shaded gives the mixture together with its shadows: each cloud nearer to
// black on its own line, and longer along it.
func (m mixture) shaded(share float64) mixture {
	all := append(mixture{}, m...)
	for _, g := range m {
		for _, s := range [...]float32{0.9, 0.8, 0.7, 0.6} {
			mid := colour{s * g.middle[0], s * g.middle[1], s * g.middle[2]}
			v := [6]float64{leastShade * leastShade, leastHue * leastHue, leastHue * leastHue}
			along := [3]float64{0.05 * float64(g.middle[0]), 0.05 * float64(g.middle[1]), 0.05 * float64(g.middle[2])}
			v[0] += along[0] * along[0]
			v[1] += along[1] * along[1]
			v[2] += along[2] * along[2]
			v[3] = along[0] * along[1]
			v[4] = along[0] * along[2]
			v[5] = along[1] * along[2]
			all = append(all, newCloud(mid, v, share/4*g.weight))
		}
	}
	return all
}
