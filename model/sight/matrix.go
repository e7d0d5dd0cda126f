package sight

import "math"

// product gives the matrix product a·b of three rows by three columns.
func product(a, b *[9]float64) (c [9]float64) {
	for i := range 3 {
		for j := range 3 {
			c[3*i+j] = a[3*i]*b[j] + a[3*i+1]*b[3+j] + a[3*i+2]*b[6+j]
		}
	}
	return c
}

// adjoint gives the inverse of a up to a factor, which is all that a map
// between planes needs.
func adjoint(a *[9]float64) [9]float64 {
	return [9]float64{
		a[4]*a[8] - a[5]*a[7], a[2]*a[7] - a[1]*a[8], a[1]*a[5] - a[2]*a[4],
		a[5]*a[6] - a[3]*a[8], a[0]*a[8] - a[2]*a[6], a[2]*a[3] - a[0]*a[5],
		a[3]*a[7] - a[4]*a[6], a[1]*a[6] - a[0]*a[7], a[0]*a[4] - a[1]*a[3],
	}
}

// unknowns is how many numbers make a map between two planes.
const unknowns = 8

// equation is one linear equation: a factor for each unknown, then the right
// side.
type equation [unknowns + 1]float64

// vector holds a value for each unknown.
type vector [unknowns]float64

// triangle is the upper triangular factor R of a least-squares problem
// A = Q·R, so that the covariance of its unknowns is R⁻¹·R⁻ᵀ times the variance
// of one equation.
type triangle [unknowns]vector

// leastSquares solves at least eight equations for the unknowns that leave the
// least sum of squares, by Householder's reflections (Golub and Van Loan,
// Matrix Computations, 5.2.1). The equations are used up. It tells false where
// they do not determine every unknown.
func leastSquares(e []equation) (x vector, r triangle, ok bool) {
	const flat = 1e-10 // of the longest column; less is none
	longest := 0.0
	for k := range unknowns {
		length := 0.0
		for i := range e {
			length = math.Hypot(length, e[i][k])
		}
		longest = max(longest, length)
	}
	for k := range unknowns {
		length := 0.0
		for i := k; i < len(e); i++ {
			length = math.Hypot(length, e[i][k])
		}
		if !(length > flat*longest) {
			return x, r, false
		}
		if e[k][k] > 0 {
			length = -length
		}
		// The reflection's normal is the column with its head less length; it is
		// kept in the column itself, divided so that its head times length is -1.
		head := e[k][k] - length
		for j := k + 1; j <= unknowns; j++ {
			dot := head * e[k][j]
			for i := k + 1; i < len(e); i++ {
				dot += e[i][k] * e[i][j]
			}
			dot /= length * head
			e[k][j] += dot * head
			for i := k + 1; i < len(e); i++ {
				e[i][j] += dot * e[i][k]
			}
		}
		r[k][k] = length
		for j := k + 1; j < unknowns; j++ {
			r[k][j] = e[k][j]
		}
	}
	for k := unknowns - 1; k >= 0; k-- {
		x[k] = e[k][unknowns]
		for j := k + 1; j < unknowns; j++ {
			x[k] -= r[k][j] * x[j]
		}
		x[k] /= r[k][k]
	}
	return x, r, true
}

// spread gives the standard deviation of the sum of c times the unknowns where
// every equation has one of 1: the length of R⁻ᵀ·c.
func (r *triangle) spread(c vector) float64 {
	sum := 0.0
	for k := range unknowns {
		for j := range k {
			c[k] -= r[j][k] * c[j]
		}
		c[k] /= r[k][k]
		sum += c[k] * c[k]
	}
	return math.Sqrt(sum)
}

// lean gives the least number on the diagonal over the greatest, which is near
// 0 where the equations hardly determine an unknown.
func (r *triangle) lean() float64 {
	least, most := math.Inf(1), 0.0
	for k := range unknowns {
		least, most = min(least, math.Abs(r[k][k])), max(most, math.Abs(r[k][k]))
	}
	return least / most
}

// directions gives the columns of R⁻¹: eight independent errors of the
// unknowns which together make their covariance.
func (r *triangle) directions() (all [unknowns]vector) {
	for d := range unknowns {
		x := &all[d]
		x[d] = 1 / r[d][d]
		for k := d - 1; k >= 0; k-- {
			for j := k + 1; j <= d; j++ {
				x[k] -= r[k][j] * x[j]
			}
			x[k] /= r[k][k]
		}
	}
	return all
}
