package drawing

import "math"

// step125 gives the number 1, 2 or 5 times a power of ten that is next to x:
// the least that is not below it when up, else the greatest not above it.
func step125(x float64, up bool) float64 {
	if !(x > 0) || math.IsInf(x, 1) {
		return 0
	}
	const eps = 1e-9
	ten := math.Pow(10, math.Floor(math.Log10(x)+eps))
	m := x / ten
	if up {
		for _, k := range [3]float64{1, 2, 5} {
			if m <= k*(1+eps) {
				return k * ten
			}
		}
		return 10 * ten
	}
	for _, k := range [3]float64{5, 2, 1} {
		if m >= k*(1-eps) {
			return k * ten
		}
	}
	return ten
}

// Ticks gives round places from lo to hi, a step of 1, 2 or 5 times a power of
// ten apart: about n of them, at most n+1, but at least two, for which a finer
// step may be needed.
func Ticks(lo, hi float64, n int) (at []float64, step float64) {
	if !(hi > lo) || n < 1 || math.IsInf(hi-lo, 1) {
		return nil, 0
	}
	step = step125((hi-lo)/float64(n), true)
	const eps = 1e-9
	first, last := math.Ceil(lo/step-eps), math.Floor(hi/step+eps)
	for last-first < 1 {
		step = step125(step*0.9, false)
		first, last = math.Ceil(lo/step-eps), math.Floor(hi/step+eps)
	}
	for k := first; k <= last; k++ {
		at = append(at, k*step)
	}
	return at, step
}

// decimals gives how many decimals numbers a step apart need.
func decimals(step float64) int {
	if !(step > 0) {
		return 0
	}
	return max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
}
