package cure

import "math"

// The parts of exp: 32 steps to each doubling.
var (
	expSteps  [32]float64 // 2^(j/32)
	expPerLn2 = 32 / math.Ln2
)

const (
	// ln 2/32 in two parts, the first with its last 21 bits zero, so that its
	// product with a whole number is exact.
	expHigh = 0x1.62e42fefp-6
	expLow  = 0x1.473de6af278edp-39
	// round is added and taken off again to round to a whole number.
	expRound = 0x1.8p52
)

func init() {
	for j := range expSteps {
		expSteps[j] = math.Exp2(float64(j) / 32)
	}
}

// exp is e to the x to within 4e-15 of itself, for x above -690;
// below it is 0, and above 690 it is that of 690. A rate law spends most of a
// run in it, and it takes a third of the time of the standard library's.
func exp(x float64) float64 {
	if !(x > -690) {
		return 0
	}
	x = min(x, 690)
	t := x*expPerLn2 + expRound
	k := t - expRound
	r := (x - k*expHigh) - k*expLow
	p := 1 + r*(1+r*(0.5+r*(1./6+r*(1./24+r*(1./120)))))
	steps := int64(math.Float64bits(t)<<12) >> 12 // the whole number in t, with its sign
	return math.Float64frombits(math.Float64bits(expSteps[steps&31]*p) + uint64(steps>>5)<<52)
}
