package views

import (
	"path"

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

// The views of the mold.
const (
	moldFromAbove = "plan"
	moldInSection = "section"
	moldBoth      = "both"
	moldCurve     = "curve"
)

// moldDrawing is the drawing side of the window: the mold from above, in
// section, or its fill curve.
type moldDrawing struct {
	page          *moldPage
	root          *fyne.Container
	area          *fyne.Container
	measuring     *measuring    // until there is something to draw
	few, all      *touch.Choice // without and with both drawings at once
	plan, section *drawing.Canvas
	curve         *drawing.Picture
	foot          *touch.Text
	how           *fyne.Container // figures that open how they came about
	out           *touch.Button   // saves what is shown as a drawing
	reach         *moldReach
	mode          string
	mold          model.Mold // as it stands while it is being measured
	picked        bool       // the maker chose the view; else it follows the room
}

func newMoldDrawing(p *moldPage) *moldDrawing {
	d := &moldDrawing{page: p, mode: moldFromAbove}
	above, section := touch.Option{ID: moldFromAbove, Label: "From above"}, touch.Option{ID: moldInSection, Label: "Section"}
	both, curve := touch.Option{ID: moldBoth, Label: "Both"}, touch.Option{ID: moldCurve, Label: "Fill curve"}
	d.few = touch.NewChoice([]touch.Option{above, section, curve}, d.mode, d.pick)
	d.all = touch.NewChoice([]touch.Option{both, above, section, curve}, moldBoth, d.pick)
	d.all.Hide()
	d.out = touch.NewButton("Drawing (SVG)", d.save)
	st := drawing.Style{Palette: p.desk.palette(), Length: unit.Style{}.Length, Live: true}
	empty := model.Plan{}
	d.plan = drawing.NewCanvas(p.desk.fonts, drawing.PlanScene{Plan: &empty, Style: st}, st)
	d.section = drawing.NewCanvas(p.desk.fonts, drawing.SectionScene{Plan: &empty, Style: st}, st)
	d.curve = drawing.NewPicture(p.desk.fonts, fyne.NewSize(260, 200), st.Palette.Ground, nil)
	d.plan.OnSelect = p.selectPiece
	d.plan.OnMovePiece, d.plan.OnTurnPiece, d.plan.OnCut = d.move, d.turn, d.cut
	d.section.OnSelect, d.section.OnDragLevel = d.pickInSection, d.level
	d.foot = touch.NewText("", touch.Body, touch.Ink)
	d.how = container.NewHBox()
	d.area = container.New(&moldArea{d}, d.plan, d.section, d.curve)
	d.measuring = newMeasuring(p.desk, nil)
	p.in.onFocus = d.showMeasure
	bar := container.New(layout.NewCustomPaddedLayout(0, look.Gap, 14, 0), container.NewBorder(nil, nil, container.NewHBox(d.few, d.all), d.out))
	d.reach = newMoldReach(p.in.form)
	d.reach.root.Hide()
	foot := container.New(layout.NewCustomPaddedLayout(4, 6, 16, 8), container.NewVBox(d.reach.root, container.NewBorder(nil, nil, nil, d.how, d.foot)))
	d.root = asRead(bar, container.NewStack(d.area, d.measuring.root), foot)
	return d
}

// pick shows the view that the maker chose.
func (d *moldDrawing) pick(id string) {
	d.mode, d.picked = id, true
	d.reach.root.Hidden = id != moldCurve || d.area.Hidden
	d.root.Refresh()
	d.area.Refresh()
}

// save saves the drawings that are shown, true to scale: from above, the section,
// or both, which the fill curve stands for too.
func (d *moldDrawing) save() {
	d.page.desk.saveDrawing(moldKey, d.plan.Visible() || !d.section.Visible(), d.section.Visible() || !d.plan.Visible())
}

// whole shows all of another project's mold.
func (d *moldDrawing) whole() {
	d.plan.ShowWhole()
	d.section.ShowWhole()
}

// see draws a snapshot.
func (d *moldDrawing) see(shot *app.Snapshot) {
	plan := shot.Plan
	ready := len(plan.Drawing.Cavities) > 0
	d.area.Hidden, d.measuring.root.Hidden, d.out.Hidden = !ready, ready, !ready
	d.howSee(shot)
	d.reach.root.Hidden = d.mode != moldCurve || !ready
	d.reach.see(d.page.in.form, shot)
	if !ready {
		d.measuring.guide.SetText(moldGuide(shot))
		d.mold = shot.Project.Mold
		d.measuring.picture.Hidden = !shot.Open
		d.showMeasure()
		d.foot.SetText("")
		return
	}
	style := shot.Project.Style
	inches := style.LengthUnit() == unit.InInches
	grain := unit.Millimetre / 2
	if inches {
		grain = unit.Inch / 32
	}
	d.plan.Grain, d.section.Grain = grain, grain
	st := drawing.Style{Palette: d.page.desk.palette(), Length: style.Length, Inches: inches, Live: true}
	d.plan.SetScene(drawing.PlanScene{Plan: &plan, Mold: shot.Project.Mold, Style: st, Piece: d.page.piece}, st)
	held := d.page.layer
	if held == "" {
		held = d.page.piece
	}
	d.section.SetScene(drawing.SectionScene{Plan: &plan, Style: st, Layer: held, Note: func(_ string, level unit.Length) string {
		if plan.Drawing.Fill == nil {
			return ""
		}
		return style.Volume(plan.Drawing.Fill.Below(level)) + " of resin up to here"
	}}, st)
	chart := moldChart(&plan, style)
	d.curve.Set(st.Palette.Ground, func(s drawing.Surface) { chart.Paint(s, st) })
	d.foot.SetText(moldMore(&plan, style))
	d.area.Refresh()
}

// showMeasure draws where the sizes of the mold are measured, as long as there is
// nothing to draw; the one that is being entered stands out.
func (d *moldDrawing) showMeasure() {
	if !d.measuring.root.Hidden {
		d.measuring.show(&d.mold, path.Base(d.page.in.focused))
	}
}

// moldGuide says what the drawing waits for.
func moldGuide(shot *app.Snapshot) string {
	if !shot.Open {
		return openFirst
	}
	return "Measure the mold as it stands, put together and lined: its inside sizes at the rim or at the floor, and its depth. Where the walls lean, give the angle or the sizes at the other end. Then it is drawn here to scale."
}

// moldOnPiece makes a change to one piece.
func moldOnPiece(id string, change func(*model.Piece) error) func(*model.Project) error {
	return func(p *model.Project) error {
		if w := p.Piece(id); w != nil {
			return change(w)
		}
		return errGone
	}
}

// pieceName is what a piece is called.
func (d *moldDrawing) pieceName(id string) string {
	name, _ := model.Show(&d.page.shot.Project, "pieces/"+id+"/name")
	return name
}

func (d *moldDrawing) move(id string, dx, dy unit.Length, done bool) {
	d.page.in.drag("Move "+d.pieceName(id), "move "+id, done, moldOnPiece(id, func(w *model.Piece) error {
		if dx == 0 && dy == 0 && done {
			return app.ErrSame
		}
		w.X, w.Y = w.X+dx, w.Y+dy
		return nil
	}))
}

func (d *moldDrawing) turn(id string, by unit.Angle, done bool) {
	d.page.in.drag("Turn "+d.pieceName(id), "turn "+id, done, moldOnPiece(id, func(w *model.Piece) error {
		if by == 0 && done {
			return app.ErrSame
		}
		w.Turn += by
		return nil
	}))
}

func (d *moldDrawing) cut(x unit.Length, done bool) {
	d.page.in.drag("Section line", "cut", done, func(p *model.Project) error {
		p.Cut = unit.Dim{Value: x, Written: p.Style.Length(x)}
		return nil
	})
}

func (d *moldDrawing) level(layer string, level unit.Length, done bool) {
	name := "layer"
	if l, ok := d.page.shot.Layer(layer); ok {
		name = l.Name
	}
	d.page.in.drag("Height of "+name, "level "+layer, done, func(p *model.Project) error {
		return model.SetLevel(p, layer, level)
	})
}

// pickInSection selects a piece of wood, or a layer.
func (d *moldDrawing) pickInSection(id string) {
	if _, ok := d.page.shot.Layer(id); ok || id == "" {
		d.page.layer = id
		return
	}
	d.page.layer = ""
	d.page.selectPiece(id)
}

// moldArea lays the views out. Both drawings stand below each other where there
// is room to read them; where there is not, that is not offered.
type moldArea struct{ d *moldDrawing }

// bothRoom is the height from which both drawings can be read below each other.
const bothRoom = 600

// MinSize is the least in which one view can be read with its dimensions.
func (a *moldArea) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(260, 280) }

