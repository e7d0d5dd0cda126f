package model

import (
	"cmp"
	"slices"
)

// kitKind is a kit in whole numbers: milligrams that come out of its bottles,
// and minor units.
type kitKind struct {
	a, b, price int64
	most        int64 // that can be had
}

// kitRank is what sets of kits are told apart by: what they cost, then what they
// hold and so leave over, then how many kits they are. Each is a sum over the
// kits, and so can be bounded from below.
type kitRank [3]int64

func (r kitRank) with(k kitKind, n int64) kitRank {
	return kitRank{r[0] + n*k.price, r[1] + n*(k.a+k.b), r[2] + n}
}

func (r kitRank) compare(o kitRank) int { return slices.Compare(r[:], o[:]) }

// kitState is how much is still wanted when the kinds before number k are
// settled. What is covered already counts as nothing.
type kitState struct {
	k    int
	a, b int64
}

// kitSearch finds the set of least rank that covers a need, by branch and bound:
// kind after kind, most of it first. A branch ends where the bounds of what is
// still wanted (kitBounds) cannot come below the best set so far, and where the
// same was still wanted before after no greater rank. Nothing is left out but
// what one of the two proves idle, so the answer is exact unless the steps run
// out.
type kitSearch struct {
	kinds  []kitKind
	bounds []kitBounds // of the kinds from k on
	seen   map[kitState]kitRank
	now    []int64 // of each kind, on the branch
	best   []int64 // nil where nothing was found
	rank   kitRank // no set above it is wanted
	equal  bool    // a set of that very rank is
	steps  int
}

// mostKitSteps ends a search that no real shop's kits need: 10 kinds and 50 kg
// take some thousands.
const mostKitSteps = 2_000_000

// anyRank is above that of every set.
var anyRank = kitRank{1 << 62, 1 << 62, 1 << 62}

// cheapestKits gives how many of each kind cover a and b at the least rank, and
// among sets of equal rank those with most of the kinds that stand first. False
// where none does at a rank of at most limit. Proven is false where the search
// ended before it was sure.
func cheapestKits(kinds []kitKind, a, b int64, limit kitRank) (number []int64, rank kitRank, proven, ok bool) {
	first := kitSearch{rank: limit, equal: true}
	// By what a milligram costs, so that good sets are met early.
	order := make([]int, len(kinds))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		p, q := kinds[i], kinds[j]
		return cmp.Or(cmp.Compare(float64(p.price)*float64(q.a+q.b), float64(q.price)*float64(p.a+p.b)), cmp.Compare(q.a+q.b, p.a+p.b))
	})
	for _, i := range order {
		first.kinds = append(first.kinds, kinds[i])
	}
	first.run(a, b)
	if first.best == nil {
		return nil, kitRank{}, first.steps <= mostKitSteps, false
	}
	number = make([]int64, len(kinds))
	for at, i := range order {
		number[i] = first.best[at]
	}
	// Of the sets of that rank, the first in the order of the list.
	again := kitSearch{kinds: kinds, rank: first.rank, equal: true}
	again.run(a, b)
	if again.best != nil {
		number = again.best
	}
	return number, first.rank, first.steps <= mostKitSteps && again.steps <= mostKitSteps, true
}

func (s *kitSearch) run(a, b int64) {
	s.bounds = make([]kitBounds, len(s.kinds))
	for k := range s.kinds {
		s.bounds[k] = boundsOf(s.kinds[k:])
	}
	s.seen = map[kitState]kitRank{}
	s.now = make([]int64, len(s.kinds))
	s.visit(kitState{0, a, b}, kitRank{})
}

// visit settles the kinds from at.k on, so much being spent.
func (s *kitSearch) visit(at kitState, spent kitRank) {
	if s.steps++; s.steps > mostKitSteps {
		return
	}
	at.a, at.b = max(0, at.a), max(0, at.b)
	if at.a == 0 && at.b == 0 {
		if c := spent.compare(s.rank); c < 0 || c == 0 && s.equal {
			s.best, s.rank, s.equal = slices.Clone(s.now), spent, false
		}
		return
	}
	if at.k == len(s.kinds) {
		return
	}
	// What these kinds can cover comes in steps, so that wants which differ by
	// less are the same.
	at.a, at.b = upTo(at.a, s.bounds[at.k].stepA), upTo(at.b, s.bounds[at.k].stepB)
	tie, ok := s.hopeful(at, spent)
	if !ok {
		return
	}
	if before, met := s.seen[at]; met && before.compare(spent) <= 0 {
		return
	}
	s.seen[at] = spent
	k := s.kinds[at.k]
	enough := min(k.most, max(times(at.a, k.a), times(at.b, k.b)))
	if w := (kitRank{}).with(k, 1)[tie]; w > 0 {
		enough = min(enough, (s.rank[tie]-spent[tie])/w)
	}
	least := int64(0)
	if at.k == len(s.kinds)-1 {
		least = max(0, enough)
	}
	for n := enough; n >= least && s.steps <= mostKitSteps; n-- {
		s.now[at.k] = n
		s.visit(kitState{at.k + 1, at.a - n*k.a, at.b - n*k.b}, spent.with(k, n))
	}
	s.now[at.k] = 0
}

// hopeful tells whether the kinds from at.k on can cover what is still wanted at
// a rank that is wanted. Sums before the number tie must then come to just what
// they are in that rank, and the sum of that number to no more.
func (s *kitSearch) hopeful(at kitState, spent kitRank) (tie int, ok bool) {
	bounds := &s.bounds[at.k]
	if !bounds.covers(at.a, at.b) {
		return 0, false
	}
	for i := range spent {
		switch c := cmp.Compare(spent[i]+bounds.least(i, at.a, at.b), s.rank[i]); {
		case c < 0:
			return i, true
		case c > 0:
			return i, false
		}
	}
	return len(spent) - 1, s.equal
}

// times is how many of each make up at least all.
func times(all, each int64) int64 {
	if all <= 0 || each <= 0 {
		return 0
	}
	return (all + each - 1) / each
}
