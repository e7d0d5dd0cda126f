package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// part is a solid that takes up room in a cavity (or, as a void, gives some
// back), compiled to a function of the inputs.
type part struct {
	id     string
	cavity int     // from 0
	count  float64 // negative for a void
	solid  func(x []float64) shape.Solid
}

// faces are a piece's two outlines in its own axes, with as many points each,
// and how they turn into a solid.
type faces struct {
	bottom, top shape.Ring
	areas       func(x []float64) (a0, mixed, a1 unit.Area)
	trace       int // input: how well its outline was traced; none where it was measured
}

// facesOf compiles a piece's outlines; nil with a Problem when a size is
// missing or the outline cannot be.
func facesOf(p *Project, in *inputs, w *Piece) (*faces, error) {
	at := "pieces/" + w.ID
	switch w.Kind {
	case PieceRectangle:
		return rectangleFaces(p, in, w, at)
	case PieceStations:
		return stationFaces(p, in, w, at)
	case PieceOutline:
		return outlineFaces(in, w, at)
	}
	return nil, &Problem{at + "/kind", "choose how this piece of wood was measured"}
}

func rectangleFaces(p *Project, in *inputs, w *Piece, at string) (*faces, error) {
	if !w.Length.Given() {
		return nil, &Problem{at + "/length", "measure the length of " + w.Name}
	}
	if !w.Width.Given() {
		return nil, &Problem{at + "/width", "measure the width of " + w.Name}
	}
	l := p.dim(in, at+"/length", w.Name+": length", w.Length, 0)
	b := p.dim(in, at+"/width", w.Name+": width", w.Width, 0)
	tl, tb := l, b
	if w.Top.Length.Given() {
		tl = p.dim(in, at+"/top/length", w.Name+": top length", w.Top.Length, 0)
	}
	if w.Top.Width.Given() {
		tb = p.dim(in, at+"/top/width", w.Name+": top width", w.Top.Width, 0)
	}
	x := in.values()
	ring := func(l, b int) shape.Ring {
		h, v := x[l]/2, x[b]/2
		return shape.Ring{{X: -h, Y: -v}, {X: h, Y: -v}, {X: h, Y: v}, {X: -h, Y: v}}
	}
	return &faces{ring(l, b), ring(tl, tb), func(x []float64) (a0, mixed, a1 unit.Area) {
		return unit.Area(x[l] * x[b]), unit.Area((x[l]*x[tb] + x[tl]*x[b]) / 2), unit.Area(x[tl] * x[tb])
	}, none}, nil
}

func stationFaces(p *Project, in *inputs, w *Piece, at string) (*faces, error) {
	if !w.Spacing.Given() {
		return nil, &Problem{at + "/spacing", "give the distance between the stations of " + w.Name}
	}
	if len(w.Stations) < 2 {
		return nil, &Problem{at + "/stations", "measure the width of " + w.Name + " at two stations or more"}
	}
	spacing := p.dim(in, at+"/spacing", w.Name+": station spacing", w.Spacing, 0)
	widths := func(list []unit.Dim, field, label string) ([]int, []unit.Length, error) {
		at := at + field
		index, value := make([]int, len(list)), make([]unit.Length, len(list))
		for i, d := range list {
			if !d.Given() {
				return nil, nil, &Problem{at + "/" + itoa(i), "measure the width at station " + itoa(i+1) + " of " + w.Name}
			}
			index[i] = p.dim(in, at+"/"+itoa(i), w.Name+": "+label+" at station "+itoa(i+1), d, 0)
			value[i] = d.Value
		}
		return index, value, nil
	}
	bottom, lower, err := widths(w.Stations, "/stations", "width")
	if err != nil {
		return nil, err
	}
	top, upper := bottom, lower
	if len(w.Top.Stations) > 0 {
		if len(w.Top.Stations) != len(w.Stations) {
			return nil, &Problem{at + "/top/stations", "measure the top face at the same stations as the underside"}
		}
		if top, upper, err = widths(w.Top.Stations, "/top/stations", "top width"); err != nil {
			return nil, err
		}
	}
	weights := shape.StationWeights(len(bottom))
	area := func(x []float64, index []int) float64 {
		sum := 0.0
		for i, k := range index {
			sum += weights[i] * x[k]
		}
		return sum * x[spacing]
	}
	b := shape.StationRing(lower, w.Spacing.Value, w.Straight)
	t := shape.StationRing(upper, w.Spacing.Value, w.Straight)
	return &faces{b, t, func(x []float64) (a0, mixed, a1 unit.Area) {
		// Widths go straight from one face to the other over the same length,
		// so the area does too: the mixed term is the mean.
		lo, hi := area(x, bottom), area(x, top)
		return unit.Area(lo), unit.Area((lo + hi) / 2), unit.Area(hi)
	}, none}, nil
}

