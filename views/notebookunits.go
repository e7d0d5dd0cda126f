package views

import (
	"errors"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// unitsPage is where the maker says in which units the open project is written,
// and how exact the instruments are.
type unitsPage struct {
	session *app.Session
	in      *inputs
	grains  map[bool]fyne.CanvasObject // by whether lengths are in inches
	root    fyne.CanvasObject
}

func newUnitsPage(d *Desk, in *inputs, back func()) *unitsPage {
	u := &unitsPage{session: d.session, in: in}
	options := func(pairs ...string) (list []touch.Option) {
		for i := 0; i < len(pairs); i += 2 {
			list = append(list, touch.Option{ID: pairs[i], Label: pairs[i+1]})
		}
		return list
	}
	metric := u.choice(options(string(unit.TenthMillimetre), "0.1 mm", string(unit.WholeMillimetre), "1 mm"),
		func(s unit.Style) string { return string(s.LengthGrain()) }, func(s *unit.Style, id string) { s.Grain = unit.Grain(id) })
	inches := u.choice(options(string(unit.Sixteenth), "1/16 in", string(unit.ThirtySecond), "1/32 in", string(unit.SixtyFourth), "1/64 in"),
		func(s unit.Style) string { return string(s.LengthGrain()) }, func(s *unit.Style, id string) { s.Grain = unit.Grain(id) })
	u.grains = map[bool]fyne.CanvasObject{false: metric, true: inches}

	lengths := u.choice(options(string(unit.InMillimetres), "mm", string(unit.InCentimetres), "cm", string(unit.InInches), "in"),
		func(s unit.Style) string { return string(s.LengthUnit()) }, func(s *unit.Style, id string) { s.Lengths = unit.LengthUnit(id) })
	volumes := u.choice(options(string(unit.InMillilitres), "ml", string(unit.InLitres), "L", string(unit.InFluidOunces), "fl oz", string(unit.InCubicInches), "cu in"),
		func(s unit.Style) string { return string(s.VolumeUnit()) }, func(s *unit.Style, id string) { s.Volumes = unit.VolumeUnit(id) })
	masses := u.choice(options(string(unit.InGrams), "g", string(unit.InKilograms), "kg", string(unit.InOunces), "oz", string(unit.InPounds), "lb"),
		func(s unit.Style) string { return string(s.MassUnit()) }, func(s *unit.Style, id string) { s.Masses = unit.MassUnit(id) })
	temperatures := u.choice(options(string(unit.InCelsius), "°C", string(unit.InFahrenheit), "°F"),
		func(s unit.Style) string { return string(s.TempUnit()) }, func(s *unit.Style, id string) { s.Temperatures = unit.TempUnit(id) })

	units := container.New(layout.NewCustomPaddedVBoxLayout(12),
		touch.NewText("What you have entered keeps its value; it is only written differently, and a number without a unit is read in these.", touch.Small, touch.Faint),
		pair(touch.Labelled("Lengths", lengths), touch.Labelled("Lengths are rounded to", container.NewStack(metric, inches))),
		pair(touch.Labelled("Volumes", volumes), touch.Labelled("Weights", masses)),
		pair(touch.Labelled("Temperatures", temperatures), layout.NewSpacer()))
	exact := container.New(layout.NewCustomPaddedVBoxLayout(12),
		touch.NewText("How far off a reading may be, to either side. It decides how sure the amounts to mix are. Leave a field empty for the usual value.", touch.Small, touch.Faint),
		pair(u.accuracy(unit.Tape, "Tape measure"), u.accuracy(unit.Rule, "Steel rule")),
		pair(u.accuracy(unit.Caliper, "Caliper"), u.accuracy(unit.Feeler, "Feeler gauge")))

	scroll := touch.NewScroll(inset(container.New(layout.NewCustomPaddedVBoxLayout(10),
		touch.NewCard("Units of this piece", units), touch.NewCard("Accuracy of the instruments", exact))))
	in.pad.SetFolded(true)
	u.root = asRead(pageHead("Units and instruments", back), scroll, in.pad)
	return u
}

// choice is a chooser for one of the project's units.
func (u *unitsPage) choice(options []touch.Option, get func(unit.Style) string, set func(*unit.Style, string)) *touch.Choice {
	c := touch.NewChoice(options, "", func(id string) {
		u.in.form.CommitAll()
		style := u.session.Snapshot().Project.Style
		set(&style, id)
		u.session.SetStyle(style)
	})
	u.in.bind("style/"+options[0].ID, func(shot *app.Snapshot) { c.SetChosen(get(shot.Project.Style)) })
	return c
}

// accuracy is an input for the accuracy of an instrument.
func (u *unitsPage) accuracy(by unit.Instrument, label string) *touch.Field {
	path := "instruments/" + string(by)
	f := touch.NewField(u.in.form, path, label, touch.Length)
	f.SetHelp("usually ±" + accuracyText(unit.DefaultAccuracy(by)))
	show := func(shot *app.Snapshot) {
		f.SetText(accuracyText(shot.Project.HalfWidth(by)))
		f.SetUnit(string(shot.Project.Style.LengthUnit()))
	}
	f.OnCommit = func(text string) {
		err := u.session.SetAccuracy(by, text)
		var problem *model.Problem
		if errors.As(err, &problem) {
			f.SetProblem(problem.Message)
			return
		}
		f.SetProblem("")
		shot := u.session.Snapshot()
		show(&shot)
	}
	u.in.bind(path, show)
	return f
}

// see shows the graduations that belong to the unit of length.
func (u *unitsPage) see(shot *app.Snapshot) {
	inches := shot.Project.Style.LengthUnit() == unit.InInches
	u.grains[inches].Show()
	u.grains[!inches].Hide()
}

// pageHead is the line at the top of a page that replaces the summary.
func pageHead(title string, back func()) fyne.CanvasObject {
	button := touch.NewButton("← Back", back)
	name := container.NewVBox(layout.NewSpacer(), touch.NewText(title, touch.Title, touch.Ink), layout.NewSpacer())
	return container.New(layout.NewCustomPaddedLayout(4, 4, 14, 14), container.NewBorder(nil, nil, button, nil, container.New(layout.NewCustomPaddedLayout(0, 0, 12, 0), name)))
}

// accuracyText writes how far off an instrument may be, to a thousandth of a
// millimetre, which is finer than any length is written.
func accuracyText(l unit.Length) string {
	return strconv.FormatFloat(math.Round(l.Millimetres()*1000)/1000, 'f', -1, 64) + " mm"
}
