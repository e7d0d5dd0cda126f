package cure

import "math"

// grid is a slab made ready for the kernel. All in SI; conduct[i] is between
// cells i and i+1.
type grid struct {
	n        int
	heights  []float64 // of the middle of each cell, m
	owner    []int
	store    []float64 // heat capacity of a cell per area, J/(m² K)
	over     []float64 // 1 / store
	conduct  []float64 // W/(m² K)
	below    float64   // film and half a cell in series, W/(m² K)
	above    float64
	runs     []run // the cells that cure
	room     Room
	warms    []float64 // K per unit of conversion; 0 where inert
	off, on  []float64 // off-diagonals of the conduction operator, 1/s
	diagonal []float64 // its diagonal, 1/s, not negative
}

// run is a stretch of cells with one rate law.
type run struct {
	from, to int
	law      rates
	heat     float64 // ρ H dx, J/m² per unit of conversion
}

// gridOf makes a slab ready. The slab must have passed its check.
func gridOf(s *Slab) *grid {
	g := &grid{room: s.Room}
	var half []float64 // resistance of half a cell
	bottom := 0.0
	for i := range s.Strata {
		x := &s.Strata[i]
		dx := float64(x.Thickness) / float64(x.Cells)
		store := float64(x.Density) * float64(x.Heat) * dx
		if x.Cure != nil {
			law := ratesOf(x.Cure, float64(x.Heat))
			g.runs = append(g.runs, run{g.n, g.n + x.Cells, law, float64(x.Density) * float64(x.Cure.Heat) * dx})
		}
		for j := range x.Cells {
			g.heights = append(g.heights, bottom+(float64(j)+0.5)*dx)
			g.owner = append(g.owner, i)
			g.store = append(g.store, store)
			g.over = append(g.over, 1/store)
			half = append(half, dx/2/float64(x.Conductivity))
			g.warms = append(g.warms, 0)
		}
		g.n += x.Cells
		bottom += float64(x.Thickness)
	}
	for _, r := range g.runs {
		for i := r.from; i < r.to; i++ {
			g.warms[i] = r.law.warms
		}
	}
	for i := 1; i < g.n; i++ {
		g.conduct = append(g.conduct, 1/(half[i-1]+half[i]))
	}
	g.below, g.above = film(float64(s.Below), half[0]), film(float64(s.Above), half[g.n-1])
	g.off, g.on, g.diagonal = make([]float64, g.n), make([]float64, g.n), make([]float64, g.n)
	for i := range g.n {
		down, up := g.below, g.above
		if i > 0 {
			down = g.conduct[i-1]
			g.off[i] = -down * g.over[i]
		}
		if i < g.n-1 {
			up = g.conduct[i]
			g.on[i] = -up * g.over[i]
		}
		g.diagonal[i] = (down + up) * g.over[i]
	}
	return g
}

// film is a film coefficient and a resistance in series: 0 insulates, infinity
// leaves the resistance alone.
func film(h, resistance float64) float64 {
	if h == 0 {
		return 0
	}
	return 1 / (1/h + resistance)
}

// start gives the state that a slab starts from.
func (g *grid) start(s *Slab) (t, a []float64) {
	for i := range s.Strata {
		x := &s.Strata[i]
		for j := range x.Cells {
			st := State{x.From, x.Done}
			if x.Profile != nil {
				st = x.Profile[j]
			}
			if x.Cure == nil {
				st.A = 0
			} else {
				st.A = min(max(st.A, Seed), 1-leastG)
			}
			t, a = append(t, float64(st.T)), append(a, st.A)
		}
	}
	return t, a
}

// heatFlow adds to out, which holds the heating by the cure in K/s, what is
// conducted, with the room at temperature air.
func (g *grid) heatFlow(out, t []float64, air float64) {
	n := g.n
	last := n - 1
	flux := g.below * (air - t[0]) // into the cell from below, W/m²
	over, conduct := g.over[:n], g.conduct
	for i := 0; i < last; i++ {
		up := conduct[i] * (t[i] - t[i+1])
		out[i] += (flux - up) * over[i]
		flux = up
	}
	out[last] += (flux - g.above*(t[last]-air)) * over[last]
}

// stepper takes steps on a grid. It allocates nothing once made.
type stepper struct {
	*grid
	t, a         []float64 // the state
	ft, fa       []float64 // its rates of change
	byA, byT     []float64 // derivatives of da/dt at the state
	now          float64
	pivot        []float64 // 1 / pivots of the tridiagonal matrix
	upper        []float64
	inner        []float64 // 1/(s - byA)
	ut, ua       [stages][]float64
	yt, ya       []float64
	gt, ga       []float64
	nextT, nextA []float64
	rightT       []float64
}

func newStepper(g *grid, t, a []float64) *stepper {
	s := &stepper{grid: g, t: t, a: a}
	for _, v := range []*[]float64{&s.ft, &s.fa, &s.byA, &s.byT, &s.pivot, &s.upper, &s.inner, &s.yt, &s.ya, &s.gt, &s.ga, &s.nextT, &s.nextA, &s.rightT} {
		*v = make([]float64, g.n)
	}
	for i := range stages {
		s.ut[i], s.ua[i] = make([]float64, g.n), make([]float64, g.n)
	}
	s.look()
	return s
}

