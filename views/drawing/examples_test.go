package drawing

import (
	"fmt"
	"image/color"
	"math"
	"testing"

	"meniscus/assets"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
)

// paper and evening are two plausible palettes.
var (
	paper = Palette{
		Ground: c("#f7f3ea"), Panel: c("#fffdf8"), Ink: c("#2b2926"), Faint: c("#625c53"), Line: c("#857d70"),
		Accent: c("#c07a0c"), AccentInk: c("#1f1708"), Stop: c("#a8281e"), Check: c("#2f5f8a"), Good: c("#3c6b38"),
		Wood: c("#d2ae7a"), WoodGrain: c("#6e4c2a"), Resin: c("#7faebb"), Dimension: c("#4b5a63"),
	}
	evening = Palette{
		Ground: c("#1b1815"), Panel: c("#262220"), Ink: c("#efe9dd"), Faint: c("#b5ac9c"), Line: c("#847b6d"),
		Accent: c("#e9a23b"), AccentInk: c("#1f1708"), Stop: c("#f08a7c"), Check: c("#8fbce6"), Good: c("#9ccb8f"),
		Wood: c("#6e5134"), WoodGrain: c("#d0a873"), Resin: c("#5f95a6"), Dimension: c("#b4c3cc"),
	}
)

func c(s string) color.NRGBA { return hue(s, color.NRGBA{}) }

func styleOf(p Palette) Style {
	return Style{Palette: p, Live: true, Length: func(l unit.Length) string { return fmt.Sprintf("%.1f mm", l.Millimetres()) }}
}

func testFonts(t testing.TB) *Fonts {
	t.Helper()
	f, err := ParseFonts(assets.Regular.Content(), assets.Bold.Content())
	if err != nil {
		t.Fatal(err)
	}
	return f
}

type example struct {
	name string
	plan *model.Plan
	mold model.Mold
	pick string
}

func examples() []example { return []example{hexagon(), boards(), river()} }

const mmm = 0.001

func polygon(n int, r, turn float64, at shape.Point) shape.Ring {
	out := make(shape.Ring, n)
	for i := range out {
		sin, cos := math.Sincos(2*math.Pi*float64(i)/float64(n) + turn)
		out[i] = shape.Point{X: at.X + r*cos, Y: at.Y + r*sin}
	}
	return out
}

func rectangle(w, h, turn float64, at shape.Point) shape.Ring {
	sin, cos := math.Sincos(turn)
	out := shape.Ring{{X: -w / 2, Y: -h / 2}, {X: w / 2, Y: -h / 2}, {X: w / 2, Y: h / 2}, {X: -w / 2, Y: h / 2}}
	for i, p := range out {
		out[i] = shape.Point{X: at.X + p.X*cos - p.Y*sin, Y: at.Y + p.X*sin + p.Y*cos}
	}
	return out
}

func layers(ls ...model.LayerPlan) []model.LayerPlan {
	bottom := unit.Length(0)
	for i := range ls {
		ls[i].Bottom, ls[i].Depth = bottom, ls[i].Top-bottom
		bottom = ls[i].Top
	}
	return ls
}

// section fills the section from simple facts: half widths at rim and floor.
func section(p *model.Plan, rim, floor float64) {
	d := &p.Drawing.Section
	d.Depth, d.FillLine = float64(p.Mold.Depth), float64(p.Mold.FillLine)
	d.Cavity = []shape.Point{{X: -rim, Y: d.Depth}, {X: -floor, Y: 0}, {X: floor, Y: 0}, {X: rim, Y: d.Depth}}
	at := func(z float64) float64 { return floor + (rim-floor)*z/d.Depth }
	for _, l := range p.Layers {
		b, t := float64(l.Bottom), float64(l.Top)
		d.Layers = append(d.Layers, model.SectionLayer{ID: l.ID, Bottom: b, Top: t, Colour: l.Colour, Clear: l.Clear,
			Ring: shape.Ring{{X: -at(b), Y: b}, {X: at(b), Y: b}, {X: at(t), Y: t}, {X: -at(t), Y: t}}})
	}
}

