package model

import (
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Fill answers how much resin lies between two levels of a mold with wood and
// inserts in it, and what level a volume of resin reaches. It is the sum of
// closed forms: the cavities, less the solids, plus the voids.
type Fill struct {
	cavity shape.Cavity
	count  int // equal cavities
	parts  []placed
}

// placed is a solid in a cavity, so many times; a void counts negative.
type placed struct {
	solid  shape.Solid
	cavity int
	count  float64
}

// every stands for all cavities.
const every = -1

// Depth is the height of the rim above the floor.
func (f *Fill) Depth() unit.Length { return f.cavity.Depth() }

// Below gives the resin below the level z, in all cavities. Above the rim it
// holds no more than at the rim.
func (f *Fill) Below(z unit.Length) unit.Volume { return f.in(every, z) }

// Between gives the resin between two levels, in all cavities.
func (f *Fill) Between(lo, hi unit.Length) unit.Volume { return f.Below(hi) - f.Below(lo) }

// in gives the resin below z in one cavity, or in every one.
func (f *Fill) in(cavity int, z unit.Length) unit.Volume {
	z = min(max(z, 0), f.Depth())
	n := 1
	if cavity == every {
		n = f.count
	}
	v := f.cavity.VolumeBelow(z).Times(float64(n))
	for i := range f.parts {
		if p := &f.parts[i]; cavity == every || p.cavity == cavity {
			v -= p.solid.VolumeBelow(z).Times(p.count)
		}
	}
	return v
}

// Surface gives the area of resin at the level z, in all cavities.
func (f *Fill) Surface(z unit.Length) unit.Area {
	a := f.cavity.AreaAt(min(max(z, 0), f.Depth())).Times(float64(f.count))
	for i := range f.parts {
		p := &f.parts[i]
		if z >= p.solid.Bottom() && z < p.solid.Top() {
			a -= p.solid.AreaAt(z).Times(p.count)
		}
	}
	return a
}

// Level gives the level that the volume v of resin reaches; the inverse of
// Below, to 1e-9 of the depth. What does not fit gives the rim.
func (f *Fill) Level(v unit.Volume) unit.Length {
	depth := f.Depth()
	if v <= 0 {
		return 0
	}
	if v >= f.Below(depth) {
		return depth
	}
	z, found := shape.Root(func(z float64) float64 { return float64(f.Below(unit.Length(z)) - v) }, 0, float64(depth), 1e-10*float64(depth))
	if !found {
		return depth
	}
	return unit.Length(z)
}

// takenUp gives what the solids of an index take of the heights lo to hi.
func (f *Fill) takenUp(index int, lo, hi unit.Length) unit.Volume {
	p := &f.parts[index]
	return (p.solid.VolumeBelow(hi) - p.solid.VolumeBelow(lo)).Times(p.count)
}
