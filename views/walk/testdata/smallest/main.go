// The smallest program of the toolkit: a window with one line of text.
package main

import (
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	a := app.NewWithID("org.meniscus.smallest")
	w := a.NewWindow("Smallest")
	w.SetContent(widget.NewLabel("One line of text"))
	w.ShowAndRun()
}
