package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
)

func (m *moldPane) natureSignature(*app.Snapshot) string { return "" }

func (m *moldPane) nature(*app.Snapshot) fyne.CanvasObject { return moldColumn() }
