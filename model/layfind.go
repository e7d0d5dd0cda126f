package model

import (
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// SuggestLayup puts a lay-up where it makes sense to begin: the cavity's middle
// on the middle of the wood, its longer direction along the wood's. False while
// the slab is not traced.
func (pl *Plan) SuggestLayup(slab string, l *Layup) bool {
	s := pl.Slab(slab)
	if s == nil || len(s.Upper.Region) == 0 {
		return false
	}
	middle, along := axisOf(s.Upper.Region)
	if i := max(1, l.Cavity) - 1; i < len(pl.Drawing.Cavities) {
		if lo, hi := pl.Drawing.Cavities[i].Rim.Bounds(); hi.Y-lo.Y > hi.X-lo.X {
			along -= 90 * unit.Degree
		}
	}
	l.X, l.Y = toMillimetre(middle.X), toMillimetre(middle.Y)
	l.Turn = halfTurn(unit.Angle(math.Round(along.Degrees()*2)/2) * unit.Degree)
	return true
}

// toMillimetre rounds to whole millimetres.
func toMillimetre(metres float64) unit.Length {
	return unit.Length(math.Round(metres*1000)) * unit.Millimetre
}

// halfTurn gives the same direction of a line between -90 and 90 degrees.
func halfTurn(a unit.Angle) unit.Angle {
	return unit.Angle(math.Remainder(float64(a), math.Pi))
}

// axisOf gives the centre of area of a region and the direction in which it is
// longest: the axis of the least second moment of area, which for a polygon is a
// sum over its edges (Green's theorem; the closed forms are in any handbook of
// mechanics).
func axisOf(region shape.Region) (middle shape.Point, along unit.Angle) {
	lo, hi := region.Bounds()
	o := shape.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
	var a, sx, sy, xx, xy, yy float64
	for _, r := range region {
		for i, p := range r {
			q := r[(i+1)%len(r)]
			px, py, qx, qy := p.X-o.X, p.Y-o.Y, q.X-o.X, q.Y-o.Y
			c := px*qy - qx*py
			a += c / 2
			sx += c * (px + qx) / 6
			sy += c * (py + qy) / 6
			xx += c * (px*px + px*qx + qx*qx) / 12
			yy += c * (py*py + py*qy + qy*qy) / 12
			xy += c * (px*qy + 2*px*py + 2*qx*qy + qx*py) / 24
		}
	}
	if !(a > 0) {
		return o, 0
	}
	mx, my := sx/a, sy/a
	xx, yy, xy = xx-a*mx*mx, yy-a*my*my, xy-a*mx*my
	return shape.Point{X: o.X + mx, Y: o.Y + my}, unit.Angle(math.Atan2(2*xy, xx-yy) / 2)
}

// Layup finds a lay-up of a slab by ID; nil when it is not there.
func (s *Slab) Layup(id string) *Layup {
	return named(s.Layups, id, func(l *Layup) string { return l.ID })
}

// Layup finds what a lay-up of a slab gives; nil when it is not there.
func (s *SlabPlan) Layup(id string) *LayPlan {
	return named(s.Lay, id, func(l *LayPlan) string { return l.ID })
}

// Moved gives the lay-up shifted in the slab's axes and turned counterclockwise
// about the cavity's middle, its turn between -180 and 180 degrees.
func (l Layup) Moved(dx, dy unit.Length, by unit.Angle) Layup {
	l.X, l.Y = l.X+dx, l.Y+dy
	l.Turn = unit.Angle(math.Remainder(float64(l.Turn+by), 2*math.Pi))
	return l
}

// StaleLayup tells whether a lay-up that was chosen would give other pieces now
// than those that were made of it, or would put them elsewhere in the mold.
func (pl *Plan) StaleLayup(p *Project, slab, layup string) bool {
	from := slab + "/" + layup
	var was []Piece
	for i := range p.Pieces {
		if p.Pieces[i].From == from {
			was = append(was, p.Pieces[i])
		}
	}
	if len(was) == 0 {
		return false
	}
	now := p.Clone()
	made, err := pl.Choose(&now, slab, layup)
	if err != nil || len(made) != len(was) {
		return true
	}
	for i, id := range made {
		w := now.Piece(id)
		if w == nil || !sameCut(w, &was[i]) || !samePlace(w, &was[i]) {
			return true
		}
	}
	return false
}

// samePlace tells whether two pieces lie in the same place of the mold, to what
// a hand could tell.
func samePlace(a, b *Piece) bool {
	const turned = 0.1 * unit.Degree
	turn := math.Abs(math.Remainder(float64(a.Turn-b.Turn), 2*math.Pi))
	return max(1, a.Cavity) == max(1, b.Cavity) && turn < float64(turned) &&
		math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < clearEnough
}
