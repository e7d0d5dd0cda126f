package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// FinishPlan is what follows for the work after the casting: the edges, the
// faces, the sanding, what is screwed on, the coat, and what the piece can be
// used for. Each part has its working lines ready to be shown, in order.
type FinishPlan struct {
	Ready   bool        `json:"ready"` // the mold is measured and something is poured
	Trim    TrimPlan    `json:"trim"`
	Flatten FlattenPlan `json:"flatten"`
	Sand    SandPlan    `json:"sand"`
	Mounts  []MountPlan `json:"mounts,omitempty"`
	Coat    CoatPlan    `json:"coat"`
	Use     UsePlan     `json:"use"`
}

// TrimPlan is the piece once its edges are cut. Lengths lie along the piece's
// own direction.
type TrimPlan struct {
	Shape     TrimShape             `json:"shape"`
	Length    Estimate[unit.Length] `json:"length"` // a circle's is its diameter
	Width     Estimate[unit.Length] `json:"width"`
	Thickness Estimate[unit.Length] `json:"thickness"`
	Low, High unit.Length           `json:"-"`     // the two finished faces, above the mold's floor
	Draft     unit.Length           `json:"draft"` // what the lean takes off each edge between the two faces
	Edges     [4]TrimEdge           `json:"edges"` // left, right, near, far
	Kerf      Known[unit.Length]    `json:"kerf"`
	Turn      unit.Angle            `json:"turn"`
	Middle    shape.Point           `json:"middle"` // in the mold's axes
	Ring      shape.Ring            `json:"-"`      // the finished outline, in the mold's axes
	Area      unit.Area             `json:"area"`   // of one face
	Around    unit.Length           `json:"around"` // the finished edge
	Lost      float64               `json:"lost"`   // part of the cast volume between the faces that is cut away
	Lines     []WorkingInput        `json:"lines"`
}

// TrimEdge is what comes off one edge, at the face where most does and where
// least does.
type TrimEdge struct {
	Name  string      `json:"name"`
	Most  unit.Length `json:"most"`
	Least unit.Length `json:"least"`
}

// FacePasses is the flattening of one face.
type FacePasses struct {
	Face   string      `json:"face"`   // "top", "underside", or "wood above the resin" of the top before it
	Thin   unit.Length `json:"thin"`   // what comes off where the blank is thinnest
	Thick  unit.Length `json:"thick"`  // and where it is thickest
	Deep   unit.Length `json:"deep"`   // the deepest pass
	Passes int         `json:"passes"` // over the highest place
	Each   unit.Length `json:"each"`   // of passes of equal depth
	Resin  bool        `json:"resin"`  // the face shows resin, so the small passes hold
}

// CoverLeft is what is left over and under an insert once both faces are done.
type CoverLeft struct {
	Insert string      `json:"insert"` // by ID
	Name   string      `json:"name"`
	Over   unit.Length `json:"over"` // under the top face, where that is lowest
	Under  unit.Length `json:"under"`
	Fine   bool        `json:"fine"`
}

// FlattenPlan is the flattening, the top first and then the underside.
type FlattenPlan struct {
	Tool     ToolKind       `json:"tool"`
	Measured bool           `json:"measured"` // by the thicknesses of the blank; else by the plan
	Thinnest unit.Length    `json:"thinnest"` // of the blank
	Thickest unit.Length    `json:"thickest"`
	Proud    unit.Length    `json:"proud,omitempty"`   // of the highest wood above that
	Tallest  string         `json:"tallest,omitempty"` // its name
	Leave    unit.Length    `json:"leave"`             // thickness to stop at, before sanding
	Reached  unit.Length    `json:"reached"`           // thickness once sanded
	Promised unit.Length    `json:"promised,omitempty"`
	Short    unit.Length    `json:"short,omitempty"` // of what was promised; 0 where it is reached
	Faces    []FacePasses   `json:"faces,omitempty"`
	Cover    []CoverLeft    `json:"cover,omitempty"`
	Least    unit.Length    `json:"least"` // cover that is wanted
	Lines    []WorkingInput `json:"lines"`
}

// SandStep is the sanding with one grit.
type SandStep struct {
	Mark    GritMark    `json:"mark"`    // as the maker's abrasive is marked
	Other   GritMark    `json:"other"`   // like it in the other series; empty where none is near
	Grain   unit.Length `json:"grain"`   // mean size of its grains
	Ratio   float64     `json:"ratio"`   // grain of the grit before to this one; 0 at the first
	Removes unit.Length `json:"removes"` // that has to go to take the scratches before away
	Wet     bool        `json:"wet"`     // with water
	Belt    bool        `json:"belt"`    // with the wide belt; else by disc or by hand
	Top     bool        `json:"top"`     // the top and the edges are sanded with it
	Under   bool        `json:"under"`   // the underside is
	Area    unit.Area   `json:"area"`    // of all that is sanded
	Time    unit.Span   `json:"time"`    //
	Discs   int         `json:"discs"`   // used up
	Source  string      `json:"source"`  // of the least removal
}