func hexagon() example {
	p := &model.Plan{Name: "Hexagon tray"}
	p.Mold.Depth, p.Mold.FillLine, p.Mold.Freeboard = 0.040, 0.028, 0.012
	p.Layers = layers(
		model.LayerPlan{ID: "l1", Name: "Bed", Top: 0.006, Colour: "#0f4c5c", Clear: 0.2},
		model.LayerPlan{ID: "l2", Name: "Deep blue", Top: 0.022, Colour: "#1b6f8a", Clear: 0.5},
		model.LayerPlan{ID: "l3", Name: "Clear flood", Top: 0.028, Colour: "#cfe8ea", Clear: 0.9})
	r := 0.160 / math.Cos(math.Pi/6)
	rf := r - 0.004
	rim := polygon(6, r, 0, shape.Point{})
	turn := 12 * math.Pi / 180
	top, bottom := rectangle(0.200, 0.090, turn, shape.Point{X: -0.01, Y: 0.01}), rectangle(0.206, 0.104, turn, shape.Point{X: -0.01, Y: 0.01})
	cav := model.CavityDrawing{Rim: rim, Floor: polygon(6, rf, 0, shape.Point{}), Fill: polygon(6, rf+0.0028, 0, shape.Point{}),
		Pieces: []model.PieceDrawing{{ID: "w1", Name: "Walnut slab", Bottom: bottom, Top: top, Centre: shape.Point{X: -0.01, Y: 0.01},
			Turn: unit.Angle(turn), Fits: true, Voids: []shape.Ring{polygon(40, 0.012, 0, shape.Point{X: 0.05, Y: 0.03})}}}}
	for i := 0; i < 5; i++ {
		at := shape.Point{X: -0.09 + 0.045*float64(i), Y: -0.095 + 0.012*math.Sin(float64(i)*2.1)}
		cav.Inserts = append(cav.Inserts, model.InsertDrawing{ID: "i1", Centre: at, Ring: polygon(36, 0.014, 0, at), Hole: polygon(30, 0.0065, 0, at), Bottom: 0.006, Top: 0.009, HalfWidth: 0.014})
	}
	p.Drawing.Cavities = []model.CavityDrawing{cav}
	p.Drawing.Min, p.Drawing.Max = shape.Point{X: -r, Y: -0.160}, shape.Point{X: r, Y: 0.160}
	p.Pieces = []model.PiecePlan{{ID: "w1", Name: "Walnut slab", Bottom: 0, Top: 0.025, Proud: -0.003, Fit: model.FitPlan{Fits: true,
		GapFloor: model.Gap{Least: 0.0551, Left: 0.0532, Right: 0.0731, Near: 0.0632, Far: 0.0436},
		GapFill:  model.Gap{Height: 0.025, Least: 0.060, Left: 0.060, Right: 0.080, Near: 0.07, Far: 0.05}}}}
	section(p, 0.160, 0.1565)
	p.Drawing.Section.Cut = 0.02
	p.Drawing.Section.Pieces = []model.SectionPiece{{ID: "w1", Parts: []shape.Ring{{{X: -0.036, Y: 0}, {X: 0.071, Y: 0}, {X: 0.062, Y: 0.025}, {X: -0.03, Y: 0.025}}}}}
	p.Drawing.Section.Inserts = []model.InsertDrawing{{ID: "i1", Centre: shape.Point{X: -0.095}, Bottom: 0.006, Top: 0.009, HalfWidth: 0.014}}
	return example{"hexagon", p, model.Mold{Kind: model.MoldPolygon, Sides: 6, Across: model.AcrossFlats, At: model.AtRim}, "w1"}
}

