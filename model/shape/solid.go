package shape

import (
	"errors"
	"math"

	"meniscus/model/unit"
)

// Solid is a body that takes up room in a cavity. The solids of this package
// are small values; they are built with their underside at height 0, and At
// raises them. Nothing is checked when they are built; Check does that.
type Solid interface {
	// Bottom gives the height of the lowest point.
	Bottom() unit.Length
	// Top gives the height of the highest point.
	Top() unit.Length
	// AreaAt gives the area of the level cut at height z, 0 below the bottom
	// and above the top.
	AreaAt(z unit.Length) unit.Area
	// VolumeBelow gives the volume of the part that lies below height z.
	VolumeBelow(z unit.Length) unit.Volume
	// Check tells what is wrong with the sizes, or nil.
	Check() error
}

// At raises a solid by z.
func At(s Solid, z unit.Length) Solid {
	if r, ok := s.(raised); ok {
		return raised{r.solid, r.by + z}
	}
	return raised{s, z}
}

type raised struct {
	solid Solid
	by    unit.Length
}

func (r raised) Bottom() unit.Length                   { return r.solid.Bottom() + r.by }
func (r raised) Top() unit.Length                      { return r.solid.Top() + r.by }
func (r raised) AreaAt(z unit.Length) unit.Area        { return r.solid.AreaAt(z - r.by) }
func (r raised) VolumeBelow(z unit.Length) unit.Volume { return r.solid.VolumeBelow(z - r.by) }

func (r raised) Check() error {
	if v := float64(r.by); math.IsNaN(v) || math.IsInf(v, 0) {
		return errors.New("the height is not a finite number")
	}
	return r.solid.Check()
}

// tapering is an upright body: the area of its section is a quadratic of the
// height, a at the bottom.
type tapering struct {
	area quadratic
	tall float64 // m
}

func (t tapering) Bottom() unit.Length { return 0 }

func (t tapering) Top() unit.Length { return unit.Length(t.tall) }

func (t tapering) AreaAt(z unit.Length) unit.Area {
	if h := float64(z); h >= 0 && h <= t.tall {
		return unit.Area(t.area.at(h))
	}
	return 0
}

func (t tapering) VolumeBelow(z unit.Length) unit.Volume {
	return unit.Volume(t.area.below(max(0, min(float64(z), t.tall))))
}

func (t tapering) Check() error {
	if err := checkSize("height", unit.Length(t.tall)); err != nil {
		return err
	}
	low, high := t.area.at(0), t.area.at(t.tall)
	if !(low >= 0 && high >= 0 && low+high > 0 && low+high < math.MaxFloat64) {
		return errors.New("the body must have sizes of more than zero")
	}
	return nil
}

// StandingCylinder is an upright cylinder of diameter d and height h.
func StandingCylinder(d, h unit.Length) Solid {
	r := float64(d) / 2
	return tapering{quadratic{a: math.Pi * r * r}, float64(h)}
}

// Box is an upright box of length l, width w and height h.
func Box(l, w, h unit.Length) Solid {
	return tapering{quadratic{a: float64(l.By(w))}, float64(h)}
}

// RingSolid is a flat ring lying down, such as a washer: outer diameter,
// diameter of the hole, and height.
func RingSolid(outer, inner, h unit.Length) Solid {
	r, q := float64(outer)/2, float64(inner)/2
	return tapering{quadratic{a: math.Pi * (r - q) * (r + q)}, float64(h)}
}

// Column is a body that takes up the same area all the way up: so much volume
// over so much height.
func Column(v unit.Volume, h unit.Length) Solid {
	return tapering{quadratic{a: float64(v) / float64(h)}, float64(h)}
}

// Frustum is an upright cone cut level, from the diameter at the bottom to
// that at the top; either can be zero.
func Frustum(bottom, top, h unit.Length) Solid {
	r, k := float64(bottom)/2, float64(top-bottom)/2/float64(h)
	return tapering{quadratic{math.Pi * r * r, 2 * math.Pi * r * k, math.Pi * k * k}, float64(h)}
}

// Prism is a body ruled between two faces: at a fraction t of its height the
// area is (1-t)²·a0 + 2t(1-t)·mixed + t²·a1, with the mixed area of the two
// outlines (see MixedArea). An upright prism has all three alike.
func Prism(a0, mixed, a1 unit.Area, h unit.Length) Solid {
	a, m, b, d := float64(a0), float64(mixed), float64(a1), float64(h)
	return tapering{quadratic{a, 2 * (m - a) / d, (a - 2*m + b) / (d * d)}, d}
}

// checkRound tells what is wrong with a diameter and a length.
func checkRound(d, l float64) error {
	if err := checkSize("diameter", unit.Length(d)); err != nil {
		return err
	}
	return checkSize("length", unit.Length(l))
}
