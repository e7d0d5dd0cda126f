package unit

import "math"

// Instruments lists every instrument, the least exact first.
func Instruments() []Instrument { return []Instrument{Tape, Rule, Caliper, Feeler} }

// DefaultAccuracy gives the half-width of the range that a reading of the
// instrument stands for: tape ±1 mm, rule ±0.5, caliper ±0.1, feeler ±0.05
// (common practice, no source). Where none is known, the reading counts as one
// of a tape.
func DefaultAccuracy(i Instrument) Length {
	switch i {
	case Rule:
		return Millimetre / 2
	case Caliper:
		return Millimetre / 10
	case Feeler:
		return Millimetre / 20
	}
	return Millimetre
}

// StandardUncertainty gives the standard uncertainty of a value that lies
// anywhere within ±halfWidth with the same likelihood: halfWidth/√3
// (JCGM 100:2008, 4.3.7).
func StandardUncertainty(halfWidth Length) Length {
	return Length(float64(halfWidth) / math.Sqrt(3))
}
