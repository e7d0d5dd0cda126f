package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// pour is the editor of the chosen layer.
func (p *layersPage) pour(s *shotOf) fyne.CanvasObject {
	id := s.layer.ID
	at := "layers/" + id
	return stack(
		touch.NewCard("Height", stack(
			p.in.words(at+"/name", "Name", 1),
			touch.Labelled("How its top is given", p.heightKind(id)),
			p.height(id),
			p.comesOff(),
		)),
		touch.NewCard("Resin", p.product(id)),
		touch.NewCard("Tint", p.tint(id)),
		touch.NewCard("Stirred in besides", p.additives(s)),
	)
}

// heightKind chooses how the top of the layer is given. The layer stays where
// it is; the number that gives it changes.
func (p *layersPage) heightKind(id string) fyne.CanvasObject {
	path := "layers/" + id + "/by"
	c := touch.NewChoice([]touch.Option{
		{ID: string(model.ToDepth), Label: "Its depth"},
		{ID: string(model.ToLevel), Label: "From the floor"},
		{ID: string(model.ToBelow), Label: "Below the rim"},
	}, "", func(by string) {
		p.in.form.CommitAll()
		plan, known := p.shot.Layer(id)
		p.in.edit("How "+layerName(p.desk.session, id)+" is given", "", func(m *model.Project) error {
			i := m.LayerIndex(id)
			if i < 0 {
				return errGone
			}
			given := m.Layers[i].To.Given()
			m.Layers[i].By = model.LevelKind(by)
			if known && given && plan.Depth > 0 {
				// Where the level cannot be kept the number stays as it is.
				_ = model.SetLevel(m, id, plan.Top)
			}
			return nil
		})
	})
	p.in.bind(path, func(shot *app.Snapshot) {
		text, _ := model.Show(&shot.Project, path)
		if text == "" {
			text = string(model.ToDepth)
		}
		c.SetChosen(text)
	})
	return c
}

// height is the number that gives the top of the layer.
func (p *layersPage) height(id string) fyne.CanvasObject {
	path := "layers/" + id + "/to"
	f := p.in.length(path, "Depth of this pour", "")
	p.in.also(path, func(shot *app.Snapshot) {
		label, help := "Depth of this pour", "how thick it is, from the pour below it (or the mold's floor) to its own top"
		i := shot.Project.LayerIndex(id)
		switch {
		case i < 0:
		case shot.Project.Layers[i].By == model.ToLevel:
			label, help = "Top above the floor", "from the mold's floor straight up to the top of this pour; stand the rule on the floor"
		case shot.Project.Layers[i].By == model.ToBelow:
			label, help = "Top below the rim", "from the rim straight down to the top of this pour; lay a straight edge across the mold and measure from it"
		}
		f.SetLabel(label)
		f.SetHelp(help)
	})
	return f
}

// product chooses the layer's resin.
func (p *layersPage) product(id string) fyne.CanvasObject {
	path := "layers/" + id + "/sheet"
	list := p.in.list(path, "Product, by its data sheet", "Choose a resin", sheetOptions)
	another := touch.NewButton("Copy of this one", func() {
		if l, ok := p.shot.Layer(id); ok && l.Sheet != "" {
			p.newSheet("Copy of a data sheet", id, func(m *model.Project) string { return m.CopySheet(l.Sheet) })
		}
	})
	show := touch.NewStyledButton("Show its data sheet", touch.Quiet, func() {
		p.viewed = ""
		p.open(layersSheet)
	})
	p.in.also(path, func(shot *app.Snapshot) {
		for _, b := range []*touch.Button{another, show} {
			if sheet, _ := model.Show(&shot.Project, path); sheet == "" {
				b.Disable()
			} else {
				b.Enable()
			}
		}
	})
	p.mark(path, list)
	lot := p.in.words("layers/"+id+"/lot", "Lot", 1)
	lot.SetHelp("the number on the bottles; what this lot teaches is kept by it")
	return stack(
		list,
		pair(touch.NewButton("New data sheet", func() {
			p.newSheet("New data sheet", id, func(m *model.Project) string { return m.AddSheet() })
		}), another),
		show,
		lot,
	)
}

