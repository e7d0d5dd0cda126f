package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// moldInsertKinds are the forms of insert as they are offered.
var moldInsertKinds = []touch.Option{
	{ID: string(model.InsertStanding), Label: "Standing cylinder"},
	{ID: string(model.InsertLying), Label: "Lying cylinder"},
	{ID: string(model.InsertHalf), Label: "Half cylinder, flat side down"},
	{ID: string(model.InsertSphere), Label: "Ball"},
	{ID: string(model.InsertBox), Label: "Box"},
	{ID: string(model.InsertRing), Label: "Ring or washer"},
	{ID: string(model.InsertFrustum), Label: "Cone cut off"},
	{ID: string(model.InsertDisplaces), Label: "Any form, measured in water"},
	{ID: string(model.InsertMass), Label: "Any form, by weight and density"},
}

// insertSignature is the structure of the section of the inserts.
func (m *moldPane) insertSignature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n%d %v", m.page.insert, shot.Project.Mold.Cavities(), len(shot.Project.Layers) > 0)
	for i := range shot.Project.Inserts {
		b.WriteString(" " + shot.Project.Inserts[i].ID)
	}
	if s := shot.Project.Insert(m.page.insert); s != nil {
		fmt.Fprintf(&b, "\n%s %s", s.Kind, s.On)
	}
	return b.String()
}

// inserts makes the section of the inserts: the kinds, and one of them to edit.
func (m *moldPane) inserts(shot *app.Snapshot) fyne.CanvasObject {
	list := moldRows()
	if len(shot.Project.Inserts) == 0 {
		list.Add(touch.NewText("Anything set loose in the resin: washers, shells, pebbles, dried seed heads. Measure one of each kind and count them; resin and cover follow.", touch.Body, touch.Faint))
	} else {
		list.Add(m.items(moldInsertNames, m.page.insert, func(id string) {
			m.page.insert = id
			m.again()
		}))
	}
	list.Add(m.adder("Add inserts", moldInsertKinds, m.addInsert))
	cards := moldColumn(touch.NewCard("Inserts", list))
	s := shot.Project.Insert(m.page.insert)
	if s == nil {
		if len(shot.Project.Inserts) > 0 {
			cards.Add(touch.NewText("Touch a kind to see what it takes and to change it.", touch.Body, touch.Faint))
		}
		return cards
	}
	at, id := "inserts/"+s.ID, s.ID
	cards.Add(m.mark(at, touch.NewCard("What they take", m.facts(func(shot *app.Snapshot) []moldFact { return moldTakes(shot, id) }))))
	cards.Add(touch.NewCard("One of them", m.insertForm(s, at)))
	cards.Add(touch.NewCard("Where they go", m.insertPlace(shot, s, at)))
	cards.Add(m.remover("Remove these inserts", at))
	return cards
}

// moldInsertNames lists the kinds of insert with their counts.
func moldInsertNames(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	for i := range shot.Project.Inserts {
		s := &shot.Project.Inserts[i]
		list = append(list, touch.Option{ID: s.ID, Label: fmt.Sprintf("%d × %s", s.Count, s.Name)})
	}
	return list
}

// addInsert adds a kind of insert and turns to it.
func (m *moldPane) addInsert(kind string) {
	m.addItem("Add inserts", func(p *model.Project) (string, error) { return p.AddInsert(model.InsertKind(kind)), nil }, func(id string) {
		m.page.insert = id
		m.lead = "inserts/" + id + "/count"
	})
}

// moldTakes is what follows from one kind of insert.
func moldTakes(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	p := shot.Plan.Insert(id)
	if p == nil || p.Each <= 0 {
		return []moldFact{{name: "Not measured yet: see what is asked for below.", tone: touch.Faint}}
	}
	list := []moldFact{
		{name: "Each displaces", value: s.Volume(p.Each)},
		{name: fmt.Sprintf("All %d displace", p.Count), value: s.Volume(p.Total)},
	}
	for k, v := range p.Layers {
		if v > 0 && k < len(shot.Plan.Layers) {
			list = append(list, moldFact{name: "of that in " + shot.Plan.Layers[k].Name, value: s.Volume(v)})
		}
	}
	list = append(list, moldFact{name: "From the floor, foot to top", value: s.Length(p.Bottom) + " to " + s.Length(p.Top)})
	if shot.Plan.Mold.FillLine > 0 {
		if p.Cover < 0 {
			list = append(list, moldFact{name: "Above the finished face by", value: s.Length(-p.Cover), tone: touch.StopTone})
		} else {
			list = append(list, moldFact{name: "Cover after finishing", value: s.Length(p.Cover)})
		}
	}
	if p.Floats {
		list = append(list, moldFact{name: "Check: they float in this resin. Glue or pin them.", tone: touch.CheckTone})
	}
	return list
}

