package model

import (
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Project is what the maker measured, chose and did about one piece. It is a
// plain document: nothing derived is stored in it, and Make turns it into a
// Plan. All lists hold their items by ID; an ID is never reused.
type Project struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	Note     string    `json:"note,omitempty"`
	Demo     bool      `json:"demo,omitempty"` // an invented example
	Archived bool      `json:"archived,omitempty"`
	Created  time.Time `json:"created"`
	Made     Origin    `json:"made,omitzero"` // what it was made from
	Serial   int       `json:"serial"`        // the last number given to an item's ID

	Style       unit.Style                      `json:"style"`
	Instruments map[unit.Instrument]unit.Length `json:"instruments,omitempty"` // half-widths that differ from the defaults

	Mold    Mold        `json:"mold"`
	Slabs   []Slab      `json:"slabs,omitempty"`
	Pieces  []Piece     `json:"pieces,omitempty"`
	Inserts []Insert    `json:"inserts,omitempty"`
	Sheets  []Sheet     `json:"sheets,omitempty"`
	Layers  []Layer     `json:"layers,omitempty"`
	Lots    []LotTaught `json:"lots,omitempty"` // what earlier runs told of lots that are poured again
	Mixing  Mixing      `json:"mixing"`
	Shop    Shop        `json:"shop"`
	Finish  Finish      `json:"finish"`
	Money   Costing     `json:"costing,omitzero"`
	Cut     unit.Dim    `json:"cut,omitzero"` // where along the mold the section is drawn, from the middle
	Journal []Entry     `json:"journal,omitempty"`
	Drafts  []Draft     `json:"drafts,omitempty"`
}

// Origin names the project that another was made from again, as it was then.
// The zero Origin is none.
type Origin struct {
	Project  string `json:"project"` // by ID
	Name     string `json:"name,omitempty"`
	Revision int    `json:"revision,omitempty"` // the number of its state; 0 is not known
}

// Words says what a project was made from; nothing where it was made from none.
func (o Origin) Words() string {
	switch {
	case o.Project == "":
		return ""
	case o.Revision == 0:
		return "Made from " + orWord(o.Name, "an earlier piece")
	}
	return "Made from " + orWord(o.Name, "an earlier piece") + ", state " + itoa(o.Revision)
}

// Draft is text typed into a field that could not be taken as it stands. It is
// kept so that nothing typed is lost; the plan goes on with the last good value.
type Draft struct {
	Field  string `json:"field"`
	Text   string `json:"text"`
	Reason string `json:"reason"`
}

// MoldKind is the form of a mold's opening.
type MoldKind string

// The forms of mold.
const (
	MoldRectangle MoldKind = "rectangle"
	MoldRound     MoldKind = "round"
	MoldOval      MoldKind = "oval"
	MoldPolygon   MoldKind = "polygon"
	MoldOutline   MoldKind = "outline"
)

// End names the end of the cavity at which sizes were taken.
type End string

// The two ends of a cavity.
const (
	AtRim   End = "rim"
	AtFloor End = "floor"
)

// Across tells how a regular polygon was measured.
type Across string

// The two measures of a regular polygon.
const (
	AcrossFlats   Across = "flats"
	AcrossCorners Across = "corners"
)

