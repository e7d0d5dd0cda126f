package views

import (
	"net/url"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"meniscus/app"
	"meniscus/model"
	"meniscus/views/touch"
)

// showPapers leads to the choice of papers in the notebook.
func (d *Desk) showPapers() {
	d.commitAll()
	d.Show(notebookKey)
	if p, ok := d.pages[notebookKey].(*notebookPage); ok {
		p.turnTo(p.papers.root)
	}
}

// paperKind is one thing that can be printed.
type paperKind struct {
	name    string
	named   string // as a sentence begins with it
	many    bool   // that is of several
	what    string // what it is for, and on which paper
	ending  string // of the file's name
	content func() ([]byte, error)
	lacks   func(*app.Snapshot) string // why there is none; empty where there is
	shop    bool                       // it is of the shelf, not of the open piece
	also    fyne.CanvasObject          // what can be chosen for it; may be nil
}

// paperRow is one paper with what can be done with it.
type paperRow struct {
	desk    *Desk
	window  string // that it stands in
	kind    paperKind
	said    *touch.Text
	buttons []*touch.Button
	card    *touch.Card
}

// papersPage is the choice of papers in the notebook.
type papersPage struct {
	desk *Desk
	rows []*paperRow
	root fyne.CanvasObject
}

func newPapersPage(d *Desk, back func()) *papersPage {
	p := &papersPage{desk: d}
	s := d.session
	poured := func(shot *app.Snapshot) string {
		if len(shot.Plan.Layers) == 0 {
			return "Plan a pour first, in Layers."
		}
		return ""
	}
	always := func(*app.Snapshot) string { return "" }
	costs := touch.NewToggle("A second page for yourself: what it costs you and how the price comes about", false, nil)
	list := container.New(layout.NewCustomPaddedVBoxLayout(10))
	for _, k := range []paperKind{
		{name: "Shop sheet", named: "The shop sheet", what: "All of the piece on one page for the bench: drawings, amounts, heat, times, what to tick, and room to write. Safety notes that have no room go on a second one.", ending: " shop sheet.pdf", content: s.ShopSheet, lacks: poured},
		{name: "Pour card", named: "The pour card", what: "What to weigh and when, to be read at arm's length: A5 pages.", ending: " card.pdf", content: s.PourCard, lacks: poured},
		{name: "Care card", named: "The care card", what: "Goes with the piece to its owner: A6, or A5 where there is more to say.", ending: " care card.pdf", content: s.CareCard, lacks: always},
		{name: "Labels, one each", named: "The labels", many: true, what: "Name, size, lot and day of the piece, 60 × 30 mm, for a label printer.", ending: " labels.pdf", content: func() ([]byte, error) { return s.PieceLabels(false) }, lacks: always},
		{name: "Labels on a sheet", named: "The labels", many: true, what: "The same side by side, with lines to cut along.", ending: " label sheet.pdf", content: func() ([]byte, error) { return s.PieceLabels(true) }, lacks: always},
		{name: "Price quote", named: "The price quote", what: "For the customer: what the piece is, its price for one, three, ten, how long that holds, and its care. The price is that which you ask in Shelf, Price, or else follows from your margin.", ending: " quote.pdf", content: func() ([]byte, error) { return s.Quote(costs.On()) }, lacks: always, also: costs},
		{name: "Labels for the bottles", named: "The labels", many: true, what: "Of all bottles on the shelf: product, part, lot, when opened. On sheets, with lines to cut along.", ending: bottleLabels, content: func() ([]byte, error) { return s.BottleLabels("", true) }, lacks: noBottles, shop: true},
	} {
		r := newPaperRow(d, notebookKey, k)
		p.rows = append(p.rows, r)
		list.Add(r.card)
	}
	foot := "Open shows the paper in your system's own program, from which it can be printed too. Print at 100 %, not fit to page."
	if !s.CanPrint() {
		foot += " This system has no print command, so there is no button for it here."
	}
	list.Add(touch.NewText(foot, touch.Small, touch.Faint))
	p.root = asRead(pageHead("Paper", back), touch.NewScroll(inset(list)), nil)
	return p
}

// bottleLabels is what the file of labels for bottles is called.
const bottleLabels = "Bottle labels.pdf"

// labelsOf is the card of the labels of a product on the shelf, side by side on a
// sheet, or of the label of one bottle, on a page of its own size.
func (d *Desk) labelsOf(path, what string, onSheets bool) fyne.CanvasObject {
	name, named := "Label", "The label"
	if onSheets {
		name, named = "Labels", "The labels"
	}
	return newPaperRow(d, shelfKey, paperKind{name: name, named: named, many: onSheets, what: what, ending: bottleLabels, content: func() ([]byte, error) { return d.session.BottleLabels(path, onSheets) }, shop: true}).card
}

