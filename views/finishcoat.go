package views

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

func coatFigure(_ *finishPart, shot *app.Snapshot) string {
	p, s := &shot.Plan.Finish.Coat, shot.Project.Style
	amount := ""
	switch {
	case p.Kind == "":
		return "Choose a coat"
	case p.Kind == model.CoatNone:
		return "Polish alone"
	case p.Area <= 0:
		return "Not known yet"
	case !p.Volume.Absent:
		amount = s.Volume(p.Volume.Value)
	case !p.Mass.Absent:
		amount = s.Mass(p.Mass.Value)
	}
	if p.Count == 1 {
		return amount + " in one coat"
	}
	return fmt.Sprintf("%s in %d coats", amount, p.Count)
}

func coatWorking(_ *finishPart, shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.Finish.Coat.Working(&shot.Project)
}

func coatKey(_ *finishPart, shot *app.Snapshot) string {
	return fmt.Sprint(shot.Project.Finish.Coat.Kind)
}

// coatCards are what goes on last, how much of it, and what it does to the shine.
func coatCards(t *finishPart, shot *app.Snapshot) []fyne.CanvasObject {
	in := t.page.in
	kinds := []string{string(model.CoatOil), string(model.CoatHardwax), string(model.CoatWax), string(model.CoatVarnish), string(model.CoatNone)}
	rows := moldRows(t.choice("finish/coat/kind", "What goes on last", "Not chosen", kinds...))
	kind := shot.Project.Finish.Coat.Kind
	if kind != "" && kind != model.CoatNone {
		rows.Add(in.words("finish/coat/name", "Its name, as you call it", 1))
		rows.Add(t.tools.mark("finish/coat/where", in.choice("finish/coat/where", "It covers", []touch.Option{
			{ID: string(model.CoatAll), Label: "All over"}, {ID: string(model.CoatWood), Label: "The wood alone"},
		})))
		rows.Add(t.openCount("finish/coat/count", "Coats", ""))
		rows.Add(in.measured("finish/coat/spread", "One coat takes on 1 m²", "as its tin says", touch.Volume))
		rows.Add(in.quantity("finish/coat/weighs", "or by weight", "weigh the tin before and after a coat", touch.Mass))
	}
	return []fyne.CanvasObject{
		t.facts("How much of it", coatFacts),
		touch.NewCard("The coat", rows),
		t.facts(model.LineOnResin, func(shot *app.Snapshot) []moldFact { return []moldFact{{name: shot.Plan.Finish.Coat.Lustre}} }),
		t.follows(func(shot *app.Snapshot) string { return fmt.Sprint(ragNotes(shot)) }, func(shot *app.Snapshot) fyne.CanvasObject {
			if notes := ragNotes(shot); len(notes) > 0 {
				return calmCard(notes)
			}
			return nil
		}),
	}
}

// ragNotes are the notes on cloths that can catch fire, which stand beside what
// makes them so as well as at the foot.
func ragNotes(shot *app.Snapshot) []model.SafetyNote {
	return slices.DeleteFunc(shot.Safety(model.OfFinish), func(n model.SafetyNote) bool { return n.Kind != "rags" })
}

// coatFacts tells the area and what the coats take; what it does to the resin
// has a card of its own.
func coatFacts(shot *app.Snapshot) []moldFact {
	var list []moldFact
	for _, l := range shot.Plan.Finish.Coat.Lines {
		if l.Label != model.LineOnResin {
			list = append(list, moldFact{name: l.Label, value: l.Value})
		}
	}
	return list
}
