package shape

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
)

// Point is a place in the plane, in metres. In JSON it is [x,y].
type Point struct{ X, Y float64 }

// Ring is a closed outline; the last point joins the first. Counterclockwise
// is solid.
type Ring []Point

// MarshalJSON writes the point as [x,y]. A point that is not finite is an error.
func (p Point) MarshalJSON() ([]byte, error) {
	if !p.finite() {
		return nil, fmt.Errorf("shape: point (%v, %v) is not finite", p.X, p.Y)
	}
	b := make([]byte, 0, 48)
	b = append(b, '[')
	b = strconv.AppendFloat(b, p.X, 'g', -1, 64)
	b = append(b, ',')
	b = strconv.AppendFloat(b, p.Y, 'g', -1, 64)
	return append(b, ']'), nil
}

// UnmarshalJSON reads [x,y]: exactly two finite numbers.
func (p *Point) UnmarshalJSON(text []byte) error {
	s := bytes.TrimSpace(text)
	if len(s) < 2 || s[0] != '[' || s[len(s)-1] != ']' {
		return errPoint(text)
	}
	x, y, ok := bytes.Cut(s[1:len(s)-1], []byte{','})
	if !ok {
		return errPoint(text)
	}
	var q Point
	if q.X, ok = number(x); !ok {
		return errPoint(text)
	}
	if q.Y, ok = number(y); !ok {
		return errPoint(text)
	}
	*p = q
	return nil
}

// number reads one finite JSON number.
func number(text []byte) (float64, bool) {
	s := bytes.TrimSpace(text)
	if len(s) == 0 || s[0] != '-' && (s[0] < '0' || s[0] > '9') || !json.Valid(s) {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(s), 64)
	return v, err == nil
}

func errPoint(text []byte) error {
	if len(text) > 40 {
		text = text[:40]
	}
	return fmt.Errorf("shape: a point is [x,y] with two numbers in metres, not %q", text)
}

func (p Point) finite() bool {
	return math.Abs(p.X) <= math.MaxFloat64 && math.Abs(p.Y) <= math.MaxFloat64
}

func (p Point) minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

func (p Point) dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

func (p Point) cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// turn gives the cross product of p and q with a sign that rounding cannot
// change: where it could (the bound is 4 units of rounding of the two
// products), what rounding took from each product is added again.
func (p Point) turn(q Point) float64 {
	a, b := p.X*q.Y, p.Y*q.X
	d := a - b
	if math.Abs(d) > 4*0x1p-53*(math.Abs(a)+math.Abs(b)) {
		return d
	}
	// The two are so near each other, or one is nothing, that d is exact.
	e, f := math.FMA(p.Y, q.X, -b), math.FMA(p.X, q.Y, -a)
	s := e - f
	if d != s {
		return d - s
	}
	back := s - e // what rounding took from e - f (Knuth's two-sum)
	return -((e - (s - back)) - (f + back))
}

func (p Point) norm() float64 { return math.Sqrt(p.X*p.X + p.Y*p.Y) }

// toward gives the point a fraction f of the way from p to q.
func (p Point) toward(q Point, f float64) Point {
	return Point{p.X + f*(q.X-p.X), p.Y + f*(q.Y-p.Y)}
}
