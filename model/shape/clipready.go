package shape

// Ready is a region made ready to be clipped again and again, as one that
// stands still under another that moves does.
type Ready struct {
	Region
	web *web
}

// Ready makes a region ready. Its rings are those of NewRegion.
func (a Region) Ready() Ready {
	r := Ready{Region: NewRegion(a...)}
	r.web = weave(r.Region)
	r.web.clean = true
	return r
}

// And gives what lies in both regions.
func (r Ready) And(b Region) Region { return overlay(r.fresh(), weave(b), both).rings() }

// Without gives what lies in r and not in b.
func (r Ready) Without(b Region) Region { return overlay(r.fresh(), weave(b), onlyFirst).rings() }

// AndCut is AndCut of the region.
func (r Ready) AndCut(b Region) (shared Region, cut [][]Ring) { return andCut(r.fresh(), weave(b)) }

// fresh gives the web for one overlay, which marks joints in it.
func (r Ready) fresh() *web {
	if r.web == nil {
		return weave(nil)
	}
	w := *r.web
	w.joint = make([]bool, len(w.at))
	return &w
}
