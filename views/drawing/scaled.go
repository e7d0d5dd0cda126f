package drawing

import (
	"fmt"
	"math"

	"meniscus/assets/fonts"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// The sizes of a drawing to scale in mm: what is drawn is at most so wide and
// high, and the sheet is wide enough for the words around it.
const (
	scaledWide  = 330.0
	scaledHigh  = 230.0
	scaledLeast = 150.0
)

// reductions are the scales of drawings, 1 to so much (ISO 5455).
var reductions = []float64{1, 2, 5, 10, 20, 50, 100}

// SVG gives the mold from above, its section, or both, in millimetres, each true
// to the scale that is written beside it; heights are not stretched.
func (OnPaper) SVG(p *model.Project, pl *model.Plan, above, section bool) ([]byte, error) {
	return scaledSheet(p.Name, scaledParts(p, pl, above, section))
}

// FinishSVG gives the casting with what comes off it, from above with what is
// screwed on, or in section, in millimetres, true to the scale that is written
// beside it.
func (OnPaper) FinishSVG(p *model.Project, pl *model.Plan, section bool) ([]byte, error) {
	var parts []scaled
	style := printStyle(p)
	above := FinishScene{Plan: pl, Mold: p.Mold, Mounts: p.Finish.Mounts, Style: style}
	cut := FinishSection{Plan: pl, Style: style, Fine: func(l unit.Length) string { return model.FineLength(p.Style, l) }}
	if !section && above.Ready() {
		lo, hi := pl.Drawing.Cavities[0].Rim.Bounds()
		parts = append(parts, newScaled(above, lo, hi, above.margins(), 0))
	}
	if section && cut.Ready() {
		lo, hi := cut.extent()
		parts = append(parts, newScaled(cut, lo, hi, cut.margins(Box{Max: Pt{1000, 1000}}), 160+36*float64(len(pl.Finish.Flatten.Cover)+1)))
	}
	for i := range parts {
		parts[i].foot = 18
		parts[i].high += parts[i].foot
	}
	return scaledSheet(p.Name, parts)
}

// scaledSheet writes drawings below each other.
func scaledSheet(name string, parts []scaled) ([]byte, error) {
	faces, err := ParseFonts(fonts.Regular, fonts.Bold)
	if err != nil {
		return nil, err
	}
	if len(parts) == 0 {
		return nil, errNothingDrawn
	}
	wide, high := scaledLeast/MillimetresPerDP, 0.0
	for _, d := range parts {
		wide, high = math.Max(wide, d.wide), high+d.high
	}
	s := NewSVG(wide*MillimetresPerDP, high*MillimetresPerDP, faces, "Go, sans-serif")
	s.Fill("ground", printPalette.Ground, s.Bounds().Ring())
	y := 0.0
	for _, d := range parts {
		d.paint(s, Box{Pt{0, y}, Pt{wide, y + d.high}})
		y += d.high
	}
	return s.Bytes(name), nil
}

// scaledParts chooses the scales of the drawings that are asked for.
func scaledParts(p *model.Project, pl *model.Plan, above, section bool) (parts []scaled) {
	style := printStyle(p)
	if above && len(pl.Drawing.Cavities) > 0 {
		c := PlanScene{Plan: pl, Mold: p.Mold, Style: style}
		m := Margins{Left: uprightOff + 24, Top: 34, Right: 76, Bottom: 88}
		parts = append(parts, newScaled(c, pl.Drawing.Min, pl.Drawing.Max, m, 0))
	}
	if c := (SectionScene{Plan: pl, Style: style}); section && len(pl.Drawing.Section.Cavity) > 3 {
		lo, hi := c.extent()
		m := c.margins(Box{Max: Pt{1000, 1000}})
		m.Right += 20
		parts = append(parts, newScaled(c, lo, hi, m, 80+36*float64(len(c.levels())+1)))
	}
	return parts
}

// errNothingDrawn says that there is no mold to draw.
var errNothingDrawn = fmt.Errorf("there is nothing to draw yet: measure the mold first")

// scaled is one drawing to scale, with its size in dp.
type scaled struct {
	c          Scene
	lo, hi     shape.Point
	m          Margins
	one        float64 // 1 to so much
	wide, high float64
	foot       float64 // of high, below the drawing, where it has words there itself
}

// newScaled chooses the largest scale at which a drawing is small enough. The
// sheet is at least so many dp high.
func newScaled(c Scene, lo, hi shape.Point, m Margins, least float64) scaled {
	d := scaled{c: c, lo: lo, hi: hi, m: m, one: reductions[len(reductions)-1]}
	w, h := 1000*(hi.X-lo.X), 1000*(hi.Y-lo.Y)
	for _, r := range reductions {
		if w/r <= scaledWide && h/r <= scaledHigh {
			d.one = r
			break
		}
	}
	d.wide = w/d.one/MillimetresPerDP + m.Left + m.Right
	d.high = math.Max(h/d.one/MillimetresPerDP+m.Top+m.Bottom, least)
	return d
}

// paint draws it in a box of the sheet.
func (d *scaled) paint(s Surface, box Box) {
	room := Box{box.Min.Add(d.m.Left, d.m.Top), box.Max.Add(-d.m.Right, -d.m.Bottom-d.foot)}
	k := 1000 / d.one / MillimetresPerDP // dp to a metre
	v := View{X: k, Y: k}
	c := room.Centre()
	v.Origin = Pt{c.X - (d.lo.X+d.hi.X)/2*k, c.Y + (d.lo.Y+d.hi.Y)/2*k}
	d.c.Paint(part{s, Box{box.Min, box.Max.Add(0, -d.foot)}}, v)
	s.Text(box.Max.Add(-10, -14), fmt.Sprintf("Scale 1:%.0f, in mm", d.one), Lettering{Name: "scale", Size: small, Anchor: End, Colour: printPalette.Ink})
}

// part is a part of a sheet that a painter takes for all of it.
type part struct {
	Surface
	box Box
}

// Bounds gives the part.
func (p part) Bounds() Box { return p.box }
