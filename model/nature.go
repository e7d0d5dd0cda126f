package model

import "meniscus/model/unit"

// SawnKind tells how the growth rings lie to the width of a board, and so by
// how much it moves.
type SawnKind string

// How a board was sawn.
const (
	SawnFlat    SawnKind = "flat-sawn"    // rings along the width: it moves tangentially
	SawnQuarter SawnKind = "quarter-sawn" // rings upright: it moves radially
	SawnRift    SawnKind = "rift-sawn"    // between the two
)

// BondKind tells at how many of its long edges a piece is bonded to resin, or
// held otherwise, and so where its movement shows.
type BondKind string

// How a piece is held.
const (
	BondOne  BondKind = "one edge"   // as at a river: the far edge is free to move
	BondBoth BondKind = "both edges" // between resin and resin, or resin and a frame
)

// Nature is what a piece of wood is like: how wet, how sawn, how open.
type Nature struct {
	Moisture   unit.Taken[unit.Share] `json:"moisture,omitzero"` // of its dry mass, as the meter says
	Sawn       SawnKind               `json:"sawn,omitempty"`
	Crosswise  bool                   `json:"crosswise,omitempty"` // its grain runs across its longer size
	Width      unit.Dim               `json:"width,omitzero"`      // across the grain; not given means as measured
	Bond       BondKind               `json:"bond,omitempty"`      // not given means at one edge
	Pores      PoreKind               `json:"pores,omitempty"`     // not given means as its species
	Radial     unit.Taken[unit.Share] `json:"radial,omitzero"`     // the maker's own shrinkage from green to oven-dry, of a species not in the table
	Tangential unit.Taken[unit.Share] `json:"tangential,omitzero"` // the same along the rings
}

// Climate is a room's temperature and humidity.
type Climate struct {
	Temperature unit.Taken[unit.Temperature] `json:"temperature,omitzero"`
	Humidity    unit.Taken[unit.Share]       `json:"humidity,omitzero"`
}
