package model

import (
	"fmt"
	"math"

	"meniscus/model/shape"
	"meniscus/model/sight"
	"meniscus/model/unit"
)

// reference is what a photo is straightened by: its marks with their places,
// and what those places hang on.
type reference struct {
	marks  []sight.Mark
	shifts []sight.Shift
	turned *reference // the same with the sides of the rectangle put the other way, where that is open
}

// reference gives the marks of a tracing with their places, or says what is
// missing.
func (m *maker) reference(t *Tracing, path string) (reference, *Problem) {
	switch t.By {
	case ByCorners:
		if len(t.Marks) != corners {
			return reference{}, moreMarks(path, len(t.Marks))
		}
		long, broad, wrong := m.opening(path)
		if wrong != nil {
			return reference{}, wrong
		}
		r, turned := t.around(long, broad), t.around(broad, long).swapped()
		r.turned = &turned
		return r, nil
	case ByPoints:
		return m.measured(t, path)
	case ByCard, "":
		if len(t.Marks) != corners {
			return reference{}, moreMarks(path, len(t.Marks))
		}
		if !t.Long.Given() || t.Long.Value <= 0 {
			return reference{}, &Problem{path + "/long", "measure the side of the card from its first corner to its second"}
		}
		if !t.Broad.Given() || t.Broad.Value <= 0 {
			return reference{}, &Problem{path + "/broad", "measure the side of the card from its second corner to its third"}
		}
		sides := func(d unit.Dim) side {
			return side{float64(d.Value), []float64{float64(unit.StandardUncertainty(m.p.HalfWidth(d.By)))}}
		}
		r, turned := t.around(sides(t.Long), sides(t.Broad)), t.around(sides(t.Broad), sides(t.Long)).swapped()
		r.turned = &turned
		return r, nil
	}
	return reference{}, &Problem{path + "/by", "choose what the photo is straightened by"}
}

// moreMarks says how many of four corners are still to be touched.
func moreMarks(path string, have int) *Problem {
	switch {
	case have > corners:
		return &Problem{path + "/marks", fmt.Sprintf("take %d of the marks away: four corners straighten the photo", have-corners)}
	case have == corners-1:
		return &Problem{path + "/marks", "touch the fourth corner"}
	}
	return &Problem{path + "/marks", fmt.Sprintf("touch %d more corners", corners-have)}
}

// side is the length of a rectangle's side in metres, and by how much each
// thing that it hangs on changes it when that is off by one standard
// uncertainty.
type side struct {
	length float64
	off    []float64
}

// around gives the four corners of a rectangle their places in the order in
// which they are touched.
func (t *Tracing) around(long, broad side) reference {
	ends := [corners]shape.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}
	var r reference
	for i, e := range ends {
		k := &t.Marks[i]
		r.marks = append(r.marks, sight.Mark{Pixel: shape.Point{X: k.X, Y: k.Y}, Place: shape.Point{X: e.X * long.length, Y: e.Y * broad.length}})
	}
	for n := range max(len(long.off), len(broad.off)) {
		s := make(sight.Shift, corners)
		for i, e := range ends {
			s[i] = shape.Point{X: e.X * nth(long.off, n), Y: e.Y * nth(broad.off, n)}
		}
		r.shifts = append(r.shifts, s)
	}
	return r
}

func nth(list []float64, i int) float64 {
	if i < len(list) {
		return list[i]
	}
	return 0
}

// swapped gives a reference with its two directions in each other's place, so
// that the longer side of a mold lies along the first whichever way round it
// was touched.
func (r reference) swapped() reference {
	for i := range r.marks {
		p := &r.marks[i].Place
		p.X, p.Y = p.Y, p.X
	}
	for _, s := range r.shifts {
		for i := range s {
			s[i].X, s[i].Y = s[i].Y, s[i].X
		}
	}
	return r
}

// opening gives the two sides of the mold's opening at its rim. A rounded
// corner counts as the corner in which the sides would meet.
func (m *maker) opening(path string) (long, broad side, wrong *Problem) {
	mold := &m.p.Mold
	if mold.Kind != MoldRectangle {
		return long, broad, &Problem{path + "/by", fmt.Sprintf("only a rectangular mold has four corners to go by; lay a card in the plane of the wood (%s), or measure four points (%s)", ByCard, ByPoints)}
	}
	if !mold.Length.Given() || !mold.Width.Given() {
		return long, broad, &Problem{path + "/by", "measure the inside length and width of the mold first"}
	}
	if mold.end() == AtRim {
		u := func(d unit.Dim) float64 { return float64(unit.StandardUncertainty(m.p.HalfWidth(d.By))) }
		return side{float64(mold.Length.Value), []float64{u(mold.Length), 0}}, side{float64(mold.Width.Value), []float64{0, u(mold.Width)}}, nil
	}
	if m.cavity == nil {
		return long, broad, &Problem{path + "/by", "measure the depth of the mold and the lean of its walls first: its sizes were taken at the floor"}
	}
	rim := func(x []float64) (l, w float64, ok bool) {
		c, err := m.cavity(x)
		if err != nil {
			return 0, 0, false
		}
		lo, hi := c.Section(c.Depth()).Bounds()
		return hi.X - lo.X, hi.Y - lo.Y, true
	}
	x := m.in.values()
	l, w, ok := rim(x)
	if !ok {
		return long, broad, &Problem{path + "/by", "the sizes of the mold do not go together"}
	}
	long.length, broad.length = l, w
	for i, in := range m.in.list {
		if in.sigma == 0 || !under(in.field, "mold") {
			continue
		}
		x[i] = in.value + in.sigma
		if l1, w1, ok := rim(x); ok && (l1 != l || w1 != w) {
			long.off, broad.off = append(long.off, l1-l), append(broad.off, w1-w)
		}
		x[i] = in.value
	}
	return long, broad, nil
}

// under tells whether a field lies below another in its path.
func under(field, top string) bool {
	return len(field) > len(top) && field[:len(top)] == top && field[len(top)] == '/'
}

// measured gives marks whose places were measured one by one. Each of the two
// sizes of each errs by itself.
func (m *maker) measured(t *Tracing, path string) (reference, *Problem) {
	var r reference
	for i := range t.Marks {
		k := &t.Marks[i]
		for _, d := range [2]struct {
			name string
			dim  unit.Dim
		}{{"at", k.At}, {"up", k.Up}} {
			if !d.dim.Given() {
				return r, &Problem{path + "/marks/" + k.ID + "/" + d.name, fmt.Sprintf("measure where mark %d lies; 0 is a measure too", i+1)}
			}
		}
		r.marks = append(r.marks, sight.Mark{Pixel: shape.Point{X: k.X, Y: k.Y}, Place: shape.Point{X: float64(k.At.Value), Y: float64(k.Up.Value)}})
	}
	const most = 24 // of more marks each by itself hardly counts, and all are taken alike
	n := len(t.Marks)
	for i := 0; i < n; i += max(1, n/most) {
		u := func(d unit.Dim) float64 {
			return float64(unit.StandardUncertainty(m.p.HalfWidth(d.By))) * math.Sqrt(float64(max(1, n/most)))
		}
		along, up := make(sight.Shift, n), make(sight.Shift, n)
		along[i].X, up[i].Y = u(t.Marks[i].At), u(t.Marks[i].Up)
		r.shifts = append(r.shifts, along, up)
	}
	return r, nil
}
