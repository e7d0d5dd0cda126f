package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// fitHeights is at how many heights a piece is held against the walls. The
// distances change along straight lines between the ends, so a few suffice.
const fitHeights = 5

// clearEnough is how far a piece may touch a wall and still count as clear: a
// tenth of a millimetre is below what a rule can tell.
const clearEnough = 1e-4

func (m *maker) woods() {
	for k := range m.pieces {
		m.plan.Pieces = append(m.plan.Pieces, m.piecePlan(k))
	}
}

func (m *maker) piecePlan(k int) PiecePlan {
	w := &m.pieces[k]
	p := PiecePlan{ID: w.piece.ID, Name: w.piece.Name}
	a0, _, _ := w.faces.areas(m.x)
	p.Footprint = a0
	p.Bottom = unit.Length(m.x[w.height])
	p.Top = p.Bottom + unit.Length(m.x[w.thick])
	p.Proud = p.Top - m.plan.Mold.FillLine
	p.Density = w.piece.Density.Value
	p.Typical, p.Grain = w.piece.typicalOf(), grainOf(w.piece, w.faces, p.Top-p.Bottom)
	if m.ok {
		p.Volume = estimate[unit.Volume](m.volume[k])
		for _, v := range w.voids {
			part := &m.fillNow.parts[v]
			p.Voids -= part.solid.VolumeBelow(part.solid.Top()).Times(part.count)
		}
		p.Fit = m.fitOf(w, &p)
	}
	m.weigh(w.piece, &p)
	m.lift(w, &p)
	return p
}

// weigh holds a piece's measured volume against its weight.
func (m *maker) weigh(w *Piece, p *PiecePlan) {
	if !w.Weight.Given() || p.Volume.Value <= 0 {
		return
	}
	if !w.Density.Given() {
		p.Density = unit.Density(float64(w.Weight.Value) / float64(p.Volume.Value))
		return
	}
	v := w.Weight.Value.Over(w.Density.Value)
	p.ByWeight = &WeightCheck{Volume: v, Apart: float64(v)/float64(p.Volume.Value) - 1}
}

// lift finds how deep the resin may stand above a piece's underside before the
// piece floats: where the resin it displaces weighs what it weighs. Zero when
// it never floats or its density is not known.
func (m *maker) lift(w *stackPiece, p *PiecePlan) {
	if !m.ok || p.Density <= 0 || p.Volume.Value <= 0 {
		return
	}
	f := m.pieceFloating(w, w.piece.Weight.Or(p.Volume.Value.Of(p.Density)))
	if z, found := f.lifts(m.resinAt(p.Bottom)); found {
		p.LiftsAt = z - p.Bottom
	}
}

// resinAt is the mixed density of the layer at a height; the first layer's
// when there is none there, 0 when there is no layer.
func (m *maker) resinAt(z unit.Length) unit.Density {
	for k := range m.layers {
		if t := m.taken[k]; z >= unit.Length(t.bottom) && z < unit.Length(t.top) {
			return m.layers[k].known.Value
		}
	}
	if len(m.layers) > 0 {
		return m.layers[0].known.Value
	}
	return 0
}

// placedRing is a ring in the piece's axes put where the piece lies.
func placedRing(w *Piece, r shape.Ring) shape.Ring {
	if w.Turn != 0 {
		r = r.Turned(w.Turn)
	}
	if w.X != 0 || w.Y != 0 {
		r = r.Moved(float64(w.X), float64(w.Y))
	}
	return r
}

// fitOf holds a piece against the walls at every height it occupies below the
// rim.
func (m *maker) fitOf(w *stackPiece, p *PiecePlan) FitPlan {
	c := m.fillNow.cavity
	bottom, top := placedRing(w.piece, w.faces.bottom), placedRing(w.piece, w.faces.top)
	fit := FitPlan{Fits: true, Sits: true, SitsAt: p.Bottom}
	if p.Bottom >= m.plan.Mold.Depth {
		return fit // it lies above the rim
	}
	var worst shape.Misfit
	for i, mis := range shape.Fit(c, bottom, top, p.Bottom, p.Top, fitHeights) {
		if i == 0 || mis.Over > worst.Over {
			worst = mis
		}
	}
	if worst.Over > clearEnough {
		fit.Fits = false
		fit.Over, fit.OverAt = unit.Length(worst.Over), unit.Length(worst.Z)
		fit.LongBy, fit.WideBy = unit.Length(worst.LongBy), unit.Length(worst.WideBy)
		fit.SitsAt, fit.Sits = shape.SitsAt(c, bottom, top, p.Bottom, p.Top-p.Bottom)
	} else {
		fit.LongBy, fit.WideBy = unit.Length(worst.LongBy), unit.Length(worst.WideBy)
	}
	line := min(m.plan.Mold.FillLine, p.Top, m.plan.Mold.Depth)
	fit.GapFloor = gapAt(c, bottom, p.Bottom)
	f := 1.0
	if p.Top > p.Bottom {
		f = math.Max(0, float64(line-p.Bottom)/float64(p.Top-p.Bottom))
	}
	fit.GapFill = gapAt(c, shape.Between(bottom, top, f), max(line, p.Bottom))
	return fit
}

// gapAt measures the room between an outline and the walls at one height: the
// least of all, and towards each side between the bounds of the two.
func gapAt(c shape.Cavity, r shape.Ring, z unit.Length) Gap {
	section := c.Section(z)
	g := Gap{Height: z}
	for _, at := range shape.Fit(c, r, r, z, z, 1) {
		g.Least, g.At = unit.Length(at.Gap), at.GapAt
	}
	lo, hi := r.Bounds()
	wallLo, wallHi := section.Bounds()
	g.Left, g.Right = unit.Length(lo.X-wallLo.X), unit.Length(wallHi.X-hi.X)
	g.Near, g.Far = unit.Length(lo.Y-wallLo.Y), unit.Length(wallHi.Y-hi.Y)
	return g
}

// loose plans the inserts.
func (m *maker) loose() {
	for i := range m.p.Inserts {
		m.plan.Inserts = append(m.plan.Inserts, m.insertPlan(i))
	}
}

func (m *maker) insertPlan(i int) InsertPlan {
	s := &m.p.Inserts[i]
	p := InsertPlan{ID: s.ID, Name: s.Name, Count: s.Count, Layers: make([]unit.Volume, len(m.layers))}
	k := m.insert[i]
	if k == none {
		return p
	}
	solid := m.parts[k].solid(m.x)
	p.Bottom, p.Top = solid.Bottom(), solid.Top()
	p.Each = solid.VolumeBelow(p.Top)
	p.Total = p.Each.Times(float64(s.Count))
	for j, t := range m.taken {
		lo, hi := unit.Length(t.bottom), unit.Length(t.top)
		if hi > lo {
			p.Layers[j] = (solid.VolumeBelow(hi) - solid.VolumeBelow(lo)).Times(float64(s.Count))
		}
	}
	p.Cover = m.plan.Mold.FillLine - m.plan.Mold.Sink - m.p.Finish.Top.Value - p.Top
	p.Floats = !s.Fixed && s.density(p.Each) > 0 && s.density(p.Each) < m.resinAt(p.Bottom)
	return p
}

// density is an insert's own, as given or from its mass and volume; 0 when it
// is not known.
func (s *Insert) density(each unit.Volume) unit.Density {
	switch {
	case s.Density.Given():
		return s.Density.Value
	case s.Mass.Given() && each > 0:
		return unit.Density(float64(s.Mass.Value) / float64(each))
	}
	return 0
}
