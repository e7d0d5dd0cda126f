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
	add    *touch.Button
	remove *touch.Button
}

func newLayersList(p *layersPage) *layersList {
	l := &layersList{page: p}
	l.rows = newPourRows(p.choose, func(i int, l *model.LayerPlan) string {
		depth := "no depth yet"
		if l.Depth > 0 {
			depth = p.shot.Project.Style.Length(l.Depth)
		}
		words := fmt.Sprintf("%d · %s · %s", i+1, l.Name, depth)
		if l.Status == model.Poured {
			words += " · poured"
		}
		return words
	})
	l.add = touch.NewStyledButton("Add one on top", touch.Quiet, l.put)
	l.add.Debounce = touch.Settle
	l.remove = touch.NewStyledButton("Remove", touch.Quiet, l.take)
	l.remove.Debounce = touch.Settle
	l.root = touch.NewCard("Pours", l.rows.root, l.add, l.remove)
	return l
}

// see shows the pours.
func (l *layersList) see(s *shotOf) {
	l.rows.see(s.Snapshot, s.layer)
	l.remove.Hidden = s.layer == nil
	l.add.SetLabel("Add one on top")
	l.add.SetStyle(touch.Quiet)
	if len(s.Plan.Layers) == 0 {
		l.add.SetLabel("Add the first pour")
		l.add.SetStyle(touch.Primary)
	}
	l.root.Refresh()
}

// put puts a pour on top, chooses it and asks how deep it is.
func (l *layersList) put() {
	p := l.page
	p.in.form.CommitAll()
	err := p.desk.session.Edit("Add a pour", "", func(m *model.Project) error {
		p.layer = m.AddLayer()
		return nil
	})
	if err == nil {
		p.lead = "layers/" + p.layer + "/to"
	}
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
