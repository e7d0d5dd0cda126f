package views

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

func sandFigure(_ *finishPart, shot *app.Snapshot) string {
	p := &shot.Plan.Finish.Sand
	switch {
	case len(p.Gaps) > 0 && len(p.Steps) == 0:
		return "No grit on hand for it"
	case len(p.Steps) == 0:
		return "Choose a finish"
	}
	text := p.Grits()
	if p.Time.Value > 0 {
		text += ", about " + shot.Project.Style.Span(p.Time.Value)
	}
	return text
}

func sandWorking(_ *finishPart, shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.Finish.Sand.Working(&shot.Project)
}

func sandKey(_ *finishPart, shot *app.Snapshot) string {
	s := &shot.Project.Finish.Sand
	return fmt.Sprint(s.Series, s.Sander)
}

// sandCards are the ladder of grits and what it goes by.
func sandCards(t *finishPart, shot *app.Snapshot) []fyne.CanvasObject {
	in := t.page.in
	series := shot.Project.Finish.Sand.Series
	var finishes []touch.Option
	for _, s := range []model.SurfaceKind{model.SurfaceSatin, model.SurfaceSilk, model.SurfaceClear, model.SurfaceRaw} {
		finishes = append(finishes, touch.Option{ID: string(s), Label: capitalised(s.In(series))})
	}
	wanted := moldRows(
		t.tools.mark("finish/sand/want", in.usualList("finish/sand/want", "Finish of the top and the edges", "Not chosen", finishes)),
		t.tools.mark("finish/sand/under", in.usualList("finish/sand/under", "Finish of the underside", "As the top", finishes)),
		t.choice("finish/sand/after", "What left the surface", "What flattens the faces", faceTools...),
	)
	sander := moldRows(t.choice("finish/sand/sander", "Sanded with", "Random orbit", string(model.SanderOrbit), string(model.SanderHand), string(model.SanderDisc), string(model.SanderBelt)))
	if s := shot.Project.Finish.Sand.Sander; s != model.SanderHand {
		sander.Add(in.usualLength("finish/sand/disc", "Disc or roller across", ""))
		sander.Add(t.openCount("finish/sand/turns", "Turns a minute", "of a random orbit its orbits; as its plate says"))
	}
	sander.Add(in.measured("finish/sand/pace", "Time for 1 dm² with one grit", "such as 40 s", touch.Time))
	sander.Add(in.measured("finish/sand/lasts", "One disc or sheet cuts for", "such as 15 min", touch.Time))
	return []fyne.CanvasObject{
		t.follows(ladderKey, ladderCard),
		touch.NewCard("The finish wanted", wanted),
		t.follows(ladderKey, adviceCard),
		touch.NewCard("The sander", sander),
		t.tools.mark("finish/sand/own", touch.NewCard("Grits on hand", t.grits(shot))),
	}
}

// ladderKey is what the ladder and the advice hang on.
func ladderKey(shot *app.Snapshot) string {
	p := &shot.Plan.Finish.Sand
	return fmt.Sprint(shot.Project.Style, p.Steps, p.Gaps, p.Polish, p.Advice)
}

func ladderCard(shot *app.Snapshot) fyne.CanvasObject {
	if p := &shot.Plan.Finish.Sand; len(p.Steps) == 0 && len(p.Gaps) == 0 {
		return nil
	}
	return touch.NewCard("The ladder", ladderRows(shot))
}

func adviceCard(shot *app.Snapshot) fyne.CanvasObject {
	advice := shot.Plan.Finish.Sand.Advice
	if len(advice) == 0 {
		return nil
	}
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	for _, a := range advice {
		rows.Add(touch.NewText(a, touch.Body, touch.Ink))
	}
	return touch.NewCard("While you sand", rows)
}

