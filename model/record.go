package model

import (
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Card is what the notebook's list shows of a project without opening it. It
// is written with every save and can always be made again from the project.
type Card struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Demo     bool      `json:"demo,omitempty"`
	Archived bool      `json:"archived,omitempty"`
	Touched  time.Time `json:"touched"`
	State    string    `json:"state"`           // in words: "planned", "layer 1 poured", ...
	Stops    int       `json:"stops,omitempty"` // findings at level stop
	Resin    unit.Mass `json:"resin,omitempty"` // to mix, all layers
	Sketch   Sketch    `json:"sketch"`
	Running  *Running  `json:"running,omitempty"` // of its pours; nil in a card that is older than this, or was made again from a damaged one
}

// Sketch is a small drawing of the piece: outlines in metres, simplified to a
// few dozen points each.
type Sketch struct {
	Mold   []shape.Ring `json:"mold,omitempty"`
	Wood   []shape.Ring `json:"wood,omitempty"`
	Colour string       `json:"colour,omitempty"` // of the top layer
}

// Revision is one saved state of a project. Revisions form a tree: After is
// the number of the one it was made from, 0 for the first.
type Revision struct {
	Number int       `json:"number"`
	After  int       `json:"after"`
	At     time.Time `json:"at"`
	Label  string    `json:"label"` // what was done, such as "Mold depth"
}