// GritGap is a step of the ladder that is too long for the grits on hand.
type GritGap struct {
	From GritMark   `json:"from"`
	To   GritMark   `json:"to"`
	Want []GritMark `json:"want"` // grits that would close it, the fewest; never empty
}

// SandPlan is the ladder of grits.
type SandPlan struct {
	Steps   []SandStep              `json:"steps,omitempty"`
	Gaps    []GritGap               `json:"gaps,omitempty"`
	Rule    string                  `json:"rule"` // by which no step is too long, and where that is from
	Top     unit.Length             `json:"top"`  // comes off the top by sanding
	Under   unit.Length             `json:"under"`
	Time    Known[unit.Span]        `json:"time"`
	Discs   int                     `json:"discs"`
	Speed   float64                 `json:"speed,omitempty"` // m/s, of the fastest grain; 0 where not known
	TooFast bool                    `json:"tooFast,omitempty"`
	Polish  bool                    `json:"polish,omitempty"`
	Warmest unit.Temperature        `json:"warmest"` // that the surface may get
	Softens Known[unit.Temperature] `json:"softens"`
	Advice  []string                `json:"advice,omitempty"`
	Lines   []WorkingInput          `json:"lines"`
}

// Hole is one hole of a mount, in the mold's axes, with its drills.
type Hole struct {
	At     shape.Point `json:"at"`
	Edge   unit.Length `json:"edge"`             // from its middle to the nearest finished edge; below 0 outside
	In     string      `json:"in"`               // what it goes into: the name of a piece of wood, or "resin"
	Passes []string    `json:"passes,omitempty"` // inserts whose heights it goes through outside the wood, by name

	from, to unit.Length // heights of the wood that it goes into
}

// MountPlan is how one mount is screwed on. Depths are from the face that the
// drill starts at.
type MountPlan struct {
	ID         string         `json:"id"`
	Name       string         `json:"name"`
	Way        ScrewWay       `json:"way"`
	From       string         `json:"from"` // the face that is drilled: "underside", "top"
	Works      bool           `json:"works"`
	Holes      []Hole         `json:"holes"`
	Screw      ScrewSize      `json:"screw"`
	Head       HeadKind       `json:"head"`
	Long       unit.Length    `json:"long"`               // of the screw
	Shortest   unit.Length    `json:"shortest,omitempty"` // standard screw that works; 0 where none does
	Suits      unit.Length    `json:"suits,omitempty"`    // through: the shortest that leaves half of the piece under its head; else as Shortest
	Clear      unit.Length    `json:"clear"`              // diameter of the hole that the screw passes
	Pilot      unit.Length    `json:"pilot,omitempty"`    // diameter of the hole that it bites in
	Deep       unit.Length    `json:"deep,omitempty"`     // of the pilot hole, from the face
	Sunk       unit.Length    `json:"sunk"`               // of the counterbore; 0 for none
	SunkWide   unit.Length    `json:"sunkWide,omitempty"` // its diameter
	Cone       unit.Length    `json:"cone,omitempty"`     // diameter of the countersink of a flat head
	Below      unit.Length    `json:"below"`              // top of the head below the face
	Bites      unit.Length    `json:"bites"`              // thread that holds
	BitesLeast unit.Length    `json:"bitesLeast"`         // that has to
	Left       unit.Length    `json:"left"`               // of the piece under the head, or beyond the tip
	Lines      []WorkingInput `json:"lines"`
}

// CoatPlan is the coat that goes on last.
type CoatPlan struct {
	Kind   CoatKind           `json:"kind"`
	Area   unit.Area          `json:"area"` // of all that is coated
	Count  int                `json:"count"`
	Each   unit.Volume        `json:"each"`   // of one coat
	Volume Known[unit.Volume] `json:"volume"` // of all coats
	Mass   Known[unit.Mass]   `json:"mass"`   // absent where its density is not known
	Lustre string             `json:"lustre"` // what it does to polished resin
	Lines  []WorkingInput     `json:"lines"`
}

// UsePlan is what the piece can go through.
type UsePlan struct {
	Limit   unit.Temperature        `json:"limit"`   // warmest thing that may stand on it
	Softens Known[unit.Temperature] `json:"softens"` // of the layer that softens first
	Card    CareCard                `json:"card"`
	Lines   []WorkingInput          `json:"lines"`
}

// CareCard is the text that goes with the piece to its owner.
type CareCard struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
	Foot  string   `json:"foot"`
}