func outlineFaces(in *inputs, w *Piece, at string) (*faces, error) {
	if len(w.Outline) < 3 {
		return nil, &Problem{at + "/outline", "trace " + w.Name + " by at least three points"}
	}
	if err := w.Outline.Validate(); err != nil {
		return nil, &Problem{at + "/outline", err.Error()}
	}
	if len(w.Top.Outline) > 0 {
		if err := w.Top.Outline.Validate(); err != nil {
			return nil, &Problem{at + "/top/outline", err.Error()}
		}
	}
	f := tracedFaces(w.Outline, w.Top.Outline)
	trace := in.add(at+"/traceError", w.Name+": traced outline", 1, float64(w.TraceErr.Or(typicalTraceErr))/sqrt3)
	in.list[trace].typical = !w.TraceErr.Given()
	return &faces{f.bottom, f.top, func(x []float64) (unit.Area, unit.Area, unit.Area) {
		k := x[trace]
		return f.a0.Times(k), f.mixed.Times(k), f.a1.Times(k)
	}, trace}, nil
}

// outlined are two faces that were traced, with as many points each, and the
// areas that make a prism of them.
type outlined struct {
	bottom, top   shape.Ring
	a0, mixed, a1 unit.Area
}

// areas gives the areas for shape.Prism.
func (o outlined) areas() (a0, mixed, a1 unit.Area) { return o.a0, o.mixed, o.a1 }

// tracedFaces pairs the outlines of two faces; without a second one they are
// alike.
func tracedFaces(bottom, top shape.Ring) outlined {
	o := outlined{bottom: bottom.CounterClockwise()}
	o.a0 = o.bottom.Area()
	o.top, o.mixed, o.a1 = o.bottom, o.a0, o.a0
	if len(top) > 0 {
		o.a1 = top.Area()
		o.bottom, o.top = shape.Blend(o.bottom, top.CounterClockwise())
		// Resampling cuts corners by a hair; the mixed term is brought up by
		// the same share, so that the faces keep their traced areas.
		b, t := float64(o.bottom.Area()), float64(o.top.Area())
		even := math.Sqrt(float64(o.a0) * float64(o.a1))
		mixed := float64(shape.MixedArea(o.bottom, o.top)) * even / math.Sqrt(b*t)
		// Of two faces that lie over each other it is never less than the
		// geometric mean (Minkowski's inequality) nor more than the mean: where
		// the points of two ragged outlines pair badly, that is what holds.
		o.mixed = unit.Area(min(max(mixed, even), float64(o.a0+o.a1)/2))
	}
	return o
}

// wood compiles a piece to a solid; height and thick are inputs.
func wood(p *Project, in *inputs, w *Piece, f *faces) (body part, height, thick int, err error) {
	at := "pieces/" + w.ID
	if !w.Thickness.Given() {
		return part{}, 0, 0, &Problem{at + "/thickness", "measure the thickness of " + w.Name}
	}
	thick = p.dim(in, at+"/thickness", w.Name+": thickness", w.Thickness, 0)
	height = p.height(in, at+"/height", w.Name+": height of its underside", w.Height)
	body = part{w.ID, p.cavityIndex(w.Cavity), 1, func(x []float64) shape.Solid {
		a0, mixed, a1 := f.areas(x)
		return shape.At(shape.Prism(a0, mixed, a1, unit.Length(x[thick])), unit.Length(x[height]))
	}}
	return body, height, thick, nil
}

