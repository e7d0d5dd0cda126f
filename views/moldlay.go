package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/app"
)

// layView
type layView struct {
	slab *slabView
	root *fyne.Container
}

func newLayView(v *slabView) *layView { return &layView{slab: v, root: container.NewStack()} }

func (v *layView) other() {}

func (v *layView) see(*app.Snapshot) {}

func (v *layView) signature(*app.Snapshot) string { return "" }

func (v *layView) pane(*moldPane, *app.Snapshot) fyne.CanvasObject { return moldColumn() }
