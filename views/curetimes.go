package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// cureTimes holds the times of each layer, here and as the data sheet says.
type cureTimes struct {
	page *curePage
	root *touch.Card
	pane *pane
}

func newCureTimes(p *curePage) *cureTimes {
	t := &cureTimes{page: p, pane: newPane(p.in)}
	t.root = touch.NewCard("Times here, and on the sheet", t.pane.root)
	return t
}

// see shows the times of a plan's layers.
func (t *cureTimes) see(shot *app.Snapshot) {
	t.root.Hidden = len(shot.Plan.Layers) == 0
	key := fmt.Sprint(shot.Project.Style, shot.Project.Shop.Zone)
	for i := range shot.Plan.Layers {
		l := &shot.Plan.Layers[i]
		key += fmt.Sprint(l.ID, l.Name, l.Status, l.Times, i == len(shot.Plan.Layers)-1)
		if s := shot.Project.Sheet(l.Sheet); s != nil {
			key += fmt.Sprint(s.WorkingTime, s.RecoatFrom, s.RecoatTo, s.Demold, s.FullCure)
		}
	}
	for _, s := range shot.Plan.Steps {
		key += s.Due.String()
	}
	t.pane.show(key, func() fyne.CanvasObject { return t.build(shot) })
}

func (t *cureTimes) build(shot *app.Snapshot) fyne.CanvasObject {
	list := container.New(layout.NewGridLayout(min(2, max(1, len(shot.Plan.Layers)))))
	last := len(shot.Plan.Layers) - 1
	for i := range shot.Plan.Layers {
		l := &shot.Plan.Layers[i]
		rows := container.New(layout.NewCustomPaddedVBoxLayout(5), touch.NewText(fmt.Sprintf("%d · %s", i+1, l.Name), touch.Strong, touch.Ink))
		if l.Status == model.Poured {
			if level, words := windowWords(shot, &t.page.clock, l.ID, t.page.now); words != "" {
				rows.Add(container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(level, 20)), nil, touch.NewText(words, touch.Body, touch.Ink)))
			}
		}
		sheet := shot.Project.Sheet(l.Sheet)
		if sheet == nil {
			rows.Add(touch.NewText("no resin is chosen for it", touch.Body, touch.Faint))
			list.Add(rows)
			continue
		}
		add := func(name string, f model.Figure[unit.Span], k model.Known[unit.Span]) {
			rows.Add(timeRow(shot.Project.Style, name, f, k, l.Times.Room))
		}
		add("Working time", sheet.WorkingTime, l.Times.Working)
		if i < last {
			add("Next pour from", sheet.RecoatFrom, l.Times.RecoatFrom)
			add("Next pour until", sheet.RecoatTo, l.Times.RecoatTo)
		} else {
			add("Demold after", sheet.Demold, l.Times.Demold)
			add("Full cure after", sheet.FullCure, l.Times.FullCure)
		}
		if u, ok := shot.Project.Usual("sheets/" + sheet.ID + "/activation"); ok && !sheet.Activation.Given() {
			rows.Add(newDotted("typical, for how warmth hurries it: " + u.Value).root)
		}
		list.Add(rows)
	}
	for i, o := range list.Objects {
		if i%2 == 0 && len(list.Objects) > 1 {
			list.Objects[i] = container.New(layout.NewCustomPaddedLayout(0, 0, 0, 28), o)
		}
	}
	return list
}

// timeRow is one time: what it is here in bold, and what the sheet says.
func timeRow(s unit.Style, name string, f model.Figure[unit.Span], k model.Known[unit.Span], room unit.Temperature) fyne.CanvasObject {
	if k.Absent {
		return container.New(layout.NewCustomPaddedVBoxLayout(0), timeHead(name, "not known"), touch.NewText(k.Source, touch.Small, touch.Faint))
	}
	said := "here at " + s.Temperature(room)
	if f.Given() {
		said = "sheet: " + s.Span(f.Value) + sheetConditions(s, f) + "; " + said
	}
	if k.Low != k.High {
		said += ", between " + s.Span(k.Low) + " and " + s.Span(k.High)
	}
	row := container.New(layout.NewCustomPaddedVBoxLayout(0), timeHead(name, s.Span(k.Value)), touch.NewText(said, touch.Small, touch.Faint))
	switch {
	case !f.Given():
		row.Add(newDotted("typical, not from the sheet").root)
	case k.Typical:
		row.Add(newDotted("sheet's temperature not given: taken as 20 °C").root)
	}
	return row
}

func timeHead(name, value string) fyne.CanvasObject {
	return container.NewBorder(nil, nil, nil, touch.NewLine(value, touch.Strong, touch.Ink), touch.NewText(name, touch.Body, touch.Ink))
}

// sheetConditions says what a figure of a sheet holds at.
func sheetConditions(s unit.Style, f model.Figure[unit.Span]) string {
	words := ""
	if f.At.Given() {
		words = " at " + s.Temperature(f.At.Value)
	}
	if f.Mass.Given() {
		words += ", " + s.Mass(f.Mass.Value)
	}
	return words
}
