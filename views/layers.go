package views

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/model/unit"
	"meniscus/views/drawing"
	"meniscus/views/touch"
)

// The parts of the window Layers, one shown at a time below the list of pours.
const (
	layersPour   = "pour"
	layersHeat   = "heat"
	layersAmount = "amount"
	layersSheet  = "sheet"
)

// layersPage is the window Layers: how deep, in how many pours, of what.
type layersPage struct {
	*cards
	desk  *Desk
	frame *frame
	shot  app.Snapshot

	canvas *drawing.Canvas
	unseen *measuring    // in its place while the mold is not measured
	out    *touch.Button // saves the section as a drawing
	table  *layersTable
	heat   *heatStage
	panel  *heatPanel
	left   *fyne.Container
	list   *layersList
	tabs   *touch.Choice
	body   *pane
	opened *workingPanel
	said   *touch.Text // why something could not be done
	tab    string
	layer  string // chosen, as long as there is one of that ID
	viewed string // data sheet that is shown, else that of the layer
	lead   string // path of the input to lead to once it is there
}

// shotOf is a snapshot with the layer that is chosen in it.
type shotOf struct {
	*app.Snapshot
	layer *model.LayerPlan // nil while no pour is planned
}

func newLayers(d *Desk, _ fyne.Window) page {
	p := &layersPage{cards: newCards(newInputs(d, layersKey)), desk: d, tab: layersPour}
	p.canvas = drawing.NewCanvas(d.fonts, drawing.SectionScene{Plan: &model.Plan{}}, drawing.Style{})
	p.canvas.OnSelect = p.choose
	p.canvas.OnDragLevel = p.drag
	p.unseen = newMeasuring(d, container.NewHBox(touch.NewButton("Measure the mold", func() { d.goTo(model.Finding{Field: "mold/depth"}) })))
	p.table = newLayersTable()
	p.list = newLayersList(p)
	p.said = touch.NewText("", touch.Body, touch.StopTone)
	p.tabs = touch.NewChoice([]touch.Option{
		{ID: layersPour, Label: "Pour"}, {ID: layersHeat, Label: "Heat"}, {ID: layersAmount, Label: "Amount"}, {ID: layersSheet, Label: "Data sheet"},
	}, p.tab, func(id string) {
		p.in.form.CommitAll()
		p.open(id)
	})
	p.body = newPane(p.in)
	p.scroll = touch.NewScroll(inset(stack(p.list.root, p.said, p.tabs, p.body.root)))
	p.opened = newWorkingPanel(d)
	p.heat, p.panel = newHeatStage(p), newHeatPanel(p)
	p.out = touch.NewButton("Drawing (SVG)", func() { d.saveDrawing(layersKey, false, true) })
	p.left = container.New(&belowSection{p}, container.NewStack(p.canvas, p.unseen.root, container.New(layout.NewCustomPaddedLayout(0, 8, 0, 12), container.NewVBox(layout.NewSpacer(), container.NewHBox(layout.NewSpacer(), p.out)))), p.table.root, p.heat.root)
	p.frame = newFrame(d, "How deep, in how many pours, of what?", p.left, p.opened.over(p.scroll), p.in, model.OfLayers)
	p.in.pad.SetFolded(true)
	return p
}

func (p *layersPage) content() fyne.CanvasObject { return p.frame.root }

func (p *layersPage) part() string { return p.tabs.Words() }

func (p *layersPage) commit() { p.in.form.CommitAll() }

func (p *layersPage) tick(now time.Time) { p.heat.tick(now) }

// see redraws everything from a snapshot.
func (p *layersPage) see(shot app.Snapshot) {
	p.shot = shot
	s := &shotOf{Snapshot: &p.shot, layer: p.chosen()}
	p.canvas.Grain = unit.Graduation(shot.Project.Style.LengthGrain())
	if shot.Project.Style.LengthUnit() != unit.InInches {
		p.canvas.Grain = unit.Millimetre / 2
	}
	p.colour(nil)
	p.table.see(s)
	p.below(s)
	p.list.see(s)
	p.build(s)
	if p.lead != "" && p.in.lead(p.lead) {
		p.lead = ""
	}
	p.cards.see(&p.shot)
	p.opened.see(&p.shot)
	p.frame.see(&p.shot)
	p.frame.setAnswer(layersAnswer(&p.shot))
}

// colour draws the section, its resin coloured by what is in it or, for nil, by
// its tint.
func (p *layersPage) colour(heat *drawing.Heat) {
	style := sectionStyle(p.desk, &p.shot)
	id := ""
	if l := p.chosen(); l != nil {
		id = l.ID
	}
	p.canvas.SetScene(drawing.SectionScene{Plan: &p.shot.Plan, Style: style, Layer: id, Note: p.note, Heat: heat}, style)
}

// below shows what stands below the section: the table of the pours, or the
// heat's time and course.
func (p *layersPage) below(s *shotOf) {
	hot := p.tab == layersHeat
	turned := p.heat.root.Hidden == hot
	drawn := len(s.Plan.Drawing.Section.Cavity) > 0
	p.out.Hidden = hot || !drawn
	p.canvas.Hidden, p.unseen.root.Hidden = !drawn, drawn
	if !drawn {
		p.unseen.guide.SetText(layersGuide(s.Snapshot))
		for _, o := range []fyne.CanvasObject{p.unseen.picture, p.unseen.act} {
			showIf(o, s.Open)
		}
		p.unseen.show(&s.Project.Mold, "")
	}
	p.heat.root.Hidden, p.table.root.Hidden = !hot, hot || len(s.Plan.Layers) == 0
	if turned {
		p.left.Refresh()
	}
	if hot {
		p.heat.see(s)
	}
}

