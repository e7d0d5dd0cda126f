package views

import (
	"context"
	"errors"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// laySearch is what a search for a place told last.
type laySearch struct {
	number int    // counts the searches
	of     string // the lay-up that it was for
	words  string // what came of it; "" while nothing was looked for
	tone   touch.Tone
}

// layWants are what a place can be looked for by.
var layWants = []struct {
	want  model.LayWant
	label string
}{
	{model.WantLive, "Most live edge in the resin"},
	{model.WantResin, "Least resin"},
	{model.WantLeft, "Most of the slab left, for no more resin than here"},
}

// findCard looks for a place by itself; what it finds is one step of undo.
func (v *layView) findCard(m *moldPane) fyne.CanvasObject {
	var kinds []touch.Option
	for _, w := range layWants {
		kinds = append(kinds, touch.Option{ID: string(w.want), Label: w.label})
	}
	said := m.facts(func(*app.Snapshot) []moldFact {
		if v.search.of != v.chosen || v.search.words == "" {
			return []moldFact{{name: "Tries some thousand places and turns, and moves this cavity to the best.", tone: touch.Faint}}
		}
		return []moldFact{{name: v.search.words, tone: v.search.tone}}
	})
	return touch.NewCard("Find a place", moldRows(m.adder("Find the place with …", kinds, v.find), said))
}

// find has the best place looked for and moves the lay-up there.
func (v *layView) find(want string) {
	page, slab, from := v.slab.page, v.slab.slab, v.layup
	number := v.search.number + 1
	say := func(words string, tone touch.Tone) {
		v.search = laySearch{number, from.ID, words, tone}
		page.pane.see(&page.shot)
	}
	say("Looking for a place…", touch.Faint)
	page.desk.session.FindLayup(slab, from, model.LayWant(want), func(to model.Layup, err error) {
		switch {
		case v.search.number != number || errors.Is(err, context.Canceled):
			return
		case err != nil:
			say(capitalised(err.Error()), touch.CheckTone)
			return
		case to == from:
			say("There is no better place than this one.", touch.GoodTone)
			return
		}
		done := page.in.edit("Find a place for "+from.Name, "", func(p *model.Project) error {
			s := p.Slab(slab)
			if s == nil || s.Layup(from.ID) == nil {
				return errGone
			}
			l := s.Layup(from.ID)
			l.X, l.Y, l.Turn = to.X, to.Y, to.Turn
			return nil
		})
		if !done {
			say("It stays where it is.", touch.Faint)
			return
		}
		say("Moved to the place with the "+want+".", touch.GoodTone)
	})
}
