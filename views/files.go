package views

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"

	"meniscus/model"
)

// newProject starts a piece and leads to its name.
func (d *Desk) newProject() {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.naming = true
	}
	d.session.Create("New piece")
}

// importFile asks for a file and takes the project in it in.
func (d *Desk) importFile() {
	d.commitAll()
	w := d.Show(notebookKey)
	ask := dialog.NewFileOpen(func(from fyne.URIReadCloser, err error) {
		if err != nil {
			d.refuse("the file", err)
		} else if from != nil {
			d.takeFrom(from)
		}
	}, w)
	ask.SetFilter(storage.NewExtensionFileFilter([]string{".json", ".JSON", ".zip", ".ZIP"}))
	ask.Resize(w.Canvas().Size().SubtractWidthHeight(80, 80))
	ask.Show()
}

// dropped takes in the files that were dropped on the notebook.
func (p *notebookPage) dropped(_ fyne.Position, files []fyne.URI) {
	p.desk.commitAll()
	for _, u := range files {
		if !strings.EqualFold(u.Extension(), ".json") && !strings.EqualFold(u.Extension(), ".zip") {
			p.desk.refuse(u.Name(), errors.New("a piece comes as a .json file, or as a .zip file with its photos, as Export writes them"))
			continue
		}
		from, err := storage.Reader(u)
		if err != nil {
			p.desk.refuse(u.Name(), err)
			continue
		}
		p.desk.takeFrom(from)
	}
}

// takeFrom takes in the project in an open file.
func (d *Desk) takeFrom(from fyne.URIReadCloser) {
	name := from.URI().Name()
	if file, size, ok := packed(from); ok {
		d.unpack(file, size, name)
		return
	}
	data, err := io.ReadAll(io.LimitReader(from, model.LargestImport+1))
	if err = errors.Join(err, from.Close()); err != nil {
		d.refuse(name, err)
		return
	}
	d.takeIn(data, name)
}

// takeIn takes in a project that has been read, and opens it.
func (d *Desk) takeIn(data []byte, name string) {
	d.commitAll()
	if err := d.session.Import(data); err != nil {
		d.refuse(name, err)
		return
	}
	d.sayBriefly("“"+brief(name, 60)+"” comes into the notebook", "")
}

// refuse says why a file could not be taken in, naming the fields.
func (d *Desk) refuse(name string, err error) {
	d.say(notice{level: model.Stop, what: "“" + brief(name, 60) + "” was not taken in; nothing has changed", do: faults(err)})
}

// faults words the first errors of several.
func faults(err error) string {
	const most = 3
	list := []error{err}
	if several, ok := err.(interface{ Unwrap() []error }); ok {
		list = several.Unwrap()
	}
	var parts []string
	for _, e := range list[:min(len(list), most)] {
		parts = append(parts, brief(e.Error(), 220))
	}
	text := strings.Join(parts, "\n")
	if n := len(list) - most; n > 0 {
		text += fmt.Sprintf("\nand %d more", n)
	}
	return text
}

// exportFile asks for a place and writes the open project there.
func (d *Desk) exportFile() {
	d.commitAll()
	shot := d.session.Snapshot()
	if !shot.Open {
		d.sayBriefly("No piece is open", "Open one first; then it can be exported.")
		return
	}
	d.saveFile(d.Show(notebookKey), saving{ending: ".json", content: d.session.Export, failed: "The piece was not exported", done: "The piece is exported to "})
}

// saveDates asks for a place and writes the dates of the open project there.
func (d *Desk) saveDates() {
	d.commitAll()
	d.saveFile(d.Show(cureKey), saving{ending: ".ics", content: d.session.Dates, failed: "The dates were not saved", done: "The dates are saved in ",
		then: "Send the file to your phone and open it there; its calendar asks whether to take them."})
}

// saveAllDates asks for a place and writes the dates of all running pieces there.
func (d *Desk) saveAllDates() {
	d.commitAll()
	d.saveFile(d.Show(notebookKey), saving{name: "Running pieces", ending: ".ics", content: d.session.AllDates, failed: "The dates were not saved", done: "The dates of all running pieces are saved in ",
		then: "Send the file to your phone and open it there; its calendar asks whether to take them."})
}

// saveCard asks for a place and writes the pour card of the open project there.
func (d *Desk) saveCard() {
	d.commitAll()
	if shot := d.session.Snapshot(); !shot.Open || len(shot.Plan.Layers) == 0 {
		d.sayBriefly("There is no pour to print a card of", "Plan one first, in Layers.")
		return
	}
	d.saveFile(d.Show(cureKey), saving{ending: " card.pdf", content: d.session.PourCard, failed: "The pour card was not saved", done: "The pour card is saved in ",
		then: "Open it and print it on A5, or two pages side by side on A4."})
}

// saving is a file that is to be written.
type saving struct {
	name    string // what it is called; "" for the name of the open project
	ending  string // of its name
	content func() ([]byte, error)
	failed  string // says that there was no place for it
	done    string // goes before the place where it is
	then    string // what to do with it; "" for nothing
}

// saveFile asks over a window for a place and writes a file there.
func (d *Desk) saveFile(w fyne.Window, f saving) {
	name := f.name
	if name == "" {
		name = d.session.Snapshot().Project.Name
	}
	d.askPlace(w, fileName(name, f.ending), f.failed, func(to fyne.URIWriteCloser) { d.writeTo(to, f) })
}

// askPlace asks over a window for a place for a file of a name, and hands the
// open file on; failed says that there was no place for it.
func (d *Desk) askPlace(w fyne.Window, name, failed string, then func(to fyne.URIWriteCloser)) {
	ask := dialog.NewFileSave(func(to fyne.URIWriteCloser, err error) {
		if err != nil {
			d.say(notice{level: model.Stop, what: failed, do: err.Error()})
		} else if to != nil {
			then(to)
		}
	}, w)
	ask.SetFileName(name)
	ask.SetFilter(storage.NewExtensionFileFilter([]string{filepath.Ext(name)}))
	ask.Resize(w.Canvas().Size().SubtractWidthHeight(80, 80))
	ask.Show()
}

// writeTo writes a file into an open one.
func (d *Desk) writeTo(to fyne.URIWriteCloser, f saving) {
	data, err := f.content()
	if err == nil {
		_, err = to.Write(data)
	}
	if err = errors.Join(err, to.Close()); err != nil {
		d.say(notice{level: model.Stop, what: "“" + to.URI().Name() + "” was not written whole", do: err.Error()})
		return
	}
	d.sayBriefly(f.done+to.URI().Path(), f.then)
}

// fileName makes a file's name of a project's.
func fileName(project, ending string) string {
	name := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, project)
	name = strings.Trim(filepath.Clean(brief(name, 60)), ". …")
	if name == "" {
		name = "piece"
	}
	return name + ending
}

// sayKept answers the wish to save: everything is kept as it is entered.
func (d *Desk) sayKept() {
	d.commitAll()
	switch s := d.session.Snapshot().Saved; {
	case s.Closed:
		d.redraw()
	case s.What != "":
		d.session.Retry()
	case s.Pending:
		d.sayBriefly("Being kept now", "Every change goes to the disk as you make it.")
	case s.At.IsZero():
		d.sayBriefly("Everything is kept already", "Every change goes to the disk as you make it.")
	default:
		d.sayBriefly("Everything is kept already, since "+local(s.At).Format("15:04:05"), "Every change goes to the disk as you make it.")
	}
}
