package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// GrainPlan is a piece by the run of its grain.
type GrainPlan struct {
	Along, Across unit.Length // its size along the grain and across it, at its widest
	Faces         unit.Area   // both faces
	Sides         unit.Area   // of its edges what runs with the grain
	Ends          unit.Area   // of its edges what shows end grain
}

// grainOf lays a piece out by its grain, which runs along its longer size
// unless it was said to run across. An edge that meets the grain at an angle is
// shared between side and end by the squares of cosine and sine, which add up
// to the edge. The walls of voids are left out.
func grainOf(w *Piece, f *faces, thick unit.Length) GrainPlan {
	lo, hi := f.bottom.Bounds()
	if l, h := f.top.Bounds(); len(f.top) > 0 {
		lo, hi = shape.Point{X: min(lo.X, l.X), Y: min(lo.Y, l.Y)}, shape.Point{X: max(hi.X, h.X), Y: max(hi.Y, h.Y)}
	}
	x, y := unit.Length(hi.X-lo.X), unit.Length(hi.Y-lo.Y)
	alongX := (x >= y) != w.Nature.Crosswise
	g := GrainPlan{Along: x, Across: y, Faces: f.bottom.Area() + f.top.Area()}
	if !alongX {
		g.Along, g.Across = y, x
	}
	for _, r := range []shape.Ring{f.bottom, f.top} {
		side, end := splitEdges(r, alongX)
		g.Sides += (side / 2).By(thick)
		g.Ends += (end / 2).By(thick)
	}
	if n := &w.Nature; n.Width.Given() && n.Width.Value > 0 {
		g.Across = n.Width.Value
	}
	return g
}

// splitEdges shares the length of an outline between what runs with the grain
// and what runs across it.
func splitEdges(r shape.Ring, alongX bool) (side, end unit.Length) {
	for i, p := range r {
		q := r[(i+1)%len(r)]
		dx, dy := q.X-p.X, q.Y-p.Y
		l := math.Hypot(dx, dy)
		if l == 0 {
			continue
		}
		if !alongX {
			dx, dy = dy, dx
		}
		side += unit.Length(dx * dx / l)
		end += unit.Length(dy * dy / l)
	}
	return side, end
}

// The film that a brushed seal coat leaves: on faces and edges along the grain,
// and on end grain and punky wood, which drink (common practice, no source).
var (
	sealFace = typical[unit.Length]{0.10e-3, 0.05e-3, 0.15e-3}
	sealEnd  = typical[unit.Length]{0.6e-3, 0.3e-3, 1.0e-3}
)

// SealPlan is what a seal coat takes, and when the pour may follow.
type SealPlan struct {
	Needed   bool // the wood is bare, and open enough to want one
	Product  string
	Sheet    string
	Face     Known[unit.Mass] // faces, and edges along the grain
	End      Known[unit.Mass] // end grain, and all of a punky piece
	Total    Known[unit.Mass]
	FaceArea unit.Area
	EndArea  unit.Area
	All      Known[unit.Mass] // of all bare pieces together
	From, To Known[unit.Span] // after the coat, when the pour may follow
}

// coat gives the mass of a film on an area, with the film's band.
func coat(area unit.Area, film typical[unit.Length], rho unit.Density) Known[unit.Mass] {
	of := func(f unit.Length) unit.Mass { return area.By(f).Of(rho) }
	return Known[unit.Mass]{Value: of(film.value), Low: of(film.low), High: of(film.high), Typical: true, Source: "common practice, no source"}
}

// both adds two masses with their bands.
func both(a, b Known[unit.Mass]) Known[unit.Mass] {
	return Known[unit.Mass]{Value: a.Value + b.Value, Low: a.Low + b.Low, High: a.High + b.High, Typical: a.Typical || b.Typical, Source: a.Source}
}

// sealOf works out the seal coat of a piece, of the resin that first meets it.
func (pl *Plan) sealOf(w *Piece, plan *PiecePlan) SealPlan {
	s := SealPlan{Needed: !w.Sealed && w.pores() != PoresFine, From: Known[unit.Span]{Absent: true}, To: Known[unit.Span]{Absent: true}}
	l := pl.firstOn(plan)
	if l == nil {
		return s
	}
	s.Product, s.Sheet, s.From, s.To = l.SheetName, l.Sheet, l.Times.RecoatFrom, l.Times.RecoatTo
	s.FaceArea, s.EndArea, s.Face, s.End = coats(w, plan, l.Density.Value)
	s.Total = both(s.Face, s.End)
	return s
}

// sealAll is what the seal coats of all bare pieces take.
func (pl *Plan) sealAll(p *Project) Known[unit.Mass] {
	var all Known[unit.Mass]
	for i := range p.Pieces {
		w := &p.Pieces[i]
		plan := pl.Piece(w.ID)
		if plan == nil || w.Sealed {
			continue
		}
		if l := pl.firstOn(plan); l != nil {
			_, _, face, end := coats(w, plan, l.Density.Value)
			all = both(all, both(face, end))
		}
	}
	return all
}

// coats gives the areas of a piece by how much they drink, and what each takes.
func coats(w *Piece, plan *PiecePlan, rho unit.Density) (face, end unit.Area, onFace, onEnd Known[unit.Mass]) {
	g := &plan.Grain
	face, end = g.Faces+g.Sides, g.Ends
	if w.pores() == PoresPunky {
		face, end = 0, face+end
	}
	return face, end, coat(face, sealFace, rho), coat(end, sealEnd, rho)
}

// firstOn is the layer that first meets a piece; nil while no pour reaches it.
func (pl *Plan) firstOn(plan *PiecePlan) *LayerPlan {
	for i := range pl.Layers {
		if l := &pl.Layers[i]; l.Top > plan.Bottom && l.Sheet != "" {
			return l
		}
	}
	return nil
}

// pores gives how open a piece is: as the maker says, else by its species;
// nothing where neither is known.
func (w *Piece) pores() PoreKind {
	if w.Nature.Pores != "" {
		return w.Nature.Pores
	}
	if s, _, ok := SpeciesOf(w.Species); ok {
		return s.Pores
	}
	return ""
}
