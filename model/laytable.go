package model

import (
	"slices"
	"strings"

	"meniscus/model/shape"
	"meniscus/model/unit"
)

// layGround is what every lay-up of a slab stands on, kept from when the plan
// was made: the mold, the slab's thickness, and what else lies in the mold.
type layGround struct {
	cavity  shape.Cavity
	depth   unit.Length
	line    unit.Length   // the fill line; the rim while no pour is planned
	thick   unit.Length   // of the slab, measured or usual
	heights []unit.Length // undersides of the pieces already cut from it, else of one on the floor
	drilled [][]placed    // holes that the maker added to those
	room    unit.Volume   // of one cavity below the fill line
	others  []unit.Volume // what other wood and inserts take of it, for each cavity
	density unit.Density  // of the first layer as mixed; 0 while none is planned
}

// layUps tells what each lay-up would give.
func (m *maker) layUps() {
	if !m.ok {
		return
	}
	for i := range m.p.Slabs {
		s, plan := &m.p.Slabs[i], &m.plan.Slabs[i]
		plan.ground = m.layGround(s)
		if len(s.Layups) == 0 {
			continue
		}
		t := m.plan.LayTable(s.ID)
		if t == nil {
			continue
		}
		for _, l := range s.Layups {
			plan.Lay = append(plan.Lay, t.At(l))
		}
	}
}

// cutFrom tells whether a piece was cut by a lay-up of a slab.
func (w *Piece) cutFrom(slab string) bool { return strings.HasPrefix(w.From, slab+"/") }

// layGround gathers what the lay-ups of a slab stand on.
func (m *maker) layGround(s *Slab) *layGround {
	g := &layGround{cavity: m.fillNow.cavity, depth: m.fillNow.Depth(), thick: s.Thickness.Or(usualThick)}
	g.line = g.depth
	if len(m.layers) > 0 {
		g.density = m.layers[0].known.Value
		if m.plan.Mold.FillLine > 0 {
			g.line = min(m.plan.Mold.FillLine, g.depth)
		}
	}
	g.room = g.cavity.VolumeBelow(g.line)
	own := make([]bool, len(m.parts))
	for i := range m.p.Pieces {
		w := &m.p.Pieces[i]
		if !w.cutFrom(s.ID) {
			continue
		}
		var drilled []placed
		if k := slices.IndexFunc(m.pieces, func(c stackPiece) bool { return c.piece == w }); k >= 0 {
			own[m.pieces[k].body] = true
			for _, v := range m.pieces[k].voids {
				own[v] = true
			}
			for _, v := range m.pieces[k].drilled {
				drilled = append(drilled, m.fillNow.parts[v])
			}
		}
		g.heights, g.drilled = append(g.heights, w.Height.Value), append(g.drilled, drilled)
	}
	if len(g.heights) == 0 {
		g.heights, g.drilled = []unit.Length{0}, make([][]placed, 1)
	}
	g.others = make([]unit.Volume, m.fillNow.count)
	for k, p := range m.fillNow.parts {
		if !own[k] && p.cavity < len(g.others) {
			g.others[p.cavity] += p.solid.VolumeBelow(g.line).Times(p.count)
		}
	}
	return g
}

// height gives where the underside of the k-th part lies.
func (g *layGround) height(k int) unit.Length { return g.heights[min(k, len(g.heights)-1)] }

// LayTable is a slab with the mold over it, made ready so that a lay-up can be
// told while it is dragged. It is not to be used by two at once.
type LayTable struct {
	*layGround
	upper, under shape.Ready  // faces, in the slab's axes
	whole        shape.Ready  // what either face covers
	alike        bool         // the two faces are one outline
	floor, rim   shape.Region // of the cavity, in its own axes
	saw          saw
	sawn         sawn // by saw
	ready        bool
}

// LayTable makes a slab ready for trying lay-ups; nil while the slab is not
// traced or the mold is not measured. Where the under face is not straightened
// the upper one stands for it; where the thickness is not measured a usual one
// does.
func (pl *Plan) LayTable(slab string) *LayTable {
	s := pl.Slab(slab)
	if s == nil || s.ground == nil || len(s.Upper.Region) == 0 {
		return nil
	}
	t := &LayTable{layGround: s.ground, upper: s.Upper.Region.Ready()}
	if t.alike = !s.Under.Shot || len(s.Under.Region) == 0; t.alike {
		t.under, t.whole = t.upper, t.upper
	} else {
		t.under = s.Under.Region.Ready()
		t.whole = t.upper.Or(t.under.Region).Ready()
	}
	t.floor, t.rim = shape.Region{t.cavity.Section(0).Ring()}, shape.Region{t.cavity.Section(t.depth).Ring()}
	return t
}

