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

// Nature is what a piece of wood is like: how wet, how sawn, how open.
type Nature struct {
	Moisture unit.Taken[unit.Share] `json:"moisture,omitzero"` // of its dry mass, as the meter says
	Sawn     SawnKind               `json:"sawn,omitempty"`
}

// Climate is a room's temperature and humidity.
type Climate struct {
	Temperature unit.Taken[unit.Temperature] `json:"temperature,omitzero"`
	Humidity    unit.Taken[unit.Share]       `json:"humidity,omitzero"`
}
