package views

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mostShown is how many points of an outline are shown as text. A longer one
// is a trace, which is not mended by hand.
const mostShown = 400

// outline is an input for an outline by points: lines of x and y, typed or
// pasted. Text that cannot be read is kept, with the line that is wrong.
func (m *moldPane) outline(path, label, help string) fyne.CanvasObject {
	f := touch.NewTextField(m.in.form, path, label, 6)
	f.SetPlaceholder("0, 0\n320, 0\n320, 180\n0, 180")
	f.OnCommit = func(text string) { m.enterOutline(path, label, text) }
	count := touch.NewText("", touch.Small, touch.Faint)
	m.in.bind(path, func(shot *app.Snapshot) {
		ring, _ := model.Outline(&shot.Project, path)
		switch {
		case len(ring) == 0:
			count.SetText("No points yet")
		case len(ring) > mostShown:
			count.SetText(fmt.Sprintf("%d points, too many to show; paste again to replace them", len(ring)))
		default:
			count.SetText(fmt.Sprintf("%d points, measured from the middle", len(ring)))
		}
		if text, reason, bad := shot.Problem(path); bad {
			f.SetText(text)
			f.SetProblem(reason)
			return
		}
		text := ""
		if len(ring) <= mostShown {
			text = model.WriteOutline(ring, shot.Project.Style)
		}
		f.SetText(text)
		f.SetProblem("")
	})
	shot := m.in.session.Snapshot()
	f.SetHelp(help + "; a bare number is in " + string(shot.Project.Style.LengthUnit()))
	paste := touch.NewButton("Paste points", func() {
		m.enterOutline(path, label, fyne.CurrentApp().Clipboard().Content())
	})
	beside := container.NewVBox(layout.NewSpacer(), count, layout.NewSpacer())
	return container.NewVBox(f, container.NewBorder(nil, nil, paste, nil, container.New(layout.NewCustomPaddedLayout(0, 0, look.Gap, 0), beside)))
}

// enterOutline takes the text of an outline, or keeps it as typed with what is
// wrong.
func (m *moldPane) enterOutline(path, label, text string) {
	m.in.desk.did(label, m.in.session.Edit(label, "field "+path, func(p *model.Project) error {
		err := model.EnterOutline(p, path, text)
		var problem *model.Problem
		if errors.As(err, &problem) {
			const mostKept = 20000 // of a paste that was something else
			if len(text) > mostKept {
				text = text[:mostKept]
			}
			p.SetDraft(path, text, problem.Message)
			return nil
		}
		return err
	}))
}
