package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// cureTimes holds how hot each layer gets and its times, by the simulation and
// as the data sheet says.
type cureTimes struct {
	page *curePage
	root *touch.Card
	mark *touch.Text // that newer figures are being worked out
	pane *pane
}

func newCureTimes(p *curePage) *cureTimes {
	t := &cureTimes{page: p, pane: newPane(p.in), mark: touch.NewLine("", touch.Small, touch.Faint)}
	t.root = touch.NewCard("Times here, and on the sheet", t.pane.root, container.NewCenter(t.mark))
	return t
}

// see shows the times of a plan's layers.
func (t *cureTimes) see(shot *app.Snapshot) {
	t.root.Hidden = len(shot.Plan.Layers) == 0
	t.mark.SetText(freshWords(shot))
	key := fmt.Sprint(shot.Project.ID, shot.Project.Style, shot.Project.Shop.Zone)
	for i := range shot.Plan.Layers {
		l := &shot.Plan.Layers[i]
		key += fmt.Sprint(l.ID, l.Name, l.Status, l.Times, i == len(shot.Plan.Layers)-1)
		if s := shot.Project.Sheet(l.Sheet); s != nil {
			key += fmt.Sprint(s.WorkingTime, s.Gel, s.RecoatFrom, s.RecoatTo, s.Demold, s.FullCure)
		}
		if c := curingOf(shot, l.ID); c != nil {
			flat := *c
			flat.Beside, flat.Stall, flat.Workings = nil, nil, nil
			key += fmt.Sprint(flat, len(c.Workings))
			if c.Stall != nil {
				key += fmt.Sprint(*c.Stall)
			}
		}
	}
	for _, s := range shot.Plan.Steps {
		key += s.Due.String()
	}
	t.pane.show(key, func() fyne.CanvasObject { return t.build(shot) })
}

// freshWords tells quietly that what is on show is older than what was entered.
func freshWords(shot *app.Snapshot) string {
	switch c := &shot.Curing; {
	case len(shot.Plan.Layers) == 0:
		return ""
	case c.Project == shot.Project.ID && shot.CuringFresh && !c.Banded && simulated(c):
		return "working out how sure it is…"
	case shot.CuringFresh:
		return ""
	}
	return "working it out…"
}

// simulated tells whether any layer could be.
func simulated(c *model.Curing) bool {
	for i := range c.Layers {
		if c.Layers[i].Ready {
			return true
		}
	}
	return false
}

// curingOf gives what the simulation says of a layer of the project, nil where
// it says nothing.
func curingOf(shot *app.Snapshot, layer string) *model.LayerCuring {
	if shot.Curing.Project != shot.Project.ID {
		return nil
	}
	for i := range shot.Curing.Layers {
		if l := &shot.Curing.Layers[i]; l.ID == layer {
			return l
		}
	}
	return nil
}

func (t *cureTimes) build(shot *app.Snapshot) fyne.CanvasObject {
	list := container.New(layout.NewCustomPaddedVBoxLayout(22))
	for i := range shot.Plan.Layers {
		list.Add(t.layer(shot, i))
	}
	return list
}

// layer shows all of one layer: what it is called and how it stands, its
// figures, and what to know about them.
func (t *cureTimes) layer(shot *app.Snapshot, i int) fyne.CanvasObject {
	l := &shot.Plan.Layers[i]
	c := curingOf(shot, l.ID)
	rows := container.New(layout.NewCustomPaddedVBoxLayout(4), t.head(shot, i, c))
	if l.Status == model.Poured {
		if level, words := windowWords(&t.page.timed, shot.Project.Style, &t.page.clock, l.ID, t.page.now); words != "" {
			rows.Add(signed(level, words))
		}
	}
	sheet := shot.Project.Sheet(l.Sheet)
	switch {
	case sheet == nil:
		rows.Add(touch.NewText("no resin is chosen for it", touch.Body, touch.Faint))
		return rows
	case c != nil && c.Ready:
		for _, line := range t.simulated(shot, i, sheet, c) {
			rows.Add(line.row(t.page.working, shot))
		}
		t.remarks(rows, shot, c)
	default:
		for _, line := range t.scaled(shot, i, sheet) {
			rows.Add(line.row(t.page.working, shot))
		}
		if c != nil && c.Why != "" {
			rows.Add(signed(touch.Note, "Not simulated: "+c.Why))
		}
	}
	if u, ok := shot.Project.Usual("sheets/" + sheet.ID + "/activation"); ok && !sheet.Activation.Given() {
		rows.Add(newDotted("typical, for how warmth hurries it: " + u.Value).root)
	}
	return rows
}

// head names a layer and says from when its instants count.
func (t *cureTimes) head(shot *app.Snapshot, i int, c *model.LayerCuring) fyne.CanvasObject {
	l := &shot.Plan.Layers[i]
	words := ""
	switch entry, begun := shot.Project.PourStart(l.ID); {
	case begun:
		words = "poured " + t.page.clock.happened(entry.At, t.page.desk.session.Now())
	case c != nil && c.Ready && !c.Start.IsZero():
		words = "if it is poured " + t.page.clock.dated(c.Start)
	default:
		words = "not poured yet; each time counts from its pour"
	}
	name := touch.NewText(fmt.Sprintf("%d · %s", i+1, l.Name), touch.Strong, touch.Ink)
	return container.New(layout.NewCustomPaddedVBoxLayout(0), name, touch.NewText(words, touch.Small, touch.Faint))
}

// signed puts the shape of a level in front of words.
func signed(level touch.Level, words string) fyne.CanvasObject {
	return container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(level, 20)), nil, touch.NewText(words, touch.Body, touch.Ink))
}

// remarks adds what the figures of a layer do not say by themselves.
func (t *cureTimes) remarks(rows *fyne.Container, shot *app.Snapshot, c *model.LayerCuring) {
	w, s := t.page.working, shot.Project.Style
	add := func(level touch.Level, words string, fig model.Figured) {
		line := signed(level, words)
		if of := figureOf(c.ID, fig); has(shot, of) {
			line = container.NewBorder(nil, nil, nil, w.opens("Why", touch.Body, of), line)
		}
		rows.Add(line)
	}
	if c.Stall != nil {
		add(touch.Check, capitalised(c.Stall.Text)+".", model.FigStall)
	}
	if !c.Gradient.Absent && !c.RunsAway {
		differ := "Once it has begun to set, its hottest and coolest places differ by " + riseWords(s, c.Gradient)
		switch c.Cracks {
		case model.Beyond:
			add(touch.Check, differ+": likely to crack it.", model.FigGradient)
		case model.NotKnown:
			add(touch.Note, differ+": whether that cracks it is not known.", model.FigGradient)
		}
	}
	if c.Learned != "" {
		rows.Add(signed(touch.Note, c.Learned))
	}
	if c.Peak.Typical {
		rows.Add(newDotted("rests on typical figures: touch a number to see which").root)
	}
	if len(c.Narrow) > 0 {
		n := c.Narrow[0]
		words := container.New(layout.NewCustomPaddedVBoxLayout(1),
			touch.NewText("Knowing this would narrow it most: "+n.Label, touch.Body, touch.Ink),
			touch.NewText(n.Learn, touch.Small, touch.Faint))
		row := touch.NewRow(words, func() { t.page.desk.goTo(model.Finding{Field: n.Field, Subject: model.OfLayers}) })
		rows.Add(container.New(layout.NewCustomPaddedLayout(look.Gap/2, 0, 0, 0), row))
	}
}

// has tells whether a snapshot has a working.
func has(shot *app.Snapshot, of workingOf) bool { _, ok := of(shot); return ok }

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
