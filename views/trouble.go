package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"meniscus/assets"
	"meniscus/views/look"
	"meniscus/views/touch"
)

// WayOut is what can be done where the notebook cannot be opened as it is.
type WayOut struct {
	Words string       // what it is, and what would be missing
	Label string       // of the button that takes it
	Take  func() error // opens the notebook in windows of its own, or says why not
}

// ShowTrouble says in a window of its own why the notebook could not be opened,
// and what to do or the way out, nil where there is none, and runs until it is
// closed.
func ShowTrouble(a fyne.App, what, do string, way *WayOut) {
	a.Settings().SetTheme(look.New(look.System))
	w := a.NewWindow("Meniscus")
	w.SetIcon(assets.Icon)
	title := touch.NewLine("The notebook was not opened", touch.Question, touch.Ink)
	told, todo := touch.NewText(what, touch.Body, touch.Ink), touch.NewText(do, touch.Strong, touch.Ink)
	buttons := container.NewHBox()
	if way != nil {
		todo.SetText(way.Words)
		buttons.Add(touch.NewStyledButton(way.Label, touch.Primary, func() {
			if err := way.Take(); err != nil {
				told.SetText(err.Error())
				return
			}
			w.Close()
		}))
		buttons.Add(touch.NewButton("Close", a.Quit))
	} else {
		buttons.Add(touch.NewStyledButton("Close", touch.Primary, a.Quit))
	}
	w.SetContent(inset(container.NewVBox(container.NewHBox(touch.NewSign(touch.Stop, 26), title), told, todo, buttons)))
	w.Resize(fyne.NewSize(620, 260))
	w.ShowAndRun()
}