// voidOf compiles a hole that opens at the top face of a piece, or names the
// size that is missing.
func voidOf(p *Project, in *inputs, w *Piece, f *faces, v *Void, height, thick int) (part, error) {
	at, name := "pieces/"+w.ID+"/voids/"+v.ID, orWord(v.Name, "the void")+" in "+w.Name
	label := w.Name + ": void " + v.Name
	need := func(size string) error { return &Problem{at + "/" + size, "measure the " + size + " of " + name} }
	if v.Depth.Given() && v.Depth.Value <= 0 {
		return part{}, &Problem{at + "/depth", "a void needs some depth; leave it empty if " + name + " goes right through"}
	}
	var area func(x []float64) float64
	switch v.Kind {
	case VoidRound:
		if v.Diameter.Value <= 0 {
			return part{}, need("diameter")
		}
		d := p.dim(in, at+"/diameter", label+" diameter", v.Diameter, 0)
		area = func(x []float64) float64 { return math.Pi / 4 * x[d] * x[d] }
	case VoidBox:
		if v.Length.Value <= 0 {
			return part{}, need("length")
		}
		if v.Width.Value <= 0 {
			return part{}, need("width")
		}
		l := p.dim(in, at+"/length", label+" length", v.Length, 0)
		b := p.dim(in, at+"/width", label+" width", v.Width, 0)
		area = func(x []float64) float64 { return x[l] * x[b] }
	case VoidOutline:
		if len(v.Outline) < 3 {
			return part{}, &Problem{at + "/outline", "trace " + name + " by at least three points"}
		}
		if err := v.Outline.Validate(); err != nil {
			return part{}, &Problem{at + "/outline", err.Error()}
		}
		traced, trace := float64(v.Outline.Area()), f.trace
		if trace == none {
			trace = in.add(at+"/outline", label+": traced outline", 1, float64(typicalTraceErr)/sqrt3)
			in.list[trace].typical = true
		}
		area = func(x []float64) float64 { return traced * x[trace] }
	default:
		return part{}, &Problem{at + "/kind", "choose the form of " + name}
	}
	deep := thick
	if v.Depth.Given() && v.Depth.Value < w.Thickness.Value {
		deep = p.dim(in, at+"/depth", label+" depth", v.Depth, 0)
	}
	return part{w.ID, p.cavityIndex(w.Cavity), -float64(max(1, v.Count)), func(x []float64) shape.Solid {
		h := x[deep]
		return shape.At(shape.Column(unit.Area(area(x)).By(unit.Length(h)), unit.Length(h)), unit.Length(x[height]+x[thick]-h))
	}}, nil
}

// cavityIndex turns a cavity's number, 0 or 1 for the first, to an index.
func (p *Project) cavityIndex(n int) int { return max(1, n) - 1 }

