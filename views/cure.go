package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// curePage is the window Cure: when is the next step.
type curePage struct {
	desk  *Desk
	in    *inputs
	frame *frame
	root  fyne.CanvasObject
	shot  app.Snapshot
	timed model.Plan // the plan with the simulation's times
	clock shopClock
	now   time.Time

	left    *bigNumber // the countdown
	what    *touch.Text
	when    *touch.Text
	after   *fyne.Container // how long after its pour, which opens how that came about
	figure  string          // what after shows
	missed  *touch.Text
	also    *cureAlso
	line    *lifeLine
	warmth  *drawing.Picture // where the thermometers go, while no pour is planned
	bench   *cureBench
	notes   *cureNotes
	starts  *cureStarts
	times   *cureTimes
	dates   *cureDates
	journal *cureJournal
	tabs    *pageTabs
	working *workingPanel
	hot     *hotPanel
}

// journalTab is the part of the window Cure with the journal.
const journalTab = "journal"

func newCure(d *Desk, w fyne.Window) page {
	p := &curePage{desk: d, in: newInputs(d, cureKey), now: d.session.Now(), working: newWorkingPanel(d)}
	p.left = newBigNumber(look.Read, mostBig)
	p.what = touch.NewText("", touch.Question, touch.Ink)
	p.when = touch.NewText("", touch.Title, touch.Faint)
	p.after = container.NewHBox()
	p.missed = touch.NewText("", touch.Body, touch.CheckTone)
	p.also = newCureAlso(d)
	p.line = newLifeLine(p)
	p.warmth = newMethod(d, drawing.MethodWarmth, methodAlone)
	p.bench = newCureBench(p)
	p.notes = newCureNotes(p)
	p.starts = newCureStarts(p)
	p.times = newCureTimes(p)
	p.dates = newCureDates(p)
	p.journal = newCureJournal(p, w)
	p.hot = newHotPanel(d)
	left := container.New(layout.NewCustomPaddedLayout(0, 8, 18, 12),
		container.New(layout.NewCustomPaddedVBoxLayout(2), p.left, p.what, p.when, p.after, p.missed, p.also.root, p.warmth, p.line.root, container.New(layout.NewCustomPaddedLayout(look.Gap, 0, 0, 0), p.times.root)))
	p.tabs = newPageTabs(p.in, func() { p.see(p.shot) },
		pageTab{touch.Option{ID: "now", Label: "Now"}, stack(p.bench.root, p.notes.root)},
		pageTab{touch.Option{ID: "dates", Label: "Dates"}, stack(p.starts.root, p.dates.root)},
		pageTab{touch.Option{ID: "shop", Label: "Shop"}, stack(p.room(), p.day())},
		pageTab{touch.Option{ID: journalTab, Label: "Journal"}, p.journal.root},
	)
	p.frame = newFrame(d, "When is the next step?", touch.NewScroll(left), p.working.over(p.tabs.root), p.in, model.OfCure)
	p.frame.offerBench(cureKey)
	p.in.pad.SetFolded(true)
	p.root = p.hot.over(p.journal.photos.over(p.frame.root))
	return p
}

func (p *curePage) content() fyne.CanvasObject { return p.root }

func (p *curePage) part() string { return p.tabs.words() }

func (p *curePage) commit() { p.in.form.CommitAll() }

