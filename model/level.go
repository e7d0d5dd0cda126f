package model

import (
	"fmt"

	"meniscus/model/unit"
)

// SetLevel puts the top of a layer at a height above the floor, as a finger
// does that drags its line. The layer goes on holding its height in the way in
// which it was given: as its own depth, as a level, or as so far below the rim.
// Layers above it that are given by their depth move along. It is a *Problem
// when the layer is gone, when the level leaves it no depth, or when the rim is
// meant and the mold's depth is not known.
func SetLevel(p *Project, layerID string, level unit.Length) error {
	at := "layers/" + layerID + "/to"
	k := p.LayerIndex(layerID)
	if k == none {
		return &Problem{at, "this layer is no longer there"}
	}
	l := &p.Layers[k]
	bottom := p.levelBelow(k)
	if level-bottom < unit.Length(someLength.low) {
		return &Problem{at, fmt.Sprintf("%s would have no depth; the one below it ends at %s", l.Name, p.Style.Length(bottom))}
	}
	value := level
	switch l.By {
	case ToLevel:
	case ToBelow:
		if !p.Mold.Depth.Given() {
			return &Problem{at, "measure the depth of the mold first"}
		}
		value = p.Mold.Depth.Value - level
	default:
		value = level - bottom
	}
	if value < unit.Length(someLength.low) || value > unit.Length(someLength.high) {
		return &Problem{at, "this should be " + someLength.words}
	}
	grain := unit.TenthMillimetre
	if p.Style.LengthUnit() == unit.InInches {
		grain = unit.SixtyFourth
	}
	to, err := p.Style.TakeLength(p.Style.LengthIn(value, p.Style.LengthUnit(), grain), l.To.By)
	if err != nil {
		return &Problem{at, words(err)}
	}
	l.To = to
	p.dropDraft(at)
	return nil
}

// levelBelow gives the height at which layer k begins: the top of the highest
// layer before it, or the floor.
func (p *Project) levelBelow(k int) unit.Length {
	z := unit.Length(0)
	for i := range p.Layers[:k] {
		l := &p.Layers[i]
		z = max(z, unit.Length(l.topAt(float64(z), float64(l.To.Value), float64(p.Mold.Depth.Value), p.Mold.Depth.Given())))
	}
	return z
}

// topAt gives the top of a layer whose bottom is at z, all in metres above the
// floor. to is what its own height reads, depth the mold's. One whose height is
// not given, or hangs on a depth of the mold that is not, has none.
func (l *Layer) topAt(z, to, depth float64, measured bool) float64 {
	switch {
	case !l.To.Given() || l.By == ToBelow && !measured:
		return z
	case l.By == ToLevel:
		return to
	case l.By == ToBelow:
		return depth - to
	}
	return z + to
}
