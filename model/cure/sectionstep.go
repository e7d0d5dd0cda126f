package cure

import "math"

// sweeper takes steps on a plane by ROS2, the second order Rosenbrock method
// of Verwer, Spee, Blom and Hundsdorfer (SIAM J. Sci. Comput. 20 (1999) 1456):
//
//	M k1 = F(t, y) + γ h F_t
//	M k2 = F(t+h, y + h k1) - γ h F_t - 2 k1
//	y(t+h) = y + h (3 k1 + k2)/2,  error h (k1 + k2)/2.
//
// It is of second order whatever stands in M for I - γhJ, so that M is factored
// into one direction after the other, (I - γh J_across)(I - γh J_up), with the
// cure in the second: two sweeps of tridiagonal systems in one unknown a cell,
// the conversion being eliminated cell by cell. It allocates nothing once made.
type sweeper struct {
	*plane
	t, a         []float64 // the state
	nextT, nextA []float64
	kt, ka       []float64 // first slope
	midT, midA   []float64 // y + h k1
	u, fa        []float64 // right-hand sides, then the second slope
	byA, byT     []float64 // derivatives of the cure; then 1/(1 - γh byA) and γh byT times that
	upper, pivot []float64 // factors of the matrix up and down
	rows         []factors // of the matrix across, by row of blocks
	gamma, power float64   // γ, and the power of the error that the step grows by
	gh           float64   // γh of the step being tried
	now          float64
}

// factors are those of a tridiagonal matrix, with unknowns eliminated from the
// left: each is pivot times its right-hand side plus lower times the one before.
type factors struct{ lower, pivot, upper []float64 }

// With γ = 1 - 1/√2 what is stiff in one direction is damped and errors are
// small, as long as the two directions all but commute. Where metal lies beside
// wood or resin they do not, and the step would shrink to seconds. With γ = 1/2
// the factored matrix is that of Peaceman and Rachford's alternating directions
// (J. SIAM 3 (1955) 28), which no step upsets; y + h k1 is then of second order
// itself, so that the error falls with the third power of h.
const (
	gammaAlike = 1 - 1/math.Sqrt2
	gammaMetal = 0.5
	mostAlike  = 10 // ratio of conductivities, found by trial: steps stay long up to some 15
)

func newSweeper(p *plane, t, a []float64) *sweeper {
	w := &sweeper{plane: p, t: t, a: a, gamma: gammaAlike, power: -1. / 2}
	if p.contrast > mostAlike {
		w.gamma, w.power = gammaMetal, -1./3
	}
	for _, v := range []*[]float64{&w.nextT, &w.nextA, &w.kt, &w.ka, &w.midT, &w.midA, &w.u, &w.fa, &w.byA, &w.byT, &w.upper, &w.pivot} {
		*v = make([]float64, len(t))
	}
	for range p.across {
		w.rows = append(w.rows, factors{make([]float64, p.ny), make([]float64, p.ny), make([]float64, p.ny)})
	}
	return w
}

// row gives the cells of row i of a list.
func (p *plane) row(list []float64, i int) []float64 {
	return list[i*p.ny : (i+1)*p.ny : (i+1)*p.ny]
}

// try takes a step of h into nextT and nextA and gives its error in kelvin; a
// conversion counts by the warming that it makes. The error is infinite when
// the step cannot be taken.
func (w *sweeper) try(h float64) float64 {
	gh := w.gamma * h
	w.gh = gh
	air, turn := w.room.at(w.now)
	then, _ := w.room.at(w.now + h)
	w.factorAcross()
	for i := range w.nz {
		w.cureAt(i)
		w.conduct(i, w.t, air+gh*turn)
		w.solveAcross(i)
		w.factorUp(i)
		w.eliminate(i)
	}
	for i := w.nz - 1; i >= 0; i-- {
		w.backFirst(i, h)
	}
	for i := range w.nz {
		w.cureMid(i)
		w.conduct(i, w.midT, then-gh*turn)
		for j, k := range w.row(w.kt, i) {
			w.u[i*w.ny+j] -= 2 * k
		}
		w.solveAcross(i)
		w.eliminate(i)
	}
	worst := 0.0
	for i := w.nz - 1; i >= 0; i-- {
		worst = max(worst, w.backSecond(i, h))
	}
	return worst
}

// take makes the step that was tried the state.
func (w *sweeper) take(h float64) {
	w.t, w.nextT = w.nextT, w.t
	w.a, w.nextA = w.nextA, w.a
	w.now += h
}

