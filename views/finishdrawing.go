package views

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/shape"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// finishDrawing is the drawing side of the window: the casting from above with
// what is cut away and screwed on, or in section with what comes off its faces.
type finishDrawing struct {
	page          *finishPage
	root          *fyne.Container
	views         *touch.Choice
	plan, section *drawing.Canvas
	guide         *touch.Text
	unseen        *fyne.Container // guide and how a casting is measured, while there is none to draw
	foot          *touch.Text
	out           *touch.Button // saves what is shown as a drawing
	mode          string
	picked        bool // the maker chose the view; else it follows the tab
}

func newFinishDrawing(p *finishPage) *finishDrawing {
	d := &finishDrawing{page: p, mode: moldFromAbove}
	d.views = touch.NewChoice([]touch.Option{{ID: moldFromAbove, Label: "From above"}, {ID: moldInSection, Label: "Section"}}, d.mode, func(id string) {
		d.mode, d.picked = id, true
		d.see(&p.shot)
	})
	st := drawing.Style{Palette: p.desk.palette(), Length: unit.Style{}.Length, Live: true}
	empty := model.Plan{}
	d.plan = drawing.NewCanvas(p.desk.fonts, drawing.FinishScene{Plan: &empty, Style: st}, st)
	d.section = drawing.NewCanvas(p.desk.fonts, drawing.FinishSection{Plan: &empty, Style: st}, st)
	d.plan.OnSelect, d.plan.OnMovePiece, d.plan.OnTurnPiece = p.selectMount, d.move, d.turn
	d.out = touch.NewButton("Drawing (SVG)", func() { p.desk.saveFinishDrawing(d.mode == moldInSection) })
	d.guide = touch.NewText("", touch.Body, touch.Faint)
	d.foot = touch.NewText("", touch.Body, touch.Ink)
	bar := container.New(layout.NewCustomPaddedLayout(0, look.Gap, 14, 0), container.NewBorder(nil, nil, container.NewHBox(d.views), d.out))
	foot := container.New(layout.NewCustomPaddedLayout(4, 6, 16, 8), d.foot)
	d.unseen = container.New(layout.NewCustomPaddedLayout(12, 0, 18, 18), asRead(d.guide, newMethod(p.desk, drawing.MethodCasting, methodAlone), nil))
	free := canvas.NewRectangle(color.Transparent) // in which the drawing can be read with its dimensions
	free.SetMinSize(fyne.NewSize(260, 280))
	d.root = asRead(bar, container.NewStack(free, d.plan, d.section, d.unseen), foot)
	return d
}

// whole shows all of another project's casting.
func (d *finishDrawing) whole() {
	d.plan.ShowWhole()
	d.section.ShowWhole()
}

// see draws a snapshot.
func (d *finishDrawing) see(shot *app.Snapshot) {
	if !d.picked {
		d.mode = moldFromAbove
		if d.page.tabs.at() == finishFlatten {
			d.mode = moldInSection
		}
	}
	d.views.SetChosen(d.mode)
	plan := shot.Plan
	style := shot.Project.Style
	inches := style.LengthUnit() == unit.InInches
	st := drawing.Style{Palette: d.page.desk.palette(), Length: style.Length, Inches: inches, Live: true}
	scene := drawing.FinishScene{Plan: &plan, Mold: shot.Project.Mold, Mounts: shot.Project.Finish.Mounts, Style: st, Mount: d.page.mount}
	ready := shot.Open && scene.Ready()
	d.plan.Hidden, d.section.Hidden, d.unseen.Hidden = !ready || d.mode != moldFromAbove, !ready || d.mode != moldInSection, ready
	d.out.Hidden = !ready
	d.foot.SetText("")
	if !ready {
		d.guide.SetText(finishGuide(shot))
		d.root.Refresh()
		return
	}
	d.plan.Grain = unit.Millimetre / 2
	if inches {
		d.plan.Grain = unit.Inch / 32
	}
	d.plan.SetScene(scene, st)
	d.section.SetScene(drawing.FinishSection{Plan: &plan, Style: st, Fine: func(l unit.Length) string { return model.FineLength(style, l) }}, st)
	d.foot.SetText(finishFoot(shot, d.mode))
	d.root.Refresh()
}

// finishGuide says what the drawing waits for.
func finishGuide(shot *app.Snapshot) string {
	if !shot.Open {
		return openFirst
	}
	return poursFirst + " Then the casting is drawn here to scale: what the saw and the lean of the walls take off its edges, what comes off its faces, and where handles and feet go."
}

// finishFoot says below the drawing what cannot be seen in it.
func finishFoot(shot *app.Snapshot, mode string) string {
	switch {
	case mode == moldInSection:
		return "Cut at the section line of the mold's drawing. Dashed is as cast, hatched comes off."
	case len(shot.Project.Finish.Mounts) > 0:
		return "Drag a mount to where it goes. Inserts are drawn faint: their places are not known."
	case shot.Project.Mold.Cavities() > 1:
		return "One casting is drawn; the others are like it."
	}
	if shot.Plan.Finish.Trim.Lost < 1e-4 {
		return "Nothing comes off the edges."
	}
	return "Dashed is as cast, the heavy line is finished."
}

func (d *finishDrawing) move(id string, dx, dy unit.Length, done bool) {
	d.page.in.drag("Move "+d.name(id), "move "+id, done, func(p *model.Project) error {
		s := p.Mount(id)
		switch {
		case s == nil:
			return errGone
		case dx == 0 && dy == 0 && done:
			return app.ErrSame
		}
		p.MoveMount(id, shape.Point{X: float64(s.X + dx), Y: float64(s.Y + dy)})
		return nil
	})
}

func (d *finishDrawing) turn(id string, by unit.Angle, done bool) {
	d.page.in.drag("Turn "+d.name(id), "turn "+id, done, func(p *model.Project) error {
		switch {
		case p.Mount(id) == nil:
			return errGone
		case by == 0 && done:
			return app.ErrSame
		}
		p.TurnMount(id, by)
		return nil
	})
}

// name is what a mount is called.
func (d *finishDrawing) name(id string) string {
	if s := d.page.shot.Project.Mount(id); s != nil && s.Name != "" {
		return s.Name
	}
	return "mount"
}
