package drawing

import (
	"math"

	"meniscus/model/shape"
)

// View turns metres, y up, into dp on a surface, y down.
type View struct {
	X, Y   float64 // dp to a metre, along and up; both above 0
	Origin Pt      // where the world's origin is
}

// Margins are kept free around a drawing, in dp.
type Margins struct{ Left, Top, Right, Bottom float64 }

// Fit gives the view that shows lo to hi as large as box less its margins
// allows, in the middle, heights stretched by stretch (1 is true to scale).
func Fit(lo, hi shape.Point, box Box, m Margins, stretch float64) View {
	room := Box{box.Min.Add(m.Left, m.Top), box.Max.Add(-m.Right, -m.Bottom)}
	w, h := math.Max(hi.X-lo.X, 1e-6), math.Max(hi.Y-lo.Y, 1e-6)
	k := math.Max(math.Min(room.W()/w, room.H()/(h*stretch)), 1e-3)
	c := room.Centre()
	v := View{X: k, Y: k * stretch}
	v.Origin = Pt{c.X - (lo.X+hi.X)/2*v.X, c.Y + (lo.Y+hi.Y)/2*v.Y}
	return v
}

// ToScreen gives the place of a point of the world.
func (v View) ToScreen(p shape.Point) Pt {
	return Pt{v.Origin.X + p.X*v.X, v.Origin.Y - p.Y*v.Y}
}

// ToWorld gives the point of the world at a place.
func (v View) ToWorld(p Pt) shape.Point {
	return shape.Point{X: (p.X - v.Origin.X) / v.X, Y: (v.Origin.Y - p.Y) / v.Y}
}

// About gives the view k times as large, with the place p held still.
func (v View) About(p Pt, k float64) View {
	return View{X: v.X * k, Y: v.Y * k, Origin: p.Lerp(v.Origin, k)}
}

// Shifted gives the view moved by dx and dy dp.
func (v View) Shifted(dx, dy float64) View {
	v.Origin = v.Origin.Add(dx, dy)
	return v
}

// Ring gives a ring's places, simplified to what can be seen.
func (v View) Ring(r shape.Ring) []Pt {
	const seen = 0.3 // dp
	out := make([]Pt, 0, min(len(r), 512))
	for _, p := range r {
		q := v.ToScreen(p)
		if !finite(q) || len(out) > 0 && near(out[len(out)-1], q, seen) {
			continue
		}
		out = append(out, q)
	}
	for len(out) > 1 && near(out[0], out[len(out)-1], seen) {
		out = out[:len(out)-1]
	}
	return simplify(out, seen/2)
}

func finite(p Pt) bool {
	return !math.IsNaN(p.X+p.Y) && math.Abs(p.X) < 1e9 && math.Abs(p.Y) < 1e9
}

func near(p, q Pt, d float64) bool {
	return math.Abs(p.X-q.X) < d && math.Abs(p.Y-q.Y) < d
}
