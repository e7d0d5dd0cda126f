package model

import (
	"meniscus/model/shape"
	"meniscus/model/sight"
	"meniscus/model/unit"
)

// SlabPlan is what follows of a slab from its photos and its lay-ups. Its axes
// lie in its upper face, seen from above, with the origin at the middle of the
// box around that face's outline, along the plane of the marks.
type SlabPlan struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"`
	Upper FacePlan  `json:"upper"`
	Under FacePlan  `json:"under"` // as seen from above; a copy of the upper face where it was not shot
	Lay   []LayPlan `json:"lay,omitempty"`

	ground *layGround // what its lay-ups stand on; nil while the mold is not measured
}

// FacePlan is one face of a slab, straightened.
type FacePlan struct {
	Shot      bool                  `json:"shot,omitempty"`      // it has a photo of its own
	Solved    bool                  `json:"solved,omitempty"`    // the photo is straightened
	Plane     sight.Plane           `json:"-"`                   // from pixels to the slab's axes, raised to the traced face
	Region    shape.Region          `json:"-"`                   // the wood, in the slab's axes
	Area      Estimate[unit.Area]   `json:"area,omitzero"`       // with its uncertainty
	Residual  unit.Length           `json:"residual,omitempty"`  // of the marks about their places, root mean square; four corners have none
	Off       []unit.Length         `json:"off,omitempty"`       // how far each mark is off its place, in their order; nothing with four
	RiseCosts float64               `json:"riseCosts,omitempty"` // by how much the area would be off were the rise ignored, as a share
	RiseOpen  float64               `json:"riseOpen,omitempty"`  // half-width, as a share, by which the area is not sure while the rise is not given; 0 once it is
	Lens      Estimate[unit.Length] `json:"lens,omitzero"`       // height of the lens above the plane of the marks, as the perspective tells it; nothing where it does not
	LeanMost  unit.Length           `json:"leanMost,omitempty"`  // under face: how far its outline lies from that of the upper face, at most
	LeanMean  unit.Length           `json:"leanMean,omitempty"`  // and on average
	Wrong     []Problem             `json:"wrong,omitempty"`     // why it is not straightened, and which outlines are left out
}

// Slab finds what follows from a slab; nil when it is not there.
func (pl *Plan) Slab(id string) *SlabPlan {
	return named(pl.Slabs, id, func(s *SlabPlan) string { return s.ID })
}