// saw is how a blank is cut.
type saw struct {
	gap, trim, kerf unit.Length
	bevelled        bool
}

// sawn are the outlines that a saw follows, in the cavity's axes.
type sawn struct {
	under, upper shape.Region // what a piece can fill at its two faces
	blank, kerf  shape.Region // with the trim, and with the saw's cut besides
}

// cutBy gives the outlines of a saw, anew only where it is set otherwise than
// before. A saw that stands upright must clear the walls at every height of the
// piece, so that the narrower of the sections at its two faces governs.
func (t *LayTable) cutBy(s saw) *sawn {
	if t.ready && s == t.saw {
		return &t.sawn
	}
	section := func(z unit.Length) shape.Region { return shape.NewRegion(t.cavity.Section(z).Ring()) }
	lower := t.heights[0]
	for _, h := range t.heights {
		lower = min(lower, h)
	}
	under, upper := section(lower), section(min(lower+t.thick, t.depth))
	if !s.bevelled {
		under = under.And(upper)
		upper = under
	}
	c := sawn{under: under.Grown(-s.gap)}
	c.upper = c.under
	if s.bevelled {
		c.upper = upper.Grown(-s.gap)
	}
	outer := c.under
	if s.bevelled {
		outer = outer.Or(c.upper)
	}
	c.blank = outer.Grown(s.trim)
	c.kerf = c.blank
	if s.kerf > 0 {
		c.kerf = outer.Grown(s.trim + s.kerf)
	}
	t.saw, t.sawn, t.ready = s, c, true
	return &t.sawn
}

// laid puts an outline of the cavity where a lay-up has it.
func (l *Layup) laid(r shape.Region) shape.Region {
	return r.Turned(l.Turn).Moved(float64(l.X), float64(l.Y))
}

// At tells what a lay-up would give.
func (t *LayTable) At(l Layup) LayPlan {
	plan, _ := t.lay(l)
	return plan
}

// lay works out a lay-up, with the parts that come of it.
func (t *LayTable) lay(l Layup) (LayPlan, []layPart) {
	plan := LayPlan{ID: l.ID, Floor: l.laid(t.floor), Rim: l.laid(t.rim), Gap: l.GapTaken(), Kerf: l.KerfTaken()}
	cavity := max(1, l.Cavity) - 1
	if cavity < len(t.others) {
		plan.Resin = -t.others[cavity]
	}
	plan.Resin += t.room
	saw := t.cutBy(saw{max(0, plan.Gap.Value), max(0, l.Trim.Value), max(0, plan.Kerf.Value), l.Bevelled})
	parts := t.parts(&l, saw, &plan)
	for k := range parts {
		p := &parts[k]
		plan.Upper, plan.Under = append(plan.Upper, p.upper...), append(plan.Under, p.under...)
		v := p.below(t.line, t.height(k), t.thick)
		if k < len(t.drilled) {
			for _, d := range t.drilled[k] {
				v += d.solid.VolumeBelow(t.line).Times(d.count)
			}
		}
		plan.Volume += v
	}
	plan.Resin -= plan.Volume
	plan.Pieces = len(parts)
	plan.Area = (plan.Upper.Area() + plan.Under.Area()) / 2
	if t.room > 0 {
		plan.Share = float64(plan.Volume) / float64(t.room)
	}
	if t.density > 0 {
		plan.Mass = plan.Resin.Of(t.density)
	}
	t.sawOut(&l, saw, parts, &plan)
	return plan, parts
}

// sawOut finds what is cut out of the slab, and what stays of it.
func (t *LayTable) sawOut(l *Layup, saw *sawn, parts []layPart, plan *LayPlan) {
	if len(parts) == 0 {
		plan.Left = largestArea(t.upper.Parts())
		return
	}
	blank, cuts := t.whole.AndCut(l.laid(saw.blank))
	runs := cutRuns(blank, cuts)
	for _, part := range blank.Parts() {
		if !meets(part, parts) {
			continue
		}
		plan.Blank = append(plan.Blank, part...)
		for _, r := range part {
			for _, run := range runs[&r[0]] {
				plan.Cut += run.Along()
			}
		}
	}
	rest := t.upper.Without(l.laid(saw.kerf))
	plan.Left = largestArea(rest.Parts())
	if !t.alike {
		rest = t.whole.Without(l.laid(saw.kerf))
	}
	plan.Sawdust = max(0, t.whole.Area()-rest.Area()-blank.Area())
}

// largestArea gives the area of the largest of some regions.
func largestArea(parts []shape.Region) unit.Area {
	most := unit.Area(0)
	for _, p := range parts {
		most = max(most, p.Area())
	}
	return most
}
