package model

import (
	"slices"

	"meniscus/model/unit"
)

// Lot is what is left of one lot of a part, in all its bottles, without the
// bottles.
type Lot struct {
	Part   PartName  `json:"part"`
	Number string    `json:"number"`
	Left   unit.Mass `json:"left"`
}

// LotUse is where a part of a layer comes from.
type LotUse struct {
	Part    PartName  `json:"part"`
	Project string    `json:"project"`
	Layer   string    `json:"layer"`
	Name    string    `json:"name"`
	Mass    unit.Mass `json:"mass"`
	Lot     string    `json:"lot,omitempty"` // by its number
	Buy     bool      `json:"buy,omitempty"` // from what is bought
}

// shareLots decides which layers each lot of a part serves whole, so that as
// little as possible must be bought, and what of the part that is. A layer that
// is seen comes from one lot, since two lots differ in colour; one that is not
// takes what is left of any. Lots serve in the order given where it makes no
// difference.
func shareLots(part PartName, layers []LayerNeed, lots []Lot, residue unit.Share) (buy unit.Mass, uses []LotUse) {
	of := func(l *LayerNeed) unit.Mass {
		if part == PartA {
			return l.A
		}
		return l.B
	}
	var left []unit.Mass
	var numbers []string
	for _, l := range lots {
		if l.Part == part && l.Left > 0 {
			left, numbers = append(left, l.Left.Times(1-float64(residue))), append(numbers, l.Number)
		}
	}
	var seen, hidden []*LayerNeed
	for i := range layers {
		switch l := &layers[i]; {
		case of(l) <= 0:
		case l.Hidden:
			hidden = append(hidden, l)
		default:
			seen = append(seen, l)
		}
	}
	use := func(l *LayerNeed, mass unit.Mass, lot int) {
		u := LotUse{Part: part, Project: l.Project, Layer: l.Layer, Name: l.Name, Mass: mass, Buy: lot == none}
		if lot == none {
			buy += mass
		} else {
			u.Lot = numbers[lot]
			left[lot] -= mass
		}
		uses = append(uses, u)
	}
	// The lot that the maker has chosen for a layer serves it first.
	var open []*LayerNeed
	for _, l := range seen {
		chosen := slices.Index(numbers, l.Lot)
		if l.Lot != "" && chosen >= 0 && left[chosen]+kitGrain >= of(l) {
			use(l, of(l), chosen)
		} else {
			open = append(open, l)
		}
	}
	want := make([]unit.Mass, len(open))
	for i, l := range open {
		want[i] = of(l)
	}
	for i, lot := range fillLots(want, left) {
		use(open[i], want[i], lot)
	}
	for _, l := range hidden {
		rest := of(l)
		for lot := range left {
			if take := min(rest, left[lot]); take > 0 {
				use(l, take, lot)
				rest -= take
			}
		}
		if rest > 0 {
			use(l, rest, none)
		}
	}
	return buy, uses
}

// mostLotSteps ends the search of fillLots, which then keeps the best so far: a
// dozen layers on six lots take less.
const mostLotSteps = 200_000

// fillLots gives for each want the lot that serves it whole, or none, so that
// the most is served: every way is tried that can still serve more.
func fillLots(want, left []unit.Mass) []int {
	best, now := make([]int, len(want)), make([]int, len(want))
	for i := range best {
		best[i] = none
	}
	most, rest := unit.Mass(0), make([]unit.Mass, len(want)+1)
	for i := len(want) - 1; i >= 0; i-- {
		rest[i] = rest[i+1] + want[i]
	}
	left = slices.Clone(left)
	steps := 0
	var try func(i int, served unit.Mass)
	try = func(i int, served unit.Mass) {
		if steps++; steps > mostLotSteps || served+rest[i] <= most+kitGrain {
			return
		}
		if i == len(want) {
			most = served
			copy(best, now)
			return
		}
		for lot := range left {
			if left[lot]+kitGrain >= want[i] {
				left[lot], now[i] = left[lot]-want[i], lot
				try(i+1, served+want[i])
				left[lot] += want[i]
			}
		}
		now[i] = none
		try(i+1, served)
	}
	try(0, 0)
	return best
}
