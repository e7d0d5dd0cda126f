package views

import (
	"fmt"
	"time"

	"meniscus/app"
	"meniscus/views/touch"
)

// cureDates saves the dates of the piece for a phone, which rings where a
// closed laptop cannot.
type cureDates struct {
	root *touch.Card
	save *touch.Button
	said *touch.Text
}

func newCureDates(p *curePage) *cureDates {
	d := &cureDates{said: touch.NewText("", touch.Body, touch.Ink)}
	d.save = touch.NewButton("Save the dates for your phone", p.desk.saveDates)
	d.root = touch.NewCard("On your phone", stack(d.save, d.said))
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
