package model

import "meniscus/model/unit"

// TrimShape is what the edges of a casting are cut to.
type TrimShape string

// The shapes to trim to. As cast is the mold's own form, its leaning edges cut
// upright; it is the default.
const (
	TrimAsCast    TrimShape = "as cast"
	TrimRectangle TrimShape = "rectangle"
	TrimCircle    TrimShape = "circle"
)

// Trim is how the edges are cut.
type Trim struct {
	Shape   TrimShape `json:"shape,omitempty"`
	Extra   unit.Dim  `json:"extra,omitzero"`    // off every edge, beyond what the draft asks
	Kerf    unit.Dim  `json:"kerf,omitzero"`     // how wide the saw cuts
	AnyTurn bool      `json:"anyTurn,omitempty"` // a rectangle may lie at any angle; else along the mold
}

// ToolKind is what shaped a face.
type ToolKind string

// The tools.
const (
	ToolRouter ToolKind = "router sled"
	ToolPlaner ToolKind = "planer"
	ToolHand   ToolKind = "hand plane"
	ToolBelt   ToolKind = "belt sander"
	ToolSaw    ToolKind = "saw"
	ToolNone   ToolKind = "none, as cast"
)

// Flatten is how the two faces are made flat.
type Flatten struct {
	Tool   ToolKind   `json:"tool,omitempty"`
	Wood   unit.Dim   `json:"wood,omitzero"`    // the deepest pass on wood alone
	Resin  unit.Dim   `json:"resin,omitzero"`   // the deepest pass where there is resin
	Points []unit.Dim `json:"points,omitempty"` // thickness as cast at the four corners, in turn from the near left one, and in the middle
}

// SurfaceKind is a finish that a face is sanded to.
type SurfaceKind string

// The finishes.
const (
	SurfaceSatin SurfaceKind = "satin, to 220"
	SurfaceSilk  SurfaceKind = "silk, to 600"
	SurfaceClear SurfaceKind = "clear, to 3000 and polish"
	SurfaceRaw   SurfaceKind = "not sanded"
)

// GritSeries is how a maker's abrasives are marked.
type GritSeries string

// The two series. They agree up to about 220 and part from there.
const (
	SeriesFEPA GritSeries = "P (FEPA, ISO 6344)"
	SeriesCAMI GritSeries = "plain numbers (CAMI)"
)

// SanderKind is what the abrasive is moved with.
type SanderKind string

// The sanders.
const (
	SanderOrbit SanderKind = "random orbit"
	SanderHand  SanderKind = "by hand"
	SanderDisc  SanderKind = "turning disc"
	SanderBelt  SanderKind = "wide belt or drum"
)

// GritMark is a grit as printed on the back of its paper: P120 in the FEPA
// series, 120 in the CAMI one.
type GritMark string

// Sand is how the faces are sanded.
type Sand struct {
	Want   SurfaceKind           `json:"want,omitempty"`   // of the top and the edges
	Under  SurfaceKind           `json:"under,omitempty"`  // of the underside; not given means as the top
	After  ToolKind              `json:"after,omitempty"`  // what left the surface that is sanded; not given means what flattened it
	Series GritSeries            `json:"series,omitempty"` // not given means P
	Own    []GritMark            `json:"own,omitempty"`    // the grits on hand; empty means that any can be had
	Sander SanderKind            `json:"sander,omitempty"`
	Disc   unit.Dim              `json:"disc,omitzero"`   // its diameter
	Turns  int                   `json:"turns,omitempty"` // turns, or orbits, in a minute
	Pace   unit.Taken[unit.Span] `json:"pace,omitzero"`   // for 1 dm² with one grit
	Lasts  unit.Taken[unit.Span] `json:"lasts,omitzero"`  // how long one disc or sheet cuts
}

// MountKind is what is screwed to a finished piece.
type MountKind string

// What can be mounted.
const (
	MountHandle MountKind = "handle"
	MountFoot   MountKind = "foot"
	MountHanger MountKind = "hanger"
)

// ScrewWay is which way a screw goes.
type ScrewWay string