// insertOf compiles an insert to a solid; base gives the height it rests at.
func insertOf(p *Project, in *inputs, s *Insert, base func(x []float64) float64) (part, error) {
	at := "inserts/" + s.ID
	need := func(field, what string) error { return &Problem{at + "/" + field, what + " of " + s.Name} }
	dim := func(field, label string, d unit.Dim) int { return p.dim(in, at+"/"+field, s.Name+": "+label, d, 0) }
	length := func(x []float64, i int) unit.Length { return unit.Length(x[i]) }

	var solid func(x []float64) shape.Solid
	switch s.Kind {
	case InsertStanding, InsertRing, InsertFrustum:
		if !s.Diameter.Given() {
			return part{}, need("diameter", "measure the diameter")
		}
		if !s.Tall.Given() {
			return part{}, need("tall", "measure the height")
		}
		d, h := dim("diameter", "diameter", s.Diameter), dim("tall", "height", s.Tall)
		inner := dim("inner", "inner diameter", s.Inner)
		switch s.Kind {
		case InsertRing:
			if s.Inner.Value >= s.Diameter.Value {
				return part{}, &Problem{at + "/inner", "the hole of " + s.Name + " must be smaller than its outside"}
			}
			solid = func(x []float64) shape.Solid {
				return shape.RingSolid(length(x, d), length(x, inner), length(x, h))
			}
		case InsertFrustum:
			solid = func(x []float64) shape.Solid { return shape.Frustum(length(x, d), length(x, inner), length(x, h)) }
		default:
			solid = func(x []float64) shape.Solid { return shape.StandingCylinder(length(x, d), length(x, h)) }
		}
	case InsertLying, InsertHalf:
		if !s.Diameter.Given() {
			return part{}, need("diameter", "measure the diameter")
		}
		if !s.Length.Given() {
			return part{}, need("length", "measure the length")
		}
		d, l := dim("diameter", "diameter", s.Diameter), dim("length", "length", s.Length)
		if s.Kind == InsertLying {
			solid = func(x []float64) shape.Solid { return shape.LyingCylinder(length(x, d), length(x, l)) }
		} else {
			solid = func(x []float64) shape.Solid { return shape.HalfCylinder(length(x, d), length(x, l)) }
		}
	case InsertSphere:
		if !s.Diameter.Given() {
			return part{}, need("diameter", "measure the diameter")
		}
		d := dim("diameter", "diameter", s.Diameter)
		solid = func(x []float64) shape.Solid { return shape.Sphere(length(x, d)) }
	case InsertBox:
		for _, f := range []struct {
			name string
			dim  unit.Dim
		}{{"length", s.Length}, {"width", s.Width}, {"tall", s.Tall}} {
			if !f.dim.Given() {
				return part{}, need(f.name, "measure the "+map[string]string{"length": "length", "width": "width", "tall": "height"}[f.name])
			}
		}
		l, b, h := dim("length", "length", s.Length), dim("width", "width", s.Width), dim("tall", "height", s.Tall)
		solid = func(x []float64) shape.Solid { return shape.Box(length(x, l), length(x, b), length(x, h)) }
	case InsertDisplaces, InsertMass:
		return columnInsert(p, in, s, at, base)
	default:
		return part{}, &Problem{at + "/kind", "choose the form of " + s.Name}
	}
	return part{s.ID, p.cavityIndex(s.Cavity), float64(s.Count), func(x []float64) shape.Solid {
		return shape.At(solid(x), unit.Length(base(x)))
	}}, nil
}

// columnInsert compiles an insert known by what it displaces: its volume is
// spread evenly over its height, which where it was not measured is that of a
// ball of the same volume.
func columnInsert(p *Project, in *inputs, s *Insert, at string, base func(x []float64) float64) (part, error) {
	var v int
	switch s.Kind {
	case InsertDisplaces:
		if !s.Displaces.Given() || s.Displaces.Value <= 0 {
			return part{}, &Problem{at + "/displaces", "measure in water how much one of " + s.Name + " displaces"}
		}
		// A syringe or measuring cylinder reads to 2 % (common practice, no source).
		v = in.add(at+"/displaces", s.Name+": displaced volume", float64(s.Displaces.Value), 0.02*float64(s.Displaces.Value)/sqrt3)
	default:
		if !s.Mass.Given() || s.Mass.Value <= 0 {
			return part{}, &Problem{at + "/mass", "weigh one of " + s.Name}
		}
		if !s.Density.Given() || s.Density.Value <= 0 {
			return part{}, &Problem{at + "/density", "give the density of " + s.Name}
		}
		each := float64(s.Mass.Value.Over(s.Density.Value))
		v = in.add(at+"/density", s.Name+": mass over density", each, 0.03*each/sqrt3)
	}
	height := func(x []float64) float64 { return math.Cbrt(6 / math.Pi * x[v]) }
	if s.Tall.Given() {
		h := p.dim(in, at+"/tall", s.Name+": height", s.Tall, 0)
		height = func(x []float64) float64 { return x[h] }
	}
	return part{s.ID, p.cavityIndex(s.Cavity), float64(s.Count), func(x []float64) shape.Solid {
		return shape.At(shape.Column(unit.Volume(x[v]), unit.Length(height(x))), unit.Length(base(x)))
	}}, nil
}
