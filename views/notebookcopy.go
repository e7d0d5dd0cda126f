package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// comparedRow is one project of a copy or of the notebook.
type comparedRow struct {
	row *touch.Row
	at  model.Compared
}

// copyPage is a look into one copy: what restoring it would change, project by
// project, a look at each, and the ways to bring it back.
type copyPage struct {
	desk    *Desk
	what    *touch.Text
	box     *fyne.Container
	scroll  *touch.Scroll
	look    *touch.Button
	bring   *touch.Button
	restore *touch.Button
	root    fyne.CanvasObject
	rows    []*comparedRow
	list    []model.Compared
	copy    model.Copy
	chosen  string // ID of the project that is chosen; "" is none
	most    int
	round   int
	locked  bool // nothing can be brought back
	leave   func()
}

func newCopyPage(d *Desk, back, leave func()) *copyPage {
	p := &copyPage{desk: d, box: container.New(layout.NewCustomPaddedVBoxLayout(8)), leave: leave}
	p.what = touch.NewText("", touch.Body, touch.Ink)
	p.scroll = touch.NewScroll(inset(p.box))
	p.look = touch.NewButton("Look at it", func() { d.commitAll(); d.session.LookAt(p.copy, p.chosen) })
	p.bring = touch.NewButton("Bring back only this piece", p.bringBack)
	p.restore = touch.NewStyledButton("Restore this copy", touch.Primary, p.restoreAll)
	help := touch.NewText("Restoring brings back all pieces and the shelf as they were. What is there now is first set aside as a copy, so that it can be brought back in the same way.", touch.Small, touch.Faint)
	acts := container.NewHBox(p.look, p.bring, layout.NewSpacer(), p.restore)
	foot := container.New(layout.NewCustomPaddedLayout(6, 8, 14, 14), container.New(layout.NewCustomPaddedVBoxLayout(6), help, acts))
	p.root = asRead(pageHead("A copy of the notebook", back), p.scroll, foot)
	return p
}

// see follows what can be done.
func (p *copyPage) see(shot *app.Snapshot) {
	p.locked = shot.Saved.Closed && shot.Look == nil
	p.offer()
}

// show looks into a copy.
func (p *copyPage) show(c model.Copy) {
	p.copy, p.list, p.chosen, p.most = c, nil, "", atOnce
	p.round++
	round := p.round
	p.what.SetText("Looking into it…")
	p.build()
	p.desk.session.CompareCopy(c.Path, func(list []model.Compared, err error) {
		if round != p.round {
			return
		}
		p.list = list
		if err != nil {
			p.what.SetText(err.Error())
		} else {
			counts := model.CountStandings(list)
			p.what.SetText("It has " + counted(model.Had(counts), "piece", "pieces") + ": " + standingWords(counts) + ".")
		}
		touch.KeepFocus(p.box, p.build)
	})
}

// build makes the rows.
func (p *copyPage) build() {
	p.box.RemoveAll()
	p.rows = nil
	p.box.Add(touch.NewText(copyDate(p.copy), touch.Title, touch.Ink))
	p.box.Add(p.what)
	for _, c := range p.list[:min(len(p.list), p.most)] {
		words := container.New(layout.NewCustomPaddedVBoxLayout(1), touch.NewBrief(nameOf(c.Card.Name), touch.Strong, touch.Ink), touch.NewBrief(c.Card.State, touch.Small, touch.Ink), touch.NewBrief(standingOf(c), touch.Small, touch.Faint))
		x := &comparedRow{at: c}
		at := len(p.rows)
		x.row = touch.NewRow(words, func() { p.choose(c.ID) })
		x.row.OnMove = func(dir int) {
			if to := at + dir; to >= 0 && to < len(p.rows) {
				p.rows[to].row.Focus()
			}
		}
		p.rows = append(p.rows, x)
		p.box.Add(x.row)
	}
	if n := len(p.list) - p.most; n > 0 {
		p.box.Add(touch.NewStyledButton("Show more ("+counted(n, "piece", "pieces")+")", touch.Quiet, func() { p.most += atOnce; touch.KeepFocus(p.box, p.build) }))
	}
	p.box.Refresh()
	p.scroll.Refresh()
	p.choose(p.chosen)
}

// choose marks a project.
func (p *copyPage) choose(id string) {
	p.chosen = id
	for _, x := range p.rows {
		x.row.SetChosen(x.at.ID == id)
	}
	p.offer()
}

// offer enables what can be done with what is chosen.
func (p *copyPage) offer() {
	able := func(b *touch.Button, can bool) {
		if can {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	there := false
	for _, x := range p.rows {
		if x.at.ID == p.chosen && x.at.Standing != model.OnlyNow {
			there = true
		}
	}
	able(p.look, there)
	able(p.bring, there && !p.locked)
	able(p.restore, p.list != nil && !p.locked)
}

// bringBack brings the chosen project back.
func (p *copyPage) bringBack() {
	p.desk.commitAll()
	p.desk.session.BringBack(p.copy, p.chosen, func() {
		p.leave()
		p.desk.sayBriefly("The piece is as it was in the copy of "+copyDay(p.copy), "What happened since stays in its journal, and Undo takes this back.")
	})
}

// restoreAll puts the copy into the place of the notebook.
func (p *copyPage) restoreAll() {
	p.desk.commitAll()
	p.desk.session.RestoreCopy(p.copy, func() {
		p.leave()
		p.desk.sayBriefly("The notebook is as it was on "+copyDay(p.copy), "What was there before is set aside among the copies.")
	})
}

// standingOf tells how one project in the copy stands to the notebook.
func standingOf(c model.Compared) string {
	then, now := local(c.Card.Touched).Format(copyMoment), local(c.Now).Format(copyMoment)
	switch c.Standing {
	case model.NewerNow:
		return "here touched " + then + "; worked on since, until " + now
	case model.NewerThen:
		return "here touched " + then + "; in the notebook it is older, of " + now
	case model.OnlyThen:
		return "only in the copy, touched " + then + "; restoring brings it back"
	case model.OnlyNow:
		return "not in the copy; restoring takes it away"
	}
	return "the same as now"
}
