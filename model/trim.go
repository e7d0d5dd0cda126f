package model

import (
	"cmp"
	"math"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// typicalKerf is what a full saw blade takes (common practice, no source).
var typicalKerf = typical[unit.Length]{3.2e-3, 2e-3, 3.5e-3}

// trimPlan cuts the edges. The walls lean, so the narrowest of the sections
// between the two finished faces decides; with straight walls that is what the
// sections at the two faces have in common.
func (m *maker) trimPlan(b *blank) TrimPlan {
	f := &m.p.Finish.Trim
	t := TrimPlan{Shape: cmp.Or(f.Shape, TrimAsCast), Low: b.low, High: b.high, Kerf: taken(f.Kerf, typicalKerf)}
	c := m.fillNow.cavity
	cut := cutOf(f, c, b.low, b.high)
	s := m.sizes(b, cut)
	t.Length, t.Width, t.Thickness = estimate[unit.Length](s[0]), estimate[unit.Length](s[1]), estimate[unit.Length](s[2])
	t.Draft = unit.Length(math.Abs(float64(m.plan.Mold.DraftEach))).Times((b.high - b.low).Per(c.Depth()))
	if cut.ring == nil {
		t.Lines = m.trimLines(&t)
		return t
	}
	t.Turn, t.Middle, t.Ring = cut.turn, cut.middle, cut.ring
	t.Area, t.Around = cut.area, cut.around
	t.Edges = edgesOf(&cut, c.Section(b.low), c.Section(b.high))
	if all := c.VolumeBelow(b.high) - c.VolumeBelow(b.low); all > 0 {
		t.Lost = max(0, 1-t.Area.By(b.high-b.low).Per(all))
	}
	t.Lines = m.trimLines(&t)
	return t
}

// cut is a finished outline.
type cut struct {
	shape         TrimShape
	length, width unit.Length
	turn          unit.Angle
	middle        shape.Point
	ring          shape.Ring // nil where nothing is left
	area          unit.Area
	around        unit.Length
	narrow        unit.Length // the height of the narrower face
}

// cutOf gives the largest outline of a shape that lies within a cavity at both
// heights, with the extra taken off all round.
func cutOf(f *Trim, c shape.Cavity, low, high unit.Length) cut {
	lower, upper := c.Section(low), c.Section(high)
	k := cut{shape: cmp.Or(f.Shape, TrimAsCast), narrow: low}
	if upper.Area() < lower.Area() {
		k.narrow = high
	}
	extra := max(0, f.Extra.Value)
	switch k.shape {
	case TrimRectangle:
		r := shape.LargestRectangle([]shape.Section{lower, upper}, f.AnyTurn)
		k.length, k.width, k.turn, k.middle = r.Length-2*extra, r.Width-2*extra, r.Turn, r.Middle
		if k.length <= 0 || k.width <= 0 {
			k.length, k.width = 0, 0
			return k
		}
		if k.width > k.length && k.turn != 0 {
			k.length, k.width, k.turn = k.width, k.length, k.turn-90*unit.Degree
		}
		r.Length, r.Width, r.Turn = k.length, k.width, k.turn
		k.ring, k.area, k.around = r.Ring(), r.Area(), 2*(k.length+k.width)
	case TrimCircle:
		at, radius := shape.LargestCircle([]shape.Section{lower, upper})
		d := unit.Length(2*radius) - 2*extra
		if d <= 0 {
			return k
		}
		k.length, k.width, k.middle = d, d, at
		k.ring = shape.EllipseRing(d, d).Moved(at.X, at.Y)
		k.area, k.around = unit.Area(math.Pi/4*float64(d)*float64(d)), d.Times(math.Pi)
	default:
		s := shape.Common(lower, upper)
		if s == nil {
			return k
		}
		s, ok := shape.Inset(s, extra)
		if !ok {
			return k
		}
		lo, hi := s.Bounds()
		k.length, k.width = unit.Length(hi.X-lo.X), unit.Length(hi.Y-lo.Y)
		k.middle = shape.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
		k.ring, k.area = s.Ring(), s.Area()
		k.around = k.ring.Perimeter()
	}
	return k
}

// sizes gives length, width and thickness with what the measurements make of
// them. Where the outline is searched for, or is a tracing, the size goes with
// the root of the area of the narrower face. A thickness that was promised or
// measured is held to its instrument; else it is that of the fill line, the sink
// and what is to come off.
func (m *maker) sizes(b *blank, k cut) []spread {
	f := &m.p.Finish.Trim
	closed := m.p.Mold.Kind == MoldRectangle || m.p.Mold.Kind == MoldRound || m.p.Mold.Kind == MoldOval ||
		m.p.Mold.Kind == MoldPolygon && (k.shape != TrimRectangle || !f.AnyTurn && m.p.Mold.Sides%2 == 0)
	fixed := b.measured || b.promised > 0
	surface := float64(m.plan.Mold.Surface)
	sink := func(x []float64) float64 {
		v := 0.0
		last := len(m.layers) - 1
		for i := range m.layers {
			if i == last || m.p.Mixing.NoRefill {
				v += max(0, float64(m.taken[i].net)) * x[m.layers[i].shrink]
			}
		}
		return v / surface
	}
	fillTop := func(x []float64) float64 {
		z := 0.0
		for i := range m.layers {
			z = max(z, m.step(x, i, z))
		}
		if surface > 0 {
			z -= sink(x)
		}
		return z
	}
	base := fillTop(m.x)
	was := m.fillNow.cavity
	area := float64(was.AreaAt(k.narrow))
	all := propagate(&m.in, 3, func(x, out []float64) {
		high, narrow := b.high, k.narrow
		if !fixed {
			high += unit.Length(fillTop(x) - base)
		}
		out[0], out[1], out[2] = float64(k.length), float64(k.width), float64(high-b.low)
		c, err := m.cavity(x)
		if err != nil || k.ring == nil || high <= b.low {
			return
		}
		if narrow == b.high {
			narrow = high
		}
		if high == b.high && c.AreaAt(b.low) == was.AreaAt(b.low) && c.AreaAt(high) == was.AreaAt(high) {
			return // what this input changes is not the mold
		}
		if closed {
			moved := cutOf(f, c, b.low, high)
			out[0], out[1] = float64(moved.length), float64(moved.width)
			return
		}
		part := math.Sqrt(float64(c.AreaAt(narrow)) / area)
		out[0], out[1] = out[0]*part, out[1]*part
	})
	if fixed {
		by := cmp.Or(m.p.Finish.Thickness.By, b.by, unit.Caliper)
		s := float64(unit.StandardUncertainty(m.p.HalfWidth(by)))
		all[2] = spread{value: float64(b.reached()), sigma: s, up: s, down: s}
	}
	return all
}

// edgesOf gives what comes off each edge at either face, seen in the finished
// piece's own direction.
func edgesOf(k *cut, lower, upper shape.Section) [4]TrimEdge {
	names := [4]string{"left", "right", "near", "far"}
	bounds := func(s shape.Section) (lo, hi shape.Point) {
		if k.turn == 0 {
			return s.Bounds()
		}
		return s.Ring().Turned(-k.turn).Bounds()
	}
	own := shape.Ring{k.middle}
	if k.turn != 0 {
		own = own.Turned(-k.turn)
	}
	at := own[0]
	half := [2]float64{float64(k.length) / 2, float64(k.width) / 2}
	var edges [4]TrimEdge
	for i, s := range [2]shape.Section{lower, upper} {
		lo, hi := bounds(s)
		off := [4]float64{at.X - half[0] - lo.X, hi.X - at.X - half[0], at.Y - half[1] - lo.Y, hi.Y - at.Y - half[1]}
		for e := range edges {
			o := unit.Length(max(0, off[e]))
			if i == 0 {
				edges[e] = TrimEdge{names[e], o, o}
				continue
			}
			edges[e].Most, edges[e].Least = max(edges[e].Most, o), min(edges[e].Least, o)
		}
	}
	return edges
}
