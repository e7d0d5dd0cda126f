package views

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mold is what can be said of a mold, below what can be added.
func (p *shelfPage) mold(at string) fyne.CanvasObject {
	all := stack()
	if p.shot.Open {
		style := touch.Primary
		if slices.ContainsFunc(p.shot.Shelf.Molds, func(m model.ShelfMold) bool { return m.Mold.Name == p.shot.Project.Mold.Name }) {
			style = touch.Plain // most likely that is it
		}
		all.Add(p.act("Keep the mold of "+brief(nameOf(p.shot.Project.Name), 24)+" here", style, p.desk.session.KeepMold))
	} else {
		all.Add(touch.NewText("Open a piece to keep its mold here.", touch.Body, touch.Faint))
	}
	id := strings.TrimPrefix(at, "shelf/molds/")
	if at == "" {
		return all
	}
	size := touch.NewText("", touch.Body, touch.Ink)
	p.follow(func(shot *app.Snapshot) {
		for i := range shot.Shelf.Molds {
			if m := &shot.Shelf.Molds[i]; m.ID == id {
				size.SetText(moldWords(shot.Shelf.Style, &m.Mold))
			}
		}
	})
	body := stack(p.in.words(at+"/mold/name", "Name", 1), size)
	if p.shot.Open {
		body.Add(p.act("Cast "+brief(nameOf(p.shot.Project.Name), 24)+" in it", touch.Plain, func() error { return p.desk.session.TakeMold(id) }))
		body.Add(touch.NewText("It takes the place of the mold that the piece has; undo brings that back.", touch.Small, touch.Faint))
	}
	all.Add(touch.NewCard("The mold", body))
	all.Add(touch.NewCard("What it costs", stack(
		pair(p.price(at+"/price", "It cost"), p.in.count(at+"/lasts", "Good for casts", "")),
		p.in.count(at+"/casts", "Cast in it so far", "count by hand: pours are not counted here"), p.currency(),
		touch.NewText("Taken for a piece, its price goes along: each cast pays for its part of the casts that it is good for.", touch.Small, touch.Faint),
	)))
	all.Add(p.remove("Take the mold off the shelf", at))
	return all
}

// small is what can be said of a cup, a tint, an insert or what wears away, below
// what can be added.
func (p *shelfPage) small(at string) fyne.CanvasObject {
	adds := func(label string, make func(*model.Shelf) string) fyne.CanvasObject {
		return p.act(label, touch.Plain, func() error {
			p.add(label, "/name", make)
			return nil
		})
	}
	grid := sideBySideUpTo(3,
		adds("Add a cup", func(m *model.Shelf) string { return "shelf/cups/" + m.AddCup() }),
		adds("Add a tint", func(m *model.Shelf) string { return "shelf/tints/" + m.AddTint() }),
		adds("Add abrasive", func(m *model.Shelf) string { return "shelf/consumables/" + m.AddConsumable() }),
	)
	gain := container.New(layout.NewCustomPaddedVBoxLayout(8), grid)
	if p.shot.Open {
		if p.shot.Project.Mixing.Vessel.Given() {
			gain.Add(p.act("Keep the measuring cup of this piece", touch.Plain, p.desk.session.KeepCup))
		}
		for _, x := range p.shot.Project.Inserts {
			if slices.ContainsFunc(p.shot.Shelf.Inserts, func(y model.ShelfInsert) bool { return y.Insert.Name == x.Name }) {
				continue
			}
			gain.Add(p.act("Keep "+brief(nameOf(x.Name), 28), touch.Plain, func() error { return p.desk.session.KeepInsert(x.ID) }))
		}
	}
	all := stack(gain)
	parts := strings.Split(at, "/")
	if len(parts) < 3 {
		return all
	}
	id, project := parts[2], brief(nameOf(p.shot.Project.Name), 24)
	number := func(label string) fyne.CanvasObject {
		return pair(p.in.count(at+"/number", label, ""), p.price(at+"/price", "Price of one"))
	}
	var body *fyne.Container
	title := ""
	switch parts[1] {
	case "cups":
		title = "The cup"
		body = stack(p.in.words(at+"/name", "Name", 1), p.in.plain(at+"/weight", "Empty", "stick and all", touch.Mass),
			pair(p.in.length(at+"/vessel/floorAcross", "Inside, across the floor", ""), p.in.length(at+"/vessel/brimAcross", "Across the brim", "")),
			p.in.length(at+"/vessel/cupTall", "Inside height", ""), number("How many are there"), byHand("count by hand: no pour takes a cup off"))
		if p.shot.Open {
			body.Add(p.act("Mix "+project+" in it", touch.Plain, func() error { return p.desk.session.TakeCup(id) }))
		}
	case "tints":
		title = "The tint"
		body = stack(p.in.words(at+"/name", "Name", 1), p.in.words(at+"/colour", "Colour in a mix, as #rrggbb", 1),
			p.in.list(at+"/kind", "What it is", "Choose", func(*app.Snapshot) []touch.Option {
				var list []touch.Option
				for _, k := range []model.ColorantKind{model.ColorantMica, model.ColorantPaste, model.ColorantInk, model.ColorantOther} {
					list = append(list, touch.Option{ID: string(k), Label: capitalised(string(k))})
				}
				return list
			}),
			p.leftOf(id), pair(p.unsaid(at+"/left", "Left, when weighed"), p.price(at+"/price", "Price of that")),
			byHand("By itself: what goes into the weighed cups of a layer that is tinted from here, to 0.01 g. Count by hand: further tints of a layer, and what was not weighed in Mixing; or note it here."))
		body.Add(p.usedUp(id, "Used up", touch.Mass))
		for _, l := range p.shot.Project.Layers {
			body.Add(p.act("Tint "+brief(nameOf(l.Name), 24)+" with it", touch.Plain, func() error { return p.desk.session.TakeTint(l.ID, id) }))
		}
	case "inserts":
		title = "The insert"
		body = stack(p.in.words(at+"/insert/name", "Name", 1), p.leftOf(id), number("Counted"),
			byHand("By itself: those that are set in a piece from here, once they are noted as placed or the resin about them is poured. Count by hand: what breaks or goes elsewhere; or note it here."))
		body.Add(p.usedUp(id, "Used up", touch.Number))
		if p.shot.Open {
			body.Add(p.act("Set it in "+project, touch.Plain, func() error { return p.desk.session.TakeInsert(id) }))
		}
	default:
		title = "What wears away"
		body = stack(p.in.words(at+"/name", "Name", 1), p.in.count(at+"/grit", "Grit, 0 for none", ""), p.leftOf(id), number("Counted"),
			byHand("Count by hand: sanding takes none off by itself. Note here what a piece used up, or count what is there."))
		body.Add(p.usedUp(id, "Used up", touch.Number))
	}
	body.Add(p.currency())
	all.Add(touch.NewCard(title, body))
	all.Add(p.remove("Take it off the shelf", at))
	return all
}
