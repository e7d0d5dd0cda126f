package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// signature is the structure of the inputs.
func (v *layView) signature(shot *app.Snapshot) string {
	v.pick(shot)
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n%v %d", v.chosen, v.guideWords(shot) != "", shot.Project.Mold.Cavities())
	for i := range shot.Project.Slabs {
		b.WriteString(" " + shot.Project.Slabs[i].ID)
	}
	if s := v.slabOf(&shot.Project); s != nil {
		for i := range s.Layups {
			b.WriteString(" " + s.Layups[i].ID)
		}
	}
	return b.String()
}

// pane makes the inputs.
func (v *layView) pane(m *moldPane, shot *app.Snapshot) fyne.CanvasObject {
	v.follows = nil
	v.pick(shot)
	s := v.slabOf(&shot.Project)
	if s == nil || v.guideWords(shot) != "" {
		return v.toPhoto(shot)
	}
	list := moldRows()
	if len(shot.Project.Slabs) > 1 {
		list.Add(touch.Labelled("Slab", m.items(slabNames, v.slab.slab, func(id string) {
			v.slab.slab, v.chosen = id, ""
			v.canvas.ShowWhole()
			v.see(&v.slab.page.shot)
			m.again()
		})))
	}
	if len(s.Layups) == 0 {
		list.Add(touch.NewText("Lay the mold's cavity over the slab, turn it and move it about: what would be cut, and the resin that is then needed, follow your finger. Try several places and compare them.", touch.Body, touch.Faint))
		list.Add(container.NewHBox(touch.NewStyledButton("Try a place", touch.Primary, v.add)))
		return moldColumn(touch.NewCard("Where the wood is cut", list))
	}
	list.Add(m.items(v.names, v.chosen, v.choose))
	list.Add(container.NewGridWithColumns(2, touch.NewButton("Try another place", v.add), touch.NewButton("Copy this one", v.copy)))
	cards := moldColumn(touch.NewCard("Where the wood is cut", list))
	l := s.Layup(v.chosen)
	if l == nil {
		return cards
	}
	at := "slabs/" + s.ID + "/layups/" + l.ID
	facts := m.facts(func(shot *app.Snapshot) []moldFact { return v.gives(shot) })
	update := m.updates[len(m.updates)-1]
	v.follows = func() { update(&v.slab.page.shot) }
	cards.Add(m.mark(at, touch.NewCard("What it gives", facts)))
	cards.Add(v.useCard(m))
	if len(s.Layups) > 1 {
		cards.Add(v.compareCard(m))
	}
	cards.Add(v.findCard(m))
	cards.Add(touch.NewCard("Where it lies", v.lies(m, shot, at)))
	cards.Add(touch.NewCard("How it is cut", v.sawn(m, at)))
	cards.Add(m.remover("Remove this place", at))
	return cards
}

// toPhoto leads to what is missing before a cavity can be laid over a slab.
func (v *layView) toPhoto(shot *app.Snapshot) fyne.CanvasObject {
	if s := shot.Plan.Slab(v.slab.slab); s != nil && len(s.Upper.Region) > 0 {
		return moldColumn(touch.NewCard("Measure the mold", moldRows(
			touch.NewText("The slab is traced. The mold is not measured yet.", touch.Body, touch.Faint),
			container.NewHBox(touch.NewStyledButton("Go to the mold", touch.Primary, func() { v.slab.page.pane.show(moldSizes) })),
		)))
	}
	return moldColumn(touch.NewCard("Trace the slab first", moldRows(
		touch.NewText("Once its outline is traced in a photo, the mold's cavity is laid over it here.", touch.Body, touch.Faint),
		container.NewHBox(touch.NewStyledButton("Go to the photo", touch.Primary, func() { v.slab.turn(slabPhoto) })),
	)))
}

// names lists the lay-ups of the slab, with a word at the one that was chosen.
func (v *layView) names(shot *app.Snapshot) []touch.Option {
	var list []touch.Option
	if s := v.slabOf(&shot.Project); s != nil {
		for i := range s.Layups {
			l := &s.Layups[i]
			label := l.Name
			if l.Chosen {
				label += ", in use"
			}
			list = append(list, touch.Option{ID: l.ID, Label: label})
		}
	}
	return list
}

