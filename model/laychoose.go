package model

import (
	"fmt"
	"math"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// Choose makes the piece of a lay-up, or one piece for each part that would come
// of it, and gives their IDs. Each lies in the mold exactly where it was seen
// over the slab. Pieces that were cut from this slab before are made anew in
// place: they keep their names, what is known of their wood, and the holes that
// the maker added; what they weighed is forgotten where they are cut otherwise.
// Pieces of this slab that are no longer there are taken out, all others stay.
// The project must be the one that the plan is of.
func (pl *Plan) Choose(p *Project, slab, layup string) (pieces []string, err error) {
	s := p.Slab(slab)
	if s == nil || s.Layup(layup) == nil {
		return nil, &Problem{"slabs/" + slab, "this place is no longer there"}
	}
	t := pl.LayTable(slab)
	if t == nil {
		return nil, &Problem{"slabs/" + slab, "trace the slab and measure the mold first"}
	}
	if !s.Thickness.Given() || s.Thickness.Value <= 0 {
		return nil, &Problem{"slabs/" + slab + "/thickness", "measure the thickness of " + orWord(s.Name, "the slab") + " first"}
	}
	l := *s.Layup(layup)
	_, parts := t.lay(l)
	if len(parts) == 0 {
		return nil, &Problem{"slabs/" + slab + "/layups/" + layup, "there is no wood in the cavity here; move it over the slab"}
	}
	var old []string
	for i := range p.Pieces {
		if p.Pieces[i].cutFrom(slab) {
			old = append(old, p.Pieces[i].ID)
		}
	}
	if len(p.Pieces)-len(old)+len(parts) > mostPieces {
		return nil, &Problem{"pieces", fmt.Sprintf("that would be more than %d pieces of wood", mostPieces)}
	}
	trace := pl.Slab(slab).traceErr()
	for k := range parts {
		if k == len(old) {
			p.Pieces = append(p.Pieces, p.nextFrom(s, old, k))
			old = append(old, p.Pieces[len(p.Pieces)-1].ID)
		}
		w := p.Piece(old[k])
		now := parts[k].piece(*w, l, s.Thickness)
		now.From, now.TraceErr = slab+"/"+layup, trace
		p.throughHoles(&now, *w, parts[k].holes)
		if !sameCut(w, &now) {
			now.Weight = unit.Taken[unit.Mass]{}
		}
		*w = now
		pieces = append(pieces, w.ID)
	}
	for _, id := range old[len(parts):] {
		if err := p.Remove("pieces/" + id); err != nil {
			return nil, err
		}
	}
	for i := range s.Layups {
		s.Layups[i].Chosen = s.Layups[i].ID == layup
	}
	return pieces, nil
}

// nextFrom is a piece of a slab that none was cut from before: of the same wood
// and at the same height as the last one.
func (p *Project) nextFrom(s *Slab, old []string, k int) Piece {
	w := Piece{ID: p.NewID("p"), Name: orWord(s.Name, "wood")}
	if k > 0 {
		w.Name += " " + itoa(k+1)
		last := p.Piece(old[k-1])
		w.Species, w.Nature, w.Density = last.Species, last.Nature, last.Density
		w.Height, w.Sealed, w.Bedded = last.Height, last.Sealed, last.Bedded
	}
	return w
}

// piece gives a piece the outlines and the place of a part.
func (c *layPart) piece(w Piece, l Layup, thick unit.Dim) Piece {
	w.Kind, w.Cavity = PieceOutline, l.Cavity
	w.Length, w.Width, w.Spacing, w.Stations, w.Straight = unit.Dim{}, unit.Dim{}, unit.Dim{}, nil, false
	w.Outline, w.Top, w.Thickness = c.bottom, TopFace{Outline: c.top}, thick
	at := shape.Ring{{X: c.middle.X - float64(l.X), Y: c.middle.Y - float64(l.Y)}}.Turned(-l.Turn)[0]
	w.X, w.Y, w.Turn = unit.Length(at.X), unit.Length(at.Y), 0-l.Turn
	return w
}

// throughHoles gives a piece the holes that were traced in the slab, beside
// those that the maker added to it. They go right through, but one that is cut
// as before keeps the name and the depth that it was given.
func (p *Project) throughHoles(w *Piece, was Piece, holes []shape.Ring) {
	var before, kept []Void
	for _, v := range was.Voids {
		if v.Kind == VoidOutline {
			before = append(before, v)
		} else {
			kept = append(kept, v)
		}
	}
	w.Voids = nil
	for i, hole := range holes {
		v := Void{Name: "traced hole " + itoa(i+1), Kind: VoidOutline, Outline: hole, Count: 1}
		switch {
		case i >= len(before):
			v.ID = p.NewID("v")
		case slices.Equal(before[i].Outline, hole):
			v = before[i]
		default:
			v.ID = before[i].ID
		}
		w.Voids = append(w.Voids, v)
	}
	w.Voids = append(w.Voids, kept...)
}

// traceErr is the half-width of the traced area, as a share, to the tenth of a
// percent that it is known to; of the two faces the less sure one.
func (s *SlabPlan) traceErr() unit.Taken[unit.Share] {
	share := 0.0
	for _, a := range [2]Estimate[unit.Area]{s.Upper.Area, s.Under.Area} {
		if a.Value > 0 {
			share = max(share, sqrt3*float64(a.Sigma)/float64(a.Value))
		}
	}
	tenths := math.Ceil(share*1000 - 1e-9)
	if tenths <= 0 {
		return unit.Taken[unit.Share]{}
	}
	return unit.Taken[unit.Share]{Value: unit.Share(tenths / 1000), Written: fmt.Sprintf("%.1f %%", tenths/10)}
}

// sameCut tells whether two pieces of one lay-up have the same outlines,
// thickness and traced holes.
func sameCut(a, b *Piece) bool {
	if a.Thickness.Value != b.Thickness.Value {
		return false
	}
	traced := func(w *Piece) (list []shape.Ring) {
		for i := range w.Voids {
			if w.Voids[i].Kind == VoidOutline {
				list = append(list, w.Voids[i].Outline)
			}
		}
		return list
	}
	return slices.Equal(a.Outline, b.Outline) && slices.Equal(a.Top.Outline, b.Top.Outline) &&
		slices.EqualFunc(traced(a), traced(b), slices.Equal[shape.Ring])
}
