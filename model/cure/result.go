package cure

import "meniscus/model/unit"

// Frame is a slab at one time: temperature and conversion of each cell, bottom
// to top. The conversion of an inert cell is 0.
type Frame struct {
	At unit.Span
	T  []float64 // K
	A  []float64
	// How fast both change, per second, so that between two frames the course
	// is known as well.
	dT, dA []float64
}

// Peak is the highest temperature that the resin came to.
type Peak struct {
	T      unit.Temperature
	At     unit.Span
	Height unit.Length // above the bottom of the slab
	Cell   int
}

// Course is what became of a slab.
type Course struct {
	Heights  []unit.Length // of the middle of each cell above the slab's bottom
	Owner    []int         // stratum that each cell belongs to
	Frames   []Frame       // one a step, in order, the first at 0
	Peak     Peak          // of the resin; of a slab without resin it is the zero Peak
	RunsAway bool          // the resin came to the limit, where the run ends
	Ends     unit.Span     // when the run ended
	Energy   Energy

	slab *Slab
	pool []float64
}

// Energy is where the heat went, per square metre of slab, in joules.
type Energy struct {
	Released float64 // by the cure
	Stored   float64 // in the slab, above its start
	Lost     float64 // to the room
}

// Field is a section across a pour at one time, cell by cell.
type Field struct {
	At    unit.Span
	Y     []float64 // edges of the columns across, m, one more than columns
	Z     []float64 // edges of the rows from the bottom up, m, one more than rows
	T     []float64 // K, row by row
	A     []float64
	Resin []bool
}