// Mold is the form that the resin is cast in. Its sizes are inside sizes, at
// the end named by At.
type Mold struct {
	Name     string     `json:"name,omitempty"`
	Kind     MoldKind   `json:"kind"`
	At       End        `json:"at"`                // where the sizes below were taken
	Length   unit.Dim   `json:"length,omitzero"`   // rectangle, oval; outline: overall, for a check
	Width    unit.Dim   `json:"width,omitzero"`    // rectangle, oval
	Corner   unit.Dim   `json:"corner,omitzero"`   // rectangle: corner radius
	Diameter unit.Dim   `json:"diameter,omitzero"` // round
	Sides    int        `json:"sides,omitempty"`   // polygon, 3 to 24
	Across   Across     `json:"across,omitempty"`  // polygon
	Span     unit.Dim   `json:"span,omitzero"`     // polygon: across flats or corners
	Outline  shape.Ring `json:"outline,omitempty"` // outline, metres, counterclockwise
	Depth    unit.Dim   `json:"depth"`             // floor to rim
	Draft    Lean       `json:"draft"`             // how the walls lean
	Count    int        `json:"count,omitempty"`   // equal cavities in one mold; 0 means 1
	FillTest FillTest   `json:"fillTest,omitzero"`
	Floor    FloorKind  `json:"floor,omitempty"` // what its floor is made of
	Thick    unit.Dim   `json:"thick,omitzero"`  // the floor's thickness
	Hold     Holding    `json:"hold,omitzero"`   // whether it keeps the resin in
}

// FloorKind is what the floor of a mold is made of.
type FloorKind string

// The floors.
const (
	FloorHDPE      FloorKind = "HDPE"
	FloorBoard     FloorKind = "coated board"
	FloorMelamine  FloorKind = "melamine-faced board"
	FloorSilicone  FloorKind = "silicone"
	FloorAluminium FloorKind = "aluminium"
	FloorGlass     FloorKind = "glass"
)

// BenchKind is what a mold stands on.
type BenchKind string

// The benches.
const (
	BenchWood  BenchKind = "wooden bench"
	BenchMetal BenchKind = "metal bench"
	BenchOpen  BenchKind = "battens, air below"
)

// LeanKind tells how the draft of the walls was given.
type LeanKind string

// The ways to give a draft.
const (
	LeanNone  LeanKind = "none"
	LeanAngle LeanKind = "angle"
	LeanSizes LeanKind = "sizes"
)

// Lean is the draft of the walls: an angle from upright (positive when the rim
// is wider than the floor), or the sizes at the other end.
type Lean struct {
	Kind     LeanKind               `json:"kind"`
	Angle    unit.Taken[unit.Angle] `json:"angle,omitzero"`
	Length   unit.Dim               `json:"length,omitzero"` // the sizes at the other end
	Width    unit.Dim               `json:"width,omitzero"`
	Corner   unit.Dim               `json:"corner,omitzero"`
	Diameter unit.Dim               `json:"diameter,omitzero"`
	Span     unit.Dim               `json:"span,omitzero"`
}

// FillTest is a check of a cavity's volume: so much water (weighed) or dry
// fill (by volume) reached such a level in one cavity with no wood in it.
type FillTest struct {
	Water unit.Taken[unit.Mass]   `json:"water,omitzero"`
	Dry   unit.Taken[unit.Volume] `json:"dry,omitzero"`
	Level unit.Dim                `json:"level,omitzero"` // height reached above the floor; not given means the rim
}

// PieceKind is how a piece of wood was measured.
type PieceKind string

// The ways to measure a piece.
const (
	PieceRectangle PieceKind = "rectangle"
	PieceStations  PieceKind = "stations"
	PieceOutline   PieceKind = "outline"
)

// Piece is one piece of wood in the mold. Its own axes have the origin at the
// middle of its bounding box; X, Y and Turn place that in the cavity, whose
// origin is the middle of the cavity.
type Piece struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	Species string    `json:"species,omitempty"`
	Kind    PieceKind `json:"kind"`
	Cavity  int       `json:"cavity,omitempty"` // 1, 2, ...; 0 means the first

	Length   unit.Dim               `json:"length,omitzero"`     // rectangle
	Width    unit.Dim               `json:"width,omitzero"`      // rectangle
	Spacing  unit.Dim               `json:"spacing,omitzero"`    // stations: distance between them
	Stations []unit.Dim             `json:"stations,omitempty"`  // widths, two or more
	Straight bool                   `json:"straight,omitempty"`  // stations: one edge is straight; else both wander alike
	Outline  shape.Ring             `json:"outline,omitempty"`   // outline: the bottom face
	TraceErr unit.Taken[unit.Share] `json:"traceError,omitzero"` // outline: half-width of its area

	Top       TopFace  `json:"top,omitzero"` // the upper face where it differs
	Thickness unit.Dim `json:"thickness"`
	Height    unit.Dim `json:"height,omitzero"` // underside above the floor

	X      unit.Length `json:"x"`
	Y      unit.Length `json:"y"`
	Turn   unit.Angle  `json:"turn"`
	Voids  []Void      `json:"voids,omitempty"`
	Sealed bool        `json:"sealed,omitempty"` // no soak
	Bedded bool        `json:"bedded,omitempty"` // stuck down, so no resin creeps below

	Weight  unit.Taken[unit.Mass]    `json:"weight,omitzero"`
	Density unit.Taken[unit.Density] `json:"density,omitzero"`
	Nature  Nature                   `json:"nature,omitzero"`
	From    string                   `json:"from,omitempty"` // the lay-up that it was cut by: slab and lay-up by ID, with a slash between
}

