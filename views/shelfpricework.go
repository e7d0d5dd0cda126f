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

// work are the tasks with their minutes.
func (v *shelfPrice) work(shot *app.Snapshot) fyne.CanvasObject {
	m := &shot.Project.Money
	body := stack(touch.NewText("Count the minutes in which your hands are at it, not the hours of the cure. Logged minutes count instead of planned ones.", touch.Small, touch.Faint))
	for i := range m.Tasks {
		body.Add(v.taskRow(m.Tasks[i].ID))
	}
	if len(m.Tasks) == 0 {
		body.Add(v.edit("Put in the usual tasks", touch.Primary, func(p *model.Project) error {
			for _, t := range model.UsualTasks() {
				p.AddTask(t.Name, t.Per)
			}
			return nil
		}))
	}
	body.Add(v.page.act("Add a task", touch.Plain, func() error {
		id := ""
		err := v.page.desk.session.Edit("Add a task", "", func(p *model.Project) error {
			id = p.AddTask("", model.PerCast)
			return nil
		})
		if err == nil {
			v.task, v.page.lead = id, "costing/tasks/"+id+"/name"
		}
		return err
	}))
	return touch.NewCard("Your work", body)
}

// taskRow is one task: its minutes, and two buttons that log some more. One that
// is open can be named anew and taken away.
func (v *shelfPrice) taskRow(id string) fyne.CanvasObject {
	in, at := v.page.in, "costing/tasks/"+id
	name, per := touch.NewText("", touch.Strong, touch.Ink), touch.NewText("", touch.Small, touch.Faint)
	v.page.follow(func(shot *app.Snapshot) {
		for i := range shot.Project.Money.Tasks {
			if t := &shot.Project.Money.Tasks[i]; t.ID == id {
				name.SetText(capitalised(nameOf(t.Name)))
				per.SetText("for " + perWords(t.Per))
			}
		}
	})
	label := "Change"
	if v.task == id {
		label = "Done"
	}
	open := touch.NewStyledButton(label, touch.Quiet, func() {
		in.form.CommitAll()
		if v.task == id {
			v.task = ""
		} else {
			v.task = id
		}
		v.page.see(v.page.shot)
	})
	head := container.NewBorder(nil, nil, nil, open, container.New(layout.NewCustomPaddedVBoxLayout(0), name, per))
	row := container.New(layout.NewCustomPaddedVBoxLayout(4), head)
	if v.task == id {
		row.Add(in.words(at+"/name", "Name", 1))
		row.Add(in.choice(at+"/per", "Done for", perOptions))
	}
	more := func(n int) fyne.CanvasObject {
		b := touch.NewStyledButton(fmt.Sprintf("+%d min", n), touch.Plain, func() {
			in.form.CommitAll()
			v.page.say(v.page.desk.session.LogMinutes(id, n))
		})
		return container.NewVBox(layout.NewSpacer(), b)
	}
	row.Add(container.NewBorder(nil, nil, nil, container.New(layout.NewCustomPaddedHBoxLayout(8), more(5), more(15)),
		pair(v.minutes(at+"/planned", "Planned"), v.minutes(at+"/logged", "Logged"))))
	if v.task == id {
		row.Add(v.remover("Remove this task", at))
	}
	return row
}
