package views

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
)

// choosePhoto asks over a window for a picture and hands it to take; failed is
// told why one cannot be opened.
func choosePhoto(w fyne.Window, take func(fyne.URIReadCloser), failed func(error)) {
	ask := dialog.NewFileOpen(func(from fyne.URIReadCloser, err error) {
		if err != nil {
			failed(err)
		} else if from != nil {
			take(from)
		}
	}, w)
	ask.SetFilter(storage.NewExtensionFileFilter([]string{".jpg", ".jpeg", ".png", ".gif", ".webp", ".heic", ".heif", ".JPG", ".JPEG", ".PNG", ".GIF", ".WEBP", ".HEIC", ".HEIF"}))
	ask.Resize(w.Canvas().Size().SubtractWidthHeight(80, 80))
	ask.Show()
}

// seenLayer is the layer that a picture taken now shows: the last that was
// poured, "" once the piece is out of its mold.
func seenLayer(plan *model.Plan) string {
	if l := plan.LastPoured(); l != nil && plan.InMold() {
		return l.ID
	}
	return ""
}

// notKept says that a picture was not kept, and why.
func notKept(name string, err error) string {
	return "“" + brief(name, 40) + "” was not kept: " + problemWords(err)
}

// photo asks for a picture, and keeps it with the time.
func (b *benchLook) photo() {
	failed := func(err error) {
		b.said = problemWords(err)
		b.show()
	}
	b.turn(benchActs)
	choosePhoto(b.cover.window, func(from fyne.URIReadCloser) {
		name := from.URI().Name()
		b.cover.desk.session.AddPhoto(from, seenLayer(&b.shot.Plan), "", func(err error) {
			b.said = "The photo is kept in the journal."
			if err != nil {
				b.said = notKept(name, err)
			}
			b.show()
		})
	}, failed)
}
