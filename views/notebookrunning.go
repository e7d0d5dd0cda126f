package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mostRunning is how many clocks the strip shows before it is asked for all.
const mostRunning = 3

// runningStrip shows the clocks that run, of all pieces, the one due soonest
// first. It is not there when none runs.
type runningStrip struct {
	desk    *Desk
	grid    *fyne.Container
	entries []*runningEntry
	every   *touch.Button // shows all of them, or the first few again
	all     bool
	root    *fyne.Container
}

func newRunningStrip(d *Desk) *runningStrip {
	s := &runningStrip{desk: d, grid: container.NewGridWithColumns(mostRunning)}
	save := touch.NewButton("Save all dates", d.saveAllDates)
	save.Bench = true
	s.every = touch.NewStyledButton("", touch.Quiet, func() {
		s.all = !s.all
		shot := d.session.Snapshot()
		s.see(&shot, d.session.Now())
	})
	s.every.Hide()
	beside := func(o ...fyne.CanvasObject) fyne.CanvasObject {
		return container.NewVBox(append(append([]fyne.CanvasObject{layout.NewSpacer()}, o...), layout.NewSpacer())...)
	}
	title := container.New(layout.NewCustomPaddedLayout(0, 0, 0, look.Gap), beside(touch.NewLine("Running now", touch.Title, touch.Ink), s.every))
	s.root = container.New(layout.NewCustomPaddedLayout(2, 8, 14, 14), container.NewBorder(nil, nil, title, container.New(layout.NewCustomPaddedLayout(0, 0, look.Gap, 0), beside(save)), s.grid))
	s.root.Hide()
	return s
}

// see shows the clocks that run now, and tells whether the room that they need
// has changed.
func (s *runningStrip) see(shot *app.Snapshot, now time.Time) (moved bool) {
	list := shot.Ticking(now)
	shown := min(len(list), mostRunning)
	if s.all {
		shown = len(list)
	}
	for len(s.entries) < shown {
		s.entries = append(s.entries, newRunningEntry(s.desk))
	}
	if moved = len(s.grid.Objects) != shown; moved {
		s.grid.RemoveAll()
		for _, e := range s.entries[:shown] {
			s.grid.Add(e.row)
		}
		s.entries = s.entries[:shown]
	}
	for i, e := range s.entries {
		e.see(&list[i], now)
	}
	label := fmt.Sprintf("Show all %d", len(list))
	if s.all {
		label = "Show fewer"
	}
	s.every.SetLabel(label)
	s.every.Hidden = len(list) <= mostRunning
	s.root.Hidden = len(list) == 0
	return moved
}

// runningEntry is one clock of the strip: it opens its piece.
type runningEntry struct {
	row             *touch.Row
	id              string
	name, next, day *touch.Brief
	clock           shopClock
}

func newRunningEntry(d *Desk) *runningEntry {
	e := &runningEntry{name: touch.NewBrief("", touch.Small, touch.Ink), next: touch.NewBrief("", touch.Strong, touch.Ink), day: touch.NewBrief("", touch.Small, touch.Faint)}
	e.row = touch.NewRow(container.New(layout.NewCustomPaddedVBoxLayout(1), e.name, e.next, e.day), func() { d.openAt(e.id, cureKey) })
	return e
}

// see shows a clock.
func (e *runningEntry) see(c *app.PieceClock, now time.Time) {
	step, _ := c.Next(now)
	e.id = c.ID
	e.clock.set(c.Zone)
	e.name.SetText(nameOf(c.Name))
	e.next.SetText(stepIn(&step, now))
	e.day.SetText(e.clock.near(step.Due, now) + ": " + step.Label)
}

// nameOf is what a piece is called, also where the maker has not named it.
func nameOf(name string) string {
	if name == "" {
		return "without a name"
	}
	return name
}

// stepBriefs name the steps of a pour where the layer is told beside them.
var stepBriefs = map[model.StepKind]string{
	model.StepWorkEnds: "working time ends", model.StepRecoat: "window opens", model.StepRecoatEnd: "window closes",
	model.StepDemold: "ready to demold", model.StepCured: "full cure",
}

// stepIn names a step in brief with the time that is left to it.
func stepIn(s *model.Step, now time.Time) string {
	name, ok := stepBriefs[s.Kind]
	if !ok {
		name = s.Label
	}
	return name + " in " + untilWords(s.Due, now)
}

// near writes an instant in brief: the weekday and the time, and the date where
// the weekday could be mistaken.
func (c *shopClock) near(t, now time.Time) string {
	if t.Sub(now).Abs() < 6*24*time.Hour {
		return c.short(t)
	}
	return c.dayTime(t)
}
