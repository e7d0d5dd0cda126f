package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// mixEntries are the inputs of the window Mixing.
type mixEntries struct {
	page  *mixingPage
	root  *fyne.Container
	rows  *pourRows
	which *touch.Card
	sure  *touch.Text
	fit   *touch.Text // what the scale is good for
	here  map[model.AllowanceKind]*touch.Text
}

// confidences are what can be chosen for the mix to suffice.
var confidences = []touch.Option{
	{ID: "50 %", Label: "50 %"}, {ID: "80 %", Label: "80 %"}, {ID: "90 %", Label: "90 %"}, {ID: "95 %", Label: "95 %"},
}

func newMixEntries(p *mixingPage) *mixEntries {
	e := &mixEntries{page: p, sure: touch.NewText("", touch.Body, touch.Faint), fit: touch.NewText("", touch.Body, touch.Ink), here: map[model.AllowanceKind]*touch.Text{}}
	e.rows = newPourRows(p.choose, func(_ int, l *model.LayerPlan) string {
		words := l.Name
		if l.Mix.Ready {
			words += " · " + p.shot.Project.Style.MassTo(l.Mix.Total, l.Mix.Step)
		}
		if l.Status == model.Poured {
			words += " · poured"
		}
		return words
	})
	e.which = touch.NewCard("Which pour", e.rows.root)
	in := p.in
	e.root = stack(
		e.which,
		touch.NewCard("How sure it suffices", stack(e.confidence(), e.sure)),
		touch.NewCard("Scale", stack(e.scale("mixing/scaleStep", "Its last digit", "the smallest change that your scale shows"), e.fit)),
		p.bottles.root,
		touch.NewCard("Lost on the way", stack(
			e.costing(model.AllowCup, e.own("mixing/cupFilm", in.measured("mixing/cupFilm", "Left in the cup", "weigh an empty cup, and again when you have poured it out: the share of the mix that stays", touch.Percent))),
			e.own("mixing/cupLeast", in.measured("mixing/cupLeast", "But never less than", "what a small cup keeps back", touch.Mass)),
			e.costing(model.AllowSoak, e.film("mixing/soak", "Soaked into bare wood", "as a film over all wood that the resin touches; none for sealed pieces")),
			e.costing(model.AllowCreep, e.film("mixing/creep", "Creeps below the wood", "as a film under pieces that lie on the floor and are not stuck down; a feeler gauge tells")),
			e.costing(model.AllowRefill, e.refill()),
		)),
	)
	return e
}

// film is an allowance given as a thickness, finer than a step would be.
func (e *mixEntries) film(path, label, help string) fyne.CanvasObject {
	o := e.page.in.measured(path, label, help, touch.Length)
	if f := e.page.in.form.Field(path); f != nil {
		f.OnStep = nil
	}
	return e.own(path, o)
}

// own says below the input of a loss where it comes from, where it is the maker's
// own by past runs.
func (e *mixEntries) own(path string, o fyne.CanvasObject) fyne.CanvasObject {
	t := touch.NewText("", touch.Small, touch.Faint)
	t.Hide()
	e.page.in.also(path, func(shot *app.Snapshot) {
		by := shot.Project.LossBy(path)
		t.SetText(by)
		t.Hidden = by == ""
	})
	return container.New(layout.NewCustomPaddedVBoxLayout(3), o, t)
}

// costing puts what an allowance comes to for the chosen layer below its input.
func (e *mixEntries) costing(kind model.AllowanceKind, o fyne.CanvasObject) fyne.CanvasObject {
	t := touch.NewText("", touch.Strong, touch.Ink)
	e.here[kind] = t
	return container.New(layout.NewCustomPaddedVBoxLayout(3), o, t)
}

// confidence chooses how sure the mix suffices; the usual one shows as chosen
// until another is.
func (e *mixEntries) confidence() fyne.CanvasObject {
	const path = "mixing/confidence"
	in := e.page.in
	c := touch.NewChoice(confidences, "", func(id string) { in.choose(path, id) })
	in.bind(path, func(shot *app.Snapshot) {
		c.SetChosen(shot.Project.Style.Share(shot.Project.Mixing.Sureness()))
	})
	return c
}

// refill is whether a layer fills up what the one below sank.
func (e *mixEntries) refill() fyne.CanvasObject {
	const path = "mixing/noRefill"
	in := e.page.in
	t := touch.NewToggle("Refill what the layer below sank as it cured", false, func(on bool) {
		in.choose(path, map[bool]string{true: "no", false: "yes"}[on])
	})
	in.bind(path, func(shot *app.Snapshot) { t.SetOn(!shot.Project.Mixing.NoRefill) })
	return t
}

// see shows what the inputs come to for a layer.
func (e *mixEntries) see(shot *app.Snapshot, l *model.LayerPlan) {
	e.rows.see(shot, l)
	e.which.Hidden = l == nil
	e.sure.SetText(sureWords(shot, l))
	e.fit.SetText(fitWords(shot, l))
	for kind, t := range e.here {
		words := ""
		if l != nil {
			words = "here: nothing"
			if a, ok := l.Allowance(kind); ok {
				words = "here: " + shot.Project.Style.Mass(a.Mass)
				if a.Volume > 0 {
					words += " (" + shot.Project.Style.Volume(a.Volume) + ")"
				}
			}
		}
		t.SetText(words)
	}
}

// sureWords says what another confidence would cost.
func sureWords(shot *app.Snapshot, l *model.LayerPlan) string {
	if l == nil || l.Mix.Total <= 0 {
		return "how often the mix is enough, for all that the measurements leave open"
	}
	m, s := &l.Mix, shot.Project.Style
	words := s.Share(unit.Share(m.Confidence)) + " sure that it is enough. "
	switch more := m.MoreFor95(); {
	case more > 0:
		words += "To be 95 % sure mix " + s.MassTo(more, m.Step) + " more. "
	case more < 0:
		words += "To be 95 % sure " + s.MassTo(-more, m.Step) + " less would do. "
	}
	return words + "Half of such pours need " + s.MassTo(m.At50, m.Step) + " or less."
}

// fitWords says whether the scale is good enough for a layer's mix.
func fitWords(shot *app.Snapshot, l *model.LayerPlan) string {
	if l == nil || !l.Mix.Ready {
		return ""
	}
	return capitalised(l.Mix.ScaleFit(model.RatioTolerance).Words(shot.Project.Style)) + "."
}

// scale is the input of the scale's last digit, which is nothing in another unit.
func (e *mixEntries) scale(path, label, help string) fyne.CanvasObject {
	box := e.page.in.measured(path, label, help, touch.Mass)
	e.page.in.also(path, func(*app.Snapshot) { e.page.in.form.Field(path).SetEcho("") })
	return box
}
