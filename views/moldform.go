package views

import (
	"fmt"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mold makes the section of the mold itself.
func (m *moldPane) mold(shot *app.Snapshot) fyne.CanvasObject {
	mold := &shot.Project.Mold
	end, other := "rim", "floor"
	if mold.At == model.AtFloor {
		end, other = other, end
	}
	sizes := moldRows(
		m.in.words("mold/name", "Name of the mold", 1),
		m.mark("mold/kind", m.in.list("mold/kind", "Form of the opening", "Choose a form", func(*app.Snapshot) []touch.Option {
			return []touch.Option{
				{ID: string(model.MoldRectangle), Label: "Rectangle, corners may be round"}, {ID: string(model.MoldRound), Label: "Round"},
				{ID: string(model.MoldOval), Label: "Oval"}, {ID: string(model.MoldPolygon), Label: "Polygon with equal sides"},
				{ID: string(model.MoldOutline), Label: "Any outline, by points"},
			}
		})),
		m.mark("mold/at", m.in.choice("mold/at", "Inside sizes taken at the", []touch.Option{
			{ID: string(model.AtRim), Label: "Rim, at the top"}, {ID: string(model.AtFloor), Label: "Floor"},
		})),
	)
	for _, o := range m.moldSizes(mold.Kind, end) {
		sizes.Add(o)
	}
	sizes.Add(m.in.length("mold/depth", "Depth", "inside, from the rim down to the floor, in the middle and at a corner"))
	sizes.Add(m.oneAtLeast("mold/count", "Equal cavities in this mold", "1 for a single mold; all are filled alike"))
	return moldColumn(
		touch.NewCard("Mold", sizes),
		touch.NewCard("Lean of the walls (draft)", m.draft(mold, end, other)),
		touch.NewCard("Floor of the mold", m.floor()),
		m.mark("mold", touch.NewCard("What it holds", m.facts(moldHolds))),
		m.mark("mold/fillTest", touch.NewCard("Fill test", m.fillTest())),
		touch.NewCard("Section", m.in.quantity("cut", "Section line, from the middle", "where along the mold the section is drawn; to the right is above 0", touch.Length)),
	)
}

// moldSizes are the inputs for the sizes of a form at the end named.
func (m *moldPane) moldSizes(kind model.MoldKind, end string) []fyne.CanvasObject {
	at := ", inside, at the " + end
	switch kind {
	case model.MoldRound:
		return []fyne.CanvasObject{m.in.length("mold/diameter", "Diameter", "right across"+at+"; turn the rule and take the largest")}
	case model.MoldOval:
		return []fyne.CanvasObject{
			m.in.length("mold/length", "Length", "the longest way across"+at),
			m.in.length("mold/width", "Width", "square to the length"+at),
		}
	case model.MoldPolygon:
		return []fyne.CanvasObject{
			m.in.count("mold/sides", "Sides", "from 3 to 24"),
			m.mark("mold/across", m.in.choice("mold/across", "Measured across", []touch.Option{
				{ID: string(model.AcrossFlats), Label: "Flats"}, {ID: string(model.AcrossCorners), Label: "Corners"},
			})),
			m.in.length("mold/span", "Size across", "from side to opposite side for flats, from corner to corner for corners"+at),
		}
	case model.MoldOutline:
		return []fyne.CanvasObject{m.outline("mold/outline", "Outline", "x, y of each corner in turn"+at+"; one point a line")}
	}
	return []fyne.CanvasObject{
		m.in.length("mold/length", "Length", "the long way"+at),
		m.in.length("mold/width", "Width", "the short way"+at),
		m.in.length("mold/corner", "Corner radius", "leave it empty for sharp corners; a radius gauge or a coin helps"),
	}
}

// draft are the inputs for the lean of the walls.
func (m *moldPane) draft(mold *model.Mold, end, other string) fyne.CanvasObject {
	rows := moldRows(m.mark("mold/draft/kind", m.in.choice("mold/draft/kind", "", []touch.Option{
		{ID: string(model.LeanNone), Label: "Upright"}, {ID: string(model.LeanAngle), Label: "By angle"}, {ID: string(model.LeanSizes), Label: "By " + other + " sizes"},
	})))
	length := func(name, label, help string) {
		rows.Add(m.in.length("mold/draft/"+name, label+" at the "+other, help))
	}
	switch mold.Draft.Kind {
	case model.LeanAngle:
		rows.Add(m.in.quantity("mold/draft/angle", "Angle from upright", "above 0 when the rim is wider than the floor; set a bevel against the wall", touch.Angle))
	case model.LeanSizes:
		help := "inside, measured as at the " + end
		switch mold.Kind {
		case model.MoldRound:
			length("diameter", "Diameter", help)
		case model.MoldPolygon:
			length("span", "Size across", help)
		case model.MoldOutline:
			length("length", "Overall length", "inside; left empty it is as long as at the "+end)
			length("width", "Overall width", "inside; left empty it is as wide as at the "+end)
		default:
			length("length", "Length", help)
			length("width", "Width", help)
			if mold.Kind != model.MoldOval {
				length("corner", "Corner radius", "left empty it is as at the "+end)
			}
		}
	default:
		rows.Add(touch.NewText("Put a square on the floor of the mold: where light shows at the wall, the wall leans.", touch.Small, touch.Faint))
	}
	return rows
}

// floor are the inputs for what lies below the resin, which decides how well
// its heat gets away downwards.
func (m *moldPane) floor() fyne.CanvasObject {
	return moldRows(
		m.mark("mold/floor", m.in.usualList("mold/floor", "Made of", "Not given", []touch.Option{
			{ID: string(model.FloorHDPE), Label: "HDPE sheet"}, {ID: string(model.FloorBoard), Label: "Coated board"}, {ID: string(model.FloorMelamine), Label: "Melamine-faced board"},
			{ID: string(model.FloorSilicone), Label: "Silicone"}, {ID: string(model.FloorAluminium), Label: "Aluminium"}, {ID: string(model.FloorGlass), Label: "Glass"},
		})),
		m.in.usualLength("mold/thick", "Thickness of the floor", "at an edge or an offcut; how hot a pour gets hangs on what its heat can go into"),
	)
}

// moldHolds is what follows from the mold.
func moldHolds(shot *app.Snapshot) []moldFact {
	p, s := &shot.Plan.Mold, shot.Project.Style
	if p.Capacity.Value <= 0 {
		return []moldFact{{name: "Measure the inside of the mold as it stands, put together and lined; then it says here what it holds.", tone: touch.Faint}}
	}
	list := []moldFact{{name: "To the rim, without wood", value: moldRange(s, p.Capacity)}}
	if p.Count > 1 {
		list = append(list, moldFact{name: "in so many cavities", value: fmt.Sprint(p.Count)})
	}
	if p.FillLine > 0 {
		list = append(list,
			moldFact{name: "Resin to the fill line", value: s.Volume(p.Resin)},
			moldFact{name: "Fill line above the floor", value: s.Length(p.FillLine)},
			moldFact{name: "Free up to the rim", value: s.Length(p.Freeboard)},
			moldFact{name: "Open surface at the fill line", value: s.Area(p.Surface)},
		)
	}
	list = append(list, moldFact{name: "Floor of one cavity", value: s.Area(p.FloorArea)})
	if p.DraftEach != 0 {
		list = append(list,
			moldFact{name: "Opening of one cavity", value: s.Area(p.RimArea)},
			moldFact{name: "The lean takes from each side", value: s.Length(p.DraftEach)},
		)
	}
	return list
}

// fillTest are the inputs and the result of a check by filling.
func (m *moldPane) fillTest() fyne.CanvasObject {
	return moldRows(
		touch.NewText("Fill one empty cavity and note how far it came. Dry the mold well after water: damp clouds resin.", touch.Small, touch.Faint),
		m.in.quantity("mold/fillTest/water", "Water poured in", "its weight: the scale tared with the empty jug", touch.Mass),
		m.in.quantity("mold/fillTest/dry", "or dry fill, by volume", "rice or lentils from a measuring jug, where water is unwelcome; true to 3 to 5 %", touch.Volume),
		m.in.length("mold/fillTest/level", "Level reached", "above the floor; left empty it was full to the rim"),
		m.facts(func(shot *app.Snapshot) []moldFact {
			t, s := shot.Plan.Mold.FillTest, shot.Project.Style
			if t == nil {
				return nil
			}
			list := []moldFact{
				{name: "By the test", value: s.Volume(t.Measured)},
				{name: "By the sizes", value: s.Volume(t.Computed)},
				{name: "The test is apart by", value: fmt.Sprintf("%+.1f %%", 100*t.Apart)},
			}
			if t.Cause != "" {
				return append(list, moldFact{name: "Check: most likely " + t.Cause, tone: touch.CheckTone})
			}
			return append(list, moldFact{name: "Test and sizes agree.", tone: touch.GoodTone})
		}),
	)
}
