package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// mostAlso is how many other clocks the window shows.
const mostAlso = 2

// cureAlso tells of the clocks of other pieces that run, those due soonest, side
// by side. A touch opens the piece. Without any it is not there.
type cureAlso struct {
	desk  *Desk
	grid  *fyne.Container
	more  *touch.Text
	root  *fyne.Container
	shown []*alsoEntry
}

// alsoEntry is the clock of one other piece.
type alsoEntry struct {
	id         string
	name, next *touch.Brief
	row        *touch.Row
}

func newCureAlso(d *Desk) *cureAlso {
	a := &cureAlso{desk: d, grid: container.New(layout.NewGridLayout(1)), more: touch.NewText("", touch.Small, touch.Faint)}
	a.root = container.New(layout.NewCustomPaddedLayout(look.Gap, look.Gap, 0, 0), container.New(layout.NewCustomPaddedVBoxLayout(2), a.grid, a.more))
	a.root.Hide()
	return a
}

func (a *cureAlso) newEntry() *alsoEntry {
	e := &alsoEntry{name: touch.NewBrief("", touch.Small, touch.Faint), next: touch.NewBrief("", touch.Strong, touch.Ink)}
	e.row = touch.NewRow(container.New(layout.NewCustomPaddedVBoxLayout(1), e.name, e.next), func() { a.desk.openAt(e.id, cureKey) })
	return e
}

// see shows the clocks that run beside that of the open piece.
func (a *cureAlso) see(shot *app.Snapshot, now time.Time) {
	var others []app.PieceClock
	for _, c := range shot.Ticking(now) {
		if !c.Open {
			others = append(others, c)
		}
	}
	if n := min(len(others), mostAlso); n != len(a.shown) {
		touch.KeepFocus(a.grid, func() { a.arrange(n) })
	}
	for i, e := range a.shown {
		c := &others[i]
		step, _ := c.Next(now)
		e.id = c.ID
		e.name.SetText("Also running: " + nameOf(c.Name))
		e.next.SetText(stepIn(&step, now))
	}
	words := ""
	if n := len(others) - mostAlso; n > 0 {
		words = "and " + counted(n, "more piece", "more pieces") + ", in the Notebook"
	}
	a.more.SetText(words)
	a.more.Hidden = words == ""
}

// arrange makes room for so many clocks.
func (a *cureAlso) arrange(n int) {
	a.shown = nil
	a.grid.Layout = layout.NewGridLayout(max(n, 1))
	a.grid.RemoveAll()
	for range n {
		e := a.newEntry()
		a.shown = append(a.shown, e)
		a.grid.Add(e.row)
	}
	a.root.Hidden = n == 0
	a.root.Refresh()
}