// TopFace is the upper face of a piece with a bevelled or live edge, measured
// as the lower one was. Empty means that it is the same.
type TopFace struct {
	Length   unit.Dim   `json:"length,omitzero"`
	Width    unit.Dim   `json:"width,omitzero"`
	Stations []unit.Dim `json:"stations,omitempty"`
	Outline  shape.Ring `json:"outline,omitempty"`
}

// VoidKind is the form of a void.
type VoidKind string

// The forms of void.
const (
	VoidRound   VoidKind = "round"
	VoidBox     VoidKind = "box"
	VoidOutline VoidKind = "outline"
)

// Void is a hole in the wood that fills with resin from above.
type Void struct {
	ID       string      `json:"id"`
	Name     string      `json:"name,omitempty"`
	Kind     VoidKind    `json:"kind"`
	Diameter unit.Dim    `json:"diameter,omitzero"`
	Length   unit.Dim    `json:"length,omitzero"`
	Width    unit.Dim    `json:"width,omitzero"`
	Outline  shape.Ring  `json:"outline,omitempty"` // outline: in the piece's own axes
	Depth    unit.Dim    `json:"depth,omitzero"`    // from the top face; not given means right through
	Count    int         `json:"count,omitempty"`
	X        unit.Length `json:"x,omitempty"` // in the piece's own axes
	Y        unit.Length `json:"y,omitempty"`
}

// InsertKind is the form of an insert.
type InsertKind string

// The forms of insert.
const (
	InsertStanding  InsertKind = "standing cylinder"
	InsertLying     InsertKind = "lying cylinder"
	InsertHalf      InsertKind = "half cylinder"
	InsertSphere    InsertKind = "sphere"
	InsertBox       InsertKind = "box"
	InsertRing      InsertKind = "ring"
	InsertFrustum   InsertKind = "cone frustum"
	InsertDisplaces InsertKind = "displaces"
	InsertMass      InsertKind = "mass and density"
)

// RestKind tells what an insert rests on.
type RestKind string

// What an insert can rest on.
const (
	OnFloor  RestKind = "floor"
	OnHeight RestKind = "height"
	OnLayer  RestKind = "layer"
)

// Insert is a loose object set in a pour, so many of them alike.
type Insert struct {
	ID    string     `json:"id"`
	Name  string     `json:"name"`
	Count int        `json:"count"`
	Kind  InsertKind `json:"kind"`

	Diameter unit.Dim `json:"diameter,omitzero"` // cylinders, sphere, ring (outer), frustum (bottom)
	Inner    unit.Dim `json:"inner,omitzero"`    // ring: the hole; frustum: the top diameter
	Length   unit.Dim `json:"length,omitzero"`   // lying and half cylinder, box
	Width    unit.Dim `json:"width,omitzero"`    // box
	Tall     unit.Dim `json:"tall,omitzero"`     // standing cylinder, box, ring, frustum; displaces, mass: overall height

	Displaces unit.Taken[unit.Volume]  `json:"displaces,omitzero"` // each, as measured in water
	Mass      unit.Taken[unit.Mass]    `json:"mass,omitzero"`      // each
	Density   unit.Taken[unit.Density] `json:"density,omitzero"`

	On     RestKind `json:"on"`
	Height unit.Dim `json:"height,omitzero"` // OnHeight
	Layer  string   `json:"layer,omitempty"` // OnLayer: the layer it stands on
	Cavity int      `json:"cavity,omitempty"`
	Fixed  bool     `json:"fixed,omitempty"`  // glued or pinned
	Damp   bool     `json:"damp,omitempty"`   // holds water
	Sealed bool     `json:"sealed,omitempty"` // hollow and closed, or a battery
	Stock  string   `json:"stock,omitempty"`  // of the shelf, by ID: those that are set are taken from there
}

