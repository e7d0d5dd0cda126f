package views

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// useCard takes the lay-up that is shown for the piece, and prints it for the
// saw.
func (v *layView) useCard(m *moldPane) fyne.CanvasObject {
	use := touch.NewStyledButton("Use this one", touch.Primary, v.use)
	to := touch.NewButton("Show it under Wood", v.toWood)
	said := m.facts(v.used)
	m.follow(func(shot *app.Snapshot) {
		to.Hidden = len(v.pieces(shot)) == 0
		lay := v.shown()
		if use.Disable(); lay != nil && lay.Pieces > 0 {
			use.Enable()
		}
	})
	return touch.NewCard("Use it", moldRows(said,
		container.NewHBox(use, to),
		container.NewGridWithColumns(2,
			touch.NewButton("Cutting sheet (PDF)", func() {
				v.save(saving{ending: " cutting sheet.pdf", failed: "The cutting sheet was not saved", done: "The cutting sheet is saved in ",
					then: "Print it at 100 %, not fit to page, and measure the square on it first."}, v.slab.page.desk.session.CuttingSheet)
			}),
			touch.NewButton("Drawing (SVG)", func() {
				v.save(saving{ending: " blank.svg", failed: "The drawing was not saved", done: "The drawing is saved in ",
					then: "It is in millimetres, at true size; measure the square in it first."}, v.slab.page.desk.session.CuttingDrawing)
			}))))
}

// pieces are the pieces of wood that were cut by the lay-up that is shown, by ID.
func (v *layView) pieces(shot *app.Snapshot) (list []string) {
	for i := range shot.Project.Pieces {
		if w := &shot.Project.Pieces[i]; w.From == v.slab.slab+"/"+v.chosen {
			list = append(list, w.ID)
		}
	}
	return list
}

// used says whether the lay-up was taken, for which pieces, and whether they are
// still what it gives.
func (v *layView) used(shot *app.Snapshot) []moldFact {
	pieces := v.pieces(shot)
	if len(pieces) == 0 {
		return []moldFact{{name: "What is cut here becomes wood in the mold, in its place.", tone: touch.Faint}}
	}
	names := make([]string, len(pieces))
	for i, id := range pieces {
		names[i] = shot.Project.Piece(id).Name
	}
	list := []moldFact{{name: "In use: " + strings.Join(names, ", ") + ".", tone: touch.GoodTone}}
	lay := (*model.LayPlan)(nil)
	if s := shot.Plan.Slab(v.slab.slab); s != nil {
		lay = s.Layup(v.chosen)
	}
	if lay == nil || lay.Stale {
		list = append(list, moldFact{name: "Check: slab, mold or place have changed since. Use it again to bring the wood up to date.", tone: touch.CheckTone})
	}
	return list
}

// use makes the pieces of the lay-up that is shown, and leads to them.
func (v *layView) use() {
	page := v.slab.page
	page.in.form.CommitAll()
	slab, layup := v.slab.slab, v.chosen
	var made []string
	unweighed := false
	err := page.desk.session.Edit("Use "+v.layup.Name, "", func(p *model.Project) (err error) {
		plan := model.Make(*p)
		was := weighed(p)
		made, err = plan.Choose(p, slab, layup)
		unweighed = weighed(p) < was
		return err
	})
	switch {
	case err != nil:
		page.desk.say(notice{level: model.Stop, what: "This place was not used", do: capitalised(err.Error())})
	case len(made) > 0:
		then := "It stands under Wood, with its outline and its place."
		if unweighed {
			then += " What was weighed before was cut otherwise; weigh it again."
		}
		page.desk.sayBriefly(madeWords(len(made)), then)
		page.piece, page.void = made[0], ""
		page.pane.show(moldWood)
	}
}

// weighed counts the pieces of wood whose weight is known.
func weighed(p *model.Project) (n int) {
	for i := range p.Pieces {
		if p.Pieces[i].Weight.Given() {
			n++
		}
	}
	return n
}

func madeWords(n int) string {
	if n == 1 {
		return "The wood is in the mold"
	}
	return count(n) + " pieces of wood are in the mold"
}

// toWood leads to the pieces of the lay-up.
func (v *layView) toWood() {
	if list := v.pieces(&v.slab.page.shot); len(list) > 0 {
		v.slab.page.selectPiece(list[0])
	}
}

// save asks for a place and writes a file of the lay-up that is shown there.
func (v *layView) save(f saving, content func(slab, layup string) ([]byte, error)) {
	d := v.slab.page.desk
	d.commitAll()
	slab, layup := v.slab.slab, v.chosen
	// What cannot be made is told before a place is asked for.
	if _, err := content(slab, layup); err != nil {
		d.say(notice{level: model.Stop, what: f.failed, do: capitalised(err.Error())})
		return
	}
	f.name = d.session.Snapshot().Project.Name + " " + v.layup.Name
	f.content = func() ([]byte, error) { return content(slab, layup) }
	d.saveFile(d.Show(moldKey), f)
}
