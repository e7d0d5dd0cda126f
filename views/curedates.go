package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/views/touch"
)

// cureDates saves the dates of the piece for a phone, which rings where a
// closed laptop cannot, and its pour card for paper.
type cureDates struct {
	root *fyne.Container
	save *touch.Button
	said *touch.Text
	card *touch.Button
}

func newCureDates(p *curePage) *cureDates {
	d := &cureDates{said: touch.NewText("", touch.Body, touch.Ink)}
	d.save = touch.NewButton("Save the dates for your phone", p.desk.saveDates)
	d.card = touch.NewButton("Print a card", p.desk.saveCard)
	d.root = stack(touch.NewCard("On your phone", stack(d.save, d.said)),
		touch.NewCard("On paper", stack(d.card, touch.NewText("A card for the bench, to be read at arm's length: what to weigh, when each step comes, and room to write with a pencil. It is saved as a PDF of A5 pages.", touch.Body, touch.Ink))))
	return d
}

// see tells how many dates lie ahead, and lets them be saved where one does.
func (d *cureDates) see(shot *app.Snapshot, now time.Time) {
	ahead := 0
	for _, s := range shot.Agenda(now) {
		if !s.Past && s.Due.After(now) {
			ahead++
		}
	}
	_, toPour := shot.Plan.NextPour()
	if len(shot.Plan.Layers) > 0 {
		d.card.Enable()
	} else {
		d.card.Disable()
	}
	d.said.SetText(datesWords(ahead, toPour))
	if ahead > 0 {
		d.save.Enable()
	} else {
		d.save.Disable()
	}
}

// datesWords says what is saved when so many dates lie ahead, and how to come
// by one where there is none and a pour is still to be made.
func datesWords(ahead int, toPour bool) string {
	const how = "A closed laptop cannot ring. This makes a calendar file of %s: send it to your phone and open it there, and it rings for each."
	switch {
	case ahead == 1:
		return fmt.Sprintf(how, "the one date ahead")
	case ahead > 1:
		return fmt.Sprintf(how, fmt.Sprintf("the %d dates ahead", ahead))
	case toPour:
		return "No date lies ahead: start a pour, or plan a time for the next one."
	}
	return "No date lies ahead."
}
