package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/model"
	"meniscus/views/touch"
)

// findings is the foot of a window: what the plan noticed in the order in
// which it matters, and the safety notes. It shows the gravest finding in one
// row and unfolds to all.
type findings struct {
	desk  *Desk
	root  *fyne.Container
	more  *touch.Button // unfolds and folds
	list  []model.Finding
	notes []model.SafetyNote
	open  bool
	built string // what the rows show now
}

func newFindings(d *Desk) *findings {
	f := &findings{desk: d, root: container.NewStack()}
	f.more = touch.NewStyledButton("", touch.Quiet, func() {
		f.open = !f.open
		f.see(f.list, f.notes)
	})
	return f
}

// see shows findings and notes.
func (f *findings) see(list []model.Finding, notes []model.SafetyNote) {
	f.list, f.notes = list, notes
	if key := fmt.Sprint(f.open, list, notes); key != f.built {
		f.built = key
		touch.KeepFocus(f.root, f.build)
	}
}

func (f *findings) build() {
	f.root.RemoveAll()
	if len(f.list)+len(f.notes) == 0 {
		return
	}
	word := fmt.Sprintf("All %d", len(f.list)+len(f.notes))
	if f.open {
		word = "Fewer"
	}
	f.more.SetLabel(word)
	var body fyne.CanvasObject
	if f.open {
		rows := container.NewVBox()
		for _, x := range f.list {
			rows.Add(f.row(x))
		}
		for _, n := range f.notes {
			rows.Add(safetyRow(n))
		}
		scroll := touch.NewScroll(rows)
		scroll.SetMinSize(fyne.NewSize(0, 230))
		body = scroll
	} else if len(f.list) > 0 {
		body = f.row(f.list[0])
	} else {
		body = safetyRow(f.notes[0])
	}
	f.more.Hidden = len(f.list)+len(f.notes) == 1
	line := container.NewBorder(nil, nil, nil, container.NewVBox(f.more), body)
	f.root.Add(container.New(layout.NewCustomPaddedLayout(2, 6, 10, 10), line))
}

// row shows one finding; a touch leads to its input.
func (f *findings) row(x model.Finding) fyne.CanvasObject {
	return touch.NewFindingRow(levelOf(x.Level), x.What, x.Why, x.Do, func() { f.desk.goTo(x) })
}

func levelOf(l model.Level) touch.Level {
	switch l {
	case model.Stop:
		return touch.Stop
	case model.Check:
		return touch.Check
	}
	return touch.Note
}

// safetyRow shows a safety note behind its signal word.
func safetyRow(n model.SafetyNote) fyne.CanvasObject {
	word := touch.NewLine(capitalised(string(n.Signal)), touch.Strong, touch.Ink)
	text := touch.NewText(n.Text, touch.Body, touch.Ink)
	return container.New(layout.NewCustomPaddedLayout(4, 4, 8, 8),
		container.NewBorder(nil, nil, container.NewHBox(container.NewVBox(touch.NewSign(signOf(n.Signal), 22)), container.NewVBox(word)), nil, text))
}

// signOf is the sign beside a signal word.
func signOf(s model.Signal) touch.Level {
	if s == model.Danger {
		return touch.Stop
	}
	return touch.Check
}
