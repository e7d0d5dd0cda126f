package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
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
}

func newSlabView(p *moldPage) *slabView {
	v := &slabView{page: p, mode: slabPhoto}
	v.trace, v.lay = newTraceView(v), newLayView(v)
	v.choice = touch.NewChoice([]touch.Option{{ID: slabPhoto, Label: "Photo"}, {ID: slabLay, Label: "Lay-up"}}, v.mode, v.turn)
	v.held = container.NewStack(v.trace.root)
	bar := container.New(layout.NewCustomPaddedLayout(0, look.Gap, 14, 0), container.NewHBox(v.choice))
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
	v.see(&v.page.shot)
	v.page.pane.again()
}

// other forgets what was selected in another project.
func (v *slabView) other() {
	v.slab = ""
	if list := v.page.shot.Project.Slabs; len(list) > 0 {
		v.slab = list[0].ID
	}
	v.trace.other()
	v.lay.other()
}

// see draws a snapshot.
func (v *slabView) see(shot *app.Snapshot) {
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
	}
	if mode != v.mode {
		v.turn(mode)
	}
}

// signature names the structure of the inputs.
func (v *slabView) signature(shot *app.Snapshot) string {
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
