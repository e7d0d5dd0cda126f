package drawing

import (
	"image/color"
	"math"
	"slices"

	"meniscus/model"
)

// Heat colours the resin of a section by something that differs from place to
// place: how warm it is, or how far it has cured. Lines of equal value run
// through the colours, each with its figure, so that colour is never alone.
type Heat struct {
	Ramp     *Ramp
	Min, Max float64              // what the ramp's ends stand for
	Step     float64              // between lines of equal value, which are multiples of it; 0 for none
	Format   func(float64) string // writes the value of a line
	Limit    float64              // resin above it is hatched; 0 for no limit
	Slices   []HeatSlice          // from the floor up; a layer that has none is not poured
	Field    *HeatField           // across the mold as well, over the slices; may be nil
	Dry      string               // words for a layer that is not poured
}

// HeatSlice is a slice of a layer, from Bottom to Top in metres above the floor,
// with its value.
type HeatSlice struct {
	Layer       string
	Bottom, Top float64
	Value       float64
}

// HeatField holds values across a layer, cell by cell, row by row from the
// bottom, between edges in metres of its own: all the resin of the widest opening
// up to the top of a layer, and the wood at its sides.
type HeatField struct {
	Layer string // whose top is that of the uppermost resin
	Y, Z  []float64
	Value []float64
	Resin []bool
}

// share gives how far a value is up the ramp.
func (h *Heat) share(v float64) float64 { return (v - h.Min) / (h.Max - h.Min) }

// over tells whether there is a field up to the top of a layer.
func (h *Heat) over(layer string) bool {
	return h.Field != nil && h.Field.Layer == layer && h.Field.usable()
}

// heatLine is a level line of equal value.
type heatLine struct{ z, value float64 }

// heated colours one layer's band; false when it has no values.
func (p *sectionPainter) heated(l *model.SectionLayer) {
	h := p.c.Heat
	var mine []HeatSlice
	for _, s := range h.Slices {
		if s.Layer == l.ID && s.Top > s.Bottom {
			mine = append(mine, s)
		}
	}
	if len(mine) == 0 {
		p.dry(l)
		return
	}
	p.rows(l, mine)
	if h.Limit > 0 {
		p.beyond(l, mine)
	}
}

// dry draws a layer that is not poured: empty, with words where there is room.
func (p *sectionPainter) dry(l *model.SectionLayer) {
	ring := p.v.Ring(l.Ring)
	if len(ring) < 3 {
		return
	}
	p.s.Fill("layer", p.p.Panel, ring)
	n := p.note(Middle)
	left, right := p.across((l.Bottom + min(l.Top, p.d.Depth)) / 2)
	if a, b := p.open(left, right); BoxOf(ring...).H() > 18 && b-a > p.s.Measure(p.c.Heat.Dry, n)+16 {
		p.s.Text(Pt{(a + b) / 2, left.Y + small*0.36}, p.c.Heat.Dry, n)
	}
}

// rows fills a band with rows a dp high, those of one colour at once. Each row
// reaches a little below its foot, where the next one covers it, so that no
// seam shows between them.
func (p *sectionPainter) rows(l *model.SectionLayer, of []HeatSlice) {
	const lap = 1.0
	h := p.c.Heat
	bounds := p.s.Bounds()
	top, foot := p.place(0, min(l.Top, p.d.Depth)).Y, p.place(0, l.Bottom).Y
	from, to := max(top, bounds.Min.Y), min(foot, bounds.Max.Y)
	shade := func(y float64) int { return h.Ramp.step(h.share(valueAt(of, p.height(y)))) }
	for y := from; y < to; {
		c := shade(y + 0.5)
		end := y + 1
		for end < to && shade(end+0.5) == c {
			end++
		}
		end = min(end, to)
		l0, r0 := p.across(p.height(y))
		l1, r1 := p.across(p.height(min(end+lap, foot)))
		p.s.Fill("layer", h.Ramp.colours[c], []Pt{l0, r0, r1, l1})
		y = end
	}
}

// height gives how many metres above the floor a place on the surface is.
func (p *sectionPainter) height(y float64) float64 { return p.v.ToWorld(Pt{0, y}).Y }

// valueAt gives the value at a height: in a straight line between the middles of
// the slices, and level beyond the outer ones.
func valueAt(of []HeatSlice, z float64) float64 {
	middle := func(i int) float64 { return (of[i].Bottom + of[i].Top) / 2 }
	k, _ := slices.BinarySearchFunc(of, z, func(s HeatSlice, z float64) int {
		if (s.Bottom+s.Top)/2 < z {
			return -1
		}
		return 1
	})
	switch k {
	case 0:
		return of[0].Value
	case len(of):
		return of[k-1].Value
	}
	w := (z - middle(k-1)) / (middle(k) - middle(k-1))
	return of[k-1].Value + (of[k].Value-of[k-1].Value)*w
}

