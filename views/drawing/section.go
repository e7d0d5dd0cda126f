package drawing

import (
	"math"
	"slices"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// SectionScene is a cut across the mold, A-A in the plan view.
type SectionScene struct {
	Plan  *model.Plan
	Style Style
	Layer string // ID of the selected layer or piece, or ""
	// Note gives what a level would mean while it is dragged, such as the
	// resin it takes. It may be nil.
	Note func(layer string, level unit.Length) string
	Heat *Heat // colours the resin by what is in it, instead of its tint; may be nil
}

// band is the thickness of the walls as drawn, in dp. They are not measured.
const band = 13.0

// Selected gives the ID of the selected layer or piece.
func (c SectionScene) Selected() string { return c.Layer }

// Select gives the scene with another layer or piece selected.
func (c SectionScene) Select(id string) Scene {
	c.Layer = id
	return c
}

// Fit gives the view of the whole section. A very flat one is drawn with
// heights stretched by a whole factor of at most ten.
func (c SectionScene) Fit(box Box) View {
	m := c.margins(box)
	lo, hi := c.extent()
	flat := Fit(lo, hi, box, m, 1)
	high := (hi.Y - lo.Y) * flat.Y
	room := box.H() - m.Top - m.Bottom
	want := min(max(150, 70*float64(len(c.levels()))), room)
	if c.Heat != nil {
		want = room // what is in the resin is worth the room
	}
	k := 1.0
	for _, s := range [5]float64{2, 3, 4, 5, 10} {
		if high*k >= want*0.75 || high*s > room*1.02 {
			break
		}
		k = s
	}
	return Fit(lo, hi, box, m, k)
}

func (c SectionScene) margins(box Box) Margins {
	m := Margins{Left: 168, Top: 62, Right: 134, Bottom: 62}
	if !c.Style.Live {
		m.Right = 100
		m.Top = 52
	} else if box.W() < 620 {
		m.Top = 84 // the fill line's words stand below the buttons
	}
	if box.W() < 520 {
		m.Left = 120
	}
	if c.Heat != nil { // fewer words around it, beside the buttons
		m.Top, m.Right, m.Bottom = 28, max(m.Right, buttonsWide), 38
	}
	return m
}

// extent gives the corners of all that is drawn, (y, z) in metres.
func (c SectionScene) extent() (lo, hi shape.Point) {
	d := &c.Plan.Drawing.Section
	hi.Y = d.Depth
	add := func(p shape.Point) {
		lo = shape.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
		hi = shape.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
	}
	for _, p := range d.Cavity {
		add(p)
	}
	for _, w := range d.Pieces {
		for _, r := range w.Parts {
			for _, p := range r {
				add(p)
			}
		}
	}
	return lo, hi
}

// stretch gives by how much heights are stretched.
func stretch(v View) float64 { return v.Y / v.X }

// mark is a level of the section: the top of a layer.
type mark struct {
	id, name string
	level    float64
	below    float64 // the level under it
}

// levels gives the layers from the lowest.
func (c SectionScene) levels() []mark {
	var marks []mark
	for _, l := range c.Plan.Drawing.Section.Layers {
		name := l.ID
		for _, p := range c.Plan.Layers {
			if p.ID == l.ID {
				name = p.Name
			}
		}
		marks = append(marks, mark{l.ID, name, l.Top, l.Bottom})
	}
	slices.SortStableFunc(marks, func(a, b mark) int {
		switch {
		case a.level < b.level:
			return -1
		case a.level > b.level:
			return 1
		}
		return 0
	})
	return marks
}

type sectionPainter struct {
	drafter
	c SectionScene
	d *model.SectionDrawing
	v View
}

// Paint draws the section.
func (c SectionScene) Paint(s Surface, v View) {
	p := sectionPainter{newDrafter(s, c.Style), c, &c.Plan.Drawing.Section, v}
	if len(p.d.Cavity) < 4 {
		return
	}
	p.mold()
	for i := range p.d.Layers {
		p.layer(&p.d.Layers[i])
	}
	for i := range p.d.Layers {
		if l := &p.d.Layers[i]; c.Heat != nil && c.Heat.over(l.ID) {
			p.field(l)
		}
	}
	for i := range p.d.Inserts {
		p.insert(&p.d.Inserts[i])
	}
	for i := range p.d.Pieces {
		p.wood(&p.d.Pieces[i])
	}
	if c.Heat != nil {
		p.equals()
	}
	p.edges()
	p.chain()
	p.fillLine()
	p.foot()
	p.grips()
}

// place gives where (y, z) is on the surface.
func (p *sectionPainter) place(y, z float64) Pt { return p.v.ToScreen(shape.Point{X: y, Y: z}) }

// inner gives the line of the cavity on the surface, from rim to rim.
func (p *sectionPainter) inner() []Pt {
	line := make([]Pt, len(p.d.Cavity))
	for i, q := range p.d.Cavity {
		line[i] = p.v.ToScreen(q)
	}
	return line
}

// mold draws the walls and the floor as a hatched band.
func (p *sectionPainter) mold() {
	in := p.inner()
	ring := slices.Clone(in)
	for i := len(in) - 1; i >= 0; i-- {
		q := in[i].Add(-band, 0)
		if i >= len(in)/2 {
			q.X += 2 * band
		}
		if i > 0 && i < len(in)-1 {
			q.Y += band
		}
		ring = append(ring, q)
	}
	p.s.Fill("mold", mix(p.p.Ground, p.p.Line, 0.14), ring)
	Hatch(p.s, Hatching{Name: "hatch", Pattern: Slanted, Spacing: 5, Angle: -math.Pi / 4, Anchor: in[0],
		Width: fine, Colour: mix(p.p.Ground, p.p.Ink, 0.62)}, ring)
	p.s.Fill("cavity", p.p.Panel, in)
	p.line("mold edge", narrow, mix(p.p.Ground, p.p.Ink, 0.62), nil, Path{Points: ring[len(in):]})
}

// layer tints one layer's band, or colours it by its heat.
func (p *sectionPainter) layer(l *model.SectionLayer) {
	if p.c.Heat != nil {
		p.heated(l)
		return
	}
	if ring := p.v.Ring(l.Ring); len(ring) > 2 {
		p.s.Fill("layer", p.p.tint(l.Colour, l.Clear), ring)
	}
}

// insert draws an insert seen from the side, thinly: it lies before or behind
// the cut.
func (p *sectionPainter) insert(d *model.InsertDrawing) {
	a := p.place(d.Centre.X-d.HalfWidth, d.Top)
	b := p.place(d.Centre.X+d.HalfWidth, d.Bottom)
	box := BoxOf(a, b)
	if box.H() < 2 {
		box.Min.Y = box.Max.Y - 2
	}
	ring := box.Ring()
	if len(d.Profile) > 2 {
		ring = p.v.Ring(d.Profile.Moved(d.Centre.X, 0))
	}
	p.s.Fill("insert", Fade(mix(p.p.Panel, p.p.Line, 0.25), 0.8), ring)
	p.line("insert", fine, mix(p.p.Ground, p.p.Ink, 0.7), nil, Path{Points: ring, Closed: true})
}

// edges draws the level lines and the heavy line of the cavity.
func (p *sectionPainter) edges() {
	in := p.inner()
	for _, m := range p.c.levels() {
		l, r := p.across(m.level)
		c, w := p.p.Ink, narrow
		if m.id == p.c.Layer && p.c.Style.Live {
			c, w = p.p.Accent, wide*1.2
		}
		p.outside(l, r, func(a, b Pt) { p.line("level", w, c, nil, Line(a, b)) })
	}
	p.line("rim", narrow, p.p.Ink, dashed, Line(in[0], in[len(in)-1]))
	p.line("outline", wide, p.p.Ink, nil, Path{Points: in})
}

// across gives the ends of a level between the walls.
func (p *sectionPainter) across(level float64) (l, r Pt) {
	c := p.d.Cavity
	at := func(a, b shape.Point) Pt {
		t := 0.0
		if a.Y != b.Y {
			t = min(max((level-a.Y)/(b.Y-a.Y), 0), 1)
		}
		return p.place(a.X+(b.X-a.X)*t, level)
	}
	return at(c[0], c[1]), at(c[len(c)-1], c[len(c)-2])
}

// outside calls do with the parts of a level line that no wood hides.
func (p *sectionPainter) outside(l, r Pt, do func(a, b Pt)) {
	at := []float64{l.X, r.X}
	var rings [][]Pt
	for _, w := range p.d.Pieces {
		for _, part := range w.Parts {
			ring := p.v.Ring(part)
			rings = append(rings, ring)
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if (a.Y > l.Y) != (b.Y > l.Y) {
					at = append(at, min(max(a.X+(l.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X), l.X), r.X))
				}
			}
		}
	}
	slices.Sort(at)
	for i := 0; i+1 < len(at); i++ {
		if at[i+1]-at[i] > 0.5 && !inside(Pt{(at[i] + at[i+1]) / 2, l.Y}, rings...) {
			do(Pt{at[i], l.Y}, Pt{at[i+1], l.Y})
		}
	}
}
