package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Encloses gives the area that an outline in the photo of this face goes round,
// without taking out what lies in it; 0 while the photo is not straightened.
func (f *FacePlan) Encloses(r *TracedRing) unit.Area {
	if !f.Solved {
		return 0
	}
	flat := make(shape.Ring, len(r.Points))
	for i, p := range r.Points {
		flat[i] = f.Plane.At(p)
	}
	return flat.Area()
}