// LevelKind tells how a layer's height was given.
type LevelKind string

// The ways to give a layer's height.
const (
	ToDepth LevelKind = "depth"     // so deep, on the layer below
	ToLevel LevelKind = "level"     // up to this height above the floor
	ToBelow LevelKind = "below rim" // up to this far below the rim
)

// Layer is what one pour leaves.
type Layer struct {
	ID        string     `json:"id"`
	Name      string     `json:"name"`
	By        LevelKind  `json:"by"`
	To        unit.Dim   `json:"to"`
	Sheet     string     `json:"sheet,omitempty"` // ID of the product's sheet
	Lot       string     `json:"lot,omitempty"`   // the maker's number of the lot that is used
	Tint      Tint       `json:"tint,omitzero"`
	Additives []Additive `json:"additives,omitempty"`
}

// Tint is the colour of a layer and how much colorant makes it.
type Tint struct {
	Name   string                 `json:"name,omitempty"`
	Colour string                 `json:"colour,omitempty"` // #rrggbb as it will look
	Clear  Share01                `json:"clear,omitempty"`  // 0 opaque to 1 water-clear
	Share  unit.Taken[unit.Share] `json:"share,omitzero"`   // of the mixed mass
	Mass   unit.Taken[unit.Mass]  `json:"mass,omitzero"`    // so much of it, where no share is given
	Kind   ColorantKind           `json:"kind,omitempty"`
	Grain  unit.Dim               `json:"grain,omitzero"`  // the size of its grains
	Stock  string                 `json:"stock,omitempty"` // of the shelf, by ID: what is stirred in comes out of it
}

// ColorantKind is what is stirred in, which tells how much of it a mix usually
// bears and whether it settles.
type ColorantKind string

// The kinds of what is stirred in.
const (
	ColorantMica  ColorantKind = "mica powder"
	ColorantPaste ColorantKind = "liquid pigment"
	ColorantInk   ColorantKind = "solvent ink"
	ColorantOther ColorantKind = "other"
)

// Share01 is a plain fraction between 0 and 1.
type Share01 = float64

// Additive is anything else stirred into the mix, such as a further tint.
type Additive struct {
	ID    string                 `json:"id"`
	Name  string                 `json:"name"`
	Share unit.Taken[unit.Share] `json:"share,omitzero"` // of the mixed mass
	Mass  unit.Taken[unit.Mass]  `json:"mass,omitzero"`  // so much of it, where no share is given
	Kind  ColorantKind           `json:"kind,omitempty"`
	Grain unit.Dim               `json:"grain,omitzero"` // the size of its grains
}

