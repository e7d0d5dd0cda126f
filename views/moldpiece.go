package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// pieceSizes are the inputs for a piece's form.
func (m *moldPane) pieceSizes(w *model.Piece, at string) fyne.CanvasObject {
	rows := moldRows(
		m.in.words(at+"/name", "Name", 1),
		m.in.words(at+"/species", "Species", 1),
		m.mark(at+"/kind", m.in.choice(at+"/kind", "Measured as", []touch.Option{
			{ID: string(model.PieceRectangle), Label: "Rectangle"}, {ID: string(model.PieceStations), Label: "Widths"}, {ID: string(model.PieceOutline), Label: "Outline"},
		})),
	)
	switch w.Kind {
	case model.PieceStations:
		rows.Add(m.in.length(at+"/spacing", "Distance between the stations", "even steps along the wood, the first and the last at its ends"))
		rows.Add(m.toggleField(at+"/straight", "One edge is straight"))
		rows.Add(m.stations(w, at, "Widths of the underside", at+"/stations"))
	case model.PieceOutline:
		rows.Add(m.outline(at+"/outline", "Outline of the underside", "x, y of each corner in turn, from a trace or a photo put straight"))
		rows.Add(m.in.quantity(at+"/traceError", "Trace may be off by", "of its area; a careful trace on grid paper is good to 2 %", touch.Percent))
	default:
		rows.Add(m.in.length(at+"/length", "Length of the underside", "along the mold before it is turned"))
		rows.Add(m.in.length(at+"/width", "Width of the underside", "square to its length"))
	}
	rows.Add(m.topSwitch(w))
	if m.topShown(w) {
		for _, o := range m.topFace(w, at) {
			rows.Add(o)
		}
	}
	rows.Add(m.in.length(at+"/thickness", "Thickness", "in five places; take the mean"))
	return rows
}

// topSwitch says whether the upper face was measured apart.
func (m *moldPane) topSwitch(w *model.Piece) fyne.CanvasObject {
	id := w.ID
	return m.mark("pieces/"+id+"/top", touch.NewToggle("Top face differs (bevel or live edge)", m.topShown(w), func(on bool) {
		m.in.form.CommitAll()
		m.tops[id] = on
		done := m.in.edit("Top face of "+w.Name, "", moldOnPiece(id, func(w *model.Piece) error {
			switch {
			case on && w.Kind == model.PieceStations:
				w.Top.Stations = append([]unit.Dim(nil), w.Stations...)
			case on:
				return app.ErrSame // there is nothing to keep yet
			default:
				w.Top = model.TopFace{}
			}
			return nil
		}))
		if !done {
			m.again()
		}
	}))
}

// topFace are the inputs for the upper face.
func (m *moldPane) topFace(w *model.Piece, at string) []fyne.CanvasObject {
	switch w.Kind {
	case model.PieceStations:
		return []fyne.CanvasObject{m.stations(w, at, "Widths of the top face", at+"/top/stations")}
	case model.PieceOutline:
		return []fyne.CanvasObject{m.outline(at+"/top/outline", "Outline of the top face", "x, y as for the underside, whose middle is 0, 0; a trace from elsewhere is laid middle over middle")}
	}
	return []fyne.CanvasObject{
		m.in.length(at+"/top/length", "Length of the top face", "left empty it is as below"),
		m.in.length(at+"/top/width", "Width of the top face", "left empty it is as below"),
	}
}

