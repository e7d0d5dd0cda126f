package model

import (
	"errors"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// cavityOf compiles the mold into a function of the inputs that builds its
// cavity. The error names what is still missing, or what cannot be.
func cavityOf(p *Project, in *inputs) (func(x []float64) (shape.Cavity, error), error) {
	m := &p.Mold
	if missing := m.missing(); missing != nil {
		return nil, missing
	}
	depth := p.dim(in, "mold/depth", "mold depth", m.Depth, 0)
	lean := p.lean(in, depth)
	switch m.Kind {
	case MoldRectangle:
		l := lean.side(p, in, "length", "mold length", m.Length, m.Draft.Length)
		w := lean.side(p, in, "width", "mold width", m.Width, m.Draft.Width)
		r := lean.corner(p, in, m.Corner, m.Draft.Corner)
		return func(x []float64) (shape.Cavity, error) {
			fl, rl := l(x)
			fw, rw := w(x)
			fr, rr := r(x)
			return shape.NewRectangle(shape.RectSize{Length: fl, Width: fw, Corner: fr}, shape.RectSize{Length: rl, Width: rw, Corner: rr}, unit.Length(x[depth]))
		}, nil
	case MoldRound:
		d := lean.side(p, in, "diameter", "mold diameter", m.Diameter, m.Draft.Diameter)
		return func(x []float64) (shape.Cavity, error) {
			f, r := d(x)
			return shape.NewOval(f, f, r, r, unit.Length(x[depth]))
		}, nil
	case MoldOval:
		l := lean.side(p, in, "length", "mold length", m.Length, m.Draft.Length)
		w := lean.side(p, in, "width", "mold width", m.Width, m.Draft.Width)
		return func(x []float64) (shape.Cavity, error) {
			fl, rl := l(x)
			fw, rw := w(x)
			return shape.NewOval(fl, fw, rl, rw, unit.Length(x[depth]))
		}, nil
	case MoldPolygon:
		s := lean.span(p, in)
		sides := m.Sides
		return func(x []float64) (shape.Cavity, error) {
			f, r := s(x)
			return shape.NewPolygon(sides, f, r, unit.Length(x[depth]))
		}, nil
	case MoldOutline:
		return outlineCavity(p, in, depth)
	}
	return nil, &Problem{"mold/kind", "choose the form of the mold"}
}

// missing names the first size that is not given, in the order in which they are
// asked for; nil where none is. Whether an outline can be is told by itself.
func (m *Mold) missing() error {
	switch m.Kind {
	case MoldRectangle, MoldOval:
		if !m.Length.Given() {
			return &Problem{"mold/length", "measure the inside length at the " + string(m.end())}
		}
		if !m.Width.Given() {
			return &Problem{"mold/width", "measure the inside width at the " + string(m.end())}
		}
	case MoldRound:
		if !m.Diameter.Given() {
			return &Problem{"mold/diameter", "measure the inside diameter"}
		}
	case MoldPolygon:
		if m.Sides < 3 {
			return &Problem{"mold/sides", "count the sides"}
		}
		if !m.Span.Given() {
			return &Problem{"mold/span", "measure across the flats, or across the corners, and say which"}
		}
	}
	if !m.Depth.Given() {
		return &Problem{"mold/depth", "measure the depth from rim to floor"}
	}
	return nil
}

// leanMissing names what is not measured of walls that lean; without it they
// count as upright.
func (m *Mold) leanMissing() []Problem {
	const upright = "; until then the walls count as upright"
	if m.Draft.Kind == LeanAngle && !m.Draft.Angle.Given() {
		return []Problem{{"mold/draft/angle", "give the angle that the walls lean by" + upright}}
	}
	if m.Draft.Kind != LeanSizes {
		return nil
	}
	other := "floor"
	if m.end() == AtFloor {
		other = "rim"
	}
	type size struct {
		name, words string
		dim         unit.Dim
	}
	sizes := []size{{"length", "length", m.Draft.Length}, {"width", "width", m.Draft.Width}}
	switch m.Kind {
	case MoldRound:
		sizes = []size{{"diameter", "diameter", m.Draft.Diameter}}
	case MoldPolygon:
		sizes = []size{{"span", "size across the " + string(m.Across), m.Draft.Span}}
		if m.Across == "" {
			sizes[0].words = "size across the flats"
		}
	}
	var list []Problem
	for _, s := range sizes {
		if !s.dim.Given() {
			list = append(list, Problem{"mold/draft/" + s.name, "measure the " + s.words + " at the " + other + " too" + upright})
		}
	}
	return list
}

func (m *Mold) end() End {
	if m.At == AtFloor {
		return AtFloor
	}
	return AtRim
}

// Cavities is the number of equal cavities in the mold.
func (m *Mold) Cavities() int { return max(1, m.Count) }

// leaning is how the sizes at floor and rim follow from the measured end.
type leaning struct {
	kind    LeanKind
	atFloor bool
	depth   int
	angle   int // input, for LeanAngle
}

func (p *Project) lean(in *inputs, depth int) leaning {
	l := leaning{kind: p.Mold.Draft.Kind, atFloor: p.Mold.end() == AtFloor, depth: depth}
	if l.kind == LeanAngle {
		// A bevel or a protractor reads to half a degree (common practice, no source).
		l.angle = in.add("mold/draft/angle", "draft angle", float64(p.Mold.Draft.Angle.Value), float64(0.5*unit.Degree)/sqrt3)
	}
	return l
}

// ends orders the measured size and the one at the other end as floor, rim.
func (l leaning) ends(near, far unit.Length) (floor, rim unit.Length) {
	if l.atFloor {
		return near, far
	}
	return far, near
}

// side compiles a size that is measured across: both walls lean.
func (l leaning) side(p *Project, in *inputs, name, label string, near, far unit.Dim) func(x []float64) (floor, rim unit.Length) {
	return l.across(p, in, name, label, near, far, 1, 2)
}

// across compiles a size that is near times scale, and that grows by sides
// times what one wall leans.
func (l leaning) across(p *Project, in *inputs, name, label string, near, far unit.Dim, scale, sides float64) func(x []float64) (floor, rim unit.Length) {
	i := p.dim(in, "mold/"+name, label, near, 0)
	switch l.kind {
	case LeanAngle:
		return func(x []float64) (floor, rim unit.Length) {
			grow := sides * x[l.depth] * math.Tan(x[l.angle])
			if !l.atFloor {
				grow = -grow
			}
			size := x[i] * scale
			return l.ends(unit.Length(size), unit.Length(size+grow))
		}
	case LeanSizes:
		if far.Given() {
			j := p.dim(in, "mold/draft/"+name, label+" at the other end", far, 0)
			return func(x []float64) (floor, rim unit.Length) {
				return l.ends(unit.Length(x[i]*scale), unit.Length(x[j]*scale))
			}
		}
	}
	return func(x []float64) (floor, rim unit.Length) {
		return unit.Length(x[i] * scale), unit.Length(x[i] * scale)
	}
}

// corner compiles the corner radius: walls that lean by an angle keep the
// centre of the corner, so that the radius shrinks by one wall's lean, down to
// a sharp corner. Where they were sharp at the measured end they are sharp all
// the way.
func (l leaning) corner(p *Project, in *inputs, near, far unit.Dim) func(x []float64) (floor, rim unit.Length) {
	r := l.across(p, in, "corner", "corner radius", near, far, 1, 1)
	if l.kind == LeanAngle && near.Value <= 0 {
		return func([]float64) (floor, rim unit.Length) { return 0, 0 }
	}
	return func(x []float64) (floor, rim unit.Length) {
		f, t := r(x)
		return max(0, f), max(0, t)
	}
}

// span compiles the flats of a polygon from what was measured.
func (l leaning) span(p *Project, in *inputs) func(x []float64) (floor, rim unit.Length) {
	m := &p.Mold
	if m.Across == AcrossCorners {
		// Leaning walls move the flats, not the corners, by the lean itself.
		k := float64(shape.FlatsFromCorners(m.Sides, 1))
		return l.across(p, in, "span", "size across corners", m.Span, m.Draft.Span, k, 2)
	}
	return l.across(p, in, "span", "size across flats", m.Span, m.Draft.Span, 1, 2)
}

// outlineCavity compiles a free outline. The outline is one solid of many
// points, so it is built once; the inputs scale its area and stretch its depth.
func outlineCavity(p *Project, in *inputs, depth int) (func(x []float64) (shape.Cavity, error), error) {
	m := &p.Mold
	if len(m.Outline) < 3 {
		return nil, &Problem{"mold/outline", "give the outline by at least three points"}
	}
	if err := m.Outline.Validate(); err != nil {
		return nil, &Problem{"mold/outline", err.Error()}
	}
	ring := m.Outline.CounterClockwise()
	var c shape.Cavity
	var err error
	switch m.Draft.Kind {
	case LeanSizes:
		lo, hi := ring.Bounds()
		sx, sy := farScale(m.Draft.Length, hi.X-lo.X), farScale(m.Draft.Width, hi.Y-lo.Y)
		c, err = shape.NewOutlineSizes(ring, m.end() == AtRim, sx, sy, m.Depth.Value)
	default:
		angle := unit.Angle(0)
		if m.Draft.Kind == LeanAngle {
			angle = m.Draft.Angle.Value
		}
		c, err = shape.NewOutline(ring, m.end() == AtRim, angle, m.Depth.Value)
		if err != nil && angle != 0 {
			// In a dense trace the shortest edges vanish as the walls lean in; half
			// a millimetre coarser it is the same mold to any rule.
			c, err = shape.NewOutline(ring.Simplified(0.5*unit.Millimetre), m.end() == AtRim, angle, m.Depth.Value)
		}
	}
	if err != nil {
		return nil, &Problem{"mold/outline", err.Error()}
	}
	u := float64(unit.StandardUncertainty(p.HalfWidth("")))
	scale := in.add("mold/outline", "mold outline", 1, ringSigma(ring, u))
	return func(x []float64) (shape.Cavity, error) {
		if x[scale] == 1 && unit.Length(x[depth]) == c.Depth() {
			return c, nil
		}
		return stretched{c, x[scale], x[depth] / float64(c.Depth())}, nil
	}, nil
}

func farScale(far unit.Dim, near float64) float64 {
	if !far.Given() || near <= 0 {
		return 1
	}
	return float64(far.Value) / near
}

// stretched is a cavity with its area scaled and its depth stretched.
type stretched struct {
	shape.Cavity
	area, tall float64
}

func (s stretched) Depth() unit.Length { return s.Cavity.Depth().Times(s.tall) }

func (s stretched) Section(z unit.Length) shape.Section { return s.Cavity.Section(z.Times(1 / s.tall)) }

func (s stretched) LevelFor(v unit.Volume) unit.Length {
	return s.Cavity.LevelFor(v.Times(1 / (s.area * s.tall))).Times(s.tall)
}

func (s stretched) AreaAt(z unit.Length) unit.Area {
	return unit.Area(s.area * float64(s.Cavity.AreaAt(z.Times(1/s.tall))))
}

func (s stretched) VolumeBelow(z unit.Length) unit.Volume {
	return unit.Volume(s.area * s.tall * float64(s.Cavity.VolumeBelow(z.Times(1/s.tall))))
}

var errNoMold = errors.New("the mold is not measured yet")
