package views

import (
	"fmt"
	"strings"

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

// scalePath names the entry of what the scale reads, which lives in the window
// until it is kept in the journal.
const scalePath = "weighing/scale"

// mixWeigh is what is used at the scale: what it should read at each step, and
// for any reading what is still to go.
type mixWeigh struct {
	page *mixingPage
	root *fyne.Container // holds the card while there is something to weigh
	card *touch.Card

	ladder  *fyne.Container
	reading *touch.Field
	ground  *canvas.Rectangle
	sign    *touch.Sign
	word    *touch.Text
	togo    *bigNumber
	until   *touch.Text
	why     *touch.Text
	keep    *touch.Button
	again   *touch.Button // begins another cup
	back    *touch.Button // takes the last reading back
	inCup   *touch.Text
	said    *touch.Text
	mend    *mixMend
	refused *fyne.Container // why more hardener is refused, once it is asked

	plan   *model.LayerPlan
	mix    model.MixPlan // of the layer, or of the cup that is being weighed
	which  string        // ", cup 2 of 3" where the mix takes several
	aim    model.Aim
	cupful model.InCup
	afresh bool // the next reading is of another cup
}

func newMixWeigh(p *mixingPage) *mixWeigh {
	w := &mixWeigh{page: p, ladder: container.New(layout.NewCustomPaddedVBoxLayout(2))}
	cup := p.in.plain("mixing/cup", "Empty cup", "weighed once, stick and all", touch.Mass)
	p.in.also("mixing/cup", func(*app.Snapshot) { cup.SetEcho("") })
	w.reading = touch.NewField(p.in.form, scalePath, "The scale reads", touch.Mass)
	w.reading.SetHelp("cup and all, at any moment")
	w.reading.OnDraft = func(string) { w.weigh() }
	w.reading.Stays = true
	w.ground = canvas.NewRectangle(look.Current().Panel)
	w.ground.CornerRadius = 8
	w.sign = touch.NewSign(touch.Note, 34)
	w.word = touch.NewLine("", touch.Reading, touch.Ink)
	w.togo = newBigNumber(look.Read, look.Count)
	w.until = touch.NewText("", touch.Title, touch.Ink)
	w.why = touch.NewText("", touch.Body, touch.Ink)
	w.inCup = touch.NewText("", touch.Strong, touch.Ink)
	w.said = touch.NewText("", touch.Body, touch.StopTone)
	w.keep = touch.NewStyledButton("", touch.Primary, w.act)
	w.again = touch.NewStyledButton("Weigh another cup", touch.Quiet, func() { w.begin() })
	w.back = touch.NewStyledButton("Take the last back", touch.Quiet, w.takeBack)
	for _, b := range []*touch.Button{w.keep, w.again, w.back} {
		b.Debounce = touch.Settle
	}
	w.keep.Bench = true
	w.mend = newMixMend(w)
	hurry := touch.NewStyledButton("More hardener to hurry it?", touch.Quiet, w.refuse)
	w.refused = container.NewStack()
	now := container.New(layout.NewCustomPaddedVBoxLayout(0),
		container.New(layout.NewCustomPaddedHBoxLayout(8), container.NewCenter(w.sign), w.word), w.togo,
		container.New(layout.NewCustomPaddedLayout(8, 0, 0, 0), w.until))
	w.root = container.NewStack()
	w.card = touch.NewCard("At the scale", stack(
		pair(cup, w.reading),
		container.NewStack(w.ground, container.New(layout.NewCustomPaddedLayout(8, 8, 12, 12), now)),
		w.keep, w.why, w.inCup, w.mend.root, w.said,
		container.New(layout.NewCustomPaddedHBoxLayout(8), w.again, w.back), w.ladder,
		touch.NewText("Do not zero the scale between the parts: it may switch itself off, and slow drips go by unseen.", touch.Small, touch.Faint), container.NewHBox(hurry), w.refused,
	))
	return w
}

// see shows the weighing of a layer.
func (w *mixWeigh) see(shot *app.Snapshot, l *model.LayerPlan) {
	if l == nil || !l.Mix.Ready {
		w.plan, w.root.Objects = nil, nil
		w.root.Refresh()
		return
	}
	if len(w.root.Objects) == 0 {
		w.root.Add(w.card)
	}
	if w.plan != nil && w.plan.ID != l.ID {
		w.afresh = false
		w.reading.SetText("")
		w.said.SetText("")
	}
	w.plan = l
	w.cupful = shot.Project.InCup(l.ID)
	if w.afresh || !w.cupful.Begun {
		w.cupful = model.InCup{Cup: shot.Project.Mixing.Cup.Value, Gross: shot.Project.Mixing.Cup.Value}
	}
	w.seeMix(shot, l)
	w.reading.SetUnit(unitOf(touch.Mass, shot.Project.Style))
	w.seeLadder(shot)
	w.weigh()
}

// seeMix chooses what is weighed: the mix of the layer, or where it takes several
// cups the next of them.
func (w *mixWeigh) seeMix(shot *app.Snapshot, l *model.LayerPlan) {
	w.mix = l.Mix
	w.which = ""
	if cups := severalCups(shot, l); cups != nil {
		of := len(cups.Batches)
		at := min(shot.Project.CupAtScale(l.ID, w.afresh), of-1)
		w.mix = l.Mix.ForCup(&cups.Batches[at])
		w.which = fmt.Sprintf(", cup %d of %d", at+1, of)
	}
	w.card.SetTitle("At the scale" + w.which)
}

// seeLadder lists what the scale should read, step by step.
func (w *mixWeigh) seeLadder(shot *app.Snapshot) {
	m, s := &w.mix, shot.Project.Style
	w.ladder.Objects = nil
	row := func(tone touch.Tone, cells ...string) {
		line := container.NewGridWithColumns(3)
		for i, text := range cells {
			t := touch.NewLine(text, touch.Strong, tone)
			if i > 0 {
				t.Align = fyne.TextAlignTrailing
			}
			line.Add(t)
		}
		w.ladder.Add(line)
	}
	planned := ""
	if w.cupful.Begun { // what is in may be something else
		planned = "as planned"
	}
	row(touch.Faint, planned, "goes in", "scale reads")
	for i, r := range m.Ladder(w.cupful.Cup) {
		add := "+" + r.Adds(s, m.Step)
		if i == 0 {
			add = ""
		}
		row(touch.Ink, brief(capitalised(r.What), 16), add, s.MassTo(r.Gross, m.Step))
	}
	w.ladder.Refresh()
}

// weigh shows what the reading in the entry comes to, or where none is there
// what was kept last.
func (w *mixWeigh) weigh() {
	if w.plan == nil {
		return
	}
	shot := &w.page.shot
	s, m := shot.Project.Style, &w.mix
	at := w.cupful.Gross
	text := w.text()
	problem := ""
	if text != "" {
		got, err := s.TakeMass(text)
		if err != nil {
			problem = err.Error()
		} else {
			at = got.Value
		}
	}
	w.reading.SetProblem(problem)
	w.seeCup(shot)
	w.aim = m.Aim(w.cupful, at, s)
	level := map[model.AimState]touch.Level{model.AimFar: touch.Note, model.AimNear: touch.Check, model.AimThere: touch.Stop, model.AimOver: touch.Stop}[w.aim.State]
	word, what, should := capitalised(string(w.aim.State)), "of "+w.aim.What+" to go", "; the scale should read %s"
	p := look.Current()
	w.ground.FillColor, w.ground.StrokeColor, w.ground.StrokeWidth = p.Panel, p.Line, 1
	switch w.aim.State {
	case model.AimNear:
		w.ground.FillColor, w.ground.StrokeWidth = p.Press, 4
	case model.AimThere:
		w.ground.StrokeColor, w.ground.StrokeWidth = p.Ink, 8
		what, should = "to go: "+w.aim.What+" is in", "; the scale reads %s"
	case model.AimOver:
		w.ground.StrokeColor, w.ground.StrokeWidth = p.Stop, 8
		what, should = "of "+w.aim.What+" over", "; the scale should have read %s"
	}
	if w.aim.What == "" {
		level, word = touch.Note, "All is in"
		w.togo.set(s.MassTo(w.cupful.A+w.cupful.B, m.Step))
		w.until.SetText("of A and B: scrape the walls and mix.")
	} else {
		w.togo.set(w.aim.Shown(s))
		w.until.SetText(what + fmt.Sprintf(should, s.MassTo(w.aim.Until, m.Step)))
	}
	w.sign.SetLevel(level)
	w.word.SetText(word)
	w.ground.Refresh()
	w.why.SetText(w.aim.Why)
	w.keep.Hidden = w.aim.Kind == ""
	w.keep.SetLabel(w.keepWords(s, at))
	if w.mend.late {
		w.ground.StrokeColor, w.ground.StrokeWidth = p.Stop, 8
		w.sign.SetLevel(touch.Stop)
		w.word.SetText("Bin it")
		w.togo.set("")
		w.until.SetText("It is too late to mend this cup.")
		w.keep.Hidden, w.again.Hidden = false, true // another cup is what comes next
		w.keep.SetLabel(w.again.Label)
	}
	w.root.Refresh()
}

// keepWords says what is kept at a reading: that a part is in, or how much was
// added of it to mend the mix.
func (w *mixWeigh) keepWords(s unit.Style, reading unit.Mass) string {
	if r, off := w.mix.Rescue(w.cupful); off {
		added := r.Add
		if reading > w.cupful.Gross {
			added = reading - w.cupful.Gross
		}
		return fmt.Sprintf("Keep it: the %s of %s are in", s.MassTo(added, w.mix.Step), r.Part)
	}
	return "Keep it: " + w.aim.What + " is in"
}

// text is what stands in the entry of the scale.
func (w *mixWeigh) text() string { return strings.TrimSpace(w.reading.Text()) }

// seeCup says what is in the cup, and how far off its ratio.
func (w *mixWeigh) seeCup(shot *app.Snapshot) {
	c, s, m := w.cupful, shot.Project.Style, &w.mix
	w.again.Hidden, w.back.Hidden = !c.Begun, c.Last == ""
	words := ""
	r, mends := m.Rescue(c)
	switch {
	case c.HasB:
		words = fmt.Sprintf("In the cup: %s of A and %s of B.", s.MassTo(c.A, m.Step), s.MassTo(c.B, m.Step))
		off := m.OffRatio(c)
		if !mends { // else the mending begins with it
			words += " " + off.Signed() + "."
		}
		words += " " + off.Words()
	case c.Begun:
		words = fmt.Sprintf("In the cup: %s of A.", s.MassTo(c.A, m.Step))
	}
	w.inCup.SetText(words)
	w.mend.see(shot, w.plan, r, mends)
}

// act is what the large button does: it keeps the reading, or begins another cup
// where this one is lost.
func (w *mixWeigh) act() {
	if w.mend.late {
		w.begin()
		return
	}
	w.record()
}

// record keeps the reading in the journal.
func (w *mixWeigh) record() {
	text := w.text()
	if text == "" {
		w.said.SetText("Type what the scale reads first, cup and all.")
		w.page.in.lead(scalePath)
		return
	}
	err := w.page.desk.session.AddWeighed(w.plan.ID, w.aim.Kind, text, w.afresh)
	w.said.SetText(problemWords(err))
	if err == nil {
		w.afresh = false
		w.reading.SetText("")
	}
}

// refuse says why more hardener hurries nothing, or stops saying it.
func (w *mixWeigh) refuse() {
	if len(w.refused.Objects) > 0 {
		w.refused.RemoveAll()
	} else {
		w.refused.Add(container.NewBorder(nil, nil, container.NewVBox(touch.NewSign(touch.Stop, 26)), nil, touch.NewText(model.NoMoreHardener, touch.Body, touch.Ink)))
	}
	w.root.Refresh()
}

// begin turns to another cup; what was kept of the last one stays in the
// journal.
func (w *mixWeigh) begin() {
	w.afresh = true
	w.reading.SetText("")
	w.said.SetText("")
	w.page.see(w.page.shot)
}

// takeBack takes the last reading back by a further entry.
func (w *mixWeigh) takeBack() {
	w.said.SetText(problemWords(w.page.desk.session.Withdraw(w.cupful.Last)))
}
