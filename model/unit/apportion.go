package unit

import (
	"math"
	"slices"
)

// ShareOut divides total into whole parts in the ratio of the weights by the
// method of the largest remainder: each part is its exact share rounded down
// or up, and all parts add up to total. A weight that is negative or not
// finite counts as none; where no weight is left, all parts are alike. Without
// weights there are no parts.
func ShareOut(total int64, weights []float64) []int64 {
	if len(weights) == 0 {
		return nil
	}
	rest := uint64(total)
	if total < 0 {
		rest = -rest
	}
	whole := float64(rest)
	shares := evened(weights)
	parts := make([]uint64, len(shares))
	remainder := make([]float64, len(shares))
	order := make([]int, len(shares))
	for i, w := range shares {
		exact := whole * w
		down := math.Floor(exact)
		part := rest
		if down < float64(rest) {
			part = uint64(down)
		}
		parts[i], remainder[i], order[i] = part, exact-down, i
		rest -= part
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case remainder[a] > remainder[b]:
			return -1
		case remainder[a] < remainder[b]:
			return 1
		}
		return 0
	})
	handOut(parts, shares, order, rest)
	signed := make([]int64, len(parts))
	for i, p := range parts {
		if total < 0 {
			p = -p
		}
		signed[i] = int64(p)
	}
	return signed
}

// handOut adds rest to the parts one by one in the order given, leaving out
// those that have no share. More than one round is only needed where total is
// so large that a float64 no longer counts it.
func handOut(parts []uint64, shares []float64, order []int, rest uint64) {
	order = slices.DeleteFunc(order, func(i int) bool { return shares[i] == 0 })
	each := rest / uint64(len(order))
	rest %= uint64(len(order))
	for n, i := range order {
		parts[i] += each
		if uint64(n) < rest {
			parts[i]++
		}
	}
}

// evened gives the weights as shares that add up to one.
func evened(weights []float64) []float64 {
	shares := make([]float64, len(weights))
	largest := 0.0
	for i, w := range weights {
		if finite(w) && w > 0 {
			shares[i] = w
			largest = max(largest, w)
		}
	}
	sum := 0.0
	for i := range shares {
		if largest == 0 {
			shares[i] = 1
		} else {
			shares[i] /= largest
		}
		sum += shares[i]
	}
	for i := range shares {
		shares[i] /= sum
	}
	return shares
}

// RoundParts rounds a total to whole steps, and divides it into parts of whole
// steps in the ratio of the parts given, so that what is weighed adds up to
// what is written below the line. The step is what the scale shows, such as
// 1 g or 0.05 oz. With no step, or numbers that no scale shows, all stays as
// it is. The parts are not below zero.
func RoundParts(total Mass, parts []Mass, step Mass) (Mass, []Mass) {
	steps := math.Round(float64(total) / float64(step))
	if !(step > 0) || !finite(steps) || math.Abs(steps) > 1e15 {
		return total, slices.Clone(parts)
	}
	weights := make([]float64, len(parts))
	for i, p := range parts {
		weights[i] = float64(p)
	}
	rounded := make([]Mass, len(parts))
	for i, n := range ShareOut(int64(steps), weights) {
		rounded[i] = Mass(float64(n) * float64(step))
	}
	return Mass(steps * float64(step)), rounded
}
