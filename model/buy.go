package model

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/unit"
)

// KitCount is so many of one kit.
type KitCount struct {
	Kit    Kit `json:"kit"`
	Number int `json:"number"`
}

// KitSet is what to buy, what it costs and what it leaves.
type KitSet struct {
	Kits  []KitCount `json:"kits"` // in the order of the shop's list
	Cost  unit.Money `json:"cost,omitzero"`
	A     unit.Mass  `json:"a"` // that comes out of the bottles bought
	B     unit.Mass  `json:"b"`
	LeftA unit.Mass  `json:"leftA"` // once all is poured, with what older lots have left
	LeftB unit.Mass  `json:"leftB"`
	Pairs unit.Mass  `json:"pairs"` // that can be mixed of what is left
	OddA  unit.Mass  `json:"oddA"`  // of what is left, with no B to go with it
	OddB  unit.Mass  `json:"oddB"`

	PerKilo unit.Money `json:"perKilo,omitzero"` // what a kilogram of mix costs that can be made of what is bought; not given where none can
}

// Purchase answers what to buy for a need.
type Purchase struct {
	Need    Need      `json:"need"`
	Nothing bool      `json:"nothing,omitempty"` // what is there suffices
	Best    KitSet    `json:"best"`
	Next    *KitSet   `json:"next,omitempty"` // the next in order that does not hold the whole of the best; nil where there is none
	ByLeft  bool      `json:"byLeft,omitempty"`
	Proven  bool      `json:"proven"`            // no cheaper set exists; false where the kits were too many to try them all
	Prices  []string  `json:"prices,omitempty"`  // kits without a price: then the set is chosen by what it leaves over (ByLeft)
	OneLot  []LotRule `json:"oneLot,omitempty"`  // what must be of one lot among what is bought
	Idle    []Lot     `json:"idle,omitempty"`    // lots that serve no layer, because they are too little for one
	MixSave bool      `json:"mixSave,omitempty"` // less would do if lots might meet within a layer
}

// LotRule is a part of a layer that is seen and takes more than one bottle of
// what is bought: they must be of one lot.
type LotRule struct {
	Part    PartName  `json:"part"`
	Layer   string    `json:"layer"`
	Name    string    `json:"name"`
	Mass    unit.Mass `json:"mass"`
	Largest unit.Mass `json:"largest"` // that comes out of the largest bottle in the set
}

// kitGrain is what masses are counted by when kits are chosen: the need is rounded
// up to it and what kits hold down, so that the set chosen always covers.
const kitGrain = unit.Gram / 1000

// Buy finds the cheapest set of kits that covers a need; among sets of one price
// the one that leaves least over, then the one of fewest kits, then the one with
// most of the kits that stand first. Where a kit has no price the set that
// leaves least over is chosen instead. Errors are a *Problem by the path
// "kits/0/price", "kits" or "need".
func Buy(need Need, kits []Kit) (Purchase, error) {
	p := Purchase{Need: need, Proven: true}
	kinds := make([]kitKind, len(kits))
	var sum unit.Money
	for i := range kits {
		k := &kits[i]
		field, message := k.fault()
		var err error
		if message == "" {
			if sum, err = sum.Plus(unit.Money{Currency: k.Price.Currency}); err != nil {
				field, message = "price", words(err)
			}
		}
		if message != "" {
			return Purchase{}, &Problem{join(join("kits", itoa(i)), field), message}
		}
		if k.A <= 0 && k.B <= 0 {
			continue // nothing was said of it yet
		}
		if !k.Price.Given() {
			p.ByLeft = true
			p.Prices = append(p.Prices, k.Name)
		}
		out := func(m unit.Mass) int64 { return int64(m.Times(1-float64(need.Residue.Value)).Per(kitGrain) + 1e-6) }
		kinds[i] = kitKind{a: out(k.A), b: out(k.B), price: k.Price.Minor, most: anyNumber}
		if k.Most > 0 {
			kinds[i].most = int64(k.Most)
		}
	}
	if p.ByLeft {
		for i := range kinds {
			kinds[i].price = 0
		}
	}
	wants := func(m unit.Mass) int64 { return int64(math.Ceil(m.Per(kitGrain) - 1e-6)) }
	for _, m := range [2]unit.Mass{need.A, need.B} {
		if !(m >= 0 && float64(m) <= mostNeed) {
			return Purchase{}, &Problem{"need", "what is needed should be from 0 to 10,000 kg"}
		}
	}
	a, b := wants(need.A), wants(need.B)
	p.Nothing = a == 0 && b == 0
	p.idle()
	number, _, proven, ok := cheapestKits(kinds, a, b, anyRank)
	if !ok {
		return Purchase{}, &Problem{"kits", p.lacks(kinds, a, b)}
	}
	p.Best, p.Proven = need.set(kits, number, p.ByLeft), proven
	if !p.Nothing {
		next, _, sure, ok := nextKits(kinds, a, b, number)
		if p.Proven = p.Proven && sure; ok {
			set := need.set(kits, next, p.ByLeft)
			p.Next = &set
		}
	}
	p.rules()
	p.MixSave = need.MixedA < need.A-kitGrain || need.MixedB < need.B-kitGrain
	return p, nil
}

