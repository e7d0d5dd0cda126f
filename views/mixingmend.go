package views

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// metPath names the entry of how long ago the two parts met, which lives in the
// window.
const metPath = "weighing/met"

// mixMend is the rescue of a mix with too much of one part: one number to add,
// what it makes, and whether there is time for it.
type mixMend struct {
	weigh *mixWeigh
	root  *fyne.Container // empty while there is nothing to mend
	pane  *pane
	met   *touch.Field // while there is something to mend, else nil
	sign  *touch.Sign
	adds  *touch.Text
	time  *touch.Text
	rest  *fyne.Container
	stock *touch.Text // whether what is to be added is left
	held  *touch.Sign // beside it
	goes  *touch.Text // where the surplus can go

	rescue model.Rescue
	plan   *model.LayerPlan
	late   bool // it can no longer be mended
	minute int  // since the parts met, by the journal, when it was last judged
}

func newMixMend(w *mixWeigh) *mixMend {
	m := &mixMend{weigh: w, pane: newPane(w.page.in), sign: touch.NewSign(touch.Check, 26), adds: touch.NewText("", touch.Title, touch.Ink), time: touch.NewText("", touch.Body, touch.Ink),
		stock: touch.NewText("", touch.Body, touch.Ink), held: touch.NewSign(touch.Note, 26), goes: touch.NewText("", touch.Body, touch.Ink)}
	m.root = stack()
	return m
}

// see shows the rescue of a layer's mix; off tells whether there is one.
func (m *mixMend) see(shot *app.Snapshot, l *model.LayerPlan, r model.Rescue, off bool) {
	m.rescue, m.plan, m.late = r, l, false
	m.pane.show(fmt.Sprint(off), func() fyne.CanvasObject {
		in := m.weigh.page.in
		if !off {
			m.met = nil
			return stack()
		}
		m.met = touch.NewField(in.form, metPath, "Minutes since A and B met", touch.Number)
		m.met.SetUnit("min")
		m.met.OnDraft = func(string) { m.weigh.weigh() }
		in.shows[metPath] = func(*app.Snapshot) {} // so that the pane takes it out again
		return m.met
	})
	if !off {
		m.root.RemoveAll()
		return
	}
	if len(m.root.Objects) == 0 {
		beside := func(sign *touch.Sign, words *touch.Text) fyne.CanvasObject {
			return container.NewBorder(nil, nil, container.NewVBox(sign), nil, words)
		}
		m.rest = stack(beside(m.held, m.stock), m.goes)
		m.root.Add(stack(m.adds, m.pane.root, beside(m.sign, m.time), m.rest))
	}
	m.adds.SetText(r.Words(&m.weigh.mix, l.Density.Value, shot.Project.Style))
	verdict, words := r.StockOn(&shot.ShelfPlan, &shot.Project, l, m.weigh.mix.Step)
	m.held.SetLevel(mendLevels[verdict])
	m.stock.SetText(words)
	timed := shot.Timed()
	m.goes.SetText(timed.SurplusGoes(&shot.Project, &shot.Curing, l, &r, m.nth()))
	m.judge()
	m.goes.Hidden = m.goes.Text() == ""
	m.adds.Hidden, m.rest.Hidden = m.late, m.late // a cup for the bin needs none of it
}

// mendLevels are the signs of what answers whether a mix can be mended.
var mendLevels = map[model.Verdict]touch.Level{model.Fine: touch.Note, model.Beyond: touch.Stop, model.NotKnown: touch.Check}

// nth is the number of the cup at the scale among those of its mix, from 1.
func (m *mixMend) nth() int {
	return m.weigh.page.shot.Project.CupAtScale(m.plan.ID, m.weigh.afresh) + 1
}

// since is how long ago the parts met by the journal; false where that does not
// tell.
func (m *mixMend) since() (unit.Span, bool) {
	at, told := m.weigh.page.shot.Project.MetAt(m.plan.ID)
	if !told {
		return 0, false
	}
	return max(0, unit.SpanOf(m.weigh.page.desk.session.Now().Sub(at))), true
}

// working is how long the cup at the scale can be worked.
func (m *mixMend) working() model.Known[unit.Span] {
	shot := &m.weigh.page.shot
	timed := shot.Timed()
	return timed.WorkingInCup(&shot.Curing, m.plan.ID, m.nth())
}

// tick judges anew when a minute has gone by.
func (m *mixMend) tick() {
	if m.met == nil || m.plan == nil {
		return
	}
	if since, told := m.since(); told && int(since/unit.Minute) != m.minute {
		m.weigh.weigh()
	}
}

// judge says whether there is time for the rescue.
func (m *mixMend) judge() {
	since, met := m.since()
	m.minute = int(since / unit.Minute)
	m.met.SetPlaceholder(map[bool]string{true: fmt.Sprint(m.minute), false: ""}[met])
	m.met.SetHelp(map[bool]string{true: "by the journal; type it where that is wrong", false: ""}[met])
	text, problem := m.met.Text(), ""
	if text != "" {
		n, err := unit.ParseNumber(text)
		met = err == nil && n >= 0
		since = unit.Minute.Times(float64(n))
		switch {
		case err != nil:
			problem = err.Error()
		case !met:
			problem = "this should be 0 or more minutes"
		}
	}
	m.met.SetProblem(problem)
	verdict, words := m.rescue.Time(m.working(), since, met)
	m.late = verdict == model.Beyond
	m.sign.SetLevel(mendLevels[verdict])
	m.time.SetText(words)
}
