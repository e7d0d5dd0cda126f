package model

import (
	"math"

	"meniscus/model/unit"
)

// The risk of a proposal is a sum over its lines and layers. Of each limit it
// takes the share that is used, to the fourth power, so that one limit all but
// used up outweighs several that are half used:
//
//	each layer   depth / deepest that it may be
//	each layer   height above an underside / height at which that piece lifts (the greatest)
//	each layer   time to mix and pour / seven tenths of the working time
//	each line    1 mm / distance to the nearest edge of the wood; 1 mm / (1 mm + distance to the nearest insert)
//	each insert  least cover / cover
//
// and to these it adds plainly
//
//	each wanted level   how far it has moved, in millimetres
//	each line           0.02 where none is planned now, so that nothing moves for nothing
//
// A wanted level so moves by a millimetre only where that takes as much risk
// away as one limit used up wholly.
const (
	movedRisk = 1000.0 // a metre
	newRisk   = 0.02   // a line
)

// toFourth is the weight of a share of a limit that is used.
func toFourth(share float64) float64 { return share * share * share * share }

// stageHeat asks how deep a pour may be by heat, and remembers.
type stageHeat struct {
	ask   func(bottom, most unit.Length, sheet string) unit.Length
	known map[stageAsk]float64
}

type stageAsk struct {
	bottom float64
	sheet  string
}

// limit gives the deepest that a layer of band b may be on a bottom, as far as
// it is known: heat is taken to allow all that the sheet does until it is asked.
func (j *stageJob) limit(bottom float64, b *stageBand) float64 {
	if j.heat != nil {
		if d, ok := j.heat.known[stageAsk{bottom, b.sheet}]; ok {
			return min(d, b.most)
		}
	}
	return b.most
}

// learn asks heat about a bottom; it tells whether that was new and took depth
// away.
func (j *stageJob) learn(bottom float64, b *stageBand) bool {
	if j.heat == nil {
		return false
	}
	key := stageAsk{bottom, b.sheet}
	if _, ok := j.heat.known[key]; ok {
		return false
	}
	d := float64(j.heat.ask(unit.Length(bottom), unit.Length(b.asked), b.sheet))
	if !(d > 0) { // no depth at all, or no number
		d = 0
	}
	j.heat.known[key] = d
	return d < b.asked
}

// hot tells whether heat allows less than the sheet does on a bottom.
func (j *stageJob) hot(bottom float64, b *stageBand) bool {
	return j.limit(bottom, b) < b.most-sameLevel
}

// lineRisk is the risk of a line at a level, and whether it may be there.
func (j *stageJob) lineRisk(z float64) (float64, bool) {
	risk, near := newRisk, 0.0
	for _, at := range j.now {
		if math.Abs(z-at) <= sameLevel {
			risk = 0
		}
	}
	for i := range j.arrises {
		e := &j.arrises[i]
		d := math.Abs(z - e.at)
		if d <= clearEnough && j.rests(z, e.name) {
			continue
		}
		if d < arrisClear-sameLevel {
			return 0, false
		}
		near = max(near, toFourth(arrisClear/d))
	}
	face := 0.0
	for i := range j.still {
		s := &j.still[i]
		top := s.bottom + s.tall
		if j.throughs && z > s.bottom+sameLevel && z < top-sameLevel {
			return 0, false
		}
		if d := max(s.bottom-z, z-top); d >= -sameLevel && math.Abs(z-s.bottom) > sameLevel {
			face = max(face, toFourth(arrisClear/(arrisClear+max(0, d))))
		}
	}
	return risk + near + face, true
}

// rests tells whether a piece of that name rests on a line at z.
func (j *stageJob) rests(z float64, name string) bool {
	for i := range j.musts {
		if m := &j.musts[i]; m.id == "" && m.name == name && math.Abs(m.at-z) <= clearEnough {
			return true
		}
	}
	return false
}

// layerRisk is the risk of a layer of band b between two levels as far as it
// does not hang on what stands in it, and whether there may be such a layer.
func (j *stageJob) layerRisk(bottom, top float64, b *stageBand) (float64, bool) {
	depth := top - bottom
	most := j.limit(bottom, b)
	if depth > most+sameLevel || j.thinRule && depth < b.least-sameLevel {
		return 0, false
	}
	for i := range j.musts {
		if z := j.musts[i].at; z > bottom+sameLevel && z < top-sameLevel {
			return 0, false
		}
	}
	lift := 0.0
	for i := range j.floats {
		f := &j.floats[i]
		if f.bottom < bottom-clearEnough || top <= f.bottom {
			continue // held, or not reached
		}
		share := (top - f.bottom) / f.lifts
		if share >= 1 {
			return 0, false
		}
		lift = max(lift, share)
	}
	return toFourth(depth/most) + toFourth(lift), true
}

// timeShare is the part of the time that mixing and pouring may take which a
// layer of so much net volume does take.
func (j *stageJob) timeShare(net float64, b *stageBand) float64 {
	if math.IsInf(b.working, 1) {
		return 0
	}
	return j.pourTime(j.mass(net, b), b) / b.working
}

// mass is what is mixed for a net volume.
func (j *stageJob) mass(net float64, b *stageBand) float64 {
	poured := max(0, net) * b.density * j.extra
	return poured + max(j.cupLeast, poured*j.cupPart)
}

// pourTime is how long it takes to mix and pour a mass, one cup after the other.
func (j *stageJob) pourTime(mass float64, b *stageBand) float64 {
	cups := 1.0
	if b.cup > 0 {
		cups = max(1, math.Ceil(mass/b.cup-1e-9))
	}
	return cups*j.mix + mass*j.pour + j.each
}

// sink is how far the top ends below the fill line, when the last layer begins
// at a level with so much standing in it and all seats together hold so much.
func (j *stageJob) sink(last, displaced, all float64) float64 {
	if j.fluid == nil {
		return 0
	}
	area := j.open(j.fill)
	if area <= 0 {
		return 0
	}
	if j.shrinkAll > 0 {
		return max(0, j.fluid(j.fill)-all) * j.shrinkAll / area
	}
	b := &j.bands[len(j.bands)-1]
	return max(0, j.fluid(j.fill)-j.fluid(last)-displaced) * b.shrink / area
}

// coverRisk is the risk of a top that lies so far below the finished face, and
// whether that is cover enough.
func (j *stageJob) coverRisk(top, sink float64) (float64, bool) {
	left := j.fill - sink - j.offTop - top
	if left < j.cover-sameLevel {
		return 0, false
	}
	if j.cover <= 0 || math.IsInf(j.cover, 0) {
		return 0, true
	}
	return toFourth(j.cover / left), true
}

// window gives the levels at which a seat may be: about where it is wanted, and
// where the cover over it asks for that, farther down. The cover is reckoned
// with the sink given, the lowest level with the most that it can sink.
func (j *stageJob) window(s *stageSeat, sink float64) (lo, hi float64) {
	lo, hi = s.at-s.slack, s.at+s.slack
	if !math.IsInf(j.cover, -1) {
		most := j.fill - j.offTop - j.cover - s.tall()
		lo = min(lo, most-j.sink(j.base, 0, 0)-s.slack)
		hi = min(hi, most-sink)
	}
	return max(lo, j.offBottom, j.base+sameLevel), min(hi, j.fill-sameLevel)
}