// newSheet makes a data sheet, gives it to a layer, shows it and asks for its name.
func (p *layersPage) newSheet(label, layer string, add func(*model.Project) string) {
	p.in.form.CommitAll()
	sheet := ""
	err := p.desk.session.Edit(label, "", func(m *model.Project) error {
		sheet = add(m)
		if i := m.LayerIndex(layer); i >= 0 && sheet != "" {
			m.Layers[i].Sheet = sheet
		}
		return nil
	})
	if err == nil {
		p.lead = "sheets/" + sheet + "/name"
	}
	p.said.SetText(problemWords(err))
	p.viewed = ""
	p.open(layersSheet)
}

// sheetOptions lists the products of the project.
func sheetOptions(shot *app.Snapshot) []touch.Option {
	list := make([]touch.Option, 0, len(shot.Project.Sheets))
	for _, s := range shot.Project.Sheets {
		list = append(list, touch.Option{ID: s.ID, Label: s.Name})
	}
	return list
}

// tint is how the layer is coloured.
func (p *layersPage) tint(id string) fyne.CanvasObject {
	at := "layers/" + id + "/tint"
	colours := newSwatches(p.in, id)
	p.live(func(s *shotOf) {
		if i := s.Project.LayerIndex(id); i >= 0 {
			colours.see(s.Project.Layers[i].Tint.Colour)
		}
	})
	return stack(
		p.in.words(at+"/name", "Name of the tint", 1),
		touch.Labelled("Colour as it will look", colours.root),
		hexField(p.in, id),
		p.in.choice(at+"/clear", "How clear it is", []touch.Option{
			{ID: "0", Label: "Opaque"}, {ID: "0.35", Label: "Smoky"}, {ID: "0.6", Label: "Tinted"}, {ID: "0.85", Label: "Clear"},
		}),
		p.in.amount(at),
	)
}

// additives lists what else is stirred in.
func (p *layersPage) additives(s *shotOf) fyne.CanvasObject {
	id := s.layer.ID
	list := stack()
	if i := s.Project.LayerIndex(id); i >= 0 {
		for _, a := range s.Project.Layers[i].Additives {
			at := "layers/" + id + "/additives/" + a.ID
			remove := touch.NewStyledButton("Take it out", touch.Quiet, func() {
				p.in.edit("Take out "+a.Name, "", func(m *model.Project) error { return m.Remove(at) })
			})
			list.Add(stack(
				p.in.words(at+"/name", "What it is", 1),
				p.in.amount(at),
				container.NewHBox(layout.NewSpacer(), remove),
			))
		}
	}
	add := touch.NewButton("Add powder, filler or thinner", func() {
		p.in.edit("Add an additive", "", func(m *model.Project) error {
			return orGone(m.AddAdditive(id))
		})
	})
	add.Debounce = touch.Settle
	list.Add(add)
	return list
}

// comesOff says what is to come off the faces afterwards, by which the fill line
// has to be higher, and leads to where that is entered.
func (p *layersPage) comesOff() fyne.CanvasObject {
	says := touch.NewText("", touch.Body, touch.Faint)
	p.live(func(s *shotOf) {
		f, style := &s.Project.Finish, s.Project.Style
		if f.Top.Value <= 0 && f.Bottom.Value <= 0 {
			says.SetText("Nothing is planned to come off its faces afterwards.")
			return
		}
		says.SetText("Afterwards " + style.Length(f.Top.Value) + " come off the top and " + style.Length(f.Bottom.Value) + " off the underside: the pours together have to be that much higher.")
	})
	return container.NewVBox(says, container.NewHBox(touch.NewStyledButton("To Finishing", touch.Quiet, func() {
		p.desk.goTo(model.Finding{Field: "finish/top", Subject: model.OfFinish})
	})))
}
