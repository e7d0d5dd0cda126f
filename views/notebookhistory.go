package views

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// pastRow is one saved state.
type pastRow struct {
	row  *touch.Row
	what *touch.Brief
	when *touch.Text
	at   model.Revision
}

// historyPage lists the saved states of the open project, newest first, and
// brings one of them back.
type historyPage struct {
	desk    *Desk
	box     *fyne.Container
	scroll  *touch.Scroll
	restore *touch.Button
	root    fyne.CanvasObject
	rows    []*pastRow
	clock   shopClock
	project string
	chosen  int // number of the state that is chosen; 0 is none
	most    int // how many are shown
	built   string
}

func newHistoryPage(d *Desk, back func()) *historyPage {
	h := &historyPage{desk: d, box: container.New(layout.NewCustomPaddedVBoxLayout(8)), most: atOnce}
	h.scroll = touch.NewScroll(inset(h.box))
	h.restore = touch.NewStyledButton("Bring back as it was then", touch.Primary, func() {
		d.commitAll()
		number := h.chosen
		h.choose(0)
		d.session.Restore(number)
	})
	help := touch.NewText("Every change is kept. Choose a state to go back to; what came after it stays in this list, and what you noted while pouring stays too.", touch.Small, touch.Faint)
	foot := container.New(layout.NewCustomPaddedLayout(6, 8, 14, 14), container.NewBorder(nil, nil, nil, h.restore, help))
	h.root = asRead(pageHead("History", back), h.scroll, foot)
	return h
}

// see shows the states of the open project.
func (h *historyPage) see(shot *app.Snapshot, now time.Time) {
	if h.project != shot.Project.ID {
		h.project, h.chosen, h.most = shot.Project.ID, 0, atOnce
		h.scroll.SetOffset(0)
	}
	h.clock.set(shot.Project.Shop.Zone)
	list := h.desk.session.Revisions()
	current := h.desk.session.Current()
	key := fmt.Sprint(h.project, len(list), current, h.most)
	if n := len(list); n > 0 {
		key += fmt.Sprint(list[n-1])
	}
	if key != h.built {
		h.built = key
		touch.KeepFocus(h.box, func() { h.build(list, current) })
	}
	h.tick(now)
	h.choose(h.chosen)
}

// build makes the rows.
func (h *historyPage) build(list []model.Revision, current int) {
	slices.Reverse(list)
	h.box.RemoveAll()
	h.rows = nil
	for _, r := range list[:min(len(list), h.most)] {
		x := &pastRow{what: touch.NewBrief(r.Label, touch.Strong, touch.Ink), when: touch.NewLine("", touch.Small, touch.Faint), at: r}
		var end fyne.CanvasObject
		if r.Number == current {
			end = container.NewCenter(touch.NewLine("as it is now", touch.Strong, touch.GoodTone))
		}
		words := container.New(layout.NewCustomPaddedVBoxLayout(1), x.what, x.when)
		x.row = touch.NewRow(container.NewBorder(nil, nil, nil, end, words), func() {
			if r.Number != current {
				h.choose(r.Number)
			}
		})
		at := len(h.rows)
		x.row.OnMove = func(dir int) {
			if to := at + dir; to >= 0 && to < len(h.rows) {
				h.rows[to].row.Focus()
			}
		}
		h.rows = append(h.rows, x)
		h.box.Add(x.row)
	}
	if n := len(list) - h.most; n > 0 {
		h.box.Add(touch.NewStyledButton("Show more ("+counted(n, "state", "states")+")", touch.Quiet, func() {
			h.most += atOnce
			shot := h.desk.session.Snapshot()
			h.see(&shot, h.desk.session.Now())
		}))
	}
	h.box.Refresh()
	h.scroll.Refresh()
}

// choose marks the state to go back to.
func (h *historyPage) choose(number int) {
	h.chosen = number
	h.restore.Disable()
	for _, x := range h.rows {
		x.row.SetChosen(x.at.Number == number)
		if x.at.Number == number {
			h.restore.Enable()
		}
	}
}

// tick brings what is told of the time up to date.
func (h *historyPage) tick(now time.Time) {
	for _, x := range h.rows {
		x.when.SetText(h.clock.in(x.at.At).Format("Monday 2 January 2006, 15:04:05") + " · " + touched(x.at.At, now))
	}
}