// choose shows another lay-up.
func (v *layView) choose(id string) {
	v.chosen = id
	v.see(&v.slab.page.shot)
	v.slab.page.pane.again()
}

// add lays the cavity over the slab in one more place, where it makes sense to
// begin.
func (v *layView) add() {
	v.added("Try another place", func(p *model.Project, id string) {
		v.slab.page.shot.Plan.SuggestLayup(v.slab.slab, p.Slab(v.slab.slab).Layup(id))
	})
}

// copy adds a lay-up that is like the one that is shown.
func (v *layView) copy() {
	v.added("Copy "+v.layup.Name, func(p *model.Project, id string) {
		s := p.Slab(v.slab.slab)
		l, from := s.Layup(id), s.Layup(v.chosen)
		if from == nil {
			return
		}
		c := *from
		c.ID, c.Chosen, c.Name = l.ID, false, brief(from.Name, 40)+" (copy)"
		*l = c
	})
}

// added adds a lay-up, makes something of it, and shows it.
func (v *layView) added(label string, make func(p *model.Project, id string)) {
	var id string
	done := v.slab.page.in.edit(label, "", func(p *model.Project) error {
		if id = p.AddLayup(v.slab.slab); id == "" {
			return errGone
		}
		make(p, id)
		return nil
	})
	if done {
		v.fresh = id
	}
}

// gives is what the lay-up that is shown gives, under the finger too.
func (v *layView) gives(shot *app.Snapshot) []moldFact {
	s, lay := shot.Project.Style, v.shown()
	if lay == nil {
		return []moldFact{{name: "It is being worked out.", tone: touch.Faint}}
	}
	if lay.Pieces == 0 {
		return []moldFact{{name: "Check: there is no wood in the cavity here. Move it over the slab.", tone: touch.CheckTone}}
	}
	areas := s.Areas(lay.Area, lay.Sawdust, lay.Left)
	list := []moldFact{
		{name: "Resin to the fill line", value: layResin(lay, s)},
		{name: "Wood in the cavity", value: layShare(lay.Share)},
		{name: "The blank", value: areas[0]},
		{name: "Live edge in the resin", value: layLength(lay.Live, s)},
		{name: "Cut edge along the walls", value: layLength(lay.AtWall, s)},
		{name: "Length of saw cut", value: layLength(lay.Cut, s)},
		{name: "Goes to sawdust", value: areas[1]},
		{name: "Left of the slab", value: areas[2]},
	}
	if lay.Pieces > 1 {
		list = append(list, moldFact{name: fmt.Sprintf("It falls into %d pieces.", lay.Pieces), tone: touch.Ink})
	}
	return list
}

// lies are the inputs for where the cavity lies.
func (v *layView) lies(m *moldPane, shot *app.Snapshot, at string) fyne.CanvasObject {
	rows := moldRows(
		touch.NewText("Drag the cavity over the slab, or say here where its middle lies. With the drawing in focus, arrow keys move it, and with Shift they turn it.", touch.Small, touch.Faint),
		m.in.words(at+"/name", "Name", 1),
		m.in.quantity(at+"/x", "Middle of the cavity, along the slab", "from the middle of the slab; to the right is above 0", touch.Length),
		m.in.quantity(at+"/y", "Middle of the cavity, across the slab", "from the middle of the slab; up in the drawing is above 0", touch.Length),
		m.in.quantity(at+"/turn", "Turned by", "anticlockwise, seen from above", touch.Angle),
	)
	if l := v.slabOf(&shot.Project).Layup(v.chosen); shot.Project.Mold.Cavities() > 1 || l != nil && l.Cavity > 1 {
		rows.Add(m.oneAtLeast(at+"/cavity", "For cavity number", "counted from the far left, row by row"))
	}
	return rows
}

// sawn are the inputs for how the blank is cut.
func (v *layView) sawn(m *moldPane, at string) fyne.CanvasObject {
	return moldRows(
		m.in.usualLength(at+"/gap", "Gap to the wall", "left between a cut edge and the wall of the mold"),
		m.in.usualLength(at+"/kerf", "Kerf", "width of the saw's cut; measure one"),
		m.in.length(at+"/trim", "Left to trim", "on a cut edge, planed or sanded off to the line"),
		m.toggleField(at+"/bevelled", "Saw tilted to the lean of the walls"),
	)
}
