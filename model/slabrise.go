package model

import (
	"math"
	"strings"

	"meniscus/model/unit"
)

// SlabRise is a place where a slab can lie in a photo, and how high the face
// that is seen then lies above what was touched.
type SlabRise struct {
	Words string      // how it lies, as a sentence
	Rise  unit.Length // below the marks it is less than nothing
	known bool        // by what was measured; else with what is usual
}

// Rises gives the ways in which a slab most often lies beside what its photo is
// straightened by, the likeliest first, as far as its thickness and the mold's
// depth are measured for them. By the corners of the rim: on the floor of the
// mold, its face is as far below them as the mold is deeper than the slab is
// thick, less what its pieces are set up by; on the rim, a thickness above. A
// card lies on the slab or beside it.
func (p *Project) Rises(slab string, face Face) []SlabRise {
	s := p.Slab(slab)
	if s == nil {
		return nil
	}
	var list []SlabRise
	for _, r := range p.couldLie(s, s.Face(face)) {
		if r.known {
			list = append(list, r)
		}
	}
	return list
}

// couldLie lists how a slab can lie under a photo; what is not measured counts
// as usual.
func (p *Project) couldLie(s *Slab, t *Tracing) []SlabRise {
	known := s.Thickness.Given() && s.Thickness.Value > 0
	thick := usualThick
	if known {
		thick = s.Thickness.Value
	}
	switch t.By {
	case ByCorners:
		deep := &p.Mold.Depth
		if !deep.Given() || deep.Value <= 0 {
			return []SlabRise{{"It lies on the rim", thick, known}}
		}
		return []SlabRise{{"It lies on the mold's floor", thick - deep.Value + p.stands(s), known}, {"It lies on the rim", thick, known}}
	case ByPoints:
		return []SlabRise{{"The points are on the face", 0, true}, {"The points are on what it lies on", thick, known}}
	}
	return []SlabRise{{"The card lies on the slab", 0, true}, {"The card lies beside it", thick, known}}
}

// stands is how high above the mold's floor the pieces that were cut from a slab
// are set, as the first of them is.
func (p *Project) stands(s *Slab) unit.Length {
	for i := range p.Pieces {
		if w := &p.Pieces[i]; strings.HasPrefix(w.From, s.ID+"/") {
			return w.Height.Value
		}
	}
	return 0
}

// open widens the area by what the rise could cost while it is not given: the
// half-width is the most that any way of lying would change it by.
func (f *facing) open() {
	h := f.lens.height
	for _, r := range f.p.couldLie(f.slab, f.t) {
		f.plan.RiseOpen = max(f.plan.RiseOpen, math.Abs(riseCosts(min(r.Rise, h.Times(nearest)), h)))
	}
	f.lens.areaOff = f.plan.RiseOpen / sqrt3
}

// riseCosts is by how much an area that lies so high above the marks comes out
// too large when that is ignored; one below them comes out too small.
func riseCosts(rise, lens unit.Length) float64 {
	k := lens.Per(lens - rise)
	return k*k - 1
}
