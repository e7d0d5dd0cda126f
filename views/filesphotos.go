package views

import (
	"io"

	"fyne.io/fyne/v2"

	"meniscus/app"
	"meniscus/model"
)

// exportWithPhotos asks for a place and writes the open project with its photos
// there, as one file.
func (d *Desk) exportWithPhotos() {
	d.commitAll()
	shot := d.session.Snapshot()
	if !shot.Open {
		d.sayBriefly("No piece is open", "Open one first; then it can be exported.")
		return
	}
	d.askPlace(d.Show(notebookKey), fileName(shot.Project.Name, ".zip"), "The piece was not exported", d.pack)
}

// saveTable asks for a place and writes a table of the open project there.
func (d *Desk) saveTable(kind string) {
	d.commitAll()
	if !d.session.Snapshot().Open {
		d.sayBriefly("No piece is open", "Open one first; then its tables can be saved.")
		return
	}
	d.saveFile(d.Show(notebookKey), saving{ending: " " + kind + ".csv", content: func() ([]byte, error) { return d.session.Table(kind) },
		failed: "The table was not saved", done: "The table is saved in ", then: "Its figures are in mm, g, ml and °C, with a point before the decimals."})
}

// pack writes the open project with its photos into an open file.
func (d *Desk) pack(to fyne.URIWriteCloser) {
	name, path := to.URI().Name(), to.URI().Path()
	d.say(notice{level: model.Note, what: "“" + brief(name, 60) + "” is being written", do: "You can go on meanwhile."})
	d.session.ExportWithPhotos(to, func(missing int, err error) {
		switch {
		case err != nil:
			d.say(notice{level: model.Stop, what: "“" + brief(name, 60) + "” was not written whole", do: err.Error()})
		case missing > 0:
			d.say(notice{level: model.Check, what: "Exported to " + path + ", without " + counted(missing, "picture", "pictures"),
				do: counted(missing, "picture that the piece names", "pictures that the piece names") + " cannot be read from the folder “photos” beside the notebook. The rest is whole."})
		default:
			d.sayBriefly("Exported with its photos to "+path, "Open it on the other machine with Import, or drop it on the Notebook there.")
		}
	})
}

// anywhere is a file that can be read at any place of it, as the toolkit gives
// those of a disk.
type anywhere interface {
	app.File
	io.Seeker
}

// packed gives a file that is a project with its photos, and its size; false
// where it is something else. Then it is read from its beginning again.
func packed(from fyne.URIReadCloser) (anywhere, int64, bool) {
	f, ok := from.(anywhere)
	if !ok {
		return nil, 0, false
	}
	start := make([]byte, 4)
	n, _ := f.ReadAt(start, 0)
	if !app.WithPhotos(start[:n]) {
		return nil, 0, false
	}
	size, err := f.Seek(0, io.SeekEnd)
	return f, size, err == nil
}

// unpack takes in a project with its photos, and opens it.
func (d *Desk) unpack(from app.File, size int64, name string) {
	d.commitAll()
	d.say(notice{level: model.Note, what: "“" + brief(name, 60) + "” is being looked through", do: "Nothing is taken in before all of it is found good."})
	d.session.ImportWithPhotos(from, size, func(missing int, err error) {
		switch {
		case err != nil:
			d.refuse(name, err)
		case missing > 0:
			d.say(notice{level: model.Check, what: "“" + brief(name, 60) + "” comes into the notebook, without " + counted(missing, "picture", "pictures"),
				do: "The file does not have them, nor does this notebook. Everything else is there; a picture that is added again takes its place."})
		default:
			d.sayBriefly("“"+brief(name, 60)+"” comes into the notebook with its photos", "")
		}
	})
}
