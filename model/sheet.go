package model

import "meniscus/model/unit"

// Figure is one figure of a data sheet with the conditions it holds at. The
// zero Figure is one that the sheet does not give.
type Figure[Q unit.Quantity] struct {
	unit.Taken[Q]
	At   unit.Taken[unit.Temperature] `json:"at,omitzero"`   // the temperature it holds at
	Mass unit.Taken[unit.Mass]        `json:"mass,omitzero"` // the mixed mass it holds at
}

// Ratio is parts of resin (A) to parts of hardener (B). The Sheet says which of
// its two ratios is by volume and which by weight: they are different things. The
// zero Ratio is not given.
type Ratio struct {
	A unit.Taken[unit.Number] `json:"a"`
	B unit.Taken[unit.Number] `json:"b"`
}

// Given tells whether both parts were given.
func (r Ratio) Given() bool { return r.A.Given() && r.B.Given() }

// Sheet is a product's data sheet, copied into the project so that the project
// stands by itself. What a sheet does not give is filled by a typical value
// with its band, marked as such; see Known.
type Sheet struct {
	ID     string `json:"id"`
	Name   string `json:"name"` // the maker's own name for the product
	Note   string `json:"note,omitempty"`
	Source string `json:"source,omitempty"` // which sheet, which edition

	Product string `json:"product,omitempty"` // of the shelf, by ID, whose bottles it is poured from; empty: what is left is typed here

	Volume Ratio `json:"volumeRatio,omitzero"`
	Weight Ratio `json:"weightRatio,omitzero"`

	EEW  unit.Taken[unit.Number] `json:"eew,omitzero"`  // g of resin to one epoxide group, per mole
	AHEW unit.Taken[unit.Number] `json:"ahew,omitzero"` // g of hardener to one active hydrogen, per mole

	DensityA     Figure[unit.Density] `json:"densityA,omitzero"`
	DensityB     Figure[unit.Density] `json:"densityB,omitzero"`
	DensityMixed Figure[unit.Density] `json:"densityMixed,omitzero"`

	WorkingTime Figure[unit.Span] `json:"workingTime,omitzero"`
	Gel         Figure[unit.Span] `json:"gel,omitzero"` // of a thin layer
	RecoatFrom  Figure[unit.Span] `json:"recoatFrom,omitzero"`
	RecoatTo    Figure[unit.Span] `json:"recoatTo,omitzero"`
	Demold      Figure[unit.Span] `json:"demold,omitzero"`
	FullCure    Figure[unit.Span] `json:"fullCure,omitzero"`

	// The same two at another temperature, which tell how warmth hurries it.
	WorkingOther Figure[unit.Span] `json:"workingOther,omitzero"`
	GelOther     Figure[unit.Span] `json:"gelOther,omitzero"`

	Class     ResinClass                  `json:"class,omitempty"`    // not given: by its times
	Heat      Figure[unit.SpecificEnergy] `json:"heat,omitzero"`      // of reaction, of the mix
	Peak      Figure[unit.Temperature]    `json:"peak,omitzero"`      // the hottest that such a mass in a cup gets
	PeakLimit Figure[unit.Temperature]    `json:"peakLimit,omitzero"` // the hottest that a pour may get

	MaxLayer Figure[unit.Length]      `json:"maxLayer,omitzero"`
	MinLayer Figure[unit.Length]      `json:"minLayer,omitzero"`
	Coldest  Figure[unit.Temperature] `json:"coldest,omitzero"` // of the room or the resin at work
	Warmest  Figure[unit.Temperature] `json:"warmest,omitzero"`

	Shrink     Figure[unit.Share]       `json:"shrink,omitzero"` // by volume
	TintLimit  Figure[unit.Share]       `json:"tintLimit,omitzero"`
	Activation Figure[unit.MolarEnergy] `json:"activation,omitzero"`
	Softening  Figure[unit.Temperature] `json:"softening,omitzero"`
	Viscosity  Figure[unit.Viscosity]   `json:"viscosity,omitzero"`

	LeftA unit.Taken[unit.Mass] `json:"leftA,omitzero"` // in the bottles of A, without the bottles; what was weighed out since is not taken off
	LeftB unit.Taken[unit.Mass] `json:"leftB,omitzero"` // the same for B
}

// ResinClass is which published kinetics stand in for a product.
type ResinClass string

// The classes.
const (
	ClassFast ResinClass = "fast amine"
	ClassSlow ResinClass = "slow amine"
)

// Known is a figure as the plan uses it: the sheet's, or a typical one with
// its band where the sheet is silent.
type Known[Q unit.Quantity] struct {
	Value   Q      `json:"value"`
	Low     Q      `json:"low"`
	High    Q      `json:"high"`
	Typical bool   `json:"typical,omitempty"` // not from the sheet
	Absent  bool   `json:"absent,omitempty"`  // neither given nor safe to assume
	Source  string `json:"source,omitempty"`
}
