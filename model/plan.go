package model

import (
	"time"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Plan is everything that follows from a Project: what every window, sheet and
// export shows. It is a value computed by Make; the same project gives the
// same plan, bit for bit. All quantities are SI.
type Plan struct {
	Project  string       `json:"project"`
	Name     string       `json:"name"`
	Demo     bool         `json:"demo,omitempty"`
	Mold     MoldPlan     `json:"mold"`
	Slabs    []SlabPlan   `json:"slabs,omitempty"`
	Pieces   []PiecePlan  `json:"pieces"`
	Inserts  []InsertPlan `json:"inserts"`
	Layers   []LayerPlan  `json:"layers"`
	Float    FloatPlan    `json:"float"`
	Leaks    LeakPlan     `json:"leaks"`
	Finish   FinishPlan   `json:"finish"`
	Steps    []Step       `json:"steps"`
	Out      bool         `json:"out,omitempty"` // of its mold, as the journal says
	Findings []Finding    `json:"findings"`
	Safety   []SafetyNote `json:"safety"`
	Drawing  Drawing      `json:"-"`
}

// Level of a finding.
type Level string

// The levels, gravest first: stop before you lose the piece; check before you
// rely on it; note.
const (
	Stop  Level = "stop"
	Check Level = "check"
	Note  Level = "note"
)

// Subject is the window that a finding belongs to.
type Subject string

// The subjects.
const (
	OfMold   Subject = "mold"
	OfLayers Subject = "layers"
	OfMixing Subject = "mixing"
	OfCure   Subject = "cure"
	OfShelf  Subject = "shelf"
	OfFinish Subject = "finish"
	OfPrice  Subject = "price"
)

// Finding is one thing that the plan noticed.
type Finding struct {
	Kind    string  `json:"kind"` // stable name, such as "mold.fill-test"
	Level   Level   `json:"level"`
	Subject Subject `json:"subject"`
	Field   string  `json:"field,omitempty"` // path of the field or item it points at
	What    string  `json:"what"`            // what is so
	Why     string  `json:"why,omitempty"`   // with its numbers
	Do      string  `json:"do,omitempty"`    // what would mend it
}

// Signal is a signal word of ISO 3864-2 / ANSI Z535.
type Signal string

// The signal words.
const (
	Danger  Signal = "danger"
	Warning Signal = "warning"
	Caution Signal = "caution"
	Notice  Signal = "notice"
)

// SafetyNote is text about harm to people, chosen by what the project does.
type SafetyNote struct {
	Kind    string  `json:"kind"`
	Signal  Signal  `json:"signal"`
	Subject Subject `json:"subject"`
	Text    string  `json:"text"`
}

// Estimate is a value with its standard uncertainty and its 5 to 95 % range.
type Estimate[Q unit.Quantity] struct {
	Value Q `json:"value"`
	Sigma Q `json:"sigma"`
	Low   Q `json:"low"`  // 5 %
	High  Q `json:"high"` // 95 %
}

// MoldPlan is what follows from the mold and the fill line.
type MoldPlan struct {
	Capacity  Estimate[unit.Volume] `json:"capacity"` // of all cavities to the rim, without wood
	Count     int                   `json:"count"`    // cavities
	Depth     unit.Length           `json:"depth"`
	FloorArea unit.Area             `json:"floorArea"` // of one cavity
	RimArea   unit.Area             `json:"rimArea"`   // of one cavity
	DraftEach unit.Length           `json:"draftEach"` // what the draft takes from each side between rim and floor
	FillLine  unit.Length           `json:"fillLine"`  // top of the last layer
	Freeboard unit.Length           `json:"freeboard"` // fill line to rim; negative when above it
	Sink      unit.Length           `json:"sink"`      // how far the top ends below the fill line once all has cured
	Finished  unit.Length           `json:"finished"`  // thickness left after sink and finishing
	Surface   unit.Area             `json:"surface"`   // of resin at the fill line, all cavities
	Resin     unit.Volume           `json:"resin"`     // in the cavities to the fill line
	WoodShare float64               `json:"woodShare"` // wood's part of the volume to the fill line
	Curve     []CurvePoint          `json:"curve"`     // fill curve, floor to rim
	FillTest  *FillTestPlan         `json:"fillTest,omitempty"`
	Tilt      *TiltPlan             `json:"tilt,omitempty"`
	Level     *LevelPlan            `json:"level,omitempty"`
	Sag       *SagPlan              `json:"sag,omitempty"`
	Press     PressPlan             `json:"press"`
	Draft     unit.Angle            `json:"draft"` // of the walls, from upright; below 0 where the mold is narrower at the rim
}

// CurvePoint is one point of the fill curve: the resin that reaches a level.
type CurvePoint struct {
	Level  unit.Length `json:"level"`
	Volume unit.Volume `json:"volume"`
}

// FillTestPlan holds a fill test against the computed volume.
type FillTestPlan struct {
	Measured unit.Volume `json:"measured"`
	Computed unit.Volume `json:"computed"`
	Apart    float64     `json:"apart"` // measured over computed, less 1
	Cause    string      `json:"cause,omitempty"`
}

// TiltPlan is what a bench out of level does.
type TiltPlan struct {
	Slope    float64     `json:"slope"`            // rise over run, where it is steepest
	Along    float64     `json:"along,omitempty"`  // by depths: how the floor falls along the mold, to the right above 0
	Across   float64     `json:"across,omitempty"` // and across it, to the far side above 0
	Extra    unit.Length `json:"extra"`            // more depth at the low side than in the middle
	Overflow unit.Volume `json:"overflow"`         // that runs over the low rim
	Wedge    unit.Length `json:"wedge"`            // thickness difference end to end, left after flattening to the low side
	Field    string      `json:"field"`            // path of what it was measured by
}

// PiecePlan is what follows from one piece of wood.
type PiecePlan struct {
	ID        string                `json:"id"`
	Name      string                `json:"name"`
	Footprint unit.Area             `json:"footprint"` // of its underside
	Volume    Estimate[unit.Volume] `json:"volume"`    // of wood, voids taken out
	Voids     unit.Volume           `json:"voids"`
	Bottom    unit.Length           `json:"bottom"` // underside above the floor
	Top       unit.Length           `json:"top"`
	Proud     unit.Length           `json:"proud"` // above the fill line; negative when covered
	ByWeight  *WeightCheck          `json:"byWeight,omitempty"`
	Density   unit.Density          `json:"density,omitempty"` // given, or weight over volume
	LiftsAt   unit.Length           `json:"liftsAt,omitempty"` // resin above its underside at which it floats; 0 when it never does or is not known
	Fit       FitPlan               `json:"fit"`

	Typical Known[unit.Density] `json:"typical,omitzero"` // of its species, where it was neither weighed nor given
	Grain   GrainPlan           `json:"grain,omitzero"`
}

// WeightCheck holds a piece's volume against its weight and density.
type WeightCheck struct {
	Volume unit.Volume `json:"volume"`
	Apart  float64     `json:"apart"` // weighed over measured, less 1
}

// FitPlan is a piece against the cavity at every height it occupies.
type FitPlan struct {
	Fits     bool        `json:"fits"`
	Over     unit.Length `json:"over"`   // farthest beyond a wall; 0 when clear
	OverAt   unit.Length `json:"overAt"` // at this height
	LongBy   unit.Length `json:"longBy"` // longer than the cavity there; negative is room
	WideBy   unit.Length `json:"wideBy"`
	SitsAt   unit.Length `json:"sitsAt"`   // underside's lowest height at which it clears the walls
	Sits     bool        `json:"sits"`     // whether there is such a height below the rim
	GapFloor Gap         `json:"gapFloor"` // gap to the walls at its underside
	GapFill  Gap         `json:"gapFill"`  // at the fill line or its top, whichever is lower
}

// Gap is the room between a piece and the walls at one height.
type Gap struct {
	Height unit.Length `json:"height"`
	Least  unit.Length `json:"least"`
	At     shape.Point `json:"at"`    // where it is least, in the cavity's axes
	Left   unit.Length `json:"left"`  // towards -x
	Right  unit.Length `json:"right"` // towards +x
	Near   unit.Length `json:"near"`  // towards -y
	Far    unit.Length `json:"far"`   // towards +y
}

// InsertPlan is what follows from one kind of insert.
type InsertPlan struct {
	ID     string        `json:"id"`
	Name   string        `json:"name"`
	Count  int           `json:"count"`
	Each   unit.Volume   `json:"each"`
	Total  unit.Volume   `json:"total"`
	Bottom unit.Length   `json:"bottom"`
	Top    unit.Length   `json:"top"`
	Cover  unit.Length   `json:"cover"`  // resin over it after finishing the top; negative when proud
	Layers []unit.Volume `json:"layers"` // displaced in each layer, all of them
	Floats bool          `json:"floats,omitempty"`
}

// AllowanceKind is why more is mixed than the geometry asks.
type AllowanceKind string

// The allowances.
const (
	AllowSoak   AllowanceKind = "soak"
	AllowCreep  AllowanceKind = "creep"
	AllowRefill AllowanceKind = "refill"
	AllowCup    AllowanceKind = "cup"
)

// Allowance is one thing that takes resin beyond the geometry.
type Allowance struct {
	Kind    AllowanceKind `json:"kind"`
	Label   string        `json:"label"`
	Volume  unit.Volume   `json:"volume"`
	Mass    unit.Mass     `json:"mass"`
	Why     string        `json:"why"`               // formula with its numbers
	Typical bool          `json:"typical,omitempty"` // rests on a typical value
	Field   string        `json:"field,omitempty"`
}

// Influence is a source of uncertainty: one measurement's part of the variance
// of a layer's mass.
type Influence struct {
	Field string    `json:"field"`
	Label string    `json:"label"`
	Sigma unit.Mass `json:"sigma"` // what it alone does to the mass
	Part  float64   `json:"part"`  // of the variance
}

// Verdict answers whether something is within its limit.
type Verdict string

// The verdicts. NotKnown is the answer where a missing figure decides.
const (
	Fine     Verdict = "fine"
	Beyond   Verdict = "beyond"
	NotKnown Verdict = "not known"
)

// LimitCheck is one figure held against the data sheet.
type LimitCheck struct {
	Kind    string  `json:"kind"` // "deepest layer", "shallowest layer", "coldest", "warmest", "tint and additives"
	Verdict Verdict `json:"verdict"`
	Value   float64 `json:"value"` // SI
	Limit   float64 `json:"limit"` // SI
	Text    string  `json:"text"`
}

// LayerPlan is what follows for one pour.
type LayerPlan struct {
	ID        string      `json:"id"`
	Name      string      `json:"name"`
	Sheet     string      `json:"sheet"`
	SheetName string      `json:"sheetName"`
	Bottom    unit.Length `json:"bottom"`
	Top       unit.Length `json:"top"`
	Depth     unit.Length `json:"depth"`
	BelowRim  unit.Length `json:"belowRim"` // top, down from the rim
	Colour    string      `json:"colour"`
	Clear     float64     `json:"clear"`

	Net        unit.Volume         `json:"net"` // between its levels, inserts and wood taken out
	Allowances []Allowance         `json:"allowances"`
	Volume     unit.Volume         `json:"volume"` // net and allowances in the mold, without the cup's film
	Density    Known[unit.Density] `json:"density"`
	Mass       Estimate[unit.Mass] `json:"mass"` // that the layer takes
	Influences []Influence         `json:"influences"`
	Advice     string              `json:"advice,omitempty"` // the measurement that dominates
	PerMM      unit.Mass           `json:"perMillimetre"`    // one more millimetre costs
	PerGrain   unit.Mass           `json:"perGrain"`         // one more sixteenth costs
	ByCavity   []unit.Mass         `json:"byCavity,omitempty"`

	Mix    MixPlan      `json:"mix"`
	Checks []LimitCheck `json:"checks"`
	Times  LayerTimes   `json:"times"`
	Status LayerStatus  `json:"status"`
}

// MixPlan is how much to weigh for a pour. Where the ratio cannot be weighed
// Ready is false and Why says what is missing.
type MixPlan struct {
	Ready      bool           `json:"ready"`
	Why        string         `json:"why,omitempty"`
	Confidence float64        `json:"confidence"`
	Total      unit.Mass      `json:"total"` // A and B, rounded to the scale
	A          unit.Mass      `json:"a"`
	B          unit.Mass      `json:"b"`
	VolumeA    unit.Volume    `json:"volumeA"`
	VolumeB    unit.Volume    `json:"volumeB"`
	Parts      float64        `json:"parts"` // B per 100 of A by weight
	Step       unit.Mass      `json:"step"`  // the scale's last digit
	At50       unit.Mass      `json:"at50"`  // the mix that suffices in half of all cases
	At95       unit.Mass      `json:"at95"`  // in 95 %
	Tint       unit.Mass      `json:"tint"`
	Additives  []AdditivePlan `json:"additives,omitempty"`
}

// AdditivePlan is one tint or additive weighed into the mix.
type AdditivePlan struct {
	Name  string    `json:"name"`
	Share float64   `json:"share"`
	Mass  unit.Mass `json:"mass"`
}

// LayerTimes are durations at the shop's temperature, in seconds.
type LayerTimes struct {
	Factor     float64          `json:"factor"` // the sheet's times are multiplied by this
	Room       unit.Temperature `json:"room"`
	Working    Known[unit.Span] `json:"working"`
	RecoatFrom Known[unit.Span] `json:"recoatFrom"`
	RecoatTo   Known[unit.Span] `json:"recoatTo"`
	Demold     Known[unit.Span] `json:"demold"`
	FullCure   Known[unit.Span] `json:"fullCure"`
}

// LayerStatus is how far a layer has come, from the journal.
type LayerStatus string

// The states of a layer.
const (
	Planned LayerStatus = "planned"
	Poured  LayerStatus = "poured"
)

// StepKind is a thing to do, or a moment to know.
type StepKind string

// The kinds of step.
const (
	StepPour      StepKind = "pour"
	StepWorkEnds  StepKind = "working time ends"
	StepRecoat    StepKind = "recoat window opens"
	StepRecoatEnd StepKind = "recoat window closes"
	StepDemold    StepKind = "ready to demold"
	StepCured     StepKind = "full cure"
)

// Step is one moment in the life of a piece. Due is an instant (UTC) where the
// pour has been started, else After tells how long after the pour it comes.
type Step struct {
	Kind    StepKind  `json:"kind"`
	Layer   string    `json:"layer"`
	Label   string    `json:"label"`
	After   unit.Span `json:"after"`
	Due     time.Time `json:"due,omitzero"`
	Typical bool      `json:"typical,omitempty"`
	Past    bool      `json:"past,omitempty"` // overtaken by a later pour or demolding
}

// Drawing holds the outlines that the windows draw, in metres.
type Drawing struct {
	Cavities []CavityDrawing
	Min, Max shape.Point // bounds of the plan view
	Section  SectionDrawing
	Fill     *Fill // answers levels and volumes while a finger drags
}

// CavityDrawing is the plan view of one cavity, in drawing axes.
type CavityDrawing struct {
	Centre  shape.Point
	Rim     shape.Ring
	Floor   shape.Ring
	Fill    shape.Ring // wall at the fill line
	Pieces  []PieceDrawing
	Inserts []InsertDrawing
}

// PieceDrawing is a piece in plan, in drawing axes.
type PieceDrawing struct {
	ID     string
	Name   string
	Bottom shape.Ring
	Top    shape.Ring
	Voids  []shape.Ring
	Centre shape.Point
	Turn   unit.Angle
	Fits   bool
}

// InsertDrawing is one insert in plan and elevation, in drawing axes.
type InsertDrawing struct {
	ID          string
	Ring        shape.Ring
	Hole        shape.Ring
	Centre      shape.Point
	Bottom, Top float64
	HalfWidth   float64    // across the section
	Profile     shape.Ring // seen along the mold: across from its middle, and up from the floor; empty is a box
}

// SectionDrawing is a cut across the first cavity at x = Cut; its points are
// (y, z).
type SectionDrawing struct {
	Cut      float64
	Cavity   []shape.Point // rim left, floor left, floor right, rim right
	Pieces   []SectionPiece
	Layers   []SectionLayer
	Inserts  []InsertDrawing // of that cavity, seen in elevation: X of Centre is y
	FillLine float64
	Depth    float64
}

// SectionPiece is a cut face of wood.
type SectionPiece struct {
	ID    string
	Parts []shape.Ring
}

// SectionLayer is one layer's band in the section.
type SectionLayer struct {
	ID          string
	Bottom, Top float64
	Colour      string
	Clear       float64
	Ring        shape.Ring // between the walls; wood is drawn over it
}
