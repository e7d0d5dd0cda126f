package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// finishPage is the window Finishing: what comes off the casting, what is
// screwed on and put over it, and what is left.
type finishPage struct {
	desk    *Desk
	in      *inputs
	frame   *frame
	draw    *finishDrawing
	tabs    *pageTabs
	parts   map[string]*finishPart
	working *workingPanel

	shot    app.Snapshot
	project string // ID of the project that the selection is of
	mount   string // ID of the selected mount, or ""
	lead    string // path of the input to lead to once it is there
}

func newFinish(d *Desk, _ fyne.Window) page {
	p := &finishPage{desk: d, in: newInputs(d, finishKey), parts: map[string]*finishPart{}}
	p.working = newWorkingPanel(d)
	p.draw = newFinishDrawing(p)
	var tabs []pageTab
	for _, x := range finishTabs() {
		part := newFinishPart(p, x)
		p.parts[x.id] = part
		tabs = append(tabs, pageTab{touch.Option{ID: x.id, Label: x.label}, part.pane.root})
	}
	p.tabs = newPageTabs(p.in, func() { p.working.hide(); p.shown() }, tabs...)
	for _, part := range p.parts {
		part.tools.scroll = p.tabs.scroll
	}
	p.frame = newFrame(d, "What comes off, and what is left?", p.draw.root, p.working.over(p.tabs.root), p.in, model.OfFinish)
	p.in.pad.SetFolded(true)
	return p
}

func (p *finishPage) content() fyne.CanvasObject { return p.frame.root }

func (p *finishPage) part() string { return p.tabs.words() }

func (p *finishPage) commit() { p.in.form.CommitAll() }

func (p *finishPage) tick(time.Time) {}

// kept shows that only the disk has caught up.
func (p *finishPage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

// planOnly: nothing here hangs on the simulation.
func (*finishPage) planOnly() {}

// see shows a snapshot. While a mount is dragged its project is the one that the
// finger would leave.
func (p *finishPage) see(shot app.Snapshot) {
	p.shot = shot
	if shot.Open && shot.Project.ID != p.project {
		p.project, p.mount = shot.Project.ID, ""
		p.draw.whole()
	}
	if shot.Project.Mount(p.mount) == nil {
		p.mount = ""
		if len(shot.Project.Finish.Mounts) > 0 {
			p.mount = shot.Project.Finish.Mounts[0].ID
		}
	}
	p.frame.see(&p.shot)
	p.frame.setAnswer(finishAnswer(&p.shot))
	p.working.see(&p.shot)
	p.shown()
}

// shown brings the drawing and the tab that is turned to up to date.
func (p *finishPage) shown() {
	p.draw.see(&p.shot)
	p.parts[p.tabs.at()].see(&p.shot)
	if p.lead != "" && p.in.lead(p.lead) {
		p.lead = ""
	}
}

// focus leads to the input of a field, past the tab and the mount that hide it.
func (p *finishPage) focus(field string) bool {
	tab, ok := finishTabOf(field)
	if !ok || !p.shot.Open {
		return false
	}
	if id, ok := mountIn(field); ok && p.shot.Project.Mount(id) != nil {
		p.mount = id
	}
	p.working.hide()
	p.tabs.turn(tab)
	p.shown()
	return p.parts[tab].tools.focus(field)
}

// selectMount makes a mount the one that is shown, and leads to its inputs.
func (p *finishPage) selectMount(id string) {
	p.mount, p.lead = id, ""
	if id != "" {
		p.tabs.turn(finishDrill)
	}
	p.shown()
}

// mountIn gives the ID of the mount that a field belongs to.
func mountIn(field string) (string, bool) {
	rest, ok := strings.CutPrefix(field, "finish/mounts/")
	id, _, _ := strings.Cut(rest, "/")
	return id, ok && id != ""
}

// finishTabOf tells on which tab a field has its input.
func finishTabOf(field string) (string, bool) {
	rest, ok := strings.CutPrefix(field, "finish/")
	if !ok {
		return "", false
	}
	first, _, _ := strings.Cut(rest, "/")
	tab, known := map[string]string{
		"trim": finishTrim, "top": finishFlatten, "bottom": finishFlatten, "minCover": finishFlatten, "thickness": finishFlatten, "flatten": finishFlatten,
		"sand": finishSand, "mounts": finishDrill, "coat": finishCoat, "use": finishUse,
	}[first]
	return tab, known
}

// finishAnswer says the first thing that stops, else what is left.
func finishAnswer(shot *app.Snapshot) string {
	if !shot.Open {
		return "No piece is open"
	}
	for _, f := range shot.Findings(model.OfFinish) {
		if f.Level == model.Stop {
			return f.What
		}
	}
	return shot.Plan.Finish.Answer(shot.Project.Style)
}
