package cure

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// splitmix is a generator of random numbers: Steele, Lea and Flood, OOPSLA 2014.
type splitmix uint64

func (s *splitmix) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// unit gives an even number in [0, 1).
func (s *splitmix) unit() float64 { return float64(s.next()>>11) * 0x1p-53 }

// Stratified gives n numbers in [0, 1) in random order, one in each nth part: a
// column of a Latin hypercube (McKay, Beckman and Conover, Technometrics 21
// (1979) 239). Columns of one seed hang on nothing but their number, so that a
// figure that becomes known does not stir the draws of the others.
func Stratified(seed uint64, column, n int) []float64 {
	s := splitmix(seed ^ uint64(column+1)*0xd1342543de82ef95)
	s.next()
	list := make([]float64, n)
	for i := range list {
		list[i] = (float64(i) + s.unit()) / float64(n)
	}
	for i := n - 1; i > 0; i-- {
		j := int(s.unit() * float64(i+1))
		list[i], list[j] = list[j], list[i]
	}
	return list
}

// Sample is a product with every figure that its sheet lacks drawn from its
// band.
type Sample struct {
	Drawn   Figures
	product *Product
}

// Samples draws n samples of the product. The same seed gives the same.
func (p Product) Samples(seed uint64, n int) []Sample {
	list := make([]Sample, max(n, 0))
	typical := p.typical()
	for i := range list {
		list[i] = Sample{typical, &p}
	}
	for _, input := range p.Unknown() {
		band := p.Band(input)
		for i, u := range Stratified(seed, int(input), len(list)) {
			list[i].Drawn[input] = band.At(u)
		}
	}
	return list
}

// Calibrate makes the sample ready, as Calibrate does the product. It is quicker
// near the product itself made ready.
func (s Sample) Calibrate(ctx context.Context, near Calibrated) (Calibrated, error) {
	if err := s.product.check(); err != nil {
		return Calibrated{}, err
	}
	return s.product.calibrate(ctx, s.Drawn, near.solved)
}

// Quantile gives the value that a share q of what the results were drawn from
// lies below: the point q(n+1) of their order, straight between two (Weibull's
// rule), so that the share is right on average. Results may be infinite; those
// that are not numbers are left out, and of none the quantile is not a number.
func Quantile(results []float64, q float64) float64 {
	list := slices.DeleteFunc(slices.Clone(results), math.IsNaN)
	if len(list) == 0 {
		return math.NaN()
	}
	slices.Sort(list)
	at := q*float64(len(list)+1) - 1
	i := int(math.Floor(at))
	switch {
	case i < 0:
		return list[0]
	case i >= len(list)-1:
		return list[len(list)-1]
	case list[i] == list[i+1]:
		return list[i]
	}
	return list[i] + (at-float64(i))*(list[i+1]-list[i])
}

// Range gives the middle four fifths of what the results were drawn from: the
// band that holds the truth eight times in ten.
func Range(results []float64) (low, high float64) {
	return Quantile(results, 0.1), Quantile(results, 0.9)
}

// Cause is how much of an answer's spread one input makes.
type Cause struct {
	Input Input
	Part  float64 // of the variance, 0 to 1
}

// Causes ranks the inputs that were drawn by how much of the results' spread
// each makes: the square of the rank correlation, less what chance alone gives,
// most first. Inputs that make nothing are left out, and results that are not
// numbers count for nothing.
func Causes(samples []Sample, results []float64) []Cause {
	var kept []Sample
	var values []float64
	for i, r := range results[:min(len(results), len(samples))] {
		if !math.IsNaN(r) {
			kept, values = append(kept, samples[i]), append(values, r)
		}
	}
	n := float64(len(values))
	if n < 4 {
		return nil
	}
	var list []Cause
	order := ranks(values)
	drawn := make([]float64, len(kept))
	total := 0.0
	for _, input := range kept[0].product.Unknown() {
		for i := range kept {
			drawn[i] = kept[i].Drawn[input]
		}
		r := correlation(ranks(drawn), order)
		if part := (r*r*(n-1) - 1) / (n - 2); part > 0 {
			list = append(list, Cause{input, part})
			total += part
		}
	}
	for i := range list {
		list[i].Part /= max(total, 1)
	}
	slices.SortStableFunc(list, func(a, b Cause) int { return cmp.Compare(b.Part, a.Part) })
	return list
}

// ranks gives each value its place in order; equal ones share the mean of theirs.
func ranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(values[i], values[j]) })
	list := make([]float64, len(values))
	for i := 0; i < len(order); {
		j := i
		for j < len(order) && values[order[j]] == values[order[i]] {
			j++
		}
		for _, k := range order[i:j] {
			list[k] = float64(i+j-1) / 2
		}
		i = j
	}
	return list
}

// correlation gives how two lists go together, -1 to 1, and 0 where one does
// not vary.
func correlation(x, y []float64) float64 {
	n := float64(len(x))
	mx, my := 0.0, 0.0
	for i := range x {
		mx, my = mx+x[i]/n, my+y[i]/n
	}
	xx, yy, xy := 0.0, 0.0, 0.0
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		xx, yy, xy = xx+dx*dx, yy+dy*dy, xy+dx*dy
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return xy / math.Sqrt(xx*yy)
}