// live has something shown with the snapshot that is shown and every further one.
func (p *layersPage) live(show func(*shotOf)) {
	p.followFrom(&p.shot, func(shot *app.Snapshot) { show(&shotOf{Snapshot: shot, layer: p.chosen()}) })
}

// chosen is the plan of the chosen layer, or of the topmost one.
func (p *layersPage) chosen() *model.LayerPlan {
	list := p.shot.Plan.Layers
	for i := range list {
		if list[i].ID == p.layer {
			return &list[i]
		}
	}
	if len(list) == 0 {
		return nil
	}
	return &list[len(list)-1]
}

// choose shows another layer; a piece of wood in the drawing chooses none.
func (p *layersPage) choose(id string) {
	for _, l := range p.shot.Plan.Layers {
		if l.ID == id && id != p.layer {
			p.in.form.CommitAll()
			p.opened.hide()
			p.layer, p.viewed = id, ""
			p.said.SetText("")
			p.see(p.shot)
			return
		}
	}
}

// open shows another part of the window.
func (p *layersPage) open(tab string) {
	p.opened.hide()
	p.tab = tab
	p.tabs.SetChosen(tab)
	p.see(p.shot)
}

// build builds the part that is open for the layer that is chosen.
func (p *layersPage) build(s *shotOf) {
	key := []string{p.tab}
	layer, sheet := "", ""
	if s.layer != nil {
		layer, sheet = s.layer.ID, s.layer.Sheet
	}
	if s.Project.Sheet(p.viewed) != nil {
		sheet = p.viewed
	}
	switch p.tab {
	case layersPour:
		key = append(key, layer)
		if i := s.Project.LayerIndex(layer); i >= 0 {
			for _, a := range s.Project.Layers[i].Additives {
				key = append(key, a.ID)
			}
		}
	case layersHeat:
		key = append(key, layer, heatKey(s))
	case layersAmount:
		key = append(key, layer, amountKey(s))
	case layersSheet:
		key = append(key, sheet, layer)
		for _, o := range sheetOptions(s.Snapshot) {
			key = append(key, o.ID)
		}
	}
	built := p.body.show(strings.Join(key, "|"), func() fyne.CanvasObject {
		p.cards.clear()
		switch {
		case p.tab == layersSheet && (layer != "" || sheet != ""):
			return p.sheet(layer, sheet)
		case layer == "":
			return stack(
				touch.NewText("Add the first pour above. A pour is what you mix and pour in one go. Its depth is measured from the layer below it, or the floor of the mold, up to its own surface, in the middle; its level from the floor up.", touch.Body, touch.Faint),
				newMethod(p.desk, drawing.MethodLayer, methodAmong))
		case p.tab == layersHeat:
			return p.panel.build(s)
		case p.tab == layersAmount:
			return p.amount(s)
		}
		return p.pour(s)
	})
	if built {
		p.scroll.Refresh() // its new inputs learn where they stand
	}
}

// drag follows a finger that holds the top of a layer.
func (p *layersPage) drag(layer string, level unit.Length, done bool) {
	if done {
		p.layer = layer
	}
	p.in.drag("Level of "+layerName(p.desk.session, layer), "", done, func(m *model.Project) error {
		return model.SetLevel(m, layer, level)
	})
}

// note says what a level would take while it is dragged.
func (p *layersPage) note(layer string, level unit.Length) string {
	v, m := p.shot.Plan.Room(layer, level)
	if v <= 0 {
		return ""
	}
	return p.shot.Project.Style.Volume(v) + ", " + p.shot.Project.Style.Mass(m)
}

// kept shows that only the disk has caught up.
func (p *layersPage) kept(shot *app.Snapshot) { p.frame.kept(shot) }

// focus leads to the input of a field: it chooses the layer and the part of
// the window first.
func (p *layersPage) focus(field string) bool {
	parts := strings.Split(field, "/")
	switch parts[0] {
	case "sheets":
		p.viewed = ""
		if len(parts) > 1 {
			p.viewed = parts[1]
		}
		p.open(layersSheet)
	case "mixing":
		p.open(layersAmount)
	case "layers":
		if len(parts) > 1 {
			p.choose(parts[1])
		}
		p.open(layersPour)
	default:
		return false
	}
	if parts[0] == "mixing" { // which has its inputs in Mixing too
		return p.in.lead(field)
	}
	return p.cards.focus(field)
}

// view shows a data sheet, whichever layer is of it.
func (p *layersPage) view(sheet string) {
	p.in.form.CommitAll()
	p.viewed = sheet
	p.see(p.shot)
}

// sectionStyle dresses the section in the window's light and the project's
// units.
func sectionStyle(d *Desk, shot *app.Snapshot) drawing.Style {
	s := shot.Project.Style
	return drawing.Style{Palette: d.palette(), Length: s.Length, Inches: s.LengthUnit() == unit.InInches, Live: true}
}
