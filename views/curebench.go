package views

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2/container"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/touch"
)

// cureBench holds what is done beside the mold: starting a pour and taking the
// piece out.
type cureBench struct {
	page   *curePage
	root   *touch.Card
	start  *touch.Button
	demold *touch.Button
	sign   *touch.Sign
	window *touch.Text
	said   *touch.Text
	next   string // layer that start would pour
}

func newCureBench(p *curePage) *cureBench {
	b := &cureBench{page: p, sign: touch.NewSign(touch.Note, 22), window: touch.NewText("", touch.Body, touch.Ink), said: touch.NewText("", touch.Body, touch.StopTone)}
	b.start = touch.NewStyledButton("", touch.Primary, func() { b.do(func() error { return p.desk.session.StartPour(b.next) }) })
	b.demold = touch.NewButton("It is out of the mold", func() { b.do(p.desk.session.Demold) })
	for _, x := range []*touch.Button{b.start, b.demold} {
		x.Bench, x.Debounce = true, touch.Settle
	}
	b.root = touch.NewCard("At the bench", stack(b.start, container.NewBorder(nil, nil, container.NewVBox(b.sign), nil, b.window), b.demold, b.said))
	return b
}

// do acts once what is being typed has been taken.
func (b *cureBench) do(act func() error) {
	b.page.in.form.CommitAll()
	b.said.SetText(problemWords(act()))
}

// see shows what can be done now.
func (b *cureBench) see(shot *app.Snapshot, now time.Time) {
	next, ok := shot.Plan.NextPour()
	b.next = next.ID
	switch {
	case ok:
		b.start.SetLabel("Start the pour of " + brief(next.Name, 26))
		b.start.Enable()
	case len(shot.Plan.Layers) == 0:
		b.start.SetLabel("No pour is planned yet")
		b.start.Disable()
	default:
		b.start.SetLabel("Every pour has been started")
		b.start.Disable()
	}
	level, words := windowWords(shot, &b.page.clock, next.ID, now)
	b.window.SetText(words)
	b.sign.SetLevel(level)
	// A pour outside its window is possible, and not what to do next.
	style := touch.Primary
	if level != touch.Note {
		style = touch.Plain
	}
	b.start.SetStyle(style)
	b.sign.Hidden = words == ""
	if canDemold(&shot.Plan) {
		b.demold.Enable()
	} else {
		b.demold.Disable()
	}
}

// canDemold tells whether the last layer has been poured and the piece is still
// in the mold.
func canDemold(plan *model.Plan) bool {
	for _, s := range plan.Steps {
		if s.Kind == model.StepDemold {
			return !s.Due.IsZero() && !s.Past
		}
	}
	return false
}

// windowWords tells how a pour, done or to come, lies against the recoat window
// of the layer below, and how grave that is.
func windowWords(shot *app.Snapshot, c *shopClock, layer string, now time.Time) (touch.Level, string) {
	w := shot.Plan.Recoat(layer, now)
	off := shot.Project.Style.Span(unit.SpanOf(w.Off.Truncate(time.Minute)))
	switch w.State {
	case model.RecoatEarly:
		if w.Done {
			return touch.Stop, fmt.Sprintf("Poured early, %s before the window on %s opened: colours may bleed and inserts sink.", off, w.Below)
		}
		return touch.Check, fmt.Sprintf("Early: the window on %s opens in %s, %s. Sticky like tape and nothing on a fresh glove is the sign.", w.Below, off, c.dated(w.From))
	case model.RecoatLate:
		if w.Done {
			return touch.Check, fmt.Sprintf("Poured late, %s after the window on %s closed: it holds only where the surface was sanded.", off, w.Below)
		}
		return touch.Check, fmt.Sprintf("Late: the window on %s closed %s ago, %s. Once it is hard, wash it, let it dry, sand it dull and take the dust off before you pour.", w.Below, off, c.dated(w.To))
	case model.RecoatOpen:
		if w.Done {
			return touch.Note, "Poured in the window on " + w.Below + "."
		}
		return touch.Note, fmt.Sprintf("In the window on %s, which closes %s.", w.Below, c.dated(w.To))
	case model.RecoatUnknown:
		return touch.Check, "The window on " + w.Below + " is not known: go by the touch of a gloved finger, sticky like tape and nothing on the glove."
	}
	return touch.Note, ""
}
