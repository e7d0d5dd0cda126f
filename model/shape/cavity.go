package shape

import (
	"fmt"
	"math"

	"meniscus/model/unit"
)

// Cavity is the hollow of a mold. Heights are measured from the floor; one
// below the floor counts as the floor, one above the rim as the rim.
type Cavity interface {
	// Depth gives the height of the rim above the floor.
	Depth() unit.Length
	// Section gives the level cut at height z.
	Section(z unit.Length) Section
	// AreaAt gives the area of the section at height z.
	AreaAt(z unit.Length) unit.Area
	// VolumeBelow gives the volume between the floor and height z.
	VolumeBelow(z unit.Length) unit.Volume
	// LevelFor gives the height that a volume reaches, at most the rim.
	LevelFor(v unit.Volume) unit.Length
}

// walls is what all cavities with straight sloping walls share: the area of
// the section is a quadratic of the height, so that the volume is its
// antiderivative (Simpson's prismatoid rule says the same).
type walls struct {
	depth float64   // m
	area  quadratic // m² at so many m above the floor
}

func (w *walls) Depth() unit.Length { return unit.Length(w.depth) }

// clamped gives a height in metres within the cavity.
func (w *walls) clamped(z unit.Length) float64 { return max(0, min(float64(z), w.depth)) }

// part gives how far up the wall z is, 0 at the floor and 1 at the rim.
func (w *walls) part(z unit.Length) float64 { return w.clamped(z) / w.depth }

func (w *walls) AreaAt(z unit.Length) unit.Area { return unit.Area(w.area.at(w.clamped(z))) }

func (w *walls) VolumeBelow(z unit.Length) unit.Volume {
	return unit.Volume(w.area.below(w.clamped(z)))
}

// LevelFor turns VolumeBelow round by Newton's method kept between bounds.
func (w *walls) LevelFor(v unit.Volume) unit.Length {
	want, full := float64(v), w.area.below(w.depth)
	if !(want > 0) {
		return 0
	}
	if want >= full {
		return unit.Length(w.depth)
	}
	lo, hi := 0.0, w.depth
	z := w.depth * want / full
	for range 100 {
		over := w.area.below(z) - want
		if over > 0 {
			hi = z
		} else {
			lo = z
		}
		next := z - over/w.area.at(z)
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-z) <= 1e-16*w.depth {
			break
		}
		z = next
	}
	return unit.Length(z)
}

// quadratic is a + b·z + c·z².
type quadratic struct{ a, b, c float64 }

func (q quadratic) at(z float64) float64 { return q.a + z*(q.b+z*q.c) }

// below gives the integral from 0 to z.
func (q quadratic) below(z float64) float64 { return z * (q.a + z*(q.b/2+z*q.c/3)) }

// between gives the quadratic with the value floor at 0, middle at d/2 and rim
// at d.
func between(floor, middle, rim, d float64) quadratic {
	return quadratic{
		a: floor,
		b: (4*middle - 3*floor - rim) / d,
		c: 2 * (floor - 2*middle + rim) / (d * d),
	}
}

// checkSize tells what is wrong with a size that must be more than zero.
func checkSize(what string, l unit.Length) error {
	switch v := float64(l); {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return fmt.Errorf("the %s is not a finite number", what)
	case v <= 0:
		return fmt.Errorf("the %s must be more than zero", what)
	case v > farthest:
		return fmt.Errorf("the %s is more than a kilometre", what)
	}
	return nil
}

// lerp gives the value a fraction f of the way from a to b; exact at both ends.
func lerp(a, b, f float64) float64 { return a*(1-f) + b*f }
