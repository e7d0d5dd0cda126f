package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mixDay answers whether it is a day to pour: what the thermometer and the
// hygrometer say, the answer, and why.
type mixDay struct {
	page *mixingPage
	root *touch.Card
	pane *pane
}

func newMixDay(p *mixingPage) *mixDay {
	d := &mixDay{page: p, pane: newPane(p.in)}
	in := p.in
	d.root = touch.NewCard("Is it a day to pour", stack(
		d.pane.root,
		pair(in.measured("shop/room", "Room now", "beside the mold", touch.Temperature), in.quantity("shop/humidity", "Humidity", "of the air there", touch.Percent)),
		in.measured("shop/bottles", "Bottles", "where they stood, by a probe or a strip held to them", touch.Temperature),
		pair(in.measured("shop/resin", "Mixed resin", "in the cup", touch.Temperature), in.measured("shop/wood", "Wood in the mold", "laid on it, under a cloth", touch.Temperature)),
	))
	for _, path := range []string{"shop/room", "shop/resin", "shop/wood"} { // two stand side by side
		in.also(path, func(*app.Snapshot) { in.form.Field(path).SetEcho("") })
	}
	return d
}

// see answers for a layer.
func (d *mixDay) see(shot *app.Snapshot, l *model.LayerPlan) {
	d.root.Hidden = l == nil || l.Status == model.Poured
	if d.root.Hidden {
		return
	}
	day := shot.Plan.PourDay(&shot.Project, l.ID)
	d.pane.show(fmt.Sprint(shot.Project.ID, shot.Project.Style, l.ID, day), func() fyne.CanvasObject { return d.answer(shot, l, &day) })
	d.root.Refresh()
}

// dayWords are the answers as they are read from the bench.
var dayWords = map[model.DayVerdict]string{
	model.DayGo: "Go", model.DayWarm: "Warm the bottle", model.DayWait: "Wait", model.DayUnknown: "Not known yet",
}

// answer shows the answer in large type, what it rests on, and what speaks
// against the day.
func (d *mixDay) answer(shot *app.Snapshot, l *model.LayerPlan, day *model.DayPlan) fyne.CanvasObject {
	s := shot.Project.Style
	rows := container.New(layout.NewCustomPaddedVBoxLayout(look.Gap), touch.NewLine(dayWords[day.Verdict], touch.Reading, touch.Ink))
	if day.Dew.Absent {
		rows.Add(touch.NewText("The dew point is not known: "+day.Dew.Source+".", touch.Body, touch.Ink))
	} else {
		of := func(shot *app.Snapshot) (model.Working, bool) { return shot.Plan.DayWorking(&shot.Project, l.ID) }
		rows.Add(opensRow(d.page.working, shot, "Dew point", s.Temperature(day.Dew.Value), of))
		rows.Add(opensRow(d.page.working, shot, capitalised(day.Where)+" above it by", s.TempRise(day.Margin.Value), of))
	}
	for _, r := range day.Reasons {
		f := r.Finding
		level := touch.Check
		if f.Level == model.Stop {
			level = touch.Stop
		}
		rows.Add(signed(level, f.What+": "+f.Why+". "+capitalised(f.Do)+"."))
	}
	if day.Verdict == model.DayGo && len(day.Reasons) == 0 {
		rows.Add(touch.NewText("Everything is well above the dew point, the air is dry enough, and nothing is too cold.", touch.Body, touch.Ink))
	}
	return rows
}

// opensRow is the name of a figure with the figure at the end of its line, which
// opens how it came about.
func opensRow(w *workingPanel, shot *app.Snapshot, name, figure string, of workingOf) fyne.CanvasObject {
	return container.NewBorder(nil, nil, container.NewCenter(touch.NewLine(name, touch.Body, touch.Ink)), newOpens(w, shot, figure, touch.Strong, of))
}
