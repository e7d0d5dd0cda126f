package model

import (
	"math"
)

// kitBounds bounds from below what it takes to cover a need with some kinds of
// kit, if kits could be had in parts. That is a linear programme with two rows;
// its dual has two unknowns u and v, a price of a milligram of A and one of B at
// which no kit is worth more than its weight in the sum:
//
//	least = max a·u + b·v  where  aᵢ·u + bᵢ·v ≤ wᵢ for every kind i, u, v ≥ 0
//
// The greatest is reached at a corner, and the corners are the same for every
// need.
type kitBounds struct {
	corners [len(kitRank{})][][2]float64 // by what is summed: price, mass, number
	steps   [len(kitRank{})]int64        // what is summed is a multiple of this
	a, b    int64                        // that all kits to be had hold together
	stepA   int64                        // what they hold of A is a multiple of this
	stepB   int64
}

// plenty is more than any need.
const plenty = int64(1) << 60

func boundsOf(kinds []kitKind) kitBounds {
	var b kitBounds
	for _, k := range kinds {
		b.a, b.b = piled(b.a, k.a, k.most), piled(b.b, k.b, k.most)
		b.stepA, b.stepB = common(b.stepA, k.a), common(b.stepB, k.b)
		for i, w := range (kitRank{}).with(k, 1) {
			b.steps[i] = common(b.steps[i], w)
		}
	}
	for i := range b.corners {
		b.corners[i] = dualCorners(kinds, func(k kitKind) float64 { return float64(kitRank{}.with(k, 1)[i]) })
	}
	return b
}

// common is the greatest common divisor; with nothing, the other.
func common(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// upTo takes a sum up to a multiple of a step.
func upTo(sum, step int64) int64 {
	if step <= 1 || sum <= 0 {
		return sum
	}
	return (sum + step - 1) / step * step
}

// piled adds n times each to a sum that ends at plenty.
func piled(sum, each, n int64) int64 {
	if each > 0 && n > (plenty-sum)/each {
		return plenty
	}
	return sum + each*n
}

// dualCorners lists the corners of all prices (u, v) at which no kit holds more
// than it weighs in the sum.
func dualCorners(kinds []kitKind, weight func(kitKind) float64) [][2]float64 {
	var corners [][2]float64
	try := func(u, v float64) {
		if !(u >= 0 && v >= 0) || math.IsInf(u, 0) || math.IsInf(v, 0) {
			return
		}
		scale := 1.0
		for _, k := range kinds {
			w, worth := weight(k), float64(k.a)*u+float64(k.b)*v
			if worth > w*(1+1e-9) {
				return
			}
			if worth > w {
				scale = min(scale, w/worth)
			}
		}
		corners = append(corners, [2]float64{u * scale, v * scale})
	}
	for i, k := range kinds {
		if k.a > 0 {
			try(weight(k)/float64(k.a), 0)
		}
		if k.b > 0 {
			try(0, weight(k)/float64(k.b))
		}
		for _, l := range kinds[:i] {
			if det := float64(k.a)*float64(l.b) - float64(k.b)*float64(l.a); det != 0 {
				try((weight(k)*float64(l.b)-weight(l)*float64(k.b))/det, (weight(l)*float64(k.a)-weight(k)*float64(l.a))/det)
			}
		}
	}
	return corners
}

// covers tells whether there is so much to be had at all.
func (b *kitBounds) covers(needA, needB int64) bool { return needA <= b.a && needB <= b.b }

// least is the least that the sum number i can come to.
func (b *kitBounds) least(i int, needA, needB int64) int64 {
	most := 0.0
	for _, c := range b.corners[i] {
		most = max(most, c[0]*float64(needA)+c[1]*float64(needB))
	}
	// It is a sum of whole numbers; the slack is what the arithmetic may be off.
	return upTo(int64(math.Ceil(most-1e-6-1e-12*most)), b.steps[i])
}
