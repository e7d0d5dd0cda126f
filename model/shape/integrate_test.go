package shape

import "math"

// Integrate gives the integral of f from a to b by Simpson's rule on ever
// finer halves with Richardson's correction, until the estimated error is
// below tol, which is absolute (Lyness 1969). At least eight parts are looked
// at, and no part is halved more than 30 times.
func Integrate(f func(float64) float64, a, b, tol float64) float64 {
	const parts = 8
	sum, h := 0.0, (b-a)/parts
	lo, flo := a, f(a)
	for i := 1; i <= parts; i++ {
		hi := a + h*float64(i)
		if i == parts {
			hi = b
		}
		fm, fhi := f((lo+hi)/2), f(hi)
		sum += halves(f, lo, hi, flo, fm, fhi, simpson(lo, hi, flo, fm, fhi), tol/parts, 30)
		lo, flo = hi, fhi
	}
	return sum
}

func simpson(a, b, fa, fm, fb float64) float64 { return (b - a) / 6 * (fa + 4*fm + fb) }

// halves refines whole, the integral from a to b by one Simpson's rule.
func halves(f func(float64) float64, a, b, fa, fm, fb, whole, tol float64, left int) float64 {
	m := (a + b) / 2
	fl, fr := f((a+m)/2), f((m+b)/2)
	l, r := simpson(a, m, fa, fl, fm), simpson(m, b, fm, fr, fb)
	miss := l + r - whole
	if left == 0 || !(math.Abs(miss) > 15*tol) {
		return l + r + miss/15
	}
	return halves(f, a, m, fa, fl, fm, l, tol/2, left-1) + halves(f, m, b, fm, fr, fb, r, tol/2, left-1)
}
