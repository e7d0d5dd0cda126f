package views

import (
	"fmt"

	"meniscus/model"
	"meniscus/views/touch"
)

// layersList is the list of pours with what adds to it and takes from it.
type layersList struct {
	page   *layersPage
	root   *touch.Card
	rows   *pourRows
	remove *touch.Button
}

func newLayersList(p *layersPage) *layersList {
	l := &layersList{page: p}
	l.rows = newPourRows(p.choose, func(i int, l *model.LayerPlan) string {
		words := fmt.Sprintf("%d · %s · %s", i+1, l.Name, p.shot.Project.Style.Length(l.Depth))
		if l.Status == model.Poured {
			words += " · poured"
		}
		return words
	})
	add := touch.NewStyledButton("Add one on top", touch.Quiet, l.add)
	add.Debounce = touch.Settle
	l.remove = touch.NewStyledButton("Remove", touch.Quiet, l.take)
	l.remove.Debounce = touch.Settle
	l.root = touch.NewCard("Pours", l.rows.root, add, l.remove)
	return l
}

// see shows the pours.
func (l *layersList) see(s *shotOf) {
	l.rows.see(s.Snapshot, s.layer)
	if s.layer == nil {
		l.remove.Disable()
	} else {
		l.remove.Enable()
	}
}

// add puts a pour on top and chooses it.
func (l *layersList) add() {
	p := l.page
	p.in.form.CommitAll()
	err := p.desk.session.Edit("Add a pour", "", func(m *model.Project) error {
		p.layer = m.AddLayer()
		return nil
	})
	p.said.SetText(problemWords(err))
	p.tab = layersPour
	p.tabs.SetChosen(p.tab)
}

// take takes the chosen pour away; one that has been poured stays.
func (l *layersList) take() {
	p := l.page
	chosen := p.chosen()
	if chosen == nil {
		return
	}
	p.in.form.CommitAll()
	err := p.desk.session.Edit("Remove "+chosen.Name, "", func(m *model.Project) error { return m.Remove("layers/" + chosen.ID) })
	p.said.SetText("")
	if err != nil {
		p.said.SetText(chosen.Name + " stays: " + problemWords(err))
	}
}