// beyond hatches the part of a band whose value is above the limit.
func (p *sectionPainter) beyond(l *model.SectionLayer, of []HeatSlice) {
	edges := []float64{l.Bottom}
	for _, x := range crossings(of, p.c.Heat.Limit) {
		edges = append(edges, x)
	}
	edges = append(edges, min(l.Top, p.d.Depth))
	for i := 1; i < len(edges); i++ {
		if edges[i] <= edges[i-1] || valueAt(of, (edges[i]+edges[i-1])/2) <= p.c.Heat.Limit {
			continue
		}
		l0, r0 := p.across(edges[i])
		l1, r1 := p.across(edges[i-1])
		Hatch(p.s, Hatching{Name: "beyond", Spacing: 8, Angle: math.Pi / 4, Anchor: l1, Width: narrow, Colour: beyondInk}, []Pt{l0, r0, r1, l1})
	}
}

// beyondInk is the ink of what is beyond its limit: the colours there are light.
var beyondInk = color.NRGBA{0x1A, 0x18, 0x16, 150}

// crossings gives the heights at which the slices pass a value, from the floor
// up.
func crossings(of []HeatSlice, v float64) []float64 {
	var at []float64
	for i := 1; i < len(of); i++ {
		a, b := of[i-1], of[i]
		if (a.Value < v) == (b.Value < v) {
			continue
		}
		za, zb := (a.Bottom+a.Top)/2, (b.Bottom+b.Top)/2
		at = append(at, za+(zb-za)*(v-a.Value)/(b.Value-a.Value))
	}
	return at
}

// mostLines bounds the lines of equal value of one layer, whatever is asked.
const mostLines = 40

// isolines gives the lines of equal value of all layers.
func (h *Heat) isolines() []heatLine {
	if !(h.Step > 0) {
		return nil
	}
	var lines []heatLine
	for from := 0; from < len(h.Slices); {
		to := from
		low, high := math.Inf(1), math.Inf(-1)
		for to < len(h.Slices) && h.Slices[to].Layer == h.Slices[from].Layer {
			low, high = min(low, h.Slices[to].Value), max(high, h.Slices[to].Value)
			to++
		}
		for k, n := math.Ceil(low/h.Step), 0; k*h.Step <= high && n < mostLines; k, n = k+1, n+1 {
			for _, z := range crossings(h.Slices[from:to], k*h.Step) {
				lines = append(lines, heatLine{z, k * h.Step})
			}
		}
		from = to
	}
	return lines
}

// equals draws the lines of equal value with their figures, over the wood's
// outline but not through it.
func (p *sectionPainter) equals() {
	h := p.c.Heat
	lines := h.isolines()
	slices.SortFunc(lines, func(a, b heatLine) int {
		switch {
		case a.z > b.z:
			return -1
		case a.z < b.z:
			return 1
		}
		return 0
	})
	fieldTop := math.Inf(-1)
	for i := range p.d.Layers {
		if l := &p.d.Layers[i]; h.Field != nil && l.ID == h.Field.Layer {
			fieldTop = l.Top
		}
	}
	written := math.Inf(-1)
	for _, line := range lines {
		if h.Field != nil && line.z <= fieldTop {
			continue // the field has its own
		}
		l, r := p.across(line.z)
		ink := h.Ramp.on(h.share(line.value))
		p.outside(l, r, func(a, b Pt) { p.line("equal", narrow, Fade(ink, 0.75), nil, Line(a, b)) })
		letters := Lettering{Name: "equal", Size: small, Anchor: Middle, Colour: ink}
		text := h.Format(line.value)
		a, b := p.open(l, r)
		w := p.s.Measure(text, letters)
		if l.Y-written < 15 || b-a < w+24 || p.nearLevel(l.Y, 10) {
			continue
		}
		written = l.Y
		p.plated(Pt{max(a+(b-a)*0.24, a+w/2+8), l.Y + small*0.36}, text, letters, h.Ramp.At(h.share(line.value)))
	}
}

// nearLevel tells whether a height on the surface is closer than d to the top or
// the bottom of a layer, whose line would run through words there.
func (p *sectionPainter) nearLevel(y, d float64) bool {
	for _, l := range p.d.Layers {
		if abs(p.place(0, l.Bottom).Y-y) < d || abs(p.place(0, l.Top).Y-y) < d {
			return true
		}
	}
	return false
}

// open gives the widest part of a level that no wood hides.
func (p *sectionPainter) open(l, r Pt) (from, to float64) {
	p.outside(l, r, func(a, b Pt) {
		if b.X-a.X > to-from {
			from, to = a.X, b.X
		}
	})
	return from, to
}
