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

// cureStarts offers times to start the first pour at, such that everything
// after it falls in hours at which the maker is about. One touch takes one, and
// undo gives it back.
type cureStarts struct {
	page *curePage
	root *touch.Card
	look *touch.Button
	pane *pane
	// calendar has the days looked through.
	calendar func(done func(model.CalendarAnswer, error))

	answer *model.CalendarAnswer // what is on show; nil for nothing
	asked  bool                  // and not answered
	about  string                // what the answer goes by
	piece  string                // ID of the project that was asked about
}

func newCureStarts(p *curePage) *cureStarts {
	c := &cureStarts{page: p, pane: newPane(p.in), calendar: p.desk.session.Calendar}
	c.look = touch.NewButton("Find good times to start", c.ask)
	c.root = touch.NewCard("When to pour", stack(c.look, c.pane.root))
	return c
}

// ask has the calendar looked through.
func (c *cureStarts) ask() {
	c.page.in.form.CommitAll()
	c.asked, c.piece = true, c.page.shot.Project.ID
	c.calendar(func(a model.CalendarAnswer, err error) {
		if err != nil {
			a = model.CalendarAnswer{None: problemWords(err)}
		}
		shot := c.page.desk.session.Snapshot()
		c.asked, c.answer, c.about = false, &a, model.StartsAbout(&shot.Project, &shot.Plan)
		c.draw()
	})
	c.draw()
}

// see shows the card until every pour has been started. An answer about
// what is no longer so is put away; a question about another piece is never
// answered.
func (c *cureStarts) see(shot *app.Snapshot) {
	if c.piece != shot.Project.ID {
		c.asked = false
	}
	if c.answer != nil && c.about != model.StartsAbout(&shot.Project, &shot.Plan) {
		c.answer = nil
	}
	_, next := shot.Plan.NextPour()
	c.root.Hidden = !next
	c.draw()
}

func (c *cureStarts) draw() {
	shot := &c.page.shot
	key := fmt.Sprint(c.asked, c.answer != nil, shot.Project.Shop.Planned, shot.Project.Shop.Zone, shot.Undo)
	if c.answer != nil {
		key += fmt.Sprint(*c.answer)
	}
	c.pane.show(key, func() fyne.CanvasObject { return c.build(shot) })
}

func (c *cureStarts) build(shot *app.Snapshot) fyne.CanvasObject {
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8))
	clock := &c.page.clock
	if at := shot.Project.Shop.Planned; !at.IsZero() {
		rows.Add(touch.NewText("The next pour is planned for "+clock.dated(at), touch.Strong, touch.Ink))
		back := touch.NewButton("Plan no time", func() { c.plan(model.StartChoice{}) })
		if shot.Undo == startLabel {
			back = touch.NewButton("Take it back", func() { c.page.desk.session.Undo() })
		}
		back.Debounce = touch.Settle
		rows.Add(back)
	}
	switch {
	case c.asked:
		rows.Add(touch.NewText("Looking through the coming days…", touch.Body, touch.Faint))
	case c.answer == nil:
		rows.Add(touch.NewText("Looks for starts at which every pour, touch and the taking out fall in your waking hours and in their windows.", touch.Small, touch.Faint))
	case len(c.answer.Choices) == 0:
		rows.Add(signed(touch.Check, "There is no such time. "+capitalised(c.answer.None)))
	default:
		for i, choice := range c.answer.Choices {
			rows.Add(c.choice(i, choice, shot))
		}
	}
	return rows
}

// choice is one start, as a row that takes it when it is touched.
func (c *cureStarts) choice(i int, choice model.StartChoice, shot *app.Snapshot) fyne.CanvasObject {
	clock := &c.page.clock
	all := container.New(layout.NewCustomPaddedVBoxLayout(2),
		touch.NewText(fmt.Sprintf("%d · Start %s", i+1, clock.dayTime(choice.Start)), touch.Strong, touch.Touchable))
	for _, a := range choice.Acts {
		all.Add(touch.NewText(clock.dayTime(a.At)+"  "+a.Label, touch.Small, touch.Ink))
	}
	all.Add(touch.NewText(capitalised(choice.Why), touch.Small, touch.Faint))
	row := touch.NewRow(all, func() { c.plan(choice) })
	row.SetChosen(shot.Project.Shop.Planned.Equal(choice.Start))
	return row
}

// startLabel names the step of undo that takes a start.
const startLabel = "Time of the next pour"

// plan takes a start.
func (c *cureStarts) plan(choice model.StartChoice) {
	c.page.in.edit(startLabel, "", func(p *model.Project) error {
		p.Shop.Planned = choice.Start.UTC()
		return nil
	})
}
