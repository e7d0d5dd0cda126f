package model

import (
	"math"
	"slices"

	"meniscus/model/shape"
)

// Face names one of the two faces of a slab.
type Face string

// The faces of a slab.
const (
	FaceUpper Face = "upper"
	FaceUnder Face = "under"
)

// Face gives the tracing of a face; any name but that of the under face means
// the upper one.
func (s *Slab) Face(f Face) *Tracing {
	if f == FaceUnder {
		return &s.Under
	}
	return &s.Upper
}

// Corners tells whether the photo is straightened by four corners that follow
// each other round, and not by points that were measured one by one.
func (t *Tracing) Corners() bool { return t.By != ByPoints }

// Mark finds a mark by ID; nil when it is not there.
func (t *Tracing) Mark(id string) *Mark {
	return named(t.Marks, id, func(m *Mark) string { return m.ID })
}

// Ring finds a traced outline by ID; nil when it is not there.
func (t *Tracing) Ring(id string) *TracedRing {
	return named(t.Rings, id, func(r *TracedRing) string { return r.ID })
}

// AddSlab adds a slab of wood and gives its ID. Its photos are straightened by
// the corners of the mold where that has corners, else by a card.
func (p *Project) AddSlab(name string) string {
	if name == "" {
		name = "slab " + itoa(len(p.Slabs)+1)
	}
	by := ByCard
	if p.Mold.Kind == MoldRectangle {
		by = ByCorners
	}
	s := Slab{ID: p.NewID("b"), Name: name}
	s.Upper.By, s.Under.By = by, by
	p.Slabs = append(p.Slabs, s)
	return s.ID
}

// AddMark adds a mark at a place in the photo of a face, in pixels, and gives
// its ID. The fourth of four corners puts them in order: round their middle as
// on a clock, from the one nearest to the upper left corner of the picture.
func (p *Project) AddMark(slab string, face Face, x, y float64) (id string, err error) {
	t, path, err := p.tracing(slab, face)
	if err != nil {
		return "", err
	}
	if !inPhoto(x, y) {
		return "", &Problem{path + "/marks", "this place is not in the photo"}
	}
	switch {
	case t.Corners() && len(t.Marks) >= corners:
		return "", &Problem{path + "/marks", "all four corners are touched; move one, or choose measured points to use more"}
	case len(t.Marks) >= mostMarks:
		return "", &Problem{path + "/marks", "that is more marks than a photo needs"}
	}
	m := Mark{ID: p.NewID("k"), X: cents(x), Y: cents(y)}
	t.Marks = append(slices.Clip(t.Marks), m)
	if t.Corners() && len(t.Marks) == corners {
		t.Marks = roundFrom(t.Marks, none)
	}
	return m.ID, nil
}

// MoveMark moves a mark to another place in the photo, in pixels. Corners keep
// their order, so that each goes on meaning what it did; only where their sides
// would cross are they put in order anew, the first staying the first.
func (p *Project) MoveMark(slab string, face Face, mark string, x, y float64) error {
	t, i, path, err := p.markAt(slab, face, mark)
	if err != nil {
		return err
	}
	if !inPhoto(x, y) {
		return &Problem{path, "this place is not in the photo"}
	}
	t.Marks = slices.Clone(t.Marks)
	t.Marks[i].X, t.Marks[i].Y = cents(x), cents(y)
	if t.Corners() && len(t.Marks) == corners && crossed(t.Marks) {
		t.Marks = roundFrom(t.Marks, 0)
	}
	return nil
}

// RemoveMark takes a mark away.
func (p *Project) RemoveMark(slab string, face Face, mark string) error {
	t, i, _, err := p.markAt(slab, face, mark)
	if err != nil {
		return err
	}
	t.Marks = slices.Delete(slices.Clone(t.Marks), i, i+1)
	return nil
}

// markAt finds a mark of a face, by its number in the list, and its path.
func (p *Project) markAt(slab string, face Face, mark string) (t *Tracing, i int, path string, err error) {
	t, path, err = p.tracing(slab, face)
	if err != nil {
		return nil, none, path, err
	}
	path += "/marks/" + mark
	if i = slices.IndexFunc(t.Marks, func(m Mark) bool { return m.ID == mark }); i < 0 {
		return nil, none, path, &Problem{path, "it is no longer there"}
	}
	return t, i, path, nil
}

// tracing finds a face of a slab and its path.
func (p *Project) tracing(slab string, face Face) (*Tracing, string, error) {
	path := "slabs/" + slab
	if face != FaceUpper && face != FaceUnder {
		return nil, path, &Problem{path, "a slab has an upper and an under face"}
	}
	path += "/" + string(face)
	s := p.Slab(slab)
	if s == nil {
		return nil, path, &Problem{path, "the slab is no longer there"}
	}
	return s.Face(face), path, nil
}

const (
	corners   = 4
	mostMarks = 200
)

// farPixel is as far from the corner of a photo as a place in it may lie.
const farPixel = 1e5

func inPhoto(x, y float64) bool { return math.Abs(x) <= farPixel && math.Abs(y) <= farPixel }

// cents rounds a pixel coordinate to a hundredth, which no touch can better and
// which keeps a document of many points small.
func cents(x float64) float64 { return math.Round(x*100) / 100 }

func centsOf(p shape.Point) shape.Point { return shape.Point{X: cents(p.X), Y: cents(p.Y)} }

// roundFrom puts marks in order round their middle, as on a clock (y runs
// down), from the mark with the given index, or from the one nearest to the
// upper left.
func roundFrom(marks []Mark, first int) []Mark {
	var x, y float64
	for _, m := range marks {
		x, y = x+m.X/float64(len(marks)), y+m.Y/float64(len(marks))
	}
	if first < 0 {
		first = 0
		for i, m := range marks {
			if m.X+m.Y < marks[first].X+marks[first].Y {
				first = i
			}
		}
	}
	start := math.Atan2(marks[first].Y-y, marks[first].X-x)
	id := marks[first].ID
	turn := func(m Mark) float64 {
		if m.ID == id {
			return 0
		}
		a := math.Atan2(m.Y-y, m.X-x) - start
		if a < 0 {
			a += 2 * math.Pi
		}
		return a
	}
	list := slices.Clone(marks)
	slices.SortStableFunc(list, func(a, b Mark) int {
		switch u, v := turn(a), turn(b); {
		case a.ID == id || u < v && b.ID != id:
			return -1
		case b.ID == id || u > v:
			return 1
		}
		return 0
	})
	return list
}

// crossed tells whether two opposite sides of the figure that four marks make
// cross each other.
func crossed(m []Mark) bool {
	side := func(a, b, c Mark) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
	meets := func(a, b, c, d Mark) bool {
		return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
	}
	return meets(m[0], m[1], m[2], m[3]) || meets(m[1], m[2], m[3], m[0])
}
