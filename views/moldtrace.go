package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
)

// traceView
type traceView struct {
	slab *slabView
	root *fyne.Container
}

func newTraceView(v *slabView) *traceView { return &traceView{slab: v, root: container.NewStack()} }

func (v *traceView) other() {}

func (v *traceView) see(*app.Snapshot) {}

func (v *traceView) signature(*app.Snapshot) string { return "" }

func (v *traceView) pane(*moldPane, *app.Snapshot) fyne.CanvasObject { return moldColumn() }
