package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// cureBench holds what is done beside the mold: starting a pour and taking the
// piece out.
type cureBench struct {
	page        *curePage
	root        *touch.Card
	start       *touch.Button
	stiff, bent *touch.Button // the piece is out of the mold
	sign        *touch.Sign
	window      *touch.Text
	way         *pane // the way back after a missed window
	said        *touch.Text
	next        string // layer that start would pour
	hot         *touch.Button
	poured      string         // the last layer that was poured
	placed      *touch.Button  // the insert that comes next is in its place
	ended       *touch.Button  // all of the pour is in the mold
	acts        [2]model.Entry // what those two write down
}

func newCureBench(p *curePage) *cureBench {
	b := &cureBench{page: p, sign: touch.NewSign(touch.Note, 22), window: touch.NewText("", touch.Body, touch.Ink), way: newPane(p.in), said: touch.NewText("", touch.Body, touch.StopTone)}
	s := p.desk.session
	b.start = touch.NewStyledButton("", touch.Primary, func() { b.do(func() error { return s.StartPour(b.next) }) })
	b.stiff = touch.NewButton("It is out of the mold, stiff", func() { b.do(func() error { return s.DemoldFelt(model.FeelStiff) }) })
	b.bent = touch.NewButton("It is out, but soft and bent", func() { b.do(func() error { return s.DemoldFelt(model.FeelBent) }) })
	b.hot = touch.NewStyledButton("Stop: too hot", touch.Danger, func() { b.do(func() error { return p.hot.stop(b.poured) }) })
	b.placed = touch.NewButton("", func() { b.do(func() error { return s.Happened(b.acts[0]) }) })
	b.ended = touch.NewButton("Pour ended", func() { b.do(func() error { return s.Happened(b.acts[1]) }) })
	for _, x := range []*touch.Button{b.start, b.placed, b.ended, b.stiff, b.bent, b.hot} {
		x.Bench, x.Debounce = true, touch.Settle
	}
	b.root = touch.NewCard("At the bench", stack(b.start, container.NewBorder(nil, nil, container.NewVBox(b.sign), nil, b.window), b.way.root, b.placed, b.ended, b.stiff, b.bent, b.hot, b.said))
	return b
}

// do acts once what is being typed has been taken.
func (b *cureBench) do(act func() error) {
	b.page.in.form.CommitAll()
	b.said.SetText(problemWords(act()))
}

// see shows what can be done now.
func (b *cureBench) see(shot *app.Snapshot, plan *model.Plan, now time.Time) {
	next, ok := plan.NextPour()
	b.next = next.ID
	switch {
	case ok:
		b.start.SetLabel("Start the pour of " + brief(next.Name, 26))
		b.start.Enable()
	case len(plan.Layers) == 0:
		b.start.SetLabel("No pour is planned yet")
		b.start.Disable()
	default:
		b.start.SetLabel("Every pour has been started")
		b.start.Disable()
	}
	level, words := windowWords(plan, shot.Project.Style, &b.page.clock, next.ID, now)
	if hot := hotWords(shot, next.ID); hot != "" {
		level, words = touch.Stop, sentences(hot, words)
	}
	b.window.SetText(words)
	b.sign.SetLevel(level)
	// A pour outside its window is possible, and not what to do next.
	style := touch.Primary
	if level != touch.Note {
		style = touch.Plain
	}
	b.start.SetStyle(style)
	b.sign.Hidden = words == ""
	b.seeWay(plan, &shot.Curing, next.ID, now)
	out := plan.CanDemold()
	for _, x := range []*touch.Button{b.stiff, b.bent} {
		if out {
			x.Enable()
		} else {
			x.Disable()
		}
	}
	b.bent.Hidden = !out
	b.poured = ""
	if l := plan.LastPoured(); l != nil {
		b.poured = l.ID
	}
	b.hot.Hidden = b.poured == "" || plan.Demolded()
	b.seeActs(shot, plan, now)
}

// seeActs offers what may follow on a pour that was started: that an insert is in
// its place, and that all of it is in the mold.
func (b *cureBench) seeActs(shot *app.Snapshot, plan *model.Plan, now time.Time) {
	was := [2]bool{b.placed.Hidden, b.ended.Hidden}
	b.placed.Hidden, b.ended.Hidden = true, true
	m := plan.Moment(&shot.Project, &shot.Curing, model.BenchAsk{Now: now})
	for _, a := range m.Acts {
		switch a.Entry.Kind {
		case model.EntryPlaced:
			b.placed.Hidden, b.acts[0] = false, a.Entry
			b.placed.SetLabel(a.Label)
		case model.EntryPourDone:
			b.ended.Hidden, b.acts[1] = false, a.Entry
		}
	}
	if was != [2]bool{b.placed.Hidden, b.ended.Hidden} {
		b.root.Refresh()
	}
}

