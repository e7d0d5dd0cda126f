package model

import (
	"meniscus/model/unit"
)

// Kit is one thing that can be bought of a product: so much of part A and so
// much of part B, at a price. A single bottle has one part only.
type Kit struct {
	Name  string     `json:"name"`
	A     unit.Mass  `json:"a,omitempty"`
	B     unit.Mass  `json:"b,omitempty"`
	Price unit.Money `json:"price,omitzero"` // no currency: not known
	Most  int        `json:"most,omitempty"` // that can be had of it; 0 is as many as wanted
}

// fault tells what is wrong with a kit; nothing where it can stand. One that holds
// nothing yet is not bought.
func (k *Kit) fault() (field, message string) {
	for _, part := range []struct {
		field string
		mass  unit.Mass
	}{{"a", k.A}, {"b", k.B}} {
		if m := float64(part.mass); !(m >= 0 && m <= someMass.high) {
			return part.field, "what a kit holds should be " + someMass.words
		}
	}
	if msg := moneyFault(k.Price); msg != "" {
		return "price", msg
	}
	if k.Most < 0 {
		return "most", "this should be " + anyCount.words
	}
	return "", ""
}

// mostPrice is the most minor units that one thing may cost.
const mostPrice = 1e12

// LargestMix is the most that can be mixed of so much A and B at parts of B to
// 100 of A by weight: min(A, B·100/p)·(1 + p/100). It is nothing where the ratio
// is not known.
func LargestMix(a, b unit.Mass, parts float64) unit.Mass {
	if !(parts > 0) || a <= 0 || b <= 0 {
		return 0
	}
	return min(a, b.Times(100/parts)).Times(1 + parts/100)
}

// typicalResidue is what does not come out of a bottle, of what it held: 1 to
// 3 % (common practice, no source).
var typicalResidue = typical[unit.Share]{0.02, 0.01, 0.03}

// perKilo is what a kilogram costs where so much costs a price. False where
// that is nothing, or the price is not known.
func perKilo(price unit.Money, mass unit.Mass) (unit.Money, bool) {
	if !price.Given() || !(mass > 0) {
		return unit.Money{}, false
	}
	m, err := price.Times(1 / float64(mass))
	return m, err == nil
}
