package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/assets"
	"meniscus/views/touch"
)

// addAbout tells which program this is.
func (p *helpPage) addAbout(all *fyne.Container) {
	all.Add(touch.NewText(app.VersionLine(p.desk.app.Metadata().Version), touch.Strong, touch.Ink))
}

// addTerms lists what others wrote, or shows the terms of the one that is open.
func (p *helpPage) addTerms(all *fyne.Container) {
	list := assets.Licences()
	for _, l := range list {
		if l.Name == p.term {
			all.RemoveAll()
			p.addTerm(all, l)
			return
		}
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(2))
	for _, l := range list {
		name := amid(touch.NewLine(l.Name, touch.Body, touch.Ink))
		version := touch.NewLine(brief(l.Version, 24), touch.Small, touch.Faint)
		rows.Add(touch.NewRow(container.NewBorder(nil, nil, nil, container.NewCenter(version), name), func() {
			p.term = l.Name
			p.show()
		}))
	}
	all.Add(rows)
}

// addTerm shows the terms of one part, word for word.
func (p *helpPage) addTerm(all *fyne.Container, l assets.Licence) {
	back := touch.NewButton("← All licences", func() { p.turn(helpTerms) })
	all.Add(container.NewHBox(back))
	all.Add(touch.NewText(fmt.Sprintf("%s %s", l.Name, l.Version), touch.Title, touch.Ink))
	for _, x := range l.Texts {
		all.Add(touch.NewText(x.File, touch.Strong, touch.Ink))
		all.Add(touch.NewText(x.Text, touch.Small, touch.Ink))
	}
}
