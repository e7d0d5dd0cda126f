package views

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// mixingPage is the window Mixing: how much of each part.
type mixingPage struct {
	desk  *Desk
	in    *inputs
	frame *frame
	shot  app.Snapshot

	numbers *mixNumbers
	entries *mixEntries
	weigh   *mixWeigh
	cups    *mixCups
	volume  *mixVolume
	tint    *mixTint
	day     *mixDay
	air     *mixAir
	bottles *mixBottles
	stir    *mixStir
	list    *mixChecklist
	tabs    *mixTabs
	hot     *hotPanel
	root    fyne.CanvasObject
	working *workingPanel
	layer   string // chosen, as long as there is one of that ID
}

func newMixing(d *Desk, _ fyne.Window) page {
	p := &mixingPage{desk: d, in: newInputs(d, mixingKey)}
	p.weigh = newMixWeigh(p)
	p.cups = newMixCups(p)
	p.bottles = newMixBottles(p)
	p.entries = newMixEntries(p)
	p.working = newWorkingPanel(d)
	p.numbers = newMixNumbers(p)
	p.day, p.air = newMixDay(p), newMixAir(p)
	p.volume, p.tint = newMixVolume(p), newMixTint(p)
	p.hot = newHotPanel(d)
	p.stir, p.list = newMixStir(p), newMixChecklist(p)
	p.tabs = newMixTabs(p,
		mixTab{touch.Option{ID: "day", Label: "Day"}, stack(p.day.root, p.list.root), []mixPart{p.day, p.list}, false},
		mixTab{touch.Option{ID: "amount", Label: "Amount"}, p.entries.root, []mixPart{p.entries, p.bottles}, true},
		mixTab{touch.Option{ID: "tint", Label: "Tint"}, p.tint.root, []mixPart{p.tint}, false},
		mixTab{touch.Option{ID: "weigh", Label: "Weigh"}, stack(p.weigh.root, p.volume.root, p.cups.root), []mixPart{p.weigh, p.volume, p.cups}, false},
		mixTab{touch.Option{ID: "stir", Label: "Stir"}, p.stir.root, []mixPart{p.stir}, false},
		mixTab{touch.Option{ID: "air", Label: "Air"}, p.air.root, []mixPart{p.air}, false},
	)
	p.frame = newFrame(d, "How much of each part?", p.numbers.all, p.working.over(p.tabs.root), p.in, model.OfMixing)
	p.frame.ownNotes = true
	p.frame.offerBench(mixingKey)
	p.root = p.hot.over(p.frame.root)
	p.in.pad.SetFolded(true)
	return p
}

func (p *mixingPage) content() fyne.CanvasObject { return p.root }

func (p *mixingPage) part() string { return p.tabs.words() }

func (p *mixingPage) commit() { p.in.form.CommitAll() }

// tick moves the time of mixing on.
func (p *mixingPage) tick(time.Time) {
	switch p.tabs.at() {
	case "stir":
		p.stir.tick()
	case "weigh":
		p.weigh.mend.tick()
	}
}

// kept shows that only the disk has caught up.
func (p *mixingPage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

func (p *mixingPage) focus(field string) bool {
	if strings.HasPrefix(field, "layers/") {
		p.choose(strings.Split(field, "/")[1])
	}
	if stirredIn(field) {
		p.tabs.turn("tint")
	}
	p.bottles.openFor(field)
	p.volume.openFor(field)
	p.tabs.turnTo(field)
	return p.in.lead(field)
}

func (p *mixingPage) see(shot app.Snapshot) {
	p.shot = shot
	l := p.chosen()
	p.tabs.see(&p.shot, l)
	p.working.see(&p.shot)
	p.hot.see(&p.shot)
	p.numbers.see(&p.shot, l)
	p.frame.see(&p.shot)
	p.frame.setAnswer(mixingAnswer(&p.shot, l))
}

// point gives the focus to a figure that opens its working, once it is painted.
func (p *mixingPage) point() {
	total := p.numbers.total
	canvas := func() fyne.Canvas { return fyne.CurrentApp().Driver().CanvasForObject(total) }
	p.in.once(func() bool { return p.numbers.ready.Visible() && canvas() != nil }, func() { total.Focus() }, mostBreaths)
}

// chosen is the plan of the chosen layer, else of the next to be poured, else
// of the topmost.
func (p *mixingPage) chosen() *model.LayerPlan {
	list := p.shot.Plan.Layers
	if len(list) == 0 {
		return nil
	}
	want := p.layer
	if _, ok := p.shot.Layer(want); !ok {
		next, _ := p.shot.Plan.NextPour()
		want = next.ID
	}
	for i := range list {
		if list[i].ID == want {
			return &list[i]
		}
	}
	return &list[len(list)-1]
}

// choose shows another layer.
func (p *mixingPage) choose(id string) {
	p.in.form.CommitAll()
	p.layer = id
	p.see(p.shot)
}

// mixingAnswer answers the window's question for one layer.
func mixingAnswer(shot *app.Snapshot, l *model.LayerPlan) string {
	switch {
	case l == nil:
		return "No pour is planned yet"
	case !l.Mix.Ready:
		return "Not known yet for " + l.Name
	}
	m, s := &l.Mix, shot.Project.Style
	return fmt.Sprintf("%s for %s: %s of A, %s of B", s.MassTo(m.Total, m.Step), l.Name, s.MassTo(m.A, m.Step), s.MassTo(m.B, m.Step))
}