// look works out the rates of change and their derivatives at the state.
func (s *stepper) look() {
	for i := range s.runs {
		r := &s.runs[i]
		r.law.slopes(s.fa[r.from:r.to], s.byA[r.from:r.to], s.byT[r.from:r.to], s.a[r.from:r.to], s.t[r.from:r.to])
	}
	s.warm(s.ft, s.fa)
	air, _ := s.room.at(s.now)
	s.heatFlow(s.ft, s.t, air)
}

// warm fills out with the heating by the cure.
func (s *stepper) warm(out, rate []float64) {
	for i, w := range s.warms {
		out[i] = w * rate[i]
	}
}

// factor makes the matrix of a step of h ready; false when the step is too
// long for the cure's own acceleration.
func (s *stepper) factor(h float64) bool {
	d := 1 / (h * stepGamma)
	inv, up := 0.0, 0.0
	for i := range s.pivot {
		own := d - s.byA[i]
		if own <= 0 {
			return false
		}
		in := 1 / own
		s.inner[i] = in
		b := d + s.diagonal[i] - s.warms[i]*s.byT[i]*d*in - s.off[i]*up
		if b <= 0 {
			return false
		}
		inv = 1 / b
		s.pivot[i] = inv
		up = s.on[i] * inv
		s.upper[i] = up
	}
	return true
}

// solve puts into ut and ua the solution for the right-hand sides in gt and ga.
func (s *stepper) solve(ut, ua []float64) {
	n := s.n
	gt, ga, warms, byA, byT, inner := s.gt[:n], s.ga[:n], s.warms[:n], s.byA[:n], s.byT[:n], s.inner[:n]
	pivot, off, upper := s.pivot[:n], s.off[:n], s.upper[:n]
	ut, ua = ut[:n], ua[:n]
	last := 0.0
	for i := range ut {
		last = (gt[i] + warms[i]*byA[i]*inner[i]*ga[i] - off[i]*last) * pivot[i]
		ut[i] = last
	}
	for i := n - 2; i >= 0; i-- {
		last = ut[i] - upper[i]*last
		ut[i] = last
	}
	for i := range ua {
		ua[i] = (ga[i] + byT[i]*ut[i]) * inner[i]
	}
}

// try takes a step of h into nextT and nextA and gives its error in units of
// the tolerance, in kelvin; infinite when the step cannot be taken.
func (s *stepper) try(h, tolerance float64) float64 {
	if !s.factor(h) {
		return math.Inf(1)
	}
	_, slope := s.room.at(s.now)
	for i := range stages {
		if i == 0 {
			copy(s.gt, s.ft)
			copy(s.ga, s.fa)
		} else {
			s.combine(s.yt, s.t, s.ut[:i], stepA[i][:i], 1)
			s.combine(s.ya, s.a, s.ua[:i], stepA[i][:i], 1)
			s.evaluate(s.now + stepAlpha[i]*h)
			s.combine(s.gt, s.yt, s.ut[:i], stepC[i][:i], 1/h)
			s.combine(s.ga, s.ya, s.ua[:i], stepC[i][:i], 1/h)
		}
		if slope != 0 {
			push := stepGammas[i] * h * slope
			s.gt[0] += push * s.below * s.over[0]
			s.gt[s.n-1] += push * s.above * s.over[s.n-1]
		}
		s.solve(s.ut[i], s.ua[i])
	}
	s.combine(s.nextT, s.t, s.ut[:], stepM[:], 1)
	s.combine(s.nextA, s.a, s.ua[:], stepM[:], 1)
	return s.error(tolerance)
}

// evaluate turns the state in yt, ya into its rates of change, at a time.
func (s *stepper) evaluate(at float64) {
	for i := range s.runs {
		r := &s.runs[i]
		r.law.rate(s.ga[r.from:r.to], s.ya[r.from:r.to], s.yt[r.from:r.to])
	}
	air, _ := s.room.at(at)
	s.warm(s.rightT, s.ga)
	s.heatFlow(s.rightT, s.yt, air)
	s.yt, s.rightT = s.rightT, s.yt
	s.ya, s.ga = s.ga, s.ya
}

// combine fills out with y + k Σ w_j u_j.
func (s *stepper) combine(out, y []float64, u [][]float64, w []float64, k float64) {
	copy(out, y)
	for j, x := range u {
		f := w[j] * k
		if f == 0 {
			continue
		}
		x, out := x[:len(y)], out[:len(y)]
		for i := range out {
			out[i] += f * x[i]
		}
	}
}

// overshoot is how far past 1 rounding may carry a conversion, which then counts
// as 1: the heat of it is a millionth of a degree.
const overshoot = 1e-9

// error gives the greatest error of any cell over the tolerance. A conversion
// counts by the warming that it makes, or would make by leastWarms. It is
// infinite where a conversion would pass 1.
func (s *stepper) error(tolerance float64) float64 {
	worst := 0.0
	lastT, lastA, next, warms := s.ut[stages-1], s.ua[stages-1], s.nextA, s.warms
	for i := range next {
		worst = max(worst, math.Abs(lastT[i]), math.Abs(lastA[i])*max(warms[i], leastWarms))
		if next[i] > 1 {
			if next[i] > 1+overshoot {
				return math.Inf(1)
			}
			next[i] = 1
		}
	}
	return worst / tolerance
}

// take makes the step that was tried the state.
func (s *stepper) take(h float64) {
	s.t, s.nextT = s.nextT, s.t
	s.a, s.nextA = s.nextA, s.a
	s.now += h
	s.look()
}
