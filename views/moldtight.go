package views

import (
	"fyne.io/fyne/v2"

	"meniscus/app"
)

func (m *moldPane) tightSignature(*app.Snapshot) string { return "" }

func (m *moldPane) tight(*app.Snapshot) fyne.CanvasObject { return moldColumn() }
