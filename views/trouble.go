package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/assets"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// ShowTrouble says in a window of its own why the notebook could not be opened
// and what to do, and runs until it is closed.
func ShowTrouble(a fyne.App, what, do string) {
	a.Settings().SetTheme(look.New(look.System))
	w := a.NewWindow("Meniscus")
	w.SetIcon(assets.Icon)
	body := container.NewVBox(
		container.NewHBox(touch.NewSign(touch.Stop, 26), touch.NewLine("The notebook was not opened", touch.Question, touch.Ink)),
		touch.NewText(what, touch.Body, touch.Ink),
		touch.NewText(do, touch.Strong, touch.Ink),
		container.NewHBox(touch.NewStyledButton("Close", touch.Primary, func() { a.Quit() })),
	)
	w.SetContent(inset(body))
	w.Resize(fyne.NewSize(620, 260))
	w.ShowAndRun()
}
