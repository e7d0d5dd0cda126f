package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
)

func (m *moldPane) floatSignature(*app.Snapshot) string { return "" }

func (m *moldPane) float(*app.Snapshot) fyne.CanvasObject { return moldColumn() }
