package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// room is the card of the room that the resin cures in.
func (p *curePage) room() fyne.CanvasObject {
	return touch.NewCard("Room", stack(
		p.in.measured("shop/room", "Temperature now", "of the air beside the mold and at its height, where no sun or heater reaches the thermometer", touch.Temperature),
		p.in.measured("shop/night", "Coldest at night", "what a thermometer that keeps the lowest shows in the morning, beside the mold", touch.Temperature),
		p.in.measured("shop/resin", "Mixed resin when poured", "a thermometer in the cup once it is stirred; bottles from a warm bath are warmer than the room", touch.Temperature),
		p.in.measured("shop/wood", "Wood in the mold", "a thermometer laid on it, under a cloth", touch.Temperature),
		p.in.quantity("shop/humidity", "Humidity of the air", "as a hygrometer beside the mold shows it", touch.Percent),
		p.in.usualList("shop/bench", "The mold stands on", "Not given", []touch.Option{
			{ID: string(model.BenchWood), Label: "A wooden bench"}, {ID: string(model.BenchMetal), Label: "A metal bench"}, {ID: string(model.BenchOpen), Label: "Battens, with air below"},
		}),
		p.in.method("shop/room", drawing.MethodWarmth),
	))
}

// day is the card of the maker's day and of the first pour to come.
func (p *curePage) day() fyne.CanvasObject {
	return touch.NewCard("Your day", stack(
		p.planned(),
		pair(
			p.in.measured("shop/wakes", "You are about from", "", touch.Clock),
			p.in.measured("shop/sleeps", "until", "", touch.Clock),
		),
		touch.NewText("Times to start at are chosen so that no pour, touch or taking out falls outside these hours.", touch.Small, touch.Faint),
		p.zone(),
	))
}

// planned is the input of when the next pour is to be, with the day as it was
// understood.
func (p *curePage) planned() fyne.CanvasObject {
	const path = "shop/planned"
	f := p.in.words(path, "Next pour planned for", 1)
	f.SetPlaceholder("such as Fri 27 Nov 18:40")
	f.OnDraft = func(text string) { p.in.session.Enter(path, text) }
	f.OnCommit = func(text string) {
		p.in.session.Enter(path, text)
		shot := p.in.session.Snapshot()
		p.in.shows[path](&shot)
	}
	said := touch.NewText("", touch.Small, touch.Faint)
	p.in.bind(path, func(shot *app.Snapshot) {
		text, echo := model.Show(&shot.Project, path)
		problem := ""
		if typed, reason, bad := shot.Problem(path); bad {
			if _, typing := f.Pending(); !typing {
				text, echo, problem = typed, "", reason
			}
		}
		if echo == "" && problem == "" {
			echo = "left empty, the heat is worked out as for a pour in the morning"
		}
		f.SetText(text)
		f.SetProblem(problem)
		said.SetText(echo)
		said.Hidden = echo == ""
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), f, said)
}