// noBottles says why no bottle can be labelled.
func noBottles(shot *app.Snapshot) string {
	if len(model.BottleLabels(&shot.Shelf, "")) == 0 {
		return "No bottle is on the shelf yet."
	}
	return ""
}

// newPaperRow makes the card of one paper in a window.
func newPaperRow(d *Desk, window string, k paperKind) *paperRow {
	r := &paperRow{desk: d, window: window, kind: k, said: touch.NewText(k.what, touch.Body, touch.Ink)}
	r.buttons = append(r.buttons, touch.NewButton("Open", r.open))
	if d.session.CanPrint() {
		r.buttons = append(r.buttons, touch.NewButton("Print", r.print))
	}
	r.buttons = append(r.buttons, touch.NewButton("Save…", r.save))
	var beside []fyne.CanvasObject
	for _, b := range r.buttons {
		beside = append(beside, b)
	}
	var body fyne.CanvasObject = r.said
	if k.also != nil {
		body = stack(r.said, k.also)
	}
	r.card = touch.NewCard(k.name, body, beside...)
	return r
}

// see tells which papers there are.
func (p *papersPage) see(shot *app.Snapshot) {
	for _, r := range p.rows {
		why := "Open a piece first."
		if shot.Open || r.kind.shop {
			why = r.kind.lacks(shot)
		}
		r.said.SetText(sentences(r.kind.what, why))
		for _, b := range r.buttons {
			if why == "" {
				b.Enable()
			} else {
				b.Disable()
			}
		}
	}
}

// says tells what became of a paper: one is what follows its name, and several
// where it is more than one thing.
func (k *paperKind) says(one, several string) string {
	if k.many {
		return k.named + " " + several
	}
	return k.named + " " + one
}

// name is what the file of a paper is called.
func (r *paperRow) name() string {
	if r.kind.shop {
		return r.kind.ending
	}
	return fileName(r.desk.session.Snapshot().Project.Name, r.kind.ending)
}

// lay makes a paper and puts it where another program can read it.
func (r *paperRow) lay() (string, bool) {
	r.desk.commitAll()
	data, err := r.kind.content()
	path := ""
	if err == nil {
		path, err = r.desk.session.Lay(r.name(), data)
	}
	if err != nil {
		r.desk.say(notice{level: model.Stop, what: "The paper was not made", do: err.Error()})
		return "", false
	}
	return path, true
}

// open shows a paper in the system's own program.
func (r *paperRow) open() {
	path, ok := r.lay()
	if !ok {
		return
	}
	slashed := filepath.ToSlash(path)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed
	}
	if err := r.desk.app.OpenURL(&url.URL{Scheme: "file", Path: slashed}); err != nil {
		r.desk.say(notice{level: model.Stop, what: "Nothing on this system opened the paper", do: "It was made, but no program for PDF files was found here. Save it instead, and open it where you can."})
		return
	}
	r.desk.sayBriefly(r.kind.says("was", "were")+" handed to your system's program for PDF files", "Print it at 100 %, not fit to page.")
}

// print hands a paper to the printer.
func (r *paperRow) print() {
	path, ok := r.lay()
	if !ok {
		return
	}
	r.desk.session.Print(path, func(err error) {
		if err != nil {
			r.desk.say(notice{level: model.Stop, what: r.kind.says("was", "were") + " not printed", do: err.Error()})
			return
		}
		r.desk.sayBriefly(r.kind.says("is on its", "are on their")+" way to the printer", "")
	})
}

// save asks for a place and writes a paper there.
func (r *paperRow) save() {
	r.desk.commitAll()
	f := saving{ending: r.kind.ending, content: r.kind.content, failed: r.kind.says("was", "were") + " not saved", done: r.kind.says("is", "are") + " saved in ", then: "Print it at 100 %, not fit to page."}
	if r.kind.shop {
		f.name, f.ending = strings.TrimSuffix(r.kind.ending, ".pdf"), ".pdf"
	}
	r.desk.saveFile(r.desk.Show(r.window), f)
}

// saveFinishDrawing asks for a place and writes there what is finished of the
// open project's casting, from above or in section.
func (d *Desk) saveFinishDrawing(section bool) {
	d.commitAll()
	d.saveFile(d.Show(finishKey), saving{ending: " finishing.svg", content: func() ([]byte, error) { return d.session.FinishDrawing(section) },
		failed: "The drawing was not saved", done: "The drawing is saved in ", then: "It is in millimetres; the scale is written in it."})
}

// saveDrawing asks over a window for a place and writes the drawing of the open
// project's mold there.
func (d *Desk) saveDrawing(key string, above, section bool) {
	d.commitAll()
	d.saveFile(d.Show(key), saving{ending: " drawing.svg", content: func() ([]byte, error) { return d.session.Drawing(above, section) },
		failed: "The drawing was not saved", done: "The drawing is saved in ", then: "It is in millimetres; the scale is written in it."})
}
