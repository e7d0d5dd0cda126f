package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mixLine is what to mix for one layer.
type mixLine struct {
	name  *touch.Brief
	state *touch.Text
	parts [3]*touch.Text // part A, part B, together
	opens *touch.Opens   // together, which opens how that came about
	layer string         // by ID
	why   *touch.Text
}

// mixList is what to mix, layer by layer.
type mixList struct {
	root  *fyne.Container
	how   *workingPanel // opens in it
	lines []*mixLine
	clock shopClock
	built string // IDs of the layers shown
}

func newMixList(how *workingPanel) *mixList {
	return &mixList{how: how, root: container.New(layout.NewCustomPaddedVBoxLayout(6)), built: "?"}
}

// see shows the mixes of a plan.
func (m *mixList) see(shot *app.Snapshot, now time.Time) {
	var ids []string
	for _, l := range shot.Plan.Layers {
		ids = append(ids, l.ID)
	}
	if key := shot.Project.ID + "/" + strings.Join(ids, "/"); key != m.built {
		m.built = key
		m.build(len(ids))
	}
	m.clock.set(shot.Project.Shop.Zone)
	for i, l := range shot.Plan.Layers {
		m.lines[i].see(shot, &l, &m.clock, now)
	}
}

// build makes the lines of so many layers.
func (m *mixList) build(n int) {
	m.root.RemoveAll()
	m.lines = nil
	if n == 0 {
		m.root.Add(touch.NewText("No pour is planned yet. Say in the window Layers how deep each is, and of which resin.", touch.Body, touch.Faint))
		return
	}
	head := func(text string) fyne.CanvasObject { return touch.NewText(text, touch.Small, touch.Faint) }
	m.root.Add(container.NewGridWithColumns(3, head("part A"), head("part B"), head("together")))
	for range n {
		x := &mixLine{
			name:  touch.NewBrief("", touch.Strong, touch.Ink),
			state: touch.NewLine("", touch.Small, touch.Faint),
			why:   touch.NewText("", touch.Body, touch.CheckTone),
		}
		row := container.NewGridWithColumns(3)
		for i := range x.parts {
			x.parts[i] = touch.NewLine("", touch.Question, touch.Ink)
			row.Add(container.NewVBox(layout.NewSpacer(), x.parts[i], layout.NewSpacer())) // level with the figure that opens
		}
		x.opens = m.how.opens("", touch.Question, func(shot *app.Snapshot) (model.Working, bool) {
			return shot.Plan.MixWorking(&shot.Project, x.layer)
		})
		row.Objects[2] = container.NewStack(row.Objects[2], container.NewHBox(x.opens))
		m.lines = append(m.lines, x)
		names := container.NewBorder(nil, nil, nil, x.state, x.name)
		m.root.Add(container.New(layout.NewCustomPaddedVBoxLayout(0), names, row, x.why))
	}
	m.root.Refresh()
}

// see shows the mix of one layer.
func (x *mixLine) see(shot *app.Snapshot, l *model.LayerPlan, clock *shopClock, now time.Time) {
	x.name.SetText(l.Name)
	x.layer = l.ID
	showIf(x.opens, l.Mix.Ready)
	showIf(x.parts[2], !l.Mix.Ready)
	state := "not poured yet"
	if start, ok := shot.Project.PourStart(l.ID); ok {
		state = "poured " + clock.long(start.At, now)
	}
	x.state.SetText(state)
	if !l.Mix.Ready {
		for _, t := range x.parts {
			t.SetText("–")
		}
		why := l.Mix.Why
		if why == "" {
			why = "it cannot be weighed yet"
		}
		x.why.SetText(why)
		return
	}
	style := shot.Project.Style
	x.parts[0].SetText(style.MassTo(l.Mix.A, l.Mix.Step))
	x.parts[1].SetText(style.MassTo(l.Mix.B, l.Mix.Step))
	x.opens.SetText(style.MassTo(l.Mix.Total, l.Mix.Step))
	x.why.SetText("")
}

// nextStep is the step that comes next, with the time left and the time of day.
type nextStep struct {
	what, when *touch.Text
	missed     *touch.Text
	clock      shopClock
	root       *fyne.Container
}

func newNextStep() *nextStep {
	n := &nextStep{
		what:   touch.NewText("", touch.Title, touch.Ink),
		when:   touch.NewText("", touch.Body, touch.Ink),
		missed: touch.NewText("", touch.Body, touch.CheckTone),
	}
	n.root = container.New(layout.NewCustomPaddedVBoxLayout(3), n.what, n.when, n.missed)
	return n
}

// see shows the next step of a plan, and those already due.
func (n *nextStep) see(shot *app.Snapshot, now time.Time) {
	n.clock.set(shot.Project.Shop.Zone)
	style := shot.Project.Style
	step, ok := shot.NextStep(now)
	switch {
	case ok:
		when := howLong(step.Due, now, style) + ", " + n.clock.long(step.Due, now)
		if step.Typical {
			when += " (by typical figures, not by the data sheet)"
		}
		n.what.SetText(capitalised(step.Label))
		n.when.SetText(when)
	case len(shot.Plan.Steps) == 0:
		n.what.SetText("Nothing is planned yet")
		n.when.SetText("Measure the mold first, then say how it is to be filled.")
	default:
		what, when := "Nothing more is due", "The piece has had all its steps."
		if pour, ok := nextPour(&shot.Plan); ok {
			what, when = capitalised(pour.Label), "when you are ready; all times are counted from the moment you start it."
		}
		n.what.SetText(what)
		n.when.SetText(when)
	}
	text := ""
	if due := shot.Missed(now); len(due) > 0 {
		last := due[len(due)-1]
		text = "Since " + n.clock.long(last.Due, now) + " (" + howLong(last.Due, now, style) + "): " + last.Label + "."
	}
	n.missed.SetText(text)
}
