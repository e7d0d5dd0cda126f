package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// What is done to a slab.
const (
	slabPhoto = "photo"
	slabLay   = "lay"
)

// slabView is the drawing side of the window while a slab is worked on: its
// photo, in which its outline is traced, or the straightened slab with the
// mold's cavity over it.
type slabView struct {
	page   *moldPage
	root   *fyne.Container
	choice *touch.Choice
	held   *fyne.Container
	trace  *traceView
	lay    *layView
	mode   string
	slab   string // ID of the slab that is worked on, or ""
	added  string // one that is worked on as soon as its plan is there
}

func newSlabView(p *moldPage) *slabView {
	v := &slabView{page: p, mode: slabPhoto}
	v.trace, v.lay = newTraceView(v), newLayView(v)
	v.choice = touch.NewChoice([]touch.Option{{ID: slabPhoto, Label: "Photo"}, {ID: slabLay, Label: "Lay-up"}}, v.mode, v.turn)
	v.held = container.NewStack(v.trace.root)
	bar := container.New(layout.NewCustomPaddedLayout(0, look.Gap, slabBarEdge, slabBarEdge), container.New(&slabBar{v}, v.choice, v.trace.tools))
	v.root = asRead(bar, v.held, nil)
	return v
}

// turn shows the photo or the lay-up, and the inputs that go with it.
func (v *slabView) turn(mode string) {
	v.mode = mode
	v.choice.SetChosen(mode)
	v.held.Objects[0] = v.trace.root
	if mode == slabLay {
		v.held.Objects[0] = v.lay.root
	}
	v.held.Refresh()
	v.trace.tools.Hide()
	v.root.Refresh()
	v.see(&v.page.shot)
	v.page.pane.again()
}

// other forgets what was selected in another project.
func (v *slabView) other() {
	v.slab, v.added = "", ""
	v.settle(&v.page.shot)
	v.trace.other()
	v.lay.other()
}

// settle sees to it that the slab that is worked on is there: the one added last
// once it is, else the first.
func (v *slabView) settle(shot *app.Snapshot) {
	switch p := &shot.Project; {
	case !shot.Open:
	case v.added != "" && p.Slab(v.added) != nil:
		v.slab, v.added = v.added, ""
	case p.Slab(v.slab) != nil:
	case len(p.Slabs) > 0:
		v.slab = p.Slabs[0].ID
	default:
		v.slab = ""
	}
}

// see draws a snapshot.
func (v *slabView) see(shot *app.Snapshot) {
	v.settle(shot)
	if v.mode == slabLay {
		v.lay.see(shot)
		return
	}
	v.trace.see(shot)
}

// lead turns to the slab, and the part of the work, that holds a field below
// slabs: its path without the first name.
func (v *slabView) lead(path []string) {
	v.slab = path[0]
	mode := slabPhoto
	if len(path) > 1 && path[1] == "layups" {
		mode = slabLay
		if len(path) > 2 {
			v.lay.chosen = path[2]
		}
	}
	if mode != v.mode {
		v.turn(mode)
	}
	if mode == slabPhoto {
		v.trace.lead(path[1:])
	}
}

// signature names the structure of the inputs.
func (v *slabView) signature(shot *app.Snapshot) string {
	v.settle(shot)
	if v.mode == slabLay {
		return " " + v.slab + " lay" + v.lay.signature(shot)
	}
	return " " + v.slab + " photo" + v.trace.signature(shot)
}

// pane makes the inputs.
func (v *slabView) pane(m *moldPane, shot *app.Snapshot) fyne.CanvasObject {
	if v.mode == slabLay {
		return v.lay.pane(m, shot)
	}
	return v.trace.pane(m, shot)
}

// question is what the window answers while a slab is worked on.
func (v *slabView) question() string {
	if v.mode == slabLay {
		return "What is cut here, and how much resin does it then take?"
	}
	return "How much wood does the slab show?"
}

// answer tells of the slab in its first line how large it is, or what the place
// that is shown would take, and in its second how sure that is. It always has
// two lines, so that nothing below moves.
func (v *slabView) answer(shot *app.Snapshot) string {
	s, of := shot.Project.Style, facePlan(shot.Plan.Slab(v.slab), model.FaceUpper)
	if v.mode == slabLay {
		lay := v.lay.shown()
		switch {
		case of == nil || len(of.Region) == 0:
			return "The slab is not traced yet\nThat is done under Photo"
		case shot.Plan.Mold.Capacity.Value <= 0:
			return "The mold is not measured yet\nThat is done under Mold"
		case lay == nil:
			return "No place is tried yet\nTry one to see what it gives"
		case lay.Pieces == 0:
			return "No wood in the cavity here\nMove it over the slab"
		}
		return layResin(lay, s) + " of resin\nWood " + layShare(lay.Share) + " of the cavity"
	}
	if v.trace.face == model.FaceUnder {
		of = facePlan(shot.Plan.Slab(v.slab), v.trace.face)
	}
	name := "The slab"
	if of := shot.Project.Slab(v.slab); of != nil && of.Name != "" {
		name = capitalised(brief(of.Name, 26))
	}
	switch {
	case of == nil || !of.Solved:
		return name + " has no size yet\nIts photo is not straightened"
	case of.Area.Value <= 0:
		return name + " has no size yet\nIts outline is not traced"
	case of.Area.High > of.Area.Low:
		return name + ": " + s.Area(of.Area.Value) + "\nbetween " + s.Area(of.Area.Low) + " and " + s.Area(of.Area.High)
	}
	return name + ": " + s.Area(of.Area.Value) + "\nas traced"
}
