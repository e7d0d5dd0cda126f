package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// level makes the section of how true the mold stands.
func (m *moldPane) level() fyne.CanvasObject {
	level := moldRows(
		touch.NewText("Lay a level over the mold, lift its low end until it reads true, and measure the gap below it.", touch.Small, touch.Faint),
		m.mark("shop/tiltAlong", m.in.choice("shop/tiltAlong", "It leans along the", []touch.Option{
			{ID: string(model.AlongLength), Label: "Length"}, {ID: string(model.AlongWidth), Label: "Width"},
		})),
		m.in.length("shop/tiltRise", "Out of level by", "the gap below the low end of the level; 0 or empty when it is true"),
		m.in.length("shop/tiltOver", "over a distance of", "the length of the level, or of the mold"),
		m.facts(moldTilt),
	)
	return touch.NewCard("Level of the mold", level)
}

// moldTilt is what follows from a bench out of level.
func moldTilt(shot *app.Snapshot) []moldFact {
	t, s := shot.Plan.Mold.Tilt, shot.Project.Style
	if t == nil {
		return []moldFact{{name: "Taken as level.", tone: touch.Faint}}
	}
	list := []moldFact{
		{name: "Deeper at the low side than in the middle", value: s.Length(t.Extra)},
		{name: "Left as a wedge, end to end", value: s.Length(t.Wedge)},
	}
	if t.Overflow > 0 {
		return append(list, moldFact{name: "Runs over the low rim", value: s.Volume(t.Overflow), tone: touch.StopTone})
	}
	return append(list, moldFact{name: "Runs over the low rim", value: "nothing"})
}
