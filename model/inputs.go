package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// inputs are the numbers that the amounts of resin follow from, each with its
// standard uncertainty. The geometry is one function of this vector, which is
// what makes the law of propagation and a Monte Carlo the same few lines.
type inputs struct{ list []input }

type input struct {
	field, label string
	value        float64
	sigma        float64
	typical      bool // rests on a typical value and not on a measurement
}

// add appends an input and gives its place in the vector.
func (in *inputs) add(field, label string, value, sigma float64) int {
	in.list = append(in.list, input{field: field, label: label, value: value, sigma: sigma})
	return len(in.list) - 1
}

// addKnown appends a figure of a sheet or an allowance.
func addKnown[Q unit.Quantity](in *inputs, field, label string, k Known[Q]) int {
	i := in.add(field, label, float64(k.Value), float64(k.sigma()))
	in.list[i].typical = k.Typical
	return i
}

// values gives the vector of best estimates.
func (in *inputs) values() []float64 {
	x := make([]float64, len(in.list))
	for i, v := range in.list {
		x[i] = v.value
	}
	return x
}

// HalfWidth is how far off a reading with the instrument may be, as the
// project has it. A length with no instrument named counts as read with a
// steel rule.
func (p *Project) HalfWidth(by unit.Instrument) unit.Length {
	if by == "" {
		by = unit.Rule
	}
	if l, ok := p.Instruments[by]; ok {
		return l
	}
	return unit.DefaultAccuracy(by)
}

// dim appends a measured length; one that was not given is exactly its stand-in.
func (p *Project) dim(in *inputs, field, label string, d unit.Dim, other unit.Length) int {
	if !d.Given() {
		return in.add(field, label, float64(other), 0)
	}
	return in.add(field, label, float64(d.Value), float64(unit.StandardUncertainty(p.HalfWidth(d.By))))
}

// height appends a height above the floor. One that was not given, or is 0, is
// that of the floor itself, which a thing that lies on it cannot be off.
func (p *Project) height(in *inputs, field, label string, d unit.Dim) int {
	if d.Value == 0 {
		return in.add(field, label, 0, 0)
	}
	return p.dim(in, field, label, d, 0)
}

// ringSigma is the standard uncertainty of a ring's area relative to the area,
// when every coordinate of every point has the standard uncertainty u: by the
// law of propagation over the shoelace formula, whose derivative with respect
// to a coordinate is half the distance between the two neighbours along the
// other axis.
func ringSigma(r shape.Ring, u float64) float64 {
	n := len(r)
	area := float64(r.Area())
	if n < 3 || area == 0 {
		return 0
	}
	sum := 0.0
	for i := range r {
		a, b := r[(i+n-1)%n], r[(i+1)%n]
		sum += (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y)
	}
	return u / 2 * math.Sqrt(sum) / area
}