// stations are the widths of a face at its stations, read with one instrument.
func (m *moldPane) stations(w *model.Piece, at, label, path string) fyne.CanvasObject {
	grid := container.NewGridWithColumns(2)
	for i := range w.Stations {
		field := fmt.Sprintf("%s/%d", path, i)
		f := m.in.quantity(field, fmt.Sprintf("Station %d", i+1), "", touch.Length)
		f.OnStep = nil
		grid.Add(f)
	}
	id := w.ID
	more := touch.NewButton("Add a station", func() { m.setStations(id, 1) })
	less := touch.NewButton("Remove the last", func() { m.setStations(id, -1) })
	if len(w.Stations) <= 2 {
		less.Disable()
	}
	by := touch.NewSelect("Read with", nil, func(by string) {
		m.in.edit("Instrument for the widths of "+w.Name, "", moldOnPiece(id, func(w *model.Piece) error {
			for i := range w.Stations {
				w.Stations[i].By = unit.Instrument(by)
			}
			for i := range w.Top.Stations {
				w.Top.Stations[i].By = unit.Instrument(by)
			}
			return nil
		}))
	})
	m.follow(func(shot *app.Snapshot) {
		by.SetOptions(instruments(&shot.Project))
		if first, _, ok := model.Instrument(&shot.Project, path+"/0"); ok {
			by.SetSelected(string(first))
		}
	})
	return m.mark(path, touch.Labelled(label, container.NewVBox(by, grid, container.NewGridWithColumns(2, more, less))))
}

// setStations adds a station at the end of a piece, or takes the last away.
func (m *moldPane) setStations(id string, by int) {
	word := "Add a station"
	if by < 0 {
		word = "Remove a station"
	}
	m.in.edit(word, "", moldOnPiece(id, func(w *model.Piece) error {
		change := func(list []unit.Dim) []unit.Dim {
			if len(list) == 0 {
				return list
			}
			if by < 0 {
				return list[:len(list)-1]
			}
			return append(list, unit.Dim{By: list[len(list)-1].By})
		}
		if by < 0 && len(w.Stations) <= 2 {
			return app.ErrSame
		}
		if by > 0 && len(w.Stations) == 0 {
			w.Stations = make([]unit.Dim, 2)
			return nil
		}
		w.Stations, w.Top.Stations = change(w.Stations), change(w.Top.Stations)
		return nil
	}))
}

// pieceLies are the inputs for where a piece lies.
func (m *moldPane) pieceLies(shot *app.Snapshot, w *model.Piece, at string) fyne.CanvasObject {
	x := m.in.quantity(at+"/x", "Middle of the wood, along the mold", "from the middle of the mold; to the right is above 0", touch.Length)
	y := m.in.quantity(at+"/y", "Middle of the wood, across the mold", "from the middle of the mold; away from you is above 0", touch.Length)
	turn := m.in.quantity(at+"/turn", "Turned by", "anticlockwise, seen from above", touch.Angle)
	rows := moldRows(
		touch.NewText("Drag the wood in the drawing, or say here where its middle lies.", touch.Small, touch.Faint),
		x, y, turn,
		m.in.length(at+"/height", "Underside above the floor", "0 when it lies on the floor; else the height of its blocks"),
	)
	if shot.Project.Mold.Cavities() > 1 || w.Cavity > 1 {
		rows.Add(m.oneAtLeast(at+"/cavity", "In cavity number", "counted from the far left, row by row"))
	}
	rows.Add(m.toggleField(at+"/bedded", "Stuck down, so no resin creeps below"))
	rows.Add(m.toggleField(at+"/sealed", "Sealed all round, so it drinks no resin"))
	return rows
}

// pieceWeight are the inputs for a check by weight.
func (m *moldPane) pieceWeight(w *model.Piece, at string) fyne.CanvasObject {
	id := w.ID
	return moldRows(
		m.in.quantity(at+"/weight", "Weight", "of this piece of wood alone, dry", touch.Mass),
		m.in.quantity(at+"/density", "Density", "of a block cut from the same board: its weight over its size; kg/m³ is taken too", touch.Density),
		m.facts(func(shot *app.Snapshot) []moldFact {
			p, s := shot.Plan.Piece(id), shot.Project.Style
			switch {
			case p == nil:
				return nil
			case p.ByWeight != nil:
				return []moldFact{
					{name: "By weight and density", value: s.Volume(p.ByWeight.Volume)},
					{name: "By its sizes", value: s.Volume(p.Volume.Value)},
					{name: "By weight it is apart by", value: fmt.Sprintf("%+.1f %%", 100*p.ByWeight.Apart)},
				}
			case p.Density > 0:
				return []moldFact{{name: "Density, from weight and sizes", value: s.Density(p.Density)}}
			}
			return nil
		}),
	)
}
