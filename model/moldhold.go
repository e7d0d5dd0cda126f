package model

import "meniscus/model/unit"

// Holding is what decides whether a mold keeps the resin in and true: its seams,
// its walls and what carries its floor.
type Holding struct {
	Seams   []Seam     `json:"seams,omitempty"`
	Spacing unit.Dim   `json:"spacing,omitzero"` // between the supports below the floor
	Depths  []unit.Dim `json:"depths,omitempty"` // from a level line down to the floor at the four corners, in turn from the near left one
}

// Seam is a gap that resin could leave by.
type Seam struct {
	ID     string   `json:"id"`
	Name   string   `json:"name"`
	Gap    unit.Dim `json:"gap,omitzero"`    // how wide, by the feeler
	Long   unit.Dim `json:"long,omitzero"`   // how long
	Way    unit.Dim `json:"way,omitzero"`    // how far the resin goes through it: the thickness of the wall or floor
	Height unit.Dim `json:"height,omitzero"` // above the floor
}

// AddSeam adds a seam to the mold and gives its ID.
func (p *Project) AddSeam() string {
	s := Seam{ID: p.NewID("g"), Name: "seam " + itoa(len(p.Mold.Hold.Seams)+1)}
	p.Mold.Hold.Seams = append(p.Mold.Hold.Seams, s)
	return s.ID
}

// MeasureDepths makes room for the depths at the four corners, or drops them.
func (p *Project) MeasureDepths(on bool) {
	p.Mold.Hold.Depths = nil
	if on {
		p.Mold.Hold.Depths = make([]unit.Dim, len(moldCorners))
	}
}
