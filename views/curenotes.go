package views

import (
	"time"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// cureNotes takes what is read or felt beside the mold with one touch:
// temperatures, how the surface feels, and the start of a pour that was not
// noted when it was; also what happened a while ago.
type cureNotes struct {
	page  *curePage
	root  *touch.Card
	of    *touch.Text
	what  *touch.Choice // which temperature
	field *touch.Field
	note  *touch.Button
	tacks []*touch.Button
	when  *touch.Choice
	at    *touch.Field
	began *touch.Button // the pour was started then
	said  *touch.Text

	shot  *app.Snapshot
	layer string           // that is being noted: the topmost that has been poured
	count int              // of entries in the journal
	typed string           // in the field
	last  unit.Temperature // that was read, as the field was filled
	time  string           // and when that was
}

// The temperatures that can be read.
const (
	readRoom  = "room"
	readPart  = "part"
	readProbe = "probe"
)

// The inputs of what is noted. They are no fields of the project.
const (
	readingPath = "bench/reading"
	whenPath    = "bench/when"
)

// tack is a finding of a gloved finger and what it tells.
type tack struct {
	feel  model.Feel
	label string
}

var tackFinds = []tack{
	{model.FeelStrings, "It strings: early"},
	{model.FeelTape, "Like tape, nothing on the glove: now"},
	{model.FeelHard, "A nail leaves no mark: late"},
}

func newCureNotes(p *curePage) *cureNotes {
	n := &cureNotes{page: p, of: touch.NewText("", touch.Small, touch.Faint), said: touch.NewText("", touch.Body, touch.Ink)}
	n.what = touch.NewChoice([]touch.Option{{ID: readRoom, Label: "Room"}, {ID: readPart, Label: "Resin"}, {ID: readProbe, Label: "Probe's hottest"}}, readRoom, func(string) { n.prefill() })
	n.field = touch.NewField(p.in.form, readingPath, "Temperature", touch.Temperature)
	n.field.OnDraft = func(text string) { n.typed = text }
	n.field.OnCommit = n.field.OnDraft
	n.field.OnStep = n.step
	n.note = touch.NewButton("Note it", n.reading)
	for _, f := range tackFinds {
		b := touch.NewButton(f.label, func() {
			n.do(f.label, func(at time.Time) error { return p.desk.session.AddTack(n.layer, f.feel, at) })
		})
		n.tacks = append(n.tacks, b)
	}
	n.when = touch.NewChoice([]touch.Option{{ID: "now", Label: "Now"}, {ID: "earlier", Label: "Earlier"}}, "now", func(string) { n.arrange() })
	n.at = touch.NewField(p.in.form, whenPath, "When it was", touch.Time)
	n.at.SetHelp("such as 23:30, yesterday 18:00 or 20 min ago")
	n.at.OnDraft = func(text string) { n.time = text }
	n.at.OnCommit, n.at.OnStep = n.at.OnDraft, nil
	n.began = touch.NewButton("", func() {
		n.do("the pour", func(at time.Time) error { return p.desk.session.StartPourAt(p.bench.next, at) })
	})
	rows := container.New(layout.NewCustomPaddedVBoxLayout(8), n.of, n.when, n.at, n.began, n.what, n.field, n.note,
		touch.NewText("A gloved finger on the surface", touch.Strong, touch.Ink))
	for _, b := range append([]*touch.Button{n.note, n.began}, n.tacks...) {
		b.Bench, b.Debounce = true, touch.Settle
	}
	for _, b := range n.tacks {
		rows.Add(b)
	}
	rows.Add(n.said)
	n.root = touch.NewCard("Note what you read or feel", rows)
	n.arrange()
	return n
}

// see shows what can be noted of a snapshot.
func (n *cureNotes) see(shot *app.Snapshot) {
	changed := n.shot == nil || n.shot.Project.ID != shot.Project.ID
	n.shot = shot
	before := n.layer
	n.layer = ""
	words := "The room can be noted at any time; the resin once a pour has been started."
	if l := shot.Plan.LastPoured(); l != nil {
		n.layer, words = l.ID, "Of "+l.Name+", the last that was poured."
	}
	n.of.SetText(words)
	n.field.SetUnit(unitOf(touch.Temperature, shot.Project.Style))
	if changed {
		n.said.SetText("")
		n.when.SetChosen("now")
	}
	last, _ := shot.Project.LastReading(readKinds[n.what.Chosen()], n.layer)
	if count := len(shot.Project.Journal); changed || before != n.layer || count != n.count || last != n.last {
		n.count = count
		n.prefill()
	}
	n.arrange()
}

// arrange shows the inputs that what is chosen needs.
func (n *cureNotes) arrange() {
	earlier := n.when.Chosen() == "earlier"
	n.at.Hidden = !earlier
	next, ok := model.LayerPlan{}, false
	if n.shot != nil {
		next, ok = n.shot.Plan.NextPour()
	}
	n.began.Hidden = !earlier || !ok
	n.began.SetLabel("The pour of " + brief(next.Name, 18) + " began then")
	for _, b := range n.tacks {
		if n.layer == "" {
			b.Disable()
		} else {
			b.Enable()
		}
	}
	if n.layer == "" && n.what.Chosen() != readRoom {
		n.note.Disable()
	} else {
		n.note.Enable()
	}
	n.root.Refresh()
}

// prefill puts the last reading of the chosen kind into the field, so that one
// touch notes that it has not changed.
func (n *cureNotes) prefill() {
	if n.shot == nil {
		return
	}
	if _, typing := n.field.Pending(); typing {
		return
	}
	n.typed = ""
	t, ok := n.shot.Project.LastReading(readKinds[n.what.Chosen()], n.layer)
	if n.last = t; ok {
		n.typed = n.shot.Project.Style.Temperature(t)
	}
	n.field.SetText(n.typed)
	n.field.SetProblem("")
	n.arrange()
}

// readKinds are what the model calls the temperatures.
var readKinds = map[string]model.ReadingKind{readRoom: model.ReadRoom, readPart: model.ReadPart, readProbe: model.ReadProbe}

// step moves the temperature by half a degree, or by one of Fahrenheit.
func (n *cureNotes) step(dir int) {
	if n.shot == nil {
		return
	}
	s := n.shot.Project.Style
	t, err := s.TakeTemperature(n.typed)
	if err != nil || !t.Given() {
		return
	}
	by := unit.Temperature(0.5)
	if s.TempUnit() == unit.InFahrenheit {
		by = unit.Temperature(1 / 1.8)
	}
	n.typed = s.Temperature(t.Value + by*unit.Temperature(dir))
	n.field.SetText(n.typed)
}

// reading notes the temperature in the field.
func (n *cureNotes) reading() {
	n.page.in.form.CommitAll()
	s, text := n.page.desk.session, n.typed
	if text == "" {
		n.field.SetProblem("say what the thermometer shows")
		return
	}
	n.do(text, func(at time.Time) error {
		switch n.what.Chosen() {
		case readPart:
			return s.AddReading(n.layer, "", text, at)
		case readProbe:
			return s.AddProbe(n.layer, text, at)
		}
		return s.AddReading("", text, "", at)
	})
}

// do notes something that happened when the maker says that it did.
func (n *cureNotes) do(what string, act func(at time.Time) error) {
	n.page.in.form.CommitAll()
	n.field.SetProblem("")
	n.at.SetProblem("")
	var at time.Time // now
	if n.when.Chosen() == "earlier" {
		var err error
		if at, err = model.ParseLately(n.time, n.shot.Project.Shop.Place(), n.page.desk.session.Now()); err != nil {
			n.at.SetProblem(err.Error())
			return
		}
	}
	if err := act(at); err != nil {
		n.said.SetTone(touch.StopTone)
		n.said.SetText(capitalised(problemWords(err)))
		return
	}
	if at.IsZero() {
		at = n.page.desk.session.Now()
	}
	n.said.SetTone(touch.GoodTone)
	n.said.SetText("Noted for " + n.page.clock.dayTime(at) + ": " + what)
	n.when.SetChosen("now")
	n.time = ""
	n.at.SetText("")
	n.arrange()
}
