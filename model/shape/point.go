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

func (p Point) norm() float64 { return math.Sqrt(p.X*p.X + p.Y*p.Y) }

// toward gives the point a fraction f of the way from p to q.
func (p Point) toward(q Point, f float64) Point {
	return Point{p.X + f*(q.X-p.X), p.Y + f*(q.Y-p.Y)}
}