// kept shows that only the disk has caught up.
func (p *curePage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

func (p *curePage) focus(field string) bool {
	p.working.hide() // it covers the inputs
	p.journal.photos.hide()
	p.tabs.turnTo(field)
	return p.in.lead(field)
}

func (p *curePage) see(shot app.Snapshot) {
	p.shot, p.timed = shot, shot.Timed()
	p.clock.set(shot.Project.Shop.Zone)
	p.now = p.desk.session.Now()
	p.notes.see(&p.shot)
	p.starts.see(&p.shot)
	p.times.see(&p.shot)
	p.line.drawn = time.Time{}
	p.show()
	if p.tabs.at() == journalTab {
		p.journal.see(&p.shot)
	}
	p.working.see(&p.shot)
	p.hot.see(&p.shot)
	p.frame.see(&p.shot)
}

// tick moves the countdown on.
func (p *curePage) tick(now time.Time) {
	p.now = now
	p.show()
	if p.tabs.at() == journalTab {
		p.journal.tick(now)
	}
}

// show tells what the instants of the plan come to now.
func (p *curePage) show() {
	p.bench.see(&p.shot, &p.timed, p.now)
	p.dates.see(&p.shot, p.now)
	p.line.see(&p.timed, p.shot.Project.Shop.Planned, p.now)
	left, what, when, brief := nextWords(&p.timed, &p.clock, p.now)
	p.left.set(left)
	p.left.Hidden = left == ""
	p.what.SetText(what)
	p.when.SetText(when)
	showIf(p.warmth, len(p.timed.Layers) == 0)
	p.showFigure()
	missed := dueWords(&p.timed, p.shot.Project.Style, &p.clock, p.now)
	p.missed.SetText(strings.TrimSpace(missed + "\n" + aheadWords(len(p.shot.Project.Ahead(p.now)))))
	newest := p.desk.session.Snapshot() // of all pieces, also where this one stays as it is
	p.also.see(&newest, p.now)
	p.frame.setAnswer(brief)
}

// stepFigures are the figures that the moments of a pour come from.
var stepFigures = map[model.StepKind]model.Figured{
	model.StepWorkEnds: model.FigWorking, model.StepRecoat: model.FigRecoat, model.StepRecoatEnd: model.FigRecoatEnd,
	model.StepDemold: model.FigDemold, model.StepCured: model.FigFullCure,
}

// showFigure shows how long after its pour the next step comes, as a figure
// that opens its working.
func (p *curePage) showFigure() {
	step, ok := p.timed.NextStep(p.now)
	fig, known := stepFigures[step.Kind]
	of := timeOf(step.Layer, fig)
	if fig == model.FigRecoatEnd && has(&p.shot, figureOf(step.Layer, model.FigRecoat)) {
		of = figureOf(step.Layer, model.FigRecoat)
	}
	words := ""
	if ok && known && has(&p.shot, of) {
		words = p.shot.Project.Style.Span(step.After) + " after the pour"
	}
	if key := words + step.Layer + string(fig); key != p.figure {
		p.figure = key
		p.after.RemoveAll()
		if words != "" {
			p.after.Add(p.working.opens(words, touch.Strong, of))
		}
	}
	p.after.Hidden = words == ""
}

// nextWords tells of the next step: how long it is to it, what it is, when, and
// all that in brief.
func nextWords(plan *model.Plan, c *shopClock, now time.Time) (left, what, when, brief string) {
	if step, ok := plan.NextStep(now); ok {
		what = capitalised(step.Label)
		brief = what + ", " + c.dated(step.Due)
		if step.Typical {
			what += " (from a typical value)"
		}
		return untilWords(step.Due, now), what, c.full(step.Due), brief
	}
	next, planned := plan.NextPour()
	switch {
	case len(plan.Layers) == 0:
		brief = "No pour is planned yet"
		what, when = "Plan a pour first, in Layers", "Meanwhile, under Shop: how warm it is beside the mold by day, and at its coldest at night. Hang a thermometer at the height of the mold, out of sun and draught; one that keeps the lowest is read in the morning."
	case planned && next.ID == plan.Layers[0].ID:
		brief = "Nothing has been poured yet; next, pour " + next.Name
	case planned:
		brief = "Next, pour " + next.Name
	case plan.DemoldUnknown():
		brief = "When it can come out of the mold is not known"
		what, when = brief, model.TryFirst+" The time that its data sheet gives is entered in Layers, under Data sheet."
	default:
		brief = "All steps are done"
	}
	return "", what, when, brief
}

// dueWords tells of steps that have come due and that nothing has overtaken.
func dueWords(plan *model.Plan, style unit.Style, c *shopClock, now time.Time) string {
	words := ""
	for _, s := range plan.Missed(now) {
		if words != "" {
			words += "\n"
		}
		ago := "now"
		if gone := now.Sub(s.Due).Truncate(time.Minute); gone > 0 {
			ago = style.Span(unit.SpanOf(gone)) + " ago"
		}
		words += fmt.Sprintf("Due %s: %s (%s)", ago, s.Label, c.dated(s.Due))
	}
	return words
}

// aheadWords warns of so many entries at a time that the clock has not come to.
func aheadWords(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return "One entry lies ahead of this machine's clock. Check the clock's day and hour: every countdown hangs on it."
	}
	return fmt.Sprintf("%d entries lie ahead of this machine's clock. Check the clock's day and hour: every countdown hangs on it.", n)
}
