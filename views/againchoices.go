package views

import (
	"errors"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// build makes the choices for the piece that is made again.
func (m *againMake) build(shot *app.Snapshot) {
	for _, path := range m.page.in.form.Paths() {
		if !strings.HasPrefix(path, ranPaths) {
			m.page.in.form.Remove(path)
		}
	}
	name := touch.NewTextField(m.page.in.form, "name", "Name of the new piece", 1)
	name.SetPlaceholder(m.base.Name)
	name.OnCommit = func(text string) { m.name = text; m.changed() }
	list := []fyne.CanvasObject{name, touch.NewCard("Mold", m.moldChoice(shot))}
	m.resins = nil
	for i := range m.base.Sheets {
		s := &m.base.Sheets[i]
		if slices.ContainsFunc(m.base.Layers, func(l model.Layer) bool { return l.Sheet == s.ID }) {
			r := newAgainResin(m, shot, s)
			m.resins = append(m.resins, r)
			list = append(list, touch.NewCard("Resin: "+brief(nameOf(s.Name), 30), r.root))
		}
	}
	list = append(list, touch.NewCard("Room and season", m.seasonChoice()), touch.NewCard("Heights of the layers", m.levelChoice()))
	if len(m.base.Pieces) > 0 {
		list = append(list, touch.NewCard("Outlines of the wood", stack(
			touch.NewChoice([]touch.Option{{ID: string(model.KeepWood), Label: "Kept"}, {ID: string(model.ScaleWood), Label: "Scaled"}, {ID: string(model.RetraceWood), Label: "Traced anew"}},
				string(m.wood), func(id string) { m.wood = model.WoodRule(id); m.page.commit(); m.changed() }),
			touch.NewText("Scaled goes with the mold. Traced anew leaves the outlines to be measured. The thickness of the wood stays.", touch.Small, touch.Faint))))
	}
	list = append(list, touch.NewCard("Losses", m.lossChoice(shot)))
	refill(m.box, m.scroll, list...)
}

// moldChoice chooses the mold: its own, one of the shelf, that of another piece,
// or the same form in other sizes.
func (m *againMake) moldChoice(shot *app.Snapshot) fyne.CanvasObject {
	options := []touch.Option{{ID: castOwn, Label: "Its own mold"}, {ID: castSizes, Label: "The same form in other sizes"}, {ID: castPiece, Label: "The mold of another piece"}}
	for _, x := range shot.Shelf.Molds {
		options = append(options, touch.Option{ID: onShelf + x.ID, Label: "Shelf: " + brief(nameOf(x.Mold.Name), 60)})
	}
	size := touch.NewText("", touch.Small, touch.Faint)
	tell := func() { size.SetText(capitalised(moldWords(m.next.Style, &m.next.Mold)) + ".") }
	sizes := m.sizes()
	m.finder = newPieceFinder(m.page.desk, "Choose a piece", func(id string) {
		m.page.desk.session.RecipeOf(id, func(p model.Project, err error) {
			switch {
			case m.mold != castPiece || m.finder.chosen() != id:
			case err != nil:
				m.sheet.say("Its mold could not be read: "+problemWords(err)+".", touch.StopTone)
			default:
				m.next.Mold = p.Mold
				tell()
				m.changed()
			}
		})
	})
	m.finder.see(shot)
	m.pick = touch.NewSelect("", options, func(id string) {
		m.page.commit()
		m.mold = id
		m.next.Mold = m.base.Clone().Mold
		if x := m.onShelf(); x != nil {
			m.next.Mold = x.Mold
		}
		m.finder.clear()
		showIf(sizes, id == castSizes)
		showIf(m.finder.root, id == castPiece)
		m.showFields()
		tell()
		m.changed()
	})
	m.pick.SetSelected(m.mold)
	sizes.Hide()
	m.finder.root.Hide()
	m.show = append(m.show, tell)
	tell()
	return stack(m.pick, size, m.finder.root, sizes)
}

// sizes are the inputs for other sizes of the mold's form.
func (m *againMake) sizes() *fyne.Container {
	name := touch.NewTextField(m.page.in.form, "mold/name", "Name of the mold", 1)
	name.OnCommit = func(text string) { m.next.Mold.Name = text; m.changed() }
	m.show = append(m.show, func() { name.SetText(m.next.Mold.Name) })
	box := stack(name)
	length := func(name, label string) *touch.Field { return m.field("mold/"+name, label, "", touch.Length) }
	mold := &m.base.Mold
	var first, lean []fyne.CanvasObject
	switch mold.Kind {
	case model.MoldRound:
		first, lean = []fyne.CanvasObject{length("diameter", "Diameter")}, []fyne.CanvasObject{length("draft/diameter", "Diameter at the other end")}
	case model.MoldPolygon:
		first, lean = []fyne.CanvasObject{length("span", "Size across")}, []fyne.CanvasObject{length("draft/span", "Size across at the other end")}
	case model.MoldOutline:
		box.Add(touch.NewText("A mold by its outline keeps it here; draw another in Mold and inserts, once it is made.", touch.Small, touch.Faint))
	default:
		first = []fyne.CanvasObject{length("length", "Length"), length("width", "Width")}
		lean = []fyne.CanvasObject{length("draft/length", "Length at the other end"), length("draft/width", "Width at the other end")}
	}
	for _, o := range first {
		box.Add(o)
	}
	for _, o := range lean {
		if mold.Draft.Kind == model.LeanSizes {
			box.Add(o)
		}
	}
	box.Add(length("depth", "Depth"))
	box.Add(m.field("mold/count", "Equal cavities in this mold", "", touch.Number))
	return box
}

// field is an input of what the new piece is to have.
func (m *againMake) field(path, label, help string, kind touch.Kind) *touch.Field {
	f := touch.NewField(m.page.in.form, path, label, kind)
	f.SetHelp(help)
	show := func() {
		if m.bad[path] {
			return
		}
		text, echo := model.Show(&m.next, path)
		f.SetText(text)
		f.SetUnit(unitOf(kind, m.next.Style))
		if kind == touch.Length { // the others stand side by side, with no room for it
			f.SetEcho(echo)
		}
	}
	f.OnCommit = func(text string) {
		err := model.Enter(&m.next, path, text)
		var problem *model.Problem
		if errors.As(err, &problem) {
			m.bad[path] = true
			f.SetProblem(problem.Message)
		} else {
			delete(m.bad, path)
			f.SetProblem("")
			show()
		}
		m.changed()
	}
	m.show = append(m.show, show)
	show()
	return f
}

// showFields shows in each field what the new piece has.
func (m *againMake) showFields() {
	for _, show := range m.show {
		show()
	}
}

// seasonChoice chooses the room: as it was, or another one.
func (m *againMake) seasonChoice() fyne.CanvasObject {
	f := func(name, label string, kind touch.Kind) *touch.Field { return m.field("shop/"+name, label, "", kind) }
	fields := stack(
		pair(f("room", "Room", touch.Temperature), f("night", "At its coldest", touch.Temperature)),
		pair(f("resin", "Resin when poured", touch.Temperature), f("bottles", "Bottles", touch.Temperature)),
		pair(f("wood", "Wood in the mold", touch.Temperature), f("humidity", "Humidity", touch.Percent)),
		touch.NewText("Left empty the others are as the room.", touch.Small, touch.Faint))
	fields.Hide()
	pick := touch.NewChoice([]touch.Option{{ID: "same", Label: "As it was"}, {ID: "other", Label: "Another"}}, "same", func(id string) {
		m.page.commit()
		m.season = id == "other"
		showIf(fields, m.season)
		m.changed()
	})
	return stack(pick, fields)
}

// levelChoice chooses what becomes of the heights.
func (m *againMake) levelChoice() fyne.CanvasObject {
	m.finish = m.field("finish/thickness", "Finished thickness", "what is left after sink and finishing", touch.Length)
	held := stack(m.finish)
	held.Hide()
	pick := touch.NewChoice([]touch.Option{{ID: string(model.KeepLevels), Label: "Stay"}, {ID: string(model.WithDepth), Label: "With depth"}, {ID: string(model.ToFinished), Label: "Thickness"}},
		string(m.levels), func(id string) {
			m.page.commit()
			m.levels = model.LevelRule(id)
			showIf(held, m.levels == model.ToFinished)
			m.changed()
		})
	return stack(pick, held, touch.NewText("Stay: as high above the floor as before. With depth: in proportion to the depth of the mold. Thickness: in proportion, so that the finished piece is as thick as you say.", touch.Small, touch.Faint))
}

// lossChoice chooses whose losses are planned by, and whether what the runs told
// of the lots comes along.
func (m *againMake) lossChoice(shot *app.Snapshot) fyne.CanvasObject {
	body := container.New(layout.NewCustomPaddedVBoxLayout(8), touch.NewChoice([]touch.Option{{ID: "own", Label: "Those of this piece"}, {ID: "usual", Label: "The usual ones"}}, "own", func(id string) {
		m.page.commit()
		m.usual = id == "usual"
		m.changed()
	}))
	if shot.Project.Learns() {
		body.Add(touch.NewToggle("Bring along what its run told of the lots", m.lots, func(on bool) {
			m.page.commit()
			m.lots = on
			m.changed()
		}))
	}
	return body
}

// showIf shows an object or hides it, and tells whether that changed anything.
func showIf(o fyne.CanvasObject, so bool) bool {
	if o.Visible() == so {
		return false
	}
	if so {
		o.Show()
	} else {
		o.Hide()
	}
	return true
}