// Mixing holds how the maker weighs, and the allowances for what is lost.
// What is not given is a typical value, marked so wherever it is used.
type Mixing struct {
	ScaleStep  unit.Taken[unit.Mass]  `json:"scaleStep,omitzero"`  // the scale's last digit
	Cup        unit.Taken[unit.Mass]  `json:"cup,omitzero"`        // the empty cup; not given means that the scale shows nothing with it on
	Confidence unit.Taken[unit.Share] `json:"confidence,omitzero"` // that the mix suffices
	CupFilm    unit.Taken[unit.Share] `json:"cupFilm,omitzero"`    // of the mix, left in the cup
	CupLeast   unit.Taken[unit.Mass]  `json:"cupLeast,omitzero"`   // but never less than this
	CupHolds   unit.Taken[unit.Mass]  `json:"cupHolds,omitzero"`   // the most that the largest cup takes
	CupRest    unit.Taken[unit.Span]  `json:"cupRest,omitzero"`    // between mixing and pouring; not given means none
	Vessel     Vessel                 `json:"vessel,omitzero"`     // the cup for measuring by volume
	Soak       unit.Dim               `json:"soak,omitzero"`       // film drawn into bare wood
	Creep      unit.Dim               `json:"creep,omitzero"`      // film below a piece that is not stuck down
	NoRefill   bool                   `json:"noRefill,omitempty"`  // do not refill what the layer below sank
	Own        Losses                 `json:"own,omitzero"`        // the maker's own losses as they were taken over; a figure above that still is the same comes from there
}

// Shop is the room that the work is done in.
type Shop struct {
	Room      unit.Taken[unit.Temperature] `json:"room,omitzero"`
	Humidity  unit.Taken[unit.Share]       `json:"humidity,omitzero"`
	Night     unit.Taken[unit.Temperature] `json:"night,omitzero"`   // the room at its coldest; not given means that it stays as it is
	Resin     unit.Taken[unit.Temperature] `json:"resin,omitzero"`   // the mixed resin when poured; not given means as the room
	Bottles   unit.Taken[unit.Temperature] `json:"bottles,omitzero"` // of resin and hardener, where they stood; not given means as the mixed resin, else as the room
	Wood      unit.Taken[unit.Temperature] `json:"wood,omitzero"`    // the wood in the mold; not given means as the room
	Theirs    Climate                      `json:"theirs,omitzero"`  // the room that the finished piece will live in
	Bench     BenchKind                    `json:"bench,omitempty"`  // what the mold stands on
	Planned   time.Time                    `json:"planned,omitzero"` // when the next pour is to be, UTC
	Wakes     TimeOfDay                    `json:"wakes,omitempty"`  // between the two the maker is about
	Sleeps    TimeOfDay                    `json:"sleeps,omitempty"`
	Zone      string                       `json:"zone,omitempty"`    // IANA name of the shop's time zone
	TiltRise  unit.Dim                     `json:"tiltRise,omitzero"` // the bench is out of level by so much
	TiltOver  unit.Dim                     `json:"tiltOver,omitzero"` // over this distance
	TiltAlong Along                        `json:"tiltAlong,omitempty"`
}

// Along names one of the mold's two directions.
type Along string

// The two directions; the length is the default.
const (
	AlongLength Along = "length"
	AlongWidth  Along = "width"
)

// Finish is what comes off afterwards.
type Finish struct {
	Top      unit.Dim `json:"top,omitzero"`      // removed from the top face
	Bottom   unit.Dim `json:"bottom,omitzero"`   // removed from the underside
	MinCover unit.Dim `json:"minCover,omitzero"` // least resin over an insert afterwards

	Thickness unit.Dim `json:"thickness,omitzero"` // of the finished piece, as promised; not given means what is left
	Trim      Trim     `json:"trim,omitzero"`
	Flatten   Flatten  `json:"flatten,omitzero"`
	Sand      Sand     `json:"sand,omitzero"`
	Mounts    []Mount  `json:"mounts,omitempty"`
	Coat      Coat     `json:"coat,omitzero"`
	Use       Use      `json:"use,omitzero"`
}

// EntryKind is what happened.
type EntryKind string