// hotWords warns of a pour to come that gets too hot as it is planned; "" where
// it does not.
func hotWords(shot *app.Snapshot, layer string) string {
	c := curingOf(shot, layer)
	switch {
	case c == nil || !c.Ready:
		return ""
	case c.RunsAway:
		return "As it is planned it runs away after " + spanWords(shot.Project.Style, c.RunsAfter) + ": pour it shallower or in a cooler room."
	case c.PeakCheck == model.Beyond:
		return "As it is planned it gets too hot, " + tempWords(shot.Project.Style, c.Peak) + ": pour it shallower or in a cooler room."
	}
	return ""
}

// seeWay shows the way back where the window of the next pour was missed.
func (b *cureBench) seeWay(plan *model.Plan, curing *model.Curing, layer string, now time.Time) {
	if curing.Project != plan.Project {
		curing = &model.Curing{}
	}
	steps := plan.WayBack(curing, layer, now)
	b.way.root.Hidden = len(steps) == 0
	below := ""
	for i := 1; i < len(plan.Layers); i++ {
		if plan.Layers[i].ID == layer {
			below = plan.Layers[i-1].ID
		}
	}
	lines := []string{below}
	for i, s := range steps {
		lines = append(lines, fmt.Sprintf("%d · %s", i+1, s.Do), wayDate(&b.page.clock, s, i == 0), s.Care)
	}
	b.way.show(fmt.Sprint(lines), func() fyne.CanvasObject {
		list := container.New(layout.NewCustomPaddedVBoxLayout(6))
		for i := 1; i < len(lines); i += 3 {
			step := container.New(layout.NewCustomPaddedVBoxLayout(0), touch.NewText(lines[i], touch.Body, touch.Ink))
			switch w, of := b.page.working, figureOf(below, model.FigSand); {
			case lines[i+1] == "":
			case i == 1 && has(&b.page.shot, of):
				step.Add(w.opens(lines[i+1], touch.Strong, of))
			default:
				step.Add(touch.NewText(lines[i+1], touch.Strong, touch.Ink))
			}
			if lines[i+2] != "" {
				step.Add(touch.NewText(lines[i+2], touch.Small, touch.Faint))
			}
			list.Add(step)
		}
		list.Add(touch.NewText(wayTakes(b.page.shot.Project.Style), touch.Small, touch.Faint))
		return list
	})
}

// wayTakes says how long the steps of the way back are counted to take.
func wayTakes(s unit.Style) string {
	span := func(d time.Duration) string { return s.Span(unit.SpanOf(d)) }
	return fmt.Sprintf("%s to dry, %s to sand and %s to wipe are common practice, no source.", span(model.WayDry), span(model.WaySand), span(model.WayWipe))
}

// wayDate says when a step of the way back is done.
func wayDate(c *shopClock, s model.WayStep, cures bool) string {
	switch {
	case cures && s.To.IsZero():
		return "when is not known"
	case cures && !s.Soonest.IsZero():
		return "until " + c.dayTime(s.To) + " (" + c.short(s.Soonest) + " to " + c.soon(s.Soonest, s.Latest) + ")"
	case cures:
		return "until " + c.dayTime(s.To)
	case s.From.IsZero():
		return ""
	case s.To.IsZero():
		return "from " + c.dayTime(s.From)
	}
	return c.dayTime(s.From) + " to " + c.soon(s.From, s.To)
}

// windowWords tells how a pour, done or to come, lies against the recoat window
// of the layer below, how grave that is, and what the surface then feels like
// to a gloved finger.
func windowWords(plan *model.Plan, s unit.Style, c *shopClock, layer string, now time.Time) (touch.Level, string) {
	w := plan.Recoat(layer, now)
	off := s.Span(unit.SpanOf(w.Off.Truncate(time.Minute)))
	switch w.State {
	case model.RecoatEarly:
		if w.Done {
			return touch.Stop, fmt.Sprintf("Poured early, %s before the window on %s opened: colours may bleed and inserts sink.", off, w.Below)
		}
		return touch.Check, fmt.Sprintf("Early: the window on %s opens in %s, %s. A gloved finger comes away wet or draws strings; wait until it is sticky like tape and leaves nothing on the glove.", w.Below, off, c.dated(w.From))
	case model.RecoatLate:
		if w.Done {
			return touch.Check, fmt.Sprintf("Poured late, %s after the window on %s closed: it holds only where the surface was sanded.", off, w.Below)
		}
		return touch.Check, fmt.Sprintf("Late: the window on %s closed %s ago, %s. A fingernail leaves no mark, or soon will not: sand before you pour.", w.Below, off, c.dated(w.To))
	case model.RecoatOpen:
		if w.Done {
			return touch.Note, "Poured in the window on " + w.Below + "."
		}
		return touch.Note, fmt.Sprintf("In the window on %s, which closes %s. It is sticky like tape, and nothing stays on the glove.", w.Below, c.dated(w.To))
	case model.RecoatUnknown:
		return touch.Check, "The window on " + w.Below + " is not known: go by the touch of a gloved finger, sticky like tape and nothing on the glove."
	}
	return touch.Note, ""
}