func boards() example {
	p := &model.Plan{Name: "Five boards"}
	p.Mold.Depth, p.Mold.FillLine, p.Mold.Freeboard = 0.030, 0.024, 0.006
	p.Layers = layers(model.LayerPlan{ID: "l1", Name: "Teal", Top: 0.024, Colour: "#2a9d8f", Clear: 0.35})
	for i := 0; i < 5; i++ {
		at := shape.Point{X: 0.150 * float64(i%3), Y: -0.260 * float64(i/3)}
		turn := 0.0
		if i == 3 {
			turn = 0.2
		}
		id := fmt.Sprintf("w%d", i+1)
		w := rectangle(0.060, 0.200, turn, shape.Point{X: at.X - 0.01, Y: at.Y})
		if i == 1 {
			w = shape.Ring{}
			for k := 0; k <= 60; k++ {
				y := -0.1 + 0.2*float64(k)/60
				w = append(w, shape.Point{X: at.X + 0.02 + 0.006*math.Sin(y*40) + 0.003*math.Sin(y*97), Y: at.Y + y})
			}
			w = append(w, shape.Point{X: at.X - 0.045, Y: at.Y + 0.1}, shape.Point{X: at.X - 0.045, Y: at.Y - 0.1})
		}
		fits := i != 3
		p.Drawing.Cavities = append(p.Drawing.Cavities, model.CavityDrawing{Centre: at,
			Rim: rectangle(0.120, 0.230, 0, at), Floor: rectangle(0.116, 0.226, 0, at), Fill: rectangle(0.1192, 0.2292, 0, at),
			Pieces: []model.PieceDrawing{{ID: id, Name: "Board " + fmt.Sprint(i+1), Bottom: w, Top: w, Centre: shape.Point{X: at.X - 0.01, Y: at.Y},
				Turn: unit.Angle(turn + math.Pi/2), Fits: fits}}})
		p.Pieces = append(p.Pieces, model.PiecePlan{ID: id, Top: 0.024, Fit: model.FitPlan{Fits: fits,
			GapFloor: model.Gap{Least: 0.013, Left: 0.018, Right: 0.038, Near: 0.013, Far: 0.013},
			GapFill:  model.Gap{Least: 0.0146, Left: 0.0196, Right: 0.0396, Near: 0.0146, Far: 0.0146, Height: 0.024}}})
	}
	p.Drawing.Min, p.Drawing.Max = shape.Point{X: -0.060, Y: -0.375}, shape.Point{X: 0.360, Y: 0.115}
	section(p, 0.115, 0.113)
	p.Drawing.Section.Pieces = []model.SectionPiece{{ID: "w1", Parts: []shape.Ring{{{X: -0.1, Y: 0}, {X: 0.1, Y: 0}, {X: 0.1, Y: 0.024}, {X: -0.1, Y: 0.024}}}}}
	return example{"boards", p, model.Mold{Kind: model.MoldRectangle, Count: 5, At: model.AtRim}, "w2"}
}

