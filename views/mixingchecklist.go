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

// mixChecklist lists what to look at before a pour; each line is ticked with one
// touch, and again to take the tick back.
type mixChecklist struct {
	page  *mixingPage
	root  *touch.Card
	pane  *pane
	said  *touch.Text
	rows  map[string]*checkRow // by the ID of the line
	layer string
	clock shopClock
	last  time.Time // of the last tick, so that a slip of the finger counts once
	on    string    // the line that it was on
}

// checkRow is one line with its tick.
type checkRow struct {
	root *touch.Row
	tick *tickBox
	why  *touch.Text
	line model.CheckLine
}

func newMixChecklist(p *mixingPage) *mixChecklist {
	c := &mixChecklist{page: p, pane: newPane(p.in), said: touch.NewText("", touch.Body, touch.StopTone)}
	c.root = touch.NewCard("Before the pour", stack(c.said, c.pane.root,
		touch.NewText("Each tick is kept with its time; touch it again to take it back. The list is common practice, no source.", touch.Small, touch.Faint)))
	return c
}

// see shows the list of a layer that is still to be poured.
func (c *mixChecklist) see(shot *app.Snapshot, l *model.LayerPlan) {
	c.root.Hidden = l == nil || l.Status == model.Poured
	if c.root.Hidden {
		return
	}
	if c.layer != l.ID {
		c.said.SetText("")
	}
	c.layer = l.ID
	c.clock.set(shot.Project.Shop.Zone)
	list := shot.Project.Checklist(&shot.Plan, l.ID)
	key := shot.Project.ID + l.ID
	for _, x := range list {
		key += " " + x.ID
	}
	c.pane.show(key, func() fyne.CanvasObject { return c.build(list) })
	done := 0
	for _, x := range list {
		if x.Done {
			done++
		}
		c.rows[x.ID].set(x, &c.clock, c.page.desk.session.Now())
	}
	c.root.SetTitle(fmt.Sprintf("Before the pour: %d of %d done", done, len(list)))
}

// build makes the rows.
func (c *mixChecklist) build(list []model.CheckLine) fyne.CanvasObject {
	c.rows = map[string]*checkRow{}
	all := container.New(layout.NewCustomPaddedVBoxLayout(look.Gap))
	var order []*touch.Row
	for i, x := range list {
		r := newCheckRow(x, func() { c.touch(x.ID) })
		r.root.OnMove = func(dir int) {
			if to := i + dir; to >= 0 && to < len(order) {
				order[to].Focus()
			}
		}
		order = append(order, r.root)
		c.rows[x.ID] = r
		all.Add(r.root)
	}
	return all
}

// touch ticks a line, or takes its tick back. A second touch on the same line
// within the time in which it settles is taken for a slip.
func (c *mixChecklist) touch(id string) {
	now := c.page.desk.session.Now()
	if c.on == id && now.Sub(c.last).Abs() < touch.Settle {
		return
	}
	c.on, c.last = id, now
	c.page.in.form.CommitAll()
	s, x := c.page.desk.session, c.rows[id].line
	var err error
	if x.Done {
		err = s.Withdraw(x.Entry)
	} else {
		err = s.Happened(model.Entry{Kind: model.EntryChecked, Layer: c.layer, Check: x.ID, Text: x.Words})
	}
	c.said.SetText(problemWords(err))
}

// newCheckRow makes a row, at least as high as a gloved finger needs.
func newCheckRow(x model.CheckLine, tap func()) *checkRow {
	r := &checkRow{tick: newTickBox(30), why: touch.NewText("", touch.Small, touch.Faint)}
	words := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewText(x.Words, touch.Strong, touch.Ink), r.why)
	r.root = touch.NewRow(container.NewBorder(nil, nil, container.New(layout.NewCustomPaddedLayout(6, 6, 0, 10), container.NewCenter(r.tick)), nil, words), tap)
	return r
}

// set shows whether the line is ticked, and since when; else why it matters.
func (r *checkRow) set(x model.CheckLine, c *shopClock, now time.Time) {
	r.line = x
	r.tick.set(x.Done)
	if x.Done {
		r.why.SetText("done, " + c.soon(now, x.At))
		return
	}
	r.why.SetText(x.Why)
}
