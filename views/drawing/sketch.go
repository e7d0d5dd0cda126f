package drawing

import (
	"math"

	"meniscus/model"
	"meniscus/model/shape"
)

// PaintSketch draws a small picture of a project, as large as the surface
// allows.
func PaintSketch(s Surface, sk model.Sketch, st Style) {
	d := newDrafter(s, st)
	lo, hi := shape.Point{X: math.Inf(1), Y: math.Inf(1)}, shape.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, rings := range [2][]shape.Ring{sk.Mold, sk.Wood} {
		for _, r := range rings {
			for _, p := range r {
				lo = shape.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
				hi = shape.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
			}
		}
	}
	if !(hi.X > lo.X) || !(hi.Y > lo.Y) {
		return
	}
	v := Fit(lo, hi, s.Bounds(), Margins{4, 4, 4, 4}, 1)
	resin := mix(d.p.Panel, hue(sk.Colour, d.p.Resin), 0.75)
	for _, r := range sk.Mold {
		if ring := v.Ring(r); len(ring) > 2 {
			s.Fill("resin", resin, ring)
		}
	}
	for i, r := range sk.Wood {
		ring := v.Ring(r)
		if len(ring) < 3 {
			continue
		}
		s.Fill("wood", d.p.Wood, ring)
		Hatch(s, Hatching{Name: "grain", Pattern: LongGrain, Spacing: 4.5, Angle: lengthwise(ring), Anchor: centroid(ring),
			Seed: uint32(i + 1), Width: fine, Colour: d.p.grain()}, ring)
		d.line("piece", narrow, d.p.Ink, nil, Loop(ring...))
	}
	for _, r := range sk.Mold {
		if ring := v.Ring(r); len(ring) > 2 {
			d.line("outline", 1.5, d.p.Ink, nil, Loop(ring...))
		}
	}
}

// lengthwise gives the direction in which a ring is longest, by the second
// moments of its points along the sides.
func lengthwise(ring []Pt) float64 {
	c := centroid(ring)
	var xx, xy, yy float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		m, w := a.Lerp(b, 0.5), a.To(b)
		dx, dy := m.X-c.X, m.Y-c.Y
		ex, ey := (b.X-a.X)/2, (b.Y-a.Y)/2
		xx += w * (dx*dx + ex*ex/3)
		xy += w * (dx*dy + ex*ey/3)
		yy += w * (dy*dy + ey*ey/3)
	}
	return 0.5 * math.Atan2(2*xy, xx-yy)
}
