package model

import (
	"slices"

	"meniscus/model/unit"
)

// stagger says when each cup is begun, so that one maker's hands are never in
// two places and each cup is poured in its turn without waiting. While one
// rests another is mixed, where there is time for it.
func stagger(batches []Batch) {
	type stretch struct{ from, to unit.Span }
	var busy []stretch
	free := func(from, to unit.Span) bool {
		return !slices.ContainsFunc(busy, func(s stretch) bool { return from < s.to && s.from < to })
	}
	for i := range batches {
		b := &batches[i]
		first, turn := unit.Span(0), unit.Span(0)
		if i > 0 {
			last := &batches[i-1]
			first, turn = last.Start+last.Mix, last.PourEnds()
		}
		wait := b.Mix + b.Rest
		starts := []unit.Span{first}
		for _, s := range busy {
			starts = append(starts, max(first, s.to), max(first, s.to-wait))
		}
		slices.Sort(starts)
		for _, at := range starts {
			if pour := at + wait; pour >= turn && free(at, at+b.Mix) && free(pour, pour+b.Pour) {
				b.Start = at
				break
			}
		}
		pour := b.Start + wait
		busy = append(busy, stretch{b.Start, b.Start + b.Mix}, stretch{pour, pour + b.Pour})
	}
}
