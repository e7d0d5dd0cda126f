package unit

// Quantity is any of the package's number types.
type Quantity interface{ ~float64 }

// Instrument names what a value was read with; it decides the uncertainty.
type Instrument string

// The instruments of a small shop. The honest accuracy of each is a default
// that the maker can change: tape ±1 mm, steel rule ±0.5, caliper ±0.1,
// feeler gauge ±0.05 (common practice, no source).
const (
	Tape    Instrument = "tape"
	Rule    Instrument = "rule"
	Caliper Instrument = "caliper"
	Feeler  Instrument = "feeler"
)

// Taken is a quantity as a maker took it: its value in SI, how it was
// written, and what it was read with. The zero Taken means "not given".
// Written always says the unit, so that it reads the same in any project.
type Taken[Q Quantity] struct {
	Value   Q          `json:"value"`
	Written string     `json:"written,omitempty"`
	By      Instrument `json:"by,omitempty"`
}

// Given tells whether the maker gave the quantity at all.
func (t Taken[Q]) Given() bool { return t.Written != "" || t.Value != 0 }

// Or gives the value, or other where none was given.
func (t Taken[Q]) Or(other Q) Q {
	if t.Given() {
		return t.Value
	}
	return other
}

// Dim is a length as a maker took it.
type Dim = Taken[Length]
