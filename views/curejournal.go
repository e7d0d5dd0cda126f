package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// cureJournal lists what has happened, the latest first, and takes notes.
type cureJournal struct {
	page *curePage
	root *touch.Card
	pane *pane
	note *touch.TextField
	said *touch.Text
}

func newCureJournal(p *curePage) *cureJournal {
	j := &cureJournal{page: p, pane: newPane(p.in), said: touch.NewText("", touch.Body, touch.StopTone)}
	j.note = touch.NewTextField(p.in.form, "journal/note", "Something to note", 1)
	j.note.SetPlaceholder("such as: strings at the touch")
	write := touch.NewButton("Note it with the time", func() {
		text := j.note.Text()
		if text == "" {
			return
		}
		err := p.desk.session.AddNote(text)
		j.said.SetText(problemWords(err))
		if err == nil {
			j.note.SetText("")
		}
	})
	write.Debounce = touch.Settle
	j.root = touch.NewCard("What happened", stack(j.note, write, j.said, j.pane.root))
	return j
}

// see shows the journal.
func (j *cureJournal) see(shot *app.Snapshot) {
	key := fmt.Sprint(shot.Project.Shop.Zone, shot.Project.Style, shot.Project.Journal, len(shot.Project.Ahead(j.page.now)))
	for _, l := range shot.Project.Layers {
		key += l.Name
	}
	j.pane.show(key, func() fyne.CanvasObject { return j.build(shot) })
}

func (j *cureJournal) build(shot *app.Snapshot) fyne.CanvasObject {
	list := stack()
	if words := aheadWords(len(shot.Project.Ahead(j.page.now))); words != "" {
		list.Add(container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(touch.Check, 20)), nil, touch.NewText(words, touch.Body, touch.Ink)))
	}
	gone := shot.Project.TakenBack()
	entries := shot.Project.Journal
	for i := len(entries) - 1; i >= 0; i-- {
		e := entries[i]
		words := entryWords(&shot.Project, e)
		tone := touch.Ink
		var back fyne.CanvasObject
		switch {
		case gone[e.ID]:
			words += " (taken back)"
			tone = touch.Faint
		case e.Kind != model.EntryWithdrawn:
			b := touch.NewStyledButton("Take back", touch.Quiet, func() {
				j.page.in.form.CommitAll()
				j.said.SetText(problemWords(j.page.desk.session.Withdraw(e.ID)))
			})
			b.Debounce = touch.Settle
			back = container.NewVBox(b)
		}
		text := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewText(words, touch.Body, tone), touch.NewText(j.page.clock.full(e.At), touch.Small, touch.Faint))
		list.Add(container.NewBorder(nil, nil, nil, back, text))
	}
	if len(entries) == 0 {
		list.Add(touch.NewText("Nothing yet. Starting a pour is the first thing that is kept here; it can be taken back, never erased.", touch.Body, touch.Faint))
	}
	return list
}

// entryWords tells an entry of the journal in words.
func entryWords(p *model.Project, e model.Entry) string {
	name := "a layer that is gone"
	if i := p.LayerIndex(e.Layer); i >= 0 {
		name = p.Layers[i].Name
	}
	switch e.Kind {
	case model.EntryPourStarted:
		words := "Pour of " + name + " started"
		if e.Room.Given() {
			words += ", the room at " + p.Style.Temperature(e.Room.Value)
		}
		return words
	case model.EntryPourDone:
		return "Pour of " + name + " done"
	case model.EntryDemolded:
		if e.Feel != "" {
			return "Out of the mold, " + string(e.Feel)
		}
		return "Out of the mold"
	case model.EntryReading:
		words := "Read"
		if e.Room.Given() {
			words += " " + p.Style.Temperature(e.Room.Value) + " in the room"
		}
		if e.Part.Given() {
			if e.Room.Given() {
				words += " and"
			}
			words += " " + p.Style.Temperature(e.Part.Value) + " in " + name
		}
		return words
	case model.EntryProbe:
		return "A probe in " + name + " showed " + p.Style.Temperature(e.Part.Value) + " at most"
	case model.EntryTack:
		return "Touched " + name + ": " + feelWords(e.Feel)
	case model.EntryWeighedA:
		return "A for " + name + " weighed: the scale read " + e.Gross.Written
	case model.EntryWeighedB:
		return "B for " + name + " weighed: the scale read " + e.Gross.Written
	case model.EntryMixing:
		return "Began to mix for " + name
	case model.EntryMixed:
		return "Mixed for " + name
	case model.EntryPlaced:
		for i := range p.Inserts {
			if p.Inserts[i].ID == e.Insert {
				return "Placed " + p.Inserts[i].Name
			}
		}
		return "Placed an insert that is gone"
	case model.EntryTooHot:
		return name + " got too hot and was stopped"
	case model.EntryWithdrawn:
		for _, o := range p.Journal {
			if o.ID == e.Of {
				return "Taken back: " + entryWords(p, o)
			}
		}
		return "Taken back"
	}
	return e.Text
}

// feelWords says what a gloved finger found.
func feelWords(f model.Feel) string {
	switch f {
	case model.FeelStrings:
		return "it strings"
	case model.FeelTape:
		return "sticky like tape, nothing on the glove"
	case model.FeelHard:
		return "a nail leaves no mark"
	}
	return string(f)
}

// aheadWords warns of so many entries at a time that the clock has not come to.
func aheadWords(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "One entry lies ahead of this machine's clock. Check the clock's day and hour: every countdown hangs on it."
	}
	return fmt.Sprintf("%d entries lie ahead of this machine's clock. Check the clock's day and hour: every countdown hangs on it.", n)
}
