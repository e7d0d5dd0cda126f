package views

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// The inputs of what was used up, which are no fields of the shelf: they go into
// the journal of the open project.
const (
	usedPath  = "used of the shelf"
	sealAPath = "seal coat A"
	sealBPath = "seal coat B"
)

// aside is an input of what is no field of the shelf. What is typed into it stays
// with the thing that it is of until it is noted, whatever is built anew or
// chosen meanwhile.
func (p *shelfPage) aside(path, of, label string, kind touch.Kind) *touch.Field {
	f := touch.NewField(p.in.form, path, label, kind)
	f.Stays = true
	at := path + " of " + of
	f.SetText(p.typed[at])
	f.OnCommit = func(text string) { p.typed[at] = text }
	return f
}

// byHand says what of a count goes by itself, and what only by hand.
func byHand(words string) fyne.CanvasObject { return touch.NewText(words, touch.Small, touch.Faint) }

// leftOf is what is left of a thing, with the act that takes it as counted.
func (p *shelfPage) leftOf(id string) fyne.CanvasObject {
	words := touch.NewText("", touch.Strong, touch.Ink)
	take := p.act("Yes, so much is there", touch.Quiet, func() error { return p.desk.session.TakeCount(id) })
	p.follow(func(shot *app.Snapshot) {
		t := shot.ShelfPlan.Thing(id)
		if t == nil {
			return
		}
		text := capitalised(t.LeftWords(shot.Shelf.Style))
		if t.Since() {
			text += ": " + t.TakenWords(shot.Shelf.Style)
		}
		words.SetText(text)
		take.Hidden = !t.Since() || !t.Known
	})
	return container.NewBorder(nil, nil, nil, take, words)
}

// usedUp notes in the journal of the open project that it used up some of a thing.
func (p *shelfPage) usedUp(id, label string, kind touch.Kind) fyne.CanvasObject {
	if !p.shot.Open {
		return byHand("Open a piece to note here what it used up.")
	}
	amount := p.aside(usedPath, p.shot.Project.ID+" "+id, label, kind)
	p.in.bind(usedPath, func(shot *app.Snapshot) {
		if kind == touch.Mass {
			amount.SetUnit(unitOf(kind, shot.Project.Style))
		}
	})
	note := p.act("Note for "+brief(nameOf(p.shot.Project.Name), 18), touch.Plain, func() error {
		return tellFields(p.desk.session.AddUsed(id, amount.Text()), amount)
	})
	return pair(amount, container.NewVBox(layout.NewSpacer(), note))
}

// sealCoat notes in the journal of the open project what of a product was weighed
// for the wood's seal coat; nil where the project does not pour it.
func (p *shelfPage) sealCoat(product *model.Product) fyne.CanvasObject {
	sheet := ""
	for _, s := range p.shot.Project.Sheets {
		if p.shot.Open && s.Product == product.ID {
			sheet = s.ID
		}
	}
	if sheet == "" {
		return nil
	}
	field := func(path, label string) *touch.Field {
		f := p.aside(path, p.shot.Project.ID+" "+sheet, label, touch.Mass)
		p.in.bind(path, func(shot *app.Snapshot) { f.SetUnit(unitOf(touch.Mass, shot.Project.Style)) })
		return f
	}
	a, b := field(sealAPath, "A, without the cup"), field(sealBPath, "B, without the cup")
	note := p.act("Note the seal coat of "+brief(nameOf(p.shot.Project.Name), 20), touch.Plain, func() error {
		return tellFields(p.desk.session.AddSealMixed(sheet, a.Text(), b.Text(), ""), a, b)
	})
	return touch.NewCard("Weighed for a seal coat", stack(pair(a, b), note,
		byHand("Cups of a pour come off by themselves as they are weighed in Mixing; the seal coat once it is noted here. It goes into the journal, where it can be taken back.")))
}

// emptied empties an input once what was typed into it is noted.
func emptied(f *touch.Field) {
	f.SetText("")
	f.OnCommit("")
}

// tellFields shows what is wrong with the text of some inputs by the one that it is
// of, and clears them where nothing is. It gives what belongs to none of them.
func tellFields(err error, fields ...*touch.Field) error {
	for _, f := range fields {
		f.SetProblem("")
		if err == nil {
			emptied(f)
		}
	}
	var problem *model.Problem
	if !errors.As(err, &problem) {
		return err
	}
	at := fields[0]
	if problem.Field == "journal/e/b" {
		at = fields[len(fields)-1]
	}
	at.SetProblem(problem.Message)
	return nil
}
