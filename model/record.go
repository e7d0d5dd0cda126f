package model

import (
	"bytes"
	"encoding/json"
	"slices"
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

	// Packed is Sketch as JSON, in its place where a card comes from a list: of a
	// thousand sketches a screen shows twelve. See Drawn.
	Packed []byte `json:"-"`
}

// Drawn gives the sketch, also where it is still packed; an empty one where that
// cannot be read.
func (c *Card) Drawn() Sketch {
	if c.Packed == nil {
		return c.Sketch
	}
	var s Sketch
	if json.Unmarshal(c.Packed, &s) != nil {
		return Sketch{}
	}
	return s
}

// SameDrawing tells whether two cards draw the same.
func (c *Card) SameDrawing(o *Card) bool {
	if c.Packed != nil && o.Packed != nil {
		return bytes.Equal(c.Packed, o.Packed)
	}
	a, b := c.Drawn(), o.Drawn()
	same := func(a, b shape.Ring) bool { return slices.Equal(a, b) }
	return a.Colour == b.Colour && slices.EqualFunc(a.Mold, b.Mold, same) && slices.EqualFunc(a.Wood, b.Wood, same)
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
