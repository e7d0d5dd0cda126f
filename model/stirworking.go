package model

import (
	"fmt"

	"meniscus/model/unit"
)

// StirredWorking tells how the grams of what is stirred into a layer, at a path such as
// layers/l1/tint, came about. False where it is not weighed, or the mix is not known.
func (pl *Plan) StirredWorking(p *Project, layer, at string) (Working, bool) {
	l := pl.Layer(layer)
	if l == nil || l.Mix.Total <= 0 {
		return Working{}, false
	}
	s, m, limit := p.Style, &l.Mix, p.Tints(layer, l.Mix.Total)
	for _, u := range limit.Uses {
		if u.At != at || !u.Given() {
			continue
		}
		allowed := "usual at most, common practice, no source"
		if limit.BySheet {
			allowed = "of all together, by the data sheet"
		}
		grams := func(mix unit.Mass) string { return s.MassTo(mix.Times(float64(u.Part)), TintGrain(s)) }
		return Working{
			Title:   "How much is stirred in",
			Formula: fmt.Sprintf("Its share of the mix by weight, times A and B together: %s of %s is %s.", s.Share(u.Part), s.MassTo(m.Total, m.Step), grams(m.Total)),
			Inputs: []WorkingInput{
				{Label: "Share of the mix", Value: s.Share(u.Part), Source: "yours", Field: at + "/share"},
				{Label: "A and B together", Value: s.MassTo(m.Total, m.Step), Source: "as they are mixed for " + l.Name, Field: "layers/" + layer + "/to"},
				{Label: "The mix bears", Value: s.Share(u.Most), Source: allowed},
			},
			Source: "yours; where the supplier's sheet names a most, that goes before what is usual",
			Band:   "It goes with what is mixed and not with the plan: for another mix weigh the same share. A scale that reads to " + s.Mass(m.Step) + " cannot tell less than that",
		}, true
	}
	return Working{}, false
}
