package model

import (
	"time"

	"meniscus/model/cure"
	"meniscus/model/unit"
)

// Curing is what the simulation says of a project: how hot each pour gets, when
// it gels, when the next may go on, when it can come out. Like a Plan it is a
// value that follows from the Project alone, bit for bit; it takes longer, so
// it is worked out apart, by Simulate and then Widen.
type Curing struct {
	Project  string        `json:"project"`
	Start    time.Time     `json:"start"` // of the first pour, UTC; done, planned or assumed
	Layers   []LayerCuring `json:"layers"`
	Steps    []Step        `json:"steps"` // the plan's, by the simulation where it tells
	Findings []Finding     `json:"findings"`
	Banded   bool          `json:"banded"` // the bands have been worked out
	Trace    Trace         `json:"-"`
}

// LayerCuring is what the simulation says of one pour. Spans count from its own
// pour. What cannot be told is Absent, and its Source says why.
type LayerCuring struct {
	ID      string    `json:"id"`
	Name    string    `json:"name"`
	Ready   bool      `json:"ready"` // it could be simulated
	Why     string    `json:"why,omitempty"`
	Start   time.Time `json:"start"`             // of its pour, UTC
	Assumed bool      `json:"assumed,omitempty"` // it has not been poured

	Peak       Known[unit.Temperature] `json:"peak"`
	PeakAfter  Known[unit.Span]        `json:"peakAfter"`
	PeakHeight unit.Length             `json:"peakHeight"` // above the mold's floor
	PeakLimit  Known[unit.Temperature] `json:"peakLimit"`  // the hottest it may get, and whose limit that is
	PeakCheck  Verdict                 `json:"peakCheck"`  // Beyond when it gets hotter; NotKnown when the band reaches past the limit
	RunsAway   bool                    `json:"runsAway,omitempty"`
	RunsAfter  Known[unit.Span]        `json:"runsAfter,omitzero"`
	Beside     *Beside                 `json:"beside,omitempty"` // with the wood at its sides, where it runs between wood

	GelFirst   Known[unit.Span] `json:"gelFirst"` // the first place
	GelLast    Known[unit.Span] `json:"gelLast"`  // the last
	Working    Known[unit.Span] `json:"working"`
	RecoatFrom Known[unit.Span] `json:"recoatFrom"` // by the surface's own temperature
	RecoatBest Known[unit.Span] `json:"recoatBest"`
	RecoatTo   Known[unit.Span] `json:"recoatTo"`
	Demold     Known[unit.Span] `json:"demold"`
	Sand       Known[unit.Span] `json:"sand"` // hard enough to cut and sand

	Stall     *Stall                   `json:"stall,omitempty"`
	Gradient  Known[unit.TempRise]     `json:"gradient"` // greatest difference through the pour once it has begun to gel
	Cracks    Verdict                  `json:"cracks"`   // whether that gradient is likely to crack it
	Room      Answer[unit.Temperature] `json:"roomLimit"`
	Deepest   Answer[unit.Length]      `json:"deepest"`
	Narrow    []Narrowing              `json:"narrow,omitempty"`  // the missing figures by what knowing each would bring, most first
	Learned   string                   `json:"learned,omitempty"` // what this lot's own runs changed, in words
	Taught    cure.Learned             `json:"-"`                 // the same, and of which lot
	TaughtLot string                   `json:"-"`
	Cups      *CupPlan                 `json:"cups,omitempty"` // how it is mixed; nil when it has been poured or cannot be simulated
	Workings  map[Figured]Working      `json:"workings,omitempty"`
}

// TooDeep tells whether a pour here of so much would be deeper than the deepest
// that is safe; false where that is not known.
func (c *LayerCuring) TooDeep(depth unit.Length) bool {
	return c.Deepest.Known && depth > c.Deepest.Value+1e-6
}

// Beside is a pour between wood, simulated across its section.
type Beside struct {
	Width     unit.Length             `json:"width"` // of resin between the wood, where it is widest
	Peak      Known[unit.Temperature] `json:"peak"`
	PeakAfter unit.Span               `json:"peakAfter"`
	Field     *cure.Field             `json:"-"` // the section at its hottest
}

// Answer is one of the two figures that no data sheet gives.
type Answer[Q unit.Quantity] struct {
	Value  Q      `json:"value"`
	Known  bool   `json:"known"`
	Bound  bool   `json:"bound,omitempty"` // the data sheet's limit, which the simulation does not loosen, or the end of what was searched
	Text   string `json:"text"`            // the answer in one line
	Reason string `json:"reason,omitempty"`
}

// Stall is a cure that all but stops before it is hard.
type Stall struct {
	Conversion float64          `json:"conversion"`
	Softening  unit.Temperature `json:"softening"` // that it has come to
	Room       unit.Temperature `json:"room"`
	WarmTo     unit.Temperature `json:"warmTo"` // the room at which it gets there; 0 when none of a shop's does
	Text       string           `json:"text"`   // "stays rubbery at 12 °C; warm it to 20"
}

// Narrowing is a figure that the data sheet lacks, and what knowing it would
// bring.
type Narrowing struct {
	Field string  `json:"field"` // path of the figure
	Label string  `json:"label"`
	Part  float64 `json:"part"`  // of the variance of the peak
	Learn string  `json:"learn"` // how to learn it in the shop
}

// Figured names a figure whose working can be opened.
type Figured string

// The figures.
const (
	FigPeak     Figured = "peak"
	FigGel      Figured = "gel"
	FigWorking  Figured = "working time"
	FigRecoat   Figured = "recoat window"
	FigDemold   Figured = "demold"
	FigSand     Figured = "sand"
	FigGradient Figured = "gradient"
	FigRoom     Figured = "room limit"
	FigDeepest  Figured = "deepest pour"
	FigStall    Figured = "stall"
	FigBeside   Figured = "between the wood"
)

// Working is how a figure came about: what a window shows when it is opened.
type Working struct {
	Title   string         `json:"title"`
	Formula string         `json:"formula"`
	Inputs  []WorkingInput `json:"inputs"`
	Source  string         `json:"source"`
	Band    string         `json:"band,omitempty"`
}

// WorkingInput is one figure that went in.
type WorkingInput struct {
	Label   string `json:"label"`
	Value   string `json:"value"` // with its unit
	Source  string `json:"source"`
	Typical bool   `json:"typical,omitempty"`
	Field   string `json:"field,omitempty"` // path of the input that changes it
}

// Trace is the course of the whole stack of pours, one frame a step, in order.
type Trace struct {
	Frames []TraceFrame
}

// TraceFrame is the resin at one time.
type TraceFrame struct {
	At    unit.Span // since Curing.Start
	Room  unit.Temperature
	Cells []TraceCell // of the resin poured so far, from the floor up
}

// TraceCell is a slice of resin at one time.
type TraceCell struct {
	Layer       int // index of the plan's layer
	Bottom, Top unit.Length
	State       cure.State
	Softening   unit.Temperature
}
