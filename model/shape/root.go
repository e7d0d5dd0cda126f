package shape

import "math"

// Root finds where f is zero between a and b, to within tol, by the method of
// Brent (Algorithms for Minimization without Derivatives, 1973, chapter 4).
// It tells false when f(a) and f(b) have the same sign, and then gives the end
// where f is nearer to zero.
func Root(f func(float64) float64, a, b, tol float64) (float64, bool) {
	fa, fb := f(a), f(b)
	if math.Abs(fa) < math.Abs(fb) {
		a, b, fa, fb = b, a, fb, fa
	}
	if fb == 0 {
		return b, true
	}
	if !(fa < 0 && fb > 0 || fa > 0 && fb < 0) {
		return b, false
	}
	c, fc := a, fa // b is the best so far, c is on the other side, a is the last b
	step := b - a
	last := step
	for range 200 {
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		near := 2*0x1p-52*math.Abs(b) + tol/2
		half := (c - b) / 2
		if math.Abs(half) <= near || fb == 0 {
			break
		}
		if math.Abs(last) < near || math.Abs(fa) <= math.Abs(fb) {
			step, last = half, half
		} else {
			step, last = interpolated(a, b, c, fa, fb, fc, near, step, last)
		}
		a, fa = b, fb
		if math.Abs(step) > near {
			b += step
		} else {
			b += math.Copysign(near, half)
		}
		fb = f(b)
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			step = b - a
			last = step
		}
	}
	return b, true
}

// interpolated gives the step from b by inverse quadratic interpolation, or
// by the secant, or half the bracket where neither is good enough.
func interpolated(a, b, c, fa, fb, fc, near, step, last float64) (next, before float64) {
	half := (c - b) / 2
	s := fb / fa
	var p, q float64
	if a == c {
		p, q = 2*half*s, 1-s
	} else {
		u, r := fa/fc, fb/fc
		p = s * (2*half*u*(u-r) - (b-a)*(r-1))
		q = (u - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	} else {
		p = -p
	}
	if 2*p < min(3*half*q-math.Abs(near*q), math.Abs(last*q)) {
		return p / q, step
	}
	return half, half
}
