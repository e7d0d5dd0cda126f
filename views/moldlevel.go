package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// moldDepths is the path of the depths at the corners.
const moldDepths = "mold/hold/depths"

// levelSignature is the structure of the section of how true the mold stands.
func (m *moldPane) levelSignature(shot *app.Snapshot) string {
	mold := &shot.Project.Mold
	return fmt.Sprintf("\n%d %v %s", len(mold.Hold.Depths), mold.Cavities() > 1, mold.Kind)
}

// level makes the section of how true the mold stands.
func (m *moldPane) level(shot *app.Snapshot) fyne.CanvasObject {
	level := moldRows(
		touch.NewText("Lay a level over the mold, lift its low end until it reads true, and measure the gap below it. Where it reads in mm/m, write that, and 1 m as the distance.", touch.Small, touch.Faint),
		m.mark("shop/tiltAlong", m.in.choice("shop/tiltAlong", "It leans along the", []touch.Option{
			{ID: string(model.AlongLength), Label: "Length"}, {ID: string(model.AlongWidth), Label: "Width"},
		})),
		m.in.length("shop/tiltRise", "Out of level by", "the gap below the low end of the level; 0 or empty when it is true"),
		m.in.length("shop/tiltOver", "over a distance of", "the length of the level, or of the mold"),
		touch.NewText("A spirit level reads to 0.5 mm/m. A phone, at ±0.2°, is off by up to 3.5 mm/m: no use here.", touch.Small, touch.Faint),
	)
	return moldColumn(
		touch.NewCard("What it does to the piece", m.facts(moldTilt)),
		touch.NewCard("By a level", level),
		m.mark(moldDepths, touch.NewCard("Or by four depths", m.depths(shot))),
	)
}

// depths are the inputs at the corners and what they say.
func (m *moldPane) depths(shot *app.Snapshot) fyne.CanvasObject {
	on := len(shot.Project.Mold.Hold.Depths) > 0
	rows := moldRows(touch.NewText("Stretch a level line over the mold, or set a laser, and measure down to the floor at each corner; or pour in a little water and measure how deep it stands. It tells both directions at once, and which corner to shim.", touch.Small, touch.Faint))
	switch {
	case shot.Project.Mold.Cavities() > 1:
		rows.Add(touch.NewText("All four in one cavity, at its own corners.", touch.Small, touch.Faint))
	case shot.Project.Mold.Kind != model.MoldRectangle:
		rows.Add(touch.NewText("This mold has no four corners: measure at the wall, where it is nearest to the corners of a box round it. The picture marks the four places, A to D.", touch.Small, touch.Faint))
	}
	label := "Measured at four corners"
	if shot.Project.Mold.Kind != model.MoldRectangle {
		label = "Measured at four places"
	}
	rows.Add(touch.NewToggle(label, on, func(on bool) {
		words := "Measure four depths"
		if !on {
			words = "Drop the four depths"
		}
		done := m.in.edit(words, "", func(p *model.Project) error {
			p.MeasureDepths(on)
			return nil
		})
		if done && on {
			m.lead = moldDepths + "/0"
		}
	}))
	if !on {
		return rows
	}
	corner := func(i int) fyne.CanvasObject {
		name, where := model.CornerName(i)
		f := m.in.quantity(fmt.Sprintf("%s/%d", moldDepths, i), name+", "+where, "", touch.Length)
		f.OnStep = nil
		return f
	}
	// As they lie, seen from above: the far ones first.
	grid := container.NewGridWithColumns(2, corner(3), corner(2), corner(0), corner(1))
	rows.Add(touch.Labelled("Depth from the level down to the floor", container.NewVBox(m.depthsReadWith(), grid)))
	rows.Add(m.cornerPicture())
	rows.Add(m.facts(moldShims))
	return rows
}

