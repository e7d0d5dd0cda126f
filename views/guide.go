package views

import (
	"slices"

	"meniscus/app"
	"meniscus/model"
)

// guideStep is one step of the guidance through a demo job.
type guideStep struct {
	try   model.Try
	words string
	key   string // of the window that it leads to; "" where that is any
}

// guideSteps are the steps in the order in which they are best tried.
var guideSteps = []guideStep{
	{model.TryWood, "Touch the wood in the drawing and drag it: the gaps follow.", moldKey},
	{model.TryPour, "Type another height for a pour: drawing and amounts follow.", layersKey},
	{model.TryWorking, "Touch a number with = behind it: it tells how it came about.", mixingKey},
	{model.TryRoom, "Make the room warmer or colder: the times follow.", cureKey},
	{model.TryUndo, "Touch Undo, at the top right: every step can be taken back.", ""},
	{model.TryOwn, "Begin a piece of your own, with the mold in front of you.", notebookKey},
}

// guided is what is kept of the guidance.
type guided struct {
	Away bool        `json:"away,omitempty"` // it was put away
	Done []model.Try `json:"done,omitempty"`
}

// guide leads through what a demo job can be tried with: in the notebook by a list,
// and in the window that a step leads to by that step. It is for demo jobs alone.
type guide struct {
	desk *Desk
	kept guided
	at   int           // the step that was led to, by its number; -1 for none
	in   string        // the window that it is shown in
	last model.Project // as it was on the screen before
}

func newGuide(d *Desk) *guide { return &guide{desk: d, at: -1} }

// on tells whether there is anything to lead through.
func (g *guide) on(shot *app.Snapshot) bool { return shot.Open && shot.Project.Demo && !g.kept.Away }

// done tells whether a step has been tried.
func (g *guide) done(t model.Try) bool { return slices.Contains(g.kept.Done, t) }

// see ticks off what led from the snapshot before to this one.
func (g *guide) see(shot *app.Snapshot) {
	if !g.on(shot) {
		g.at, g.last = -1, model.Project{}
		return
	}
	for _, t := range model.Tried(&g.last, &shot.Project) {
		g.tick(t)
	}
	if shot.Redo != "" && shot.Project.ID == g.last.ID {
		g.tick(model.TryUndo)
	}
	g.last = shot.Project
}

// tick notes that something was tried.
func (g *guide) tick(t model.Try) {
	if g.done(t) {
		return
	}
	g.kept.Done = append(g.kept.Done, t)
	g.desk.remember()
}

// tried is told what changes no project.
func (g *guide) tried(t model.Try) {
	shot := g.desk.session.Snapshot()
	if g.on(&shot) {
		g.tick(t)
		g.show(&shot)
	}
}

// show shows the guidance in all windows as it stands.
func (g *guide) show(shot *app.Snapshot) {
	for _, c := range g.desk.covers {
		c.guide.see(shot)
	}
	if p, ok := g.desk.pages[notebookKey].(*notebookPage); ok {
		p.piece.guide.see(shot)
	}
}

// lead goes to where a step is tried.
func (g *guide) lead(i int) {
	d, step := g.desk, guideSteps[i]
	d.commitAll()
	shot := d.session.Snapshot()
	if step.try == model.TryOwn {
		g.tick(step.try)
		d.newProject()
		return
	}
	key := step.key
	if key == "" {
		if key = g.in; key == "" {
			key = moldKey
		}
	}
	g.at, g.in = i, key
	d.Show(key)
	if field := shot.Project.TryField(step.try); field != "" {
		d.goTo(model.Finding{Field: field})
	} else if p, ok := d.pages[key].(*mixingPage); ok && step.try == model.TryWorking {
		p.point()
	}
	g.show(&shot)
}

// next gives the first step after the one that was led to that is still to be tried,
// from the first again; false where there is none.
func (g *guide) next() (int, bool) {
	for k := range guideSteps {
		if i := (g.at + 1 + k) % len(guideSteps); i != g.at && !g.done(guideSteps[i].try) {
			return i, true
		}
	}
	return 0, false
}

// putAway ends the guidance for good.
func (g *guide) putAway() {
	g.kept.Away, g.at = true, -1
	g.desk.remember()
	shot := g.desk.session.Snapshot()
	g.show(&shot)
}

// guideAgain begins it anew, on a demo job: the one that is open, else one of the
// notebook, else one that is brought in.
func (d *Desk) guideAgain() {
	d.commitAll()
	d.guide.kept, d.guide.at = guided{}, -1
	d.remember()
	shot := d.session.Snapshot()
	d.Show(notebookKey)
	if shot.Open && shot.Project.Demo {
		if p, ok := d.pages[notebookKey].(*notebookPage); ok {
			p.turnTo(p.piece.root)
			p.piece.scroll.SetOffset(0)
		}
		d.guide.show(&shot)
		return
	}
	i := slices.IndexFunc(shot.Cards, func(c model.Card) bool { return c.Demo && !c.Archived })
	switch {
	case i >= 0:
		d.openAt(shot.Cards[i].ID, notebookKey)
	case len(d.demos) > 0:
		d.takeIn(d.demos[0].File, d.demos[0].Name)
	}
}
