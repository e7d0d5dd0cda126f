package views

import (
	"math"

	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
)

// moldChart is the fill curve: the resin in the mold against its level, with
// the tops of the layers and the fill line.
func moldChart(p *model.Plan, s unit.Style) drawing.Chart {
	along, lengthUnit := moldLengths(s)
	up, volumeUnit := moldVolumes(s)
	c := drawing.Chart{
		X: drawing.Axis{Title: "Level above the floor", Unit: lengthUnit, Max: along(p.Mold.Depth)},
		Y: drawing.Axis{Title: "Resin", Unit: volumeUnit},
	}
	line := drawing.Series{Role: drawing.Main}
	for _, q := range p.Mold.Curve {
		line.Points = append(line.Points, drawing.Pt{X: along(q.Level), Y: up(q.Volume)})
		c.Y.Max = math.Max(c.Y.Max, up(q.Volume))
	}
	c.Series = []drawing.Series{line}
	if n := len(p.Layers); n > 0 {
		for _, l := range p.Layers {
			if l.Top < p.Mold.FillLine {
				c.Marks = append(c.Marks, drawing.Mark{X: along(l.Top), Y: math.NaN(), Text: l.Name, Role: drawing.Second})
			}
		}
		c.Marks = append(c.Marks, drawing.Mark{
			X: along(min(p.Mold.FillLine, p.Mold.Depth)), Y: up(p.Mold.Resin),
			Text: "fill line " + s.Length(p.Mold.FillLine) + ", " + s.Volume(p.Mold.Resin), Role: drawing.Main,
		})
	}
	return c
}

// moldLengths gives how a length stands on an axis, and the axis's unit.
func moldLengths(s unit.Style) (func(unit.Length) float64, string) {
	switch s.LengthUnit() {
	case unit.InInches:
		return unit.Length.Inches, "in"
	case unit.InCentimetres:
		return func(l unit.Length) float64 { return l.Per(unit.Centimetre) }, "cm"
	}
	return unit.Length.Millimetres, "mm"
}

// moldVolumes gives how a volume stands on an axis, and the axis's unit.
func moldVolumes(s unit.Style) (func(unit.Volume) float64, string) {
	switch u := s.VolumeUnit(); u {
	case unit.InLitres:
		return func(v unit.Volume) float64 { return v.Per(unit.Litre) }, string(u)
	case unit.InFluidOunces:
		return unit.Volume.USFluidOunces, string(u)
	case unit.InCubicInches:
		return func(v unit.Volume) float64 { return v.Per(unit.CubicInch) }, string(u)
	}
	return unit.Volume.Millilitres, "ml"
}

// moldMore says what a little more costs at the fill line, and how much room is
// left up to the rim.
func moldMore(p *model.Plan, s unit.Style) string {
	if len(p.Layers) == 0 || p.Mold.FillLine <= 0 {
		return "No pour is planned yet. Next, in the window Layers: how deep each pour is, and of which resin."
	}
	top := p.Layers[len(p.Layers)-1]
	text := "At the fill line one more mm costs " + moldMass(s, top.PerMM)
	if s.LengthUnit() == unit.InInches {
		text = "At the fill line one more 1/16 in costs " + moldMass(s, top.PerGrain)
	}
	switch free := p.Mold.Freeboard; {
	case free > 0:
		text += "; " + s.Length(free) + " is free up to the rim."
	case free < 0:
		text += "; the line is " + s.Length(-free) + " above the rim."
	default:
		text += "; it is level with the rim."
	}
	return text
}

// moldMass writes a small mass to a tenth of a gram, or as the style has it.
func moldMass(s unit.Style, m unit.Mass) string {
	if s.MassUnit() == unit.InGrams {
		return s.MassTo(m, unit.Gram/10)
	}
	return s.Mass(m)
}