// cureAt works out the cure of row i and its derivatives at the state.
func (w *sweeper) cureAt(i int) {
	for c, x := range w.columns {
		if k := &w.cells[i][c]; k.cures {
			from, to := i*w.ny+x.from, i*w.ny+x.to
			k.law.slopes(w.fa[from:to], w.byA[from:to], w.byT[from:to], w.a[from:to], w.t[from:to])
			warm(w.u[from:to], w.fa[from:to], k.law.warms)
		} else {
			clear(w.u[i*w.ny+x.from : i*w.ny+x.to])
		}
	}
}

// cureMid works out the right-hand side of the second conversion of row i.
func (w *sweeper) cureMid(i int) {
	for c, x := range w.columns {
		from, to := i*w.ny+x.from, i*w.ny+x.to
		k := &w.cells[i][c]
		if !k.cures {
			clear(w.u[from:to])
			continue
		}
		fa, ka := w.fa[from:to], w.ka[from:to]
		k.law.rate(fa, w.midA[from:to], w.midT[from:to])
		warm(w.u[from:to], fa, k.law.warms)
		for j := range fa {
			fa[j] -= 2 * ka[j]
		}
	}
}

// warm fills u with the heating by a cure at the rates fa, in K/s.
func warm(u, fa []float64, warms float64) {
	u = u[:len(fa)]
	for j, v := range fa {
		u[j] = warms * v
	}
}

// conduct adds to u of row i what is conducted there between the cells of t,
// with the room at temperature air.
func (w *sweeper) conduct(i int, t []float64, air float64) {
	here, u := w.row(t, i), w.row(w.u, i)
	below, above := here, here
	if i > 0 {
		below = w.row(t, i-1)
	}
	if i < w.nz-1 {
		above = w.row(t, i+1)
	}
	side := &w.across[w.strip[i]]
	left, right, out := side.left[:len(here)], side.right[:len(here)], side.air[:len(here)]
	u, below, above = u[:len(here)], below[:len(here)], above[:len(here)]
	for c, x := range w.columns {
		k := &w.cells[i][c]
		down, up, open := k.down, k.up, k.air
		back := 0.0
		if x.from > 0 {
			back = here[x.from] - here[x.from-1]
		}
		for j := x.from; j < x.to; j++ {
			v, on := here[j], 0.0
			if j+1 < len(here) {
				on = here[j+1] - v
			}
			u[j] += right[j]*on - left[j]*back + up*(above[j]-v) + down*(below[j]-v) + (out[j]+open)*(air-v)
			back = on
		}
	}
}

// factorAcross factors the matrices I - γh J_across.
func (w *sweeper) factorAcross() {
	gh := w.gh
	for r := range w.rows {
		f, a := &w.rows[r], &w.across[r]
		carry := 0.0
		for j := range f.pivot {
			lower := gh * a.left[j]
			inv := 1 / (1 + gh*(a.left[j]+a.right[j]+a.air[j]) - lower*carry)
			carry = gh * a.right[j] * inv
			f.lower[j], f.pivot[j], f.upper[j] = lower*inv, inv, carry
		}
	}
}

// solveAcross solves row i of u with its matrix across.
func (w *sweeper) solveAcross(i int) {
	u, f := w.row(w.u, i), &w.rows[w.strip[i]]
	lower, pivot, upper := f.lower[:len(u)], f.pivot[:len(u)], f.upper[:len(u)]
	last := 0.0
	for j := range u {
		last = u[j]*pivot[j] + lower[j]*last
		u[j] = last
	}
	last = 0
	for j := len(u) - 1; j >= 0; j-- {
		last = u[j] + upper[j]*last
		u[j] = last
	}
}

// Where the cure speeds itself up so fast that a step's matrix would lose its
// sense, less of the slope is put into it: the order does not hang on that, and
// the error tells whether the step will do.
const mostFeed = 0.5

// factorUp factors row i of the matrix I - γh J_up, the cure in it.
func (w *sweeper) factorUp(i int) {
	gh := w.gh
	pivot, upper := w.row(w.pivot, i), w.row(w.upper, i)
	carry := upper // of the row below; at the bottom its coupling is 0
	if i > 0 {
		carry = w.row(w.upper, i-1)
	} else {
		clear(upper)
	}
	byA, byT := w.row(w.byA, i), w.row(w.byT, i)
	for c, x := range w.columns {
		k := &w.cells[i][c]
		own, lower, on := 1+gh*(k.down+k.up+k.air), gh*k.down, gh*k.up
		if !k.cures {
			for j := x.from; j < x.to; j++ {
				inv := 1 / (own - lower*carry[j])
				pivot[j], upper[j] = inv, on*inv
			}
			continue
		}
		warms := k.law.warms
		most := mostFeed / max(warms, 1e-9)
		for j := x.from; j < x.to; j++ {
			in := 1 / (1 - min(gh*byA[j], mostFeed))
			by := min(gh*byT[j]*in, most)
			inv := 1 / (own - warms*by - lower*carry[j])
			byA[j], byT[j] = in, by
			pivot[j], upper[j] = inv, on*inv
		}
	}
}