func river() example {
	p := &model.Plan{Name: "River"}
	p.Mold.Depth, p.Mold.FillLine, p.Mold.Freeboard = 0.060, 0.046, 0.014
	p.Layers = layers(
		model.LayerPlan{ID: "l1", Name: "Seal coat", Top: 0.003, Colour: "#e8e2d0", Clear: 0.9},
		model.LayerPlan{ID: "l2", Name: "Sea green", Top: 0.024, Colour: "#18717b", Clear: 0.4},
		model.LayerPlan{ID: "l3", Name: "Sea green with a very long name", Top: 0.044, Colour: "#2396a3", Clear: 0.5},
		model.LayerPlan{ID: "l4", Name: "Skim", Top: 0.046, Colour: "#e0f4f2", Clear: 0.95})
	rim := rectangle(1.150, 0.260, 0, shape.Point{})
	edge := func(x, sign float64) float64 {
		return sign * (0.045 + 0.016*math.Sin(x*9+sign) + 0.006*math.Sin(x*31) + 0.003*math.Sin(x*83+sign))
	}
	slab := func(sign, inset float64) shape.Ring {
		var r shape.Ring
		for k := 0; k <= 300; k++ {
			x := -0.572 + 1.144*float64(k)/300
			r = append(r, shape.Point{X: x, Y: edge(x, sign) + sign*inset})
		}
		r = append(r, shape.Point{X: 0.572, Y: sign * 0.128}, shape.Point{X: -0.572, Y: sign * 0.128})
		return r
	}
	c := model.CavityDrawing{Rim: rim, Floor: rim, Fill: rim, Pieces: []model.PieceDrawing{
		{ID: "w1", Name: "Oak, left", Bottom: slab(1, 0), Top: slab(1, 0.012), Centre: shape.Point{Y: 0.085}, Fits: true},
		{ID: "w2", Name: "Oak, right", Bottom: slab(-1, 0), Top: slab(-1, 0.012), Centre: shape.Point{Y: -0.085}, Fits: true}}}
	for i := 0; i < 26; i++ {
		x := -0.52 + 0.041*float64(i)
		at := shape.Point{X: x, Y: 0.022 * math.Sin(float64(i)*1.7)}
		c.Inserts = append(c.Inserts, model.InsertDrawing{ID: "i1", Centre: at, Ring: polygon(20, 0.006+0.004*chance(3, i), 0, at)})
	}
	p.Drawing.Cavities = []model.CavityDrawing{c}
	p.Drawing.Min, p.Drawing.Max = shape.Point{X: -0.575, Y: -0.130}, shape.Point{X: 0.575, Y: 0.130}
	for _, id := range []string{"w1", "w2"} {
		p.Pieces = append(p.Pieces, model.PiecePlan{ID: id, Top: 0.044, Proud: -0.002, Fit: model.FitPlan{Fits: true,
			GapFloor: model.Gap{Least: 0.002, Left: 0.003, Right: 0.003, Near: 0.172, Far: 0.002}, GapFill: model.Gap{Least: 0.002, Left: 0.003, Right: 0.003, Near: 0.180, Far: 0.002, Height: 0.044}}})
	}
	section(p, 0.130, 0.130)
	p.Drawing.Section.Cut = 0.1
	p.Drawing.Section.Pieces = []model.SectionPiece{
		{ID: "w2", Parts: []shape.Ring{{{X: -0.128, Y: 0}, {X: -0.05, Y: 0}, {X: -0.053, Y: 0.02}, {X: -0.062, Y: 0.044}, {X: -0.128, Y: 0.044}}}},
		{ID: "w1", Parts: []shape.Ring{{{X: 0.048, Y: 0}, {X: 0.128, Y: 0}, {X: 0.128, Y: 0.044}, {X: 0.06, Y: 0.044}, {X: 0.052, Y: 0.02}}}}}
	p.Drawing.Section.Inserts = []model.InsertDrawing{{ID: "i1", Centre: shape.Point{X: -0.01}, Bottom: 0.003, Top: 0.017, HalfWidth: 0.009},
		{ID: "i1", Centre: shape.Point{X: 0.016}, Bottom: 0.003, Top: 0.013, HalfWidth: 0.007}}
	return example{"river", p, model.Mold{Kind: model.MoldRectangle, At: model.AtRim}, ""}
}

// fillCurve is a chart as the mold window shows it.
func fillCurve() Chart {
	var pts []Pt
	for k := 0; k <= 60; k++ {
		z := 40 * float64(k) / 60
		v := 62*z + 0.25*z*z
		if z > 25 {
			v += 26 * (z - 25)
		}
		pts = append(pts, Pt{z, v})
	}
	return Chart{
		X:      Axis{Title: "Level above the floor", Unit: "mm", Max: 40},
		Y:      Axis{Title: "Resin", Unit: "ml", Max: 3500},
		Series: []Series{{Points: pts, Name: "one cavity"}},
		Bands:  []Band{{From: 28, To: 40, Text: "freeboard", Role: Hint}, {From: 3200, To: 3500, Up: true, Role: Halt}},
		Marks:  []Mark{{X: 28, Y: 62*28 + 0.25*28*28 + 78, Text: "fill line 28.0 mm, 2010 ml"}, {X: 12, Y: math.NaN(), Text: "now", Role: Second}},
	}
}

func sketchOf(e example) model.Sketch {
	var s model.Sketch
	for _, c := range e.plan.Drawing.Cavities {
		s.Mold = append(s.Mold, c.Rim)
		for _, p := range c.Pieces {
			s.Wood = append(s.Wood, p.Top)
		}
	}
	s.Colour = e.plan.Layers[len(e.plan.Layers)-1].Colour
	return s
}
