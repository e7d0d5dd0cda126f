package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// newPrompt is how long a prompt stands out as the one to act on now.
const newPrompt = 8 * time.Second

// stirCares are what to look to while mixing (common practice, no source).
var stirCares = []string{
	"Hold it against the light: streaks like syrup in water mean that it is not mixed.",
	"By a drill: slowly, the stirrer below the surface, so that no funnel forms. It does not reach walls and floor: scrape them by hand.",
	"What sticks to the walls of the first cup is not mixed: never scrape it into the mold.",
}

// mixStir times the mixing of a cup: what to do now, what comes next, and how
// long it still takes.
type mixStir struct {
	page *mixingPage
	root *fyne.Container
	card *touch.Card

	ground *canvas.Rectangle
	prompt *touch.Text
	more   *touch.Text
	left   *bigNumber
	next   *touch.Text
	pour   *fyne.Container // by when it must be out of the cup
	sign   *touch.Sign
	by     *touch.Text

	begin *touch.Button
	mixed *touch.Button
	heard *touch.Button // ends the ringing
	back  *touch.Button
	hot   *touch.Button
	said  *touch.Text
	plan  *pane // of the mixing to come

	layer *model.LayerPlan
	timer model.MixTimer
	clock shopClock
}

func newMixStir(p *mixingPage) *mixStir {
	m := &mixStir{page: p, prompt: touch.NewText("", touch.Reading, touch.Ink), more: touch.NewText("", touch.Title, touch.Ink), left: newBigNumber(look.Read, look.Count), next: touch.NewText("", touch.Title, touch.Ink),
		by: touch.NewText("", touch.Body, touch.Ink), sign: touch.NewSign(touch.Note, 22), said: touch.NewText("", touch.Body, touch.StopTone), plan: newPane(p.in)}
	m.ground = canvas.NewRectangle(look.Current().Panel)
	m.ground.CornerRadius = 8
	m.begin = touch.NewStyledButton("Begin mixing", touch.Primary, func() { m.log(model.EntryMixing) })
	m.mixed = touch.NewStyledButton("It is mixed", touch.Primary, func() { m.log(model.EntryMixed) })
	m.heard = touch.NewStyledButton("I have heard it", touch.Plain, func() { p.desk.alarms.hearStir(m.layer.ID); m.show() })
	m.back = touch.NewStyledButton("Take back", touch.Quiet, m.takeBack)
	m.hot = touch.NewStyledButton("Stop: too hot", touch.Danger, func() { m.said.SetText(problemWords(p.hot.stop(m.layer.ID))) })
	for _, b := range []*touch.Button{m.begin, m.mixed, m.heard, m.back, m.hot} {
		b.Debounce = touch.Settle
		b.Bench = b != m.back
	}
	m.pour = container.NewBorder(nil, nil, container.NewVBox(m.sign), nil, m.by)
	cares := stack()
	for _, words := range stirCares {
		cares.Add(signed(touch.Note, words))
	}
	now := container.NewStack(m.ground, container.New(layout.NewCustomPaddedLayout(8, 8, 12, 12),
		container.New(layout.NewCustomPaddedVBoxLayout(0), m.prompt, m.more, m.left, m.next)))
	acts := container.NewBorder(nil, nil, nil, m.hot, stack(m.begin, m.mixed))
	m.card = touch.NewCard("Mixing", stack(now, acts, m.heard, m.pour, m.said, container.NewHBox(m.back), m.plan.root))
	m.root = stack(m.card, touch.NewCard("Mixed well", cares))
	return m
}

// see shows the mixing for a layer.
func (m *mixStir) see(shot *app.Snapshot, l *model.LayerPlan) {
	m.root.Hidden = l == nil
	if m.layer != nil && l != nil && m.layer.ID != l.ID {
		m.said.SetText("")
	}
	m.layer = l
	m.clock.set(shot.Project.Shop.Zone)
	m.show()
}

// tick moves the time on.
func (m *mixStir) tick() {
	if m.layer != nil {
		m.show()
	}
}

// show tells how the mixing stands now.
func (m *mixStir) show() {
	if m.layer == nil {
		return
	}
	shot, now := &m.page.shot, m.page.desk.session.Now()
	m.timer = shot.Plan.MixTimer(&shot.Project, m.layer.ID, now)
	t := &m.timer
	title := "Mixing"
	of := 1
	if cups := severalCups(shot, m.layer); cups != nil {
		of = len(cups.Batches)
	}
	switch {
	case of > 1:
		title = fmt.Sprintf("Mixing, cup %d of %d", t.Nth, max(of, t.Nth))
	case t.Cup > 1:
		title = fmt.Sprintf("Mixing, cup %d", t.Cup)
	}
	m.card.SetTitle(title)
	shown := m.showNow(now)
	shown = m.showPour(now) || shown
	runs := t.State == model.MixRuns || t.State == model.MixOver
	label, style := "Begin mixing", touch.Primary
	if t.State == model.MixDone || t.State == model.MixStopped {
		label, style = "Begin mixing another cup", touch.Plain
	}
	m.begin.SetLabel(label)
	m.begin.SetStyle(style)
	changed := showIf(m.begin, !runs) || shown
	changed = showIf(m.mixed, runs) || changed
	changed = showIf(m.heard, m.page.desk.alarms.stirRings(m.layer.ID)) || changed
	back := map[model.MixState]string{model.MixRuns: "Take the beginning back", model.MixOver: "Take the beginning back", model.MixDone: "Take back that it is mixed"}[t.State]
	if t.State == model.MixDone && t.EndEntry == "" {
		back = ""
	}
	m.back.SetLabel(back)
	changed = showIf(m.back, back != "") || changed
	s := shot.Project.Style
	m.plan.show(fmt.Sprint(s, t.MixTiming, t.Mass, m.layer.Mix.Step), func() fyne.CanvasObject { return mixPlanRows(s, t, m.layer.Mix.Step) })
	if changed {
		m.root.Refresh()
	}
}

