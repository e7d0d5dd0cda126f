package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// LayPlan is what a lay-up would give: the piece that would be cut and what
// resin would then be needed. Regions are in the slab's axes.
type LayPlan struct {
	ID      string       `json:"id"`
	Floor   shape.Region `json:"-"`       // the cavity at its floor
	Rim     shape.Region `json:"-"`       // and at its rim
	Upper   shape.Region `json:"-"`       // the piece's upper face
	Under   shape.Region `json:"-"`       // and its other face
	Blank   shape.Region `json:"-"`       // what is cut out of the slab, with trim
	Walls   []shape.Ring `json:"-"`       // open runs of the piece's edge that stand cut along a wall
	Area    unit.Area    `json:"area"`    // of the piece, mean of its faces
	Volume  unit.Volume  `json:"volume"`  // of the piece below the fill line
	Resin   unit.Volume  `json:"resin"`   // needed up to the fill line
	Share   float64      `json:"share"`   // of wood in the cavity up to the fill line
	Cut     unit.Length  `json:"cut"`     // length of saw cut
	Sawdust unit.Area    `json:"sawdust"` // what the kerf takes
	Left    unit.Area    `json:"left"`    // of the slab, for another piece
}
