package views

import (
	"fmt"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

func flattenFigure(_ *finishPart, shot *app.Snapshot) string {
	f := &shot.Plan.Finish
	switch {
	case !f.Ready:
		return "Not known yet"
	case f.Flatten.Short > 0:
		return shot.Project.Style.Length(f.Flatten.Short) + " too thin"
	case f.Flatten.Faces == nil:
		return "As cast, " + shot.Project.Style.Length(f.Flatten.Reached)
	}
	return "Flatten down to " + shot.Project.Style.Length(f.Flatten.Leave)
}

func flattenWorking(_ *finishPart, shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.Finish.Flatten.Working(&shot.Project)
}

func flattenKey(_ *finishPart, shot *app.Snapshot) string {
	return fmt.Sprint(shot.Project.Finish.Flatten.Tool, len(shot.Project.Finish.Flatten.Points), shot.Plan.Finish.Ready)
}

// faceTools are what takes a face down, or left it as it is.
var faceTools = []string{string(model.ToolRouter), string(model.ToolPlaner), string(model.ToolHand), string(model.ToolBelt), string(model.ToolSaw), string(model.ToolNone)}

// flattenCards are the passes, what is left, and what they go by.
func flattenCards(t *finishPart, shot *app.Snapshot) []fyne.CanvasObject {
	in := t.page.in
	off := moldRows(
		in.length("finish/top", "Off the top", "by flattening and sanding"),
		in.length("finish/bottom", "Off the underside", "from the face that lay on the mold's floor"),
		in.usualLength("finish/thickness", "Thickness that was promised", "of the finished piece; left empty it is what is left"),
		in.measured("finish/minCover", "Least cover over an insert", "resin that stays above it once all is flat", touch.Length),
	)
	how := moldRows(t.choice("finish/flatten/tool", "Flattened with", "Not chosen", faceTools...))
	if shot.Project.Finish.Flatten.Tool != model.ToolNone {
		how.Add(in.usualLength("finish/flatten/resin", "Deepest pass where there is resin", "resin chips, melts and pulls the cutter in"))
		how.Add(in.usualLength("finish/flatten/wood", "Deepest pass on wood alone", ""))
	}
	return []fyne.CanvasObject{
		t.facts("Passes", flattenFacts),
		touch.NewCard("What is to come off", off),
		touch.NewCard("The tool", how),
		touch.NewCard("The casting as it came out", t.thicknesses(shot)),
	}
}

// flattenFacts tells the passes and what is left over each insert.
func flattenFacts(shot *app.Snapshot) []moldFact {
	f := &shot.Plan.Finish
	if !f.Ready {
		return []moldFact{{name: poursFirst, tone: touch.Faint}}
	}
	bad := map[string]bool{}
	for _, c := range f.Flatten.Cover {
		bad["inserts/"+c.Insert] = !c.Fine
	}
	var list []moldFact
	for _, l := range f.Flatten.Lines {
		fact := moldFact{name: l.Label, value: l.Value}
		if bad[l.Field] {
			fact.tone = touch.StopTone
		}
		list = append(list, fact)
	}
	return list
}

// thicknesses are the inputs for the thickness at the corners and in the middle.
func (t *finishPart) thicknesses(shot *app.Snapshot) fyne.CanvasObject {
	points := len(shot.Project.Finish.Flatten.Points)
	rows := moldRows(touch.NewToggle("Measured in five places", points > 0, func(on bool) {
		t.page.in.edit("Thickness of the casting", "", func(p *model.Project) error {
			p.MeasureBlank(on)
			return nil
		})
	}))
	if points == 0 {
		rows.Add(touch.NewText("Until then the fill line, the sink and the level of the bench stand in.", touch.Small, touch.Faint))
		if shot.Plan.Finish.Ready { // else it stands where the casting is drawn
			rows.Add(newCardMethod(t.page.desk, drawing.MethodCasting))
		}
	}
	for i := range points {
		name, where := model.BlankPoint(i)
		rows.Add(t.page.in.length(fmt.Sprintf("finish/flatten/points/%d", i), fmt.Sprintf("%s, %s", name, where), ""))
	}
	return t.tools.mark("finish/flatten/points", rows)
}