// showNow shows what to do now, how long it is to the end, and what comes next.
// It tells whether a part came or went.
func (m *mixStir) showNow(now time.Time) (changed bool) {
	t, p := &m.timer, look.Current()
	fill, edge, width := p.Panel, p.Line, float32(1)
	prompt, more, left, next := "", "", "", ""
	switch t.State {
	case model.MixNotBegun:
		prompt = "Not begun"
		left = mixClock(t.Total)
		next = "Touch Begin as the stick goes in."
	case model.MixRuns:
		prompt, more = t.Now.Words, t.Now.More
		left = mixClock(t.Left)
		next = fmt.Sprintf("to go. In %s: %s", mixClock(t.Until()), lowered(t.Next.Words))
		if t.Now.Act != model.MixStir && now.Sub(t.Due(t.Now)) < newPrompt {
			fill, edge, width = p.Press, p.Ink, 8
		}
	case model.MixOver:
		prompt, more = t.Now.Words, t.Now.More
		left = mixClock(0)
		next = "The time has been over for " + mixClock(unit.SpanOf(now.Sub(t.Begun))-t.Total) + "."
		edge, width = p.Ink, 8
	case model.MixDone:
		prompt = "Mixed"
		next = "After " + mixClock(t.Elapsed) + ", at " + m.clock.in(t.Ended).Format("15:04") + "."
		if t.Left > 0 {
			next += " That is " + mixClock(t.Left) + " short of the usual time."
		}
	case model.MixStopped:
		prompt = "Stopped: too hot"
		next = "What is left of that cup is waste."
	}
	m.prompt.SetText(prompt)
	m.more.SetText(more)
	m.left.set(left)
	changed = showIf(m.left, left != "")
	m.next.SetText(next)
	if m.ground.FillColor != fill || m.ground.StrokeColor != edge || m.ground.StrokeWidth != width {
		m.ground.FillColor, m.ground.StrokeColor, m.ground.StrokeWidth = fill, edge, width
		m.ground.Refresh()
	}
	return changed
}

// showPour says by when the cup must have been poured out. It tells whether that
// came or went.
func (m *mixStir) showPour(now time.Time) (changed bool) {
	shot, t := &m.page.shot, &m.timer
	timed := shot.Timed()
	by, known := timed.PourBy(&shot.Curing, t)
	level, words := touch.Note, ""
	switch {
	case t.State == model.MixStopped || m.layer.Status == model.Poured && t.State == model.MixDone:
	case t.Met.IsZero():
	case !known:
		level, words = touch.Check, "By when it must be poured is not known: copy the working time from the data sheet."
	default:
		gone := fmt.Sprintf(", %v of the working time after the parts met", model.WorkingPart)
		at := m.clock.in(by).Format("15:04")
		switch ends := t.Begun.Add(t.Total.Duration()); {
		case now.After(by):
			level, words = touch.Stop, "It should have been poured by "+at+gone+". If it strings or warms, do not pour it."
		case (t.State == model.MixRuns || t.State == model.MixOver) && ends.After(by):
			level, words = touch.Check, "Late: pour it by "+at+gone+", before its mixing time is over. Mix less next time, or in smaller cups."
		default:
			words = "Pour it by " + at + ", in " + shot.Project.Style.Span(minutesDown(unit.SpanOf(by.Sub(now)))) + gone + "."
		}
	}
	m.by.SetText(words)
	m.sign.SetLevel(level)
	return showIf(m.pour, words != "")
}

// minutesDown gives the whole minutes of a span, so that its words change once a
// minute and never say more than there is.
func minutesDown(s unit.Span) unit.Span { return s - unit.SpanOf(s.Duration()%time.Minute) }

// log notes that mixing begins or has ended.
func (m *mixStir) log(kind model.EntryKind) {
	m.page.in.form.CommitAll()
	m.said.SetText(problemWords(m.page.desk.session.Happened(model.Entry{Kind: kind, Layer: m.layer.ID})))
}

// takeBack takes the end of the mixing back, or else its beginning.
func (m *mixStir) takeBack() {
	entry := m.timer.EndEntry
	if entry == "" {
		entry = m.timer.Entry
	}
	m.said.SetText(problemWords(m.page.desk.session.Withdraw(entry)))
}

// mixPlanRows lists the prompts, and what they go by.
func mixPlanRows(s unit.Style, t *model.MixTimer, step unit.Mass) fyne.CanvasObject {
	rows := container.New(layout.NewCustomPaddedVBoxLayout(2))
	for _, p := range t.Prompts {
		rows.Add(timeHead(p.Words+", "+p.More, mixClock(p.At)))
	}
	mass := ""
	if t.Mass > 0 {
		mass = " Here it is " + s.MassTo(t.Mass, step) + "."
	}
	rows.Add(touch.NewText(model.MixHabits(s)+mass, touch.Small, touch.Faint))
	return rows
}

// lowered begins words with a small letter.
func lowered(words string) string {
	if words == "" {
		return ""
	}
	return strings.ToLower(words[:1]) + words[1:]
}

// mixClock writes a span in minutes and seconds, never less than there is.
func mixClock(d unit.Span) string {
	seconds := int64((max(d.Duration(), 0) + time.Second - 1) / time.Second)
	return fmt.Sprintf("%d:%02d min", seconds/60, seconds%60)
}
