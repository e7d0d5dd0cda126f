package model

import (
	"math"
	"sort"

	"meniscus/model/unit"
)

// How long the hands need for a cup (common practice, no source).
const (
	smallMix     = 3 * unit.Minute // for less than largeMix
	largeMixes   = 5 * unit.Minute
	coldMixes    = unit.Minute // more where it is cold
	largeMix     = 500 * unit.Gram
	coldToMix    = unit.Temperature(273.15 + 18) // of resin or room
	mostBatches  = 12                            // more than anyone mixes for one pour
	mostShuffled = 6                             // cavities of which every order is tried
)

// batching is a mix to be shared among the fewest cups. Masses are whole steps
// of the scale.
type batching struct {
	step    unit.Mass
	total   int64
	need    []int64 // of the mix, for each cavity
	cup     int64   // the most that one takes
	rest    unit.Span
	cold    bool
	working func(n int64) unit.Span // of a cup of so much, never longer for more
}

// batchLoad is one cup and where it goes.
type batchLoad struct {
	n    int64
	into []batchShare
}

// batchShare is a cup's part in one cavity, counted from 0.
type batchShare struct {
	cavity int
	n      int64
}

// wholeMinutes rounds a span up to whole minutes.
func wholeMinutes(s unit.Span) unit.Span {
	return unit.Minute.Times(max(math.Ceil(s.Per(unit.Minute)-1e-9), 0))
}

// mixing is how long a cup is mixed.
func (b *batching) mixing(n int64) unit.Span {
	return mixSpan(b.step.Times(float64(n)), b.cold)
}

// pouring is how long it takes to pour a cup out into so many cavities, in whole
// minutes.
func (b *batching) pouring(n int64, cavities int) unit.Span {
	return wholeMinutes(usualPour.Times(float64(b.step)*float64(n)) + usualCavity.Times(float64(cavities)))
}

// fits tells whether a cup that goes into so many cavities ends in time.
func (b *batching) fits(n int64, cavities int) bool {
	return n <= b.cup && b.mixing(n)+b.rest+b.pouring(n, cavities) <= b.working(n).Times(WorkingPart)
}

// most gives the largest cups that end in time, by the number of cavities that
// they go into.
func (b *batching) most() []int64 {
	caps := []int64{b.total}
	for k := 1; k <= len(b.need); k++ {
		top := caps[k-1]
		if top > 0 && !b.fits(top, k) {
			top = int64(sort.Search(int(top), func(i int) bool { return !b.fits(int64(i)+1, k) }))
		}
		caps = append(caps, top)
	}
	return caps
}

// pack shares the mix among the fewest cups, and false where more than
// mostBatches would be needed. A cavity that one cup does not fill is filled up
// by the very next. Of up to mostShuffled cavities every order is tried; more
// are filled as they lie. Where it takes no more cups, each cavity is filled
// from one. Then the largest cup is made as small as that allows.
func (b *batching) pack() ([]batchLoad, bool) {
	caps := b.most()
	orders := b.orders()
	least, order := fewest(b.need, orders, caps, true)
	if order == nil {
		return nil, false
	}
	split := true
	if n, _ := fewest(b.need, orders, caps, false); n == least {
		split = false
	}
	const fine = 1024
	smaller := make([]int64, len(caps))
	scale := func(part int64) {
		for k := range caps {
			smaller[k] = (caps[k]*part + fine - 1) / fine
		}
	}
	part := sort.Search(fine-1, func(i int) bool {
		scale(int64(i) + 1)
		n, _ := fewest(b.need, orders, smaller, split)
		return n == least
	})
	scale(int64(part) + 1)
	_, order = fewest(b.need, orders, smaller, split)
	var loads []batchLoad
	along(b.need, order, smaller, split, func(fresh bool, cavity int, n int64) {
		if fresh {
			loads = append(loads, batchLoad{})
		}
		l := &loads[len(loads)-1]
		l.n += n
		l.into = append(l.into, batchShare{cavity, n})
	})
	return loads, true
}

// able tells whether the mix can be shared among cups that end in time.
func (b *batching) able() bool {
	n, _ := fewest(b.need, b.orders(), b.most(), true)
	return n > 0
}

// along pours the cavities in an order, each cup as full as it may be, and gives
// how many cups that takes: 0 where it cannot be done with mostBatches. pour,
// where there is one, is told of each part.
func along(need []int64, order []int, caps []int64, split bool, pour func(fresh bool, cavity int, n int64)) int {
	batches, n, k := 0, int64(0), 0
	for _, cavity := range order {
		for left := need[cavity]; left > 0; {
			take := int64(0)
			if batches > 0 && k+1 < len(caps) {
				take = min(left, caps[k+1]-n)
			}
			fresh := take <= 0 || !split && take < left
			if fresh {
				if take = min(left, caps[1]); take <= 0 || !split && take < left || batches == mostBatches {
					return 0
				}
				batches, n, k = batches+1, 0, 0
			}
			if pour != nil {
				pour(fresh, cavity, take)
			}
			n, k, left = n+take, k+1, left-take
		}
	}
	return batches
}

// fewest gives the least number of cups over the orders, and the first order
// that does with so few; none where none does.
func fewest(need []int64, orders [][]int, caps []int64, split bool) (int, []int) {
	least, best := 0, []int(nil)
	for _, order := range orders {
		if n := along(need, order, caps, split, nil); n > 0 && (best == nil || n < least) {
			least, best = n, order
		}
	}
	return least, best
}

// orders lists the orders of the cavities that are tried, the one in which they
// lie first.
func (b *batching) orders() [][]int {
	lie := make([]int, len(b.need))
	for i := range lie {
		lie[i] = i
	}
	if len(lie) > mostShuffled {
		return [][]int{lie}
	}
	var list [][]int
	var extend func(head, rest []int)
	extend = func(head, rest []int) {
		if len(rest) == 0 {
			list = append(list, head)
			return
		}
		for i, c := range rest {
			var others []int
			others = append(append(others, rest[:i]...), rest[i+1:]...)
			extend(append(append([]int(nil), head...), c), others)
		}
	}
	extend(nil, lie)
	return list
}
