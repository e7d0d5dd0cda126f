package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

func trimFigure(_ *finishPart, shot *app.Snapshot) string {
	f := &shot.Plan.Finish
	if !f.Ready {
		return "Not known yet"
	}
	return f.Trim.ShortWords(shot.Project.Style)
}

func trimWorking(_ *finishPart, shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.Finish.Trim.Working(&shot.Project)
}

func trimKey(_ *finishPart, shot *app.Snapshot) string {
	return string(shot.Project.Finish.Trim.Shape)
}

// trimCards are what is cut off, and how.
func trimCards(t *finishPart, shot *app.Snapshot) []fyne.CanvasObject {
	in := t.page.in
	how := moldRows(t.tools.mark("finish/trim/shape", in.choice("finish/trim/shape", "Cut to", []touch.Option{
		{ID: string(model.TrimAsCast), Label: "As cast"}, {ID: string(model.TrimRectangle), Label: "Rectangle"}, {ID: string(model.TrimCircle), Label: "Circle"},
	})))
	if shot.Project.Finish.Trim.Shape == model.TrimRectangle {
		how.Add(t.tools.toggleField("finish/trim/anyTurn", "It may lie at any angle"))
	}
	how.Add(in.usualLength("finish/trim/extra", "More off every edge", ""))
	how.Add(in.usualLength("finish/trim/kerf", "The saw cuts", "the kerf: how wide its cut is"))
	return []fyne.CanvasObject{
		touch.NewCard("How it is cut", how),
		t.facts("What comes off the edges", trimFacts),
	}
}

// trimFacts tells what comes off each edge, out of the working.
func trimFacts(shot *app.Snapshot) []moldFact {
	f := &shot.Plan.Finish
	if !f.Ready {
		return []moldFact{{name: poursFirst, tone: touch.Faint}}
	}
	var list []moldFact
	for _, l := range f.Trim.Lines {
		if l.Label != model.LineFinishedSize {
			list = append(list, moldFact{name: l.Label, value: l.Value})
		}
	}
	return list
}
