package shape

import "slices"

// Ready is a region made ready to be clipped again and again, as one that
// stands still under another that moves does.
type Ready struct {
	Region
	web *web
}

// Ready makes a region ready. Its rings are those of NewRegion, which meet at
// their points only.
func (a Region) Ready() Ready {
	r := Ready{Region: NewRegion(a...)}
	r.web = weave(r.Region)
	r.web.clean = true
	first := make(map[Point]int, len(r.web.at))
	for i, p := range r.web.at {
		if at, twice := first[p]; twice {
			r.web.joint[at], r.web.joint[i] = true, true
		} else {
			first[p] = i
		}
	}
	return r
}

// And gives what lies in both regions.
func (r Ready) And(b Region) Region { return overlay(r.fresh(), weave(b), both).rings() }

// Without gives what lies in r and not in b.
func (r Ready) Without(b Region) Region { return overlay(r.fresh(), weave(b), onlyFirst).rings() }

// AndCut is AndCut of the region.
func (r Ready) AndCut(b Region) (shared Region, cut [][]Ring) { return andCut(r.fresh(), weave(b)) }

// fresh gives the web for one overlay, which marks further joints in it.
func (r Ready) fresh() *web {
	if r.web == nil {
		return weave(nil)
	}
	w := *r.web
	w.joint = slices.Clone(w.joint)
	return &w
}
