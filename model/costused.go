package model

import (
	"meniscus/model/unit"
)

// DiscLines gives what the sanding of one cast uses up as lines of cost: so many
// discs or sheets of each grit, at what one costs. Each grit is asked for once;
// one without a price is left out and named.
func (s *SandPlan) DiscLines(price func(GritMark) (unit.Money, bool)) (lines []CostLine, unpriced []GritMark) {
	for i := range s.Steps {
		step := &s.Steps[i]
		if step.Discs <= 0 {
			continue
		}
		each, ok := price(step.Mark)
		if !ok {
			unpriced = append(unpriced, step.Mark)
			continue
		}
		lines = append(lines, CostLine{Kind: CostUsed, What: "abrasive " + string(step.Mark), Quantity: countOf(step.Discs), Each: each, Count: float64(step.Discs)})
	}
	return lines, unpriced
}
