package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// LayPlan is what a lay-up would give: the piece that would be cut and what
// resin would then be needed. Regions are in the slab's axes.
type LayPlan struct {
	ID      string       `json:"id"`
	Floor   shape.Region `json:"-"`               // the cavity at its floor
	Rim     shape.Region `json:"-"`               // and at its rim
	Upper   shape.Region `json:"-"`               // the piece's upper face
	Under   shape.Region `json:"-"`               // and its other face
	Blank   shape.Region `json:"-"`               // what is cut out of the slab, with trim
	Walls   []shape.Ring `json:"-"`               // open runs of the piece's upper edge that stand cut along a wall; a run that goes all the way round ends where it begins
	Pieces  int          `json:"pieces"`          // pieces that hang together; 0 means that there is no wood in the cavity
	Area    unit.Area    `json:"area"`            // of the piece, mean of its faces
	Volume  unit.Volume  `json:"volume"`          // of the piece below the fill line
	Resin   unit.Volume  `json:"resin"`           // needed up to the fill line
	Share   float64      `json:"share"`           // of wood in the cavity up to the fill line
	Mass    unit.Mass    `json:"mass"`            // of that resin by the first layer's mixed density; 0 while no pour is planned
	AtWall  unit.Length  `json:"atWall"`          // length of the upper edge that stands cut along a wall
	Live    unit.Length  `json:"live"`            // length of the upper edge that is the slab's own
	Cut     unit.Length  `json:"cut"`             // length of saw cut
	Sawdust unit.Area    `json:"sawdust"`         // what the kerf takes
	Left    unit.Area    `json:"left"`            // of the slab, for another piece
	Stale   bool         `json:"stale,omitempty"` // it would give other pieces now than those that were made of it, or elsewhere

	Gap  Known[unit.Length] `json:"gap"`  // to the wall, given or usual
	Kerf Known[unit.Length] `json:"kerf"` // of the saw, given or usual
}

// typicalGap is the room that is left between a cut edge and the wall, so that
// the piece goes in (common practice, no source).
var typicalGap = typical[unit.Length]{1.5e-3, 1e-3, 2e-3}

// GapTaken is the gap to the wall that a lay-up counts with: the maker's, or the
// usual one while none is given.
func (l *Layup) GapTaken() Known[unit.Length] { return taken(l.Gap, typicalGap) }

// KerfTaken is the width of the saw's cut that a lay-up counts with: the
// maker's, or the usual one while none is given.
func (l *Layup) KerfTaken() Known[unit.Length] { return taken(l.Kerf, typicalKerf) }

// AddLayup adds a lay-up to a slab and gives its ID; empty when there is no
// such slab.
func (p *Project) AddLayup(slab string) string {
	s := p.Slab(slab)
	if s == nil {
		return ""
	}
	l := Layup{ID: p.NewID("y"), Name: "lay-up " + itoa(len(s.Layups)+1)}
	s.Layups = append(s.Layups, l)
	return l.ID
}
