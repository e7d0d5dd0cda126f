package drawing

import (
	"slices"

	"meniscus/model"
)

// wood draws the cut faces of one piece. Its parts may be stacked bands of one
// face: growth rings run through them, and where two meet there is no line.
func (p *sectionPainter) wood(w *model.SectionPiece) {
	var rings [][]Pt
	var box Box
	for _, part := range w.Parts {
		ring := p.v.Ring(part)
		if len(ring) < 3 {
			continue
		}
		if len(rings) == 0 {
			box = BoxOf(ring...)
		}
		rings = append(rings, ring)
		box = box.And(BoxOf(ring...))
	}
	if len(rings) == 0 {
		return
	}
	seed := seedOf(w.ID)
	size := max(box.W(), box.H())
	pith := Pt{box.Min.X + box.W()*(0.3+0.4*chance(seed, 1)), box.Max.Y + size*(0.25+0.35*chance(seed, 2)) + 10}
	for _, r := range rings {
		p.s.Fill("wood", p.p.Wood, r)
	}
	Hatch(p.s, Hatching{Name: "grain", Pattern: EndGrain, Spacing: 6, Anchor: pith, Seed: seed,
		Width: fine, Colour: p.p.grain()}, rings...)
	pen, ink := wide*0.8, p.p.Ink
	if w.ID == p.c.Layer && p.c.Style.Live {
		pen, ink = wide*1.3, p.p.Accent
	}
	p.line("piece", pen, ink, nil, joined(rings, pen/2)...)
}

// joined gives the outline of rings without the level lines that two of them
// share. Level lines reach lap further at both ends, to close the corners.
func joined(rings [][]Pt, lap float64) []Path {
	if len(rings) == 1 {
		return []Path{Loop(rings[0]...)}
	}
	const same = 0.3 // dp
	var paths []Path
	type rung struct {
		y    float64
		ends []float64
	}
	var rungs []rung
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if abs(a.Y-b.Y) > 1e-6 {
				paths = append(paths, Line(a, b))
				continue
			}
			k := slices.IndexFunc(rungs, func(g rung) bool { return abs(g.y-a.Y) < same })
			if k < 0 {
				rungs, k = append(rungs, rung{y: a.Y}), len(rungs)
			}
			rungs[k].ends = append(rungs[k].ends, a.X, b.X)
		}
	}
	for _, g := range rungs {
		slices.Sort(g.ends)
		// Inside every second pair of ends an odd number of lines lie.
		for i := 0; i+1 < len(g.ends); i += 2 {
			if a, b := g.ends[i], g.ends[i+1]; b-a > same {
				paths = append(paths, Line(Pt{a - lap, g.y}, Pt{b + lap, g.y}))
			}
		}
	}
	return paths
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
