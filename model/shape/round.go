package shape

import (
	"math"

	"meniscus/model/unit"
)

// segment gives the area of the part of a circle of radius r below a chord
// that stands h above the lowest point: r²/2·(θ - sin θ) with the angle
// θ = 4·asin √(h/2r) at the centre. The series keeps the digits of a shallow
// one, where the two terms nearly cancel.
func segment(r, h float64) float64 {
	h = max(0, min(h, 2*r))
	if h == 0 {
		return 0
	}
	a := 4 * math.Asin(math.Sqrt(h/(2*r)))
	if a > 0.5 {
		return r * r / 2 * (a - math.Sin(a))
	}
	s, term, q := 0.0, a*a*a/6, a*a
	for k := 4.0; math.Abs(term) > 1e-18*s; k += 2 {
		s += term
		term *= -q / (k * (k + 1))
	}
	return r * r / 2 * s
}

// lying is a cylinder on its side: radius and length.
type lying struct{ r, long float64 }

// LyingCylinder is a cylinder of diameter d on its side.
func LyingCylinder(d, length unit.Length) Solid { return lying{float64(d) / 2, float64(length)} }

func (c lying) Bottom() unit.Length { return 0 }
func (c lying) Top() unit.Length    { return unit.Length(2 * c.r) }
func (c lying) Check() error        { return checkRound(2*c.r, c.long) }

func (c lying) AreaAt(z unit.Length) unit.Area {
	h := float64(z)
	if !(h >= 0 && h <= 2*c.r) {
		return 0
	}
	return unit.Area(2 * c.long * math.Sqrt(h*(2*c.r-h)))
}

func (c lying) VolumeBelow(z unit.Length) unit.Volume {
	return unit.Volume(c.long * segment(c.r, float64(z)))
}

// halved is half a cylinder with its flat face down: radius and length.
type halved struct{ r, long float64 }

// HalfCylinder is a cylinder of diameter d split lengthwise, flat face down.
func HalfCylinder(d, length unit.Length) Solid { return halved{float64(d) / 2, float64(length)} }

func (c halved) Bottom() unit.Length { return 0 }
func (c halved) Top() unit.Length    { return unit.Length(c.r) }
func (c halved) Check() error        { return checkRound(2*c.r, c.long) }

func (c halved) AreaAt(z unit.Length) unit.Area {
	h := float64(z)
	if !(h >= 0 && h <= c.r) {
		return 0
	}
	return unit.Area(2 * c.long * math.Sqrt((c.r-h)*(c.r+h)))
}

// VolumeBelow integrates the chord: r²·asin(z/r) + z·√(r²-z²), times length.
// Near the top, where that loses digits, it takes the segment above z away
// from half the circle.
func (c halved) VolumeBelow(z unit.Length) unit.Volume {
	h := max(0, min(float64(z), c.r))
	if h == 0 {
		return 0
	}
	if h > c.r/2 {
		return unit.Volume(c.long * (math.Pi*c.r*c.r/2 - segment(c.r, c.r-h)))
	}
	return unit.Volume(c.long * (c.r*c.r*math.Asin(h/c.r) + h*math.Sqrt((c.r-h)*(c.r+h))))
}

// ball is a sphere: its radius.
type ball struct{ r float64 }

// Sphere is a ball of diameter d.
func Sphere(d unit.Length) Solid { return ball{float64(d) / 2} }

func (b ball) Bottom() unit.Length { return 0 }
func (b ball) Top() unit.Length    { return unit.Length(2 * b.r) }
func (b ball) Check() error        { return checkSize("diameter", b.Top()) }

func (b ball) AreaAt(z unit.Length) unit.Area {
	h := float64(z)
	if !(h >= 0 && h <= 2*b.r) {
		return 0
	}
	return unit.Area(math.Pi * h * (2*b.r - h))
}

// VolumeBelow gives the cap π·h²·(3r-h)/3.
func (b ball) VolumeBelow(z unit.Length) unit.Volume {
	h := max(0, min(float64(z), 2*b.r))
	return unit.Volume(math.Pi * h * h * (3*b.r - h) / 3)
}