// Layout gives the views that are shown their shares of the height.
func (a *moldArea) Layout(o []fyne.CanvasObject, size fyne.Size) {
	shares := a.d.shares(size.Height >= bothRoom)
	y := float32(0)
	for i, part := range shares {
		if part == 0 {
			o[i].Hide()
			continue
		}
		o[i].Move(fyne.NewPos(0, y))
		o[i].Resize(fyne.NewSize(size.Width, size.Height*part))
		o[i].Show()
		y += size.Height * part
	}
}

// shares gives the parts of the height that the plan, the section and the curve
// have, and offers the views that there is room for.
func (d *moldDrawing) shares(roomy bool) [3]float32 {
	mode := d.mode
	switch {
	case roomy && !d.picked:
		mode = moldBoth
	case !roomy && mode == moldBoth:
		mode = moldFromAbove
	}
	if roomy == d.all.Hidden {
		d.all.Hidden, d.few.Hidden = !roomy, roomy
		d.all.Refresh()
		d.few.Refresh()
	}
	d.all.SetChosen(mode)
	if mode != moldBoth {
		d.few.SetChosen(mode)
	}
	switch mode {
	case moldInSection:
		return [3]float32{0, 1, 0}
	case moldBoth:
		return [3]float32{0.6, 0.4, 0}
	case moldCurve:
		return [3]float32{0, 0, 1}
	}
	return [3]float32{1, 0, 0}
}
