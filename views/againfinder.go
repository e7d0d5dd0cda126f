package views

import (
	"strings"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// pieceFinder chooses another piece of the notebook than the open one. The
// piece that the open one was made from comes first, then those touched last.
type pieceFinder struct {
	search *touch.Search
	pick   *touch.Select
	cards  []model.Card
	open   string
	origin string
	root   fyne.CanvasObject
}

func newPieceFinder(d *Desk, prompt string, chosen func(id string)) *pieceFinder {
	f := &pieceFinder{}
	f.pick = touch.NewSelect(prompt, nil, func(id string) { d.commitAll(); chosen(id) })
	f.search = touch.NewSearch("Find by its name", func(string) { f.fill() })
	f.root = stack(f.search, f.pick)
	return f
}

// see follows the notebook.
func (f *pieceFinder) see(shot *app.Snapshot) {
	f.cards, f.open, f.origin = shot.Cards, shot.Project.ID, shot.Project.Made.Project
	f.fill()
}

// fill offers the pieces that have every word looked for.
func (f *pieceFinder) fill() {
	words := strings.Fields(strings.ToLower(f.search.Text()))
	var list []touch.Option
	for i := range f.cards {
		c := &f.cards[i]
		if c.ID == f.open || len(list) >= atOnce || !hasWords(strings.ToLower(c.Name+" "+c.State), words) {
			continue
		}
		x := touch.Option{ID: c.ID, Label: brief(nameOf(c.Name)+" · "+c.State, 80)}
		if c.ID == f.origin {
			list = append([]touch.Option{x}, list...)
		} else {
			list = append(list, x)
		}
	}
	f.pick.SetOptions(list)
	if len(list) > 0 {
		f.pick.Enable()
	} else {
		f.pick.Disable()
	}
}

// hasWords tells whether a text has every one of some words.
func hasWords(text string, words []string) bool {
	for _, w := range words {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// chosen is the ID of the piece that is chosen; "" for none.
func (f *pieceFinder) chosen() string { return f.pick.Selected() }

// clear chooses none.
func (f *pieceFinder) clear() { f.pick.SetSelected("") }