// insertForm are the inputs for one insert.
func (m *moldPane) insertForm(s *model.Insert, at string) fyne.CanvasObject {
	rows := moldRows(
		m.in.words(at+"/name", "Name", 1),
		m.in.count(at+"/count", "How many", "all alike"),
		m.mark(at+"/kind", m.in.list(at+"/kind", "Form", "Choose a form", func(*app.Snapshot) []touch.Option { return moldInsertKinds })),
	)
	dim := func(name, label, help string) { rows.Add(m.in.length(at+"/"+name, label, help)) }
	switch s.Kind {
	case model.InsertStanding:
		dim("diameter", "Diameter", "")
		dim("tall", "Height", "from its foot to its top")
	case model.InsertLying, model.InsertHalf:
		dim("diameter", "Diameter", "of the full round")
		dim("length", "Length", "")
	case model.InsertSphere:
		dim("diameter", "Diameter", "")
	case model.InsertBox:
		dim("length", "Length", "")
		dim("width", "Width", "")
		dim("tall", "Height", "as it lies")
	case model.InsertRing:
		dim("diameter", "Outside diameter", "")
		dim("inner", "Diameter of the hole", "")
		dim("tall", "Thickness", "as it lies flat")
	case model.InsertFrustum:
		dim("diameter", "Diameter at the foot", "")
		dim("inner", "Diameter at the top", "0 for a full cone")
		dim("tall", "Height", "")
	case model.InsertDisplaces:
		rows.Add(m.in.quantity(at+"/displaces", "Each displaces", "push one below water in a measuring cylinder and read how far it rises", touch.Volume))
		dim("tall", "Overall height", "as it lies; left empty it counts as a ball")
	case model.InsertMass:
		dim("tall", "Overall height", "as it lies; left empty it counts as a ball")
	}
	if s.Kind == model.InsertMass {
		rows.Add(m.in.quantity(at+"/mass", "Weight of one", "weigh ten and divide", touch.Mass))
		rows.Add(m.in.quantity(at+"/density", "Density", "of what it is made of: slate 2.7, copper 8.9, glass 2.5 g/ml", touch.Density))
	} else {
		rows.Add(m.in.quantity(at+"/mass", "Weight of one", "weigh ten and divide; with it the plan knows whether they float", touch.Mass))
		rows.Add(m.in.quantity(at+"/density", "or its density", "of the whole thing, hollows counted", touch.Density))
	}
	return rows
}

// insertPlace are the inputs for what inserts rest on.
func (m *moldPane) insertPlace(shot *app.Snapshot, s *model.Insert, at string) fyne.CanvasObject {
	on := []touch.Option{{ID: string(model.OnFloor), Label: "The floor"}, {ID: string(model.OnHeight), Label: "A height"}}
	if len(shot.Project.Layers) > 0 || s.On == model.OnLayer {
		on = append(on, touch.Option{ID: string(model.OnLayer), Label: "A layer"})
	}
	rows := moldRows(m.mark(at+"/on", m.restsOn(s.ID, on)))
	if len(on) == 2 {
		rows.Add(touch.NewText("Once a pour is planned in the window Layers, they can also rest on it.", touch.Small, touch.Faint))
	}
	switch s.On {
	case model.OnHeight:
		rows.Add(m.in.length(at+"/height", "Foot above the floor", ""))
	case model.OnLayer:
		rows.Add(m.mark(at+"/layer", m.in.list(at+"/layer", "Set on top of", "Choose a layer", func(shot *app.Snapshot) []touch.Option {
			var list []touch.Option
			for i := range shot.Project.Layers {
				list = append(list, touch.Option{ID: shot.Project.Layers[i].ID, Label: shot.Project.Layers[i].Name})
			}
			return list
		})))
	}
	if shot.Project.Mold.Cavities() > 1 || s.Cavity > 1 {
		rows.Add(m.oneAtLeast(at+"/cavity", "In cavity number", "counted from the far left, row by row"))
	}
	rows.Add(m.toggleField(at+"/fixed", "Glued or pinned, so they cannot float"))
	rows.Add(m.toggleField(at+"/damp", "May hold water"))
	rows.Add(m.toggleField(at+"/sealed", "Hollow and closed, or a battery"))
	return rows
}

// restsOn chooses what inserts rest on. With a layer goes the lowest one until
// another is chosen.
func (m *moldPane) restsOn(id string, options []touch.Option) fyne.CanvasObject {
	path := "inserts/" + id + "/on"
	c := touch.NewChoice(options, "", func(on string) {
		m.in.edit("What they rest on", "", func(p *model.Project) error {
			if err := model.Enter(p, path, on); err != nil {
				return err
			}
			for i := range p.Inserts {
				if s := &p.Inserts[i]; s.ID == id && s.On == model.OnLayer && s.Layer == "" && len(p.Layers) > 0 {
					s.Layer = p.Layers[0].ID
				}
			}
			return nil
		})
	})
	m.follow(func(shot *app.Snapshot) { c.SetChosen(moldShown(shot, path)) })
	return touch.Labelled("They rest on", c)
}
