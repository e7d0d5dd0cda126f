package model

import "meniscus/model/unit"

// Shrinkage is how much wood moves one way across its grain.
type Shrinkage struct {
	Total unit.Share // from green to oven-dry, of the green size
	Rate  float64    // change to a point of moisture, of the size it has; 0 is not known
}

// The moisture within which the change to a point holds (Wood Handbook, table
// 13-5).
const (
	ratesFrom = unit.Share(0.06)
	ratesTo   = unit.Share(0.14)
)

// To gives the shrinkage from green to a moisture: S (30 - M)/30, of the green
// size (Wood Handbook, FPL-GTR-282, equation 4-7). Nothing above fibre
// saturation.
func (s Shrinkage) To(moisture unit.Share) unit.Share {
	return s.Total * (fibreSaturation - held(moisture)) / fibreSaturation
}

// Moves gives by how much a width across the grain changes as the wood goes from
// one moisture to another; it shrinks below 0. Where both lie from 6 to 14 % and
// the change to a point is known it is D C (M2 - M1), else
//
//	D (M2 - M1)/(30/S - 30 + M1)
//
// with M in % and S as a fraction (Wood Handbook, FPL-GTR-282, equations 13-2
// and 13-3; from memory). Above fibre saturation nothing moves.
func (s Shrinkage) Moves(width unit.Length, from, to unit.Share) unit.Length {
	from, to = held(from), held(to)
	within := func(m unit.Share) bool { return m >= ratesFrom-1e-9 && m <= ratesTo+1e-9 }
	if s.Rate > 0 && within(from) && within(to) {
		return width.Times(s.Rate * (to - from).Percent())
	}
	if !(s.Total > 0) {
		return 0
	}
	return width.Times((to - from).Percent() / (fibreSaturation.Percent()/float64(s.Total) - fibreSaturation.Percent() + from.Percent()))
}

// held keeps a moisture within what moves wood.
func held(m unit.Share) unit.Share { return max(0, min(m, fibreSaturation)) }

// sawn chooses between the radial and the tangential way.
func (radial Shrinkage) sawn(tangential Shrinkage, sawn SawnKind) Shrinkage {
	switch sawn {
	case SawnQuarter:
		return radial
	case SawnRift:
		mean := Shrinkage{Total: (radial.Total + tangential.Total) / 2}
		if radial.Rate > 0 && tangential.Rate > 0 {
			mean.Rate = (radial.Rate + tangential.Rate) / 2
		}
		return mean
	}
	return tangential
}

// shrinkageOf gives how much a piece moves across its grain: by the maker's own
// figures, else by those of its species; false where neither is known, or where
// the maker gave the one way that does not count.
func (w *Piece) shrinkageOf(s *Species) (Shrinkage, bool) {
	n := &w.Nature
	radial, tangential := Shrinkage{Total: n.Radial.Value}, Shrinkage{Total: n.Tangential.Value}
	if s != nil {
		if !n.Radial.Given() {
			radial = Shrinkage{s.Radial, s.RadialRate}
		}
		if !n.Tangential.Given() {
			tangential = Shrinkage{s.Tangential, s.TangentialRate}
		}
	}
	if n.Sawn == SawnRift && (radial.Total <= 0 || tangential.Total <= 0) {
		return Shrinkage{}, false
	}
	moves := radial.sawn(tangential, n.Sawn)
	return moves, moves.Total > 0
}
