package cure

import "math"

// rates is a rate law made ready for a kernel: logarithms taken, energies over
// R. Its methods work on whole slices of cells.
type rates struct {
	lnA1, lnA2 float64
	e1, e2     float64 // K
	m, n       float64
	steep      float64
	liquid     float64 // K; softening temperature of the liquid less the margin
	whole      float64 // λ (Tg∞ - Tg0), K
	bend       float64 // 1 - λ
	warms      float64 // K per unit of conversion: heat of reaction over heat capacity
}

// ratesOf makes kinetics ready for matter of the given heat capacity in
// J/(kg K).
func ratesOf(k *Kinetics, heat float64) rates {
	g := k.Glass
	return rates{
		lnA1: math.Log(k.A1), lnA2: math.Log(k.A2),
		e1: float64(k.E1) / GasConstant, e2: float64(k.E2) / GasConstant,
		m: k.M, n: k.N, steep: k.Steep,
		liquid: float64(g.Liquid) - float64(k.Margin),
		whole:  g.Lambda * float64(g.Full-g.Liquid), bend: 1 - g.Lambda,
		warms: float64(k.Heat) / heat,
	}
}

// The arguments of a rate law are kept where it has a value: a stage of a step
// may stray past the ends.
const (
	leastA = 1e-9
	leastG = 1e-12
	leastT = 100
	mostT  = 5000
)

// rate fills out with da/dt of each cell.
func (r *rates) rate(out, a, t []float64) {
	a, t = a[:len(out)], t[:len(out)]
	for i := range out {
		ai := max(a[i], leastA)
		g := 1 - ai
		if g <= leastG {
			out[i] = 0
			continue
		}
		ti := min(max(t[i], leastT), mostT)
		over, lg := 1/ti, r.n*math.Log(g)
		v := exp(r.lnA1-r.e1*over+lg) + exp(r.lnA2-r.e2*over+r.m*math.Log(ai)+lg)
		if r.steep != 0 {
			rise := ti - r.liquid
			v /= 1 + exp(r.steep*(ai-rise/(r.whole+r.bend*rise)))
		}
		out[i] = v
	}
}

// slopes fills out with da/dt of each cell, and byA and byT with its
// derivatives by conversion and temperature.
func (r *rates) slopes(out, byA, byT, a, t []float64) {
	n := len(out)
	byA, byT, a, t = byA[:n], byT[:n], a[:n], t[:n]
	for i := range out {
		ai := max(a[i], leastA)
		g := 1 - ai
		if g <= leastG {
			out[i], byA[i], byT[i] = 0, 0, 0
			continue
		}
		ti := min(max(t[i], leastT), mostT)
		over, lg := 1/ti, r.n*math.Log(g)
		p := exp(r.lnA1 - r.e1*over + lg)
		q := exp(r.lnA2 - r.e2*over + r.m*math.Log(ai) + lg)
		v := p + q
		dT := (p*r.e1 + q*r.e2) * over * over
		dA := q*r.m/ai - v*r.n/g
		if r.steep != 0 {
			rise := ti - r.liquid
			d := 1 / (r.whole + r.bend*rise)
			s := 1 / (1 + exp(r.steep*(ai-rise*d)))
			turn := r.steep * s * (1 - s) * v
			dA = dA*s - turn
			dT = dT*s + turn*r.whole*d*d
			v *= s
		}
		out[i], byA[i], byT[i] = v, dA, dT
	}
}
