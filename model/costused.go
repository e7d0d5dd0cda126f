package model

import (
	"meniscus/model/unit"
)

// DiscLines gives what the sanding of one cast uses up as lines of cost: so many
// discs or sheets of each grit, at what one costs. Each grit is asked for once;
// one without a price is left out and named.
func (s *SandPlan) DiscLines(price func(GritMark) (unit.Money, bool)) (lines []CostLine, unpriced []GritMark) {
	discs := map[GritMark]int{}
	for i := range s.Steps {
		discs[s.Steps[i].Mark] += s.Steps[i].Discs
	}
	for i := range s.Steps {
		mark := s.Steps[i].Mark
		n := discs[mark]
		if delete(discs, mark); n <= 0 {
			continue
		}
		each, ok := price(mark)
		if !ok {
			unpriced = append(unpriced, mark)
			continue
		}
		lines = append(lines, CostLine{Kind: CostUsed, What: "abrasive " + string(mark), Quantity: countOf(n), Each: each, Count: float64(n)})
	}
	return lines, unpriced
}
