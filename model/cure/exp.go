package cure

import "math"

// A rate law spends most of a run in exponentials and logarithms. These work on
// whole slices, so that the processor has several under way at once, and take
// about half of the standard library's time.

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
	// expRound is added and taken off again to round to a whole number.
	expRound = 0x1.8p52
	// expMost bounds the argument: what is beyond counts as it.
	expMost = 690
)

// logSteps are the parts of ln: 128 steps from 1 to 2.
var logSteps [128]struct{ over, ln float64 }

func init() {
	for j := range expSteps {
		expSteps[j] = math.Exp2(float64(j) / 32)
	}
	for j := range logSteps {
		over := 1 / (1 + (float64(j)+0.5)/128)
		logSteps[j].over, logSteps[j].ln = over, -math.Log(over)
	}
}

// expEach replaces each number by e to its power, to within 4e-15 of itself.
// Below -690 it is that of -690, which is as good as nothing, and above 690
// that of 690. What is not a number gives one that is not either.
func expEach(x []float64) {
	for i, v := range x {
		v = min(max(v, -expMost), expMost)
		t := v*expPerLn2 + expRound
		k := t - expRound
		r := (v - k*expHigh) - k*expLow
		p := 1 + r*(1+r*(0.5+r*(1./6+r*(1./24+r*(1./120)))))
		steps := int64(math.Float64bits(t)<<12) >> 12 // the whole number in t, with its sign
		x[i] = math.Float64frombits(math.Float64bits(expSteps[steps&31]*p) + uint64(steps>>5)<<52)
	}
}

// logEach replaces each number, which must be normal and above 0, by its
// natural logarithm, to within 1e-14.
func logEach(x []float64) {
	for i, v := range x {
		bits := math.Float64bits(v)
		s := &logSteps[bits>>45&127]
		r := math.Float64frombits(bits&(1<<52-1)|1023<<52)*s.over - 1
		p := r * (1 - r*(0.5-r*(1./3-r*(0.25-r*(0.2-r*(1./6-r*(1./7)))))))
		x[i] = float64(int64(bits>>52)-1023)*math.Ln2 + (s.ln + p)
	}
}
