package views

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/views/touch"
)

// zone is the input of the shop's time zone, with what the clock shows there.
func (p *curePage) zone() fyne.CanvasObject {
	const path = "shop/zone"
	f := p.in.words(path, "Time zone of the shop", 1)
	f.SetPlaceholder("such as Europe/Lisbon")
	said := touch.NewText("", touch.Small, touch.Faint)
	p.in.also(path, func(shot *app.Snapshot) {
		words, tone := zoneWords(shot.Project.Shop.Zone, p.desk.session.Now())
		said.SetTone(tone)
		said.SetText(words)
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), f, said)
}

// zoneWords says what a time zone comes to: the clock that it gives, or that
// this machine does not know it.
func zoneWords(zone string, now time.Time) (string, touch.Tone) {
	if zone == "" {
		return "left empty, times are those of this machine: it is " + now.Local().Format("15:04 MST"), touch.Faint
	}
	place, err := time.LoadLocation(zone)
	if err != nil {
		return "This machine knows no zone of that name; its own is used. Write continent and city, such as Europe/Lisbon.", touch.CheckTone
	}
	return "it is " + now.In(place).Format("15:04 MST") + " there", touch.Faint
}