// depthsReadWith says what all four depths are read with.
func (m *moldPane) depthsReadWith() fyne.CanvasObject {
	by := touch.NewSelect("Read with", nil, func(by string) {
		m.in.edit("Instrument for the depths", "", func(p *model.Project) error {
			for i := range p.Mold.Hold.Depths {
				p.Mold.Hold.Depths[i].By = unit.Instrument(by)
			}
			return nil
		})
	})
	m.follow(func(shot *app.Snapshot) {
		by.SetOptions(instruments(&shot.Project))
		if first, _, ok := model.Instrument(&shot.Project, moldDepths+"/0"); ok {
			by.SetSelected(string(first))
		}
	})
	return by
}

// cornerPicture shows which corner is which, and the shim below each.
func (m *moldPane) cornerPicture() fyne.CanvasObject {
	d := m.page.desk
	picture := drawing.NewPicture(d.fonts, fyne.NewSize(300, 150), d.palette().Panel, nil)
	m.follow(func(shot *app.Snapshot) {
		c := drawing.Corners{}
		if len(shot.Plan.Drawing.Cavities) > 0 {
			c.Floor = shot.Plan.Drawing.Cavities[0].Floor
			c.At = model.CornerPoints(c.Floor)
		}
		for i := range c.Names {
			c.Names[i], _ = model.CornerName(i)
		}
		if l := shot.Plan.Mold.Level; l != nil {
			for _, at := range l.Shims() {
				for i := range c.Names {
					if c.Names[i] == at.Name {
						c.Words[i] = "shim " + shot.Project.Style.Length(at.Shim)
					}
				}
			}
		}
		st := drawing.Style{Palette: d.palette(), Length: shot.Project.Style.Length}
		picture.Set(st.Palette.Panel, func(s drawing.Surface) { drawing.PaintCorners(s, c, st) })
	})
	return picture
}

// moldShims is what the four depths say.
func moldShims(shot *app.Snapshot) []moldFact {
	l, s := shot.Plan.Mold.Level, shot.Project.Style
	if l == nil {
		return []moldFact{{name: "Measure all four; then it says here what to put below each corner.", tone: touch.Faint}}
	}
	var list []moldFact
	for _, c := range l.Shims() {
		list = append(list, moldFact{name: "Shim corner " + c.Name + ", " + c.Where + ", by", value: s.Length(c.Shim)})
	}
	if len(list) == 0 {
		list = append(list, moldFact{name: "No corner needs a shim.", tone: touch.GoodTone})
	}
	return append(list,
		moldFact{name: moldFalls("Falls along the mold", l.Along, "to the right", "to the left"), value: model.Slope(s, max(l.Along, -l.Along))},
		moldFact{name: moldFalls("Falls across it", l.Across, "to the far side", "to the near side"), value: model.Slope(s, max(l.Across, -l.Across))},
		moldFact{name: "Twisted, which no shim mends", value: s.Length(l.Twist)},
	)
}

// moldFalls says which way a floor falls.
func moldFalls(words string, slope float64, up, down string) string {
	switch {
	case slope > 0:
		return words + ", " + up
	case slope < 0:
		return words + ", " + down
	}
	return words
}

// moldTilt is what follows from a bench out of level.
func moldTilt(shot *app.Snapshot) []moldFact {
	t, s := shot.Plan.Mold.Tilt, shot.Project.Style
	if t == nil {
		return []moldFact{{name: "Taken as level.", tone: touch.Faint}}
	}
	by := "the level"
	if shot.Plan.Mold.Level != nil {
		by = "the four depths"
	}
	list := []moldFact{
		{name: "By " + by + ", out of true by", value: model.Slope(s, t.Slope)},
		{name: "Deeper at the low side than in the middle", value: s.Length(t.Extra)},
		{name: "Left as a wedge, from the high side to the low", value: s.Length(t.Wedge)},
	}
	if t.Overflow > 0 {
		return append(list, moldFact{name: "Runs over the low rim", value: s.Volume(t.Overflow), tone: touch.StopTone})
	}
	return append(list, moldFact{name: "Runs over the low rim", value: "nothing"})
}
