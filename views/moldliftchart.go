package views

import (
	"math"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
)

// liftPicture is the chart of one thing's lift.
func (m *moldPane) liftPicture(field string) fyne.CanvasObject {
	d := m.page.desk
	picture := drawing.NewPicture(d.fonts, fyne.NewSize(300, 190), d.palette().Panel, nil)
	m.follow(func(shot *app.Snapshot) {
		chart, st := moldLiftChart(shot, field), drawing.Style{Palette: d.palette(), Length: shot.Project.Style.Length}
		picture.Set(st.Palette.Panel, func(s drawing.Surface) { chart.Paint(s, st) })
	})
	return picture
}

// moldLiftChart is the net lift of a thing against the level of the resin, pour
// by pour, below nothing where it is pressed down.
func moldLiftChart(shot *app.Snapshot, field string) drawing.Chart {
	plan, s := &shot.Plan.Float, shot.Project.Style
	along, lengthUnit := moldLengths(s)
	low, high := 0.0, 0.0
	t := plan.Thing(field)
	if t != nil {
		for k := range t.Pours {
			for _, q := range t.Pours[k].Curve {
				low, high = math.Min(low, float64(q.Lift.Mass())), math.Max(high, float64(q.Lift.Mass()))
			}
		}
	}
	up, massUnit := moldLoads(s, unit.Mass(math.Max(high, -low)))
	c := drawing.Chart{X: drawing.Axis{Title: "Level above the floor", Unit: lengthUnit, Max: along(shot.Plan.Mold.FillLine)}, Y: drawing.Axis{Title: "Lift", Unit: massUnit}}
	if t == nil {
		return c
	}
	for k := range plan.Pours {
		in := &t.Pours[k]
		line := drawing.Series{Role: drawing.Main}
		if in.By == model.HeldBySet {
			line.Name, line.Dashed = "held", true
		}
		for _, q := range in.Curve {
			line.Points = append(line.Points, drawing.Pt{X: along(q.Level), Y: up(q.Lift.Mass())})
		}
		if len(line.Points) > 0 {
			c.Series = append(c.Series, line)
		}
		if l := shot.Plan.Layer(plan.Pours[k].Layer); l != nil && l.Top < shot.Plan.Mold.FillLine {
			c.Marks = append(c.Marks, drawing.Mark{X: along(l.Top), Y: math.NaN(), Text: l.Name, Role: drawing.Second})
		}
	}
	if t.LiftsAt > 0 {
		c.Marks = append(c.Marks, drawing.Mark{X: along(t.LiftsAt), Y: 0, Text: "lifts at " + s.Length(t.LiftsAt), Role: drawing.Warn})
	} else {
		c.Marks = append(c.Marks, drawing.Mark{X: math.NaN(), Y: 0, Text: "", Role: drawing.Hint})
	}
	room := (high - low) * 0.12
	c.Y.Min, c.Y.Max = up(unit.Mass(low-room)), up(unit.Mass(high+room))
	return c
}

// moldLoads gives how masses up to the most stand on an axis, and the axis's unit.
func moldLoads(s unit.Style, most unit.Mass) (func(unit.Mass) float64, string) {
	switch u := s.MassUnit(); {
	case (u == unit.InOunces || u == unit.InPounds) && most < unit.Pound:
		return func(m unit.Mass) float64 { return m.Per(unit.Ounce) }, string(unit.InOunces)
	case u == unit.InOunces || u == unit.InPounds:
		return func(m unit.Mass) float64 { return m.Per(unit.Pound) }, string(unit.InPounds)
	case most < unit.Kilogram:
		return unit.Mass.Grams, string(unit.InGrams)
	}
	return func(m unit.Mass) float64 { return float64(m) }, string(unit.InKilograms)
}
