package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Slab is a slab of wood before anything is cut from it: its faces traced from
// photos, and the places that a mold's cavity was tried in over it. The lay-up
// that is chosen becomes a Piece. A slab's own axes lie in its upper face; see
// SlabPlan.
type Slab struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	Thickness unit.Dim `json:"thickness,omitzero"`
	Upper     Tracing  `json:"upper,omitzero"` // the face that lies upward in the mold
	Under     Tracing  `json:"under,omitzero"` // the other, shot after the slab was turned over; empty means that it is the same
	Layups    []Layup  `json:"layups,omitempty"`
}

// ReferenceKind tells by what of known size a photo is straightened.
type ReferenceKind string

// What a photo can be straightened by.
const (
	ByCorners ReferenceKind = "mold corners" // the inner corners of the mold's opening
	ByCard    ReferenceKind = "rectangle"    // a square or card of known sides lying in the plane
	ByPoints  ReferenceKind = "points"       // four or more points whose places were measured
)

// Tracing is one face of a slab in a photo: the points of known place by which
// the photo is straightened, and the outlines that were followed in it. Places
// in the photo are pixels, x to the right and y down, from the upper left corner
// of the picture as it is seen upright.
type Tracing struct {
	Photo  string        `json:"photo,omitempty"` // the name under which the picture is kept
	Wide   int           `json:"wide,omitempty"`  // pixels, upright
	High   int           `json:"high,omitempty"`
	By     ReferenceKind `json:"by,omitempty"`
	Long   unit.Dim      `json:"long,omitzero"`  // the card's side from its first corner to its second
	Broad  unit.Dim      `json:"broad,omitzero"` // and from its second to its third
	Marks  []Mark        `json:"marks,omitempty"`
	Rise   unit.Dim      `json:"rise,omitzero"`   // height of the traced face above the plane of the marks; below it is less than nothing
	Camera unit.Dim      `json:"camera,omitzero"` // height of the lens above the plane of the marks
	Touch  float64       `json:"touch,omitempty"` // how far a touched point may be off, in pixels; 0 means not said
	Rings  []TracedRing  `json:"rings,omitempty"`
}

// Mark is a point of known place in a photo. For corners and cards they follow
// each other round; only for measured points is their place in the plane their
// own.
type Mark struct {
	ID string   `json:"id"`
	X  float64  `json:"x"` // pixels
	Y  float64  `json:"y"`
	At unit.Dim `json:"at,omitzero"` // along the plane's first direction
	Up unit.Dim `json:"up,omitzero"` // along its second, to the left of the first
}

// RingKind tells what lies inside a traced outline.
type RingKind string

// What an outline can enclose. An island in a hole is wood again.
const (
	RingWood RingKind = "wood"
	RingHole RingKind = "hole"
)

// TracedRing is an outline in a photo.
type TracedRing struct {
	ID     string     `json:"id"`
	Kind   RingKind   `json:"kind"`
	Points shape.Ring `json:"points,omitempty"` // pixels, not metres
}

// Layup is a place of the mold's cavity over a slab: where its middle lies in
// the slab's axes and how far it is turned, with how the blank is cut.
type Layup struct {
	ID       string      `json:"id"`
	Name     string      `json:"name"`
	Cavity   int         `json:"cavity,omitempty"` // 1, 2, ...; 0 means the first
	X        unit.Length `json:"x"`
	Y        unit.Length `json:"y"`
	Turn     unit.Angle  `json:"turn"`
	Gap      unit.Dim    `json:"gap,omitzero"`       // room left between a cut edge and the wall
	Kerf     unit.Dim    `json:"kerf,omitzero"`      // width of the saw's cut
	Trim     unit.Dim    `json:"trim,omitzero"`      // left on a cut edge, to be trimmed to the line
	Bevelled bool        `json:"bevelled,omitempty"` // the saw is set to the draft of the walls
	Chosen   bool        `json:"chosen,omitempty"`
}