// What the journal can hold.
const (
	EntryPourStarted EntryKind = "pour started"
	EntryPourDone    EntryKind = "pour done" // all is in the mold
	EntryDemolded    EntryKind = "demolded"
	EntryNote        EntryKind = "note"
	EntryReading     EntryKind = "reading"         // a temperature was read, of the room or the part
	EntryTack        EntryKind = "tack test"       // a gloved finger on the surface: see Feel
	EntryProbe       EntryKind = "probe"           // the hottest that a probe in the pour showed
	EntryWeighedA    EntryKind = "weighed A"       // what the scale read once A was in: see Gross
	EntryWeighedB    EntryKind = "weighed B"       // the same for B
	EntryMixing      EntryKind = "mixing"          // stirring has begun
	EntryMixed       EntryKind = "mixed"           // stirring is done
	EntryPlaced      EntryKind = "placed"          // an insert was put in its place: see Insert
	EntryChecked     EntryKind = "checked"         // a line of the checklist was ticked: see Check
	EntryPhoto       EntryKind = "photo"           // a picture was kept: see Photo
	EntryTooHot      EntryKind = "too hot"         // the pour was stopped because it got too hot
	EntryEmptied     EntryKind = "cup emptied"     // the cup was weighed once it was poured out: see Gross and Cup
	EntryLeftOver    EntryKind = "left over"       // mixed resin that went elsewhere than into this layer: see Gross
	EntryMeasured    EntryKind = "measured"        // the finished piece was measured at one place: see Thick
	EntrySealMixed   EntryKind = "seal coat mixed" // A and B were weighed for the wood's seal coat: see Sheet, A and B
	EntryUsed        EntryKind = "used"            // something of the shelf was used up: see Stock, with Count or Gross
	EntryWithdrawn   EntryKind = "withdrawn"       // takes back the entry named by Of
)

// Entry is one thing that happened, at an instant. The journal is evidence: an
// entry is corrected by a further one and never erased, also not by undo.
type Entry struct {
	ID      string                       `json:"id"`
	At      time.Time                    `json:"at"` // UTC
	Kind    EntryKind                    `json:"kind"`
	Layer   string                       `json:"layer,omitempty"`
	Of      string                       `json:"of,omitempty"`
	Text    string                       `json:"text,omitempty"`
	Room    unit.Taken[unit.Temperature] `json:"room,omitzero"` // the room then
	Part    unit.Taken[unit.Temperature] `json:"part,omitzero"` // the resin in the mold then
	Feel    Feel                         `json:"feel,omitempty"`
	Gross   unit.Taken[unit.Mass]        `json:"gross,omitzero"`    // what the scale read, cup and all
	Cup     unit.Taken[unit.Mass]        `json:"cup,omitzero"`      // the empty cup, at the first reading of each cup
	Product string                       `json:"product,omitempty"` // of the shelf, by ID, at a reading: what went in came out of its bottles
	Lot     string                       `json:"lot,omitempty"`     // of the layer, likewise
	Sheet   string                       `json:"sheet,omitempty"`   // of a seal coat, by ID
	A       unit.Taken[unit.Mass]        `json:"a,omitzero"`        // of it, alone
	B       unit.Taken[unit.Mass]        `json:"b,omitzero"`        // likewise
	Stock   string                       `json:"stock,omitempty"`   // a tint, an insert or what wears away, of the shelf, by ID
	Count   int                          `json:"count,omitempty"`   // of them
	Insert  string                       `json:"insert,omitempty"`  // by ID
	Check   string                       `json:"check,omitempty"`   // by ID
	Photo   string                       `json:"photo,omitempty"`   // the name under which the picture is kept
	Thick   unit.Dim                     `json:"thick,omitzero"`    // of the finished piece
	Clock   TimeOfDay                    `json:"clock,omitempty"`   // what the shop's clock showed, at the start of a pour
}

// Feel is how a surface or a piece felt.
type Feel string

// What a tack test and the taking out can find.
const (
	FeelStrings Feel = "strings"   // it strings: early
	FeelTape    Feel = "like tape" // sticky like tape, nothing on the glove: now
	FeelHard    Feel = "hard"      // a fingernail leaves no mark: late
	FeelStiff   Feel = "stiff"     // came out of the mold stiff
	FeelBent    Feel = "bent"      // came out of the mold still soft, and bent
)
