package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

func useFigure(_ *finishPart, shot *app.Snapshot) string {
	return "Nothing warmer than " + shot.Project.Style.Temperature(shot.Plan.Finish.Use.Limit)
}

func useWorking(_ *finishPart, shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.Finish.Use.Working(&shot.Project)
}

func useKey(*finishPart, *app.Snapshot) string { return "" }

// useCards are what the piece may go through, and the card that goes with it.
func useCards(t *finishPart, _ *app.Snapshot) []fyne.CanvasObject {
	in := t.page.in
	uses := []touch.Option{
		{ID: string(model.UseShow), Label: "To look at"}, {ID: string(model.UseTable), Label: "A table or shelf"}, {ID: string(model.UseBoard), Label: "A serving board"},
	}
	food := in.words("finish/use/food", "What the supplier's sheet says of food", 3)
	food.SetHelp("copied word for word; it is quoted as it stands, and nothing is claimed beyond it")
	return []fyne.CanvasObject{
		t.facts("What warmth it stands", warmthFacts),
		touch.NewCard("What it is for", moldRows(
			t.tools.mark("finish/use/as", in.choice("finish/use/as", "", uses)),
			t.tools.toggleField("finish/use/sun", "It will stand in the sun"),
			food,
		)),
		t.follows(func(shot *app.Snapshot) string { return fmt.Sprint(shot.Plan.Finish.Use.Card) }, careCard),
	}
}

// careCard shows the text that goes with the piece.
func careCard(shot *app.Snapshot) fyne.CanvasObject {
	c := &shot.Plan.Finish.Use.Card
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	for _, l := range c.Lines {
		rows.Add(touch.NewText(l, touch.Body, touch.Ink))
	}
	rows.Add(touch.NewText(c.Foot, touch.Small, touch.Faint))
	return touch.NewCard("The care card", rows)
}

// warmthFacts tells where the resin softens and where that is from.
func warmthFacts(shot *app.Snapshot) []moldFact {
	var list []moldFact
	for _, l := range shot.Plan.Finish.Use.Lines {
		if l.Field == "" {
			list = append(list, moldFact{name: l.Label + " (" + l.Source + ")", value: l.Value})
		}
	}
	return list
}
