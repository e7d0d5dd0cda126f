package views

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"meniscus/app"
)

// choosePhoto asks for a picture of the face that is shown.
func (t *traceView) choosePhoto() {
	page := t.slab.page
	page.in.form.CommitAll()
	choosePhoto(page.desk.Show(moldKey), t.take, func(err error) { t.said(capitalised(problemWords(err)) + ".") })
}

// dropped takes a picture that was dropped on the window.
func (t *traceView) dropped(_ fyne.Position, files []fyne.URI) {
	page := t.slab.page
	if len(files) == 0 || !page.shot.Open {
		return
	}
	page.in.form.CommitAll()
	if t.slab.mode != slabPhoto {
		t.slab.turn(slabPhoto)
	}
	if page.pane.section != moldSlabs {
		page.pane.show(moldSlabs)
	}
	from, err := storage.Reader(files[0])
	if err != nil {
		t.said(notKept(files[0].Name(), err))
		return
	}
	t.take(from)
	if len(files) > 1 {
		t.said("One picture at a time: “" + brief(files[0].Name(), 40) + "” was taken. Choose the other face for its own.")
	}
}

// take makes a picture the photo of the face that is shown, of a new slab where
// there is none.
func (t *traceView) take(from fyne.URIReadCloser) {
	page, name := t.slab.page, from.URI().Name()
	t.said("")
	page.desk.session.AddSlabPhoto(from, t.slab.slab, t.face, func(slab string, err error) {
		if err != nil {
			t.said(notKept(name, err))
			return
		}
		t.slab.added = slab
		t.again()
	})
}

// load has a picture decoded and shows it.
func (t *traceView) load(name string) {
	t.photo, t.loading = name, true
	t.surface.SetPhoto(nil)
	t.slab.page.desk.session.Raster(name, func(r *app.Raster, err error) {
		if t.photo != name {
			return
		}
		t.loading = false
		if err != nil {
			t.said("The photo cannot be shown: " + strings.TrimSuffix(problemWords(err), ".") + ".")
		} else {
			t.surface.SetPhoto(r)
		}
		if face := t.tracing(&t.slab.page.shot.Project); face != nil {
			t.tell(face)
		}
	})
}
