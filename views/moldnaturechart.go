package views

import (
	"math"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
)

// natureChart shows what air brings wood to, with the shop, the room that the
// piece goes to and the meter's reading on it.
type natureChart struct {
	picture *drawing.Picture
}

func newNatureChart(m *moldPane, id string) *natureChart {
	d := m.page.desk
	c := &natureChart{drawing.NewPicture(d.fonts, fyne.NewSize(300, 180), d.palette().Panel, nil)}
	m.follow(func(shot *app.Snapshot) {
		n, ok := shot.Plan.Nature(&shot.Project, id)
		if !ok {
			c.picture.Hide()
			return
		}
		c.picture.Show()
		style, chart := sectionStyle(d, shot), moistureChart(&n)
		c.picture.Set(style.Palette.Panel, func(to drawing.Surface) { chart.Paint(to, style) })
	})
	return c
}

// moistureChart is the chart of a piece: the curve at the temperature of the
// room that it goes to, and on it the two rooms.
func moistureChart(n *model.NaturePlan) drawing.Chart {
	c := drawing.Chart{
		X: drawing.Axis{Title: "Humidity of the air", Unit: "%", Max: 90},
		Y: drawing.Axis{Title: "Moisture of the wood", Unit: "%", Max: 20},
	}
	line := drawing.Series{Role: drawing.Second}
	for _, p := range model.MoistureCurve(n.TheirsAt.Temperature.Value) {
		line.Points = append(line.Points, drawing.Pt{X: p.Humidity.Percent(), Y: p.Moisture.Percent()})
	}
	c.Series = []drawing.Series{line}
	if !n.Shop.Absent {
		c.Marks = append(c.Marks, drawing.Mark{X: n.ShopAt.Humidity.Value.Percent(), Y: n.Shop.Value.Percent(), Text: "your shop", Role: drawing.Second})
	}
	if !n.Theirs.Typical {
		c.Marks = append(c.Marks, drawing.Mark{X: n.TheirsAt.Humidity.Value.Percent(), Y: n.Theirs.Value.Percent(), Text: "where it goes", Role: drawing.Well})
	} else {
		c.Bands = append(c.Bands, drawing.Band{From: n.Theirs.Low.Percent(), To: n.Theirs.High.Percent(), Up: true, Text: "heated homes", Role: drawing.Well})
	}
	if m := n.Moisture; !m.Absent && m.Value > 0 {
		c.Y.Max = math.Max(c.Y.Max, math.Min(30, m.Value.Percent()+2))
		c.Marks = append(c.Marks, drawing.Mark{X: math.NaN(), Y: math.Min(30, m.Value.Percent()), Text: "the meter", Role: drawing.Main})
	}
	return c
}
