package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// rewood does with the outlines of the wood what the rule says, and moves each
// piece, and what is to be mounted, in proportion to the mold.
func (p *Project) rewood(was *Project, rule WoodRule) {
	sx, sy := stretch(was, p)
	if rule == RetraceWood {
		for i := range p.Pieces {
			p.Pieces[i].untrace()
		}
	}
	if sx == 1 && sy == 1 {
		return
	}
	p.Cut = asScaled(p.Cut, sx)
	for i := range p.Finish.Mounts {
		m := &p.Finish.Mounts[i]
		m.X, m.Y = m.X.Times(sx), m.Y.Times(sy)
	}
	for i := range p.Pieces {
		w := &p.Pieces[i]
		w.X, w.Y = w.X.Times(sx), w.Y.Times(sy)
		if rule == ScaleWood {
			w.scale(sx, sy)
		}
	}
}

// stretch tells how many times longer and wider the cavity of one project is
// than that of another, at the floor; 1 where either is not measured.
func stretch(was, now *Project) (sx, sy float64) {
	size := func(p *Project) (x, y float64) {
		var in inputs
		of, err := cavityOf(p, &in)
		if err != nil {
			return 0, 0
		}
		c, err := of(in.values())
		if err != nil {
			return 0, 0
		}
		lo, hi := c.Section(0).Bounds()
		return hi.X - lo.X, hi.Y - lo.Y
	}
	x, y := size(was)
	nx, ny := size(now)
	if !(x > 0 && y > 0 && nx > 0 && ny > 0) {
		return 1, 1
	}
	return nx / x, ny / y
}

// scale makes a piece so many times longer and wider, along the mold and across
// it. One that lies askew is scaled alike in both of its directions, to the
// same area. Thickness and moisture stay; its weight goes with its area.
func (w *Piece) scale(sx, sy float64) {
	a, b := sx, sy
	switch quarter := math.Mod(math.Abs(float64(w.Turn)), math.Pi); {
	case quarter < 1e-6 || math.Pi-quarter < 1e-6:
	case math.Abs(quarter-math.Pi/2) < 1e-6:
		a, b = sy, sx
	case sx != sy:
		a = math.Sqrt(sx * sy)
		b = a
	}
	widths := func(list []unit.Dim) {
		for i := range list {
			list[i] = asScaled(list[i], b)
		}
	}
	outline := func(r shape.Ring) shape.Ring {
		if len(r) == 0 {
			return r
		}
		return r.Scaled(a, b)
	}
	w.Length, w.Width, w.Spacing, w.Outline = asScaled(w.Length, a), asScaled(w.Width, b), asScaled(w.Spacing, a), outline(w.Outline)
	w.Top.Length, w.Top.Width, w.Top.Outline = asScaled(w.Top.Length, a), asScaled(w.Top.Width, b), outline(w.Top.Outline)
	widths(w.Stations)
	widths(w.Top.Stations)
	across := b
	if w.Nature.Crosswise {
		across = a
	}
	w.Nature.Width = asScaled(w.Nature.Width, across)
	for i := range w.Voids {
		v := &w.Voids[i]
		v.X, v.Y = v.X.Times(a), v.Y.Times(b)
		v.Diameter, v.Length, v.Width, v.Outline = asScaled(v.Diameter, math.Sqrt(a*b)), asScaled(v.Length, a), asScaled(v.Width, b), outline(v.Outline)
	}
	if w.Weight.Given() {
		w.Weight = unit.Taken[unit.Mass]{Value: w.Weight.Value.Times(a * b)}
	}
}

// untrace leaves a piece to be measured, with its name, its wood and its
// thickness.
func (w *Piece) untrace() {
	n := 0
	if w.Kind == PieceStations {
		n = len(w.Stations)
	}
	w.Length, w.Width, w.Spacing, w.Outline, w.Top = unit.Dim{}, unit.Dim{}, unit.Dim{}, nil, TopFace{}
	w.Stations, w.Voids, w.Weight = nil, nil, unit.Taken[unit.Mass]{}
	w.TraceErr, w.Nature.Width = unit.Taken[unit.Share]{}, unit.Dim{}
	if n > 0 {
		w.Stations = make([]unit.Dim, n)
	}
}

// recount gives each kind of insert the number that its room now asks for: as
// many to the area as there were, which is the free face at the height that it
// takes up, of its cavity. Wood that is still to be traced is left out on both
// sides.
func (p *Project) recount(was *Project, rule WoodRule) {
	bare := func(p *Project) *Plan {
		q := p.Clone()
		if q.Inserts = nil; rule == RetraceWood {
			q.Pieces = nil
		}
		pl := Make(q)
		return &pl
	}
	if len(p.Inserts) == 0 {
		return
	}
	before, now, whole := bare(was), bare(p), Make(*was)
	after := Make(*p)
	for i := range p.Inserts {
		s := &p.Inserts[i]
		if s.Count <= 0 {
			continue
		}
		old, room := free(before, &whole, was.Insert(s.ID)), free(now, &after, s)
		if old <= 0 || room <= 0 || old == room {
			continue
		}
		s.Count = min(max(1, int(math.Round(float64(s.Count)*room.Per(old)))), int(anyCount.high))
	}
}

// free is the area that is left in the cavity of an insert, over the height that
// it takes up: bare is the plan without inserts, pl that
// with them.
func free(bare, pl *Plan, insert *Insert) unit.Area {
	f, s := bare.Drawing.Fill, pl.Insert(insert.ID)
	if f == nil || s == nil {
		return 0
	}
	lo, hi := max(s.Bottom, 0), min(s.Top, f.Depth())
	if hi-lo < 0.1*unit.Millimetre {
		lo = min(lo, f.Depth()-0.1*unit.Millimetre)
		hi = lo + 0.1*unit.Millimetre
	}
	c := max(0, insert.Cavity-1)
	return unit.Area(float64(f.in(c, hi)-f.in(c, lo)) / float64(hi-lo))
}