// eliminate takes row i of u through the elimination from the bottom up.
func (w *sweeper) eliminate(i int) {
	u, pivot := w.row(w.u, i), w.row(w.pivot, i)
	before := u // at the bottom its coupling is 0
	if i > 0 {
		before = w.row(w.u, i-1)
	}
	before, pivot = before[:len(u)], pivot[:len(u)]
	gh := w.gh
	for c, x := range w.columns {
		k := &w.cells[i][c]
		lower := gh * k.down
		if k.cures {
			warms, fa, in := k.law.warms, w.row(w.fa, i)[:len(u)], w.row(w.byA, i)[:len(u)]
			for j := x.from; j < x.to; j++ {
				u[j] += warms * (in[j] - 1) * fa[j]
			}
		}
		for j := x.from; j < x.to; j++ {
			u[j] = (u[j] + lower*before[j]) * pivot[j]
		}
	}
}

// backFirst takes row i of the first slope back from the top down and makes
// the state in the middle of the step.
func (w *sweeper) backFirst(i int, h float64) {
	u, kt, t, mid, upper := w.row(w.u, i), w.row(w.kt, i), w.row(w.t, i), w.row(w.midT, i), w.row(w.upper, i)
	kt, t, mid, upper = kt[:len(u)], t[:len(u)], mid[:len(u)], upper[:len(u)]
	if i < w.nz-1 {
		above := w.row(w.kt, i+1)[:len(u)]
		for j := range u {
			u[j] += upper[j] * above[j]
		}
	}
	for j, v := range u {
		kt[j] = v
		mid[j] = t[j] + h*v
	}
	for c, x := range w.columns {
		if !w.cells[i][c].cures {
			continue
		}
		from, to := i*w.ny+x.from, i*w.ny+x.to
		ka, fa, in, by, a, midA := w.ka[from:to], w.fa[from:to], w.byA[from:to], w.byT[from:to], w.a[from:to], w.midA[from:to]
		kt := w.kt[from:to]
		for j := range ka {
			v := fa[j]*in[j] + by[j]*kt[j]
			ka[j] = v
			midA[j] = a[j] + h*v
		}
	}
}

// leastWarms is the least weight of a conversion's error, K: where a cure sets
// no heat free its own course is still followed.
const leastWarms = 50

// backSecond takes row i of the second slope back, makes the new state, and
// gives the greatest error in the row.
func (w *sweeper) backSecond(i int, h float64) float64 {
	u, kt, t, next, upper := w.row(w.u, i), w.row(w.kt, i), w.row(w.t, i), w.row(w.nextT, i), w.row(w.upper, i)
	kt, t, next, upper = kt[:len(u)], t[:len(u)], next[:len(u)], upper[:len(u)]
	if i < w.nz-1 {
		above := w.row(w.u, i+1)[:len(u)]
		for j := range u {
			u[j] += upper[j] * above[j]
		}
	}
	worst, sum := 0.0, 0.0
	half := h / 2
	for j, v := range u {
		e := half * (v + kt[j])
		next[j] = t[j] + h*kt[j] + e
		sum += e
		if e = math.Abs(e); e > worst {
			worst = e
		}
	}
	for c, x := range w.columns {
		k := &w.cells[i][c]
		if !k.cures {
			continue
		}
		from, to := i*w.ny+x.from, i*w.ny+x.to
		ka, fa, in, by, a, nextA := w.ka[from:to], w.fa[from:to], w.byA[from:to], w.byT[from:to], w.a[from:to], w.nextA[from:to]
		u, next := w.u[from:to], w.nextT[from:to]
		warms := k.law.warms
		weight := max(warms, leastWarms)
		for j := range ka {
			e := half * (fa[j]*in[j] + by[j]*u[j] + ka[j])
			v := a[j] + h*ka[j] + e
			if v > 1 {
				next[j] -= warms * (v - 1)
				v = 1
			}
			nextA[j] = v
			sum += e
			if e = math.Abs(e) * weight; e > worst {
				worst = e
			}
		}
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return worst
}
