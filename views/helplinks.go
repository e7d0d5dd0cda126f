package views

import (
	"slices"
	"strings"

	"meniscus/model"
)

// helpAct is what the help can do at a touch beside leading to a window, a field
// or another part; nil where there is none of the name.
func helpAct(name string) func(*Desk) {
	switch name {
	case "new":
		return (*Desk).newProject
	case "find":
		return func(d *Desk) { d.Show(notebookKey); d.pages[notebookKey].focus(searchField) }
	case "import":
		return (*Desk).importFile
	case "units":
		return (*Desk).showUnits
	case "papers":
		return (*Desk).showPapers
	case "copies":
		return (*Desk).showCopies
	case "again":
		return func(d *Desk) { d.showAgain(againOnce) }
	case "guide":
		return (*Desk).guideAgain
	case "bench":
		return func(d *Desk) { d.benchFrom(cureKey) }
	}
	return nil
}

// follows leads to where a link of the help points: window/KEY, field/PATH,
// help/PART or do/ACT. It tells whether there is such a place.
func (d *Desk) follows(to string) bool {
	kind, rest, _ := strings.Cut(to, "/")
	d.commitAll()
	switch kind {
	case "window":
		if _, ok := windowFor(rest); !ok {
			return false
		}
		d.Show(rest)
		return true
	case "field":
		if homesOf(rest, "")[0] == "" {
			return false
		}
		d.goTo(model.Finding{Field: rest})
		return true
	case "help":
		if !slices.Contains(helpParts, rest) {
			return false
		}
		d.help(rest)
		return true
	}
	act := helpAct(rest)
	if kind != "do" || act == nil {
		return false
	}
	act(d)
	return true
}

// showUnits leads to the units and instruments of the open piece.
func (d *Desk) showUnits() {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.turnTo(p.units.root)
	}
}