// ladderRows lists the grits in turn: how to use each, what it has to take off,
// and what it takes.
func ladderRows(shot *app.Snapshot) fyne.CanvasObject {
	p := &shot.Plan.Finish.Sand
	rows := container.New(layout.NewCustomPaddedVBoxLayout(10))
	said := map[model.GritMark]bool{}
	for i := range p.Steps {
		said[p.Steps[i].Mark] = true
	}
	for _, g := range p.Gaps {
		if !said[g.From] {
			rows.Add(touch.NewText(fmt.Sprintf("Begin with %s: get %s.", g.From, gritNames(g.Want)), touch.Body, touch.CheckTone))
		}
	}
	for i := range p.Steps {
		rows.Add(ladderRow(shot, &p.Steps[i]))
		for _, g := range p.Gaps {
			if mark := p.Steps[i].Mark; g.From == mark && (i+1 == len(p.Steps) || p.Steps[i+1].Mark != mark) {
				rows.Add(touch.NewText(fmt.Sprintf("Too long a step to %s: get %s.", g.To, gritNames(g.Want)), touch.Body, touch.CheckTone))
			}
		}
	}
	if p.Polish {
		rows.Add(touch.NewText("Then polish, in two grades.", touch.Strong, touch.Ink))
	}
	rows.Add(touch.NewText(capitalised(p.Rule)+".", touch.Small, touch.Faint))
	return rows
}

func ladderRow(shot *app.Snapshot, s *model.SandStep) fyne.CanvasObject {
	how := "dry"
	if s.Wet {
		how = "wet"
	}
	if shot.Project.Finish.Sand.Sander == model.SanderBelt {
		how = s.By() + ", " + how
	}
	switch {
	case s.Top && !s.Under:
		how += ", top and edges"
	case s.Under && !s.Top:
		how += ", underside"
	}
	switch {
	case s.Other == "":
	case strings.HasPrefix(string(s.Other), "P"):
		how += ", near " + string(s.Other)
	default:
		how += ", near CAMI " + string(s.Other)
	}
	takes := s.TakesWords(shot.Project.Style)
	words := container.New(layout.NewCustomPaddedVBoxLayout(1), touch.NewText(takes, touch.Body, touch.Ink), touch.NewText(how, touch.Small, touch.Faint))
	mark := container.New(wideAs(84), touch.NewLine(string(s.Mark), touch.Question, touch.Ink))
	return container.NewBorder(nil, nil, mark, nil, words)
}

// wideAs gives one object so much width, or what it needs.
type wideAs float32

func (w wideAs) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := o[0].MinSize()
	return fyne.NewSize(max(s.Width, float32(w)), s.Height)
}

func (w wideAs) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.Position{})
	o[0].Resize(size)
}

func gritNames(list []model.GritMark) string {
	text := ""
	for i, g := range list {
		if i > 0 {
			text += ", "
		}
		text += string(g)
	}
	return text
}

// grits are the series and a switch for each of its grades.
func (t *finishPart) grits(shot *app.Snapshot) fyne.CanvasObject {
	series := t.page.in.choice("finish/sand/series", "Discs are marked", []touch.Option{
		{ID: string(model.SeriesFEPA), Label: "P, as P120"}, {ID: string(model.SeriesCAMI), Label: "120 alone"},
	})
	grid := container.NewGridWithColumns(3)
	for _, g := range model.GritsOnHand(shot.Project.Finish.Sand.Series) {
		mark := g.Mark
		one := touch.NewToggle(string(mark), false, func(on bool) {
			t.page.in.edit("Grits on hand", "", func(p *model.Project) error {
				p.OwnGrit(mark, on)
				return nil
			})
		})
		t.tools.follow(func(shot *app.Snapshot) { one.SetOn(slices.Contains(shot.Project.Finish.Sand.Own, mark)) })
		grid.Add(one)
	}
	return moldRows(
		t.tools.mark("finish/sand/series", series),
		touch.NewText("Mark what is in the drawer, and the ladder uses only that. With none marked any can be had.", touch.Small, touch.Faint),
		grid,
	)
}
