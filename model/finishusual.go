package model

import (
	"fmt"
	"strings"

	"meniscus/model/unit"
)

// usualFinish tells what stands in for a figure of the work after the casting.
func (p *Project) usualFinish(path string) (Usual, bool) {
	s, f := p.Style, &p.Finish
	fine := func(l unit.Length) string { return fineLength(s, l) }
	pass := typicalPass[f.flattensBy()]
	if pass.resin.value == 0 {
		pass = typicalPass[ToolRouter]
	}
	coat, coats := typicalCoat[f.Coat.Kind]
	switch path {
	case "finish/thickness":
		return Usual{Why: "the fill line less the sink and what is to come off"}, true
	case "finish/trim/extra":
		return Usual{Why: "only what the lean of the walls asks"}, true
	case "finish/trim/kerf":
		return standIn(typicalKerf, fine), true
	case "finish/flatten/resin":
		return standIn(pass.resin, fine), true
	case "finish/flatten/wood":
		return standIn(pass.wood, fine), true
	case "finish/sand/pace":
		return standIn(typicalPace, s.Span), true
	case "finish/sand/lasts":
		return standIn(typicalLasts, s.Span), true
	case "finish/sand/disc":
		return standIn(typicalDisc, s.Length), true
	case "finish/sand/under":
		return Usual{Value: f.Sand.Want.In(f.Sand.Series), Why: "as the top"}, f.Sand.Want != ""
	case "finish/sand/after":
		return Usual{Value: string(f.flattensBy()), Why: "what flattens the faces"}, true
	case "finish/sand/turns":
		return Usual{Why: "how fast the grains pass is then not known"}, true
	case "finish/coat/spread":
		return standIn(coat.spread, s.Volume), coats
	case "finish/coat/count":
		return Usual{Value: itoa(coat.count), Why: commonPractice}, coats
	}
	return p.usualMount(path)
}

// usualMount tells what stands in for a figure of a mount.
func (p *Project) usualMount(path string) (Usual, bool) {
	parts := strings.Split(path, "/")
	if len(parts) != 4 || parts[1] != "mounts" {
		return Usual{}, false
	}
	m := p.Mount(parts[2])
	if m == nil {
		return Usual{}, false
	}
	switch parts[3] {
	case "apart":
		return Usual{Why: "one hole"}, true
	case "long":
		return Usual{Why: "the shortest standard screw that suits"}, true
	case "way":
		return Usual{Value: string(m.way()), Why: fmt.Sprintf("usual for a %s, %s", m.Kind, commonPractice)}, true
	case "bite":
		return Usual{Value: string(m.bitesIn()), Why: fmt.Sprintf("usual for a %s, %s", m.Kind, commonPractice)}, true
	case "takes":
		return Usual{Why: fmt.Sprintf("until it is measured %g diameters are counted at most", threadMost)}, true
	case "thread":
		return Usual{Value: string(m.Screw), Why: "as the screw"}, m.Screw != ""
	}
	return Usual{}, false
}
