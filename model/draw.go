package model

import (
	"cmp"
	"math"
	"slices"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// fineEnough is how far a drawn outline may leave the true one: less than any
// line is thick.
const fineEnough = 0.05 * unit.Millimetre

// between is the land drawn between two cavities of one mold.
const landBetween = 0.02

// draw lays out what the windows show.
func (m *maker) draw() {
	d := &m.plan.Drawing
	if !m.ok {
		return
	}
	fill := m.fillNow
	d.Fill = &fill
	c := m.fillNow.cavity
	depth := m.plan.Mold.Depth
	line := min(max(m.plan.Mold.FillLine, 0), depth)
	rim, floor, wall := c.Section(depth).Ring(), c.Section(0).Ring(), c.Section(line).Ring()
	placed := m.placedPieces()
	inserts := m.placeInserts(placed)
	n := m.plan.Mold.Count
	lo, hi := rim.Bounds()
	flo, fhi := floor.Bounds()
	long, wide := max(hi.X-lo.X, fhi.X-flo.X), max(hi.Y-lo.Y, fhi.Y-flo.Y)
	columns := min(n, max(1, int(math.Round(math.Sqrt(1.5*float64(n)*wide/long)))))
	rows := (n + columns - 1) / columns
	for i := range n {
		centre := shape.Point{
			X: (float64(i%columns) - float64(columns-1)/2) * (long + landBetween),
			Y: (float64(rows-1)/2 - float64(i/columns)) * (wide + landBetween),
		}
		if last := i / columns; last == rows-1 {
			centre.X += float64(rows*columns-n) / 2 * (long + landBetween)
		}
		cavity := CavityDrawing{Centre: centre, Rim: at(rim, centre), Floor: at(floor, centre), Fill: at(wall, centre)}
		for k := range placed {
			if m.p.cavityIndex(m.pieces[k].piece.Cavity) == i {
				cavity.Pieces = append(cavity.Pieces, m.pieceDrawing(k, placed[k], centre))
			}
		}
		for _, s := range inserts {
			if s.cavity == i {
				cavity.Inserts = append(cavity.Inserts, s.at(centre))
			}
		}
		d.Cavities = append(d.Cavities, cavity)
	}
	d.Min, d.Max = bounds(d.Cavities)
	d.Section = m.section(placed, inserts)
}

// at moves a ring to a cavity's place on the drawing.
func at(r shape.Ring, centre shape.Point) shape.Ring {
	if centre == (shape.Point{}) {
		return r
	}
	return r.Moved(centre.X, centre.Y)
}

func bounds(list []CavityDrawing) (lo, hi shape.Point) {
	lo, hi = shape.Point{X: math.Inf(1), Y: math.Inf(1)}, shape.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, c := range list {
		for _, r := range []shape.Ring{c.Rim, c.Floor} {
			a, b := r.Bounds()
			lo.X, lo.Y = min(lo.X, a.X), min(lo.Y, a.Y)
			hi.X, hi.Y = max(hi.X, b.X), max(hi.Y, b.Y)
		}
	}
	return lo, hi
}

// placedFaces are a piece's outlines where it lies, as many points each.
type placedFaces struct {
	bottom, top shape.Ring
	rough       shape.Ring // the underside to a millimetre, to keep inserts off
}

// placedPieces puts every piece where it lies, its outlines thinned to what a
// drawing can show.
func (m *maker) placedPieces() []placedFaces {
	list := make([]placedFaces, len(m.pieces))
	for k := range m.pieces {
		f := m.pieces[k].faces
		b, t := f.bottom, f.top
		if same(b, t) {
			b = b.Simplified(fineEnough)
			t = b
		}
		at := placedFaces{bottom: placedRing(m.pieces[k].piece, b)}
		at.top = at.bottom
		if !same(b, t) {
			at.top = placedRing(m.pieces[k].piece, t)
		}
		if len(m.p.Inserts) > 0 {
			at.rough = at.bottom.Simplified(unit.Millimetre)
		}
		list[k] = at
	}
	return list
}

// same tells whether two faces are one and the same outline.
func same(a, b shape.Ring) bool {
	return len(a) == len(b) && len(a) > 0 && (&a[0] == &b[0] || slices.Equal(a, b))
}

func (m *maker) pieceDrawing(k int, f placedFaces, centre shape.Point) PieceDrawing {
	w := m.pieces[k].piece
	d := PieceDrawing{
		ID: w.ID, Name: w.Name, Bottom: at(f.bottom, centre), Top: at(f.top, centre), Turn: w.Turn,
		Centre: shape.Point{X: float64(w.X) + centre.X, Y: float64(w.Y) + centre.Y},
		Fits:   m.plan.Pieces[k].Fit.Fits,
	}
	for i := range w.Voids {
		if r := w.Voids[i].ring(); r != nil {
			d.Voids = append(d.Voids, at(placedRing(w, r), centre))
		}
	}
	return d
}

// ring is a void's outline in the piece's axes.
func (v *Void) ring() shape.Ring {
	switch {
	case v.Kind == VoidRound && v.Diameter.Value > 0:
		return shape.EllipseRing(v.Diameter.Value, v.Diameter.Value).Moved(float64(v.X), float64(v.Y))
	case v.Kind == VoidBox && v.Length.Value > 0 && v.Width.Value > 0:
		return shape.RectangleRing(v.Length.Value, v.Width.Value, 0).Moved(float64(v.X), float64(v.Y))
	case v.Kind == VoidOutline && len(v.Outline) >= 3:
		return v.Outline.Moved(float64(v.X), float64(v.Y))
	}
	return nil
}

// section cuts the first cavity across, at x = Cut.
func (m *maker) section(placed []placedFaces, inserts []placedInsert) SectionDrawing {
	c := m.fillNow.cavity
	depth := float64(m.plan.Mold.Depth)
	floorLo, floorHi := c.Section(0).Bounds()
	cut := min(max(float64(m.p.Cut.Value), floorLo.X*0.98), floorHi.X*0.98)
	d := SectionDrawing{Cut: cut, FillLine: float64(m.plan.Mold.FillLine), Depth: depth}
	wall := func(z float64) (lo, hi float64) {
		list := c.Section(unit.Length(z)).Ring().CutAtX(cut)
		if len(list) == 0 {
			return 0, 0
		}
		return list[0].Lo, list[len(list)-1].Hi
	}
	rimLo, rimHi := wall(depth)
	lo, hi := wall(0)
	d.Cavity = []shape.Point{{X: rimLo, Y: depth}, {X: lo, Y: 0}, {X: hi, Y: 0}, {X: rimHi, Y: depth}}
	lean := func(z float64) (float64, float64) {
		f := min(max(z/depth, 0), 1)
		return lo + f*(rimLo-lo), hi + f*(rimHi-hi)
	}
	for k := range m.plan.Layers {
		l := &m.plan.Layers[k]
		b, t := min(float64(l.Bottom), depth), min(float64(l.Top), depth)
		if t <= b {
			continue
		}
		bl, bh := lean(b)
		tl, th := lean(t)
		d.Layers = append(d.Layers, SectionLayer{l.ID, b, float64(l.Top), l.Colour, l.Clear, shape.Ring{{X: bl, Y: b}, {X: bh, Y: b}, {X: th, Y: t}, {X: tl, Y: t}}})
	}
	for k := range placed {
		if m.p.cavityIndex(m.pieces[k].piece.Cavity) == 0 {
			if parts := m.sectionParts(k, placed[k], cut); len(parts) > 0 {
				d.Pieces = append(d.Pieces, SectionPiece{m.pieces[k].piece.ID, parts})
			}
		}
	}
	for _, s := range inserts {
		if s.cavity == 0 {
			e := s.at(shape.Point{})
			e.Centre = shape.Point{X: e.Centre.Y, Y: 0}
			d.Inserts = append(d.Inserts, e)
		}
	}
	return d
}

// sectionParts gives the cut faces of a piece, as bands between the heights at
// which something changes, with its voids left out.
func (m *maker) sectionParts(k int, f placedFaces, cut float64) []shape.Ring {
	w := m.pieces[k].piece
	p := &m.plan.Pieces[k]
	bottom, top := float64(p.Bottom), float64(p.Top)
	type slot struct{ lo, hi, from float64 }
	var slots []slot
	heights := []float64{bottom, top}
	for i := range w.Voids {
		v := &w.Voids[i]
		r := v.ring()
		if r == nil {
			continue
		}
		from := bottom
		if v.Depth.Given() {
			from = max(bottom, top-float64(v.Depth.Value))
		}
		for _, cutAt := range placedRing(w, r).CutAtX(cut) {
			slots = append(slots, slot{cutAt.Lo, cutAt.Hi, from})
			heights = append(heights, from)
		}
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	slice := func(z, within float64) []shape.Interval {
		t := 0.0
		if top > bottom {
			t = (z - bottom) / (top - bottom)
		}
		list := shape.Between(f.bottom, f.top, t).CutAtX(cut)
		for _, s := range slots {
			if within >= s.from {
				list = without(list, s.lo, s.hi)
			}
		}
		return list
	}
	var parts []shape.Ring
	for i := 1; i < len(heights); i++ {
		z0, z1 := heights[i-1], heights[i]
		middle := (z0 + z1) / 2
		a, b := slice(z0, middle), slice(z1, middle)
		if len(a) != len(b) {
			a = slice(middle, middle)
			b = a
		}
		for j := range a {
			parts = append(parts, shape.Ring{{X: a[j].Lo, Y: z0}, {X: a[j].Hi, Y: z0}, {X: b[j].Hi, Y: z1}, {X: b[j].Lo, Y: z1}})
		}
	}
	return parts
}

// without takes the interval lo to hi out of a list.
func without(list []shape.Interval, lo, hi float64) []shape.Interval {
	var out []shape.Interval
	for _, v := range list {
		if hi <= v.Lo || lo >= v.Hi {
			out = append(out, v)
			continue
		}
		if lo > v.Lo {
			out = append(out, shape.Interval{Lo: v.Lo, Hi: lo})
		}
		if hi < v.Hi {
			out = append(out, shape.Interval{Lo: hi, Hi: v.Hi})
		}
	}
	return out
}

// placedInsert is one insert with the place that the drawing gives it.
type placedInsert struct {
	insert      *Insert
	cavity      int
	bottom, top float64
	where       shape.Point
	long, wide  float64
}

// at draws the insert in a cavity.
func (s placedInsert) at(centre shape.Point) InsertDrawing {
	p := shape.Point{X: s.where.X + centre.X, Y: s.where.Y + centre.Y}
	d := InsertDrawing{ID: s.insert.ID, Centre: p, Bottom: s.bottom, Top: s.top, HalfWidth: s.wide / 2, Profile: s.profile()}
	l, w := unit.Length(s.long), unit.Length(s.wide)
	switch s.insert.Kind {
	case InsertLying, InsertHalf, InsertBox:
		d.Ring = shape.RectangleRing(l, w, 0).Moved(p.X, p.Y)
	default:
		d.Ring = shape.EllipseRing(l, w).Moved(p.X, p.Y)
		if hole := s.insert.Inner.Value; s.insert.Kind == InsertRing && hole > 0 {
			d.Hole = shape.EllipseRing(hole, hole).Moved(p.X, p.Y)
		}
	}
	return d
}

// profile is the insert seen along the mold; none where that is a box.
func (s placedInsert) profile() shape.Ring {
	d, foot := unit.Length(s.wide), s.bottom
	switch s.insert.Kind {
	case InsertSphere, InsertLying:
		return shape.EllipseRing(d, d).Moved(0, foot+s.wide/2)
	case InsertHalf:
		var upper shape.Ring
		for _, p := range shape.EllipseRing(d, d) {
			if p.Y > -1e-9 {
				upper = append(upper, p)
			}
		}
		return upper.Moved(0, foot)
	case InsertFrustum:
		b, t := float64(s.insert.Diameter.Value)/2, float64(s.insert.Inner.Value)/2
		return shape.Ring{{X: -b, Y: foot}, {X: b, Y: foot}, {X: t, Y: s.top}, {X: -t, Y: s.top}}
	}
	return nil
}

// mostDrawn bounds how many inserts are drawn.
const mostDrawn = 400

// placeInserts gives each insert a place on the drawing: clear of walls, wood
// and each other where there is room. Where they really go is the maker's to
// say; the amounts do not hang on it.
func (m *maker) placeInserts(wood []placedFaces) []placedInsert {
	type kind struct {
		s *Insert
		k int
	}
	var kinds []kind
	for i := range m.p.Inserts {
		if m.insert[i] != none {
			kinds = append(kinds, kind{&m.p.Inserts[i], i})
		}
	}
	// The widest find their place first.
	slices.SortStableFunc(kinds, func(a, b kind) int {
		la, _ := a.s.footprint()
		lb, _ := b.s.footprint()
		return cmp.Compare(lb, la)
	})
	var done []placedInsert
	next := 0
	for _, k := range kinds {
		plan := &m.plan.Inserts[k.k]
		long, wide := k.s.footprint()
		if long <= 0 || wide <= 0 {
			continue
		}
		one := placedInsert{insert: k.s, cavity: m.p.cavityIndex(k.s.Cavity), bottom: float64(plan.Bottom), top: float64(plan.Top), long: long, wide: wide}
		section := m.fillNow.cavity.Section(min(plan.Bottom, m.plan.Mold.Depth))
		obstacles := m.obstacles(wood, one)
		for range min(k.s.Count, mostDrawn-len(done)) {
			one.where, next = place(section, obstacles, done, one, next)
			done = append(done, one)
		}
	}
	return done
}

// obstacles are the pieces of wood at an insert's heights.
func (m *maker) obstacles(wood []placedFaces, s placedInsert) []shape.Ring {
	var list []shape.Ring
	for k := range wood {
		p := &m.plan.Pieces[k]
		if m.p.cavityIndex(m.pieces[k].piece.Cavity) == s.cavity && float64(p.Bottom) < s.top && float64(p.Top) > s.bottom {
			list = append(list, wood[k].rough)
		}
	}
	return list
}

// place finds the next clear spot in a sequence that covers the cavity evenly
// (the additive recurrence of the plastic number), after so many tries.
func place(section shape.Section, wood []shape.Ring, done []placedInsert, s placedInsert, from int) (shape.Point, int) {
	const tries = 250
	const g = 1.32471795724474602596
	lo, hi := section.Bounds()
	reach := math.Max(s.long, s.wide) / 2
	var p shape.Point
	for i := from; i < from+tries; i++ {
		u, v := frac(0.5+float64(i+1)/g), frac(0.5+float64(i+1)/(g*g))
		p = shape.Point{X: lo.X + u*(hi.X-lo.X), Y: lo.Y + v*(hi.Y-lo.Y)}
		if section.Clearance(p) < reach || slices.ContainsFunc(done, func(d placedInsert) bool { return d.meets(s, p) }) {
			continue
		}
		if !slices.ContainsFunc(wood, func(r shape.Ring) bool { return near(r, p, reach) }) {
			return p, i + 1
		}
	}
	return p, from + 1
}

func frac(x float64) float64 { return x - math.Floor(x) }

// meets tells whether an insert at p would lie in one already placed.
func (s placedInsert) meets(o placedInsert, p shape.Point) bool {
	if s.cavity != o.cavity || s.bottom >= o.top || o.bottom >= s.top {
		return false
	}
	return math.Hypot(s.where.X-p.X, s.where.Y-p.Y) < (max(s.long, s.wide)+max(o.long, o.wide))/2
}

// near tells whether a point lies in a ring or within reach of it.
func near(r shape.Ring, p shape.Point, reach float64) bool {
	if r.Contains(p) {
		return true
	}
	for i := range 8 {
		a := float64(i) * math.Pi / 4
		if r.Contains(shape.Point{X: p.X + reach*math.Cos(a), Y: p.Y + reach*math.Sin(a)}) {
			return true
		}
	}
	return false
}
