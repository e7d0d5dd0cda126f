package look

import (
	"runtime"

	"fyne.io/fyne/v2"
)

// Motion is how much the maker lets move on the screen.
type Motion string

// The motions. Without a word of the maker's it is as the desktop has it.
const (
	AsDesktop   Motion = ""
	LessMotion  Motion = "less"
	WholeMotion Motion = "whole"
)

// App is the toolkit's app with a say in whether things move.
type App struct {
	fyne.App
	still func() bool
}

// Calm gives the toolkit's app with a say in whether things move, in its own
// place for the toolkit too.
func Calm(a fyne.App) *App {
	calm := &App{App: a}
	if runtime.GOOS != "darwin" { // where the toolkit insists on its own
		fyne.SetCurrentApp(calm)
	}
	return calm
}

// Obey has neither the toolkit's own controls nor ours move or blink while still
// says so.
func (a *App) Obey(still func() bool) { a.still = still }

// Still tells whether nothing is to move on the screen.
func Still() bool {
	a := fyne.CurrentApp()
	return a != nil && !a.Settings().ShowAnimations()
}

// Settings is used by the toolkit.
func (a *App) Settings() fyne.Settings { return calmSettings{a.App.Settings(), a} }

type calmSettings struct {
	fyne.Settings
	app *App
}

// ShowAnimations is used by the toolkit.
func (s calmSettings) ShowAnimations() bool {
	if s.app.still != nil {
		return !s.app.still()
	}
	return s.Settings.ShowAnimations()
}
