package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// amountKey tells when the part "amount" has to be built anew: it holds no
// inputs, so that is whenever a text in it changes.
func amountKey(s *shotOf) string {
	if s.layer == nil {
		return ""
	}
	l := s.layer
	return fmt.Sprint(s.Project.Style, l.Net, l.Mass, l.Allowances, l.Checks, l.Influences, l.Advice, l.PerMM)
}

// amount tells how much the chosen layer takes and why, and holds it against
// its data sheet.
func (p *layersPage) amount(s *shotOf) fyne.CanvasObject {
	l, st := s.layer, s.Project.Style
	checks := stack()
	for _, c := range l.Checks {
		checks.Add(verdictRow(c))
	}
	if len(l.Parts()) == 0 {
		return stack(
			touch.NewCard("Against the data sheet", checks),
			touch.NewText("How much it takes is not known until the mold is measured and the pour has a height.", touch.Body, touch.Faint),
		)
	}
	what := stack(
		amountRow("Between its levels, wood and inserts taken out", st.Volume(l.Net), st.Mass(l.Parts()[0].Mass), ""),
	)
	for _, a := range l.Allowances {
		volume := st.Volume(a.Volume)
		if a.Volume == 0 {
			volume = ""
		}
		row := stack(amountRow(capitalised(a.Label), volume, st.Mass(a.Mass), a.Why))
		if a.Typical {
			row.Add(newDotted("typical value, not yours").root)
		}
		if a.Field != "" {
			row.Add(container.NewHBox(touch.NewStyledButton("Change it", touch.Quiet, func() {
				p.desk.goTo(model.Finding{Field: a.Field, Subject: model.OfMixing})
			})))
		}
		what.Add(row)
	}
	mass := fmt.Sprintf("%s goes into the mold, between %s and %s (9 times in 10)", st.Mass(l.Mass.Value), st.Mass(l.Mass.Low), st.Mass(l.Mass.High))
	what.Add(touch.NewText(mass, touch.Strong, touch.Ink))
	what.Add(opensRow(p.opened, s.Snapshot, "To mix, with all that", st.MassTo(l.Mix.Total, l.Mix.Step), func(shot *app.Snapshot) (model.Working, bool) {
		return shot.Plan.MixWorking(&shot.Project, l.ID)
	}))
	what.Add(touch.NewText("One more millimetre takes "+st.Mass(l.PerMM)+", one more sixteenth of an inch "+st.Mass(l.PerGrain)+".", touch.Body, touch.Faint))
	sources := stack()
	if l.Advice != "" {
		sources.Add(touch.NewText(capitalised(l.Advice)+".", touch.Strong, touch.Ink))
	}
	for _, in := range l.Influences {
		sources.Add(p.influence(in, s))
	}
	return stack(
		touch.NewCard("Against the data sheet", checks),
		touch.NewCard("Where it goes", what),
		touch.NewCard("What makes it uncertain", sources),
	)
}

// amountRow is one line of an account, with its reason below.
func amountRow(label, volume, mass, why string) *fyne.Container {
	numbers := mass
	if volume != "" {
		numbers = volume + " · " + mass
	}
	end := touch.NewLine(numbers, touch.Strong, touch.Ink)
	row := container.New(layout.NewCustomPaddedVBoxLayout(1), container.NewBorder(nil, nil, nil, container.NewVBox(end), touch.NewText(label, touch.Body, touch.Ink)))
	if why != "" {
		row.Add(touch.NewText(why, touch.Small, touch.Faint))
	}
	return row
}

// influence is one measurement's part in the uncertainty; it leads to its
// input.
func (p *layersPage) influence(in model.Influence, s *shotOf) fyne.CanvasObject {
	words := fmt.Sprintf("%s, ±%s alone", s.Project.Style.Share(unit.Share(in.Part)), s.Project.Style.Mass(in.Sigma))
	show := touch.NewStyledButton("Show", touch.Quiet, func() { p.desk.goTo(model.Finding{Field: in.Field, Subject: model.OfMold}) })
	text := container.New(layout.NewCustomPaddedVBoxLayout(1), touch.NewText(capitalised(in.Label), touch.Body, touch.Ink), touch.NewText(words, touch.Small, touch.Faint))
	return container.NewBorder(nil, nil, nil, container.NewVBox(show), text)
}
