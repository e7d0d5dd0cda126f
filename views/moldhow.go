package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// What a figure of the window opens.
func moldHoldsWorking(shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.MoldWorking(&shot.Project)
}

func moldGapWorking(shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.GapWorking(&shot.Project)
}

func moldSagWorking(shot *app.Snapshot) (model.Working, bool) {
	return shot.Plan.SagWorking(&shot.Project)
}

func moldLeakWorking(shot *app.Snapshot) (model.Working, bool) {
	if p := shot.Plan.Leaks.Worst(); p != nil {
		return shot.Plan.LeakWorking(&shot.Project, p.Layer)
	}
	return model.Working{}, false
}

func moldHoldWorking(shot *app.Snapshot) (model.Working, bool) {
	if p := shot.Plan.Float.Most(); p != nil {
		return shot.Plan.HoldWorking(&shot.Project, p.Layer, "")
	}
	return model.Working{}, false
}

// moldPullWorking is of one thing, in the pour that pulls it most.
func moldPullWorking(field string) workingOf {
	return func(shot *app.Snapshot) (model.Working, bool) {
		layer, _ := shot.Plan.Float.Pull(field)
		return shot.Plan.HoldWorking(&shot.Project, layer, field)
	}
}

// moldPullLead is what pulls at one thing most, and in which pour.
func moldPullLead(shot *app.Snapshot, field string) (figure, words string) {
	layer, force := shot.Plan.Float.Pull(field)
	if p := shot.Plan.Float.Pour(layer); p != nil && force > 0 {
		return moldWeight(shot.Project.Style, force), "to hold it down with in " + p.Name
	}
	return "", ""
}

// moldSagLead is how far the floor sinks, or how far apart its supports may stand.
func moldSagLead(shot *app.Snapshot) (figure, words string) {
	p, s := shot.Plan.Mold.Sag, shot.Project.Style
	switch {
	case p == nil || !p.Bears:
		return "", ""
	case p.Spacing > 0:
		return "Sinks " + s.Length(p.Sinks.Value), "between two of its supports"
	}
	return "Supports " + model.SpacingWords(s, p.Most.Value) + " apart", "at most, or closer"
}

// leading shows the one figure of a part in large type, and what it is of; where
// the snapshot has its working the figure opens that.
func (m *moldPane) leading(shot *app.Snapshot, lead func(*app.Snapshot) (figure, words string), of workingOf) fyne.CanvasObject {
	words := touch.NewText("", touch.Body, touch.Faint)
	if has(shot, of) {
		figure := m.page.working.opens("", touch.Reading, of)
		m.follow(func(shot *app.Snapshot) {
			text, say := lead(shot)
			figure.SetText(text)
			words.SetText(say)
		})
		return container.NewVBox(container.NewHBox(figure), words)
	}
	figure := touch.NewText("", touch.Reading, touch.Ink)
	box := container.NewVBox(figure, words)
	m.follow(func(shot *app.Snapshot) {
		text, say := lead(shot)
		figure.SetText(text)
		words.SetText(say)
		showIf(box, text != "")
	})
	return box
}

// hows makes the figures below the drawing that open how they came about.
func (d *moldDrawing) hows() {
	w := d.page.working
	d.how.Add(w.opens("", touch.Strong, moldHoldsWorking))
	d.how.Add(w.opens("", touch.Strong, moldGapWorking))
}

// howSee brings these figures up to date, and hides those that there are none of.
func (d *moldDrawing) howSee(shot *app.Snapshot) {
	s := shot.Project.Style
	_, gap := shot.Plan.Tightest()
	for i, part := range []struct {
		text string
		of   workingOf
	}{
		{s.Volume(shot.Plan.Mold.Capacity.Value) + " to the rim", moldHoldsWorking},
		{"gap " + s.Length(max(0, gap.Least)), moldGapWorking},
	} {
		o := d.how.Objects[i].(*touch.Opens)
		o.SetText(part.text)
		showIf(o, has(shot, part.of))
	}
}
