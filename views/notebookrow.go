package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// thumbnail is the size of a project's small drawing.
var thumbnail = fyne.NewSize(76, 66)

// projectRow is one project in the list.
type projectRow struct {
	desk    *Desk
	row     *touch.Row
	picture *drawing.Picture
	name    *touch.Brief
	mark    *touch.Text // "open"
	state   *touch.Brief
	when    *touch.Brief
	next    *touch.Brief
	stops   *touch.Text

	card    model.Card
	clock   *app.PieceClock // nil when it has none
	shop    shopClock
	palette drawing.Palette
	drawn   bool
}

func newProjectRow(d *Desk, tap func()) *projectRow {
	r := &projectRow{
		desk:    d,
		picture: drawing.NewPicture(d.fonts, thumbnail, d.palette().Ground, nil),
		state:   touch.NewBrief("", touch.Small, touch.Ink),
		when:    touch.NewBrief("", touch.Small, touch.Faint),
		next:    touch.NewBrief("", touch.Small, touch.Ink),
		name:    touch.NewBrief("", touch.Strong, touch.Ink),
		mark:    touch.NewLine("", touch.Small, touch.Touchable),
		stops:   touch.NewLine("", touch.Small, touch.StopTone),
	}
	words := container.New(layout.NewCustomPaddedVBoxLayout(1), container.NewBorder(nil, nil, nil, r.mark, r.name), r.state, r.next, container.NewBorder(nil, nil, nil, r.stops, r.when))
	picture := container.New(layout.NewCustomPaddedLayout(0, 0, 0, 12), container.NewCenter(r.picture))
	r.row = touch.NewRow(container.NewBorder(nil, nil, picture, nil, words), tap)
	return r
}

// see shows a card with the clock of its piece; open is the ID of the open
// project.
func (r *projectRow) see(c model.Card, clock *app.PieceClock, open string, now time.Time) {
	p := r.desk.palette()
	if !r.drawn || p != r.palette || !c.SameDrawing(&r.card) {
		sketch := c.Drawn()
		r.picture.Set(p.Ground, func(s drawing.Surface) { drawing.PaintSketch(s, sketch, drawing.Style{Palette: p}) })
	}
	r.card, r.clock, r.palette, r.drawn = c, clock, p, true
	r.name.SetText(nameOf(c.Name))
	state := c.State
	if c.Demo {
		state = "demo, invented · " + state
	}
	if c.Archived {
		state = "archived · " + state
	}
	mark := ""
	if c.ID == open {
		mark = "open"
	}
	r.mark.SetText(mark)
	r.state.SetText(state)
	if c.Stops > 0 {
		r.stops.SetText(counted(c.Stops, "stop", "stops"))
	} else {
		r.stops.SetText("")
	}
	r.row.SetChosen(c.ID == open)
	r.tick(now)
}

// tick brings what is told of the time up to date.
func (r *projectRow) tick(now time.Time) {
	next, when := r.nextWords(now)
	if when != "" {
		when += " · "
	}
	r.next.SetText(next)
	r.when.SetText(when + "touched " + touched(r.card.Touched, now))
}

// nextWords tells of the next step with how long it is to it and when it comes,
// or of the one that has come due last.
func (r *projectRow) nextWords(now time.Time) (next, when string) {
	c := r.clock
	if c == nil || c.Out {
		return "", ""
	}
	r.shop.set(c.Zone)
	if step, ok := c.Next(now); ok {
		return "next: " + stepIn(&step, now), r.shop.near(step.Due, now)
	}
	if due := c.CameDue(time.Time{}, now); len(due) > 0 {
		last := due[len(due)-1]
		return "since " + r.shop.near(last.Due, now) + ": " + last.Label, ""
	}
	return "", ""
}
