package shape

import (
	"math"

	"meniscus/model/unit"
)

// chordError is how far a chord may stand off the arc that it replaces, in
// metres.
const chordError = 0.02e-3

// chords gives into how many equal parts an arc of radius r over the given
// angle must be cut to keep within the chord error.
func chords(r, angle float64) int {
	if r <= chordError {
		return 1
	}
	return max(1, int(math.Ceil(angle/(2*math.Acos(1-chordError/r)))))
}

// RectangleRing gives the outline of a rectangle of length l along x and
// width w along y with corners of radius r, centred on the origin. A radius
// over half the shorter side counts as half the shorter side.
func RectangleRing(l, w, r unit.Length) Ring {
	x, y := float64(l)/2, float64(w)/2
	c := max(0, min(float64(r), x, y))
	if c == 0 {
		return Ring{{-x, -y}, {x, -y}, {x, y}, {-x, y}}
	}
	n := chords(c, math.Pi/2)
	ring := make(Ring, 0, 4*(n+1))
	corners := [4]Point{{-x + c, -y + c}, {x - c, -y + c}, {x - c, y - c}, {-x + c, y - c}}
	starts := [4]Point{{-1, 0}, {0, -1}, {1, 0}, {0, 1}} // where each arc begins, seen from its centre
	for k, m := range corners {
		u, v := starts[k], starts[(k+1)%4]
		for i := 0; i <= n; i++ {
			sin, cos := math.Sincos(math.Pi / 2 * float64(i) / float64(n))
			if i == n {
				sin, cos = 1, 0
			}
			ring = append(ring, Point{m.X + c*(cos*u.X+sin*v.X), m.Y + c*(cos*u.Y+sin*v.Y)})
		}
	}
	tidied, _ := ring.tidy()
	return tidied
}

// EllipseRing gives the outline of an ellipse of length l along x and width w
// along y, centred on the origin; a circle when they are equal. The first
// point is the one farthest along x.
func EllipseRing(l, w unit.Length) Ring {
	a, b := float64(l)/2, float64(w)/2
	n := 4 * max(2, chords(max(a, b), math.Pi/2))
	ring := make(Ring, n)
	for i := range ring {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ring[i] = Point{a * cos, b * sin}
	}
	return ring
}

// PolygonRing gives the outline of a regular polygon centred on the origin
// with one flat parallel to x at the bottom. Across flats is twice the radius
// of the inscribed circle, for odd numbers of sides too.
func PolygonRing(sides int, acrossFlats unit.Length) Ring {
	if sides < 3 {
		return nil
	}
	half := math.Pi / float64(sides)
	r := float64(acrossFlats) / 2 / math.Cos(half)
	ring := make(Ring, sides)
	for i := range ring {
		sin, cos := math.Sincos(-math.Pi/2 + half*float64(2*i-1))
		ring[i] = Point{r * cos, r * sin}
	}
	return ring
}

// FlatsFromCorners gives the size across flats (twice the inscribed radius)
// of a regular polygon that measures so much across corners (twice the
// circumscribed radius). The definition holds for every number of sides; with
// an odd number neither can be spanned with a rule directly.
func FlatsFromCorners(sides int, corners unit.Length) unit.Length {
	if sides < 3 {
		return 0
	}
	return corners.Times(math.Cos(math.Pi / float64(sides)))
}
