package drawing

import (
	"image/color"
	"math"

	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// LayScene is a slab, straightened, with the mold's cavity over it: what stands
// still is the slab, what is drawn over it at every frame is the cavity and what
// would be cut by it.
type LayScene struct {
	Upper shape.Region // the slab's upper face
	Under shape.Region // its other face where that was shot; else nothing
	Photo *LayPhoto    // nil without one
	Cut   model.Layup  // as it is; without an ID there is none
	Kerf  unit.Length
	Style Style
	// At gives what a change of the lay-up would give; nil where the mold is not
	// measured.
	At func(Change) *model.LayPlan
	// Tell gives the figures that stand on the drawing, most telling first.
	Tell func(*model.LayPlan) []LayFigure
}

// LayFigure is a figure on the drawing.
type LayFigure struct{ Name, Value string }

var _ Overlaid = LayScene{}

// Selected gives the lay-up, which is selected at all times.
func (c LayScene) Selected() string { return c.Cut.ID }

// Select gives the scene as it is.
func (c LayScene) Select(string) Scene { return c }

// layMost bounds how far beyond the slab the view reaches to show a cavity, as a
// part of the slab's size: one that lies far off does not make the slab small.
const layMost = 0.5

// Fit gives the view of the slab and of the cavity as it lies.
func (c LayScene) Fit(box Box) View {
	lo, hi := c.Upper.Bounds()
	a, b := c.Under.Bounds()
	if len(c.Under) > 0 {
		lo, hi = shape.Point{X: min(lo.X, a.X), Y: min(lo.Y, a.Y)}, shape.Point{X: max(hi.X, b.X), Y: max(hi.Y, b.Y)}
	}
	if lay := c.lay(Change{}); lay != nil && len(lay.Rim) > 0 {
		size := max(hi.X-lo.X, hi.Y-lo.Y)
		// In steps, so that the view stands still while the cavity is moved a little.
		more := func(beyond float64) float64 {
			step := size / 12
			return min(math.Ceil(max(beyond, 0)/step)*step, layMost*size)
		}
		a, b = lay.Rim.Bounds()
		lo, hi = shape.Point{X: lo.X - more(lo.X-a.X), Y: lo.Y - more(lo.Y-a.Y)}, shape.Point{X: hi.X + more(b.X-hi.X), Y: hi.Y + more(b.Y-hi.Y)}
	}
	m := Margins{Left: 26, Top: 66, Right: 26, Bottom: 44}
	if box.W() < crampedWidth {
		m.Left, m.Right, m.Bottom = 12, 12, 62
	}
	return Fit(lo, hi, box, m, 1)
}

func (c LayScene) lay(ch Change) *model.LayPlan {
	if c.At == nil || c.Cut.ID == "" {
		return nil
	}
	return c.At(ch)
}

// layPainter holds what painting a lay-up needs at hand.
type layPainter struct {
	drafter
	c LayScene
	v View
}

// Paint draws the slab.
func (c LayScene) Paint(s Surface, v View) {
	p := layPainter{newDrafter(s, c.Style), c, v}
	face := p.rings(c.Upper)
	if img, ok := s.(*Image); ok && c.Photo.shown() {
		c.Photo.paint(img, v)
		// What is not wood steps back.
		s.Fill("beside", Fade(p.p.Ground, 0.62), append([][]Pt{s.Bounds().Grown(2).Ring()}, face...)...)
	} else {
		s.Fill("slab", mix(p.p.Ground, p.p.Wood, 0.55), face...)
		Hatch(s, Hatching{Name: "grain", Pattern: LongGrain, Spacing: 9, Anchor: v.Origin, Seed: 7, Width: fine, Colour: Fade(p.p.grain(), 0.5)}, face...)
	}
	if len(c.Under) > 0 {
		p.edge("hidden", narrow, p.p.Ink, dashed, loops(p.rings(c.Under)))
	}
	p.edge("live edge", narrow, p.p.Ink, liveEdge, loops(face))
	p.scaleBar(Pt{s.Bounds().Min.X + 16, s.Bounds().Max.Y - 14}, v.X, "")
}

// liveEdge is the line of what was there before the work: long dashes and two
// dots (ISO 128-2, line 05).
var liveEdge = []float64{14, 3, 2, 3, 2, 3}

// rings gives a region's places.
func (p *layPainter) rings(r shape.Region) (list [][]Pt) {
	for _, ring := range r {
		if q := p.v.Ring(ring); len(q) > 2 {
			list = append(list, q)
		}
	}
	return list
}

func loops(rings [][]Pt) (paths []Path) {
	for _, r := range rings {
		paths = append(paths, Loop(r...))
	}
	return paths
}

// edge draws lines that stay legible on a photo.
func (p *layPainter) edge(name string, width float64, c color.NRGBA, dash []float64, paths []Path) {
	if p.c.Photo.shown() {
		p.line(name, width+2.2, Fade(p.p.Ground, 0.8), nil, paths...)
	}
	p.line(name, width, c, dash, paths...)
}

// Over draws the cavity as a change would leave it, and what it would cut.
func (c LayScene) Over(s Surface, v View, ch Change) {
	p := layPainter{newDrafter(s, c.Style), c, v}
	lay := c.lay(ch)
	if lay == nil || len(lay.Rim) == 0 {
		return
	}
	rim, floor, piece := p.rings(lay.Rim), p.rings(lay.Floor), p.rings(lay.Upper)
	resin := 0.42
	if c.Photo.shown() {
		resin = 0.55
	}
	s.Fill("resin", Fade(p.p.Resin, resin), append(rim[:len(rim):len(rim)], piece...)...)
	if !c.Photo.shown() {
		s.Fill("wood", p.p.Wood, piece...)
	}
	place := c.place(ch)
	Hatch(s, Hatching{Name: "piece", Pattern: Slanted, Spacing: 11, Angle: -0.785 - float64(place.Turn), Anchor: v.ToScreen(layMiddle(place)), Width: fine, Colour: Fade(p.p.Ink, 0.5)}, piece...)
	if len(c.Under) > 0 {
		p.edge("hidden", narrow, p.p.Ink, dashed, loops(p.rings(lay.Under)))
	}
	p.edge("live edge", narrow*1.2, p.p.Ink, liveEdge, loops(piece))
	p.edge("floor", narrow, Fade(p.p.Ink, 0.8), dashed, loops(floor))
	p.edge("rim", narrow*1.4, p.p.Accent, nil, loops(rim))
	var walls []Path
	for _, w := range lay.Walls {
		if q := p.open(w); len(q) > 1 {
			walls = append(walls, Line(q...))
		}
	}
	p.edge("cut", wide*1.3, p.p.Ink, nil, walls)
	p.kerf(walls)
	p.meets(walls)
	if c.Style.Live {
		p.handles(ch)
	}
	p.key(len(walls) > 0)
	p.figures(lay)
}

// meets marks where the live edge meets the walls: the ends of what is cut.
func (p *layPainter) meets(walls []Path) {
	for _, w := range walls {
		from, to := w.Points[0], w.Points[len(w.Points)-1]
		if near(from, to, 0.5) {
			continue // cut all the way round
		}
		for _, at := range [2]Pt{from, to} {
			p.s.Fill("meets", p.p.Ground, circle(at, 5, 20))
			p.s.Fill("meets", p.p.Ink, circle(at, 3.4, 20))
		}
	}
}

// kerf draws what the saw takes, beyond what is left to trim, along what is cut.
func (p *layPainter) kerf(walls []Path) {
	kerf, trim := float64(p.c.Kerf)*p.v.X, float64(p.c.Cut.Trim.Value)*p.v.X
	if kerf <= 0 || len(walls) == 0 {
		return
	}
	width := max(kerf, leastKerf)
	off := max(trim, wide) + width/2 // clear of the line itself
	paths := make([]Path, len(walls))
	for i, w := range walls {
		paths[i] = Line(beside(w.Points, off)...)
	}
	p.line("kerf", width, kerfOf(p.p), nil, paths...)
}

// leastKerf is the least width in dp that a kerf is drawn at, to be seen.
const leastKerf = 2.5

func kerfOf(p Palette) color.NRGBA { return Fade(p.Stop, 0.6) }

// beside gives a run moved to its right, as one walks along it, by some dp; at
// sharp corners it reaches no farther than twice that.
func beside(run []Pt, by float64) []Pt {
	normal := func(a, b Pt) Pt {
		d := max(a.To(b), 1e-9)
		return Pt{-(b.Y - a.Y) / d, (b.X - a.X) / d}
	}
	out := make([]Pt, len(run))
	for i, p := range run {
		n := normal(run[max(i-1, 0)], run[max(i, 1)])
		m := normal(run[min(i, len(run)-2)], run[min(i+1, len(run)-1)])
		k := by / max(1+n.X*m.X+n.Y*m.Y, 0.5)
		out[i] = p.Add((n.X+m.X)*k, (n.Y+m.Y)*k)
	}
	return out
}

// open gives the places of an open run.
func (p *layPainter) open(r shape.Ring) []Pt {
	const seen = 0.4 // dp
	var out []Pt
	for i, q := range r {
		at := p.v.ToScreen(q)
		if finite(at) && (len(out) == 0 || i == len(r)-1 || !near(out[len(out)-1], at, seen)) {
			out = append(out, at)
		}
	}
	return out
}

// Preview draws nothing: Over does.
func (c LayScene) Preview(Surface, View, Change) {}

// place gives the lay-up as a change would leave it.
func (c LayScene) place(ch Change) model.Layup { return c.Cut.Moved(ch.DX, ch.DY, ch.By) }

func layMiddle(l model.Layup) shape.Point {
	return shape.Point{X: float64(l.X), Y: float64(l.Y)}
}
