package views

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// natureSignature is the structure of the section of the wood's nature.
func (m *moldPane) natureSignature(shot *app.Snapshot) string {
	var b strings.Builder
	fmt.Fprintf(&b, " %s\n", m.page.piece)
	for i := range shot.Project.Pieces {
		b.WriteString(" " + shot.Project.Pieces[i].ID)
	}
	if w := shot.Project.Piece(m.page.piece); w != nil {
		fmt.Fprintf(&b, "\n%v", shot.Plan.Piece(w.ID) != nil)
	}
	return b.String()
}

// nature makes the section of what the wood is like: the pieces, and of one of
// them its moisture, its movement and its pores.
func (m *moldPane) nature(shot *app.Snapshot) fyne.CanvasObject {
	cards := moldColumn()
	if len(shot.Project.Pieces) > 1 {
		cards.Add(touch.NewCard("Which wood", m.items(moldPieceNames, m.page.piece, func(id string) {
			m.page.piece = id
			m.again()
			m.page.drawn()
		})))
	}
	w := shot.Project.Piece(m.page.piece)
	switch {
	case len(shot.Project.Pieces) == 0:
		cards.Add(touch.NewText("Add a piece of wood under Wood; here it says whether it is dry enough, how it will move and whether it blows bubbles.", touch.Body, touch.Faint))
		return cards
	case w == nil:
		cards.Add(touch.NewText("Touch a piece of wood, here or in the drawing.", touch.Body, touch.Faint))
		return cards
	}
	at, id := "pieces/"+w.ID, w.ID
	cards.Add(m.mark(at+"/nature", touch.NewCard("Is it dry enough?", m.facts(func(shot *app.Snapshot) []moldFact { return natureDry(shot, id) }))))
	cards.Add(touch.NewCard("What it will do there", m.facts(func(shot *app.Snapshot) []moldFact { return natureMovement(shot, id) })))
	cards.Add(touch.NewCard("The wood", m.natureWood(at, id)))
	cards.Add(touch.NewCard("The two rooms", m.natureRooms(id)))
	cards.Add(touch.NewCard("Air and seal coat", m.natureAir(at, id)))
	cards.Add(touch.NewCard("Grain and bond", m.natureHeld(at)))
	return cards
}

// natureSawn are the ways to saw as they are offered.
var natureSawn = []touch.Option{
	{ID: string(model.SawnFlat), Label: "Flat"}, {ID: string(model.SawnRift), Label: "Rift"}, {ID: string(model.SawnQuarter), Label: "Quarter"},
}

// natureWood are the inputs for the kind of wood and its moisture.
func (m *moldPane) natureWood(at, id string) fyne.CanvasObject {
	path := at + "/species"
	list := touch.NewSelect("Choose from the list", natureSpecies(), func(name string) { m.in.choose(path, name) })
	m.follow(func(shot *app.Snapshot) {
		list.SetSelected("")
		if n, ok := shot.Plan.Nature(&shot.Project, id); ok && n.Species != nil {
			list.SetSelected(n.Species.Name)
		}
	})
	return moldRows(
		m.in.words(path, "Species, as you call it", 1),
		m.facts(func(shot *app.Snapshot) []moldFact { return natureTaken(shot, id) }),
		touch.Labelled("Figures of", list),
		m.in.quantity(at+"/nature/moisture", "Moisture", "pin meter set to its species; three places, also on a fresh cut", touch.Percent),
		m.mark(at+"/nature/sawn", m.in.choice(at+"/nature/sawn", "Sawn", natureSawn)),
		touch.NewText("Look at the end: rings along the width are flat-sawn, upright ones quarter-sawn.", touch.Small, touch.Faint),
	)
}

// natureSpecies lists the woods of the table.
func natureSpecies() []touch.Option {
	var list []touch.Option
	for _, s := range model.SpeciesList() {
		list = append(list, touch.Option{ID: s.Name, Label: s.Name})
	}
	return list
}

// natureTaken says as which wood the maker's words were taken.
func natureTaken(shot *app.Snapshot, id string) []moldFact {
	w := shot.Project.Piece(id)
	n, ok := shot.Plan.Nature(&shot.Project, id)
	switch {
	case w == nil || !ok || w.Species == "":
		return nil
	case n.Species == nil:
		return []moldFact{{name: "Not in the list. Choose the nearest, or give its shrinkage by hand below.", tone: touch.CheckTone}}
	case n.Near:
		return []moldFact{{name: "Taken as " + n.Species.Name + ". Choose another if it is not.", tone: touch.Faint}}
	}
	return nil
}

// natureDry says whether a piece is dry enough, and how the meter's reading
// stands to the two rooms.
func natureDry(shot *app.Snapshot, id string) []moldFact {
	s := shot.Project.Style
	n, ok := shot.Plan.Nature(&shot.Project, id)
	if !ok {
		return []moldFact{{name: "Not measured yet: its sizes are asked for under Wood.", tone: touch.Faint}}
	}
	tone := map[model.Level]touch.Tone{model.Stop: touch.StopTone, model.Check: touch.CheckTone}[n.DryLevel]
	if n.Dry == model.DryEnough {
		tone = touch.GoodTone
	}
	list := []moldFact{{name: "Dry enough", value: string(n.Dry), tone: tone}, {name: n.DryWhy, tone: touch.Ink}}
	if !n.Moisture.Absent {
		list = append(list, moldFact{name: "The meter says", value: fmt.Sprintf("%s, give or take %s", s.Share(n.Moisture.Value), strings.TrimSuffix(s.Share(n.Moisture.High-n.Moisture.Value), " %"))})
	}
	if !n.Shop.Absent {
		list = append(list, moldFact{name: "Your shop brings wood to", value: shareWords(s, n.Shop)})
	}
	there := "The room it goes to brings it to"
	if n.Theirs.Typical {
		there = "A heated home brings it to"
	}
	list = append(list, moldFact{name: there, value: shareWords(s, n.Theirs)})
	if n.Settles != "" {
		list = append(list, moldFact{name: n.Settles, tone: touch.Faint})
	}
	return list
}

// natureRooms are the inputs for the shop's air and that of the room the piece
// goes to, and the chart of what they bring wood to.
func (m *moldPane) natureRooms(id string) fyne.CanvasObject {
	rows := moldRows(
		pair(m.in.measured("shop/room", "Your shop", "of the air", touch.Temperature), m.in.quantity("shop/humidity", "its humidity", "on a hygrometer", touch.Percent)),
		pair(m.in.measured("shop/theirs/temperature", "Where it goes", "in winter", touch.Temperature), m.in.measured("shop/theirs/humidity", "its humidity", "in winter", touch.Percent)),
		newNatureChart(m, id).picture,
	)
	m.sideBySide("shop/room", "shop/humidity", "shop/theirs/temperature", "shop/theirs/humidity")
	return rows
}

// sideBySide takes the steps off inputs of which two share a row.
func (m *moldPane) sideBySide(paths ...string) {
	for _, path := range paths {
		if f := m.in.form.Field(path); f != nil {
			f.OnStep = nil
		}
	}
}