// The ways: from the far face through the piece into the thing that is
// mounted, or through that thing into the piece.
const (
	ScrewThrough ScrewWay = "through the piece"
	ScrewInto    ScrewWay = "into the piece"
)

// BiteKind is what the thread of a screw bites in.
type BiteKind string

// What a thread can bite in.
const (
	BiteMetal  BiteKind = "thread in metal"
	BiteInsert BiteKind = "threaded insert"
	BiteNut    BiteKind = "nut"
	BiteWood   BiteKind = "wood or resin"
)

// HeadKind is the form of a screw's head.
type HeadKind string

// The heads. A flat head is measured with its length, the others without.
const (
	HeadPan     HeadKind = "pan"
	HeadTruss   HeadKind = "truss"
	HeadFlat82  HeadKind = "flat, 82°"
	HeadFlat90  HeadKind = "flat, 90°"
	HeadFlat100 HeadKind = "flat, 100°"
)

// ScrewSize names a screw's thread: #8-32, M4, or #8 wood screw.
type ScrewSize string

// Mount is a handle, foot or hanger that is screwed on. X, Y and Turn place its
// middle in the mold's axes, as those of a piece do; a second hole lies Apart
// from the first along its own direction.
type Mount struct {
	ID        string      `json:"id"`
	Name      string      `json:"name"`
	Kind      MountKind   `json:"kind"`
	X         unit.Length `json:"x"`
	Y         unit.Length `json:"y"`
	Turn      unit.Angle  `json:"turn"`
	Apart     unit.Dim    `json:"apart,omitzero"`     // between its two holes; not given means one hole
	Way       ScrewWay    `json:"way,omitempty"`      // not given: through for a handle, else into
	Top       bool        `json:"top,omitempty"`      // into: it sits on the top face; else below
	Thickness unit.Dim    `json:"thickness,omitzero"` // into: of what the screw goes through before the piece
	Takes     unit.Dim    `json:"takes,omitzero"`     // how deep the thread is that takes the screw
	Screw     ScrewSize   `json:"screw,omitempty"`
	Thread    ScrewSize   `json:"thread,omitempty"` // that of the thing mounted, as its maker says; not given means that of the screw
	Head      HeadKind    `json:"head,omitempty"`
	Long      unit.Dim    `json:"long,omitzero"` // of the screw on hand; not given means that the shortest that works is named
	Bite      BiteKind    `json:"bite,omitempty"`
	Looked    bool        `json:"looked,omitempty"` // the maker saw that no insert is in the way of its holes as they are
}

// CoatKind is what goes over a sanded surface.
type CoatKind string

// The coats.
const (
	CoatOil     CoatKind = "oil"
	CoatHardwax CoatKind = "hardwax oil"
	CoatWax     CoatKind = "wax"
	CoatVarnish CoatKind = "varnish"
	CoatNone    CoatKind = "none, polish alone"
)

// CoatWhere is what a coat covers.
type CoatWhere string

// Where a coat goes.
const (
	CoatAll  CoatWhere = "all over"
	CoatWood CoatWhere = "the wood alone"
)

// Coat is the finish that is put on last.
type Coat struct {
	Kind   CoatKind                `json:"kind,omitempty"`
	Name   string                  `json:"name,omitempty"` // the maker's own name for it
	Where  CoatWhere               `json:"where,omitempty"`
	Count  int                     `json:"count,omitempty"` // coats; 0 means the usual number
	Spread unit.Taken[unit.Volume] `json:"spread,omitzero"` // that one coat takes on 1 m²
	Weighs unit.Taken[unit.Mass]   `json:"weighs,omitzero"` // the same by weight
}

// UseKind is what a piece is for.
type UseKind string

// What a piece can be for.
const (
	UseShow  UseKind = "to look at"
	UseTable UseKind = "a table or shelf"
	UseBoard UseKind = "a serving board"
)

// Use is what the piece will go through.
type Use struct {
	As   UseKind `json:"as,omitempty"`
	Food string  `json:"food,omitempty"` // what the supplier's sheet says of food, word for word
	Sun  bool    `json:"sun,omitempty"`  // it will stand in the sun
}