const (
	mostNeed  = 10000 // kg
	anyNumber = int64(1) << 40
)

// lacks tells why no set of kits covers a need.
func (p *Purchase) lacks(kinds []kitKind, a, b int64) string {
	all := boundsOf(kinds)
	switch {
	case len(kinds) == 0:
		return "say which kits or bottles can be bought, and what they hold"
	case all.a < a && all.b < b:
		return "all kits that can be had do not hold enough of A and B"
	case all.a < a:
		return "all kits that can be had do not hold enough of A"
	case all.b < b:
		return "all kits that can be had do not hold enough of B"
	}
	return "no set of these kits was found"
}

// nextKits finds the set next in order that does not hold all of the best one:
// less of some kind. One that does would only be the best and something more.
func nextKits(kinds []kitKind, a, b int64, best []int64) (number []int64, rank kitRank, proven, ok bool) {
	proven, rank = true, anyRank
	for i, n := range best {
		if n == 0 {
			continue
		}
		fewer := slices.Clone(kinds)
		fewer[i].most = n - 1
		got, r, sure, found := cheapestKits(fewer, a, b, rank)
		proven = proven && sure
		if found && (r != rank || !ok || slices.Compare(got, number) > 0) {
			number, rank, ok = got, r, true
		}
	}
	return number, rank, proven, ok
}

// set makes the answer of a number of each kit.
func (n *Need) set(kits []Kit, number []int64, unpriced bool) KitSet {
	var s KitSet
	cost, priced := unit.Money{}, !unpriced
	for i, count := range number {
		if count == 0 {
			continue
		}
		k := kits[i]
		s.Kits = append(s.Kits, KitCount{k, int(count)})
		share := (1 - float64(n.Residue.Value)) * float64(count)
		s.A, s.B = s.A+k.A.Times(share), s.B+k.B.Times(share)
		all, err := k.Price.Times(float64(count))
		if err == nil {
			cost, err = cost.Plus(all)
		}
		priced = priced && err == nil
	}
	if priced {
		s.Cost = cost
		s.PerKilo, _ = perKilo(cost, LargestMix(s.A, s.B, n.Parts))
	}
	s.LeftA, s.LeftB = n.left(s.A, s.B)
	s.Pairs = LargestMix(s.LeftA, s.LeftB, n.Parts)
	if s.OddA, s.OddB = s.LeftA, s.LeftB; s.Pairs > 0 {
		a := s.Pairs.Times(100 / (100 + n.Parts))
		s.OddA, s.OddB = max(0, s.LeftA-a), max(0, s.LeftB-(s.Pairs-a))
	}
	return s
}

// Short writes a set as it would stand on a list: "2 × kit, 1 × bottle of B".
func (s *KitSet) Short() string {
	text := ""
	for _, k := range s.Kits {
		if text != "" {
			text += ", "
		}
		text += fmt.Sprintf("%d × %s", k.Number, orWord(k.Kit.Name, "kit"))
	}
	return orWord(text, "nothing")
}
