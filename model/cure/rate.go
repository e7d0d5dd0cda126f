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
	least      float64 // K that a resin is taken to be above liquid at least, clear of the pole of DiBenedetto's equation
	warms      float64 // K per unit of conversion: heat of reaction over heat capacity
}

// ratesOf makes kinetics ready for matter of the given heat capacity in
// J/(kg K).
func ratesOf(k *Kinetics, heat float64) rates {
	g := k.Glass
	whole := g.Lambda * float64(g.Full-g.Liquid)
	least := 0.
	if g.Lambda < 1 {
		least = -0.9 * whole / (1 - g.Lambda)
	}
	return rates{
		lnA1: math.Log(k.A1), lnA2: math.Log(k.A2),
		e1: float64(k.E1) / GasConstant, e2: float64(k.E2) / GasConstant,
		m: k.M, n: k.N, steep: k.Steep,
		liquid: float64(g.Liquid) - float64(k.Margin),
		whole:  whole, bend: 1 - g.Lambda, least: least,
		warms: float64(k.Heat) / heat,
	}
}

// The arguments of a rate law are kept where it has a value: a stage of a step
// may stray past the ends. At conversion 1 - leastG the rate is as good as 0.
const (
	leastA = 1e-9
	leastG = 1e-12
	leastT = 100
	mostT  = 5000
)

// block is how many cells are worked on at once.
const block = 32

// batch holds the parts of the rate of a block of cells. p and q are the two
// terms of the law and slow the factor of the slowing.
type batch struct{ a, g, over, rise, p, q, slow [block]float64 }

// fill works out the parts for the first n cells.
func (b *batch) fill(r *rates, a, t []float64) {
	n := len(a)
	t = t[:n]
	for i := range a {
		ai := min(max(a[i], leastA), 1-leastG)
		b.a[i], b.p[i], b.g[i] = ai, ai, 1-ai
	}
	logEach(b.p[:n])
	logEach(b.g[:n])
	for i := range a {
		ti := min(max(t[i], leastT), mostT)
		over, lg := 1/ti, r.n*b.g[i]
		rise := max(ti-r.liquid, r.least)
		b.over[i], b.rise[i] = over, rise
		b.p[i], b.q[i] = r.lnA1-r.e1*over+lg, r.lnA2-r.e2*over+r.m*b.p[i]+lg
		b.slow[i] = r.steep * (b.a[i] - rise/(r.whole+r.bend*rise))
	}
	expEach(b.p[:n])
	expEach(b.q[:n])
	if r.steep == 0 {
		clear(b.slow[:n])
		return
	}
	expEach(b.slow[:n])
	for i := range a {
		b.slow[i] = 1 / (1 + b.slow[i])
	}
}

// rate fills out with da/dt of each cell.
func (r *rates) rate(out, a, t []float64) {
	var b batch
	for len(out) > 0 {
		n := min(len(out), block)
		b.fill(r, a[:n], t[:n])
		for i := range n {
			v := b.p[i] + b.q[i]
			if r.steep != 0 {
				v *= b.slow[i]
			}
			out[i] = v
		}
		out, a, t = out[n:], a[n:], t[n:]
	}
}

// slopes fills out with da/dt of each cell, and byA and byT with its
// derivatives by conversion and temperature.
func (r *rates) slopes(out, byA, byT, a, t []float64) {
	var b batch
	for len(out) > 0 {
		n := min(len(out), block)
		b.fill(r, a[:n], t[:n])
		for i := range n {
			v := b.p[i] + b.q[i]
			dA := b.q[i]*r.m/b.a[i] - v*r.n/(1-b.a[i])
			dT := (b.p[i]*r.e1 + b.q[i]*r.e2) * b.over[i] * b.over[i]
			if r.steep != 0 {
				d, s := 1/(r.whole+r.bend*b.rise[i]), b.slow[i]
				turn := r.steep * s * (1 - s) * v
				dA, dT, v = dA*s-turn, dT*s+turn*r.whole*d*d, v*s
			}
			out[i], byA[i], byT[i] = v, dA, dT
		}
		out, byA, byT, a, t = out[n:], byA[n:], byT[n:], a[n:], t[n:]
	}
}

// one gives da/dt of a single place.
func (r *rates) one(a, t float64) float64 {
	a = min(max(a, leastA), 1-leastG)
	over, lg := 1/min(max(t, leastT), mostT), r.n*math.Log(1-a)
	v := math.Exp(r.lnA1-r.e1*over+lg) + math.Exp(r.lnA2-r.e2*over+r.m*math.Log(a)+lg)
	if r.steep != 0 {
		rise := max(min(max(t, leastT), mostT)-r.liquid, r.least)
		v /= 1 + math.Exp(r.steep*(a-rise/(r.whole+r.bend*rise)))
	}
	return v
}
